/* fast_form.c - how a plain sheet's rows are to be read (layer: sheet). */
#include "fast_rows.h"

#include <string.h>

static bool is_read_here(const hl_step *step, hl_compass compass, int note)
{
    if (step->kind == HL_DERIVED) {
        return false;
    }
    if (note == 0 || step->scope == HL_ONCE) {
        return (note == 0) == (step->scope == HL_ONCE);
    }
    return hl__step_at_pitch(step, hl_note_pitch(compass, note));
}

/* Words of a judged step that the careful reader could take for another: then it reads them. */
static bool has_clear_words(const hl_step *step)
{
    char ids[2][HL_ID_MOST];
    for (int i = 0; i < step->n_words; i++) {
        if (!hl__sheet_id(ids[0], step->words[i].word, strlen(step->words[i].word)) ||
            strcmp(ids[0], step->words[i].word) != 0 || strcmp(ids[0], "ok") == 0 ||
            strcmp(ids[0], "void") == 0 || strcmp(ids[0], "skip") == 0) {
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

static bool make_steps(hl_fast_form *form, hl_arena *arena)
{
    size_t n = (size_t)form->book->n_steps;
    form->blank = hl__arena_array(arena, n + 1, HL_FLAT_NOTES);
    form->scales = hl__arena_array(arena, n + 1, sizeof *form->scales);
    form->is_number = hl__arena_array(arena, n + 1, sizeof *form->is_number);
    form->units = hl__arena_array(arena, n + 1, sizeof *form->units);
    form->ids = hl__arena_array(arena, n + 1, sizeof *form->ids);
    form->follows = hl__arena_array(arena, n + 1, sizeof *form->follows);
    if (form->blank == NULL || form->scales == NULL || form->units == NULL || form->is_number == NULL ||
        form->ids == NULL || form->follows == NULL) {
        return false;
    }
    for (int i = 0; i < form->book->n_steps; i++) {
        const hl_step *step = &form->book->steps[i];
        size_t size = strlen(step->id);
        if (size >= HL_ID_MOST || (step->kind == HL_JUDGED && !has_clear_words(step))) {
            return false;
        }
        hl__fast_key(&form->ids[i], step->id);
        form->scales[i] = hl__unit_scale(step->unit);
        form->units[i] = step->unit;
        form->is_number[i] = step->kind == HL_MEASURED && form->scales[i] == HL_ONE;
        for (int note = 0; note <= form->compass.keys; note++) {
            form->blank[i * HL_FLAT_NOTES + note] =
                is_read_here(step, form->compass, note) ? HL_FLAT_FREE : HL_FLAT_CLOSED;
        }
    }
    return true;
}

static hl_fast_kind find_kind(hl_fast_form *form, const hl_cell_column *column)
{
    static const hl_fast_kind KINDS[] = {
        [HL_CELL_NOTHING] = HL_FAST_NOTHING, [HL_CELL_SHEET] = HL_FAST_SHEET, [HL_CELL_NOTE] = HL_FAST_NOTE,
        [HL_CELL_READING] = HL_FAST_NUMBER,  [HL_CELL_STEP] = HL_FAST_STEP,   [HL_CELL_TEXT] = HL_FAST_TEXT,
    };
    if (column->kind != HL_CELL_READING || column->step < 0) {
        return KINDS[column->kind];
    }
    form->scales[column->step] = hl__unit_scale(column->unit);
    form->units[column->step] = column->unit;
    if (form->book->steps[column->step].kind == HL_JUDGED) {
        return HL_FAST_WORDS;
    }
    return form->scales[column->step] == HL_ONE ? HL_FAST_NUMBER : HL_FAST_UNIT;
}

/* The note stands in front of the readings: then they can be kept as they come; and the sheet in front of
 * all. */
static bool lay_cells(hl_fast_form *form, const hl_cell_column *columns)
{
    int notes = 0, sheets = 0;
    for (int i = 0; i < form->n_cells; i++) {
        form->cells[i] =
            (hl_fast_cell){find_kind(form, &columns[i]), columns[i].step, columns[i].step * HL_FLAT_NOTES};
        notes += form->cells[i].kind == HL_FAST_NOTE;
        sheets += form->cells[i].kind == HL_FAST_SHEET;
        if (!form->tidy && form->cells[i].kind <= HL_FAST_WORDS && notes == 0) {
            return false;
        }
    }
    const hl_fast_cell *first = form->cells + sheets;
    form->many = sheets == 1;
    form->straight = form->tidy && form->n_cells == sheets + 3 && first[0].kind == HL_FAST_NOTE &&
                     first[1].kind == HL_FAST_STEP && first[2].kind == HL_FAST_NUMBER;
    return notes == 1 && sheets <= 1 && (sheets == 0 || form->cells[0].kind == HL_FAST_SHEET);
}

static bool read_columns(hl_fast_form *form, hl_arena *arena, hl_sheet *head)
{
    hl_csv csv;
    hl_err err;
    int n = 0, line = 0;
    hl_cell_column columns[HL_CELLS_MOST];
    form->cells = hl__arena_array(arena, HL_CELLS_MOST, sizeof *form->cells);
    if (form->cells == NULL ||
        hl__csv_start(&csv, head->name, head->bytes, head->size, head->separator, &err) != HL_OK) {
        return false;
    }
    csv.one_line = true;
    csv.at = head->bytes + head->head_at;
    csv.line = head->header_end;
    bool good = hl__csv_row(&csv, &n, &line, &err) == HL_OK && n > 1;
    if (good) {
        form->tidy = head->tidy = hl__sheet_is_tidy(&csv, n);
        good = form->tidy ? hl__sheet_tidy_columns(head, &csv, &n, columns)
                          : hl__sheet_wide_columns(head, &csv, &n, columns);
    }
    hl__csv_end(&csv);
    form->n_cells = n;
    return good && lay_cells(form, columns);
}

bool hl__fast_form(hl_fast_form *out, hl_arena *arena, hl_sheet *head)
{
    *out = (hl_fast_form){.book = head->book, .compass = head->compass, .separator = head->separator};
    for (int note = 1; note <= out->compass.keys; note++) {
        hl__fast_key(&out->names[note], hl_pitch_name(hl_note_pitch(out->compass, note)));
    }
    return head->n_errors == 0 && make_steps(out, arena) && read_columns(out, arena, head);
}
