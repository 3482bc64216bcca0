#!/bin/sh
# How fast, beside other tools: run by `cmake --build BUILD --target bench`, in a Release build.
#
#   HAMMERLINE  the program          BENCH_TOOLS   folder of make_fleet, time_runs, audit_only
#   HAMMERLINE_ROOT  the source      SHEETS, ROUNDS, SCRATCH   may be set; BIG=1 takes 100,000 sheets too
#
# Commands of one table are run in turns; only figures of one table may be compared.
set -eu
rules=$HAMMERLINE_ROOT/rules
here=$HAMMERLINE_ROOT/tests/bench
sheets=${SHEETS:-10000}
tidy=$((sheets / 5))
few=$((sheets / 10))
rounds=${ROUNDS:-5}
work=${SCRATCH:-$(mktemp -d)}
[ -n "${SCRATCH:-}" ] || trap 'rm -rf "$work"' EXIT
make=$BENCH_TOOLS/make_fleet
turns=$BENCH_TOOLS/time_runs
audit="exec $HAMMERLINE audit --rules $rules"
half="$HAMMERLINE audit --rules $rules" # two of them show what the machine gives a second thread just now
have() { command -v "$1" >/dev/null 2>&1; }

$make "$rules" limits 0 "$work/limits.csv"
for n in 10 100 "$few" "$sheets"; do
    $make "$rules" wide "$n" "$work/wide-$n.csv"
done
$make "$rules" wide $((sheets / 2)) "$work/half.csv"
$make "$rules" tidy "$tidy" "$work/tidy.csv"
$make "$rules" wide "$sheets" "$work/files/"
$make "$rules" wide 1 "$work/one/"
one=$work/one/piano-000001.csv

# The same check in SQL: the wide rows turned into long ones, joined with the limits.
sql() {
    printf '.mode csv\nCREATE TABLE l(step,note,low REAL,aim REAL,high REAL);\n.import %s l\n' "$work/limits.csv"
    printf '.import --skip 1 %s w\n' "$1"
    printf 'CREATE TEMP TABLE r AS '
    sed -n 2p "$1" | tr ',' '\n' | sed 1,2d | {
        first=
        while read -r step; do
            printf '%sSELECT sheet,note,%s%s%s step,CAST("%s" AS REAL) v FROM w WHERE "%s"<>%s%s\n' \
                "$first" "'" "$step" "'" "$step" "$step" "'" "'"
            first='UNION ALL '
        done
    }
    printf ';SELECT sheet,note,step,v FROM r JOIN l USING(step,note) WHERE v<low OR v>high;\n'
    printf 'SELECT step,count(*),sum(v<low OR v>high) FROM r JOIN l USING(step,note) GROUP BY step;\n'
}
sql "$work/wide-$few.csv" >"$work/wide.sql"

echo "== $sheets sheets, wide, one file"
set -- "one thread" "$audit --threads 1 $work/wide-$sheets.csv" \
    "two threads" "$audit --threads 2 $work/wide-$sheets.csv" \
    "two runs of half, at once" "$half --threads 1 $work/half.csv & $half --threads 1 $work/half.csv; wait"
have mawk && set -- "$@" "mawk, range check alone" "exec mawk -f $here/wide.awk $work/limits.csv $work/wide-$sheets.csv"
$turns "$rounds" "$@" "wc -l" "exec wc -l $work/wide-$sheets.csv"

if have sqlite3; then
    echo "== $few sheets, wide"
    $turns "$rounds" "one thread" "$audit --threads 1 $work/wide-$few.csv" \
        "sqlite3, range check alone" "exec sqlite3 :memory: <$work/wide.sql"
fi

echo "== $tidy sheets, tidy, one file"
set -- "one thread" "$audit --threads 1 $work/tidy.csv" "two threads" "$audit --threads 2 $work/tidy.csv"
have mawk && set -- "$@" "mawk, range check alone" "exec mawk -f $here/tidy.awk $work/limits.csv $work/tidy.csv"
$turns "$rounds" "$@" "wc -l" "exec wc -l $work/tidy.csv"

echo "== growth: $few, $sheets sheets"
set -- "$few sheets" "$audit $work/wide-$few.csv" "$sheets sheets" "$audit $work/wide-$sheets.csv"
if [ -n "${BIG:-}" ]; then
    $make "$rules" wide 100000 "$work/wide-100000.csv"
    set -- "$@" "100000 sheets" "$audit $work/wide-100000.csv"
fi
$turns "$rounds" "$@"

echo "== $sheets files beside one"
$turns "$rounds" "one file" "$audit $work/wide-$sheets.csv" "a folder of files" "$audit $work/files"

echo "== start to verdict"
printf '# book: grand\nnote,key_dip\nC4,10.1\n' >"$work/first.csv"
set -- "one reading" "$audit $work/first.csv" "one sheet" "$audit $one"
have lua5.4 && set -- "lua5.4 -e ''" "exec lua5.4 -e ''" "$@"
have mawk && set -- "$@" "mawk on that sheet" "exec mawk -f $here/wide.awk $work/limits.csv $one"
$turns $((rounds * 5)) "$@"

if have valgrind; then
    count() {
        valgrind --tool=callgrind --callgrind-out-file=/dev/null "$BENCH_TOOLS/audit_only" "$rules" 1 \
            "$work/wide-$1.csv" 2>&1 >/dev/null | sed -n 's/,//g;s/.*refs: *//p'
    }
    readings=$(sed -n '/^piano/p' "$work/wide-100.csv" "$work/wide-10.csv" | cut -d, -f3- | tr ',' '\n' | grep -c .)
    more=$(cut -d, -f3- "$work/wide-10.csv" | sed 1,2d | tr ',' '\n' | grep -c .)
    echo "== instructions: $((($(count 100) - $(count 10)) / (readings - 2 * more))) a reading (100 sheets less 10)"
fi
