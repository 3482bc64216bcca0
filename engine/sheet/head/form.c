/* form.c - how the rows of a sheet are read (layer: sheet/head). */
#include "form.h"

#include "errors.h"
#include "nearest_name.h"
#include "sheet_parts.h"

#include <string.h>

static const char *const NAMES[HL_HEADS] = {"note",   "step",   "reading", "time", "by",
                                            "method", "remark", "sheet",   "entry"};

void hl__key_make(hl_key *out, const char *text)
{
    const size_t size = strlen(text), first = size < sizeof out->bits ? size : sizeof out->bits;
    *out = (hl_key){.text = text, .size = size};
    memcpy(out->bits, text, first);
    memset(out->mask, 0xFF, first);
}

/* ---- tidy heads ------------------------------------------------------------------------------------- */

static int find_head(const char *id)
{
    for (int head = 0; head < HL_HEADS; head++) {
        if (strcmp(id, NAMES[head]) == 0) {
            return head;
        }
    }
    return strcmp(id, "key") == 0 ? HL_HEAD_NOTE : -1;
}

static bool is_tidy(const hl_csv *csv, int n)
{
    bool step = false, reading = false;
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, csv->cells[i].text, csv->cells[i].size);
        step = step || strcmp(id, NAMES[HL_HEAD_STEP]) == 0;
        reading = reading || strcmp(id, NAMES[HL_HEAD_READING]) == 0;
    }
    return step && reading;
}

static hl_code refuse_tidy_head(const char *text, const char *id, hl_err *bad)
{
    hl_suggest suggest = {id, NULL, 0};
    for (int head = 0; head < HL_HEADS; head++) {
        hl__suggest_offer(&suggest, NAMES[head]);
    }
    hl__fail(bad, HL_E_SHEET, "a tidy sheet has no column '%s'", hl__sheet_show(text).text);
    if (suggest.best != NULL) {
        return hl__todo(bad, "did you mean '%s'?", suggest.best);
    }
    return hl__todo(bad, "its columns are note, step, reading, time, by, method, remark, sheet, entry");
}

/* One mistake in the header makes every row doubtful, so it is the only thing said. */
static hl_code read_tidy_heads(const hl_sheet *sheet, hl_form *form, const hl_cell *cells, int n, hl_err *bad)
{
    static const hl_column_kind KINDS[HL_HEADS] = {
        [HL_HEAD_NOTE] = HL_COLUMN_NOTE,       [HL_HEAD_STEP] = HL_COLUMN_STEP,
        [HL_HEAD_READING] = HL_COLUMN_READING, [HL_HEAD_TIME] = HL_COLUMN_TEXT,
        [HL_HEAD_BY] = HL_COLUMN_TEXT,         [HL_HEAD_METHOD] = HL_COLUMN_TEXT,
        [HL_HEAD_REMARK] = HL_COLUMN_TEXT,     [HL_HEAD_SHEET] = HL_COLUMN_SHEET,
        [HL_HEAD_ENTRY] = HL_COLUMN_MARK};
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, cells[i].text, cells[i].size);
        const int head = find_head(id);
        bad->column = i + 1;
        if (head < 0) {
            refuse_tidy_head(cells[i].text, id, bad);
        } else if (form->at[head] >= 0) {
            hl__fail(bad, HL_E_SHEET, "the column '%s' stands twice", id);
            hl__todo(bad, "keep one of the two");
        } else {
            form->at[head] = i;
            form->columns[i] = (hl_column){.kind = KINDS[head], .step = -1, .head = head};
            continue;
        }
        bad->column = i + 1;
        return bad->code;
    }
    if (form->at[HL_HEAD_NOTE] < 0) {
        hl__fail(bad, HL_E_SHEET, "the header names no column 'note'");
        hl__todo(bad, "a tidy sheet needs note, step and reading");
        bad->column = 1;
        return bad->code;
    }
    if (sheet->version >= 2 && form->at[HL_HEAD_ENTRY] < 0) {
        hl__fail(bad, HL_E_SHEET, "the sheet's version is tidy 2, but it has no column 'entry'");
        hl__todo(bad, "put the column back; if it is lost, write 'tidy 1' in the version line");
        bad->column = 1;
        return bad->code;
    }
    return HL_OK;
}

/* ---- wide heads ------------------------------------------------------------------------------------- */

static hl_code refuse_wide_head(const hl_sheet *sheet, const char *text, const char *id, hl_err *bad)
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

static hl_code check_twice(const hl_form *form, int n, const hl_column *column, const char *id, hl_err *bad)
{
    for (int i = 0; i < n; i++) {
        const hl_column *other = &form->columns[i];
        if (other->kind == column->kind && other->step == column->step) {
            hl__fail(bad, HL_E_SHEET, "the column '%s' stands twice, first as column %d", id, i + 1);
            return hl__todo(bad, "keep one of the two");
        }
    }
    return HL_OK;
}

static hl_code read_wide_head(hl_sheet *sheet, const hl_form *form, const hl_cell *cell, int index,
                              hl_column *column, hl_err *bad)
{
    char id[HL_ID_MOST];
    size_t size = cell->size;
    bool given = false;
    hl_unit unit = HL_NO_UNIT;
    if (size == 0) {
        column->kind = HL_COLUMN_NAMELESS;
        return HL_OK;
    }
    if (take_unit(cell->text, &size, &given, &unit, bad) != HL_OK) {
        return bad->code;
    }
    hl__sheet_id(id, cell->text, size);
    hl_column found = {.kind = HL_COLUMN_READING, .step = hl__sheet_find_step(sheet, id, sheet->header_end)};
    if (!given && (strcmp(id, "note") == 0 || strcmp(id, "key") == 0)) {
        found.kind = HL_COLUMN_NOTE;
        found.head = HL_HEAD_NOTE;
    } else if (!given && strcmp(id, "remark") == 0) {
        found.kind = HL_COLUMN_TEXT;
        found.head = HL_HEAD_REMARK;
    } else if (!given && strcmp(id, "sheet") == 0) {
        found.kind = HL_COLUMN_SHEET;
        found.head = HL_HEAD_SHEET;
    } else if (found.step < 0) {
        return refuse_wide_head(sheet, cell->text, id, bad);
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
        found.head = HL_HEAD_READING;
    }
    hl_code code = check_twice(form, index, &found, id, bad);
    if (code == HL_OK) {
        *column = found;
    }
    return code;
}

/* The first bad head is reported; its column and those of further ones are passed over, so that the
 * rest of the sheet is read. */
static hl_code read_wide_heads(hl_sheet *sheet, hl_form *form, const hl_csv *csv, hl_err *err)
{
    bool complained = false;
    for (int i = 0; i < form->n_columns; i++) {
        hl_err bad = {0};
        hl_column *column = &form->columns[i];
        *column = (hl_column){.kind = HL_COLUMN_BAD, .step = -1};
        hl_code code = read_wide_head(sheet, form, &csv->cells[i], i, column, &bad);
        if (column->kind == HL_COLUMN_READING) {
            form->column_of[column->step] = i;
        } else if (column->kind > HL_COLUMN_NAMELESS) {
            form->at[column->head] = i;
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

static bool names_note(const hl_csv *csv, int n)
{
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, csv->cells[i].text, csv->cells[i].size);
        if (strcmp(id, "note") == 0 || strcmp(id, "key") == 0) {
            return true;
        }
    }
    return false;
}

static hl_code refuse_no_note(hl_sheet *sheet, hl_err *err)
{
    hl_err bad;
    hl__fail(&bad, HL_E_SHEET, "the header names no column 'note'");
    hl__todo(&bad, "begin the header with 'note'; the separator must be a comma, a semicolon or a tab");
    hl__at(&bad, sheet->name, sheet->header_end, 1);
    return hl__sheet_complain(sheet, &bad, err);
}

static hl_code refuse_version(hl_sheet *sheet, hl_err *err)
{
    hl_err bad;
    hl__fail(&bad, HL_E_SHEET, "the sheet calls itself tidy, but its heads are not note, step, reading");
    hl__todo(&bad, "delete the line '# hammerline: tidy ...', or mend the header");
    hl__at(&bad, sheet->name, sheet->header_end, 1);
    return hl__sheet_complain(sheet, &bad, err);
}

/* ---- the steps -------------------------------------------------------------------------------------- */

/* Words that the general reader could take for another, by case, by dashes or by its reserved words. */
static bool has_clear_words(const hl_step *step)
{
    char id[HL_ID_MOST];
    for (int i = 0; i < step->n_words; i++) {
        if (!hl__sheet_id(id, step->words[i].word, strlen(step->words[i].word)) ||
            strcmp(id, step->words[i].word) != 0 || strcmp(id, "ok") == 0 || strcmp(id, "void") == 0 ||
            strcmp(id, "skip") == 0) {
            return false;
        }
        for (int k = 0; k < i; k++) {
            if (strcmp(step->words[k].word, step->words[i].word) == 0) {
                return false;
            }
        }
    }
    return true;
}

static bool is_read_at(const hl_step *step, hl_compass compass, int note)
{
    if (step->kind == HL_DERIVED) {
        return false;
    }
    if (note == 0 || step->scope == HL_ONCE) {
        return (note == 0) == (step->scope == HL_ONCE);
    }
    return hl__step_at_pitch(step, hl_note_pitch(compass, note));
}

static void lay_places(hl_form *form, int index)
{
    const hl_step *step = &form->book->steps[index];
    for (int note = 0; note < HL_NOTES; note++) {
        const int place = hl__place(index, note);
        form->low[place] = INT64_MIN;
        form->high[place] = INT64_MAX;
        form->closed[place] = HL_STATE_CLOSED;
        if (note > form->compass.keys) {
            continue;
        }
        form->closed[place] = is_read_at(step, form->compass, note) ? HL_STATE_UNREAD : HL_STATE_CLOSED;
        if (step->kind == HL_JUDGED || step->targets == NULL) {
            continue;
        }
        const hl_target *target = hl__book_target(
            form->book, index, note == 0 || step->scope == HL_ONCE ? -1 : hl_note_pitch(form->compass, note));
        form->targets[place] = target;
        form->aim[place] = target->aim;
        form->low[place] = target->has_low ? target->low : INT64_MIN;
        form->high[place] = target->has_high ? target->high : INT64_MAX;
    }
}

static bool lay_steps(hl_form *form, hl_arena *arena)
{
    const size_t n = (size_t)form->book->n_steps + 1, places = n * HL_NOTES;
    form->closed = hl__arena_array(arena, n, HL_NOTES);
    form->targets = hl__arena_array(arena, places, sizeof(hl_target *));
    form->aim = hl__arena_array(arena, places, sizeof *form->aim);
    form->low = hl__arena_array(arena, places, sizeof *form->low);
    form->high = hl__arena_array(arena, places, sizeof *form->high);
    form->scales = hl__arena_array(arena, n, sizeof *form->scales);
    form->units = hl__arena_array(arena, n, sizeof *form->units);
    form->is_number = hl__arena_array(arena, n, sizeof *form->is_number);
    form->clear_words = hl__arena_array(arena, n, sizeof *form->clear_words);
    form->ids = hl__arena_array(arena, n, sizeof *form->ids);
    form->follows = hl__arena_array(arena, n, sizeof *form->follows);
    form->column_of = hl__arena_array(arena, n, sizeof *form->column_of);
    if (!form->closed || !form->targets || !form->low || !form->aim || !form->high || !form->scales ||
        !form->units || !form->is_number || !form->clear_words || !form->ids || !form->follows ||
        !form->column_of) {
        return false;
    }
    for (int i = 0; i < form->book->n_steps; i++) {
        const hl_step *step = &form->book->steps[i];
        hl__key_make(&form->ids[i], step->id);
        form->units[i] = step->unit;
        form->clear_words[i] = step->kind == HL_JUDGED && has_clear_words(step);
        form->column_of[i] = -1;
        lay_places(form, i);
    }
    for (int note = 1; note <= form->compass.keys; note++) {
        hl__key_make(&form->names[note], hl_pitch_name(hl_note_pitch(form->compass, note)));
    }
    return true;
}

/* What the loops over usual rows need: the sheet stands in front of the note, and the note in front of the
 * readings, so that these can be kept as they come. */
static void lay_usual(hl_form *form)
{
    const int sheet = form->at[HL_HEAD_SHEET], note = form->at[HL_HEAD_NOTE];
    bool usual = note >= 0 && sheet <= 0 && form->n_columns > 1;
    for (int i = 0; i < form->n_columns; i++) {
        hl_column *column = &form->columns[i];
        if (column->kind == HL_COLUMN_READING && column->step >= 0) {
            form->units[column->step] = column->unit;
            usual = usual && i > note;
        }
        usual = usual && column->kind != HL_COLUMN_BAD;
    }
    for (int i = 0; i < form->book->n_steps; i++) {
        form->scales[i] = hl__unit_scale(form->units[i]);
        form->is_number[i] = form->book->steps[i].kind == HL_MEASURED && form->scales[i] == HL_ONE;
    }
    for (int i = 0; i < form->n_columns; i++) {
        hl_column *column = &form->columns[i];
        if (column->step >= 0) {
            column->first = hl__place(column->step, 0);
            column->number = form->is_number[column->step];
        }
    }
    form->many = sheet == 0;
    form->usual = usual;
    form->straight = form->tidy && form->n_columns == form->many + 3 &&
                     form->at[HL_HEAD_NOTE] == form->many && form->at[HL_HEAD_STEP] == form->many + 1 &&
                     form->at[HL_HEAD_READING] == form->many + 2;
}

static hl_code read_heads(hl_sheet *sheet, hl_form *form, const hl_csv *csv, bool *none, hl_err *err)
{
    hl_err bad = {0};
    *none = true;
    if (form->tidy) {
        if (read_tidy_heads(sheet, form, csv->cells, form->n_columns, &bad) != HL_OK) {
            hl__at(&bad, sheet->name, sheet->header_end, bad.column);
            return hl__sheet_complain(sheet, &bad, err);
        }
        *none = false;
        return HL_OK;
    }
    if (!names_note(csv, form->n_columns)) {
        return refuse_no_note(sheet, err);
    }
    if (sheet->version > 0) {
        return refuse_version(sheet, err);
    }
    *none = false;
    return read_wide_heads(sheet, form, csv, err);
}

hl_code hl__form_make(hl_sheet *sheet, hl_err *err)
{
    hl_form *form = hl__arena_take(&sheet->arena, sizeof *form);
    if (form != NULL) {
        *form = (hl_form){.book = sheet->book, .compass = sheet->compass, .separator = sheet->separator};
        for (int head = 0; head < HL_HEADS; head++) {
            form->at[head] = -1;
        }
    }
    if (form == NULL || !lay_steps(form, &sheet->arena)) {
        return hl__no_memory(err);
    }
    sheet->form = form;
    return HL_OK;
}

hl_code hl__form_heads(hl_sheet *sheet, hl_csv *csv, int n, bool *none, hl_err *err)
{
    hl_form *form = sheet->form;
    sheet->tidy = form->tidy = is_tidy(csv, n);
    while (n > 0 && csv->cells[n - 1].size == 0) {
        n--;
    }
    form->n_columns = n;
    form->columns = hl__arena_array(&sheet->arena, (size_t)n + 1, sizeof *form->columns);
    if (form->columns == NULL) {
        return hl__no_memory(err);
    }
    hl_code code = read_heads(sheet, form, csv, none, err);
    if (code == HL_OK && !*none) {
        lay_usual(form);
    }
    return code;
}
