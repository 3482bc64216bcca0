/* history_text.c - one note's readings, pass beside pass, and the adjustments between (layer: render/text).
 *
 * Collects what there is; history_table.c lays it out. */
#include "history.h"

#include "event_words.h"
#include "sentence.h"
#include "wrap.h"

/* ---- the page ----------------------------------------------------------------------------------- */

static void add_place(hl_text *out, const hl_history *of)
{
    if (of->note == 0)
        hl__text_add(out, "The whole piano");
    else
        hl__text_printf(out, "%s (note %d)", hl_pitch_name(hl_note_pitch(of->sheet->compass, of->note)),
                        of->note);
}

static void end_paragraph(hl_text *out, hl_text *line, int width, int first, int hang)
{
    hl__wrap(out, line->data ? line->data : "", width, first, hang);
    out->failed |= line->failed;
    hl__text_free(line);
}

static void add_headline(hl_text *out, const hl_history *of)
{
    hl_text line = {0};
    add_place(&line, of);
    if (of->step >= 0) {
        hl__text_add(&line, ", ");
        hl__text_safe(&line, of->sheet->book->steps[of->step].title);
    }
    if (of->n_passes == 0)
        hl__text_add(&line, ": nothing was read here.");
    else if (of->n_passes == 1)
        hl__text_add(&line, ": readings of one pass only, so nothing to compare yet.");
    else
        hl__text_printf(&line, ": %d passes side by side.", of->n_passes);
    if (of->n_passes < 2 && !of->sheet->tidy)
        hl__text_add(&line, " A wide sheet keeps the latest readings only; a tidy one keeps all.");
    end_paragraph(out, &line, of->width, 0, 2);
}

static void add_notes(hl_text *out, const hl_history *of)
{
    hl_text line = {0};
    if (of->several || of->others)
        hl__text_char(out, '\n');
    if (of->several) {
        hl__text_add(&line, "(2), (3): read so often in that pass; the last reading is shown.");
        end_paragraph(out, &line, of->width, 0, 2);
    }
    if (of->others) {
        hl__text_add(
            &line,
            "*: taken by another method or gauge than the step's last reading, so not compared with it.");
        end_paragraph(out, &line, of->width, 0, 2);
    }
}

static bool concerns(const hl_history *of, int adjuster)
{
    for (int i = 0; i < of->n_steps; i++)
        if (hl__history_moves(of->sheet->book, adjuster, of->steps[i]))
            return true;
    return of->step < 0;
}

static void add_work(hl_text *out, const hl_history *of, const hl_event *event)
{
    hl_text line = {0};
    hl__history_pass(&line, of->sheet, event->pass);
    if (event->time != 0) {
        hl__text_add(&line, ", ");
        hl__text_safe(&line, hl__text_at(of->sheet, event->time));
    }
    hl__text_printf(&line, " (line%c%d): ", HL_GLUE, event->line);
    hl__say_adjustment(&line, of->sheet, event);
    if (event->note == 0)
        hl__text_add(&line, ", for the whole piano");
    if (event->remark != 0) {
        hl__text_add(&line, "; ");
        hl__text_safe(&line, hl__text_at(of->sheet, event->remark));
    }
    end_paragraph(out, &line, of->width, 2, 4);
}

static void add_works(hl_text *out, const hl_history *of)
{
    bool any = false;
    for (size_t i = 0; i < of->sheet->n_events; i++) {
        const hl_event *event = &of->sheet->events[i];
        if (!hl__history_is_work(of, event) || !concerns(of, event->step))
            continue;
        if (!any)
            hl__text_add(out, "\nAdjustments\n");
        any = true;
        add_work(out, of, event);
    }
}

hl_code hl_history_text(char **out, size_t *size, const hl_sheet *sheet, int note, int step,
                        const hl_print *print, hl_err *err)
{
    hl_text text = {0};
    hl_history of = {
        .sheet = sheet, .note = note, .step = step, .width = print->width > 0 ? print->width : 80};
    *out = NULL;
    if (!sheet->read || note < 0 || note > sheet->compass.keys || step >= sheet->book->n_steps)
        return hl__fail(err, HL_E_USAGE, "there is no such note or step in the sheet");
    if (hl__history_collect(&of)) {
        add_headline(&text, &of);
        if (of.n_passes > 0) {
            hl__history_table(&text, &of);
            add_notes(&text, &of);
        }
        add_works(&text, &of);
    } else {
        text.failed = true;
    }
    text.failed |= of.failed;
    hl__arena_free(&of.arena);
    return hl__text_take(&text, out, size, err);
}
