#!/usr/bin/env bash
# No two files call each other in a circle, inside a folder or across folders: what the object files need of
# each other is what is looked at, so no way of writing a call escapes.
#
# Usage: tests/circles.sh [BUILD], the build folder; else it is that of the program $HAMMERLINE.
set -u
cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" || exit 2
build=${1:-$(dirname "$(dirname "${HAMMERLINE:-build/bin/hammerline}")")}

# Circles that are known and wait to be taken apart: "a.c b.c c.c", in the order of their names.  May only shrink.
known=(
)

objects=$(find "$build/engine/CMakeFiles" -name '*.c.o' | LC_ALL=C sort)
[ "$(printf '%s\n' "$objects" | wc -l)" -gt 100 ] || { echo "$build holds too few object files; is it built?" >&2; exit 2; }
# An object that a file was taken from stays behind in an old build folder: only files that are there count.
list=$(mktemp) || exit 2
trap 'rm -f "$list"' EXIT
for object in $objects; do
    file=${object#*.dir/}
    file=${file%.o}
    [ -f "engine/$file" ] || continue
    nm -P "$object" | awk -v file="$file" '$2 ~ /^[A-Z]$/ { print file, $2, $1 }'
done >"$list"

# Files that nobody of the rest calls, or that call nobody of the rest, are in no circle: taken away until
# none is left to take, what stays is circles and the ways between them.
circles=$(awk '
    $2 != "U" { home[$3] = $1 }
    { kind[NR] = $2; name[NR] = $3; file[NR] = $1 }
    END {
        for (i = 1; i <= NR; i++)
            if (kind[i] == "U" && (name[i] in home) && home[name[i]] != file[i])
                edge[file[i] " " home[name[i]]] = 1
        do {
            split("", calls); split("", called); taken = 0
            for (e in edge) { split(e, ends, " "); calls[ends[1]] = 1; called[ends[2]] = 1 }
            for (e in edge) {
                split(e, ends, " ")
                if (!(ends[1] in called) || !(ends[2] in calls)) { delete edge[e]; taken = 1 }
            }
        } while (taken)
        # Those that reach each other are one circle.
        for (e in edge) { split(e, ends, " "); node[ends[1]] = 1; node[ends[2]] = 1; reach[ends[1], ends[2]] = 1 }
        for (k in node) for (i in node) if ((i, k) in reach) for (j in node) if ((k, j) in reach) reach[i, j] = 1
        for (i in node) if ((i, i) in reach) {
            first = i; text = ""
            n = 0
            for (j in node) if ((i, j) in reach && (j, i) in reach) members[++n] = j
            for (a = 2; a <= n; a++) { # by name
                one = members[a]
                for (b = a - 1; b >= 1 && members[b] > one; b--) members[b + 1] = members[b]
                members[b + 1] = one
            }
            for (a = 1; a <= n; a++) text = text (a > 1 ? " " : "") members[a]
            if (members[1] == i) print text
        }
    }' "$list" | LC_ALL=C sort)

bad=0
while read -r circle; do
    [ -n "$circle" ] || continue
    listed=0
    for one in "${known[@]}"; do [ "$one" = "$circle" ] && listed=1; done
    [ "$listed" = 1 ] || { echo "these files call each other in a circle: $circle" >&2; bad=1; }
done <<<"$circles"
for one in "${known[@]}"; do
    grep -qxF "$one" <<<"$circles" || { echo "no circle any more, take it off the list: $one" >&2; bad=1; }
done
exit $bad
