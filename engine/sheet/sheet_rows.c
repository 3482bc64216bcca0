/* sheet_rows.c - what all rows below a header share: bad ones are kept and passed, good ones
 * become events (layer: sheet). */
#include "errors.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

hl_shown hl__sheet_show(const char *text)
{
    hl_shown shown;
    size_t most = sizeof shown.text - 4, n = strlen(text);
    bool cut = n > most;
    if (cut) {
        n = most;
        while (n > 0 && ((unsigned char)text[n] & 0xC0u) == 0x80u) {
            n--;
        }
    }
    memcpy(shown.text, text, n);
    memcpy(shown.text + n, "...", 4);
    if (!cut) {
        shown.text[n] = '\0';
    }
    return shown;
}

hl_code hl__sheet_complain(hl_sheet *sheet, const hl_err *bad, hl_err *err)
{
    if (sheet->n_errors == HL_ERRORS_MOST) {
        sheet->unlisted++;
        return HL_OK;
    }
    void *items = sheet->errors;
    if (!hl__grow(&items, sheet->n_errors, &sheet->room_errors, sizeof *bad)) {
        return hl__no_memory(err);
    }
    sheet->errors = items;
    sheet->errors[sheet->n_errors++] = *bad;
    return HL_OK;
}

static int compare_places(const void *a, const void *b)
{
    const hl_err *left = a, *right = b;
    if (left->line != right->line) {
        return left->line < right->line ? -1 : 1;
    }
    return (left->column > right->column) - (left->column < right->column);
}

hl_code hl__sheet_close_errors(hl_sheet *sheet, hl_err *err)
{
    if (sheet->n_errors == 0) {
        return HL_OK;
    }
    qsort(sheet->errors, sheet->n_errors, sizeof *sheet->errors, compare_places);
    if (sheet->unlisted > 0) {
        void *items = sheet->errors;
        if (!hl__grow(&items, sheet->n_errors, &sheet->room_errors, sizeof *err)) {
            return hl__no_memory(err);
        }
        sheet->errors = items;
        hl_err *last = &sheet->errors[sheet->n_errors++];
        hl__fail(last, HL_E_SHEET, "and %zu more bad rows", sheet->unlisted);
        hl__todo(last, "mend those above first");
        hl__at(last, sheet->name, 0, 0);
    }
    *err = sheet->errors[0];
    return err->code;
}

/* Where the sheet remembers what counts for the event's step or adjuster at its note. */
static long *find_place(hl_sheet *sheet, const hl_event *event, bool adjuster)
{
    long *table = adjuster ? sheet->changes : sheet->latest;
    return &table[(size_t)event->step * ((size_t)sheet->compass.keys + 1) + (size_t)event->note];
}

static void withdraw(hl_sheet *sheet, long *place)
{
    if (*place < 0) {
        *place = -2;
        return;
    }
    hl_event *event = &sheet->events[*place];
    event->withdrawn = true;
    *place = event->before >= 0 ? event->before : -2;
}

bool hl__sheet_withdraw_change(hl_sheet *sheet, const hl_event *event)
{
    long *place = find_place(sheet, event, true);
    if (*place < 0) {
        return false;
    }
    withdraw(sheet, place);
    return true;
}

hl_code hl__sheet_add(hl_sheet *sheet, const hl_event *event, hl_err *err)
{
    void *items = sheet->events;
    if (!hl__grow(&items, sheet->n_events, &sheet->room_events, sizeof *event)) {
        return hl__no_memory(err);
    }
    sheet->events = items;
    hl_event *kept = &sheet->events[sheet->n_events];
    *kept = *event;
    kept->before = -1;
    kept->pass = sheet->n_passes - 1;
    if (event->step >= 0) {
        long *place = find_place(sheet, event, event->kind == HL_EVENT_ADJUSTMENT);
        if (event->kind == HL_EVENT_VOID) {
            withdraw(sheet, place);
        } else {
            kept->before = *place;
            *place = (long)sheet->n_events;
        }
    }
    sheet->n_events++;
    return HL_OK;
}

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

hl_code hl__sheet_check_part(hl_sheet *sheet, const char *text, hl_err *bad)
{
    if (text[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "the row does not say of which sheet it is");
        return hl__todo(bad, "name the sheet, or delete the column 'sheet'");
    }
    if (sheet->part == NULL) {
        sheet->part = hl__arena_copy(&sheet->arena, text);
        return sheet->part != NULL ? HL_OK : hl__no_memory(bad);
    }
    if (strcmp(sheet->part, text) == 0) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "this row is of another sheet, '%s'", hl__sheet_show(text).text);
    return hl__todo(bad, "only 'hammerline audit' reads a file of many sheets; make it a file a sheet");
}

typedef struct row_job {
    hl_row_reader *read;
    void *context;
    int columns;
    bool any; /* a row was seen that is no remark */
} row_job;

static hl_code read_row(hl_sheet *sheet, const hl_csv *csv, int n, int line, row_job *job, hl_err *bad)
{
    if (csv->cells[0].text[0] == '#' && hl__sheet_row_blank(csv->cells + 1, n - 1)) {
        return pass_remark(csv, bad);
    }
    job->any = true;
    hl_code code = check_count(sheet, csv, n, job->columns, bad);
    return code == HL_OK ? job->read(sheet, job->context, csv, line, bad) : code;
}

static hl_code refuse_torn(hl_sheet *sheet, int line, hl_err *bad)
{
    sheet->torn = line;
    hl__fail(bad, HL_E_SHEET, "the last line is torn: it was not saved to its end");
    return hl__todo(bad, "delete it and read that note again");
}

static hl_code refuse_nothing(hl_sheet *sheet, hl_err *err)
{
    hl_err bad;
    hl__fail(&bad, HL_E_SHEET, "there is a header but no row below it, so nothing to judge");
    hl__todo(&bad, "write a row for each note");
    hl__at(&bad, sheet->name, sheet->header_end, 0);
    return hl__sheet_complain(sheet, &bad, err);
}

hl_code hl__sheet_rows(hl_sheet *sheet, hl_csv *csv, int columns, hl_row_reader *read, void *context,
                       hl_err *err)
{
    row_job job = {read, context, columns, sheet->tidy && sheet->journal}; /* one just begun is in order */
    if (sheet->part_line > 0) {
        csv->line = sheet->part_line;
    }
    for (;;) {
        int n = 0, line = 0;
        hl_err bad = {0};
        hl_code code = hl__csv_row(csv, &n, &line, &bad);
        if (code == HL_OK && n == 0) {
            return job.any || sheet->n_errors > 0 ? HL_OK : refuse_nothing(sheet, err);
        }
        if (code == HL_OK && hl__sheet_row_blank(csv->cells, n)) {
            continue;
        }
        if (code != HL_E_MEMORY && csv->torn && sheet->tidy && sheet->journal) {
            code = refuse_torn(sheet, line, &bad);
        } else if (code == HL_OK) {
            code = read_row(sheet, csv, n, line, &job, &bad);
        }
        if (code == HL_E_SHEET) {
            hl__at(&bad, sheet->name, line, bad.column);
            code = hl__sheet_complain(sheet, &bad, err);
        } else if (code != HL_OK) {
            *err = bad;
        }
        if (code != HL_OK) {
            return code;
        }
    }
}
