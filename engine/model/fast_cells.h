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
    uint64_t digits;
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

/* Too many digits may run over; then the length refuses them. */
static inline const char *hl__fast_run(const char *p, uint64_t *digits)
{
    uint64_t all = *digits, digit = (uint64_t)(unsigned char)*p - '0';
    for (; digit < 10; digit = (uint64_t)(unsigned char)*++p - '0') {
        all = all * 10 + digit;
    }
    *digits = all;
    return p;
}

static inline bool hl__fast_digits(hl_fast_number *out, const char **at)
{
    const char *p = *at;
    uint64_t digits = 0;
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
    return true;
}

static inline hl_amount hl__fast_amount(const hl_fast_number *number)
{
    static const int64_t TENS[HL_FAST_DECIMALS + 1] = {1000000, 100000, 10000, 1000, 100, 10, 1};
    const hl_amount value = (hl_amount)number->digits * TENS[number->decimals];
    return number->negative ? -value : value;
}

static inline bool hl__fast_scale(hl_amount *out, const hl_fast_number *number, int64_t scale)
{
    *out = 0;
    if (scale != HL_ONE) {
        return hl__fast_convert(out, number, scale);
    }
    *out = hl__fast_amount(number);
    return true;
}

/* History, and what is not read here, are for the careful reader. */
static inline bool hl__fast_keep(hl_flat *out, int step, int place, hl_amount value)
{
    if (out->read[place] != HL_FLAT_FREE) {
        return false;
    }
    const int below = value<out->low[place], above = value> out->high[place];
    out->read[place] = HL_FLAT_READ;
    out->values[place] = value;
    out->states[place] = (unsigned char)(HL_FAST_PASS + below * (HL_FAST_LOW - HL_FAST_PASS) +
                                         above * (HL_FAST_HIGH - HL_FAST_PASS));
    out->outs[step] += below + above;
    out->reads[step]++;
    return true;
}

/* A judged step has no limits; a word of its own is a fault. */
static inline bool hl__fast_keep_word(hl_flat *out, int step, int place, hl_amount word)
{
    if (!hl__fast_keep(out, step, place, word)) {
        return false;
    }
    if (word >= 0) {
        out->states[place] = HL_FAST_WORD;
        out->outs[step]++;
    }
    return true;
}

#endif
