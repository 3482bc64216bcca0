#!/usr/bin/env bash
# `cpack -G DEB`: the packages say what they need, install into an empty root, work there, and leave
# nothing behind when they are removed.  HAMMERLINE_BUILD names the build folder.
set -u
build=$(cd "${HAMMERLINE_BUILD:?the build folder}" && pwd) || exit 2
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" && pwd) || exit 2
PATH=$PATH:/usr/sbin:/sbin
# A tool is missing: that skips the test, unless the caller knows that all are there.
lacks() {
    echo "not here: $1"
    [ -n "${HAMMERLINE_NO_SKIP:-}" ] && exit 1
    exit 77
}
for tool in cpack dpkg dpkg-deb dpkg-shlibdeps; do
    command -v "$tool" >/dev/null || lacks "$tool"
done
as_root=
if [ "$(id -u)" -ne 0 ]; then
    command -v fakeroot >/dev/null || lacks fakeroot
    as_root=fakeroot
fi
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
chmod 755 "$work"
bad=0
complain() { echo "$1" >&2; bad=1; }
try() {
    "$@" >"$work/said" 2>&1 && return
    complain "failed: $*"
    cat "$work/said" >&2
    exit 1
}

(cd "$work" && try cpack -G DEB --config "$build/CPackConfig.cmake" -B "$work/out") || exit 1
program=$(echo "$work"/out/hammerline_*.deb)
development=$(echo "$work"/out/libhammerline-dev_*.deb)

# field PACKAGE NAME PATTERN
field() {
    local value
    value=$(dpkg-deb --field "$1" "$2")
    # shellcheck disable=SC2053 # a pattern
    [[ $value == $3 ]] || complain "$(basename "$1"): $2 is \"$value\""
}
field "$program" Section utils
field "$program" Depends '*libc6*liblua5.4-0*'
field "$development" Section libdevel
field "$development" Depends '*liblua5.4-dev*'

clean=$work/root
mkdir -p "$clean/var/lib/dpkg/info" "$clean/var/lib/dpkg/updates"
: >"$clean/var/lib/dpkg/status"
in_root() {
    try $as_root dpkg --root="$clean" --log=/dev/null --force-not-root --force-script-chrootless --force-depends "$@"
}
trace() { find "$clean" -mindepth 1 -path "$clean/var/lib/dpkg" -prune -o -print | sort; }
trace >"$work/before"

in_root -i "$work"/out/*.deb
sheet=$clean/usr/share/hammerline/sheets/ready-grand.csv
env -u XDG_CONFIG_HOME HOME=/nowhere "$clean/usr/bin/hammerline" audit "$sheet" >/dev/null ||
    complain "the installed program does not find the ready sheet ready"
for file in share/man/man1/hammerline.1.gz share/man/man1/hammerline-audit.1.gz share/man/man5/hammerline-sheet.5.gz \
    share/man/man5/hammerline-rules.5.gz share/bash-completion/completions/hammerline \
    share/zsh/site-functions/_hammerline share/fish/vendor_completions.d/hammerline.fish \
    share/doc/hammerline/copyright share/doc/libhammerline-dev/copyright include/hammerline.h; do
    [ -s "$clean/usr/$file" ] || complain "usr/$file is not installed"
done
outside=$(find "$clean" -path "$clean/var" -prune -o -type f ! -path "$clean/usr/*" -print)
[ -z "$outside" ] || complain "installed outside /usr: $outside"
grep -rlaF -e "$root/" -e "$build" -e "$work" "$clean/usr" && complain "these name a folder of this machine"

names=()
for package in "$work"/out/*.deb; do
    names+=("$(dpkg-deb --field "$package" Package)")
done
in_root --purge "${names[@]}"
trace >"$work/after"
diff "$work/before" "$work/after" >&2 || complain "this is left behind"
exit $bad
