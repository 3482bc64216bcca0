/* lua_text.h - a rule file's text, word by word, as Lua itself reads it (layer: host/sandbox).
 *
 * The one place that knows Lua's comments, texts, numbers and ends of lines. */
#ifndef HL_LUA_TEXT_H
#define HL_LUA_TEXT_H

#include <stdbool.h>
#include <stddef.h>

typedef enum hl_lua_kind {
    HL_LUA_END,
    HL_LUA_NAME, /* Lua's own words (return, and) too */
    HL_LUA_NUMBER,
    HL_LUA_STRING, /* with its quotes or brackets */
    HL_LUA_SIGN,   /* the longest that Lua has: "<=", "..." */
} hl_lua_kind;

typedef struct hl_lua_word {
    hl_lua_kind kind;
    const char *at;
    size_t size;
    int line; /* that it begins in */
} hl_lua_word;

/* Start as {text, text + size, 1}. */
typedef struct hl_lua_text {
    const char *at, *end;
    int line;
} hl_lua_text;

/* The next word; comments and blanks are passed over.  A text or comment that never ends goes to the end of
 * the file, a short text to the end of its line: Lua refuses both when it reads the file. */
hl_lua_word hl__lua_next(hl_lua_text *text);
/* The line of a place in the text, counted from its start. */
int hl__lua_line(const char *text, const char *place);
/* Is it one of Lua's own words, such as `and` or `end`? */
bool hl__lua_is_reserved(hl_lua_word word);
/* Is it this name or sign? */
bool hl__lua_is(hl_lua_word word, const char *text);
/* What a text without escapes says: the bytes between its quotes; false for any other word. */
bool hl__lua_plain_string(hl_lua_word word, const char **at, size_t *size);

#endif
