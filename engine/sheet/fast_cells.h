/* fast_cells.h - single cells of a plain sheet (layer: sheet, private).  See fast_rows.h.
 *
 * Each takes the cell at *at and leaves it on the byte behind, which is the separator or the line end;
 * false when the cell is not plain.  Numbers are read in place: a call for each would cost as much as
 * the digits do. */
#ifndef HL_FAST_CELLS_H
#define HL_FAST_CELLS_H

#include "fast_rows.h"
#include "hammerline/sheet.h"

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
/* Does the word stand here, whole or in front of more? */
static inline bool hl__fast_same(const hl_fast_key *key, const char *at)
{
    uint64_t here[2];
    memcpy(here, at, sizeof here);
    if ((((here[0] ^ key->bits[0]) & key->mask[0]) | ((here[1] ^ key->bits[1]) & key->mask[1])) != 0) {
        return false;
    }
    size_t i = sizeof here; /* a line end ends it at the latest */
    while (i < key->size && at[i] == key->text[i]) {
        i++;
    }
    return i >= key->size;
}

/* The same of a word of 8 bytes at most, as the names of notes are. */
static inline bool hl__fast_is_short(const hl_fast_key *key, const char *at, char separator)
{
    uint64_t here;
    memcpy(&here, at, sizeof here);
    return ((here ^ key->bits[0]) & key->mask[0]) == 0 && hl__fast_ends(at[key->size], separator);
}

static inline bool hl__fast_is(const hl_fast_key *key, const char *at, char separator)
{
    return hl__fast_same(key, at) && hl__fast_ends(at[key->size], separator);
}

bool hl__fast_any_note(const hl_fast_form *form, int *note, const char **at);
/* *note is the note of the row before: the next one, or the same, is what mostly stands here. */
static inline bool hl__fast_note(const hl_fast_form *form, int *note, const char **at)
{
    const int guess = form->tidy ? *note : *note + 1; /* behind the last note stands no name */
    const hl_fast_key *key = &form->names[guess];
    if (key->size > 0 && hl__fast_is_short(key, *at, form->separator)) {
        *at += key->size;
        *note = guess;
        return true;
    }
    return hl__fast_any_note(form, note, at);
}
/* A row whose first cell is not the sheet's name: does it begin another sheet? */
bool hl__fast_is_other(const hl_fast_form *form, const char *row, const char *end, const char *part);
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
    hl_fast_state state = HL_FAST_PASS;
    if (value < out->low[place] || value > out->high[place]) {
        state = value < out->low[place] ? HL_FAST_LOW : HL_FAST_HIGH;
        out->outs[step]++;
    }
    out->read[place] = HL_FLAT_READ;
    out->values[place] = value;
    out->states[place] = (unsigned char)state;
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
