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
# Run into a file; its exit status goes last.  A sheet that is not ready is no error of the run.
run() {
    to=$1 status=0
    shift
    "$@" --rules "$rules" 2>"$to.err" >"$to.out" || status=$?
    echo "status $status" >>"$to.err"
}
n=0 bad=0 said=0
compare() {
    run "$work/old" "$OLD" "$@"
    run "$work/new" "$build/bin/hammerline" "$@"
    n=$((n + 1))
    essence <"$work/old.out" >"$work/old" && essence <"$work/new.out" >"$work/new"
    [ -s "$work/old" ] && said=$((said + 1))
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
    run "$work/old" "$OLD" audit "$work/$book"
    run "$work/new" "$build/bin/hammerline" audit "$work/$book"
    n=$((n + 1))
    [ -s "$work/old.out" ] && cmp -s "$work/old.out" "$work/new.out" && cmp -s "$work/old.err" "$work/new.err" || { bad=$((bad + 1)); echo "differs: the fleet $book"; }
done
echo "$n compared, $bad differ, $said with findings"
# two programs that both say nothing agree about nothing
[ "$said" -gt $((n / 2)) ]
[ "$bad" -eq 0 ]
