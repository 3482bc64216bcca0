#!/usr/bin/env bash
# The house holds: includes point downwards only, Lua stays in host/, each header compiles alone, and
# the command line sees the public header only.  (Circles of files: circles.sh.)
set -u
cd "${HAMMERLINE_ROOT:-$(dirname "$0")/..}" || exit 2
bad=0
complain() { echo "$1" >&2; bad=1; }

# What each layer may include, as engine/CMakeLists.txt says it.
declare -A may=([cli]="cli" [pages]="cli pages")
layers="cli pages"
while read -r layer below; do
    layers="$layers $layer"
    may[$layer]="$layer $below"
done < <(sed -n 's/^hammerline_layer(\(.*\))$/\1/p' engine/CMakeLists.txt)
# The topics of the public header that a layer may include: its own and those of the layers below.
declare -A topics=([base]="base" [book]="base book" [host]="base book" [sheet]="base book sheet"
    [table]="base book sheet audit" [measure]="base book sheet audit" [state]="base book sheet audit"
    [judge]="base book sheet audit" [check]="base book sheet audit"
    [advise]="base book sheet audit plan" [fleet]="base book sheet audit fleet"
    [render]="base book sheet audit plan fleet print")
declare -A home
for layer in $layers; do
    while read -r header; do
        name=$(basename "$header")
        [ -z "${home[$name]:-}" ] || complain "$header: $name is also in engine/${home[$name]}"
        home[$name]=$layer
    done < <(find "engine/$layer" -name '*.h')
done
seen=0
for layer in $layers; do
    while read -r file name; do
        seen=$((seen + 1))
        case $name in
        hammerline.h)
            # The umbrella is for users of the engine: the command line and programs of others.
            case $layer in cli | pages) ;; *) complain "$file: include the topic that it needs, not hammerline.h" ;; esac
            continue ;;
        hammerline/*)
            topic=${name#hammerline/}
            case " ${topics[$layer]:-} " in
            *" ${topic%.h} "*) ;;
            *) complain "$file: $layer may not include $name" ;;
            esac
            continue ;;
        esac
        from=${home[$name]:-}
        [ -n "$from" ] || { complain "$file: includes $name, which is nowhere"; continue; }
        case " ${may[$layer]} " in
        *" $from "*) ;;
        *) complain "$file: $layer may not include $name of $from" ;;
        esac
    done < <(grep -rH '^#include "' "engine/$layer" | sed -n 's/^\([^:]*\):#include "\(.*\)"/\1 \2/p')
    [ "$layer" = host ] || grep -rlE '^#include <(lua|lauxlib|lualib)' "engine/$layer" | while read -r file; do
        echo "$file: Lua stays in engine/host" >&2
        exit 1
    done || bad=1
done
[ "$seen" -gt 50 ] || complain "only $seen includes seen; is this the right folder?"

folders=$(find engine -name '*.h' -not -path 'engine/include/hammerline/*' -printf '-I%h\n' | sort -u)
while read -r header; do
    # $folders is a list of options, to be split.
    # shellcheck disable=SC2086
    printf '#include "%s"\n' "$PWD/$header" |
        ${CC:-cc} -std=c17 -D_POSIX_C_SOURCE=200809L -fsyntax-only $folders -I/usr/include/lua5.4 -x c - ||
        complain "$header does not compile alone"
done < <(find engine -name '*.h')
exit $bad
