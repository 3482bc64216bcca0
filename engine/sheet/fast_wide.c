/* fast_wide.c - the rows of a plain wide sheet (layer: sheet).  See fast_rows.h for its reason. */
#include "fast_cells.h"

/* The row in hand. */
typedef struct wide_row {
    const char *at;
    int note;
    bool any; /* a reading or a text stands in it */
} wide_row;

static bool read_word(const hl_fast_form *form, hl_flat *out, int step, wide_row *row)
{
    hl_amount word = 0;
    return hl__fast_word(&form->book->steps[step], &word, &row->at, form->separator) &&
           hl__fast_keep_word(out, step, step * HL_FLAT_NOTES + row->note, word);
}

static bool read_unit(const hl_fast_form *form, hl_flat *out, int step, wide_row *row)
{
    hl_fast_number number;
    hl_amount value = 0;
    return hl__fast_digits(&number, &row->at) && hl__fast_scale(&value, &number, form->scales[step]) &&
           hl__fast_keep(out, step, step * HL_FLAT_NOTES + row->note, value);
}

/* A cell that is not blank. */
static bool read_other(const hl_fast_form *form, hl_flat *out, const hl_fast_cell *cell, wide_row *row)
{
    row->any = true;
    switch (cell->kind) {
    case HL_FAST_UNIT:
        return read_unit(form, out, cell->step, row);
    case HL_FAST_WORDS:
        return read_word(form, out, cell->step, row);
    case HL_FAST_TEXT:
        return hl__fast_text(&row->at, form->separator);
    default:
        return false;
    }
}

/* The cells behind the sheet's.  The note of the row before is in hand and gives way to this one's.  Numbers,
 * which are nearly all there is, are read here; what stores into the arrays may alias the form, so what the
 * loop needs of it is held apart. */
static bool read_row(const hl_fast_form *form, hl_flat *out, wide_row *row)
{
    const hl_fast_cell *cell = form->cells + form->many, *last = form->cells + form->n_cells - 1;
    hl_flat flat = *out;
    const char separator = form->separator;
    const char *p = row->at;
    int note = row->note;
    bool any = false;
    for (;; cell++, p++) {
        if (cell->kind == HL_FAST_NUMBER) {
            hl_fast_number number;
            if (hl__fast_ends(*p, separator)) {
                ; /* not measured */
            } else if (!hl__fast_digits(&number, &p) ||
                       !hl__fast_keep(&flat, cell->step, cell->row + note, hl__fast_amount(&number))) {
                return false;
            } else {
                any = true;
            }
        } else if (cell->kind == HL_FAST_NOTE) {
            if (!hl__fast_note(form, &note, &p)) {
                return false;
            }
        } else if (!hl__fast_ends(*p, separator)) {
            row->at = p;
            row->note = note;
            if (!read_other(form, out, cell, row)) {
                return false;
            }
            p = row->at;
        }
        if (cell == last || *p != separator) {
            break;
        }
    }
    row->at = p + 1;
    row->note = note;
    row->any = row->any || any;
    return cell == last && *p == '\n';
}

static bool close_row(hl_flat *out, const wide_row *row)
{
    if (out->rows[row->note]) {
        return false;
    }
    out->rows[row->note] = 1;
    return true;
}

/* Such a row means nothing; in a file of many it names its sheet, and then it is the instrument's. */
static bool is_blank(const hl_fast_form *form, const wide_row *row)
{
    return row->note == 0 && !row->any && !form->many;
}

bool hl__fast_wide(const hl_fast_form *form, hl_flat *out, const char **at, const char *end, const char *part)
{
    wide_row row = {.at = *at};
    hl_fast_key name = {.size = 0};
    bool any = false; /* without a row there is nothing to judge, which the careful reader says */
    if (part != NULL) {
        hl__fast_key(&name, part);
    }
    while (row.at < end) {
        if (*row.at == '\n') {
            row.at++; /* a blank line */
            continue;
        }
        if (part != NULL && !hl__fast_is(&name, row.at, form->separator)) {
            if (!hl__fast_is_other(form, row.at, end, part)) {
                return false;
            }
            break;
        }
        if ((part == NULL && *row.at == '#') || (part != NULL && row.at[name.size] != form->separator)) {
            return false;
        }
        row.at += part != NULL ? name.size + 1 : 0;
        row.any = false;
        if (!read_row(form, out, &row)) {
            return false;
        }
        if (is_blank(form, &row)) {
            continue;
        }
        if (!close_row(out, &row)) {
            return false;
        }
        any = true;
    }
    *at = row.at;
    return any;
}
