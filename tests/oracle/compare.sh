#!/bin/sh
# Does this program say of sheets what an older commit said?  Kept out of .ci/run: it builds that commit.
#
#   tests/oracle/compare.sh COMMIT [SHEETS]      BUILD: this program's build folder, else build/
#
# Both read the older commit's rules, so that only the engine differs.  Compared are every verdict, value,
# place, total and correction of random sheets (make_sheets.c) and of all sheets of tests/golden and sheets/:
# audited simply, guarded and by a sample, one by one and as a fleet.  OLD: its binary, when it is built already.
set -eu
cd "$(dirname "$0")/../.."
commit=${1:?name a commit}
sheets=${2:-300}
build=${BUILD:-build}
work=$(mktemp -d)
trap 'git worktree remove --force "$work/tree" 2>/dev/null || true; rm -rf "$work"' EXIT
git worktree add -q --detach "$work/tree" "$commit"
if [ -z "${OLD:-}" ]; then
    cmake -S "$work/tree" -B "$work/build" -DCMAKE_BUILD_TYPE=Release >/dev/null
    cmake --build "$work/build" -j --target hammerline_command >/dev/null
    OLD=$work/build/bin/hammerline
fi
cmake --build "$build" --target make_sheets >/dev/null
make=$(find "$build" -name make_sheets -type f | head -1)
rules=$work/tree/rules
for book in grand upright; do
    "$make" "$rules" $book "$sheets" 7 "$work/$book"
done

# What both must say: the rest of the JSON may grow.
essence() {
    grep -oE '"(ready|note|step|reading|verdict|why|low|high|line|column|adjuster|amount|way|predicted|computed|floated|uncertainty|pass|fail|stale|missing|doubtful)": *("[^"]*"|[^,}]*)' || true
}
n=0 bad=0
compare() {
    "$OLD" "$@" --rules "$rules" 2>"$work/old.err" >"$work/old.out" || true
    "$build/bin/hammerline" "$@" --rules "$rules" 2>"$work/new.err" >"$work/new.out" || true
    n=$((n + 1))
    essence <"$work/old.out" >"$work/old" && essence <"$work/new.out" >"$work/new"
    cmp -s "$work/old" "$work/new" && cmp -s "$work/old.err" "$work/new.err" && return
    bad=$((bad + 1))
    echo "differs: $*"
}
for sheet in "$work"/grand/*.csv "$work"/upright/*.csv sheets/*.csv $(find tests/golden -name '*.csv'); do
    compare audit --json "$sheet"
    compare audit --json --guarded "$sheet"
done
for sheet in "$work"/grand/sheet-00*.csv; do
    compare audit --json --sample 20 --seed 5 "$sheet"
done
for book in grand upright; do # as a fleet, by shared heads
    "$OLD" audit --rules "$rules" "$work/$book" >"$work/old" 2>&1 || true
    "$build/bin/hammerline" audit --rules "$rules" "$work/$book" >"$work/new" 2>&1 || true
    n=$((n + 1))
    cmp -s "$work/old" "$work/new" || { bad=$((bad + 1)); echo "differs: the fleet $book"; }
done
echo "$n compared, $bad differ"
[ "$bad" -eq 0 ]
