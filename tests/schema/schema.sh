#!/usr/bin/env bash
# All JSON that the program prints is as docs/schema says.  CHECK_SCHEMA is the program that checks.
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
program=${HAMMERLINE:?the program}
check=${CHECK_SCHEMA:?the checker}
schemas=$root/docs/schema
cd "$root/tests/golden" || exit 2
export HOME=/nowhere XDG_CONFIG_HOME=/nowhere
bad=0 n=0
complain() { echo "$1" >&2; bad=1; }

# holds SCHEMA HOW WORD...: what the program prints for these words is as the schema says.
holds() {
    local schema=$1 how=$2
    shift 2
    n=$((n + 1))
    # shellcheck disable=SC2086 # no word at all when it is empty
    "$program" "$@" 2>/dev/null | "$check" $how "$schemas/$schema.schema.json" || complain "hammerline $*: not as $schema says"
}

books=(--rules rules --rules ../../rules)
for sheet in */*.csv ../../sheets/*.csv; do
    many=$("$program" audit --format json "${books[@]}" "$sheet" 2>/dev/null | head -c 1)
    if [ "$many" = "[" ]; then
        holds audit --array audit --format json "${books[@]}" "$sheet"
    else
        holds audit "" audit --json "${books[@]}" "$sheet"
        holds plan "" plan --json "${books[@]}" "$sheet"
    fi
    # Every sheet of this folder once more, in one run.
    all+=("$sheet")
done
holds audit --array audit --json --rules rules --rules ../../rules "${all[@]}" no-such.csv
holds audit --lines audit --json-lines --rules rules --rules ../../rules "${all[@]}" no-such.csv
holds audit "" audit --json --rules rules no-such.csv
holds audit "" audit --json --rules rules --book no-such ready/sheet.csv
holds plan "" plan --json --rules rules no-such.csv
for rule in simple guarded; do
    holds audit "" audit --json --rules ../../rules --rule $rule ../../sheets/demo-grand.csv
    holds audit "" audit --json --rules ../../rules --rule $rule --sample 20 --at-most 5 ../../sheets/ready-grand.csv
done
holds audit "" audit --json --rules ../../rules --sample 20 ../../sheets/demo-grand.csv
holds plan "" plan --json --rules ../../rules --line blow --line let_off ../../sheets/demo-grand.csv
holds plan "" plan --json --rules ../../rules --without capstan --reversible ../../sheets/demo-grand.csv
[ $n -gt 60 ] || complain "only $n outputs were checked"

# The checker itself can say no: a key of another type, one too many, one too few.
whole=$("$program" audit --json --rules rules ready/sheet.csv)
for edit in 's/"ready": true/"ready": 1/' 's/"judged": true,/"judged": true, "more": 1,/' 's/"torn": null,//' \
    's/"schema": 2/"schema": 3/' 's/"keys": 13/"keys": 0/'; do
    sed "$edit" <<<"$whole" | "$check" "$schemas/audit.schema.json" 2>/dev/null && complain "the checker lets pass: $edit"
done
exit $bad
