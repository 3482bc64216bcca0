/* sheet_out.c - cells and '#' lines of the sheets that we write (layer: render/data). */
#include "sheet_out.h"

#include <string.h>

static void add_quoted(hl_text *out, const char *text)
{
    hl__text_char(out, '"');
    for (; *text; text++) {
        if (*text == '"')
            hl__text_char(out, '"');
        hl__text_char(out, *text);
    }
    hl__text_char(out, '"');
}

/* A character that quotes must keep from ending the cell, or from looking like one that does. */
static bool holds(const char *text, char separator)
{
    return strchr(text, separator) || strchr(text, '"');
}

static bool is_edge(char c)
{
    return c == ' ' || c == '#';
}

void hl__out_cell(hl_text *out, char separator, const char *text)
{
    const size_t size = strlen(text);
    if (holds(text, separator) || (size > 0 && (is_edge(text[0]) || text[size - 1] == ' ')))
        add_quoted(out, text);
    else
        hl__text_add(out, text);
}

void hl__out_line(hl_text *out, char separator, const char *text)
{
    if (holds(text, separator))
        add_quoted(out, text);
    else
        hl__text_add(out, text);
    hl__text_char(out, '\n');
}

void hl__out_take_line(hl_text *out, char separator, hl_text *line)
{
    hl__out_line(out, separator, line->data ? line->data : "");
    out->failed |= line->failed;
    hl__text_free(line);
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool hl__same_method(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b)) {
        a++;
        b++;
    }
    return lower(*a) == lower(*b);
}

bool hl__out_column(const hl_step *step)
{
    return !step->skipped && step->kind != HL_DERIVED && step->need != HL_NEED_OPTIONAL;
}
