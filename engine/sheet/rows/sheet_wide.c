/* sheet_wide.c - a row a note, a column a step: one row, cell by cell (layer: sheet/rows). */
#include "errors.h"
#include "rows.h"
#include "sheet_parts.h"

#include <string.h>

static hl_code check_row_note(hl_rows *rows, int note, hl_err *bad)
{
    if (!rows->seen[note]) {
        rows->seen[note] = 1;
        return HL_OK;
    }
    if (note == 0) {
        hl__fail(bad, HL_E_SHEET, "a second row without a note");
        return hl__todo(bad, "write the steps of the whole piano in one row");
    }
    hl__fail(bad, HL_E_SHEET, "%s has a row already",
             hl_pitch_name(hl_note_pitch(rows->sheet->compass, note)));
    return hl__todo(bad, "keep one row a note; history needs a tidy sheet");
}

static hl_code read_cell(hl_sheet *sheet, const hl_column *column, const hl_cell *cell, hl_event event,
                         hl_err *bad)
{
    if (column->kind == HL_COLUMN_NAMELESS) {
        hl__fail(bad, HL_E_SHEET, "column %d holds '%s' but has no name in the header", cell->column,
                 hl__sheet_show(cell->text).text);
        return hl__todo(bad, "name the column");
    }
    if (column->kind != HL_COLUMN_READING) {
        return HL_OK;
    }
    event.step = column->step;
    hl_code code = hl__cell_reading(sheet, &event, column->unit, cell->text, bad);
    return code == HL_OK ? hl__sheet_add(sheet, &event, bad) : code;
}

/* A bad cell spoils its row for the report, not its neighbours: they are read all the same. */
hl_code hl__wide_row(hl_rows *rows, int line, hl_err *bad)
{
    const hl_form *form = rows->form;
    const hl_cell *cells = rows->csv.cells;
    const int sheet_column = form->at[HL_HEAD_SHEET], remark = form->at[HL_HEAD_REMARK];
    int note = 0;
    if (sheet_column >= 0 && hl__sheet_check_part(rows->sheet, cells[sheet_column].text, bad) != HL_OK) {
        bad->column = sheet_column + 1;
        return bad->code;
    }
    hl_code result = hl__cell_note(&note, rows->sheet, cells[form->at[HL_HEAD_NOTE]].text, bad);
    if (result == HL_OK) {
        result = check_row_note(rows, note, bad);
    }
    if (result != HL_OK) {
        bad->column = form->at[HL_HEAD_NOTE] + 1;
        return result;
    }
    rows->note = note;
    hl_event event = {.note = (unsigned char)note, .line = line};
    if (remark >= 0 &&
        !hl__rows_text(rows, HL_HEAD_REMARK, cells[remark].text, cells[remark].size, &event.remark)) {
        return hl__no_memory(bad);
    }
    for (int i = 0; i < form->n_columns; i++) {
        hl_err cell_bad = {0};
        if (cells[i].size == 0) {
            continue;
        }
        hl_code code = read_cell(rows->sheet, &form->columns[i], &cells[i], event, &cell_bad);
        if (code != HL_OK && (result == HL_OK || code == HL_E_MEMORY)) {
            result = code;
            *bad = cell_bad;
            bad->column = i + 1;
        }
    }
    return result;
}
