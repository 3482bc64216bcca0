#!/usr/bin/env bash
# The walk under faults: an error or a kill at every write() and fdatasync() in turn.  What was
# called "Saved" is in the sheet, the sheet can be read, and a failed save ends with exit 5.
set -u
cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" || exit 2
program=${HAMMERLINE:?the program}
command -v strace >/dev/null || { echo "no strace here"; exit 77; }
strace -o /dev/null true 2>/dev/null || { echo "strace may not trace here"; exit 77; }
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
runs=0
export ASAN_OPTIONS=detect_leaks=0 # the leak sanitizer can't be traced
complain() { echo "$1" >&2; bad=1; }

heads='# hammerline: tidy 1\n# book: grand\nnote,step,reading\n'
typed='ok\nF3 ti\nC3-E3 ok\nG3 ok\nundo\n' # 1 + 1 + 5 + 1 + 1 rows

# one CALL WHAT N: runs once; sets code, said (rows called saved) and kept (rows on disk).
one() {
    # shellcheck disable=SC2059
    printf "$heads" >"$work/s.csv"
    rm -f "$work/s.csv.torn"
    # shellcheck disable=SC2059
    printf "$typed" >"$work/typed"
    { strace -f -o "$work/trace" -e trace="$1" -e inject="$1:$2:when=$3" \
        "$program" walk "$work/s.csv" <"$work/typed" >"$work/out" 2>"$work/err"; } 2>/dev/null
    code=$?
    runs=$((runs + 1))
    said=$(awk '/^Saved\. [0-9]+ notes/ { n += $2; next } /^Saved|^Withdrawn/ { n++ } END { print n + 0 }' "$work/out")
    kept=$(($(wc -l <"$work/s.csv") - 3))
    [ "$said" -le "$kept" ] || complain "$1 $2 $3: $said rows called saved, $kept kept"
    grep -q 'ERROR: AddressSanitizer\|runtime error' "$work/err" && complain "$1 $2 $3: $(cat "$work/err")"
    "$program" audit "$work/s.csv" >/dev/null 2>"$work/audit"
    grep -v 'the last line is torn\|nothing to judge' "$work/audit" | grep -q . &&
        complain "$1 $2 $3: the sheet can't be read: $(cat "$work/audit")"
    grep -q INJECTED "$work/trace" || grep -q killed "$work/trace"
}

for call in write fdatasync; do
    for what in error=ENOSPC error=EIO signal=KILL; do
        n=1
        while one $call $what $n; do
            case $what in
            error=*) [ $code -eq 5 ] || complain "$call $what $n: exit $code" ;;
            *) [ $code -eq 137 ] || complain "$call $what $n: exit $code" ;;
            esac
            n=$((n + 1))
            [ $n -le 60 ] || { complain "$call $what never ends"; break; }
        done
        [ $kept -eq 9 ] || complain "$call $what: $kept rows of 9 without a fault"
        [ $n -gt 5 ] || complain "$call $what: only $n runs"
    done
done
echo "$runs runs"
exit $bad
