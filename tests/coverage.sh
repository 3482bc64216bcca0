#!/usr/bin/env bash
# Branch coverage of the engine's core, engine/judge and engine/model, by the unit tests, the fault runs
# and the fuzz corpus.  Needs gcovr.
#   coverage.sh [BUILD]      BUILD: a folder to build in, else a new one; prints a line a file, then all
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
cmake -S "$root" -B "$build" -DCMAKE_C_COMPILER=gcc -DCMAKE_BUILD_TYPE=Debug -DHAMMERLINE_TESTS=ON \
    -DHAMMERLINE_COVERAGE=ON > /dev/null
cmake --build "$build" -j "$(nproc)" > /dev/null
# Without the scripts that only run the whole program.
ctest --test-dir "$build" -j "$(nproc)" -E 'simulate|glpk|faults|locales|package|pages|readme|golden|bench' \
    > "$build/tests.log" || { grep -E 'Failed|Timeout' "$build/tests.log" >&2; echo "the figure is without those" >&2; }
gcovr --root "$root" --object-directory "$build" --filter "$root/engine/judge/" --filter "$root/engine/model/" \
    --branches --exclude-unreachable-branches --gcov-ignore-parse-errors --print-summary "$build" |
    awk '/^engine\// { printf "%-34s %5s of %5s branches %5s\n", $1, $3, $2, $4 } /^(lines|functions|branches):/'
