#!/usr/bin/env bash
# Kills and errors at every system call of the commands that print or write a file.  What must hold:
# success is said only when the bytes are out and whole; no crash; under a file's final name the whole
# file or none; after an error no draft stays behind.
#
#   HAMMERLINE=PROGRAM output_faults.sh      a part of the calls that are many (reading rule files)
#   HAMMERLINE_LONG=1 ... output_faults.sh   every call; some minutes
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
program=${HAMMERLINE:?name the program in HAMMERLINE}
work=$(mktemp -d) || exit 2
mounted=
trap '[ -z "$mounted" ] || umount "$work/small"; rm -rf "$work"' EXIT
cd "$work" || exit 2
unset NO_COLOR CLICOLOR_FORCE
export HOME=$work XDG_CONFIG_HOME=$work/none LC_ALL=C SOURCE_DATE_EPOCH=1800000000
bad=0 runs=0 fired=0
complain() { echo "$*" >&2; bad=1; }
long=${HAMMERLINE_LONG:-}
# Of a sanitised program: a report is no verdict, so it must not end with 1; and strace and LeakSanitizer
# can't both trace one process, so leaks are looked for in the runs that are not traced.
export ASAN_OPTIONS=exitcode=99${ASAN_OPTIONS:+:$ASAN_OPTIONS} UBSAN_OPTIONS=exitcode=99${UBSAN_OPTIONS:+:$UBSAN_OPTIONS}

# A small book and sheet, so that a run is short (figures invented).
tiny=$root/tests/golden/rules
printf '# book: tiny\nnote,key_dip,blow\nA4,9.4,44\nC5,10,45\n' > sheet.csv
"$program" rules show tiny --rules "$tiny" > /dev/null || exit 2

# name, file it writes ("-": standard output), arguments
cases=(
    "audit - audit --rules $tiny sheet.csv"
    "audit-json - audit --json --rules $tiny sheet.csv"
    "audit-csv - audit --csv --rules $tiny sheet.csv"
    "plan - plan --rules $tiny sheet.csv"
    "show - rules show --rules $tiny tiny"
    "blank - sheet new --rules $tiny tiny"
    "blank-file new.csv sheet new --rules $tiny tiny -o new.csv"
    "tidy-file new.csv sheet new --rules $tiny --tidy tiny -o new.csv"
    "convert-file new.csv sheet convert --rules $tiny sheet.csv -o new.csv"
    "report-file new.html report --rules $tiny sheet.csv -o new.html"
    "report-again old.html report --rules $tiny sheet.csv --replace -o old.html"
)

# A call and what may befall it.  (An unlink that fails leaves a draft, by its nature; memory is
# test_memory_audit.c's.)
faults=(
    "write error=ENOSPC error=EIO error=EINTR signal=KILL"
    "fsync error=ENOSPC error=EIO error=EINTR signal=KILL"
    "openat error=EMFILE error=EACCES error=EIO error=EINTR signal=KILL"
    "read error=EIO error=EINTR signal=KILL"
    "close error=EIO error=EINTR signal=KILL"
    "link error=EACCES error=ENOSPC error=EIO error=EPERM signal=KILL"
    "rename error=EACCES error=ENOSPC error=EIO signal=KILL"
    "unlink signal=KILL"
    "fchmod error=EPERM signal=KILL"
)

put_back() { # what a run may have left
    rm -f new.* out err
    find . -maxdepth 1 -name '*.html.*' -delete
    find . -maxdepth 1 -name 'new.csv*' -delete
    [ "$1" != old.html ] || echo "an older record" > old.html
}

# What must hold after a run; $1 names it, $2 the file, $3 the exit code, $4 "killed" or not.
judge() {
    local what=$1 file=$2 rc=$3 killed=$4 draft
    runs=$((runs + 1))
    if [ "$killed" != killed ] && [ "$rc" -gt 5 ] && [ "$rc" -ne 127 ]; then
        complain "$what: exit $rc: $(head -c 200 err)"
    fi
    if [ "$file" = - ]; then
        [ "$rc" -gt 1 ] || cmp -s out want || complain "$what: exit $rc, but the output is not whole"
    else
        case $file in
        old.html) [ "$(cat old.html)" = "an older record" ] || cmp -s old.html want ||
            complain "$what: half a file under the final name" ;;
        *) [ ! -e "$file" ] || cmp -s "$file" want || complain "$what: half a file under the final name" ;;
        esac
        [ "$rc" -gt 1 ] || cmp -s "$file" want || complain "$what: exit $rc, but the file is not whole"
        if [ "$killed" != killed ]; then
            draft=$(find . -maxdepth 1 -name "$file?*" ! -name '*.lock')
            [ -z "$draft" ] || complain "$what: a draft was left: $draft"
        fi
    fi
    [ "$rc" -le 1 ] || [ "$killed" = killed ] || [ -s err ] || [ -n "$may_be_silent" ] ||
        complain "$what: exit $rc without a word"
}

if ! command -v strace > /dev/null || ! strace -f -o /dev/null true 2> /dev/null; then
    echo "SKIP faults at each system call: strace is not here, or may not trace"
    skipped=yes
else
    # Of the calls that a run makes by the hundred (opening and reading rule files) the short form
    # tries every 5th.
    for case in "${cases[@]}"; do
        read -r name file arguments <<< "$case"
        read -ra words <<< "$arguments"
        put_back "$file"
        "$program" "${words[@]}" > out 2> err
        rc_whole=$?
        [ $rc_whole -le 1 ] || { complain "$name: exit $rc_whole: $(cat err)"; continue; }
        if [ "$file" = - ]; then cp out want; else cp "$file" want; fi
        for row in "${faults[@]}"; do
            read -ra ways <<< "$row"
            call=${ways[0]}
            step=1
            case $call in openat | read | close) [ -n "$long" ] || step=5 ;; esac
            for fault in "${ways[@]:1}"; do
                for ((k = 1; k < 2000; k += step)); do
                    put_back "$file"
                    { strace -E ASAN_OPTIONS="$ASAN_OPTIONS:detect_leaks=0" -o trace -e trace="$call" \
                        -e inject="$call:$fault:when=$k" "$program" "${words[@]}" > out 2> err; } 2> /dev/null
                    rc=$?
                    killed=no
                    ! grep -q 'killed by SIGKILL' trace || killed=killed
                    [ $killed = killed ] || grep -q INJECTED trace || break
                    fired=$((fired + 1))
                    # The write that failed may have been the one that tells.
                    may_be_silent=
                    [ "$call" != write ] || may_be_silent=yes
                    judge "$name: $call $fault at $k" "$file" "$rc" $killed
                done
            done
        done
    done
fi

# ---- places that take nothing ------------------------------------------------------------------------

full() { # exit code 5, and a word about it
    local rc=$1
    [ "$rc" -eq 5 ] || complain "$2: exit $rc, not 5"
    [ -s err ] || complain "$2: not a word"
}
if [ -e /dev/full ]; then
    for case in "${cases[@]}"; do
        read -r name file arguments <<< "$case"
        read -ra words <<< "$arguments"
        [ "$file" = - ] || continue
        "$program" "${words[@]}" > /dev/full 2> err
        full $? "$name > /dev/full"
    done
    "$program" report --rules "$tiny" sheet.csv > /dev/full 2> err
    full $? "report > /dev/full"
    for to in "sheet new --rules $tiny tiny" "sheet convert --rules $tiny sheet.csv" \
        "report --rules $tiny sheet.csv" "report --replace --rules $tiny sheet.csv"; do
        read -ra words <<< "$to"
        "$program" "${words[@]}" -o /dev/full 2> err
        full $? "$to -o /dev/full"
        [ -c /dev/full ] || complain "$to -o /dev/full: it is a device no more"
    done
fi

# Nobody reads: ended by the signal, or told by code 5 where it is ignored; never success.
for case in "${cases[@]}"; do
    read -r name file arguments <<< "$case"
    read -ra words <<< "$arguments"
    [ "$file" = - ] || continue
    for ignored in "" PIPE; do
        ( sleep 0.2; [ -z "$ignored" ] || trap '' "$ignored"; "$program" "${words[@]}" 2> err; echo $? > rc ) | true
        rc=$(cat rc)
        [ "$rc" -eq 141 ] || [ "$rc" -eq 5 ] || complain "$name | true: exit $rc"
    done
done

# Standard streams that are closed: what the program opens must not take their place.
cp sheet.csv before.csv
for case in "${cases[@]}"; do
    read -r name file arguments <<< "$case"
    read -ra words <<< "$arguments"
    put_back "$file"
    "$program" "${words[@]}" > out 2> err
    if [ "$file" = - ]; then cp out want; else cp "$file" want; fi
    for closed in 0 1 2 12 012; do
        put_back "$file"
        case $closed in
        0) "$program" "${words[@]}" > out 2> err <&- ;;
        1) "$program" "${words[@]}" >&- 2> err ;;
        2) "$program" "${words[@]}" > out 2>&- ;;
        12) "$program" "${words[@]}" >&- 2>&- ;;
        012) "$program" "${words[@]}" >&- 2>&- <&- ;;
        esac
        rc=$? may_be_silent=yes
        case $file:$closed in
        -:1 | -:12 | -:012) [ $rc -eq 5 ] || complain "$name with streams $closed closed: exit $rc" ;;
        *) judge "$name with streams $closed closed" "$file" $rc no ;;
        esac
        cmp -s sheet.csv before.csv || complain "$name with streams $closed closed: the sheet was changed"
    done
done

# The walk would ask its questions into the sheet.
"$program" sheet new --rules "$tiny" --tidy tiny -o tidy.csv 2> err || complain "no tidy sheet: $(cat err)"
cp tidy.csv before.csv
"$program" walk --rules "$tiny" tidy.csv < /dev/null >&- 2> err
"$program" walk --rules "$tiny" tidy.csv < /dev/null > out 2>&-
"$program" walk --rules "$tiny" tidy.csv <&- >&- 2>&-
cmp -s tidy.csv before.csv || complain "walk with closed streams: the sheet was written into"

# A small disk that is really full.
mkdir small
if [ "$(id -u)" -eq 0 ] && mount -t tmpfs -o size=64k tmpfs small 2> /dev/null; then
    mounted=yes
    head -c 65536 /dev/zero > small/filler 2> /dev/null
    for to in "sheet new --rules $tiny tiny" "sheet new --rules $tiny --tidy tiny" \
        "sheet convert --rules $tiny sheet.csv" "report --rules $tiny sheet.csv"; do
        read -ra words <<< "$to"
        "$program" "${words[@]}" -o small/new.file 2> err
        full $? "$to on a full disk"
        left=$(find small -type f ! -name filler)
        [ -z "$left" ] || complain "$to on a full disk: it left $left"
    done
    "$program" report --rules "$tiny" sheet.csv > small/out 2> err
    full $? "report > full disk"
else
    echo "SKIP the really full disk: only root may mount a small one here"
fi

echo "$runs runs, $fired faults"
[ $bad -eq 0 ] && [ -n "${skipped:-}" ] && exit 77
exit $bad
