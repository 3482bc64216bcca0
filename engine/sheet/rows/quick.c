/* quick.c - usual rows: single cells, and what a row leaves behind (layer: sheet/rows).  See quick.h. */
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

bool hl__quick_out(const hl_form *form, int place, hl_amount value)
{
    int times = 0;
    return form->targets[place] == NULL ||
           !hl__cell_asks_unit(form->targets[place], value, form->units[place / HL_NOTES], &times);
}

bool hl__quick_keep_word(hl_quick *q, int place, hl_amount word)
{
    if (!hl__quick_keep(q, place, word)) {
        return false;
    }
    if (word >= 0) {
        q->states[place] = HL_STATE_WORD;
    }
    return true;
}

void hl__quick_begin(hl_quick *q, const hl_rows *rows)
{
    const hl_sheet *sheet = rows->sheet;
    /* once there are events, only the row in hand is kept as usual readings */
    const bool none = sheet->usual == NULL; /* nothing may be added to a null pointer */
    hl_usual *next = sheet->expanded || none ? sheet->usual : sheet->usual + sheet->n_events;
    *q = (hl_quick){.form = rows->form,
                    .states = sheet->places.states,
                    .values = sheet->places.values,
                    .low = rows->form->low,
                    .high = rows->form->high,
                    .next = next,
                    .first = next,
                    .end = none ? NULL : sheet->usual + sheet->room_usual,
                    .line = rows->line};
}

bool hl__quick_widen(hl_quick *q, hl_rows *rows, int most)
{
    hl_sheet *sheet = rows->sheet;
    const size_t kept = sheet->usual != NULL ? (size_t)(q->next - sheet->usual) : 0;
    const size_t room = 2 * (kept + (size_t)most);
    hl_usual *usual = realloc(sheet->usual, room * sizeof *usual);
    if (usual == NULL) {
        return false;
    }
    sheet->usual = usual;
    sheet->room_usual = room;
    q->next = q->first = usual + kept;
    q->end = usual + room;
    return true;
}

bool hl__quick_close(hl_quick *q, hl_rows *rows, const hl_row_texts *texts)
{
    hl_sheet *sheet = rows->sheet;
    const size_t n = (size_t)(q->next - q->first);
    if (!sheet->expanded) {
        sheet->n_events = (size_t)(q->first - sheet->usual);
    }
    if (!hl__sheet_expand(sheet) || !hl__sheet_add_usual(sheet, q->first, (int)n)) {
        hl__quick_undo(q, rows);
        return false;
    }
    for (size_t i = sheet->n_events - n; i < sheet->n_events; i++) {
        hl_event *event = &sheet->events[i];
        event->time = texts->time;
        event->by = texts->by;
        event->method = texts->method;
        event->remark = texts->remark;
    }
    q->next = q->first = sheet->usual;
    return true;
}

void hl__quick_undo(hl_quick *q, hl_rows *rows)
{
    for (const hl_usual *usual = q->first; usual < q->next; usual++) {
        hl__places_forget(rows->sheet, usual->place);
    }
    q->next = q->first;
}

void hl__quick_end(const hl_quick *q, hl_rows *rows)
{
    hl_sheet *sheet = rows->sheet;
    if (!sheet->expanded) {
        sheet->n_events = sheet->usual != NULL ? (size_t)(q->next - sheet->usual) : 0;
    }
    if (q->decimals > 0 && sheet->decimal_mark == 0) {
        sheet->decimal_mark = rows->guess;
    }
}
