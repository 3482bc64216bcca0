/* rows.c - the rows below a header: usual ones in place, others the general way (layer: sheet/rows).
 *
 * A bad row is kept as an error and passed over; good ones become events. */
#include "rows.h"

#include "errors.h"
#include "quick.h"
#include "sheet_many.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

/* ---- the general way -------------------------------------------------------------------------------- */

/* A '#' line among the rows: a remark, unless it was meant to state something. */
static hl_code pass_remark(const hl_csv *csv, hl_err *bad)
{
    const char *text = csv->cells[0].text;
    if (text[1] == '#' || strchr(text, ':') == NULL) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "a fact below the header is not read");
    bad->column = 1;
    return hl__todo(bad, "move it above the header; a remark begins with '##'");
}

static hl_code check_count(const hl_sheet *sheet, const hl_csv *csv, int n, int columns, hl_err *bad)
{
    while (n > columns && csv->cells[n - 1].size == 0) {
        n--; /* spreadsheets fill rows up */
    }
    if (n == columns) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "this row has %d cells, but the header has %d", n, columns);
    bad->column = n < columns ? n : columns + 1;
    if (n > columns && sheet->separator == ',') {
        return hl__todo(bad, "if a number has a decimal comma, write it with a point, put it in quotes, "
                             "or save the sheet with semicolons");
    }
    return hl__todo(bad, n > columns ? "put a text that holds the separator in quotes"
                                     : "an empty cell needs its separator too");
}

static hl_code read_row(hl_rows *rows, int n, int line, hl_err *bad)
{
    const hl_csv *csv = &rows->csv;
    if (csv->cells[0].text[0] == '#' && hl__sheet_row_blank(csv->cells + 1, n - 1)) {
        return pass_remark(csv, bad);
    }
    rows->any = true;
    hl_code code = check_count(rows->sheet, csv, n, rows->form->n_columns, bad);
    if (code != HL_OK) {
        return code;
    }
    return rows->form->tidy ? hl__tidy_row(rows, line, bad) : hl__wide_row(rows, line, bad);
}

static hl_code refuse_torn(hl_sheet *sheet, int line, hl_err *bad)
{
    sheet->torn = line;
    hl__fail(bad, HL_E_SHEET, "the last line is torn: it was not saved to its end");
    return hl__todo(bad, "delete it and read that note again");
}

static hl_code open_csv(hl_rows *rows, hl_err *err)
{
    if (rows->has_csv) {
        return HL_OK;
    }
    const hl_sheet *sheet = rows->sheet;
    hl_code code = hl__csv_start(&rows->csv, sheet->name, rows->at, (size_t)(rows->end - rows->at),
                                 rows->form->separator, err);
    rows->has_csv = code == HL_OK;
    rows->csv.one_line = true; /* else an open quote could hide a later, worse reading in a remark */
    return code;
}

static hl_code read_generally(hl_rows *rows, hl_err *err)
{
    hl_sheet *sheet = rows->sheet;
    hl_csv *csv = &rows->csv;
    int n = 0, line = 0;
    hl_err bad = {0};
    hl_code code = open_csv(rows, err);
    if (code != HL_OK) {
        return code;
    }
    csv->at = rows->at;
    csv->line = rows->line;
    csv->rows = rows->count;
    code = hl__csv_row(csv, &n, &line, &bad);
    if (code == HL_OK && hl__sheet_row_blank(csv->cells, n)) {
        ; /* means nothing */
    } else if (code != HL_E_MEMORY && csv->torn && sheet->tidy && sheet->version > 0 &&
               !hl__sheet_ends_saved(sheet)) {
        code = refuse_torn(sheet, line, &bad);
    } else if (code == HL_OK) {
        code = read_row(rows, n, line, &bad);
    }
    rows->at = csv->at;
    rows->line = csv->line;
    rows->count = csv->rows;
    if (code == HL_E_SHEET) {
        hl__at(&bad, sheet->name, line, bad.column);
        return hl__sheet_complain(sheet, &bad, err);
    }
    if (code != HL_OK) {
        *err = bad;
    }
    return code;
}

/* ---- all rows --------------------------------------------------------------------------------------- */

/* Rows in place, as long as they are usual. */
static void read_usual(hl_rows *rows)
{
    if (rows->form->tidy) {
        hl__quick_tidy(rows);
    } else {
        hl__quick_wide(rows);
    }
}

/* The first row of another sheet of the file? */
static bool is_other(const hl_rows *rows, const char *part)
{
    const hl_many many = {.separator = rows->form->separator, .column = rows->form->at[HL_HEAD_SHEET]};
    hl_part_name name;
    hl__many_name(&name, &many, rows->at, hl__many_row(rows->at, rows->end));
    return name.size > 0 && strcmp(name.text, part) != 0;
}

static hl_code refuse_nothing(hl_sheet *sheet, hl_err *err)
{
    hl_err bad;
    hl__fail(&bad, HL_E_SHEET, "there is a header but no row below it, so nothing to judge");
    hl__todo(&bad, "write a row for each note");
    hl__at(&bad, sheet->name, sheet->header_end, 0);
    return hl__sheet_complain(sheet, &bad, err);
}

/* Where semicolons or tabs part the cells, a first row with a comma and no point has decimal commas. */
static char guess_mark(const hl_form *form, const char *at, const char *end)
{
    const size_t size = hl__many_row(at, end);
    const bool comma = form->separator != ',' && memchr(at, ',', size) != NULL;
    return comma && memchr(at, '.', size) == NULL ? ',' : '.';
}

hl_code hl__sheet_rows(hl_sheet *sheet, const char *at, const char *end, const char *part, int line,
                       size_t *used, hl_err *err)
{
    hl_rows rows = {.sheet = sheet, .form = sheet->form, .at = at, .end = end, .line = line, .step = -1};
    hl_code code = HL_OK;
    rows.guess = guess_mark(sheet->form, at, end);
    rows.any = sheet->tidy && sheet->version > 0; /* one just begun is in order */
    if (part != NULL) {
        hl__key_make(&rows.part, part);
    }
    while (code == HL_OK && rows.at < end && !sheet->needs_own) {
        if (*rows.at == '\n') {
            rows.at++;
            rows.line++;
            rows.count++;
            continue;
        }
        if (rows.form->usual) {
            read_usual(&rows);
        }
        if (rows.at == end || *rows.at == '\n') {
            continue;
        }
        /* where a sheet of many ends is found by line feeds alone (sheet_many.h) */
        if (part != NULL && (rows.at == at || rows.at[-1] == '\n') && is_other(&rows, part)) {
            break;
        }
        code = read_generally(&rows, err);
        if (rows.part.size == 0 && sheet->part != NULL) {
            hl__key_make(&rows.part, sheet->part);
        }
    }
    *used = (size_t)(rows.at - at);
    if (rows.has_csv) {
        hl__csv_end(&rows.csv);
    }
    if (code == HL_OK && !rows.any && sheet->n_errors == 0) {
        code = refuse_nothing(sheet, err);
    }
    return code;
}
