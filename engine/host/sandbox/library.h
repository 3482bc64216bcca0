/* library.h - what rule files may call besides our words (layer: host/sandbox).  Runs inside the sandbox. */
#ifndef HL_LIBRARY_H
#define HL_LIBRARY_H

#include <lua.h>

/* Pushes the table of everything a rule file can see; reading what is not there and writing to
 * it are errors that say what to do.  The words are added by the caller before any file runs. */
void hl__library_push(lua_State *L);
/* Pushes a fresh environment for one file over the table at `index`. */
void hl__library_push_environment(lua_State *L, int index);

#endif
