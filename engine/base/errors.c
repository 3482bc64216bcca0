/* errors.c - filling the one error record (layer: base).
 *
 * The record belongs to the caller.  Words are formatted aside first, so that an error may be
 * built from its own older words. */
#include "errors.h"

#include "text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Bytes of `text` up to `most` that end at a whole UTF-8 character. */
static size_t cut_whole(const char *text, size_t most)
{
    size_t keep = most;
    while (keep > 0 && ((unsigned char)text[keep] & 0xC0u) == 0x80u && most - keep < 4) {
        keep--;
    }
    /* Four continuation bytes in a row are no character: then there is nothing to keep whole. */
    return most - keep < 4 ? keep : most;
}

static void set_words(char *field, size_t room, const char *format, va_list words)
{
    char aside[1024];
    int n = vsnprintf(aside, sizeof aside, format, words);
    if (n < 0) {
        aside[0] = '\0';
        n = 0;
    }
    size_t size = strlen(aside);
    if (size >= room) {
        size = cut_whole(aside, room - 1);
    }
    memcpy(field, aside, size);
    field[size] = '\0';
}

hl_code hl__fail(hl_err *err, hl_code code, const char *what, ...)
{
    char text[sizeof err->what];
    va_list words;
    va_start(words, what);
    set_words(text, sizeof text, what, words);
    va_end(words);
    *err = (hl_err){.code = code};
    memcpy(err->what, text, sizeof text);
    return code;
}

hl_code hl__todo(hl_err *err, const char *todo, ...)
{
    char text[sizeof err->todo];
    va_list words;
    va_start(words, todo);
    set_words(text, sizeof text, todo, words);
    va_end(words);
    memcpy(err->todo, text, sizeof text);
    return err->code;
}

hl_code hl__at(hl_err *err, const char *file, int line, int column)
{
    const char *name = file != NULL ? file : "";
    size_t size = strlen(name);
    size_t room = sizeof err->file;
    if (size < room) {
        memmove(err->file, name, size + 1);
    } else {
        /* The end of a path tells files apart; its start is the same for all. */
        const char *tail = name + size - (room - 4);
        while (((unsigned char)*tail & 0xC0u) == 0x80u) {
            tail++;
        }
        memcpy(err->file, "...", 3);
        memcpy(err->file + 3, tail, strlen(tail) + 1);
    }
    err->line = line;
    err->column = column;
    return err->code;
}

hl_code hl__no_memory(hl_err *err)
{
    hl__fail(err, HL_E_MEMORY, "the machine has no memory left");
    return hl__todo(err, "close other programs and try again");
}
