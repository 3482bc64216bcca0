/* open.c - opening a book (layer: host).  Lua runs between here and the return, and is closed
 * before it; the book that goes out holds no trace of it. */
#include "build.h"
#include "host.h"

#include "errors.h"

#include <stdlib.h>

static hl_code open_into(hl_book *book, const char *name, const hl_shelf *shelf, hl_err *err)
{
    hl_loader loader;
    hl_draft draft = {.arena = &book->arena, .loader = &loader};
    hl_rule_file *file;
    hl_code code = hl__loader_open(&loader, &book->arena, shelf, err);
    if (code == HL_OK)
        code = hl__files_open(&file, &loader.files, name, err);
    if (code == HL_OK)
        code = hl__draft_add(&draft, file, err);
    if (code == HL_OK)
        code = hl__draft_resolve(&draft, err);
    if (code == HL_OK)
        code = hl__build(book, &draft, err);
    hl__draft_free(&draft);
    hl__loader_close(&loader);
    return code;
}

hl_code hl_book_open(hl_book **out, const char *name, const hl_shelf *shelf, hl_err *err)
{
    *out = NULL;
    *err = (hl_err){0};
    hl_book *book = calloc(1, sizeof *book);
    if (book == NULL)
        return hl__no_memory(err);
    hl_code code = open_into(book, name, shelf, err);
    if (code != HL_OK) {
        hl_book_free(book);
        return code;
    }
    *out = book;
    return HL_OK;
}
