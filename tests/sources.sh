#!/bin/sh
# Where figures come from: rules/sources.lua is the register, and everything else cites its keys.
#
#   sources.sh            checks rules, tests and documents
#   sources.sh --update   writes docs/sources.md from the register first
#
# 1. docs/sources.md is the register, for readers.
# 2. Each `source = "..."` of a shipped rule file is a list of keys "key: remark; key".
# 3. Each [key] in tests and documents is in the register, and each entry of the register is cited.
# 4. Nothing that looks like a person's name ("X." and a surname) stands anywhere, but for those of tests/names.txt.
set -u
export LC_ALL=C
cd "$(dirname "$0")/.." || exit 2
register=rules/sources.lua
page=docs/sources.md
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 130' INT TERM
bad=0
fail() {
    echo "$1" >&2
    bad=1
}

# The entries, one a line: key|kind|archive|subject|date|differs; "## Title" between them.
awk '
    function field(name) {
        if (!match(entry, name " = \"[^\"]*\"")) return ""
        return substr(entry, RSTART + length(name) + 4, RLENGTH - length(name) - 5)
    }
    /^  -- .* -----/ { title = $0; sub(/^  -- /, "", title); sub(/ -+$/, "", title); print "## " title; next }
    /^  source [{]/ { entry = "" }
    { entry = entry $0 }
    /},$/ && entry ~ /source [{]/ {
        match(entry, /"[^"]*"/)
        print substr(entry, RSTART + 1, RLENGTH - 2) "|" field("kind") "|" field("archive") "|" \
            field("subject") "|" field("date") "|" field("differs")
        entry = ""
    }' "$register" >"$work/entries"
grep -v '^## ' "$work/entries" | cut -d'|' -f1 | sort >"$work/keys"
[ "$(grep -c 'source {' "$register")" -eq "$(wc -l <"$work/keys")" ] && [ "$(wc -l <"$work/keys")" -gt 100 ] ||
    fail "$register: not every entry could be read"
twice=$(uniq -d "$work/keys")
[ -z "$twice" ] || fail "$register: named twice: $twice"

{
    cat <<'HEAD'
# Sources

Where the figures of the shipped books and of the tests come from. Rules, tests and documents cite a source by its key,
as in [list-2001-let-off]; `hammerline rules show` prints the entry. A source is a publication, an archive or a
standard, with its subject and date. A shop's own book may add entries, or write its sources in words.

This page is made from [rules/sources.lua](../rules/sources.lua) by `sh tests/sources.sh --update`: change that file.
HEAD
    awk -F'|' '
        /^## / {
            print "\n" $0 "\n\n| key | where | subject | date | kind | who differs |\n|---|---|---|---|---|---|"
            next
        }
        { print "| `" $1 "` | " $3 " | " $4 " | " $5 " | " $2 " | " $6 " |" }' "$work/entries" | sed 's/|  |/| |/g; s/|  |/| |/g'
} >"$work/page"
[ "${1:-}" != --update ] || cp "$work/page" "$page"
cmp -s "$work/page" "$page" || fail "$page is not what $register says; run: sh tests/sources.sh --update"

# What cites: "file:line: key".
find rules -name '*.lua' ! -path "$register" ! -path 'rules/meta/*' | sort >"$work/rules"
while read -r file; do
    awk -v file="$file" '
        { line = $0 }
        holding { held = held line; if (line !~ /\.\.$/) { holding = 0; take(held, at) } next }
        line ~ /(^|[ ,{])source = / {
            at = FNR
            sub(/^.*source = /, "", line)
            if (line ~ /\.\.$/) { holding = 1; held = line } else take(line, at)
        }
        function take(text, at,   parts, i, n, key) {
            gsub(/" *\.\. *"/, "", text)
            if (!match(text, /^"[^"]*"/)) return
            n = split(substr(text, 2, RLENGTH - 2), parts, "; ")
            for (i = 1; i <= n; i++) {
                key = parts[i]
                sub(/: .*$/, "", key)
                print file ":" at ": " key
            }
        }' "$file"
done <"$work/rules" >"$work/cited"
awk -F'|' '$6 != "" { print $6 }' "$work/entries" | tr ';' '\n' | sed "s/^ *//; s/: .*$//; s|^|$register: |" >"$work/differs"
git ls-files --cached --others --exclude-standard 2>/dev/null | grep -E '\.(md|c|h|lua|sh|txt)$' |
    grep -vE '^tests/(golden/|sources\.sh)|^docs/sources\.md' >"$work/files"
[ -s "$work/files" ] || find README.md DEVELOPERS.md docs engine rules tests -type f \
    \( -name '*.md' -o -name '*.c' -o -name '*.h' -o -name '*.lua' -o -name '*.sh' -o -name '*.txt' \) |
    grep -vE '^tests/(golden/|sources\.sh)|^docs/sources\.md' >"$work/files"
xargs grep -onE '\[[a-z]{3,}(-[a-z0-9]+)+\]' /dev/null <"$work/files" | sed 's/:\[/: /; s/\]$//' >"$work/brackets"
for list in cited differs brackets; do
    [ -s "$work/$list" ] || fail "nothing cites a source: $list"
    awk -v register="$register" '
        FNR == NR { known[$0] = 1; next }
        {
            key = $0
            sub(/^[^ ]* /, "", key)
            if (!(key in known)) print $1 " \047" key "\047 is not in " register
        }' "$work/keys" "$work/$list" >"$work/unknown"
    [ ! -s "$work/unknown" ] || fail "$(cat "$work/unknown")"
done
sed 's/^[^ ]* //' "$work/cited" "$work/brackets" | sort -u >"$work/used"
grep -vxFf "$work/used" "$work/keys" | while read -r key; do echo "$register: nothing cites '$key'"; done >"$work/idle"
[ ! -s "$work/idle" ] || fail "$(cat "$work/idle")"

# Names.
grep -v '^#' tests/names.txt | sort -r >"$work/names"
git ls-files --cached --others --exclude-standard 2>/dev/null | grep -vE '\.(png|svg)$|^tests/names\.txt$' >"$work/all"
[ -s "$work/all" ] || cp "$work/files" "$work/all"
tr '\n' '\0' <"$work/all" | xargs -0 grep -nIE '(^|[^A-Za-z0-9_.])[A-Z]\. ?([A-Z]\. ?)*[A-Z][a-z]+' /dev/null >"$work/named"
# A sentence may end with a letter that is a quantity: "... by H. The rest ...".
sed -E 's/[A-Z]\. +(The|These|This|It|So|In|If|When|For|Then|Each|No|Not)\>//g' "$work/named" >"$work/rest"
mv "$work/rest" "$work/named"
while read -r name; do
    sed "s/$name//g" "$work/named" >"$work/rest"
    mv "$work/rest" "$work/named"
done <"$work/names"
grep -E ':[0-9]+:.*(^|[^A-Za-z0-9_.])[A-Z]\. ?([A-Z]\. ?)*[A-Z][a-z]+' "$work/named" >"$work/persons"
[ ! -s "$work/persons" ] ||
    fail "$(cat "$work/persons")
A source is an archive, a publication or a standard, not a person.  An author's name goes into tests/names.txt."
[ "$bad" -eq 0 ] && echo "$(wc -l <"$work/keys") sources, cited $(cat "$work/cited" "$work/brackets" | wc -l) times"
exit "$bad"
