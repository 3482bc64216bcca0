/* quick.h - single cells of a usual row, read in place (layer: sheet/rows, private).
 *
 * A fleet is read at the speed of its bytes.  Usual are: numbers with the sheet's decimal mark and no unit,
 * `ok` and fault words in full, notes, known steps and plain texts, in quotes or not.  Each function takes
 * the cell at *at and leaves *at on the byte behind it; false when the cell is not usual.  Numbers are read
 * in line: a call for each would cost as much as the digits do. */
#ifndef HL_QUICK_H
#define HL_QUICK_H

#include "rows.h"

#include <string.h>

#define HL_QUICK_WHOLE    6 /* digits before the mark: less than a million units, which is the limit */
#define HL_QUICK_DECIMALS 6

/* A number as it was written: digits without the mark, and how many of them are decimals. */
typedef struct hl_quick_number {
    uint64_t digits;
    int decimals;
    bool negative;
} hl_quick_number;

/* The byte behind the sheet's last one is NUL, which ends nothing: a last row without line end is not usual.
 */
static inline bool hl__quick_ends(char c, char separator)
{
    return c == separator || c == '\n' || c == '\r';
}

/* Is the word here, whole or in front of more? */
static inline bool hl__quick_starts(const hl_key *key, const char *at)
{
    uint64_t here[2];
    memcpy(here, at, sizeof here);
    if ((((here[0] ^ key->bits[0]) & key->mask[0]) | ((here[1] ^ key->bits[1]) & key->mask[1])) != 0) {
        return false;
    }
    size_t i = sizeof here; /* a line end or the NUL ends it at the latest */
    while (i < key->size && at[i] == key->text[i]) {
        i++;
    }
    return i >= key->size;
}

static inline bool hl__quick_is(const hl_key *key, const char *at, char separator)
{
    return hl__quick_starts(key, at) && hl__quick_ends(at[key->size], separator);
}

/* The same of a word of 8 bytes at most, as the names of notes are. */
static inline bool hl__quick_is_short(const hl_key *key, const char *at, char separator)
{
    uint64_t here;
    memcpy(&here, at, sizeof here);
    return ((here ^ key->bits[0]) & key->mask[0]) == 0 && hl__quick_ends(at[key->size], separator);
}

/* Any other note than the one guessed, and notes in quotes. */
bool hl__quick_any_note(const hl_form *form, int *note, const char **at);
/* *note is the note of the row before: in a wide sheet the next one, in a tidy one the same is likely. */
static inline bool hl__quick_note(const hl_form *form, int *note, const char **at)
{
    const int guess = form->tidy ? *note : *note + 1; /* the place behind the last note has no name */
    const hl_key *key = &form->names[guess];
    if (key->size > 0 && hl__quick_is_short(key, *at, form->separator)) {
        *at += key->size;
        *note = guess;
        return true;
    }
    return hl__quick_any_note(form, note, at);
}

/* A text of plain characters; *text and *size are it without its quotes. */
bool hl__quick_text(const char **at, char separator, const char **text, size_t *size);
/* `ok` (-1) or the index of a fault word. */
bool hl__quick_word(const hl_step *step, hl_amount *word, const char *text, size_t size);

/* Too many digits may run over; then the length refuses them. */
static inline const char *hl__quick_run(const char *p, uint64_t *digits)
{
    uint64_t all = *digits, digit = (uint64_t)(unsigned char)*p - '0';
    for (; digit < 10; digit = (uint64_t)(unsigned char)*++p - '0') {
        all = all * 10 + digit;
    }
    *digits = all;
    return p;
}

static inline bool hl__quick_digits(hl_quick_number *out, const char **at, char mark)
{
    const char *p = *at;
    uint64_t digits = 0;
    const bool negative = *p == '-';
    const char *start = p += negative;
    p = hl__quick_run(p, &digits);
    if (p == start || p - start > HL_QUICK_WHOLE) {
        return false;
    }
    int decimals = 0;
    if (*p == mark) {
        start = ++p;
        p = hl__quick_run(p, &digits);
        decimals = (int)(p - start);
        if (decimals == 0 || decimals > HL_QUICK_DECIMALS) {
            return false;
        }
    }
    *out = (hl_quick_number){digits, decimals, negative};
    *at = p;
    return true;
}

/* A number in quotes; an empty pair of quotes sets *blank. */
bool hl__quick_quoted(hl_quick_number *out, const char **at, char separator, char mark, bool *blank);

static inline hl_amount hl__quick_amount(const hl_quick_number *number)
{
    static const int64_t TENS[HL_QUICK_DECIMALS + 1] = {1000000, 100000, 10000, 1000, 100, 10, 1};
    const hl_amount value = (hl_amount)number->digits * TENS[number->decimals];
    return number->negative ? -value : value;
}

/* In any unit of `scale` millionths. */
bool hl__quick_scale(hl_amount *out, const hl_quick_number *number, int64_t scale);

/* What rows read into.  The loops hold it in a variable of their own, that no function is given the place of:
 * what stores into the arrays could alias it otherwise, and all of it would be loaded again for each reading.
 */
typedef struct hl_quick {
    const hl_form *form;
    unsigned char *states;
    hl_amount *values;
    const hl_amount *low, *high;
    hl_usual *next, *first, *end; /* room for readings; the row's first one */
    int line;
    int decimals; /* any number so far had some */
} hl_quick;

/* May a number out of its target be taken as it is?  One that may be in inches is to be asked about. */
bool hl__quick_out(const hl_form *form, int place, hl_amount value);

/* The usual reading: the first one at its place, a number or a word.  One that was read before, or can't be
 * read here, goes the general way. */
static inline bool hl__quick_keep(hl_quick *q, int place, hl_amount value)
{
    hl_state state = HL_STATE_PASS;
    if (q->states[place] != HL_STATE_UNREAD) {
        return false;
    }
    if (value < q->low[place] || value > q->high[place]) {
        if (!hl__quick_out(q->form, place, value)) {
            return false;
        }
        state = value < q->low[place] ? HL_STATE_LOW : HL_STATE_HIGH;
    }
    *q->next++ = (hl_usual){value, place, q->line};
    q->states[place] = (unsigned char)state;
    q->values[place] = value;
    return true;
}
bool hl__quick_keep_word(hl_quick *q, int place, hl_amount word);

/* A row's texts; 0 = none. */
typedef struct hl_row_texts {
    uint32_t time, by, method, remark;
} hl_row_texts;

/* Before the first row, and after a row that went another way: what there is room for. */
void hl__quick_begin(hl_quick *q, const hl_rows *rows);
/* More room, for a row of `most` readings.  False = no memory: the general way says it. */
bool hl__quick_widen(hl_quick *q, hl_rows *rows, int most);
/* The row is done: with texts beside it, or in a sheet whose events are made, its readings become events.
 * False = no memory, and it is as if it had not been read. */
bool hl__quick_close(hl_quick *q, hl_rows *rows, const hl_row_texts *texts);
/* The row is not usual: as if it had not been looked at. */
void hl__quick_undo(hl_quick *q, hl_rows *rows);
/* What the rows so far have come to is written down where the general way finds it. */
void hl__quick_end(const hl_quick *q, hl_rows *rows);

/* Past a line end: *at is on it. */
static inline const char *hl__quick_line_end(const char *at)
{
    return at + 1 + (at[0] == '\r' && at[1] == '\n');
}
/* In a file of many, past the sheet's name and its separator; NULL when another name is there, or none. */
static inline const char *hl__quick_name(const hl_rows *rows, const char *at)
{
    const bool quoted = *at == '"';
    if (rows->part.size == 0 || !hl__quick_starts(&rows->part, at + quoted)) {
        return NULL;
    }
    at += quoted + rows->part.size;
    if (quoted && *at++ != '"') {
        return NULL;
    }
    return *at == rows->form->separator ? at + 1 : NULL;
}

/* The decimal mark of a cell without quotes, 0 when it would be the separator. */
static inline char hl__quick_quoted_mark(const hl_rows *rows)
{
    return rows->sheet->decimal_mark != 0 ? rows->sheet->decimal_mark : rows->guess;
}
static inline char hl__quick_mark(const hl_rows *rows)
{
    const char mark = hl__quick_quoted_mark(rows);
    return mark == rows->form->separator ? 0 : mark;
}

/* All rows up to the first that is not usual. */
void hl__quick_wide(hl_rows *rows);
void hl__quick_tidy(hl_rows *rows);

#endif
