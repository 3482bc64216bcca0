#!/usr/bin/env bash
# A thousand random notes, solved by ours and by GLPK's glpsol: least violation, fewest adjusters and
# closeness to aim must agree.  Needs a C compiler and glpsol (Debian: glpk-utils); without glpsol it says
# so and exits 77.  usage: check_glpk.sh [NOTES]
set -u
root="${HAMMERLINE_ROOT:-$(cd "$(dirname "$0")/../.." && pwd)}"
notes="${1:-1000}"
command -v glpsol >/dev/null || { echo "glpsol is not installed; nothing was compared" >&2; exit 77; }
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT

${CC:-cc} -std=c17 -D_POSIX_C_SOURCE=200809L -O2 -I"$root/engine/include" -I"$root/engine/base" \
    -I"$root/engine/advise/solve" "$root"/tests/solver/random_notes.c "$root"/engine/advise/solve/solve*.c \
    "$root/engine/base/arena.c" -lm -o "$work/random_notes" || exit 2
"$work/random_notes" "$work" 0 "$notes" 0 >"$work/ours" || exit 2

# Each line: file name, optimum ("none" when GLPK did not finish in 2 s).
solve() {
    for file in "$@"; do
        glpsol --tmlim 2 --lp "$file" -w "$file.out" >/dev/null 2>&1
        awk -v name="$(basename "$file" .lp)" '$1 == "s" { print name, ($5 == "o" ? $6 : "none") }' \
            "$file.out"
    done
}
export -f solve
find "$work" -name '*.lp' -print0 | xargs -0 -n 25 -P 2 bash -c 'solve "$@"' solve >"$work/theirs"

# The violation optimum is kept * 1000 + other, in half widths; the choice is adjusters * 1000 + closeness.
# glpsol takes 0.99999 for a whole 1, which shifts a reading by a few thousandths of a half width: so much
# may the two differ.  (That ours is exact to the last unit, test_solve.c shows by trying every choice.)
awk -v notes="$notes" -v slack=0.005 '
    function complain(text) { print "note " $1 ": " text > "/dev/stderr"; bad++ }
    NR == FNR { theirs[$1] = $2; next }
    {
        if (!$10) { unproven++; next }
        choice = theirs[$1]
        if (choice == "none") { late++; next }
        if (choice == "") { complain("glpsol gave no answer"); next }
        ours = $5 * 1000 + $6 / 1000
        if (ours < choice - slack || ours > choice + slack)
            complain("ours " ours ", glpsol " choice)
        compared++
        if ($9) next
        least = theirs[$1 ".v"]
        if (least == "none") { late++; next }
        if (least == "") { complain("glpsol gave no least violation"); next }
        kept = $3 / 1000; other = $4 / 1000; unmet++
        if (kept * 1000 + other < least - slack || kept * 1000 + other > least + (kept ? 1000 * slack : slack))
            complain("violation ours " kept " kept, " other " other, glpsol " least)
    }
    END {
        printf "%d notes compared, %d of them beyond cure; %d that glpsol did not finish, %d that ours did not prove; %d differ\n",
            compared, unmet, late, unproven, bad
        exit !(bad == 0 && compared >= 0.97 * notes && unmet > notes / 10)
    }' "$work/theirs" "$work/ours"
