/* words.h - the functions that rule files are written with (layer: host/words).  Run inside the
 * sandbox; each remembers the file and line of its call. */
#ifndef HL_WORDS_H
#define HL_WORDS_H

#include "entry.h"
#include "hammerline/book.h"
#include "sandbox.h"

#include <lua.h>

/* Adds every word to the table on top of the stack. */
void hl__words_add(lua_State *L);

/* The target words, by word: NULL for the others. */
lua_CFunction hl__target_word(hl_rule_word word);
/* Enter Lua and ask a target function (HL_W_FUNCTION) for the pitches that are wanted; its anchors hold the
 * answers, by pitch.  An error names the note. */
hl_code hl__target_ask(hl_sandbox *box, hl_entry *function, const bool wanted[HL_PITCHES], hl_err *err);

#endif
