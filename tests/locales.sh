#!/usr/bin/env bash
# The same bytes under every locale, and every time: a decimal comma, a Turkish i and an order of names
# that depend on the machine would show here.  Locales that are missing are made in a folder of our own;
# 77 when that can't be done.
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" && pwd) || exit 2
program=${HAMMERLINE:?name the program in HAMMERLINE}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0
complain() { echo "$*" >&2; bad=1; }
unset NO_COLOR CLICOLOR_FORCE LC_ALL LANG LC_NUMERIC LC_CTYPE LC_COLLATE LANGUAGE
export HOME=$work XDG_CONFIG_HOME=$work/none SOURCE_DATE_EPOCH=1800000000 TZ=UTC
cd "$root" || exit 2

# Is the locale there, and does it really use a comma, or a Turkish i?
has() { LC_ALL=$1 locale -k decimal_point charmap 2> /dev/null | grep -q "decimal_point=\",\""; }
for locale in de_DE tr_TR; do
    has $locale.UTF-8 && continue
    mkdir -p "$work/locales"
    localedef -i $locale -f UTF-8 "$work/locales/$locale.UTF-8" > /dev/null 2>&1
    [ -e "$work/locales/$locale.UTF-8/LC_NUMERIC" ] ||
        { echo "SKIP the locale $locale.UTF-8 is not here, and localedef can't make it"; exit 77; }
    export LOCPATH=$work/locales
done
for locale in de_DE tr_TR; do
    has $locale.UTF-8 || { echo "SKIP the locale $locale.UTF-8 has no effect here"; exit 77; }
done

demo=sheets/demo-grand.csv
commands=(
    "audit $demo"
    "audit --json $demo"
    "audit --csv $demo"
    "audit --rule guarded $demo"
    "audit --sample 20 --seed 7 $demo"
    "audit --json $demo sheets/ready-grand.csv"
    "plan $demo"
    "plan --json $demo"
    "report $demo"
    "report --for owner sheets/ready-grand.csv"
    "sheet new grand"
    "rules show grand"
    "rules show grand let_off"
    "rules diff grand upright"
    "rules list"
    "rules check grand"
)
# Readings with a decimal comma, under a locale that has one too.
printf '# book: grand\nnote;key_dip;blow\nA4;10,05;44,5\nI4;1;2\n' > "$work/comma.csv"
commands+=("audit $work/comma.csv" "audit --json $work/comma.csv")

i=0
for command in "${commands[@]}"; do
    read -ra words <<< "$command"
    i=$((i + 1))
    LC_ALL=C "$program" "${words[@]}" > "$work/want" 2> "$work/want.err"
    want=$?
    for locale in C.UTF-8 de_DE.UTF-8 tr_TR.UTF-8; do
        LC_ALL=$locale LANG=$locale LANGUAGE=${locale%_*} "$program" "${words[@]}" > "$work/got" 2> "$work/got.err"
        got=$?
        [ $got -eq $want ] || complain "$command under $locale: exit $got, not $want"
        cmp "$work/want" "$work/got" || complain "$command under $locale: other output"
        cmp "$work/want.err" "$work/got.err" || complain "$command under $locale: other complaints"
    done
done

# The program itself heeds no locale.  One that does, and uses the library:
if [ -n "${LOCALE_DRIVER:-}" ]; then
    for sheet in "$demo" "$work/comma-good.csv"; do
        printf '# book: grand\nnote;key_dip;blow\nA4;10,05;44,5\n' > "$work/comma-good.csv"
        LC_ALL=C "$LOCALE_DRIVER" rules "$sheet" > "$work/want" 2> /dev/null || complain "the driver on $sheet"
        for locale in de_DE.UTF-8 tr_TR.UTF-8; do
            LC_ALL=$locale "$LOCALE_DRIVER" rules "$sheet" > "$work/got" 2> "$work/mark" || complain "$locale, $sheet"
            [ "$(cat "$work/mark")" = , ] || complain "$locale was not in force: $(cat "$work/mark")"
            cmp "$work/want" "$work/got" || complain "the library on $sheet under $locale: other output"
        done
    done
fi

# Nothing of chance: memory is laid out anew each time, and so are Lua's tables.
for command in "audit --json $demo" "plan --json $demo" "rules show grand"; do
    read -ra words <<< "$command"
    for ((run = 0; run < 30; run++)); do
        "$program" "${words[@]}" 2>&1 | cksum
    done | sort -u > "$work/sums"
    [ "$(wc -l < "$work/sums")" -eq 1 ] || complain "$command: 30 runs, $(wc -l < "$work/sums") results"
done
echo "$i commands, 4 locales; 3 commands, 30 runs each"
exit $bad
