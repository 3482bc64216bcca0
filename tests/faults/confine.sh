#!/usr/bin/env bash
# A running command stands in its walls before it reads a sheet: a sheet that is a pipe makes it wait,
# and the kernel tells how it stands there.
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
program=${HAMMERLINE:?name the program in HAMMERLINE}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
complain() { echo "$*" >&2; bad=1; }

if ! grep -q '^NoNewPrivs:' /proc/self/status 2> /dev/null; then
    echo "SKIP this system does not tell how a process stands"
    exit 77
fi
"$program" --version --verbose > "$work/walls"
cat "$work/walls"
grep -q 'other programs *seccomp' "$work/walls" || { echo "SKIP no walls here, or in this build"; exit 77; }
grep -q 'files *Landlock' "$work/walls" || echo "no Landlock here: the rest is tried all the same"

for command in audit plan "report -o $work/new.html" "sheet history PIPE A4 blow" "sheet convert PIPE -o $work/new.csv"; do
    rm -f "$work/pipe"
    mkfifo "$work/pipe"
    case $command in *PIPE*) line=${command/PIPE/$work/pipe} ;; *) line="$command $work/pipe" ;; esac
    read -ra words <<< "$line"
    "$program" "${words[@]}" --rules "$root/tests/golden/rules" > "$work/out" 2> "$work/err" &
    child=$!
    for ((i = 0; i < 100; i++)); do # until it waits for the pipe
        stands=$(grep -E '^(NoNewPrivs|Seccomp):' "/proc/$child/status" 2> /dev/null | tr -d '\t\n')
        [ "$stands" != NoNewPrivs:1Seccomp:2 ] || break
        sleep 0.05
    done
    [ "$stands" = NoNewPrivs:1Seccomp:2 ] || complain "$command: it stands at $stands"
    printf '# book: tiny\nnote,key_dip,blow\nA4,9.4,44\nC5,10,45\n' > "$work/pipe" &
    writer=$!
    wait "$child"
    rc=$?
    wait "$writer"
    [ $rc -le 1 ] || complain "$command from a pipe: exit $rc: $(cat "$work/err")"
done
# The walk stands in them while it waits for a line, and saves all the same.
printf '# hammerline: tidy 1\n# book: tiny\nnote,step,reading\n' > "$work/sheet.csv"
mkfifo "$work/typed"
"$program" walk "$work/sheet.csv" --rules "$root/tests/golden/rules" < "$work/typed" > "$work/out" 2> "$work/err" &
child=$!
exec 8> "$work/typed"
for ((i = 0; i < 100; i++)); do
    stands=$(grep -E '^(NoNewPrivs|Seccomp):' "/proc/$child/status" 2> /dev/null | tr -d '\t\n')
    [ "$stands" != NoNewPrivs:1Seccomp:2 ] || break
    sleep 0.05
done
[ "$stands" = NoNewPrivs:1Seccomp:2 ] || complain "walk: it stands at $stands"
printf '9.4\nundo\n9.5\nquit\n' >&8
exec 8>&-
wait "$child"
rc=$?
[ $rc -eq 1 ] || complain "walk: exit $rc: $(cat "$work/err")"
[ "$(grep -c key_dip "$work/sheet.csv")" -eq 3 ] || complain "walk: not saved: $(cat "$work/sheet.csv")"
exit $bad
