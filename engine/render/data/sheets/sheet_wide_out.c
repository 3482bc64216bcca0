/* sheet_wide_out.c - a sheet as a wide one: a row a note, a column a step, the latest reading of each
 * (layer: render/data).
 *
 * What has no place in such a sheet is counted by sheet_lost.c. */
#include "sheet_lost.h"

#include <stdlib.h>
#include <string.h>

/* ---- columns --------------------------------------------------------------------------------- */

static void choose_columns(hl_widening *of)
{
    const hl_sheet *sheet = of->sheet;
    for (int step = 0; step < sheet->book->n_steps; step++) {
        of->shown[step] = hl__out_column(&sheet->book->steps[step]);
        for (int note = 0; note <= sheet->compass.keys; note++)
            of->shown[step] = of->shown[step] || hl__widening_event(of, step, note) >= 0;
    }
}

/* Does the reading carry the other unit?  Nothing is nothing in both. */
static bool is_in_other(const hl_widening *of, long at, hl_unit other)
{
    hl_unit given = HL_NO_UNIT;
    hl_number number;
    hl_err bad;
    size_t used = 0;
    const char *text = of->readings[at];
    if (hl__number_read(&number, text, strlen(text), &used, &bad) != HL_OK)
        return false;
    return of->sheet->events[at].amount == 0 ||
           (hl__unit_parse(&given, text + used, strlen(text + used)) && given == other);
}

/* Where every number of a column was typed in the other unit, the head says so once. */
static void choose_unit(hl_widening *of, int step)
{
    const hl_sheet *sheet = of->sheet;
    const hl_unit other = hl__written_other_unit(&sheet->book->steps[step]);
    bool any = false;
    of->units[step] = sheet->book->steps[step].unit;
    for (int note = 0; note <= sheet->compass.keys; note++) {
        const long at = hl__widening_event(of, step, note);
        if (at < 0 || sheet->events[at].kind != HL_EVENT_VALUE)
            continue;
        if (!is_in_other(of, at, other))
            return;
        any = any || sheet->events[at].amount != 0;
    }
    if (any)
        of->units[step] = other;
}

static void add_heads(hl_text *out, const hl_widening *of)
{
    hl__text_add(out, "note");
    for (int i = 0; i < of->sheet->book->n_steps; i++) {
        const hl_step *step = &of->sheet->book->steps[i];
        if (!of->shown[i])
            continue;
        hl__text_char(out, of->sheet->separator);
        hl__text_add(out, step->id);
        if (step->kind == HL_MEASURED && of->units[i] != HL_NO_UNIT)
            hl__text_printf(out, " [%s]", hl_unit_name(of->units[i]));
    }
    if (of->remarks) {
        hl__text_char(out, of->sheet->separator);
        hl__text_add(out, "remark");
    }
    hl__text_char(out, '\n');
}

/* ---- rows ------------------------------------------------------------------------------------ */

static void add_reading(hl_text *out, const hl_widening *of, int step, int note)
{
    const long at = hl__widening_event(of, step, note);
    hl_text cell = {0};
    if (at < 0)
        return;
    hl__written_say(&cell, of->sheet, &of->sheet->events[at], of->readings[at], of->units[step]);
    hl__out_cell(out, of->sheet->separator, cell.data ? cell.data : "");
    out->failed |= cell.failed;
    hl__text_free(&cell);
}

static void add_row(hl_text *out, const hl_widening *of, int note)
{
    if (note > 0)
        hl__text_add(out, hl_pitch_name(hl_note_pitch(of->sheet->compass, note)));
    for (int step = 0; step < of->sheet->book->n_steps; step++) {
        if (!of->shown[step])
            continue;
        hl__text_char(out, of->sheet->separator);
        add_reading(out, of, step, note);
    }
    if (of->remarks) {
        hl_text remark = {0};
        hl__text_char(out, of->sheet->separator);
        hl__widening_remark(&remark, of, note);
        hl__out_cell(out, of->sheet->separator, remark.data ? remark.data : "");
        out->failed |= remark.failed;
        hl__text_free(&remark);
    }
    hl__text_char(out, '\n');
}

static void add_sheet(hl_text *out, const hl_widening *of, const hl_written *written)
{
    hl__out_top(out, of->sheet, written, false);
    for (size_t i = 0; i < written->n_rows; i++)
        if (written->rows[i].line)
            hl__out_line(out, of->sheet->separator, written->rows[i].line);
    add_heads(out, of);
    for (int note = 0; note <= of->sheet->compass.keys; note++)
        add_row(out, of, note);
}

/* ---- the whole ------------------------------------------------------------------------------- */

/* The readings as they would be typed into a column of the step's own unit. */
static bool take_readings(hl_widening *of, hl_written *written)
{
    for (size_t i = 0; i < written->n_rows; i++) {
        const long at = written->rows[i].event;
        const hl_event *event = at < 0 ? NULL : &of->sheet->events[at];
        hl_text text = {0};
        if (!event || event->step < 0 || event->kind == HL_EVENT_ADJUSTMENT)
            continue;
        hl__written_say(&text, of->sheet, event, written->rows[i].cells[HL_TIDY_READING],
                        of->sheet->book->steps[event->step].unit);
        of->readings[at] = text.failed ? NULL : hl__arena_copy(&written->arena, text.data ? text.data : "");
        hl__text_free(&text);
        if (!of->readings[at])
            return false;
    }
    return true;
}

static bool has_remarks(const hl_widening *of)
{
    for (int note = 0; note <= of->sheet->compass.keys; note++)
        for (int step = 0; step < of->sheet->book->n_steps; step++) {
            const long at = hl__widening_event(of, step, note);
            if (at >= 0 && of->sheet->events[at].remark != 0)
                return true;
        }
    return false;
}

static hl_code prepare(hl_widening *of, hl_written *written, const hl_sheet *sheet, hl_err *err)
{
    hl_code code = hl__out_check(sheet, err);
    if (code == HL_OK)
        code = hl__written_read(written, sheet, err);
    if (code != HL_OK)
        return code;
    const size_t steps = (size_t)sheet->book->n_steps + 1;
    of->sheet = sheet;
    of->shown = hl__arena_array(&written->arena, steps, sizeof *of->shown);
    of->units = hl__arena_array(&written->arena, steps, sizeof *of->units);
    of->readings = hl__arena_array(&written->arena, sheet->n_events + 1, sizeof *of->readings);
    if (!of->shown || !of->units || !of->readings || !take_readings(of, written))
        return hl__no_memory(err);
    choose_columns(of);
    for (int step = 0; step < sheet->book->n_steps; step++)
        choose_unit(of, step);
    of->remarks = has_remarks(of);
    return HL_OK;
}

hl_code hl_sheet_as_wide(char **out, size_t *size, const hl_sheet *sheet, char **lost, hl_err *err)
{
    hl_written written = {0};
    hl_widening of = {.sheet = NULL};
    hl_text text = {0}, sentences = {0};
    *out = *lost = NULL;
    hl_code code = prepare(&of, &written, sheet, err);
    if (code == HL_OK) {
        add_sheet(&text, &of, &written);
        hl__widening_lost(&sentences, &of, &written);
        code = hl__text_take(&sentences, lost, NULL, err);
    }
    if (code == HL_OK)
        code = hl__text_take(&text, out, size, err);
    if (code != HL_OK) {
        free(*lost);
        *lost = NULL;
    }
    hl__text_free(&text);
    hl__written_free(&written);
    return code;
}
