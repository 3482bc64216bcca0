#!/usr/bin/env bash
# The house holds: includes point downwards only, Lua stays in host/, each header compiles alone, the
# command line sees the public header only.
set -u
cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" || exit 2
bad=0
complain() { echo "$1" >&2; bad=1; }

layers="base model host judge render cli pages press"
declare -A may=([base]="base" [model]="base model" [host]="base model host"
    [judge]="base model judge" [render]="base model judge render" [cli]="cli"
    [pages]="cli pages" [press]="base model host press")
declare -A home
for layer in $layers; do
    for header in engine/$layer/*.h; do
        [ -e "$header" ] || continue
        name=$(basename "$header")
        [ -z "${home[$name]:-}" ] || complain "$header: $name is also in engine/${home[$name]}"
        home[$name]=$layer
    done
done
seen=0
for layer in $layers; do
    for file in engine/$layer/*.[ch]; do
        while read -r name; do
            seen=$((seen + 1))
            [ "$name" = hammerline.h ] && continue
            from=${home[$name]:-}
            [ -n "$from" ] || { complain "$file: includes $name, which is nowhere"; continue; }
            case " ${may[$layer]} " in
            *" $from "*) ;;
            *) complain "$file: $layer may not include $name of $from" ;;
            esac
        done < <(sed -n 's/^#include "\(.*\)"/\1/p' "$file")
        if [ "$layer" != host ] && grep -q '^#include <\(lua\|lauxlib\|lualib\)' "$file"; then
            complain "$file: Lua stays in engine/host"
        fi
    done
done
[ "$seen" -gt 50 ] || complain "only $seen includes seen; is this the right folder?"

for header in engine/hammerline.h engine/*/*.h; do
    printf '#include "%s"\n' "$(basename "$header")" |
        ${CC:-cc} -std=c17 -D_POSIX_C_SOURCE=200809L -fsyntax-only -Iengine -Iengine/base -Iengine/model -Iengine/host \
            -Iengine/judge -Iengine/render -Iengine/cli -Iengine/pages -Iengine/press -I/usr/include/lua5.4 -x c - ||
        complain "$header does not compile alone"
done
exit $bad
