#!/usr/bin/env bash
# Kills and errors at every system call of the journal: after each run every row that was said to be
# saved is in the sheet, whole, the sheet reads, and the next session goes on.
#   journal_faults.sh            builds its driver with ${CC:-cc}
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
work=$(mktemp -d) || exit 2
mounted=
trap '[ -z "$mounted" ] || umount "$work/small"; rm -rf "$work"' EXIT
driver=$work/journal_driver
${CC:-cc} -std=c17 -D_POSIX_C_SOURCE=200809L -O1 -I"$root/engine/include" -I"$root/engine/base" -I"$root/engine/sheet" -I"$root/engine/sheet/rows" -I"$root/engine/sheet/journal" -I"$root/engine/book" \
    "$root/tests/faults/journal_driver.c" "$root"/engine/sheet/journal/*.c "$root/engine/sheet/rows/csv.c" \
    "$root"/engine/base/*.c -lm -o "$driver" || exit 2
cd "$work" || exit 2
bad=0 runs=0 fired=0
complain() { echo "$1" >&2; cat log >&2; bad=1; }

# How a sheet is made, how rows are appended to it, and the number of the first.
make=create append=append first=100

# A sheet with two good rows and a torn third, `4.5` of `4.53` (invented).
torn_sheet() {
    rm -f sheet.csv* log
    "$driver" $make sheet.csv > log && "$driver" append sheet.csv 1 2 > log || complain "no sheet to begin with"
    printf '4,key_dip,4.5' >> sheet.csv
}

# What must hold after any fault; $1 names the run.
judge() {
    runs=$((runs + 1))
    "$driver" append sheet.csv 2000 2 >> log || complain "$1: the next session could not go on"
    "$driver" check sheet.csv log >> log || complain "$1: a row is lost or changed"
    grep -q '^saved 2001' log || complain "$1: the next session saved nothing"
    # Set aside once; a second time only when killed between keeping it and taking it off.
    grep -qx '4,key_dip,4.5' sheet.csv.torn || complain "$1: the torn row was not kept"
}

if ! command -v strace > /dev/null || ! strace -o /dev/null true 2> /dev/null; then
    echo "SKIP faults at each system call: strace is not here, or may not trace"
else
    for way in "create append 100" "old append 100" "create entries 50000"; do
    read -r make append first <<< "$way"
    for call in write fdatasync fsync ftruncate flock pread64; do
        for fault in signal=KILL error=ENOSPC error=EIO error=EINTR; do
            case $call:$fault in
            flock:error=EIO | flock:error=ENOSPC | pread64:error=ENOSPC) continue ;; # not theirs to give
            esac
            for k in $(seq 1 60); do
                torn_sheet
                { strace -o trace -e trace=$call -e inject=$call:$fault:when="$k" \
                    "$driver" $append sheet.csv "$first" 4 >> log; } 2> /dev/null
                rc=$?
                hit=$(grep -c -e INJECTED -e 'killed by SIGKILL' trace)
                if [ "$hit" -gt 0 ] && [ $rc -ne 127 ]; then # 127: the loader's own call
                    fired=$((fired + 1))
                    case $fault in
                    error=EINTR) [ $rc -eq 0 ] || complain "$call $fault $k: EINTR was not tried again" ;;
                    error=EIO) # a look at the end that fails is taken for a change, and the sheet is read again
                        [ $call = pread64 ] || [ $rc -eq 5 ] || [ $rc -eq 3 ] ||
                            complain "$call $fault $k: exit $rc, not 5" ;;
                    error=*) { [ $rc -eq 5 ] || [ $rc -eq 3 ]; } || complain "$call $fault $k: exit $rc, not 5" ;;
                    esac
                    # After a failed sync nothing more is taken.
                    if [ $call = fdatasync ] && [ $fault = error=EIO ]; then
                        [ "$(sed -n '/^not saved/,$p' log | grep -c '^saved')" -eq 0 ] ||
                            complain "$call $fault $k: went on after a failed sync"
                    fi
                fi
                # What was refused for want of room is not in the sheet.
                if [ $call = write ] && [ $fault = error=ENOSPC ] && [ $append = append ] &&
                    grep -q '^saved 10' log; then
                    [ "$(grep -c '^saved' log)" -eq "$(grep -c key_dip,.*ann sheet.csv)" ] ||
                        complain "$call $fault $k: a refused row is in the sheet"
                fi
                judge "$call $fault $k"
                [ "$hit" -gt 0 ] || break
            done
            [ "$k" -gt 1 ] || complain "$call $fault: no such call was seen"
            [ "$k" -lt 60 ] || complain "$call $fault: no end of calls"
        done
    done
    done
    make=create append=append first=100

    # A write that takes less than it was given, and can't be taken back: the half row stays for
    # the next session to set aside.
    torn_sheet
    "$driver" append sheet.csv 100 1 >> log
    size=$(stat -c %s sheet.csv)
    (
        ulimit -f $((size / 1024 + 1))
        strace -o trace -e trace=ftruncate -e inject=ftruncate:error=EIO:when=1+ \
            "$driver" append sheet.csv 101 60
    ) | cat >> log # which has no limit
    grep -q 'half could not be taken back' log || complain "a half row that stays was not told of"
    [ "$(tail -c 1 sheet.csv | wc -l)" -eq 0 ] || complain "no half row was made"
    judge "half row"

    # A folder without locks, and a session that never lets go (naps are skipped).
    torn_sheet
    strace -o trace -e trace=flock -e inject=flock:error=ENOLCK "$driver" append sheet.csv 100 1 > out
    grep -q 'does not support locks' out || complain "no lock: $(cat out)"
    strace -o trace -e trace=flock,clock_nanosleep -e inject=flock:error=EAGAIN \
        -e inject=clock_nanosleep:retval=0 "$driver" append sheet.csv 100 1 > out
    grep -q 'held the sheet.s lock for 10 seconds' out || complain "lock held: $(cat out)"
    [ "$(tail -c 13 sheet.csv)" = 4,key_dip,4.5 ] || complain "written without the lock"
    judge "locks"

    # A new sheet: whole or not there, whatever fails; with links and without.
    for links in yes no; do
        for call in write fsync link rename unlink openat close; do
            for fault in signal=KILL error=EIO error=ENOSPC error=EINTR; do
                for k in $(seq 1 40); do
                    rm -f new.csv*
                    without=()
                    [ $links = yes ] || without=(-e inject=link:error=EPERM)
                    [ "$links:$call" != no:link ] || break
                    { strace -o trace -e trace=$call,link "${without[@]}" \
                        -e inject=$call:$fault:when="$k" "$driver" create new.csv > out; } 2> /dev/null
                    runs=$((runs + 1))
                    if [ -s new.csv ]; then
                        "$driver" append new.csv 1 1 > log || complain "create $call $fault $k: half a sheet"
                    fi
                    if [ "$(cat out)" = made ] && [ ! -s new.csv ]; then
                        complain "create $call $fault $k: made, and not there"
                    fi
                    if grep -q '^not made' out && [ -e new.csv ]; then
                        complain "create $call $fault $k: not made, and there"
                    fi
                    grep -q -e "^$call(.*INJECTED" -e 'killed by SIGKILL' trace || break
                    fired=$((fired + 1))
                done
            done
        done
    done

    # Somebody else makes the file between our look and our link: it is left as it is.
    for without in "" "-e inject=link:error=EPERM"; do
        for k in $(seq 1 20); do
            echo theirs > new.csv
            # shellcheck disable=SC2086 # no word at all when empty
            strace -o trace -e trace=newfstatat,lstat,link $without -e "inject=newfstatat,lstat:error=ENOENT:when=$k" \
                "$driver" create new.csv > out 2> /dev/null
            runs=$((runs + 1))
            [ "$(cat new.csv)" = theirs ] || complain "another's new file was replaced"
            grep -q '^[a-z]*stat.*INJECTED' trace || break
            fired=$((fired + 1))
        done
        [ "$k" -gt 1 ] || complain "no look before a new file was seen"
    done
fi

# A disk that is really full.
mkdir small
if [ "$(id -u)" -eq 0 ] && mount -t tmpfs -o size=64k tmpfs small 2> /dev/null; then
    mounted=yes
    head -c 40000 /dev/zero > small/filler
    "$driver" create small/sheet.csv > log && "$driver" append small/sheet.csv 1 3000 > log
    grep -q 'not saved.*the disk is full' log || complain "the small disk never filled"
    "$driver" check small/sheet.csv log >> log || complain "full disk: a row is lost or changed"
    "$driver" create small/x.csv > out && complain "a new sheet on a full disk"
    grep -q 'the disk is full' out || complain "full disk: $(cat out)"
    [ -z "$(find small -name '*.new-*')" ] || complain "a temporary file was left on the full disk"
    rm small/filler
    "$driver" append small/sheet.csv 4000 2 >> log || complain "there is room again, and nothing is saved"
    "$driver" check small/sheet.csv log >> log || complain "room again: a row is lost or changed"
else
    echo "SKIP the really full disk: only root may mount a small one here"
fi
[ ! -e /dev/full ] || {
    "$driver" append /dev/full 1 1 > out && complain "/dev/full took a row"
    grep -q 'not an ordinary file' out || complain "/dev/full: $(cat out)"
}

echo "$runs runs, $fired faults"
exit $bad
