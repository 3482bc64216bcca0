#!/usr/bin/env bash
# The detached signature of docs/sheets.md, made by a tool of others: it fits the sheet as it was signed, and
# no sheet that was changed, shortened or rewritten with marks that fit.
set -u
program=${HAMMERLINE:?the program}
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
command -v ssh-keygen > /dev/null || { echo "SKIP no ssh-keygen here"; exit 77; }
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 2
bad=0
complain() { echo "$*" >&2; bad=1; }
printf '# hammerline: tidy 2\n# book: tiny\nnote,step,reading,entry\n' > octave.csv
printf '%s\n' 'go blow C4' 45 'D4-E4 45.5' 'F4 46' quit | "$program" walk --rules "$root/tests/golden/rules" octave.csv > /dev/null
ssh-keygen -q -t ed25519 -N '' -f key || { echo "SKIP ssh-keygen makes no key"; exit 77; }
echo "me $(cut -d' ' -f1,2 key.pub)" > signers
ssh-keygen -q -Y sign -f key -n sheet octave.csv 2> err || { echo "SKIP ssh-keygen can't sign: $(cat err)"; exit 77; }
fits() { ssh-keygen -q -Y verify -f signers -I me -n sheet -s octave.csv.sig < "$1" > out 2>&1; }
fits octave.csv || complain "the signature does not fit what was signed: $(cat out)"
"$program" verify octave.csv > out || complain "verify: $(cat out)"
head -n -1 octave.csv > shorter.csv # whole entries cut from the end: the marks can't tell
"$program" verify shorter.csv > out || complain "verify of a shorter sheet: $(cat out)"
! fits shorter.csv || complain "the signature fits a shorter sheet"
sed 's/^F4,blow,46/F4,blow,45/' octave.csv > edited.csv
! "$program" verify edited.csv > out || complain "verify of an edited sheet: $(cat out)"
! fits edited.csv || complain "the signature fits an edited sheet"
exit $bad
