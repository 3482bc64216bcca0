#!/usr/bin/env bash
# A short run of every fuzz target, from its corpus; nothing is added to it.
#   smoke.sh [SECONDS] [BUILD]    SECONDS in all, 20; BUILD: a folder to build in, else a new one
# Skipped (77) where there is no clang with libFuzzer.  What ends a run is left as BUILD/crash-...
set -eu
seconds=${1:-20}
root=$(cd "$(dirname "$0")/../.." && pwd)
targets="sheet number journal rules fleet"
clang=${FUZZ_CC:-clang}
if ! echo 'int LLVMFuzzerTestOneInput(const unsigned char *d, unsigned long n) { return (void)d, n > 9; }' |
    "$clang" -x c - -fsanitize=fuzzer -o /dev/null 2> /dev/null; then
    echo "SKIP no clang with libFuzzer here"
    exit 77
fi
if [ -n "${2:-}" ]; then
    mkdir -p "$2"
    build=$(cd "$2" && pwd)
else
    build=$(mktemp -d)
fi
cmake -S "$root" -B "$build" -DCMAKE_C_COMPILER="$clang" -DHAMMERLINE_TESTS=ON -DHAMMERLINE_FUZZ=ON \
    -DHAMMERLINE_SANITIZE=ON > /dev/null
for target in $targets; do
    cmake --build "$build" --target "fuzz_$target" -j "$(nproc)" > /dev/null
done
each=$((seconds / 5 > 0 ? seconds / 5 : 1))
cd "$build"
for target in $targets; do
    dictionary=
    case $target in
    sheet | journal | fleet) dictionary=-dict=$root/tests/fuzz/sheet.dict ;;
    rules) dictionary=-dict=$root/tests/fuzz/rules.dict ;;
    esac
    mkdir -p "found/$target"
    echo "fuzz_$target, $each s"
    # shellcheck disable=SC2086 # no word at all when empty
    if ! tests/fuzz_$target "found/$target" "$root/tests/fuzz/corpus/$target" $dictionary \
        -max_total_time="$each" -timeout=10 -rss_limit_mb=1500 -artifact_prefix="$build/$target-" \
        > "$target.log" 2>&1; then
        tail -40 "$target.log"
        echo "fuzz_$target found something; see $build"
        exit 1
    fi
    tail -1 "$target.log"
done
[ -n "${2:-}" ] || rm -rf "$build"
