/* fast_cells.c - single cells of a plain sheet (layer: sheet).  See fast_rows.h. */
#include "fast_cells.h"

#include "sheet_many.h"

#include <string.h>

#define MOST_DIGITS INT64_C(1000000000) /* so that the product stays in 64 bits */

bool hl__fast_convert(hl_amount *out, const hl_fast_number *number, int64_t scale)
{
    static const int64_t TENS[HL_FAST_DECIMALS + 1] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    const int64_t tens = TENS[number->decimals], digits = (int64_t)number->digits;
    if (digits >= MOST_DIGITS || scale > MOST_DIGITS) {
        return false;
    }
    const int64_t product = digits * scale, rest = product % tens;
    const hl_amount value = product / tens + (rest >= tens - rest && rest > 0);
    *out = number->negative ? -value : value;
    return value <= INT64_C(1000000) * HL_ONE;
}

bool hl__fast_text(const char **at, char separator)
{
    const char *p = *at;
    if (*p == ' ') {
        return false; /* blanks in front mean nothing to the careful reader */
    }
    while (!hl__fast_ends(*p, separator)) {
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
    while (!hl__fast_ends(p[size], form->separator)) {
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

bool hl__fast_any_note(const hl_fast_form *form, int *note, const char **at)
{
    const hl_fast_key *next = &form->names[*note + 1]; /* the note after the last has no name */
    if (next->size > 0 && hl__fast_is_short(next, *at, form->separator)) {
        *at += next->size;
        ++*note;
        return true;
    }
    return parse_note(form, note, at);
}

bool hl__fast_is_other(const hl_fast_form *form, const char *row, const char *end, const char *part)
{
    const hl_many many = {.separator = form->separator, .column = 0};
    hl_part_name name;
    hl__many_name(&name, &many, row, hl__many_row(row, end));
    return name.size > 0 && strcmp(name.text, part) != 0;
}

void hl__fast_key(hl_fast_key *out, const char *text)
{
    const size_t size = strlen(text), first = size < sizeof out->bits ? size : sizeof out->bits;
    *out = (hl_fast_key){.text = text, .size = size};
    memcpy(out->bits, text, first);
    memset(out->mask, 0xFF, first);
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
