/* fast_tidy.c - the rows of a plain tidy sheet (layer: model).  See fast_rows.h for its reason. */
#include "fast_cells.h"

/* Where a row's cells stand. */
typedef struct tidy_row {
    int note, step;
    const char *reading;
    hl_fast_number number;
    bool blank, numeric;
} tidy_row;

static bool is_id(const hl_fast_form *form, int step, const char *at)
{
    size_t size = form->id_sizes[step];
    return memcmp(at, form->book->steps[step].id, size) == 0 &&
           (at[size] == form->separator || at[size] == '\n');
}

/* Rows mostly keep an order: what came after a step last comes after it again. */
static bool read_step(const hl_fast_form *form, int *step, const char **at, const char *end)
{
    int before = *step, guess = before >= 0 ? form->follows[before] : 0;
    for (int i = 0; i <= form->book->n_steps; i++, guess = i - 1) {
        if ((size_t)(end - *at) > form->id_sizes[guess] && is_id(form, guess, *at)) {
            if (before >= 0) {
                form->follows[before] = guess;
            }
            *at += form->id_sizes[guess];
            *step = guess;
            return true;
        }
    }
    return false;
}

static bool read_value(const hl_fast_form *form, tidy_row *row, const char **at)
{
    const char *p = *at;
    row->reading = p;
    row->blank = *p == form->separator || *p == '\n';
    row->numeric = !row->blank && hl__fast_digits(&row->number, &p) && hl__fast_ends(*p, form->separator);
    if (!row->numeric) {
        p = *at;
        if (!hl__fast_text(&p, form->separator)) {
            return false;
        }
    }
    *at = p;
    return true;
}

static bool keep_row(const hl_fast_form *form, hl_flat *out, const tidy_row *row)
{
    const hl_step *step = &form->book->steps[row->step];
    const char *reading = row->reading;
    const int place = row->step * HL_FLAT_NOTES + row->note;
    hl_amount value = 0;
    if (row->blank) {
        return out->read[place] != HL_FLAT_CLOSED; /* not measured */
    }
    if (step->kind == HL_JUDGED) {
        return hl__fast_word(step, &value, &reading, form->separator) &&
               hl__fast_keep_word(out, row->step, place, value);
    }
    return row->numeric && hl__fast_scale(&value, &row->number, form->scales[row->step]) &&
           hl__fast_keep(out, row->step, place, value);
}

static bool read_row(const hl_fast_form *form, hl_flat *out, tidy_row *row, hl_fast_part part,
                     const char **at, const char *end)
{
    const char *p = *at;
    for (int i = 0; i < form->n_cells; i++) {
        bool good = true;
        if (i > 0 && *p++ != form->separator) {
            return false;
        }
        switch (form->cells[i].kind) {
        case HL_FAST_NOTE:
            good = hl__fast_note(form, &row->note, &p);
            break;
        case HL_FAST_STEP:
            good = read_step(form, &row->step, &p, end);
            break;
        case HL_FAST_NUMBER:
            good = read_value(form, row, &p);
            break;
        case HL_FAST_SHEET:
            good = part.name != NULL && hl__fast_is_part(&p, end, part, form->separator);
            break;
        case HL_FAST_TEXT:
            good = hl__fast_text(&p, form->separator);
            break;
        default:
            good = false;
            break;
        }
        if (!good) {
            return false;
        }
    }
    *at = p + 1;
    return *p == '\n' && keep_row(form, out, row);
}

bool hl__fast_tidy(const hl_fast_form *form, hl_flat *out, const char *rows, size_t size, const char *part)
{
    const char *p = rows, *end = rows + size;
    const hl_fast_part name = {part, part != NULL ? strlen(part) : 0};
    tidy_row row = {.step = -1};
    bool any = false; /* without one there is nothing to judge, which the careful reader says */
    if (size == 0 || end[-1] != '\n') {
        return false;
    }
    while (p < end) {
        if (*p == '\n') {
            p++; /* a blank line */
        } else if (*p == '#' || !read_row(form, out, &row, name, &p, end)) {
            return false;
        } else {
            any = true;
        }
    }
    return any;
}
