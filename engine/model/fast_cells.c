/* fast_cells.c - single cells of a plain sheet (layer: model).  See fast_rows.h. */
#include "fast_rows.h"

#include <string.h>

#define MOST_WHOLE    6 /* digits before the point: less than a million units, which is the limit */
#define MOST_DECIMALS 6
#define MOST_INCHES   INT64_C(1000000000)

static bool ends_cell(char c, char separator)
{
    return c == separator || c == '\n';
}

bool hl__fast_digits(hl_fast_number *out, const char **at, char separator)
{
    const char *p = *at;
    int64_t digits = 0;
    out->negative = *p == '-';
    p += out->negative;
    const char *start = p;
    for (; *p >= '0' && *p <= '9'; p++) {
        digits = digits * 10 + (*p - '0');
        if (p - start >= MOST_WHOLE) {
            return false;
        }
    }
    if (p == start) {
        return false;
    }
    out->decimals = 0;
    if (*p == '.') {
        start = ++p;
        for (; *p >= '0' && *p <= '9'; p++) {
            digits = digits * 10 + (*p - '0');
            if (p - start >= MOST_DECIMALS) {
                return false;
            }
        }
        out->decimals = (int)(p - start);
        if (p == start) {
            return false;
        }
    }
    out->digits = digits;
    *at = p;
    return ends_cell(*p, separator);
}

bool hl__fast_scale(hl_amount *out, const hl_fast_number *number, int64_t scale)
{
    static const int64_t TENS[MOST_DECIMALS + 1] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    hl_amount value = 0;
    if (scale == HL_ONE) {
        value = number->digits * TENS[MOST_DECIMALS - number->decimals];
    } else {
        int64_t tens = TENS[number->decimals], product = 0;
        if (number->digits >= MOST_INCHES || scale > MOST_INCHES) {
            return false;
        }
        product = number->digits * scale;
        value = product / tens + (product % tens >= tens - product % tens && product % tens > 0);
        if (value > INT64_C(1000000) * HL_ONE) {
            return false;
        }
    }
    *out = number->negative ? -value : value;
    return true;
}

bool hl__fast_text(const char **at, char separator)
{
    const char *p = *at;
    if (*p == ' ') {
        return false; /* blanks in front mean nothing to the careful reader */
    }
    while (!ends_cell(*p, separator)) {
        if (*p < ' ' || *p > '~' || *p == '"' || p - *at >= HL_CELL_MOST) {
            return false;
        }
        p++;
    }
    *at = p;
    return true;
}

static bool parse_note(const hl_fast_form *form, int *note, const char **at)
{
    char name[8];
    size_t size = 0;
    const char *p = *at;
    while (!ends_cell(p[size], form->separator)) {
        if (size == sizeof name - 1 || p[size] <= ' ' || p[size] > '~') {
            return false;
        }
        name[size] = p[size];
        size++;
    }
    name[size] = '\0';
    *note = size == 0 ? 0 : hl_note_parse(form->compass, name);
    *at = p + size;
    return size == 0 || *note > 0;
}

/* *note is the note of the row before: the next one, or the same, is what mostly stands here. */
bool hl__fast_note(const hl_fast_form *form, int *note, const char **at)
{
    int guess = form->tidy ? *note : *note + 1;
    for (int i = 0; i < 2; i++, guess++) {
        size_t size = guess >= 1 && guess <= form->compass.keys ? form->name_sizes[guess] : 0;
        if (size > 0 && memcmp(*at, form->names[guess], size) == 0 &&
            ends_cell((*at)[size], form->separator)) {
            *at += size;
            *note = guess;
            return true;
        }
    }
    return parse_note(form, note, at);
}

bool hl__fast_part(const char **at, const char *part, char separator)
{
    const char *p = *at;
    while (*part != '\0' && *p == *part && *p != separator && *p != '\n') {
        p++;
        part++;
    }
    *at = p;
    return *part == '\0' && ends_cell(*p, separator);
}

bool hl__fast_word(const hl_step *step, hl_amount *word, const char **at, char separator)
{
    const char *text = *at;
    if (!hl__fast_text(at, separator)) {
        return false;
    }
    size_t size = (size_t)(*at - text);
    *word = -1;
    if (size == 2 && memcmp(text, "ok", 2) == 0) {
        return true;
    }
    for (int i = 0; i < step->n_words; i++) {
        if (strlen(step->words[i].word) == size && memcmp(step->words[i].word, text, size) == 0) {
            *word = i;
            return true;
        }
    }
    return false;
}

bool hl__fast_keep(const hl_fast_form *form, hl_flat *out, int step, int note, hl_amount value)
{
    int place = step * HL_FLAT_NOTES + note;
    if (!form->fits[place] || out->read[place]) {
        return false; /* not read here, or read again: history is for the careful reader */
    }
    out->read[place] = out->any[step] = 1;
    out->values[place] = value;
    return true;
}
