/* history_cells.c - what each pass of a note holds (layer: render/text). */
#include "history.h"

#include "formula.h"

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

bool hl__history_collect(hl_history *of)
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
