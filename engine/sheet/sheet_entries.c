/* sheet_entries.c - the rows that the program saved with marks: what became of them, in words (layer: sheet).
 *
 * Looked at before any row is read, so that an entry that was not saved to its end is no reading. */
#include "ascii.h"
#include "entry_check.h"
#include "errors.h"
#include "form.h"
#include "sheet_parts.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

static void say_gone(const hl_entry_change *change, hl_err *bad)
{
    if (change->kind == HL_ENTRY_ENTRY_GONE && change->order - change->from > 1) {
        hl__fail(bad, HL_E_SHEET, "entries %lu to %lu, which stood above this row, are missing",
                 (unsigned long)change->from, (unsigned long)change->order - 1);
    } else if (change->kind == HL_ENTRY_ENTRY_GONE) {
        hl__fail(bad, HL_E_SHEET, "entry %lu, which stood above this row, is missing",
                 (unsigned long)change->from);
    } else {
        hl__fail(bad, HL_E_SHEET, "row %lu of the %lu rows of entry %lu is missing",
                 (unsigned long)change->row, (unsigned long)change->rows, (unsigned long)change->order);
    }
    hl__todo(bad, "put it back from a copy of the sheet; if it is lost, read those notes again and clear the "
                  "cells 'entry' from this row on");
}

/* As an error of the row: what it is, and what to do. */
static void say_change(const hl_entry_change *change, hl_err *bad)
{
    const unsigned long order = (unsigned long)change->order;
    switch (change->kind) {
    case HL_ENTRY_EDITED:
        if (change->last > change->line) {
            hl__fail(bad, HL_E_SHEET,
                     "one of the rows of entry %lu, lines %d to %d, was changed after it was "
                     "saved",
                     order, change->line, change->last);
            hl__todo(bad, "read those notes again, or clear the cells 'entry' of these rows");
        } else {
            hl__fail(bad, HL_E_SHEET, "this row was changed after it was saved");
            hl__todo(bad, "read the note again, or clear the row's cell 'entry'");
        }
        return;
    case HL_ENTRY_MARK:
        hl__fail(bad, HL_E_SHEET, "the row's cell 'entry' is not as the program wrote it");
        hl__todo(bad, "read the note again, or clear the row's cell 'entry'");
        return;
    case HL_ENTRY_ROW_GONE:
    case HL_ENTRY_ENTRY_GONE:
        say_gone(change, bad);
        return;
    case HL_ENTRY_REPLACED:
        hl__fail(bad, HL_E_SHEET, "the entry before entry %lu is another than when this one was saved",
                 order);
        hl__todo(bad, "compare the rows above with a copy of the sheet, or clear their cells 'entry'");
        return;
    case HL_ENTRY_TWICE:
        hl__fail(bad, HL_E_SHEET,
                 change->row > 0 ? "the row %lu.%lu stands twice" : "two entries have the number %lu", order,
                 (unsigned long)change->row);
        hl__todo(bad, "delete the copy, or clear its cell 'entry' if it was read twice");
        return;
    case HL_ENTRY_SORTED:
        hl__fail(bad, HL_E_SHEET, "from here on the rows are not in the order in which they were saved");
        hl__todo(bad, "'hammerline sheet convert' puts them back in the order of their entries");
        return;
    case HL_ENTRY_UNFINISHED:
        hl__fail(bad, HL_E_SHEET, "this entry was not saved to its end, so it does not count");
        hl__todo(bad, "delete its rows and read those notes again, or let 'hammerline walk' set it aside");
        return;
    case HL_ENTRY_BY_HAND:
        hl__fail(bad, HL_E_SHEET,
                 "where a row of entry %lu or an entry before it was saved, rows without a "
                 "mark stand now",
                 order);
        hl__todo(bad, "if nobody wrote them there on purpose, compare them with a copy of the sheet");
        return;
    case HL_ENTRY_VERSION:
        hl__fail(bad, HL_E_SHEET, "rows have marks, but the version line is not '# hammerline: tidy 2'");
        hl__todo(bad, "put the line back, so that rows that come get marks too");
        return;
    case HL_ENTRY_FACT:
        if (change->fact != NULL) {
            hl__fail(bad, HL_E_SHEET, "the fact '%s' is another than when entry %lu was saved",
                     hl__sheet_show(change->fact).text, order);
        } else {
            hl__fail(bad, HL_E_SHEET, "the facts above the header are others than when entry %lu was saved",
                     order);
        }
        hl__todo(bad, "if nobody changed it on purpose, compare it with a copy of the sheet");
        return;
    }
}

/* The rows of a sheet in a file of many are counted from that file's top. */
static void move_lines(hl_sheet *sheet)
{
    const int more = sheet->part_line > 0 ? sheet->part_line - sheet->header_end - 1 : 0;
    for (size_t i = 0; i < sheet->entries->n_marked; i++) {
        sheet->entries->rows[i].line += more;
    }
    for (size_t i = 0; i < sheet->entries->n_changes; i++) {
        hl_entry_change *change = &sheet->entries->changes[i];
        change->line += change->line > 0 ? more : 0;
        change->last += change->last > 0 ? more : 0;
    }
}

hl_code hl__sheet_check_entries(hl_sheet *sheet, size_t *size, hl_err *err)
{
    hl_err bad = {0};
    sheet->entries = calloc(1, sizeof *sheet->entries);
    if (sheet->entries == NULL) {
        return hl__no_memory(err);
    }
    hl_code code = hl__entries_check(sheet->entries, sheet->name, sheet->bytes, sheet->size, &bad);
    if (code != HL_OK) {
        return code == HL_E_SHEET ? hl__sheet_complain(sheet, &bad, err) : hl__no_memory(err);
    }
    move_lines(sheet);
    for (size_t i = 0; code == HL_OK && i < sheet->entries->n_changes; i++) {
        const hl_entry_change *change = &sheet->entries->changes[i];
        if (!hl__entry_is_doubt(change->kind)) {
            continue;
        }
        if (change->kind == HL_ENTRY_UNFINISHED) {
            sheet->torn = change->line;
            *size = sheet->entries->unfinished_at;
        }
        say_change(change, &bad);
        hl__at(&bad, sheet->name, change->line, sheet->form->at[HL_HEAD_ENTRY] + 1);
        code = hl__sheet_complain(sheet, &bad, err);
    }
    return code;
}

void hl__sheet_forget_entries(hl_sheet *sheet)
{
    if (sheet->entries != NULL) {
        hl__entries_free(sheet->entries);
        free(sheet->entries);
        sheet->entries = NULL;
    }
}

bool hl__sheet_ends_saved(const hl_sheet *sheet)
{
    return sheet->entries != NULL && sheet->entries->ends_saved;
}

/* ---- rows by their marks ------------------------------------------------------------------------ */

/* "31.2" */
static bool read_name(const char *text, unsigned long *order, unsigned long *row)
{
    char *end = NULL;
    if (!hl__is_digit(text[0])) {
        return false;
    }
    *order = strtoul(text, &end, 10);
    if (end[0] != '.' || !hl__is_digit(end[1])) {
        return false;
    }
    *row = strtoul(end + 1, &end, 10);
    return end[0] == '\0';
}

hl_code hl__sheet_read_void(const hl_sheet *sheet, const char *text, bool *is, int *line, hl_err *bad)
{
    unsigned long order = 0, row = 0;
    *line = 0;
    *is = strncmp(text, "void", 4) == 0 && (text[4] == '\0' || text[4] == ' ');
    if (!*is || text[4] == '\0') {
        return HL_OK;
    }
    text += 4 + strspn(text + 4, " ");
    if (read_name(text, &order, &row) && sheet->entries != NULL) {
        *line = hl__entries_line(sheet->entries, order, row);
    }
    if (*line > 0) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "'void %s' names no row of this sheet", hl__sheet_show(text).text);
    return hl__todo(bad,
                    "write the row's number from the column 'entry', as in 'void 31.2', or 'void' alone");
}

int hl__sheet_find_line(const hl_sheet *sheet, int latest, int line)
{
    while (latest >= 0 && sheet->events[latest].line != line) {
        latest = sheet->events[latest].before;
    }
    return latest;
}

bool hl_sheet_mark(const hl_sheet *sheet, const char *id, int note, char out[HL_ROW_NAME])
{
    const int line = hl_sheet_line(sheet, id, note);
    uint32_t order = 0, row = 0;
    out[0] = '\0';
    if (line == 0 || sheet->entries == NULL || !hl__entries_find(sheet->entries, line, &order, &row)) {
        return false;
    }
    hl_text text = {0};
    hl__text_printf(&text, "%lu.%lu", (unsigned long)order, (unsigned long)row);
    const bool fits = !text.failed && text.size < HL_ROW_NAME;
    if (fits) {
        memcpy(out, text.data, text.size + 1);
    }
    hl__text_free(&text);
    return fits;
}

hl_code hl_sheet_verify(hl_verified *out, const hl_sheet *sheet, hl_err *err)
{
    hl_entries entries;
    *out = (hl_verified){.n_changes = 0};
    hl_code code = hl__entries_check(&entries, sheet->name, sheet->bytes, sheet->size, err);
    if (code == HL_OK) {
        out->changes = calloc(entries.n_changes + 1, sizeof *out->changes);
        code = out->changes == NULL ? hl__no_memory(err) : HL_OK;
    }
    if (code == HL_OK) {
        out->entries = entries.n_entries;
        out->marked = entries.n_marked;
        out->unmarked = entries.n_unmarked;
        for (; out->n_changes < entries.n_changes; out->n_changes++) {
            hl_err *change = &out->changes[out->n_changes];
            say_change(&entries.changes[out->n_changes], change);
            hl__at(change, sheet->name, entries.changes[out->n_changes].line, 0);
        }
    }
    hl__entries_free(&entries);
    return code;
}

void hl_verified_free(hl_verified *verified)
{
    free(verified->changes);
    *verified = (hl_verified){.n_changes = 0};
}

/* ---- the order of saving ------------------------------------------------------------------------ */

typedef struct line_place {
    size_t at, size;
    int line;
} line_place;

/* Where each line below the header is; malloc'ed. */
static line_place *list_lines(const hl_sheet *sheet, size_t from, int line, size_t *n)
{
    const char *bytes = sheet->bytes;
    size_t count = 1;
    for (size_t i = from; i < sheet->size; i++) {
        count += bytes[i] == '\n' || bytes[i] == '\r';
    }
    line_place *lines = calloc(count + 1, sizeof *lines);
    *n = 0;
    for (size_t at = from; lines != NULL && at < sheet->size; line++) {
        size_t end = at;
        while (end < sheet->size && bytes[end] != '\n' && bytes[end] != '\r') {
            end++;
        }
        lines[(*n)++] = (line_place){at, end - at, line};
        at = end + (end + 1 < sheet->size && bytes[end] == '\r' && bytes[end + 1] == '\n') + 1;
    }
    return lines;
}

static void add_line(hl_text *out, const hl_sheet *sheet, line_place *line)
{
    hl__text_add_n(out, sheet->bytes + line->at, line->size);
    hl__text_char(out, '\n');
    line->line = 0; /* it has been written */
}

static bool is_sorted(const hl_entries *entries)
{
    for (size_t i = 0; i < entries->n_changes; i++) {
        if (entries->changes[i].kind == HL_ENTRY_SORTED) {
            return true;
        }
    }
    return false;
}

static hl_code write_in_order(hl_text *out, const hl_sheet *sheet, const hl_entries *entries, hl_err *err)
{
    size_t n = 0, head = sheet->head_at;
    while (head < sheet->size && sheet->bytes[head] != '\n' && sheet->bytes[head] != '\r') {
        head++;
    }
    head += (head + 1 < sheet->size && sheet->bytes[head] == '\r' && sheet->bytes[head + 1] == '\n') + 1u;
    head = head > sheet->size ? sheet->size : head;
    line_place *lines = list_lines(sheet, head, sheet->header_end + 1, &n);
    if (lines == NULL) {
        return hl__no_memory(err);
    }
    hl__text_add_n(out, sheet->bytes, head);
    for (size_t i = 0; i < entries->n_marked; i++) {
        const size_t place = (size_t)(entries->rows[i].line - sheet->header_end - 1);
        if (place < n && lines[place].line > 0) {
            add_line(out, sheet, &lines[place]);
        }
    }
    for (size_t i = 0; i < n; i++) {
        if (lines[i].line > 0 && lines[i].size > 0) {
            add_line(out, sheet, &lines[i]);
        }
    }
    free(lines);
    return out->failed ? hl__no_memory(err) : HL_OK;
}

hl_code hl_sheet_in_order(char **out, size_t *size, const hl_sheet *sheet, hl_err *err)
{
    hl_entries entries;
    hl_text text = {0};
    *out = NULL;
    hl_code code = hl__entries_check(&entries, sheet->name, sheet->bytes, sheet->size, err);
    if (code == HL_OK && is_sorted(&entries)) {
        code = write_in_order(&text, sheet, &entries, err);
        if (code == HL_OK) {
            code = hl__text_take(&text, out, size, err);
        }
    }
    hl__text_free(&text);
    hl__entries_free(&entries);
    return code;
}
