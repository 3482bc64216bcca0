/* lua_to_value.h - from Lua values to plain C and to entries (layer: host/words).  Runs inside the sandbox.
 */
#ifndef HL_LUA_TO_VALUE_H
#define HL_LUA_TO_VALUE_H

#include "entry.h"
#include "hammerline/book.h"

#include <lua.h>

/* The file and line where the running word was called. */
hl_origin hl__lift_origin(lua_State *L);
/* Copy the value at `index` (and all inside it) into the arena.  `word`: the word that it was given to, by
 * which the lines of a table's fields are found in the file's text; NULL: every value has the line of the
 * call. */
void hl__lift(lua_State *L, int index, const char *word, hl_value *out);
/* The same of by_choice's table: a function under any name is a target. */
void hl__lift_options(lua_State *L, int index, const char *word, hl_value *out);
/* A new entry of the running file, and one that is made already: both are remembered as made by it. */
hl_entry *hl__make_entry(lua_State *L, hl_rule_word word, int n_values);
void hl__entry_made(lua_State *L, hl_entry *entry);
/* The text at `index`: valid UTF-8, no zero byte; copied. */
const char *hl__lift_text(lua_State *L, int index);
/* The entry at `index`, or NULL when it is none. */
hl_entry *hl__lift_entry(lua_State *L, int index);

#endif
