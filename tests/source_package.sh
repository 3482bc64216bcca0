#!/usr/bin/env bash
# The source package: it holds what the repository holds, brings the manual pages ready, and a machine without
# cmark installs those.  HAMMERLINE_BUILD names the build folder.
set -u
build=$(cd "${HAMMERLINE_BUILD:?the build folder}" && pwd) || exit 2
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" && pwd) || exit 2
lacks() {
    echo "not here: $1"
    [ -n "${HAMMERLINE_NO_SKIP:-}" ] && exit 1
    exit 77
}
command -v cpack >/dev/null || lacks cpack
[ -s "$build/pages/hammerline.1" ] || lacks cmark
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
complain() { echo "$1" >&2; bad=1; }
try() {
    "$@" >"$work/said" 2>&1 && return
    complain "failed: $*"
    cat "$work/said" >&2
    exit 1
}

(cd "$work" && try cpack --config "$build/CPackSourceConfig.cmake" -B "$work/out") || exit 1
try tar xzf "$work"/out/hammerline-*.tar.gz -C "$work"
source=$(echo "$work"/hammerline-*/)
for folder in engine rules tests sheets docs .ci; do
    diff -rq --exclude=ready "$root/$folder" "$source$folder" >&2 || complain "$folder is not as it was"
done
for page in "$build"/pages/*.[15] "$build/pages/_hammerline" "$build"/pages/hammerline.{bash,fish}; do
    cmp "$page" "${source}docs/man/ready/$(basename "$page")" >&2 || complain "$(basename "$page") is not ready in it"
done

# Without cmark its own ready pages are what will be installed.
try cmake -S "$source" -B "$work/without" -DHAMMERLINE_CMARK=HAMMERLINE_CMARK-NOTFOUND \
    -DCMAKE_PROGRAM_PATH="$work" -DCMAKE_FIND_USE_SYSTEM_ENVIRONMENT_PATH=OFF -DCMAKE_FIND_USE_CMAKE_SYSTEM_PATH=OFF \
    -DCMAKE_C_COMPILER="$(command -v cc)" -DPKG_CONFIG_EXECUTABLE="$(command -v pkg-config)" \
    -DCMAKE_MAKE_PROGRAM="$(command -v make || command -v ninja)" \
    -G "$(command -v make >/dev/null && echo "Unix Makefiles" || echo Ninja)"
grep -q '^HAMMERLINE_CMARK.*NOTFOUND' "$work/without/CMakeCache.txt" || complain "cmark was found all the same"
grep -q 'docs/man/ready/hammerline\.1"' "$work/without/cmake_install.cmake" || complain "the ready pages are not installed"
exit $bad
