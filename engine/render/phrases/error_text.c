/* error_text.c - one error as one line, and giving printed text back (layer: render/phrases). */
#include "hammerline/print.h"

#include "text.h"

#include <stdlib.h>

hl_code hl_err_text(char **out, size_t *size, const hl_err *err)
{
    hl_text text = {0};
    hl_err memory;
    *out = NULL;
    if (err->file[0]) {
        hl__text_safe(&text, err->file);
        if (err->line > 0)
            hl__text_printf(&text, ":%d", err->line);
        if (err->line > 0 && err->column > 0)
            hl__text_printf(&text, ":%d", err->column);
        hl__text_add(&text, ": ");
    }
    hl__text_safe(&text, err->what);
    if (err->todo[0]) {
        hl__text_add(&text, "; ");
        hl__text_safe(&text, err->todo);
    }
    hl__text_char(&text, '\n');
    return hl__text_take(&text, out, size, &memory);
}

void hl_free(char *text)
{
    free(text);
}
