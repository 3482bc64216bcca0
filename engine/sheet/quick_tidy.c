/* quick_tidy.c - a usual row of a tidy sheet (layer: sheet).  See quick.h. */
#include "quick.h"

/* What the row's cells hold. */
typedef struct tidy_row {
    int note, step;
    const char *reading;
    size_t size;
    hl_quick_number number;
    bool numeric;
} tidy_row;

static bool find_step(hl_form *form, int *step, const char *text, size_t size)
{
    for (int i = 0; i < form->book->n_steps; i++) {
        if (form->ids[i].size == size && memcmp(form->ids[i].text, text, size) == 0) {
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
static inline bool read_step(hl_form *form, int *step, const char **at)
{
    static const int first[2] = {0, 0};
    const int *guess = *step >= 0 ? form->follows[*step] : first;
    const bool one = hl__quick_is(&form->ids[guess[0]], *at, form->separator);
    if (one || hl__quick_is(&form->ids[guess[1]], *at, form->separator)) {
        *step = guess[!one];
        *at += form->ids[*step].size;
        return true;
    }
    const char *text = NULL;
    size_t size = 0;
    return hl__quick_text(at, form->separator, &text, &size) && find_step(form, step, text, size);
}

static bool read_value(hl_rows *rows, tidy_row *row, const char **at)
{
    const char separator = rows->form->separator;
    const char *p = *at;
    bool blank = false;
    row->numeric =
        !hl__quick_ends(*p, separator) &&
        (*p == '"' ? hl__quick_quoted(&row->number, &p, separator, hl__quick_quoted_mark(rows), &blank)
                   : hl__quick_digits(&row->number, &p, hl__quick_mark(rows))) &&
        hl__quick_ends(*p, separator) && !blank;
    if (row->numeric) {
        *at = p;
        return true;
    }
    return hl__quick_text(at, separator, &row->reading, &row->size);
}

static bool keep_row(hl_rows *rows, hl_quick *q, const tidy_row *row)
{
    const hl_form *form = rows->form;
    const int place = hl__place(row->step, row->note);
    hl_amount value = 0;
    if (!row->numeric && row->size == 0) {
        return q->to.states[place] != HL_STATE_CLOSED; /* not measured */
    }
    if (form->book->steps[row->step].kind == HL_JUDGED) {
        return !row->numeric && form->clear_words[row->step] &&
               hl__quick_word(&form->book->steps[row->step], &value, row->reading, row->size) &&
               hl__quick_keep_word(rows, q, row->step, row->note, place, value);
    }
    q->decimals |= row->numeric ? row->number.decimals : 0;
    return row->numeric && hl__quick_scale(&value, &row->number, form->scales[row->step]) &&
           hl__quick_keep(rows, q, row->step, row->note, place, value);
}

static bool pass_text(const char **at, char separator)
{
    const char *text = NULL;
    size_t size = 0;
    return hl__quick_ends(**at, separator) || hl__quick_text(at, separator, &text, &size);
}

static bool read_text(hl_rows *rows, hl_quick *q, int head, const char **at)
{
    const char *text = NULL;
    size_t size = 0;
    uint32_t kept = 0;
    if (hl__quick_ends(**at, rows->form->separator)) {
        return true;
    }
    if (!hl__quick_text(at, rows->form->separator, &text, &size) ||
        !hl__rows_text(rows, head, text, size, &kept)) {
        return false;
    }
    switch (head) {
    case HL_HEAD_TIME:
        q->blank.time = kept;
        break;
    case HL_HEAD_BY:
        q->blank.by = kept;
        break;
    case HL_HEAD_METHOD:
        q->blank.method = kept;
        break;
    default:
        q->blank.remark = kept;
        break;
    }
    return true;
}

/* The cells behind the sheet's. */
static bool read_cells(hl_rows *rows, hl_quick *q, tidy_row *row, const char **at)
{
    hl_form *form = rows->form;
    const char *p = *at;
    for (int i = form->many; i < form->n_columns; i++) {
        bool good = false;
        if (i > form->many && *p++ != form->separator) {
            return false;
        }
        switch (form->columns[i].kind) {
        case HL_COLUMN_NOTE:
            good = hl__quick_note(form, &row->note, &p);
            break;
        case HL_COLUMN_STEP:
            good = read_step(form, &row->step, &p);
            break;
        case HL_COLUMN_READING:
            good = read_value(rows, row, &p);
            break;
        case HL_COLUMN_TEXT:
            good = read_text(rows, q, form->columns[i].head, &p);
            break;
        case HL_COLUMN_MARK:
            good = pass_text(&p, form->separator);
            break;
        default:
            break;
        }
        if (!good) {
            return false;
        }
    }
    while (*p == form->separator) {
        p++; /* spreadsheets fill rows up */
    }
    *at = p;
    return (*p == '\n' || *p == '\r') && keep_row(rows, q, row);
}

/* A number in a row of the usual order.  False when it is not so simple: then the other way decides. */
static bool read_straight(hl_rows *rows, hl_quick *q, tidy_row *row, const char **at)
{
    hl_form *form = rows->form;
    const char separator = form->separator;
    const char *p = *at;
    hl_quick_number number;
    int note = row->note, step = row->step;
    if (!hl__quick_note(form, &note, &p) || *p++ != separator || !read_step(form, &step, &p) ||
        *p++ != separator || !form->is_number[step] || !hl__quick_digits(&number, &p, hl__quick_mark(rows)) ||
        (*p != '\n' && *p != '\r') ||
        !hl__quick_keep(rows, q, step, note, hl__place(step, note), hl__quick_amount(&number))) {
        return false;
    }
    q->decimals |= number.decimals;
    row->note = note;
    row->step = step;
    *at = p;
    return true;
}

bool hl__quick_tidy(hl_rows *rows, const char *at)
{
    hl_quick q;
    tidy_row row = {.note = rows->note, .step = rows->step};
    if (!hl__quick_start(&q, rows, 1)) {
        return false;
    }
    if (!(rows->form->straight && read_straight(rows, &q, &row, &at)) && !read_cells(rows, &q, &row, &at)) {
        hl__quick_undo(&q, rows);
        return false;
    }
    hl__quick_done(&q, rows, at);
    rows->note = row.note;
    rows->step = row.step;
    return true;
}
