/* quick_tidy.c - a usual row of a tidy sheet (layer: sheet/rows).  See quick.h. */
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

static bool keep_row(const hl_rows *rows, hl_quick *q, const tidy_row *row)
{
    const hl_form *form = rows->form;
    const int place = hl__place(row->step, row->note);
    hl_amount value = 0;
    if (!row->numeric && row->size == 0) {
        return q->states[place] != HL_STATE_CLOSED; /* not measured */
    }
    if (form->book->steps[row->step].kind == HL_JUDGED) {
        return !row->numeric && form->clear_words[row->step] &&
               hl__quick_word(&form->book->steps[row->step], &value, row->reading, row->size) &&
               hl__quick_keep_word(q, place, value);
    }
    q->decimals |= row->numeric ? row->number.decimals : 0;
    return row->numeric && hl__quick_scale(&value, &row->number, form->scales[row->step]) &&
           hl__quick_keep(q, place, value);
}

static bool pass_text(const char **at, char separator)
{
    const char *text = NULL;
    size_t size = 0;
    return hl__quick_ends(**at, separator) || hl__quick_text(at, separator, &text, &size);
}

static bool read_text(hl_rows *rows, hl_row_texts *texts, int head, const char **at)
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
        texts->time = kept;
        break;
    case HL_HEAD_BY:
        texts->by = kept;
        break;
    case HL_HEAD_METHOD:
        texts->method = kept;
        break;
    default:
        texts->remark = kept;
        break;
    }
    return true;
}

/* The cells behind the sheet's. */
static bool read_cells(hl_rows *rows, hl_quick *q, tidy_row *row, hl_row_texts *texts, const char **at)
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
            good = read_text(rows, texts, form->columns[i].head, &p);
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

/* Rows of the usual order that hold a number, as long as they come, in a loop of their own. */
static void read_straight(hl_rows *rows, hl_quick *q)
{
    hl_form *form = rows->form;
    const char separator = form->separator, mark = hl__quick_mark(rows), *end = rows->end;
    const bool many = form->many;
    hl_quick quick = *q;
    const char *at = rows->at;
    int note = rows->note, step = rows->step;
    long count = rows->count;
    while (at < end && quick.next < quick.end && count < HL_ROWS_MOST) {
        const char *p = many ? hl__quick_name(rows, at) : at;
        int here = note, of = step;
        hl_quick_number number;
        if (p == NULL || !hl__quick_note(form, &here, &p) || *p++ != separator || !read_step(form, &of, &p) ||
            *p++ != separator || !form->is_number[of] || !hl__quick_digits(&number, &p, mark) ||
            (*p != '\n' && *p != '\r') ||
            !hl__quick_keep(&quick, hl__place(of, here), hl__quick_amount(&number))) {
            break;
        }
        quick.decimals |= number.decimals;
        quick.line++;
        note = here;
        step = of;
        count++;
        at = hl__quick_line_end(p);
    }
    rows->any = rows->any || count > rows->count;
    rows->at = at;
    rows->line = quick.line;
    rows->count = count;
    rows->note = note;
    rows->step = step;
    *q = quick;
}

/* Any usual row; false: it is not, and nothing was kept. */
static bool read_row(hl_rows *rows, hl_quick *q)
{
    const char *at = rows->form->many ? hl__quick_name(rows, rows->at) : rows->at;
    tidy_row row = {.note = rows->note, .step = rows->step};
    hl_row_texts texts = {0};
    if (at == NULL || *at == '#' || (q->next == q->end && !hl__quick_widen(q, rows, 1))) {
        return false;
    }
    q->first = q->next;
    if (!read_cells(rows, q, &row, &texts, &at)) {
        hl__quick_undo(q, rows);
        return false;
    }
    const bool has_texts = (texts.time | texts.by | texts.method | texts.remark) != 0;
    if (q->next > q->first && (rows->sheet->expanded || has_texts) && !hl__quick_close(q, rows, &texts)) {
        return false;
    }
    rows->at = hl__quick_line_end(at);
    rows->line = ++q->line;
    rows->count++;
    rows->any = true;
    rows->note = row.note;
    rows->step = row.step;
    return true;
}

void hl__quick_tidy(hl_rows *rows)
{
    hl_quick q;
    hl__quick_begin(&q, rows);
    while (rows->at < rows->end && rows->count < HL_ROWS_MOST) {
        if (rows->form->straight && !rows->sheet->expanded) {
            read_straight(rows, &q);
        }
        if (rows->at == rows->end || !read_row(rows, &q)) {
            break;
        }
    }
    hl__quick_end(&q, rows);
}
