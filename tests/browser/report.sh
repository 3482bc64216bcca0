#!/usr/bin/env bash
# The record in a real browser: nothing in it runs, nothing is fetched, what a stranger typed shows as it was
# typed, it fits a desk, a tablet and a sheet of paper.
#
#   HAMMERLINE=PROGRAM report.sh      skipped (77) without chromium or pdfinfo
#   AXE=axe.min.js                    with axe-core's file, its rules are tried too: no violation
set -u
root=$(cd "${HAMMERLINE_ROOT:-$(dirname "$0")/../..}" && pwd) || exit 2
browser=$(command -v chromium || command -v chromium-browser) && command -v pdfinfo pdftotext > /dev/null ||
    { echo "SKIP no chromium or no pdfinfo"; exit 77; }
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
export HOME=$work XDG_CONFIG_HOME=$work SOURCE_DATE_EPOCH=1767225600
cd "$work" || exit 2
bad=0
complain() { echo "$*" >&2; bad=1; }

# One run of the browser on FILE; the net is closed, and what it asks for is written down in net.json.
browse() { # FILE OPTION...
    local file=$1
    shift
    timeout 120 "$browser" --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --no-first-run --disable-sync \
        --disable-background-networking --disable-component-update --disable-quic --host-resolver-rules='MAP * ~NOTFOUND' \
        --user-data-dir="$work/profile" --log-net-log="$work/net.json" "$@" "file://$work/$file" 2> browser.log
}

# A script put into a copy: with the page's own policy it must be refused, without it, it measures.
with_script() { # FILE SCRIPT [strip]
    awk -v script="$2" -v strip="${3:-}" '
        strip { gsub(/<meta http-equiv="Content-Security-Policy"[^>]*>/, "") }
        { at = index($0, "</body>") }
        at { print substr($0, 1, at - 1) "<script>" script "</script>" substr($0, at); next }
        { print }' "$1"
}

hostile='<script>document.title="ran"</script><img src="http://hostile.invalid/x.png" onerror="document.title=1">'
{
    printf '# book: grand\n# piano: %s\n# place: http://hostile.invalid/place\n' "$hostile"
    sed -e '/^# piano:/d' -e '/^# place:/d' -e '/^# book:/d' "$root/sheets/demo-grand.csv"
} > hostile.csv
cp "$root/sheets/demo-grand.csv" "$root/sheets/ready-grand.csv" .
for sheet in hostile demo-grand ready-grand; do
    "$HAMMERLINE" report $sheet.csv -o $sheet.html > /dev/null 2>&1
    "$HAMMERLINE" report $sheet.csv --for owner -o $sheet-owner.html > /dev/null 2>&1
done

# ---- what a stranger typed
for page in hostile hostile-owner; do
    browse $page.html --dump-dom > dom || complain "$page: the browser did not end well"
    grep -q '&lt;script&gt;document.title=' dom || complain "$page: the piano's name does not show as typed"
    grep -qi '<script\|<img\|<title>ran' dom && complain "$page: what was typed became part of the page"
    grep -q 'hostile\.invalid' net.json && complain "$page: something was asked for from the net"
done

# ---- no script runs, even when there is one
with_script demo-grand.html 'document.body.setAttribute("data-ran", "yes")' > scripted.html
browse scripted.html --dump-dom > dom
grep -q 'data-ran="yes"' dom && complain "a script ran in the record"
with_script demo-grand.html 'document.body.setAttribute("data-ran", "yes")' strip > scripted.html
browse scripted.html --dump-dom > dom
grep -q 'data-ran="yes"' dom || complain "the test's own script did not run without the policy: this test shows nothing"

# ---- it fits: a desk, a tablet
for page in demo-grand demo-grand-owner; do
    with_script $page.html 'document.body.setAttribute("data-wide", Math.max(0, document.documentElement.scrollWidth - innerWidth))' \
        strip > wide.html
    for width in 1280 820; do
        browse wide.html --window-size=$width,1000 --dump-dom > dom
        grep -q 'data-wide="0"' dom || complain "$page: wider than a window of $width: $(grep -o 'data-wide="[^"]*"' dom)"
    done
done

# ---- paper: an owner's page is one page; no page of a record is empty
for page in ready-grand-owner demo-grand-owner demo-grand; do
    browse $page.html --no-pdf-header-footer --print-to-pdf="$work/$page.pdf" > /dev/null
    pages=$(pdfinfo $page.pdf 2> /dev/null | sed -n 's/^Pages: *//p')
    [ "${pages:-0}" -ge 1 ] || complain "$page: did not print"
    case $page in
    *-owner) [ "${pages:-0}" -eq 1 ] || complain "$page: $pages printed pages, not one" ;;
    ready-*) [ "${pages:-0}" -ge 3 ] && [ "$pages" -le 6 ] || complain "$page: ${pages:-0} printed pages, not 3 to 6" ;;
    *) [ "${pages:-0}" -ge 3 ] && [ "$pages" -le 10 ] || complain "$page: ${pages:-0} printed pages, not 3 to 10" ;;
    esac
    for ((i = 1; i <= ${pages:-0}; i++)); do
        [ "$(pdftotext -f $i -l $i $page.pdf - | wc -w)" -ge 10 ] || complain "$page: printed page $i is all but empty"
    done
done

# ---- axe-core, where it is
if [ -n "${AXE:-}" ]; then
    for page in demo-grand ready-grand-owner; do
        {
            sed -e 's/<meta http-equiv="Content-Security-Policy"[^>]*>//' -e 's,</body>.*,,' $page.html
            printf '<script>'
            sed 's,</script,<\\/script,g' "$AXE"
            printf '</script><script>axe.run(document).then(r => document.body.setAttribute("data-axe", %s))</script></body></html>' \
                'r.passes.length + " passed " + r.violations.map(v => v.id)'
        } > axe.html
        browse axe.html --virtual-time-budget=60000 --dump-dom > dom
        grep -qE 'data-axe="[1-9][0-9]* passed "' dom || complain "$page: axe: $(grep -o 'data-axe="[^"]*"' dom)"
    done
fi
exit $bad
