/* form.c - cells and '#' lines of the sheets that we write (layer: render). */
#include "form.h"

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

static bool is_edge(char c)
{
    return c == ' ' || c == '#';
}

void hl__form_cell(hl_text *out, const char *text)
{
    const size_t size = strlen(text);
    if (strpbrk(text, ",;\t\"") || (size > 0 && (is_edge(text[0]) || text[size - 1] == ' ')))
        add_quoted(out, text);
    else
        hl__text_add(out, text);
}

void hl__form_line(hl_text *out, const char *text)
{
    if (strpbrk(text, ",;\t\""))
        add_quoted(out, text);
    else
        hl__text_add(out, text);
    hl__text_char(out, '\n');
}

void hl__form_take_line(hl_text *out, hl_text *line)
{
    hl__form_line(out, line->data ? line->data : "");
    out->failed |= line->failed;
    hl__text_free(line);
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool hl__form_same_name(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b)) {
        a++;
        b++;
    }
    return lower(*a) == lower(*b);
}

bool hl__form_column(const hl_step *step)
{
    return !step->skipped && step->kind != HL_DERIVED && step->need != HL_NEED_OPTIONAL;
}
