/* wrap.c - breaks text at blanks, in a paragraph or in columns beside each other (layer: render/phrases). */
#include "wrap.h"

#include <string.h>

/* Columns of a word that is not a string of its own. */
static int measure_word(const char *word, size_t size)
{
    int columns = 0;
    for (size_t i = 0; i < size;) {
        uint32_t point = 0;
        const int taken = hl__utf8_next(word + i, size - i, &point);
        if (taken <= 0) {
            i++;
            columns++;
            continue;
        }
        char one[8] = {0};
        memcpy(one, word + i, (size_t)taken);
        columns += hl__text_width(one);
        i += (size_t)taken;
    }
    return columns;
}

static void add_word(hl_text *out, const char *word, size_t size)
{
    for (size_t i = 0; i < size; i++)
        hl__text_char(out, word[i] == HL_GLUE ? ' ' : word[i]);
}

void hl__wrap(hl_text *out, const char *paragraph, int width, int first, int hang)
{
    int at = first;
    bool fresh = true; /* nothing is on this line yet */
    hl__text_spaces(out, first);
    const char *word = paragraph;
    while (word && *word) {
        const size_t size = strcspn(word, " \n");
        if (size > 0) {
            const int columns = measure_word(word, size);
            if (!fresh && at + 1 + columns > width) {
                hl__text_char(out, '\n');
                hl__text_spaces(out, hang);
                at = hang;
                fresh = true;
            }
            if (!fresh) {
                hl__text_char(out, ' ');
                at++;
            }
            add_word(out, word, size);
            at += columns;
            fresh = false;
        }
        word += size;
        if (*word)
            word++;
    }
    hl__text_char(out, '\n');
}

/* ---- columns ------------------------------------------------------------------------------------- */

/* Bytes and columns of the character at `text`. */
static size_t measure_character(const char *text, int *columns)
{
    char one[8] = {0};
    uint32_t point = 0;
    const int taken = hl__utf8_next(text, strlen(text), &point);
    const size_t size = taken > 0 ? (size_t)taken : 1;
    memcpy(one, text, size);
    *columns = taken > 0 && one[0] != HL_GLUE ? hl__text_width(one) : 1;
    return size;
}

/* Bytes of the text that stand on one line of the column. */
static size_t take_line(const char *text, int width, int *columns)
{
    size_t at = 0, blank = 0;
    int blank_columns = 0;
    *columns = 0;
    while (text[at]) {
        int one = 0;
        const size_t size = measure_character(text + at, &one);
        if (text[at] == ' ') {
            blank = at;
            blank_columns = *columns;
        }
        if (*columns + one > width && at > 0) {
            if (blank == 0)
                return at;
            *columns = blank_columns;
            return blank;
        }
        *columns += one;
        at += size;
    }
    return at;
}

static void add_bytes(hl_text *out, const char *text, size_t size)
{
    for (size_t i = 0; i < size; i++)
        hl__text_char(out, text[i] == HL_GLUE ? ' ' : text[i]);
}

int hl__columns_least(const char *text)
{
    int widest = 0, columns = 0;
    while (*text) {
        int one = 0;
        const size_t size = measure_character(text, &one);
        columns = *text == ' ' ? 0 : columns + one;
        widest = columns > widest ? columns : widest;
        text += size;
    }
    return widest;
}

/* One line of the row from `rest` on, which moves on.  False when there was nothing left. */
static bool add_line(hl_text *out, const char **rest, const int *widths, int n)
{
    bool any = false;
    int owed = 0; /* blanks, written only when something follows */
    for (int i = 0; i < n; i++) {
        int columns = 0;
        rest[i] += strspn(rest[i], " ");
        const size_t size = take_line(rest[i], widths[i], &columns);
        if (size > 0) {
            hl__text_spaces(out, owed);
            add_bytes(out, rest[i], size);
            rest[i] += size;
            owed = 0;
            any = true;
        }
        owed += widths[i] - columns + HL_COLUMN_GAP;
    }
    if (any)
        hl__text_char(out, '\n');
    return any;
}

void hl__columns_row(hl_text *out, const char *const *cells, const int *widths, int n)
{
    const char *rest[HL_COLUMNS_MOST];
    for (int i = 0; i < n && i < HL_COLUMNS_MOST; i++)
        rest[i] = cells[i];
    while (add_line(out, rest, widths, n < HL_COLUMNS_MOST ? n : HL_COLUMNS_MOST))
        ;
}
