/* sheet_written.c - goes through a sheet's bytes a second time, for what its events do not keep
 * (layer: sheet). */
#include "sheet_written.h"

#include "errors.h"
#include "journal_parts.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

/* A line may grow a little when it is written anew: a blank, a note's name. */
#define LINE_MOST (HL_CELL_MOST - 32)

typedef struct rescan {
    hl_written *out;
    const hl_sheet *sheet;
    hl_csv csv;
    int place[HL_TIDY_COLUMNS]; /* cell of each head, -1 = none */
    size_t event, fact;         /* the next ones */
} rescan;

void hl__written_free(hl_written *written)
{
    hl__arena_free(&written->arena);
    free(written->tops);
    free(written->rows);
    *written = (hl_written){0};
}

static hl_written_row *add_row(hl_written *out)
{
    void *items = out->rows;
    if (!hl__grow(&items, out->n_rows, &out->room_rows, sizeof *out->rows)) {
        return NULL;
    }
    out->rows = items;
    hl_written_row *row = &out->rows[out->n_rows++];
    *row = (hl_written_row){.event = -1};
    for (int i = 0; i < HL_TIDY_COLUMNS; i++) {
        row->cells[i] = "";
    }
    return row;
}

static const char *keep(rescan *at, const char *text)
{
    return text[0] == '\0' ? "" : hl__arena_copy(&at->out->arena, text);
}

static hl_code refuse_long(const rescan *at, int line, hl_err *err)
{
    hl__fail(err, HL_E_SHEET, "this line is too long to be written anew");
    hl__todo(err, "shorten it to fewer than %d bytes", LINE_MOST);
    return hl__at(err, at->sheet->name, line, 1);
}

/* ---- '#' lines ----------------------------------------------------------------------------- */

/* The line as its writer meant it: its bytes, or, where quotes or a spreadsheet made cells of it, the
 * cells put together. */
static const char *take_line(rescan *at, const char *from, int n)
{
    const hl_cell *cells = at->csv.cells;
    const char *end = at->csv.at;
    hl_text line = {0};
    if (memchr(from, '"', (size_t)(end - from)) == NULL) {
        while (end > from && (strchr(" \t\r\n", end[-1]) != NULL || end[-1] == at->csv.separator)) {
            end--;
        }
        while (from < end && *from != '#') {
            from++;
        }
        hl__text_add_n(&line, from, (size_t)(end - from));
    } else {
        while (n > 1 && cells[n - 1].size == 0) {
            n--;
        }
        for (int i = 0; i < n; i++) {
            if (i > 0) {
                hl__text_printf(&line, "%c ", at->csv.separator);
            }
            hl__text_add(&line, cells[i].text);
        }
    }
    const char *kept = line.failed ? NULL : keep(at, line.data == NULL ? "" : line.data);
    hl__text_free(&line);
    return kept;
}

/* "key_front naturals" of "# key_front naturals: 250 mm". */
static const char *take_name(rescan *at)
{
    const char *text = at->csv.cells[0].text + 1;
    size_t size = strcspn(text, ":");
    while (size > 0 && (*text == ' ' || *text == '\t')) {
        text++;
        size--;
    }
    while (size > 0 && (text[size - 1] == ' ' || text[size - 1] == '\t')) {
        size--;
    }
    return hl__arena_copy_n(&at->out->arena, text, size);
}

static hl_code take_top(rescan *at, const char *from, int n, int line, hl_err *err)
{
    void *items = at->out->tops;
    const hl_sheet *sheet = at->sheet;
    const bool fact = at->fact < sheet->n_facts && sheet->facts[at->fact].line == line;
    hl_written_top top = {.fact = fact ? (long)at->fact : -1};
    top.line = fact ? NULL : take_line(at, from, n);
    top.name = fact ? take_name(at) : "";
    if ((!fact && top.line == NULL) || top.name == NULL ||
        !hl__grow(&items, at->out->n_tops, &at->out->room_tops, sizeof top)) {
        return hl__no_memory(err);
    }
    at->out->tops = items;
    at->out->tops[at->out->n_tops++] = top;
    const size_t size = fact ? strlen(top.name) + strlen(sheet->facts[at->fact].value) : strlen(top.line);
    at->fact += fact;
    return size > LINE_MOST ? refuse_long(at, line, err) : HL_OK;
}

static hl_code read_top(rescan *at, hl_err *err)
{
    const char *head = at->sheet->bytes + at->sheet->head_at;
    hl_code code = HL_OK;
    while (code == HL_OK && at->csv.at < head) {
        const char *from = at->csv.at;
        int n = 0, line = 0;
        code = hl__csv_row(&at->csv, &n, &line, err);
        if (code == HL_OK && n > 0 && at->csv.cells[0].text[0] == '#') {
            code = take_top(at, from, n, line, err);
        }
    }
    return code;
}

/* ---- rows ---------------------------------------------------------------------------------- */

static void find_columns(rescan *at, int n)
{
    for (int column = 0; column < HL_TIDY_COLUMNS; column++) {
        at->place[column] = -1;
    }
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, at->csv.cells[i].text, at->csv.cells[i].size);
        for (int column = 0; column < HL_TIDY_COLUMNS; column++) {
            if (strcmp(id, hl__journal_columns[column]) == 0) {
                at->place[column] = i;
            }
        }
        if (strcmp(id, "key") == 0) {
            at->place[HL_TIDY_NOTE] = i;
        }
    }
}

static const char *find_text(const rescan *at, int column)
{
    return at->place[column] < 0 ? "" : at->csv.cells[at->place[column]].text;
}

static bool is_next(const rescan *at, int line)
{
    return at->event < at->sheet->n_events && at->sheet->events[at->event].line == line;
}

static hl_code take_remark(rescan *at, const char *from, int n, int line, hl_err *err)
{
    hl_written_row *row = add_row(at->out);
    if (row == NULL || (row->line = take_line(at, from, n)) == NULL) {
        return hl__no_memory(err);
    }
    return strlen(row->line) > LINE_MOST ? refuse_long(at, line, err) : HL_OK;
}

static hl_code take_tidy(rescan *at, int line, hl_err *err)
{
    hl_written_row *row = add_row(at->out);
    if (row == NULL) {
        return hl__no_memory(err);
    }
    for (int column = 0; column < HL_TIDY_COLUMNS; column++) {
        row->cells[column] = keep(at, find_text(at, column));
        if (row->cells[column] == NULL) {
            return hl__no_memory(err);
        }
    }
    if (is_next(at, line)) {
        row->event = (long)at->event++;
    }
    return HL_OK;
}

/* A remark beside no reading has no row of its own in a tidy sheet: it becomes a '##' line. */
static hl_code take_lone_remark(rescan *at, const char *remark, int line, hl_err *err)
{
    hl_written_row *row = add_row(at->out);
    hl_text text = {0};
    const char *note = find_text(at, HL_TIDY_NOTE);
    hl__text_printf(&text, "## %s%s%s", note, note[0] == '\0' ? "" : ": ", remark);
    const bool fits = text.size <= LINE_MOST;
    if (row != NULL && !text.failed) {
        row->line = keep(at, text.data);
    }
    hl__text_free(&text);
    if (row == NULL || row->line == NULL) {
        return hl__no_memory(err);
    }
    return fits ? HL_OK : refuse_long(at, line, err);
}

static hl_code take_wide(rescan *at, int line, hl_err *err)
{
    const char *remark = find_text(at, HL_TIDY_REMARK);
    if (!is_next(at, line)) {
        return remark[0] == '\0' ? HL_OK : take_lone_remark(at, remark, line, err);
    }
    for (; is_next(at, line); at->event++) {
        const hl_event *event = &at->sheet->events[at->event];
        hl_written_row *row = add_row(at->out);
        if (row == NULL) {
            return hl__no_memory(err);
        }
        row->event = (long)at->event;
        row->cells[HL_TIDY_NOTE] = keep(at, find_text(at, HL_TIDY_NOTE));
        row->cells[HL_TIDY_STEP] = at->sheet->book->steps[event->step].id;
        row->cells[HL_TIDY_READING] = keep(at, at->csv.cells[hl__event_column(at->sheet, event) - 1].text);
        row->cells[HL_TIDY_REMARK] = hl__text_at(at->sheet, event->remark);
        if (row->cells[HL_TIDY_NOTE] == NULL || row->cells[HL_TIDY_READING] == NULL) {
            return hl__no_memory(err);
        }
    }
    return HL_OK;
}

static hl_code read_rows(rescan *at, hl_err *err)
{
    int n = 0, line = 0;
    at->csv.at = at->sheet->bytes + at->sheet->head_at;
    at->csv.line = at->sheet->header_end;
    hl_code code = hl__csv_row(&at->csv, &n, &line, err);
    if (code == HL_OK) {
        find_columns(at, n);
    }
    while (code == HL_OK) {
        const char *from = at->csv.at;
        code = hl__csv_row(&at->csv, &n, &line, err);
        if (code != HL_OK || n == 0) {
            break;
        }
        if (hl__sheet_row_blank(at->csv.cells, n)) {
            continue;
        }
        /* As the reader has it: a '#' line is one cell, whatever stands for the others is empty. */
        if (at->csv.cells[0].text[0] == '#' && hl__sheet_row_blank(at->csv.cells + 1, n - 1)) {
            code = take_remark(at, from, n, line, err);
        } else {
            code = at->sheet->tidy ? take_tidy(at, line, err) : take_wide(at, line, err);
        }
    }
    return code;
}

hl_code hl__written_read(hl_written *out, const hl_sheet *sheet, hl_err *err)
{
    rescan at = {.out = out, .sheet = sheet};
    *out = (hl_written){0};
    hl_code code = hl__sheet_reader(&at.csv, sheet, sheet->separator, err);
    if (code != HL_OK) {
        return code;
    }
    code = read_top(&at, err);
    if (code == HL_OK) {
        code = read_rows(&at, err);
    }
    hl__csv_end(&at.csv);
    return code;
}

/* ---- readings ------------------------------------------------------------------------------ */

hl_unit hl__written_other_unit(const hl_step *step)
{
    return step->unit == HL_MM ? HL_IN : step->unit == HL_IN ? HL_MM : step->unit;
}

bool hl__written_same(const hl_sheet *sheet, const hl_event *event, hl_unit unit, const char *text)
{
    hl_sheet probe = *sheet; /* the reader may remember a decimal mark in it */
    hl_event again = {.step = event->step, .note = event->note};
    hl_err bad;
    return hl__cell_reading(&probe, &again, unit, text, &bad) == HL_OK && again.kind == event->kind &&
           again.amount == event->amount && again.word == event->word;
}

/* Without the unit that its column has. */
static bool say_bare(hl_text *out, const hl_sheet *sheet, const hl_event *event, const char *written,
                     hl_unit unit)
{
    hl_number number;
    hl_err bad;
    size_t used = 0;
    hl_text bare = {0};
    if (hl__number_read(&number, written, strlen(written), &used, &bad) != HL_OK) {
        return false;
    }
    hl__text_add_n(&bare, written, used);
    const bool same = !bare.failed && hl__written_same(sheet, event, unit, bare.data);
    if (same) {
        hl__text_add(out, bare.data);
    }
    out->failed |= bare.failed;
    hl__text_free(&bare);
    return same;
}

static void say_number(hl_text *out, const hl_sheet *sheet, const hl_event *event, const char *written,
                       hl_unit unit)
{
    const hl_step *step = &sheet->book->steps[event->step];
    if (unit != step->unit && say_bare(out, sheet, event, written, unit)) {
        return;
    }
    hl__text_add(out, written);
    if (!hl__written_same(sheet, event, unit, written)) {
        hl__text_printf(out, " %s",
                        hl_unit_name(unit == step->unit ? hl__written_other_unit(step) : step->unit));
    }
}

void hl__written_say(hl_text *out, const hl_sheet *sheet, const hl_event *event, const char *written,
                     hl_unit unit)
{
    static const char *const words[] = {[HL_EVENT_WITHIN] = "within",
                                        [HL_EVENT_OVER] = "over",
                                        [HL_EVENT_UNDER] = "under",
                                        [HL_EVENT_VOID] = "void",
                                        [HL_EVENT_SKIP] = "skip"};
    const hl_step *step = &sheet->book->steps[event->step];
    if (event->kind == HL_EVENT_VALUE) {
        say_number(out, sheet, event, written, unit);
    } else if (event->kind == HL_EVENT_WORD) {
        hl__text_add(out, event->word < 0 ? "ok" : step->words[event->word].word);
    } else if (event->kind <= HL_EVENT_SKIP) {
        hl__text_add(out, words[event->kind]);
    }
}
