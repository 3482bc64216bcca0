/* quick.c - usual rows: single cells, and what a row leaves behind (layer: sheet).  See quick.h. */
#include "quick.h"

#include "sheet_parts.h"

#include <stdlib.h>

#define MOST_DIGITS INT64_C(1000000000) /* so that the product stays in 64 bits */

bool hl__quick_scale(hl_amount *out, const hl_quick_number *number, int64_t scale)
{
    static const int64_t TENS[HL_QUICK_DECIMALS + 1] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    if (scale == HL_ONE) {
        *out = hl__quick_amount(number);
        return true;
    }
    const int64_t tens = TENS[number->decimals], digits = (int64_t)number->digits;
    if (digits >= MOST_DIGITS || scale > MOST_DIGITS) {
        return false;
    }
    const int64_t product = digits * scale, rest = product % tens;
    const hl_amount value = product / tens + (rest >= tens - rest && rest > 0);
    *out = number->negative ? -value : value;
    return value <= INT64_C(1000000) * HL_ONE;
}

bool hl__quick_quoted(hl_quick_number *out, const char **at, char separator, char mark, bool *blank)
{
    const char *p = *at + 1;
    *blank = *p == '"' && hl__quick_ends(p[1], separator);
    if (*blank) {
        *at = p + 1;
        return true;
    }
    /* a comma before three digits can be read in two ways where commas part the cells, too */
    if (**at != '"' || !hl__quick_digits(out, &p, mark) || *p != '"' ||
        (mark == ',' && separator == ',' && out->decimals == 3)) {
        return false;
    }
    *at = p + 1;
    return true;
}

bool hl__quick_text(const char **at, char separator, const char **text, size_t *size)
{
    const char *p = *at;
    const bool quoted = *p == '"';
    p += quoted;
    *text = p;
    while (quoted ? *p != '"' : !hl__quick_ends(*p, separator)) {
        if (*p < ' ' || *p > '~' || *p == '"' || p - *at >= HL_CELL_MOST) {
            return false;
        }
        p++;
    }
    *size = (size_t)(p - *text);
    /* blanks around a text mean nothing, and "" in quotes is a quote */
    if (*size > 0 && (**text == ' ' || p[-1] == ' ')) {
        return false;
    }
    p += quoted;
    *at = p;
    return !quoted || hl__quick_ends(*p, separator);
}

bool hl__quick_any_note(const hl_form *form, int *note, const char **at)
{
    const hl_key *next = &form->names[*note + 1];
    char name[8];
    const char *text = NULL, *p = *at;
    size_t size = 0;
    if (next->size > 0 && hl__quick_is_short(next, p, form->separator)) {
        *at += next->size;
        ++*note;
        return true;
    }
    if (!hl__quick_text(&p, form->separator, &text, &size) || size >= sizeof name) {
        return false;
    }
    memcpy(name, text, size);
    name[size] = '\0';
    *note = size == 0 ? 0 : hl_note_parse(form->compass, name);
    *at = p;
    return size == 0 || *note > 0;
}

bool hl__quick_word(const hl_step *step, hl_amount *word, const char *text, size_t size)
{
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

/* ---- what a row leaves ------------------------------------------------------------------------------ */

/* May a number out of its target be taken as it is?  One that may be in inches is to be asked about. */
bool hl__quick_out(const hl_form *form, int step, int place, hl_amount value)
{
    int times = 0;
    return form->targets[place] == NULL ||
           !hl__cell_asks_unit(form->targets[place], value, form->units[step], &times);
}

/* A place that was read before, or can't be read at all. */
bool hl__quick_again(hl_rows *rows, hl_quick *q, int step, int place, hl_amount value, bool word)
{
    hl_sheet *sheet = rows->sheet;
    if (q->to.states[place] == HL_STATE_CLOSED ||
        (!word && (value < q->low[place] || value > q->high[place]) &&
         !hl__quick_out(rows->form, step, place, value))) {
        return false;
    }
    hl_event *event = &q->events[q->n];
    *event = q->blank;
    event->amount = word ? 0 : value;
    event->word = word ? (int)value : 0;
    event->kind = word ? HL_EVENT_WORD : HL_EVENT_VALUE;
    event->step = step;
    event->note = (unsigned char)(place - hl__place(step, 0));
    hl__places_put(sheet, (int)q->n++);
    return true;
}

bool hl__quick_keep_word(hl_rows *rows, hl_quick *q, int step, int note, int place, hl_amount word)
{
    if (q->to.states[place] != HL_STATE_UNREAD) {
        return hl__quick_again(rows, q, step, place, word, true);
    }
    if (!hl__quick_keep(rows, q, step, note, place, word)) {
        return false;
    }
    hl_event *event = &q->events[q->n - 1];
    event->kind = HL_EVENT_WORD;
    event->word = (int)word;
    event->amount = 0;
    if (word >= 0) {
        q->to.states[place] = HL_STATE_WORD;
        q->to.outs[step]++;
    }
    return true;
}

bool hl__quick_start(hl_quick *q, hl_rows *rows, int most)
{
    hl_sheet *sheet = rows->sheet;
    const size_t wanted = sheet->n_events + (size_t)most;
    if (wanted > sheet->room_events) {
        const size_t room = 2 * wanted;
        hl_event *events = realloc(sheet->events, room * sizeof *events);
        if (events == NULL) {
            return false;
        }
        sheet->events = events;
        sheet->room_events = room;
    }
    *q = (hl_quick){.to = sheet->places,
                    .low = rows->form->low,
                    .high = rows->form->high,
                    .events = sheet->events,
                    .n = sheet->n_events,
                    .first = sheet->n_events,
                    .blank = {.line = rows->line, .before = -1, .pass = sheet->n_passes - 1}};
    return true;
}

void hl__quick_done(const hl_quick *q, hl_rows *rows, const char *at)
{
    rows->sheet->n_events = q->n;
    if (q->decimals > 0 && rows->sheet->decimal_mark == 0) {
        rows->sheet->decimal_mark = '.';
    }
    rows->at = at + 1 + (at[0] == '\r' && at[1] == '\n');
    rows->line++;
    rows->count++;
    rows->any = true;
}

void hl__quick_undo(const hl_quick *q, hl_rows *rows)
{
    for (size_t i = q->n; i-- > q->first;) {
        hl__places_take_back(rows->sheet, (int)i);
    }
}
