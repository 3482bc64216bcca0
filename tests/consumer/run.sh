#!/usr/bin/env bash
# Installed, moved to another folder and used from there: the program finds its books, other programs
# find the library through CMake and through pkg-config, and nothing names the folder it was built in.
#
# HAMMERLINE_BUILD names the build folder.
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
build=$(cd "${HAMMERLINE_BUILD:?the build folder}" && pwd) || exit 2
# A tool is missing: that skips the test, unless the caller knows that all are there.
lacks() {
    echo "not here: $1"
    [ -n "${HAMMERLINE_NO_SKIP:-}" ] && exit 1
    exit 77
}
command -v pkg-config >/dev/null || lacks pkg-config
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
complain() { echo "$1" >&2; bad=1; }

# Runs what should be quiet; shows what it said when it fails.
try() {
    "$@" >"$work/said" 2>&1 && return
    complain "failed: $*"
    cat "$work/said" >&2
    exit 1
}

try env DESTDIR="$work/staged" cmake --install "$build" --prefix /usr
mv "$work/staged/usr" "$work/moved" || exit 1
here=$work/moved
leftover=$(find "$work/staged" -type f)
[ -z "$leftover" ] || complain "installed outside the prefix: $leftover"

grep -rlaF -e "$root/" -e "$build" -e "$work" "$here" >"$work/said" &&
    complain "these name a folder of this machine: $(cat "$work/said")"

# Both demo sheets: a ready one, and one that is not.
ready=$here/share/hammerline/sheets/ready-grand.csv
unready=$here/share/hammerline/sheets/demo-grand.csv
for case in "0 $ready" "1 $unready"; do
    (cd / && env -u XDG_CONFIG_HOME HOME=/nowhere "$here/bin/hammerline" audit "${case#* }") >"$work/said" 2>&1
    status=$?
    [ "$status" -eq "${case%% *}" ] || complain "hammerline audit ${case#* }: exit $status, not ${case%% *}"
done
listed=$(env -u XDG_CONFIG_HOME HOME=/nowhere "$here/bin/hammerline" rules list | awk '$1 == "grand" { print $NF }')
[ "$listed" = "$here/share/hammerline/rules/grand.lua" ] || complain "the book grand is taken from $listed"

# says PROGRAM: does the consumer give the right answers?
says() {
    for case in "ready:$ready" "not ready:$unready"; do
        answer=$("$1" "$here/share/hammerline/rules" "${case#*:}")
        [ "$answer" = "${case%%:*}" ] || complain "$1 says \"$answer\" of ${case#*:}"
    done
}

try cmake -S "$root/tests/consumer" -B "$work/by-cmake" -DCMAKE_PREFIX_PATH="$here"
try cmake --build "$work/by-cmake"
says "$work/by-cmake/consumer"
[ ! -e "$work/by-cmake/consumer_shared" ] || says "$work/by-cmake/consumer_shared"

pc=$(find "$here" -name hammerline.pc)
PKG_CONFIG_PATH=$(dirname "$pc")
export PKG_CONFIG_PATH
LD_LIBRARY_PATH=$(dirname "$PKG_CONFIG_PATH")
export LD_LIBRARY_PATH
read -ra flags < <(pkg-config --cflags --libs hammerline | tr '\n' ' ')
[ ${#flags[@]} -gt 0 ] || { complain "pkg-config does not find $pc"; exit 1; }
source=$root/tests/consumer/consumer.c
try "${CC:-cc}" -std=c17 -Wall -Wextra -Wpedantic -Werror "$source" "${flags[@]}" -o "$work/by-pkg-config"
says "$work/by-pkg-config"
cxx=${CXX:-c++}
if command -v "$cxx" >/dev/null; then
    try "$cxx" -std=c++17 -Wall -Wextra -Wpedantic -Werror -x c++ "$source" -x none "${flags[@]}" -o "$work/in-cxx"
    says "$work/in-cxx"
fi

# Each topic of the header serves alone, in C and in C++.
for topic in "$here"/include/hammerline/*.h; do
    printf '#include <hammerline/%s>\nint main(void) { return 0; }\n' "$(basename "$topic")" >"$work/topic.c"
    try "${CC:-cc}" -std=c17 -Wall -Wextra -Wpedantic -Werror "${flags[@]}" -fsyntax-only "$work/topic.c"
    command -v "$cxx" >/dev/null &&
        try "$cxx" -std=c++17 -Wall -Wextra -Wpedantic -Werror "${flags[@]}" -fsyntax-only -x c++ "$work/topic.c"
done

# An absolute library folder stays what it is, in pkg-config's file, too.
try cmake -S "$root" -B "$work/absolute" -DCMAKE_INSTALL_PREFIX=/usr/local -DCMAKE_INSTALL_LIBDIR=/opt/hammer/lib
where=$(pkg-config --variable=libdir "$work/absolute/hammerline.pc"):$(pkg-config --variable=includedir "$work/absolute/hammerline.pc")
[ "$where" = /opt/hammer/lib:/usr/local/include ] || complain "with an absolute LIBDIR pkg-config says $where"
[ $bad -eq 0 ] || exit 1
command -v "$cxx" >/dev/null || lacks "a C++ compiler; the rest is well"
