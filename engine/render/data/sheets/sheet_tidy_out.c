/* sheet_tidy_out.c - a sheet as a tidy one: a row a reading, in the order of the sheet (layer: render/data).
 *
 * Of a tidy sheet every row is kept, history and all; a wide one gets a row for each filled cell, and
 * the remark of its row on each of them.  Rows with marks are written cell by cell as they were saved, so
 * that their marks still fit; rows without stay without, and what is saved from here on has marks. */
#include "sheet_out.h"

#include "sheet_parts.h"

#include <string.h>

static void end_row(hl_text *out, const hl_sheet *sheet, const char *const *cells)
{
    for (int i = 0; i < HL_TIDY_COLUMNS; i++) {
        if (i > 0)
            hl__text_char(out, sheet->separator);
        hl__out_cell(out, sheet->separator, cells[i]);
    }
    hl__text_char(out, '\n');
}

/* The step cell of a row, with the name that the step has now. */
static const char *name_step(const hl_sheet *sheet, const char *written)
{
    char id[HL_ID_MOST];
    const char *is = hl__sheet_id(id, written, strlen(written)) ? hl__book_new_name(sheet->book, id) : NULL;
    return is ? is : written;
}

/* "travel_ratio = 5.2" by the name that the fact has now; nothing when it was written so. */
static void say_renamed_fact(hl_text *out, const hl_sheet *sheet, int line)
{
    for (size_t i = 0; i < sheet->n_facts; i++) {
        const hl_stated_fact *fact = &sheet->facts[i];
        if (fact->line == line && fact->renamed)
            hl__text_printf(out, "%s%s = %s", fact->id, hl__out_colours[fact->colour], fact->value);
    }
}

static void add_row(hl_text *out, const hl_sheet *sheet, const hl_written_row *row)
{
    hl_text reading = {0};
    const char *cells[HL_TIDY_COLUMNS];
    for (int i = 0; i < HL_TIDY_COLUMNS; i++)
        cells[i] = row->cells[i];
    const hl_event *event = row->event < 0 ? NULL : &sheet->events[row->event];
    if (cells[HL_TIDY_ENTRY][0]) {
        end_row(out, sheet, cells);
        return;
    }
    cells[HL_TIDY_STEP] = name_step(sheet, cells[HL_TIDY_STEP]);
    if (event && event->kind == HL_EVENT_FACT) {
        say_renamed_fact(&reading, sheet, event->line);
        cells[HL_TIDY_READING] = reading.data ? reading.data : row->cells[HL_TIDY_READING];
    }
    if (event && event->note > 0)
        cells[HL_TIDY_NOTE] = hl_pitch_name(hl_note_pitch(sheet->compass, event->note));
    if (event && !sheet->tidy) {
        if (event->kind == HL_EVENT_VOID)
            return; /* in a wide sheet there was nothing to withdraw */
        hl__written_say(&reading, sheet, event, row->cells[HL_TIDY_READING],
                        sheet->book->steps[event->step].unit);
        cells[HL_TIDY_READING] = reading.data ? reading.data : "";
    }
    end_row(out, sheet, cells);
    out->failed |= reading.failed;
    hl__text_free(&reading);
}

hl_code hl_sheet_as_tidy(char **out, size_t *size, const hl_sheet *sheet, hl_err *err)
{
    static const char *const heads[] = {"note", "step", "reading", "time", "by", "method", "remark", "entry"};
    hl_written written = {0};
    hl_text text = {0};
    *out = NULL;
    hl_code code = hl__out_check(sheet, err);
    if (code == HL_OK)
        code = hl__written_read(&written, sheet, err);
    if (code == HL_OK) {
        hl__out_top(&text, sheet, &written, true);
        end_row(&text, sheet, heads);
        for (size_t i = 0; i < written.n_rows; i++) {
            if (written.rows[i].line)
                hl__out_line(&text, sheet->separator, written.rows[i].line);
            else
                add_row(&text, sheet, &written.rows[i]);
        }
        code = hl__text_take(&text, out, size, err);
    }
    hl__written_free(&written);
    return code;
}

bool hl_sheet_is_tidy(const hl_sheet *sheet)
{
    return sheet->tidy;
}
