#!/usr/bin/env bash
# Do the tests notice?  Makes one small thing wrong at a time in the judging and planning code, and runs
# the tests that belong to the file, the quick ones first: killed, or survived.  Some minutes a file; not
# part of CI.
#
#   bash run.sh [FILE...]      names in engine/judge without .c; else all of them
#   JOBS=2 bash run.sh plan    so many mutants at once; else one a core
#   EVERY=5 bash run.sh        only every fifth mutant
#   AGAIN=LOG bash run.sh plan     after tests were added: of what LOG, printed by an earlier run over the
#                                  same source, says survived; the others count as they did
#
# equivalent.tsv lists mutants that no test can tell from the original, each with the reason; they are
# not made.  A change that a line offers more than once has its place behind it: "|| -> && #2".
# Works in a copy.  Ends with 1 when fewer than 90 of 100 are killed.
set -u
root=$(cd "$(dirname "$0")/../.." && pwd)
here=$root/tests/mutation
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
CC=${CC:-cc}
jobs=${JOBS:-$(nproc)}
again=${AGAIN:+$(realpath "$AGAIN")}
files=("$@")
if [ $# -eq 0 ]; then
    files=(verdict stale even)
    for file in "$root"/engine/judge/plan*.c; do files+=("$(basename "$file" .c)"); done
fi

tests_of() {
    case $1 in
    verdict) echo test_verdict test_guarded test_audit test_values ;;
    stale) echo test_stale test_stale_cases test_presumed test_audit test_learn ;;
    even) echo test_even test_even_naive test_audit test_render ;;
    *) cd "$root/tests/unit" && echo golden test_plan*.c test_way.c ../faults/test_plan_memory.c | sed -e 's/\.c\b//g' -e 's,\.\./faults/,,' ;;
    esac
}

cp -r "$root/engine" "$root/rules" "$root/sheets" "$work/" || exit 2
mkdir "$work/tests" && cp -r "$root/tests/unit" "$root/tests/golden" "$work/tests/" || exit 2
cp "$root"/tests/faults/*.h "$root"/tests/faults/test_*memory*.c "$work/tests/unit/" || exit 2
cd "$work" || exit 2
# Every piece that an arena hands out in a block of its own, so that a step past an array's end is seen.
sed -i -e 's/^#define BLOCK_ROOM .*/#define BLOCK_ROOM (size_t)0/' -e '/want = (want + align - 1)/d' engine/base/arena.c
grep -q 'BLOCK_ROOM (size_t)0' engine/base/arena.c || exit 2
export ASAN_OPTIONS=detect_leaks=0
lua_flags=$(pkg-config --cflags lua5.4)
lua=$(pkg-config --libs lua5.4)
includes=$(for layer in . base model host judge render cli; do echo "-Iengine/$layer"; done)
flags="-std=c17 -D_POSIX_C_SOURCE=200809L -UNDEBUG -O1 -fsanitize=address,bounds -fno-sanitize-recover=bounds -DHAMMERLINE_NO_WALLS -w $includes $lua_flags -Itests/unit"
# Books are opened anew, not taken as they were pressed.
printf '#include "pressed.h"\nconst hl_pressed hl__pressed[] = {{0, 0, 0}};\nconst int hl__n_pressed = 0;\n' > engine/host/unpressed.c
printf '#define RULES_FOLDER "%s/rules"\n#define SHEETS_FOLDER "%s/sheets"\n' "$work" "$work" > folders.h
flags="$flags -include $work/folders.h"
export CC flags lua work here
mkdir objects tests/bin
compile() { # shellcheck disable=SC2086 # lists of words
    $CC $flags -c "$1" -o "objects/$(echo "$1" | tr / _).o"; }
export -f compile
find engine/base engine/model engine/host engine/judge engine/render engine/cli -name '*.c' -print0 |
    xargs -0 -P "$jobs" -I{} bash -c 'compile {}' || exit 2
mkdir -p cli/bin cli/share/hammerline && mv objects/engine_cli_* cli/ && ln -s "$work/rules" cli/share/hammerline/rules
ar rcs libwhole.a objects/engine_*.o || exit 2
all_tests=$(for file in "${files[@]}"; do tests_of "$file"; done | tr ' ' '\n' | sort -u)
compile tests/unit/small_book.c || exit 2
for test in $all_tests; do [ "$test" = golden ] || echo "tests/unit/$test.c"; done |
    xargs -P "$jobs" -I{} bash -c 'compile {}' || exit 2

# link TEST PROGRAM [MUTANT.o]: what the mutant's file holds is not taken from the library.  The golden
# cases of the plan are a test as well: its program is the command line.
link() {
    local short=
    case $1 in
    golden)
        # shellcheck disable=SC2086
        $CC -fsanitize=address,bounds cli/*.o ${3:-} libwhole.a $lua -lm -lpthread -o "cli/bin/$(basename "$2")" 2> /dev/null
        return
        ;;
    *memory*) short=-Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc ;;
    esac
    # shellcheck disable=SC2086
    $CC -fsanitize=address,bounds "objects/tests_unit_$1.c.o" objects/tests_unit_small_book.c.o ${3:-} libwhole.a $lua \
        $short -lcmocka -ljansson -lgsl -lgslcblas -lm -lpthread -o "$2" 2> /dev/null
}
run() { # TEST PROGRAM
    if [ "$1" = golden ]; then
        cases=$(cd "$work/tests/golden" && echo plan*)
        CASES=$cases timeout 60 sh "$work/tests/golden/run.sh" "$work/cli/bin/$(basename "$2")"
    else
        cd "$work/tests" && timeout 20 "$2"
    fi
}
export -f link run

# The quick tests first.  A test that fails by itself shows nothing.
for test in $all_tests; do
    link "$test" "tests/bin/$test" || { echo "$test does not link" >&2; exit 2; }
    begin=$(date +%s%N)
    (run "$test" "$work/tests/bin/$test" > /dev/null 2>&1) || { echo "$test fails as it is; left out" >&2; continue; }
    echo "$((($(date +%s%N) - begin) / 1000000)) $test"
done | sort -n | cut -d' ' -f2 > order

try() { # FILE NUMBER LINE WHAT: a line of the result
    local place=$work/$1-$2 result=survived test
    lua5.4 "$here/mutate.lua" "engine/judge/$1.c" "$2" > "$place.c"
    # shellcheck disable=SC2086
    if ! $CC $flags -Iengine/judge -c "$place.c" -o "$place.o" 2> /dev/null; then
        result=unbuilt
    else
        while read -r test; do
            link "$test" "$place-test" "$place.o" || { result=unbuilt; break; }
            (run "$test" "$place-test" > /dev/null 2>&1) || { result="killed by $test"; break; }
        done < "order-$1"
    fi
    rm -f "$place.c" "$place.o" "$place-test" "cli/bin/$(basename "$place")-test"
    printf '%s\t%s\t%s.c:%s\t%s\n' "$result" "$2" "$1" "$3" "$4"
}
export -f try

killed=0 survived=0
for file in "${files[@]}"; do
    for test in $(tests_of "$file"); do grep -x "$test" order; done > wanted
    grep -xFf wanted order > "order-$file"
    lua5.4 "$here/mutate.lua" "engine/judge/$file.c" > all-mutants || exit 2
    # A mutant is known by what it changes and by its line's text (a dropped return by the line before
    # it, too), so that lines may move.
    awk -F '\t' -v file="$file.c" -v every="${EVERY:-1}" '
        FILENAME ~ /equivalent/ { if ($1 == file) known[$2 "\t" $3] = 1; next }
        FILENAME ~ /engine/ { gsub(/^[ \t]+|[ \t]+$/, ""); line[FNR] = $0; next }
        { text = ($3 ~ /^dropped/ ? line[$2 - 1] " " : "") line[$2] }
        { nth = $3 " #" ++seen[$2 "\t" $3] }
        ($3 "\t" text) in known || (nth "\t" text) in known { same++; next }
        n++ % every == 0 { print $1 "\t" $2 "\t" $3 }
        END { print same + 0 > "same" }' "$here/equivalent.tsv" "engine/judge/$file.c" all-mutants > mutants
    before=0
    if [ -n "$again" ]; then
        while IFS=$'\t' read -r number line what; do
            grep -qF "survived: $file.c:$line: $what: " "$again" && printf '%s\t%s\t%s\n' "$number" "$line" "$what"
        done < mutants > left
        before=$(($(wc -l < mutants) - $(wc -l < left)))
        mv left mutants
    fi
    export file
    # shellcheck disable=SC2016 # the inner shell expands them
    tr '\t' '\n' < mutants | xargs -r -d '\n' -n 3 -P "$jobs" bash -c 'try "$file" "$@"' - > result
    k=$((before + $(grep -c '^killed' result))) s=$(grep -c '^survived' result)
    echo "$file.c: $k killed, $s survived, $(grep -c '^unbuilt' result) not built, $(cat same) known to be the same"
    grep '^survived' result | sort -t "$(printf '\t')" -k 2n | while IFS="$(printf '\t')" read -r _ _ place what; do
        echo "  survived: $place: $what: $(sed -n "${place#*:}s/^ *//p" "engine/judge/$file.c")"
    done
    killed=$((killed + k)) survived=$((survived + s))
done
echo "all: $killed of $((killed + survived)) killed ($((killed * 100 / (killed + survived > 0 ? killed + survived : 1))) %)"
[ $((killed * 10)) -ge $(((killed + survived) * 9)) ]
