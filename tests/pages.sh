#!/usr/bin/env bash
# Manual pages and completions: clean, complete, and at work.  HAMMERLINE_PAGES names their folder.
set -u
pages=${HAMMERLINE_PAGES:?the folder of the pages}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin" "$work/at"
ln -s "${HAMMERLINE:?the program}" "$work/bin/hammerline"
PATH=$work/bin:$PATH
export HOME="$work" XDG_CONFIG_HOME="$work" LC_ALL=C.UTF-8
bad=0 skipped=
complain() { echo "$1" >&2; bad=1; }

# Every command has its page, and every option of every form is on it.
names=$(hammerline --help | sed -n '/^Commands:/,/^$/s/^  \([a-z][a-z]*\) .*/\1/p')
[ -n "$names" ] || complain "the help names no command"
# forms COMMAND: the forms that its help lists, or nothing.
forms() { hammerline "$1" --help | sed -n '/^Forms:/,/^$/s/^  \([a-z][a-z]*\) .*/\1/p'; }
if [ -s "$pages/hammerline.1" ]; then
    for name in "" $names; do
        page=$pages/hammerline${name:+-$name}.1
        [ -s "$page" ] || { complain "there is no page of hammerline $name"; continue; }
        for form in $([ -n "$name" ] && forms "$name" || true) ""; do
            # shellcheck disable=SC2086
            for option in $(hammerline $name $form --help | sed -n '/^Options:/,/^$/s/^  .*\(--[a-z-]*\) .*/\1/p'); do
                grep -qF "\\f[B]${option//-/\\-}\\f[]" "$page" || complain "$page does not list $option"
            done
        done
        for code in 130 143; do
            grep -qF "\\f[B]$code\\f[]" "$page" || complain "$page does not list exit code $code"
        done
    done
    for section in hammerline-sheet.5 hammerline-rules.5; do
        [ "$(wc -l <"$pages/$section")" -gt 50 ] || complain "$section is not there, or nearly empty"
        grep -q '^|' "$pages/$section" && complain "$section has a table that was not made a list"
    done
    if command -v mandoc >/dev/null; then
        mandoc -T lint -W all "$pages"/*.[15] >&2 || complain "mandoc has complaints"
    else
        skipped="$skipped mandoc"
    fi
else
    skipped="$skipped cmark"
fi

# offers LINE WORD...: what bash offers after the line, in its order.
# shellcheck disable=SC1091
source "$pages/hammerline.bash"
offers() {
    local line=$1
    shift
    # As bash cuts a line into words: "=" is one by itself.
    read -ra COMP_WORDS <<<"${line//=/ = }"
    [[ $line != *[\ =] ]] || COMP_WORDS+=("")
    COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
    _hammerline hammerline
    local got
    got=$(printf '%s\n' "${COMPREPLY[@]}" | sort | tr '\n' ' ')
    [ "$got" = "$(printf '%s\n' "$@" | sort | tr '\n' ' ')" ] || complain "bash, \"$line\": offers \"$got\""
}
cd "$work/at" || exit 2
: >"two words.csv"
: >three.csv
mkdir books
offers "hammerline au" audit
offers "hammerline s" sheet
# shellcheck disable=SC2086
offers "hammerline " $names
offers "hammerline sheet " new form convert history
offers "hammerline sheet new --t" --tidy
offers "hammerline sheet convert --t" --to
offers "hammerline sheet history --t" ""
offers "hammerline rules c" check
offers "hammerline audit --rul" --rule --rules
offers "hammerline --rules books au" audit
offers "hammerline --rules=books au" audit
offers "hammerline audit --rule " simple guarded
offers "hammerline audit --rule=g" guarded
offers "hammerline --color n" never
offers "hammerline rules show gra" grand
offers "hammerline walk --new upr" upright
offers "hammerline audit --json t" "three.csv" "two words.csv"
offers "hammerline audit -- --ru" ""
offers "hammerline --rules " books
offers "hammerline nonsense x" ""

# What is offered as a value is taken by the program; what is not, is refused.
: >empty.csv
for case in "audit --rule simple guarded" "audit --color auto always never" "report --for owner" "sheet --to wide tidy"; do
    read -r name option words <<<"$case"
    for word in $words not-a-word; do
        case $name in
        sheet) set -- sheet convert empty.csv -o out.csv ;;
        report) set -- report empty.csv -o out.html ;;
        *) set -- "$name" empty.csv ;;
        esac
        hammerline "$@" "$option" "$word" >/dev/null 2>&1
        status=$?
        if [ "$word" = not-a-word ]; then
            [ $status -eq 2 ] || complain "$name $option $word is not refused"
        else
            [ $status -ne 2 ] || complain "$name $option $word is offered, and refused"
            offers "hammerline $name $option $word" "$word"
        fi
    done
done

if command -v zsh >/dev/null; then
    zsh -n "$pages/_hammerline" || complain "zsh can't read its completion"
else
    skipped="$skipped zsh"
fi
if command -v fish >/dev/null; then
    for case in "hammerline au|audit" "hammerline rules sh|show" "hammerline audit --rule g|guarded" \
        "hammerline rules show upr|upright"; do
        got=$(fish -c "source $pages/hammerline.fish; complete -C '${case%|*}'" | cut -f1)
        case ${case#*|} in
        guarded) wanted=guarded ;;
        *) wanted=${case#*|} ;;
        esac
        [ "$got" = "$wanted" ] || complain "fish, \"${case%|*}\": offers \"$got\""
    done
else
    skipped="$skipped fish"
fi

[ $bad -eq 0 ] || exit 1
[ -n "$skipped" ] || exit 0
echo "not here:$skipped; the rest is well"
[ -z "${HAMMERLINE_NO_SKIP:-}" ] || exit 1
exit 77
