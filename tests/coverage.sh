#!/usr/bin/env bash
# Branch coverage of the engine's core, from the book to the plan, by the unit tests, the golden runs,
# the fault runs of memory and the fuzz corpus.  Needs gcovr.
#   bash coverage.sh [BUILD]      BUILD: a folder to build in, else a new one; prints a line a file, then all
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
command -v gcovr > /dev/null || { echo "SKIP gcovr is not here"; exit 77; }
if [ -n "${1:-}" ]; then
    mkdir -p "$1"
    build=$(cd "$1" && pwd)
else
    build=$(mktemp -d)
    trap 'rm -rf "$build"' EXIT
fi
jobs=${JOBS:-$(nproc)}
find "$build" -name '*.gcda' -delete # of an earlier run
# Atomic, as a fleet is judged by several threads at once.
cmake -S "$root" -B "$build" -DCMAKE_C_COMPILER=gcc -DCMAKE_BUILD_TYPE=Debug -DHAMMERLINE_TESTS=ON \
    -DHAMMERLINE_COVERAGE=ON -DCMAKE_C_FLAGS=-fprofile-update=atomic > /dev/null
cmake --build "$build" -j "$jobs" > /dev/null
# Without the scripts that are long, or that build programs of their own; and without the full disk, which
# the counters can't be written to either.
CASES=$(find "$root/tests/golden" -name cmd -printf '%h\n' | sed 's,.*/,,' | grep -v full-disk | sort | paste -s -d ' ')
export CASES
ctest --test-dir "$build" -j "$jobs" -E 'simulate|glpk|faults|locales|package|pages|readme|bench' \
    > "$build/tests.log" || { grep -E 'Failed|Timeout' "$build/tests.log" >&2; echo "the figure is without those" >&2; }
gcovr --root "$root" --object-directory "$build" --filter "$root/engine/book/" --filter "$root/engine/sheet/" --filter "$root/engine/measure/" --filter "$root/engine/state/" --filter "$root/engine/judge/" --filter "$root/engine/advise/" --filter "$root/engine/fleet/" \
    --branches --exclude-unreachable-branches --gcov-ignore-parse-errors --print-summary "$build" |
    awk '/^engine\// { printf "%-34s %5s of %5s branches %5s\n", $1, $3, $2, $4 } /^(lines|functions|branches):/'
