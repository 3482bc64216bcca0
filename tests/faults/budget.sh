#!/usr/bin/env bash
# Sheets made to take long: a row more must not cost more than the row before, whatever the rows hold.
# Each is read with 5,000 rows and with 20,000: four times the rows may take eight times as long.
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
program=${HAMMERLINE:?the program}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 2
bad=0
complain() { echo "$*" >&2; bad=1; }

# make NAME ROWS: one kind of strange sheet (all invented).
make() {
    printf '# book: tiny\nnote,step,reading,by,method,remark\n'
    seq "$2" | awk -v kind="$1" '
        kind == "names"   { print "C4,blow,4" $1 % 9 ",p" $1 ",," }
        kind == "methods" { print "C4,blow,45,,m" $1 "," }
        kind == "both"    { print "C4,blow,4" $1 % 9 ",p" $1 % 32 ",m" $1 % 256 "," }
        kind == "passes"  { print ",pass,p" $1 ",,,"; print "C4,blow,45." $1 % 10 ",,," }
        kind == "queries" { print "C4,query,q" $1 ",,," }
        kind == "works"   { print "C4,blow,4" $1 % 9 ",,,"; print "C4,capstan,raise 1/8,,," }
        kind == "facts"   { print ",fact,capstan_rise = " $1 % 9 + 1 ",,," }
        kind == "voids"   { print "C4,blow,45,,,"; if ($1 % 2) print "C4,blow,void,,," }
        kind == "remarks" { print "C4,blow,45,,,r" $1 }
        kind == "words"   { print "C4,repetition," ($1 % 2 ? "ok" : "weak") ",a" $1 % 7 ",," }'
    echo 'C4,blow,45,,,'
}
# A sheet of the program's own, whose rows are withdrawn by name.
marks() {
    printf '# hammerline: tidy 2\n# book: tiny\nnote,step,reading,entry\n'
    seq "$1" | awk '{ print "C4,blow,4" $1 % 9 "," $1 ".1/1 bcdf-" $1 " 0123456789ab <0123456789ab" }'
    seq "$1" | awk -v n="$1" '{ print "C4,blow,void " $1 ".1," n + $1 ".1/1 bcdf-" n + $1 " 0123456789ab <0123456789ab" }'
}
TIMEFORMAT=%U
# spend FILE COMMAND...: milliseconds of processor time; sets spent.
spend() {
    local file=$1 seconds
    shift
    seconds=$({ time timeout 100 "$program" "$@" --rules "$root/tests/golden/rules" > /dev/null 2> err; echo $? > rc; } 2>&1)
    [ "$(cat rc)" -le 3 ] || complain "$file: $*: exit $(cat rc): $(head -c 300 err)"
    spent=$((10#${seconds/./}))
}

for kind in names methods both passes queries works facts voids remarks words marks; do
    for rows in 5000 20000; do
        if [ $kind = marks ]; then marks $rows; else make $kind $rows; fi > $kind-$rows.csv
    done
    for command in audit plan report history; do
        words=("$command")
        [ $command != report ] || words=(report --replace -o record.html)
        [ $command != history ] || words=(sheet history)
        place=()
        [ $command != history ] || place=(C4 blow)
        spend "$kind" "${words[@]}" $kind-5000.csv "${place[@]}"
        small=$spent
        spend "$kind" "${words[@]}" $kind-20000.csv "${place[@]}"
        large=$spent
        # A quarter of a second is within what a busy machine adds.
        [ "$large" -le $((8 * small + 250)) ] || complain "$kind, $command: $small ms, and four times the rows $large ms"
        [ -z "${VERBOSE:-}" ] || echo "$kind, $command: $small ms, $large ms"
    done
done
for refused in 'names 32 people' 'methods 256 methods' 'passes 1000 passes'; do
    read -r kind most what <<< "$refused"
    "$program" audit --rules "$root/tests/golden/rules" "$kind-20000.csv" 2>&1 > /dev/null | grep -q "more than $most $what" ||
        complain "$kind: the limit of $most $what is not said"
done
exit $bad
