/* quick_wide.c - usual rows of a wide sheet (layer: sheet/rows).  See quick.h. */
#include "quick.h"

/* The row in hand. */
typedef struct wide_row {
    const char *at;
    int note;
    bool any; /* a reading or a text is in it */
    uint32_t remark;
} wide_row;

/* A number in quotes, or in another unit than that of amounts. */
static bool read_number(const hl_rows *rows, hl_quick *q, const hl_column *column, wide_row *row)
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
           hl__quick_keep(q, column->first + row->note, value);
}

static bool read_word(const hl_rows *rows, hl_quick *q, const hl_column *column, wide_row *row)
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
           hl__quick_keep_word(q, column->first + row->note, word);
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

/* Numbers, which are nearly all there is, are read here.  False: not usual.  row->at: on the row's end. */
static bool read_cells(hl_rows *rows, hl_quick *q, wide_row *row)
{
    const hl_form *form = rows->form;
    const hl_column *column = form->columns + form->many, *last = form->columns + form->n_columns - 1;
    const char separator = form->separator, mark = hl__quick_mark(rows);
    const char quoted_mark = hl__quick_quoted_mark(rows);
    hl_quick quick = *q;
    const char *p = row->at;
    int note = row->note;
    bool any = false, usual = true;
    for (;; column++, p++) {
        hl_quick_number number;
        if (column->number) {
            if (hl__quick_digits(&number, &p, mark)) {
                quick.decimals |= number.decimals;
                any = true;
                usual = hl__quick_keep(&quick, column->first + note, hl__quick_amount(&number));
                if (!usual) {
                    break;
                }
                goto behind;
            }
            if (hl__quick_ends(*p, separator)) {
                goto behind; /* not measured */
            }
            const char *inner = p + 1;
            if (*p == '"' && hl__quick_digits(&number, &inner, quoted_mark) && *inner == '"' &&
                !(quoted_mark == separator && number.decimals == 3)) {
                quick.decimals |= number.decimals;
                any = true;
                usual = hl__quick_keep(&quick, column->first + note, hl__quick_amount(&number));
                if (!usual) {
                    break;
                }
                p = inner + 1;
                goto behind;
            }
        } else if (column->kind == HL_COLUMN_NOTE) {
            usual = hl__quick_note(form, &note, &p);
            if (!usual) {
                break;
            }
            goto behind;
        } else if (hl__quick_ends(*p, separator)) {
            goto behind;
        }
        *q = quick;
        *row = (wide_row){.at = p, .note = note, .any = any, .remark = row->remark};
        usual = read_other(rows, q, column, row);
        quick = *q;
        p = row->at;
        any = row->any;
        if (!usual) {
            break;
        }
    behind:
        if (column == last || *p != separator) {
            break;
        }
    }
    while (usual && column == last && *p == separator) {
        p++; /* spreadsheets fill rows up */
    }
    *q = quick;
    *row = (wide_row){.at = p, .note = note, .any = any, .remark = row->remark};
    return usual && column == last && (*p == '\n' || *p == '\r');
}

/* The row that begins at `at`; false: not usual, and nothing was kept. */
static bool read_row(hl_rows *rows, hl_quick *q, const char *at)
{
    wide_row row = {.at = at, .note = rows->note};
    const int most = rows->form->n_columns;
    if (q->end - q->next < most && !hl__quick_widen(q, rows, most)) {
        return false;
    }
    q->first = q->next;
    const bool usual = read_cells(rows, q, &row);
    /* a row of blanks means nothing; in a file of many it names its sheet, and then it is the instrument's */
    const bool blank = usual && row.note == 0 && !row.any && !rows->form->many;
    if (!usual || (!blank && rows->seen[row.note])) {
        hl__quick_undo(q, rows);
        return false;
    }
    const hl_row_texts texts = {.remark = row.remark};
    if ((rows->sheet->expanded || row.remark != 0) && !hl__quick_close(q, rows, &texts)) {
        return false;
    }
    rows->at = hl__quick_line_end(row.at);
    rows->line = ++q->line;
    rows->count++;
    if (!blank) {
        rows->any = true;
        rows->seen[row.note] = 1;
        rows->note = row.note;
    }
    return true;
}

void hl__quick_wide(hl_rows *rows)
{
    hl_quick q;
    hl__quick_begin(&q, rows);
    while (rows->at < rows->end && rows->count < HL_ROWS_MOST) {
        const char *at = rows->form->many ? hl__quick_name(rows, rows->at) : rows->at;
        if (at == NULL || *at == '#' || !read_row(rows, &q, at)) {
            break;
        }
    }
    hl__quick_end(&q, rows);
}
