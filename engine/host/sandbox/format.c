/* format.c - string.format for rule files (layer: host/sandbox). */
#include "format.h"

#include "sandbox.h"

#include <lauxlib.h>
#include <string.h>

#define FORMAT_MOST 1000 /* bytes of a format */

/* Checks one item that begins after %; returns its end. */
static const char *check_item(lua_State *L, const char *at)
{
    const char *flags = at + strspn(at, "-+ #0123456789.");
    if (strchr("diucxXoeEfFgGsq%", *flags) == NULL || *flags == '\0')
        hl__sandbox_error(L, "use %d, %s, %f, %g or %%", "string.format: %%%c is not offered to rule files",
                          *flags != '\0' ? *flags : ' ');
    return flags + 1;
}

int hl__format(lua_State *L)
{
    size_t size;
    const char *format = luaL_checklstring(L, 1, &size);
    if (size > FORMAT_MOST || strlen(format) != size)
        hl__sandbox_error(L, "build long texts piece by piece", "string.format: the format is too long");
    for (const char *at = strchr(format, '%'); at != NULL; at = strchr(at, '%'))
        at = check_item(L, at + 1);
    int n = lua_gettop(L);
    for (int i = 2; i <= n; i++) {
        int type = lua_type(L, i);
        if (type == LUA_TTABLE || type == LUA_TFUNCTION || type == LUA_TLIGHTUSERDATA) {
            lua_pushstring(L, lua_typename(L, type)); /* an address would differ from run to run */
            lua_replace(L, i);
        }
    }
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, n, 1);
    return 1;
}
