/* format.h - string.format for rule files (layer: host/sandbox). */
#ifndef HL_FORMAT_H
#define HL_FORMAT_H

#include <lua.h>

/* Lua's own (upvalue 1), without %p and without addresses. */
int hl__format(lua_State *L);

#endif
