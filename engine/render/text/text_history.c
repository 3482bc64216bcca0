/* text_history.c - one note's readings, pass beside pass, and the adjustments between (layer: render/text).
 *
 * Collects what there is; history_table.c lays it out. */
#include "history.h"

#include "formula.h"
#include "sentence.h"
#include "wrap.h"

#define DEEPEST 8 /* derived steps of derived steps */

const hl_history_cell *hl__history_cell(const hl_history *of, int row, int column)
{
    return &of->cells[row * of->n_passes + column];
}

bool hl__history_is_work(const hl_history *of, const hl_event *event)
{
    return event->kind == HL_EVENT_ADJUSTMENT && !event->withdrawn &&
           (event->note == of->note || event->note == 0);
}

static bool moves(const hl_book *book, int adjuster, int step, int depth)
{
    const hl_adjuster *by = &book->adjusters[adjuster];
    const hl_formula *formula = book->steps[step].formula;
    for (int i = 0; i < by->n_moves; i++)
        if (by->moves[i].step == step && by->moves[i].kind != HL_MOVE_SLIGHT)
            return true;
    for (int i = 0; formula && depth < DEEPEST && i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && moves(book, adjuster, formula->vars[i].index, depth + 1))
            return true;
    return false;
}

bool hl__history_moves(const hl_book *book, int adjuster, int step)
{
    return moves(book, adjuster, step, 0);
}

/* ---- what there is ---------------------------------------------------------------------------- */

static bool is_shown(const hl_history *of, const hl_event *event)
{
    const bool reading = event->kind <= HL_EVENT_UNDER || event->kind == HL_EVENT_SKIP;
    return reading && !event->withdrawn && event->note == of->note &&
           (of->step < 0 || event->step == of->step);
}

/* The numbers i of 0 ... n - 1 that are marked, into *list. */
static int list_marked(hl_arena *arena, const bool *marked, int n, int **list)
{
    int count = 0;
    *list = hl__arena_array(arena, (size_t)n + 1, sizeof **list);
    for (int i = 0; *list && i < n; i++)
        if (marked[i])
            (*list)[count++] = i;
    return count;
}

static int find_in(const int *list, int n, int item)
{
    for (int i = 0; i < n; i++)
        if (list[i] == item)
            return i;
    return -1;
}

static bool collect(hl_history *of)
{
    const hl_sheet *sheet = of->sheet;
    bool *passes = hl__arena_array(&of->arena, (size_t)sheet->n_passes + 1, sizeof *passes);
    bool *steps = hl__arena_array(&of->arena, (size_t)sheet->book->n_steps + 1, sizeof *steps);
    if (!passes || !steps)
        return false;
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (is_shown(of, event))
            passes[event->pass] = steps[event->step] = true;
    }
    of->n_passes = list_marked(&of->arena, passes, sheet->n_passes, &of->passes);
    of->n_steps = list_marked(&of->arena, steps, sheet->book->n_steps, &of->steps);
    const size_t n = (size_t)of->n_passes * (size_t)of->n_steps;
    of->cells = hl__arena_array(&of->arena, n + 1, sizeof *of->cells);
    if (!of->passes || !of->steps || !of->cells)
        return false;
    for (size_t i = 0; i < n; i++)
        of->cells[i].last = -1;
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (!is_shown(of, event))
            continue;
        const int row = find_in(of->steps, of->n_steps, event->step);
        hl_history_cell *cell =
            &of->cells[row * of->n_passes + find_in(of->passes, of->n_passes, event->pass)];
        cell->last = (long)i;
        cell->count++;
        of->several = of->several || cell->count > 1;
    }
    return true;
}

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

/* "raise the capstan 1/4 turn"; without an amount or a way what is known. */
static void add_act(hl_text *out, const hl_adjuster *adjuster, const hl_event *event)
{
    if (event->no_amount && event->word == 0) {
        hl__text_safe(out, adjuster->title);
        hl__text_add(out, " adjusted, not said how far");
        return;
    }
    const bool more = event->no_amount ? event->word > 0 : event->amount >= 0;
    const hl_correction done = {.more = more,
                                .has_amount = !event->no_amount,
                                .amount = event->amount < 0 ? -event->amount : event->amount};
    if (adjuster->n_sizes == 0 || event->no_amount) {
        hl__say_act(out, adjuster, &done);
        return;
    }
    /* Which pieces made it up was not written down; how thick they were was. */
    hl__text_safe(out, more ? adjuster->more : adjuster->less);
    hl__text_char(out, ' ');
    hl__say_size(out, done.amount, adjuster->unit);
    hl__text_add(out, " of ");
    hl__text_safe(out, adjuster->title);
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
    if (event->time[0]) {
        hl__text_add(&line, ", ");
        hl__text_safe(&line, event->time);
    }
    hl__text_printf(&line, " (line%c%d): ", HL_GLUE, event->line);
    add_act(&line, &of->sheet->book->adjusters[event->step], event);
    if (event->note == 0)
        hl__text_add(&line, ", for the whole piano");
    if (event->remark[0]) {
        hl__text_add(&line, "; ");
        hl__text_safe(&line, event->remark);
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
    if (collect(&of)) {
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
