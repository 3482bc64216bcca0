#!/bin/sh
# Golden cases: what the program prints, kept as files.
#
#   run.sh [PROGRAM]             runs every case and shows what differs
#   run.sh --update [PROGRAM]    writes down what it prints now, and shows what that changes
#   CASES="help version" run.sh PROGRAM     only these
#
# Without PROGRAM it is the one that the variable HAMMERLINE names.
#
# A case is a folder here: `cmd` (a shell script, run inside the folder), the files that it needs,
# and what is expected: `out` (standard output), `err` (standard error), `exit` (its code).  A missing
# `out` or `err` means that nothing is printed.  The script finds the program as $HAMMERLINE and a folder
# of its own to write into as $SCRATCH.
set -u
exec </dev/null

update=no
if [ "${1:-}" = --update ]; then
    update=yes
    shift
fi
program=${1:-${HAMMERLINE:-}}
if [ $# -gt 1 ] || [ ! -x "$program" ]; then
    echo "usage: run.sh [--update] [PROGRAM]" >&2
    exit 2
fi
HAMMERLINE=$(cd "$(dirname "$program")" && pwd)/$(basename "$program")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM

# Nothing of the person who runs the tests may show in the results.
unset NO_COLOR CLICOLOR_FORCE
HOME=$work/home
XDG_CONFIG_HOME=$work/config
LC_ALL=C
TERM=dumb
export HAMMERLINE HOME XDG_CONFIG_HOME LC_ALL TERM

# same EXPECTED PRINTED: compares, a missing file counting as an empty one; writes on --update.
same() {
    expected=$1
    [ -f "$expected" ] || expected=/dev/null
    diff -u "$expected" "$2" && return 0
    [ $update = yes ] || return 1
    if [ -s "$2" ]; then
        cp "$2" "$1"
    else
        rm -f "$1"
    fi
    return 1
}

total=0
different=0
for folder in "$here"/*/; do
    name=$(basename "$folder")
    [ -f "$folder/cmd" ] || continue
    if [ -n "${CASES:-}" ]; then
        case " $CASES " in
        *" $name "*) ;;
        *) continue ;;
        esac
    fi
    total=$((total + 1))
    SCRATCH=$work/scratch
    export SCRATCH
    rm -rf "$SCRATCH"
    mkdir -p "$SCRATCH"
    (cd "$folder" && exec sh ./cmd) >"$work/out" 2>"$work/err" </dev/null
    echo $? >"$work/exit"
    good=yes
    for part in exit err out; do
        same "$folder$part" "$work/$part" >"$work/diff" || {
            [ $good = yes ] && echo "--- case $name"
            good=no
            cat "$work/diff"
        }
    done
    [ $good = yes ] || different=$((different + 1))
done

if [ $total -eq 0 ]; then
    echo "no case was run" >&2
    exit 2
fi
if [ $update = yes ]; then
    echo "$total cases, $different written anew"
    exit 0
fi
echo "$total cases, $different differ"
[ $different -eq 0 ]
