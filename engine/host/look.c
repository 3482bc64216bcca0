/* look.c - what a rule file is, without running it (layer: host). */
#include "host.h"

#include "file.h"
#include "load.h"
#include "lua_text.h"

#include <stdlib.h>
#include <string.h>

static void look_at(hl_rule_look *out, hl_lua_text text)
{
    hl_lua_word older = {.kind = HL_LUA_END}, last = older, word = older;
    bool returned = false, uses = false;
    do {
        older = last;
        last = word;
        word = hl__lua_next(&text);
        if (hl__lua_is(last, "return") && hl__lua_is(word, "book"))
            returned = true;
        bool opens = hl__lua_is(word, "(") || hl__lua_is(word, "{") || word.kind == HL_LUA_STRING;
        if (opens && (hl__lua_is(last, "use") || hl__lua_is(last, "stage")))
            uses = true;
        const char *id;
        size_t size;
        if (hl__lua_is(older, "return") && hl__lua_is(last, "tests") &&
            hl__lua_plain_string(word, &id, &size) && size < sizeof out->tested) {
            memcpy(out->tested, id, size);
            out->tested[size] = '\0';
        }
    } while (word.kind != HL_LUA_END);
    out->book = returned && uses;
}

bool hl_rule_file_look(hl_rule_look *out, const char *path)
{
    char *text;
    size_t size;
    hl_err err;
    *out = (hl_rule_look){0};
    if (hl__file_read(&text, &size, path, HL_RULE_FILE_MOST, HL_E_RULE, &err) != HL_OK)
        return false;
    look_at(out, (hl_lua_text){text, text + size, 1});
    free(text);
    return true;
}
