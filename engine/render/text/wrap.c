/* wrap.c - breaks a paragraph at blanks (layer: render/text). */
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
    bool fresh = true; /* nothing stands on this line yet */
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
