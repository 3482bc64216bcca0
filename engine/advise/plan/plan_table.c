/* plan_table.c - how the steps would stand, before and after the moves (layer: advise/plan). */
#include "plan.h"

#include "verdict.h"

#include <math.h>
#include <string.h>

static bool is_judged_number(const hl_standing *s)
{
    return s->has_value && !s->go && (s->verdict == HL_PASS || s->verdict == HL_FAIL);
}

static void judge_cell(const hl_planner *planner, int step, int note)
{
    hl_standing *s = hl__table_at(&planner->table, step, note);
    if (!is_judged_number(s))
        return;
    hl_ruling ruling = hl__verdict_value(hl__table_target(&planner->table, step, note), s->value);
    s->verdict = ruling.verdict;
    s->why = ruling.why;
    s->floated = false;
}

void hl__plan_rejudge(hl_planner *planner)
{
    const hl_table *table = &planner->table;
    for (int step = 0; step < planner->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++)
            if (hl__table_holds(table, step, note))
                judge_cell(planner, step, note);
    memset(planner->tallies, 0, (size_t)planner->book->n_steps * sizeof *planner->tallies);
    hl__audit_neighbours(&planner->table, planner->tallies);
}

/* ---- what is derived --------------------------------------------------------------------- */

static void set_derived(const hl_planner *planner, int step, int note, double value)
{
    hl_standing *s = hl__table_at(&planner->table, step, note);
    s->exact = value;
    if (s->verdict == HL_NOT_APPLICABLE)
        return;
    s->has_value = hl__table_round(&planner->table, step, value, &s->value);
    if (!s->has_value)
        s->verdict = HL_STALE;
    else if (s->verdict != HL_PASS && s->verdict != HL_FAIL)
        s->verdict = HL_PASS;
    judge_cell(planner, step, note);
}

void hl__plan_derive(hl_planner *planner, int note)
{
    const hl_table *table = &planner->table;
    hl__table_values(table, note, table->values);
    for (int k = 0; k < planner->book->n_order; k++) {
        const int i = planner->book->order[k];
        bool assumed = false;
        if (planner->book->steps[i].kind != HL_DERIVED || !hl__table_holds(table, i, note) ||
            !hl__table_at(table, i, note)->computed)
            continue;
        double value =
            hl__step_formula_value(planner->book, planner->sheet, i, note, table->values, &assumed);
        if (value == table->values[i] || (isnan(value) && isnan(table->values[i])))
            continue;
        table->values[i] = value;
        set_derived(planner, i, note, value);
    }
}

/* ---- before the plan --------------------------------------------------------------------- */

/* A reading that known work has moved stands where it is expected now; one moved by an unknown
 * amount stands nowhere. */
static void settle_cell(const hl_planner *planner, int step, int note)
{
    hl_standing *s = hl__table_at(&planner->table, step, note);
    if (s->verdict != HL_STALE || planner->book->steps[step].kind == HL_DERIVED)
        return;
    if (s->strong || !s->has_value || s->go) {
        s->exact = NAN;
        s->has_value = false;
        return;
    }
    s->exact += s->moved;
    s->moved = 0;
    s->has_value = hl__table_round(&planner->table, step, s->exact, &s->value);
    if (s->has_value)
        s->verdict = HL_PASS; /* judged in a moment */
    else
        s->exact = NAN;
}

bool hl__plan_settle(hl_planner *planner)
{
    size_t n_steps = (size_t)planner->book->n_steps;
    size_t n = n_steps * ((size_t)planner->audit->table.keys + 1);
    hl_table *table = &planner->table;
    if (!hl__table_start(table, planner->sheet, planner->book, &planner->plan->arena))
        return false;
    table->sampled = planner->audit->table.sampled;
    table->factors = planner->audit->table.factors;
    planner->settled = hl__arena_array(&planner->plan->arena, n + 1, sizeof *planner->settled);
    planner->tallies = hl__arena_array(&planner->plan->arena, n_steps + 1, sizeof *planner->tallies);
    if (!planner->settled || !planner->tallies)
        return false;
    memcpy(table->standings, planner->audit->table.standings, n * sizeof *table->standings);
    for (int note = 0; note <= table->keys; note++) {
        for (int step = 0; step < planner->book->n_steps; step++)
            if (hl__table_holds(table, step, note))
                settle_cell(planner, step, note);
        hl__plan_derive(planner, note);
    }
    hl__plan_rejudge(planner);
    memcpy(planner->settled, table->standings, n * sizeof *table->standings);
    return true;
}

/* ---- the moves laid over it -------------------------------------------------------------- */

void hl__plan_restore(hl_planner *planner, int note)
{
    const size_t n = (size_t)planner->book->n_steps, at = (size_t)note * n;
    memcpy(planner->table.standings + at, planner->settled + at, n * sizeof *planner->settled);
}

void hl__plan_lay(hl_planner *planner, int step, int note, hl_amount predicted)
{
    hl_standing *s = hl__table_at(&planner->table, step, note);
    double exact = (double)predicted / (double)HL_ONE;
    hl_amount rounded = 0;
    if (!hl__table_round(&planner->table, step, exact, &rounded))
        return;
    s->exact = exact;
    s->value = rounded;
    judge_cell(planner, step, note);
}
