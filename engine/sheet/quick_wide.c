/* quick_wide.c - a usual row of a wide sheet (layer: sheet).  See quick.h. */
#include "quick.h"

/* The row in hand. */
typedef struct wide_row {
    const char *at;
    int note;
    bool any; /* a reading or a text is in it */
    uint32_t remark;
} wide_row;

/* A number in quotes, or in another unit than that of amounts. */
static bool read_number(hl_rows *rows, hl_quick *q, const hl_column *column, wide_row *row)
{
    const hl_form *form = rows->form;
    hl_quick_number number = {0};
    hl_amount value = 0;
    bool blank = false;
    if (*row->at == '"') {
        if (!hl__quick_quoted(&number, &row->at, form->separator, hl__quick_quoted_mark(rows), &blank)) {
            return false;
        }
    } else if (!hl__quick_digits(&number, &row->at, hl__quick_mark(rows))) {
        return false;
    }
    if (blank) {
        return true;
    }
    row->any = true;
    q->decimals |= number.decimals;
    return hl__quick_scale(&value, &number, form->scales[column->step]) &&
           hl__quick_keep(rows, q, column->step, row->note, column->first + row->note, value);
}

static bool read_word(hl_rows *rows, hl_quick *q, const hl_column *column, wide_row *row)
{
    const char *text = NULL;
    size_t size = 0;
    hl_amount word = 0;
    if (!rows->form->clear_words[column->step] ||
        !hl__quick_text(&row->at, rows->form->separator, &text, &size)) {
        return false;
    }
    if (size == 0) {
        return true;
    }
    row->any = true;
    return hl__quick_word(&rows->form->book->steps[column->step], &word, text, size) &&
           hl__quick_keep_word(rows, q, column->step, row->note, column->first + row->note, word);
}

static bool read_remark(hl_rows *rows, wide_row *row)
{
    const char *text = NULL;
    size_t size = 0;
    if (!hl__quick_text(&row->at, rows->form->separator, &text, &size)) {
        return false;
    }
    row->any = row->any || size > 0;
    return hl__rows_text(rows, HL_HEAD_REMARK, text, size, &row->remark);
}

/* A cell that is not blank, and no plain number. */
static bool read_other(hl_rows *rows, hl_quick *q, const hl_column *column, wide_row *row)
{
    switch (column->kind) {
    case HL_COLUMN_READING:
        return rows->form->book->steps[column->step].kind == HL_JUDGED ? read_word(rows, q, column, row)
                                                                       : read_number(rows, q, column, row);
    case HL_COLUMN_TEXT:
        return read_remark(rows, row);
    default:
        /* a pair of quotes with nothing in it is blank */
        if (row->at[0] != '"' || row->at[1] != '"') {
            return false;
        }
        row->at += 2;
        return true;
    }
}

/* Numbers, which are nearly all there is, are read here.  False: not usual.  *at: on the row's end. */
static bool read_cells(hl_rows *rows, hl_quick *q, wide_row *row)
{
    const hl_form *form = rows->form;
    const hl_column *column = form->columns + form->many, *last = form->columns + form->n_columns - 1;
    const char separator = form->separator, mark = hl__quick_mark(rows);
    const char *p = row->at;
    int note = row->note, decimals = 0;
    bool any = false;
    for (;; column++, p++) {
        hl_quick_number number;
        if (column->number) {
            if (hl__quick_ends(*p, separator)) {
                ; /* not measured */
            } else if (hl__quick_digits(&number, &p, mark)) {
                decimals |= number.decimals;
                any = true;
                if (!hl__quick_keep(rows, q, column->step, note, column->first + note,
                                    hl__quick_amount(&number))) {
                    return false;
                }
            } else {
                *row = (wide_row){.at = p, .note = note, .any = any, .remark = row->remark};
                if (!read_number(rows, q, column, row)) {
                    return false;
                }
                p = row->at;
                any = row->any;
            }
        } else if (column->kind == HL_COLUMN_NOTE) {
            if (!hl__quick_note(form, &note, &p)) {
                return false;
            }
        } else if (!hl__quick_ends(*p, separator)) {
            *row = (wide_row){.at = p, .note = note, .any = any, .remark = row->remark};
            if (!read_other(rows, q, column, row)) {
                return false;
            }
            p = row->at;
            any = row->any;
        }
        if (column == last || *p != separator) {
            break;
        }
    }
    while (column == last && *p == separator) {
        p++; /* spreadsheets fill rows up */
    }
    q->decimals |= decimals;
    *row = (wide_row){.at = p, .note = note, .any = any, .remark = row->remark};
    return column == last && (*p == '\n' || *p == '\r');
}

bool hl__quick_wide(hl_rows *rows, const char *at)
{
    hl_quick q;
    wide_row row = {.at = at, .note = rows->note};
    if (!hl__quick_start(&q, rows, rows->form->n_columns)) {
        return false;
    }
    const bool usual = read_cells(rows, &q, &row);
    /* a row of blanks means nothing; in a file of many it names its sheet, and then it is the instrument's */
    const bool blank = usual && row.note == 0 && !row.any && !rows->form->many;
    if (!usual || (!blank && rows->seen[row.note])) {
        hl__quick_undo(&q, rows);
        return false;
    }
    for (size_t i = q.first; row.remark != 0 && i < q.n; i++) {
        q.events[i].remark = row.remark;
    }
    const bool any = rows->any;
    hl__quick_done(&q, rows, row.at);
    rows->any = any || !blank;
    rows->seen[row.note] = rows->seen[row.note] || !blank;
    rows->note = blank ? rows->note : row.note;
    return true;
}
