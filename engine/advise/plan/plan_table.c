/* plan_table.c - how the steps would stand, before and after the moves (layer: advise/plan). */
#include "plan.h"

#include "evenness.h"
#include "step_formula.h"

#include <math.h>
#include <string.h>

/* Judge a number by its limits, as if nothing had been compared yet. */
static void judge_place(hl_table *table, int step, int place)
{
    if (hl__state_is_number((hl_state)table->states[place]) && table->book->steps[step].kind != HL_JUDGED)
        table->states[place] = (unsigned char)hl__table_by_limits(table, place, table->values[place]);
}

void hl__plan_rejudge(hl_planner *planner)
{
    hl_table *table = &planner->table;
    for (int step = 0; step < planner->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++)
            if (hl__table_holds(table, step, note))
                judge_place(table, step, hl__place(step, note));
    hl__table_count(table);
    hl__even_mark(table);
}

/* ---- what is derived --------------------------------------------------------------------- */

static void set_derived(hl_table *table, int step, int note, double value)
{
    const int place = hl__place(step, note);
    table->exact[place] = value;
    if (hl__meanings[table->states[place]].verdict == HL_NOT_APPLICABLE)
        return;
    if (!hl__table_round(table, step, value, &table->values[place])) {
        table->states[place] = HL_STATE_LOST;
        return;
    }
    table->states[place] = HL_STATE_PASS;
    judge_place(table, step, place);
}

void hl__plan_derive(hl_planner *planner, int note)
{
    hl_table *table = &planner->table;
    hl__table_values(table, note, table->note_values);
    for (int k = 0; k < planner->book->n_order; k++) {
        const int i = planner->book->order[k];
        bool assumed = false;
        if (planner->book->steps[i].kind != HL_DERIVED || !hl__table_holds(table, i, note) ||
            !hl__table_at(table, i, note).computed)
            continue;
        double value =
            hl__step_formula_value(planner->book, planner->sheet, i, note, table->note_values, &assumed);
        if (value == table->note_values[i] || (isnan(value) && isnan(table->note_values[i])))
            continue;
        table->note_values[i] = value;
        set_derived(table, i, note, value);
    }
}

/* ---- before the plan --------------------------------------------------------------------- */

/* A reading that known work has moved is where it is expected now; of one moved by an unknown amount
 * nobody can say where it is. */
static void settle_place(hl_planner *planner, int step, int note)
{
    hl_table *table = &planner->table;
    const hl_table *judged = &planner->audit->table;
    const int place = hl__place(step, note);
    const hl_moved *moved = hl__table_moved(judged, step, note);
    const hl_standing s = hl__table_at(judged, step, note);
    if (table->states[place] != HL_STATE_STALE || planner->book->steps[step].kind == HL_DERIVED)
        return;
    table->exact[place] += moved->by;
    if (!moved->strong && s.has_value && !s.go &&
        hl__table_round(table, step, table->exact[place], &table->values[place])) {
        table->states[place] = HL_STATE_PASS; /* judged in a moment */
        return;
    }
    table->exact[place] = NAN;
    table->states[place] = HL_STATE_LOST;
}

/* A plan moves readings by less than a hand reads: they are all kept in base units. */
static void fill_exact(hl_planner *planner)
{
    const hl_table *judged = &planner->audit->table;
    hl_table *table = &planner->table;
    for (int step = 0; step < planner->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++)
            if (hl__table_holds(table, step, note))
                table->exact[hl__place(step, note)] = hl__table_exact(judged, step, note);
    table->all_exact = true;
}

static bool make_table(hl_table *table, const hl_table *judged, hl_arena *arena)
{
    if (!hl__table_make(table, judged->head, arena))
        return false;
    hl__table_copy(table, judged);
    table->moved = judged->moved;
    return true;
}

bool hl__plan_settle(hl_planner *planner)
{
    hl_arena *arena = &planner->plan->arena;
    hl_table *table = &planner->table;
    if (!make_table(table, &planner->audit->table, arena) ||
        !make_table(&planner->settled, &planner->audit->table, arena))
        return false;
    fill_exact(planner);
    for (int note = 0; note <= table->keys; note++) {
        for (int step = 0; step < planner->book->n_steps; step++)
            if (hl__table_holds(table, step, note))
                settle_place(planner, step, note);
        hl__plan_derive(planner, note);
    }
    hl__plan_rejudge(planner);
    hl__table_copy(&planner->settled, table);
    return true;
}

/* ---- the moves laid over it -------------------------------------------------------------- */

void hl__plan_restore(hl_planner *planner, int note)
{
    hl_table *table = &planner->table;
    const hl_table *settled = &planner->settled;
    for (int step = 0; step < planner->book->n_steps; step++) {
        const int place = hl__place(step, note);
        table->values[place] = settled->values[place];
        table->exact[place] = settled->exact[place];
        table->lean[place] = settled->lean[place];
        table->states[place] = settled->states[place];
    }
}

void hl__plan_lay(hl_planner *planner, int step, int note, hl_amount predicted)
{
    hl_table *table = &planner->table;
    const int place = hl__table_place(table, step, note);
    double exact = (double)predicted / (double)HL_ONE;
    hl_amount rounded = 0;
    if (!hl__table_round(table, step, exact, &rounded))
        return;
    table->exact[place] = exact;
    table->values[place] = rounded;
    judge_place(table, step, place);
}
