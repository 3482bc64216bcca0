/* words.h - the functions that rule files are written with (layer: host/words).  Run inside the
 * sandbox; each remembers the file and line of its call. */
#ifndef HL_WORDS_H
#define HL_WORDS_H

#include "entry.h"
#include "hammerline/book.h"

#include <lua.h>

/* Adds every word to the table on top of the stack.  `made` receives the file's entries. */
void hl__words_add(lua_State *L, hl_entry **made);

/* For words_target.c: a new entry of the running file. */
hl_entry *hl__word_entry(lua_State *L, hl_rule_word word, int n_values);
/* The target words, by word: NULL for the others. */
lua_CFunction hl__target_word(hl_rule_word word);
/* Ask the function at `index` for every pitch from C0 to B8. */
hl_entry *hl__target_from_function(lua_State *L, int index);

#endif
