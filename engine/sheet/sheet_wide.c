/* sheet_wide.c - a row a note, a column a step (layer: sheet). */
#include "errors.h"
#include "nearest_name.h"
#include "sheet_parts.h"

#include <string.h>

/* BAD: its head has been reported; NAMELESS: bearable while the column is empty. */
typedef enum column_kind {
    COLUMN_BAD,
    COLUMN_NAMELESS,
    COLUMN_NOTE,
    COLUMN_STEP,
    COLUMN_REMARK,
    COLUMN_SHEET
} column_kind;

typedef struct wide_column {
    column_kind kind;
    int step;
    hl_unit unit;
} wide_column;

typedef struct wide_columns {
    wide_column list[HL_CELLS_MOST];
    int n, note, remark, sheet; /* the last three: places in the list, -1 = none */
    unsigned char seen[HL_PITCHES + 1];
} wide_columns;

static hl_code refuse_head(const hl_sheet *sheet, const char *text, const char *id, hl_err *bad)
{
    hl_suggest suggest = {id, NULL, 0};
    const hl_book *book = sheet->book;
    if (hl_book_find_adjuster(book, id) >= 0) {
        hl__fail(bad, HL_E_SHEET, "%s is something one adjusts, not something one reads", id);
        return hl__todo(bad, "record adjustments in a tidy sheet: note,step,reading");
    }
    for (int i = 0; i < book->n_steps; i++) {
        hl__suggest_offer(&suggest, book->steps[i].id);
    }
    hl__suggest_offer(&suggest, "note");
    hl__suggest_offer(&suggest, "remark");
    hl__fail(bad, HL_E_SHEET, "the book '%s' has no step '%s'", book->id, hl__sheet_show(text).text);
    if (suggest.best != NULL) {
        return hl__todo(bad, "did you mean '%s'?", suggest.best);
    }
    return hl__todo(bad, "rename the column, or delete it; 'hammerline rules list' shows the steps");
}

/* The unit that a head carries, "key_dip [in]", into *unit; *size is left at the bare name. */
static hl_code take_unit(const char *text, size_t *size, bool *given, hl_unit *unit, hl_err *bad)
{
    const char *open = strpbrk(text, "[(");
    *given = false;
    if (open == NULL || open == text) {
        return HL_OK;
    }
    char close = *open == '[' ? ']' : ')';
    size_t inner = *size - (size_t)(open - text) - 1;
    if (open[inner] != close || !hl__unit_parse(unit, open + 1, inner - 1)) {
        hl__fail(bad, HL_E_SHEET, "'%s' does not end in a unit", hl__sheet_show(text).text);
        return hl__todo(bad, "write the unit in brackets, as in 'key_dip [in]'");
    }
    *given = true;
    *size = (size_t)(open - text);
    return HL_OK;
}

static hl_code check_head_unit(const hl_step *step, hl_unit unit, hl_err *bad)
{
    if (step->kind == HL_JUDGED) {
        hl__fail(bad, HL_E_SHEET, "%s is judged by a word and has no unit", step->id);
        return hl__todo(bad, "take the unit out of the head");
    }
    if (!hl__dims_equal(hl__unit_dims(unit), hl__unit_dims(step->unit))) {
        hl__fail(bad, HL_E_SHEET, "%s is read in %s, not in %s", step->id, hl_unit_name(step->unit),
                 hl_unit_name(unit));
        return hl__todo(bad, "change the unit in the head, or the column");
    }
    return HL_OK;
}

static hl_code check_twice(const wide_columns *columns, const wide_column *column, const char *id,
                           hl_err *bad)
{
    for (int i = 0; i < columns->n; i++) {
        const wide_column *other = &columns->list[i];
        if (other->kind == column->kind && other->step == column->step) {
            hl__fail(bad, HL_E_SHEET, "the column '%s' stands twice, first as column %d", id, i + 1);
            return hl__todo(bad, "keep one of the two");
        }
    }
    return HL_OK;
}

static hl_code read_head(const hl_sheet *sheet, const wide_columns *columns, const hl_cell *cell,
                         wide_column *column, hl_err *bad)
{
    char id[HL_ID_MOST];
    size_t size = cell->size;
    bool given = false;
    hl_unit unit = HL_NO_UNIT;
    if (size == 0) {
        column->kind = COLUMN_NAMELESS;
        return HL_OK;
    }
    if (take_unit(cell->text, &size, &given, &unit, bad) != HL_OK) {
        return bad->code;
    }
    hl__sheet_id(id, cell->text, size);
    wide_column found = {COLUMN_STEP, hl_book_find_step(sheet->book, id), unit};
    if (!given && (strcmp(id, "note") == 0 || strcmp(id, "key") == 0)) {
        found.kind = COLUMN_NOTE;
    } else if (!given && strcmp(id, "remark") == 0) {
        found.kind = COLUMN_REMARK;
    } else if (!given && strcmp(id, "sheet") == 0) {
        found.kind = COLUMN_SHEET;
    } else if (found.step < 0) {
        return refuse_head(sheet, cell->text, id, bad);
    } else {
        const hl_step *step = &sheet->book->steps[found.step];
        if (step->kind == HL_DERIVED) {
            hl__fail(bad, HL_E_SHEET, "%s is computed from other readings", step->id);
            return hl__todo(bad, "leave it out");
        }
        if (given && check_head_unit(step, unit, bad) != HL_OK) {
            return bad->code;
        }
        found.unit = given ? unit : step->unit;
    }
    hl_code code = check_twice(columns, &found, id, bad);
    if (code == HL_OK) {
        *column = found;
    }
    return code;
}

/* The first bad head is reported; its column and those of further ones are passed over, so that the
 * rest of the sheet is read. */
static hl_code read_heads(hl_sheet *sheet, wide_columns *columns, const hl_csv *csv, hl_err *err)
{
    bool complained = false;
    int n = columns->n;
    columns->n = 0;
    for (int i = 0; i < n; i++) {
        hl_err bad = {0};
        wide_column *column = &columns->list[i];
        *column = (wide_column){COLUMN_BAD, -1, HL_NO_UNIT};
        hl_code code = read_head(sheet, columns, &csv->cells[i], column, &bad);
        columns->n = i + 1;
        if (column->kind == COLUMN_NOTE) {
            columns->note = i;
        } else if (column->kind == COLUMN_REMARK) {
            columns->remark = i;
        } else if (column->kind == COLUMN_SHEET) {
            columns->sheet = i;
        }
        if (code != HL_OK && !complained) {
            complained = true;
            hl__at(&bad, sheet->name, sheet->header_end, i + 1);
            if (hl__sheet_complain(sheet, &bad, err) != HL_OK) {
                return err->code;
            }
        }
    }
    return HL_OK;
}

bool hl__sheet_wide_columns(hl_sheet *sheet, const hl_csv *csv, int *n, hl_cell_column *out)
{
    static const hl_cell_kind KINDS[] = {[COLUMN_NAMELESS] = HL_CELL_NOTHING,
                                         [COLUMN_NOTE] = HL_CELL_NOTE,
                                         [COLUMN_STEP] = HL_CELL_READING,
                                         [COLUMN_REMARK] = HL_CELL_TEXT,
                                         [COLUMN_SHEET] = HL_CELL_SHEET};
    wide_columns columns;
    hl_err err;
    memset(&columns, 0, sizeof columns);
    columns.note = columns.remark = columns.sheet = -1;
    while (*n > 0 && csv->cells[*n - 1].size == 0) {
        --*n;
    }
    columns.n = *n;
    if (sheet->journal || read_heads(sheet, &columns, csv, &err) != HL_OK || sheet->n_errors > 0 ||
        columns.note < 0) {
        return false;
    }
    for (int i = 0; i < columns.n; i++) {
        const wide_column *column = &columns.list[i];
        out[i] = (hl_cell_column){KINDS[column->kind], column->step, column->unit};
    }
    return true;
}

static hl_code check_row_note(const hl_sheet *sheet, wide_columns *columns, int note, hl_err *bad)
{
    if (!columns->seen[note]) {
        columns->seen[note] = 1;
        return HL_OK;
    }
    if (note == 0) {
        hl__fail(bad, HL_E_SHEET, "a second row without a note");
        return hl__todo(bad, "write the steps of the whole piano in one row");
    }
    hl__fail(bad, HL_E_SHEET, "%s has a row already", hl_pitch_name(hl_note_pitch(sheet->compass, note)));
    return hl__todo(bad, "keep one row a note; history needs a tidy sheet");
}

static hl_code read_wide_cell(hl_sheet *sheet, const wide_column *column, const hl_cell *cell, int note,
                              const char *remark, int line, hl_err *bad)
{
    if (column->kind == COLUMN_NAMELESS) {
        hl__fail(bad, HL_E_SHEET, "column %d holds '%s' but has no name in the header", cell->column,
                 hl__sheet_show(cell->text).text);
        return hl__todo(bad, "name the column");
    }
    if (column->kind != COLUMN_STEP) {
        return HL_OK;
    }
    hl_event event = {.step = column->step, .note = note, .line = line, .column = cell->column};
    event.time = event.by = event.method = "";
    event.remark = remark;
    hl_code code = hl__cell_reading(sheet, &event, column->unit, cell->text, bad);
    return code == HL_OK ? hl__sheet_add(sheet, &event, bad) : code;
}

/* A bad cell spoils its row for the report, not its neighbours: they are read all the same. */
static hl_code read_wide_row(hl_sheet *sheet, void *context, const hl_csv *csv, int line, hl_err *bad)
{
    wide_columns *columns = context;
    const hl_cell *cells = csv->cells;
    int note = 0;
    if (columns->sheet >= 0 && hl__sheet_check_part(sheet, cells[columns->sheet].text, bad) != HL_OK) {
        bad->column = columns->sheet + 1;
        return bad->code;
    }
    hl_code result = hl__cell_note(&note, sheet, cells[columns->note].text, bad);
    if (result == HL_OK) {
        result = check_row_note(sheet, columns, note, bad);
    }
    if (result != HL_OK) {
        bad->column = columns->note + 1;
        return result;
    }
    const char *remark = "";
    if (columns->remark >= 0 && cells[columns->remark].size > 0) {
        remark = hl__arena_copy(&sheet->arena, cells[columns->remark].text);
        if (remark == NULL) {
            return hl__no_memory(bad);
        }
    }
    for (int i = 0; i < columns->n; i++) {
        hl_err cell_bad = {0};
        if (cells[i].size == 0) {
            continue;
        }
        hl_code code = read_wide_cell(sheet, &columns->list[i], &cells[i], note, remark, line, &cell_bad);
        if (code != HL_OK && (result == HL_OK || code == HL_E_MEMORY)) {
            result = code;
            *bad = cell_bad;
            bad->column = i + 1;
        }
    }
    return result;
}

static hl_code refuse_no_note(hl_sheet *sheet, hl_err *err)
{
    hl_err bad;
    hl__fail(&bad, HL_E_SHEET, "the header names no column 'note'");
    hl__todo(&bad, "begin the header with 'note'; the separator must be a comma, a semicolon or a tab");
    hl__at(&bad, sheet->name, sheet->header_end, 1);
    return hl__sheet_complain(sheet, &bad, err);
}

hl_code hl__sheet_read_wide(hl_sheet *sheet, hl_csv *csv, int n, hl_err *err)
{
    wide_columns columns;
    memset(&columns, 0, sizeof columns);
    columns.note = columns.remark = columns.sheet = -1;
    while (n > 0 && csv->cells[n - 1].size == 0) {
        n--;
    }
    columns.n = n;
    bool named = false;
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, csv->cells[i].text, csv->cells[i].size);
        named = named || strcmp(id, "note") == 0 || strcmp(id, "key") == 0;
    }
    if (!named) {
        return refuse_no_note(sheet, err);
    }
    if (sheet->journal) {
        hl_err bad;
        hl__fail(&bad, HL_E_SHEET, "the sheet calls itself tidy, but its heads are not note, step, reading");
        hl__todo(&bad, "delete the line '# hammerline: tidy 1', or mend the header");
        hl__at(&bad, sheet->name, sheet->header_end, 1);
        return hl__sheet_complain(sheet, &bad, err);
    }
    hl_code code = read_heads(sheet, &columns, csv, err);
    return code == HL_OK ? hl__sheet_rows(sheet, csv, n, read_wide_row, &columns, err) : code;
}
