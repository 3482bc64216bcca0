/* fast_tidy.c - the rows of a plain tidy sheet (layer: sheet).  See fast_rows.h for its reason. */
#include "fast_cells.h"

/* Where a row's cells stand. */
typedef struct tidy_row {
    int note, step;
    const char *reading;
    hl_fast_number number;
    bool blank, numeric;
} tidy_row;

static bool find_step(const hl_fast_form *form, int *step, const char *at)
{
    for (int i = 0; i < form->book->n_steps; i++) {
        if (hl__fast_is(&form->ids[i], at, form->separator)) {
            if (*step >= 0) {
                form->follows[*step][1] = form->follows[*step][0];
                form->follows[*step][0] = i;
            }
            *step = i;
            return true;
        }
    }
    return false;
}

/* Rows mostly keep an order: what came after a step last comes after it again.  Sharps and naturals have
 * steps of their own, so there are two that may come. */
static inline bool read_step(const hl_fast_form *form, int *step, const char **at)
{
    static const int first[2] = {0, 0};
    const int *guess = *step >= 0 ? form->follows[*step] : first;
    const bool one = hl__fast_is(&form->ids[guess[0]], *at, form->separator);
    if (one || hl__fast_is(&form->ids[guess[1]], *at, form->separator)) {
        *step = guess[!one];
    } else if (!find_step(form, step, *at)) {
        return false;
    }
    *at += form->ids[*step].size;
    return true;
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

/* The cells behind the sheet's. */
static bool read_row(const hl_fast_form *form, hl_flat *out, tidy_row *row, const char **at)
{
    const char *p = *at;
    for (int i = form->many; i < form->n_cells; i++) {
        bool good = false;
        if (i > 0 && *p++ != form->separator) {
            return false;
        }
        switch (form->cells[i].kind) {
        case HL_FAST_NOTE:
            good = hl__fast_note(form, &row->note, &p);
            break;
        case HL_FAST_STEP:
            good = read_step(form, &row->step, &p);
            break;
        case HL_FAST_NUMBER:
            good = read_value(form, row, &p);
            break;
        case HL_FAST_TEXT:
            good = hl__fast_text(&p, form->separator);
            break;
        default:
            break;
        }
        if (!good) {
            return false;
        }
    }
    *at = p + 1;
    return *p == '\n' && keep_row(form, out, row);
}

/* A number in a row of the usual order.  False when it is not so simple: then the other way decides. */
static bool read_straight(const hl_fast_form *form, hl_flat *out, tidy_row *row, const char **at)
{
    const char separator = form->separator;
    const char *p = *at;
    hl_fast_number number;
    if ((form->many && *p++ != separator) || !hl__fast_note(form, &row->note, &p) || *p++ != separator ||
        !read_step(form, &row->step, &p) || *p++ != separator || !form->is_number[row->step] ||
        !hl__fast_digits(&number, &p) || *p != '\n' ||
        !hl__fast_keep(out, row->step, row->step * HL_FLAT_NOTES + row->note, hl__fast_amount(&number))) {
        return false;
    }
    *at = p + 1;
    return true;
}

bool hl__fast_tidy(const hl_fast_form *form, hl_flat *out, const char **at, const char *end, const char *part)
{
    const char *p = *at;
    hl_fast_key name = {.size = 0};
    tidy_row row = {.step = -1};
    bool any = false; /* without one there is nothing to judge, which the careful reader says */
    if (part != NULL) {
        hl__fast_key(&name, part);
    }
    while (p < end) {
        if (*p == '\n') {
            p++; /* a blank line */
            continue;
        }
        if (part != NULL && !hl__fast_is(&name, p, form->separator)) {
            if (!hl__fast_is_other(form, p, end, part)) {
                return false;
            }
            break;
        }
        p += name.size;
        const bool remark = part == NULL && *p == '#';
        if (remark ||
            (!(form->straight && read_straight(form, out, &row, &p)) && !read_row(form, out, &row, &p))) {
            return false;
        }
        any = true;
    }
    *at = p;
    return any;
}
