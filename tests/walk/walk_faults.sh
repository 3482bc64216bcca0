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

tiny=$PWD/tests/golden/rules
# Rows after each entry: two readings, work put between them, a range, all of it taken back.
typed='go blow C4\n45\nC4 46\nbetween 1/8 up\nD4-F4 44\nundo\n'
whole=' 0 1 2 5 9 13 '

# one CALL WHAT N: runs once; sets code, said (rows called saved) and kept (rows on disk, after the next
# session has set aside what was cut).
one() {
    # shellcheck disable=SC2059
    printf "$heads" >"$work/s.csv"
    rm -f "$work/s.csv.torn"
    # shellcheck disable=SC2059
    printf "$typed" >"$work/typed"
    { strace -f -o "$work/trace" -e trace="$1" -e inject="$1:$2:when=$3" \
        "$program" walk --rules "$tiny" "$work/s.csv" <"$work/typed" >"$work/out" 2>"$work/err"; } 2>/dev/null
    code=$?
    runs=$((runs + 1))
    "$program" walk --rules "$tiny" "$work/s.csv" </dev/null >"$work/next" 2>&1
    said=$(awk '/^Saved\. [0-9]+ notes/ { n += $2; next } /^Saved. C4 capstan/ { n += 3; next }
        /^Withdrawn and saved: [0-9]+ rows/ { n += $4; next } /^Saved/ { n++ } END { print n + 0 }' "$work/out")
    kept=$(($(wc -l <"$work/s.csv") - 3))
    [ "$said" -le "$kept" ] || complain "$1 $2 $3: $said rows called saved, $kept kept"
    case $whole in *" $kept "*) ;; *) complain "$1 $2 $3: $kept rows are kept, a part of an entry" ;; esac
    grep -q 'ERROR: AddressSanitizer\|runtime error' "$work/err" && complain "$1 $2 $3: $(cat "$work/err")"
    "$program" audit --rules "$tiny" "$work/s.csv" >/dev/null 2>"$work/audit"
    grep -v 'nothing to judge' "$work/audit" | grep -q . &&
        complain "$1 $2 $3: the sheet can't be read: $(cat "$work/audit")"
    grep -q INJECTED "$work/trace" || grep -q killed "$work/trace"
}

for version in 1 2; do
heads="# hammerline: tidy $version\\n# book: tiny\\nnote,step,reading$([ $version = 1 ] || echo ,entry)\\n"
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
        [ $kept -eq 13 ] || complain "tidy $version: $call $what: $kept rows of 13 without a fault"
        [ $n -gt 5 ] || complain "$call $what: only $n runs"
    done
done
done
echo "$runs runs"
exit $bad
