/* fast_cells.h - single cells of a plain sheet (layer: model, private).  See fast_rows.h.
 *
 * Each takes the cell at *at and leaves it on the byte behind, which is the separator or the line end;
 * false when the cell is not plain.  Numbers are read in place: a call for each would cost as much as
 * the digits do. */
#ifndef HL_FAST_CELLS_H
#define HL_FAST_CELLS_H

#include "fast_rows.h"

#include <string.h>

#define HL_FAST_WHOLE    6 /* digits before the point: less than a million units, which is the limit */
#define HL_FAST_DECIMALS 6

/* A number as it was written: digits without the point, and how many stood behind it. */
typedef struct hl_fast_number {
    int64_t digits;
    int decimals;
    bool negative;
} hl_fast_number;

static inline bool hl__fast_ends(char c, char separator)
{
    return c == separator || c == '\n';
}

bool hl__fast_text(const char **at, char separator);
/* *note is the note of the row before: the next one, or the same, is what mostly stands here. */
bool hl__fast_note(const hl_fast_form *form, int *note, const char **at);
/* The sheet's name in a file of many; `end` is the end of the rows. */
typedef struct hl_fast_part {
    const char *name;
    size_t size;
} hl_fast_part;
static inline bool hl__fast_is_part(const char **at, const char *end, hl_fast_part part, char separator)
{
    const char *p = *at;
    if ((size_t)(end - p) <= part.size || memcmp(p, part.name, part.size) != 0 ||
        !hl__fast_ends(p[part.size], separator)) {
        return false;
    }
    *at = p + part.size;
    return true;
}

bool hl__fast_word(const hl_step *step, hl_amount *word, const char **at, char separator);
/* In another unit than the millionths that amounts are held in. */
bool hl__fast_convert(hl_amount *out, const hl_fast_number *number, int64_t scale);

static inline const char *hl__fast_run(const char *p, int64_t *digits)
{
    uint64_t all = (uint64_t)*digits; /* too many may run over: then the length refuses them */
    uint64_t digit = (uint64_t)(unsigned char)*p - '0';
    for (; digit < 10; digit = (uint64_t)(unsigned char)*p - '0') {
        all = all * 10 + digit;
        p++;
    }
    *digits = (int64_t)(all & INT64_MAX);
    return p;
}

static inline bool hl__fast_digits(hl_fast_number *out, const char **at, char separator)
{
    const char *p = *at;
    int64_t digits = 0;
    const bool negative = *p == '-';
    const char *start = p += negative;
    p = hl__fast_run(p, &digits);
    if (p == start || p - start > HL_FAST_WHOLE) {
        return false;
    }
    int decimals = 0;
    if (*p == '.') {
        start = ++p;
        p = hl__fast_run(p, &digits);
        decimals = (int)(p - start);
        if (decimals == 0 || decimals > HL_FAST_DECIMALS) {
            return false;
        }
    }
    *out = (hl_fast_number){digits, decimals, negative};
    *at = p;
    return hl__fast_ends(*p, separator);
}

static inline bool hl__fast_scale(hl_amount *out, const hl_fast_number *number, int64_t scale)
{
    static const int64_t TENS[HL_FAST_DECIMALS + 1] = {1000000, 100000, 10000, 1000, 100, 10, 1};
    if (scale != HL_ONE) {
        return hl__fast_convert(out, number, scale);
    }
    const hl_amount value = number->digits * TENS[number->decimals];
    *out = number->negative ? -value : value;
    return true;
}

/* History, and what is not read here, are for the careful reader. */
static inline bool hl__fast_keep(hl_flat *out, int step, int note, hl_amount value)
{
    const int place = step * HL_FLAT_NOTES + note;
    if (out->read[place] != HL_FLAT_FREE) {
        return false;
    }
    out->read[place] = HL_FLAT_READ;
    out->values[place] = value;
    out->any[step] = 1;
    return true;
}

#endif
