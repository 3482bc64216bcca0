#!/usr/bin/env bash
# The documents say what the program does: every `console` block of the README and of docs/ is run, in a
# copy of the sheets, and its output compared.  A line of `...` stands for any number of lines.  A line
# `$ command` begins a command; `# exit N` after the output says that it ends with N (0 else).  A `lua` block
# that begins with `-- NAME.lua`, and a `csv` block that begins with `## NAME.csv`, is written there first, for the
# commands below it.
set -u
exec </dev/null
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" && pwd) || exit 2
command -v "${HAMMERLINE:?the program to try}" >/dev/null || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin"
ln -s "$HAMMERLINE" "$work/bin/hammerline"
PATH=$work/bin:$PATH
export NO_COLOR=1 LC_ALL=C.UTF-8 SOURCE_DATE_EPOCH=1767225600
bad=0 ran=0

# Does $1 (the output) match $2 (what the document says, with `...` lines)?
matches() {
    awk -v said="$2" '
        BEGIN { while ((getline line < said) > 0) want[++n] = line; at = 1 }
        {
            while (1) {
                if (at <= n && want[at] == "...") { skipping = 1; at++; continue }
                break
            }
            if (at <= n && $0 == want[at]) { at++; skipping = 0; next }
            if (!skipping) { print "got:    " $0; print "wanted: " want[at]; failed = 1; exit 1 }
        }
        END {
            while (at <= n && want[at] == "...") at++
            if (!failed && at <= n) { print "missing: " want[at]; exit 1 }
        }' "$1"
}

finish() {
    [ -n "$command" ] || return
    ran=$((ran + 1))
    (cd "$work/copy" && bash -c "$command") >"$work/got" 2>&1
    local status=$?
    [ "$status" -eq "$wanted" ] || { echo "$file: \$ $command: exit $status, not $wanted" >&2; cat "$work/got" >&2; bad=1; }
    matches "$work/got" "$work/said" >"$work/why" || {
        echo "$file: \$ $command" >&2
        cat "$work/why" >&2
        bad=1
    }
    command=
}

cd "$root" || exit 2
for file in README.md docs/*.md; do
    rm -rf "$work/copy"
    mkdir "$work/copy"
    cp -r sheets rules "$work/copy/"
    inside=0 command= page=
    while IFS= read -r line; do
        case $line in
        '```lua' | '```csv') page=first ;;
        '```console'*) inside=1 ;;
        '```'*)
            [ $inside -eq 0 ] || finish
            inside=0 page=
            ;;
        '-- '*.lua | '## '*.csv)
            [ "$page" = first ] && page=$work/copy/${line#?? } && printf '%s\n' "$line" >"$page"
            ;;
        '$ '*)
            [ $inside -eq 1 ] || continue
            finish
            command=${line#\$ }
            wanted=0
            : >"$work/said"
            ;;
        '# exit '*) [ $inside -eq 0 ] || wanted=${line#\# exit } ;;
        *)
            [ "$page" != first ] || page=
            [ -z "$page" ] || printf '%s\n' "$line" >>"$page"
            [ $inside -eq 0 ] || printf '%s\n' "$line" >>"$work/said"
            ;;
        esac
    done <"$file"
done
[ "$ran" -ge "${1:-5}" ] || { echo "only $ran commands were found in the documents" >&2; bad=1; }
echo "$ran commands of the documents tried"
exit $bad
