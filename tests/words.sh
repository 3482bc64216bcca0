#!/usr/bin/env bash
# Plain English: some words slip in again and again that readers whose first language is another stumble over.
# This finds them in comments, messages and documents.  Each pattern finds only what is to be rewritten: a word
# with a use of its own ("stands out from its neighbours") is left alone.
set -u
cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" || exit 2

# A Perl regular expression, case does not matter; then what to write instead.
words='
\btold\b                                              = said, shown, named, reported
\bstands\b(?! out| apart)                             = is, is written
\bstand\b(?= (in|at|for|before|after|behind|here|there|between|where|as|too)\b) = be, be written
\bstood\b                                             = was, was written
(?<![a-z])reckon                                      = count, compute
\banew\b                                              = again
\bvouch                                               = say what it means: does not count as passing
\b(there|where|here)(of|in|by|upon|with)\b = of it, in which, by this
\b(whence|thence|hither|hitherto|thither)\b           = from which, until now, there
\blest\b                                              = so that it does not
\b(ere|nought|betimes|forthwith|oftentimes)\b         = before, nothing, early, at once, often
\bto heart\b                                          = say what it means
\bturns? blind\b                                      = say what it means
\bhangs? (up)?on\b                                    = depends on
\bat a loss\b                                         = say what it means
\bheed(s|ed|ing)?\b                                   = regard, follow
'
# Folders that are not looked through yet: may only shrink.
later='engine/advise engine/fleet engine/include engine/judge engine/measure
    engine/sheet engine/state rules docs README.md'

files=()
while read -r file; do
    for folder in $later; do
        case $file in "$folder" | "$folder"/*) continue 2 ;; esac
    done
    files+=("$file")
done < <(find engine rules docs README.md DEVELOPERS.md -type f ! -name '*.png' | LC_ALL=C sort)
[ "${#files[@]}" -gt 30 ] || { echo "only ${#files[@]} files seen; is this the right folder?" >&2; exit 2; }

bad=0
while IFS= read -r line; do
    pattern=$(sed 's/ *= [^=]*$//' <<<"$line")
    [ -n "$pattern" ] || continue
    found=$(grep -nHPi -e "$pattern" "${files[@]}")
    case $? in
    0) printf '%s\n' "$found" | sed "s/\$/   <- write: ${line##*= }/" >&2; bad=1 ;;
    1) ;;
    *) echo "the pattern '$pattern' is wrong" >&2; exit 2 ;;
    esac
done <<<"$words"
[ "$bad" = 0 ] || exit 1

# The patterns find what they are for, and leave the rest.
check() {
    local hit=1
    while IFS= read -r line; do
        pattern=$(sed 's/ *= [^=]*$//' <<<"$line")
        [ -n "$pattern" ] && grep -qPi -e "$pattern" <<<"$2" && hit=0
    done <<<"$words"
    [ "$hit" = "$1" ] || { echo "the patterns get this wrong: $2" >&2; exit 1; }
}
check 0 "The step that it stands for is told once."
check 0 "Moves are reckoned anew, lest a note be lost."
check 0 "it vouches for nothing"
check 0 "what hangs on the dip"
check 1 "a note that stands out from its neighbours"
check 1 "the standard of the trade, held in hand, and where it is"
check 1 "therefore the latest reading counts"
