#!/usr/bin/env bash
# Two walks and a script at one sheet: nothing is lost, nothing is withdrawn that somebody else read, and
# what was typed on old news is said and not saved.
set -u
cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" || exit 2
program=${HAMMERLINE:?the program}
rules=$PWD/tests/golden/rules
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
complain() { echo "$*" >&2; bad=1; }
sheet=$work/s.csv

# begin NAME FD: a walk that hears what is written to the descriptor.
begin() {
    rm -f "$work/$1.in"
    mkfifo "$work/$1.in"
    : >"$work/$1.out"
    "$program" walk "$sheet" --by "$1" --rules "$rules" <"$work/$1.in" >"$work/$1.out" 2>"$work/$1.err" &
    eval "exec $2>\"\$work/\$1.in\""
}
# heard NAME TIMES WORDS: waits until the walk has said that so often.
heard() {
    for ((i = 0; i < 400; i++)); do
        [ "$(grep -c -e "$3" "$work/$1.out")" -lt "$2" ] || return 0
        sleep 0.02
    done
    complain "$1 never said \"$3\" $2 times: $(tail -n 5 "$work/$1.out")"
    return 1
}

versions="1 2"
for version in $versions; do
    heads=note,step,reading,time,by,method,remark
    [ "$version" = 1 ] || heads=$heads,entry
    for round in 1 2 3 4 5 6 7 8; do
        # A reads, B reads the same note, A takes back: B's reading stays, and A is told.
        printf '# hammerline: tidy %s\n# book: tiny\n%s\n' "$version" "$heads" >"$sheet"
        begin ann 7
        begin bob 8
        printf 'go blow C4\n45\n' >&7
        heard ann 1 '^Saved' || break
        printf 'go blow C4\n46\n' >&8
        heard bob 1 '^Saved' || break
        printf 'undo\n' >&7
        heard ann 1 'by somebody else' || break
        printf 'undo\n' >&7
        heard ann 1 'later row of somebody else' || break
        # And between readings of its own, while the other goes on elsewhere, nothing is asked.
        printf 'D4 44\n' >&8
        heard bob 2 '^Saved' || break
        printf 'E4 43\n' >&7
        heard ann 2 '^Saved' || break
        printf 'between 1/8 up\n' >&8
        heard bob 3 '^Saved' || break
        printf 'quit\n' >&7
        printf 'quit\n' >&8
        exec 7>&- 8>&-
        wait
        [ "$(grep -c void "$sheet")" -eq 1 ] || complain "tidy $version, round $round: $(grep void "$sheet")"
        [ "$(cut -d, -f1-3 "$sheet" | grep -c -e '^C4,blow,4[56]$' -e '^D4,blow,44$' -e '^E4,blow,43$')" -eq 5 ] ||
            complain "tidy $version, round $round: a reading is lost: $(cat "$sheet")"
    done
    exec 7>&- 8>&- 2>/dev/null
    wait

    # Three at once, each at its own step, as fast as they can.
    printf '# hammerline: tidy %s\n# book: tiny\n%s\n' "$version" "$heads" >"$sheet"
    for who in 'ann blow 45' 'bob key_dip 9.5' 'cas drop 1.5'; do
        read -r name step reading <<<"$who"
        { echo "go $step C4"; for i in $(seq 1 40); do echo "C4 $reading"; done; } |
            "$program" walk "$sheet" --by "$name" --rules "$rules" >"$work/$name.out" 2>"$work/$name.err" &
    done
    wait
    for who in 'ann blow 45' 'bob key_dip 9.5' 'cas drop 1.5'; do
        read -r name step reading <<<"$who"
        said=$(grep -c '^Saved' "$work/$name.out")
        kept=$(grep -c "^C4,$step,$reading,.*,$name," "$sheet")
        [ "$said:$kept" = 40:40 ] ||
            complain "tidy $version: $name was told of $said readings, $kept are kept: $(cat "$work/$name.err")"
    done
    "$program" audit "$sheet" --rules "$rules" >"$work/out" 2>"$work/err"
    [ ! -s "$work/err" ] || complain "tidy $version: $(cat "$work/err")"
done
exit $bad
