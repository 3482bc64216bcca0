/* fast_wide.c - the rows of a plain wide sheet (layer: model).  See fast_rows.h for its reason. */
#include "fast_cells.h"

static bool read_reading(const hl_fast_form *form, hl_flat *out, int index, int note, const char **at)
{
    const hl_step *step = &form->book->steps[index];
    hl_fast_number number;
    hl_amount value = 0;
    if (step->kind == HL_JUDGED) {
        return hl__fast_word(step, &value, at, form->separator) && hl__fast_keep(out, index, note, value);
    }
    return hl__fast_digits(&number, at, form->separator) &&
           hl__fast_scale(&value, &number, form->scales[index]) &&
           hl__fast_keep(out, index, note, value);
}

/* Cells with readings stand behind the note's: *note is the one of the row before, then this one's.
 * A blank row is passed over by the careful reader; one that only names its sheet is not. */
static bool read_row(const hl_fast_form *form, hl_flat *out, int *note, const char *part, const char **at)
{
    const char *p = *at;
    bool named = false, any = false;
    for (int i = 0; i < form->n_columns; i++) {
        const hl_cell_column *column = &form->columns[i];
        if (i > 0 && *p++ != form->separator) {
            return false;
        }
        if (column->kind == HL_CELL_NOTE) {
            named = true;
            if (!hl__fast_note(form, note, &p)) {
                return false;
            }
        } else if (column->kind == HL_CELL_SHEET) {
            if (part == NULL || !hl__fast_part(&p, part, form->separator)) {
                return false;
            }
        } else if (!hl__fast_ends(*p, form->separator)) {
            bool reading = column->kind == HL_CELL_READING;
            if (reading ? !named || !read_reading(form, out, column->step, *note, &p)
                        : column->kind != HL_CELL_TEXT || !hl__fast_text(&p, form->separator)) {
                return false;
            }
            any = true;
        }
    }
    *at = p + 1;
    if (*p != '\n' || out->rows[*note] || (*note == 0 && !any)) {
        return false;
    }
    out->rows[*note] = 1;
    return true;
}

bool hl__fast_wide(const hl_fast_form *form, hl_flat *out, const char *rows, size_t size, const char *part)
{
    const char *p = rows, *end = rows + size;
    int note = 0;
    bool any = false; /* without one there is nothing to judge, which the careful reader says */
    if (size == 0 || end[-1] != '\n') {
        return false;
    }
    while (p < end) {
        if (*p == '\n') {
            p++; /* a blank line */
        } else if (*p == '#' || !read_row(form, out, &note, part, &p)) {
            return false;
        } else {
            any = true;
        }
    }
    return any;
}
