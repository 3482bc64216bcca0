#!/usr/bin/env bash
# Every call of the system that the headers name is allowed or refused by name, and once.
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
list=$root/engine/cli/confinement/system_calls.txt
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
for header in asm/unistd.h asm-generic/unistd.h; do
    printf '#include <%s>\n' "$header" | ${CC:-cc} -E -dM - 2> /dev/null | sed -n 's/^#define __NR_\([a-z0-9_]*\) .*/\1/p'
done | grep -v -e '^syscalls$' -e '^arch_specific_syscall$' | sort -u > "$work/headers"
[ "$(wc -l < "$work/headers")" -gt 250 ] || { echo "SKIP no headers of the kernel here"; exit 77; }
grep '^[a-z]' "$list" | cut -d' ' -f2 | sort > "$work/listed"
uniq -d "$work/listed" > "$work/twice"
[ ! -s "$work/twice" ] || { echo "listed twice: $(tr '\n' ' ' < "$work/twice")" >&2; bad=1; }
comm -23 "$work/headers" "$work/listed" > "$work/missing"
[ ! -s "$work/missing" ] || { echo "neither allowed nor refused: $(tr '\n' ' ' < "$work/missing")" >&2; bad=1; }
echo "$(wc -l < "$work/headers") calls in the headers, $(wc -l < "$work/listed") listed"
exit $bad
