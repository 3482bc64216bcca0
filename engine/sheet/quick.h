/* quick.h - single cells of a usual row, read in place (layer: sheet, private).
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

/* What a row reads into, out of the way of stores that could alias it. */
typedef struct hl_quick {
    hl_places to;
    const hl_amount *low, *high;
    hl_event *events;
    size_t n, first; /* events; the row's first one */
    hl_event blank;  /* what all events of the row have in common */
    int decimals;    /* any number of the row had some */
} hl_quick;

bool hl__quick_again(hl_rows *rows, hl_quick *q, int step, int place, hl_amount value, bool word);
bool hl__quick_out(const hl_form *form, int step, int place, hl_amount value);

/* The usual reading: the first one at its place, a number or a word. */
static inline bool hl__quick_keep(hl_rows *rows, hl_quick *q, int step, int note, int place, hl_amount value)
{
    if (q->to.states[place] != HL_STATE_UNREAD) {
        return hl__quick_again(rows, q, step, place, value, false);
    }
    hl_state state = HL_STATE_PASS;
    if (value < q->low[place] || value > q->high[place]) {
        if (!hl__quick_out(rows->form, step, place, value)) {
            return false;
        }
        state = value < q->low[place] ? HL_STATE_LOW : HL_STATE_HIGH;
        q->to.outs[step]++;
    }
    hl_event *event = &q->events[q->n];
    *event = q->blank;
    event->amount = value;
    event->step = step;
    event->note = (unsigned char)note;
    q->to.states[place] = (unsigned char)state;
    q->to.values[place] = value;
    q->to.latest[place] = (int)q->n++;
    q->to.reads[step]++;
    return true;
}
bool hl__quick_keep_word(hl_rows *rows, hl_quick *q, int step, int note, int place, hl_amount word);

/* Room for the events of a row, and what they have in common.  False = no memory: the general way says it. */
bool hl__quick_start(hl_quick *q, hl_rows *rows, int most);
/* The row is done, up to *at, which is on its line end. */
void hl__quick_done(const hl_quick *q, hl_rows *rows, const char *at);
/* The row is not usual: as if it had not been looked at. */
void hl__quick_undo(const hl_quick *q, hl_rows *rows);

/* The decimal mark of a cell without quotes, 0 when it would be the separator. */
static inline char hl__quick_mark(const hl_rows *rows)
{
    const char mark = rows->sheet->decimal_mark != 0 ? rows->sheet->decimal_mark : '.';
    return mark == rows->form->separator ? 0 : mark;
}
static inline char hl__quick_quoted_mark(const hl_rows *rows)
{
    return rows->sheet->decimal_mark != 0 ? rows->sheet->decimal_mark : '.';
}

/* One row whose cells begin at `at` (behind the sheet's name).  False: not usual, nothing was kept. */
bool hl__quick_wide(hl_rows *rows, const char *at);
bool hl__quick_tidy(hl_rows *rows, const char *at);

#endif
