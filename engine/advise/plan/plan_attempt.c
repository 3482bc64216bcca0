/* plan_attempt.c - one question put to the solver: these readings, these adjusters (layer: advise/plan). */
#include "gauge_reading.h"
#include "plan.h"
#include "step_formula.h"

#include <math.h>

static bool moves_by(const hl_problem *problem, int adjuster, int step)
{
    return problem->effects[adjuster][step].kind == HL_EFFECT_BY;
}

/* Rows that only inform, and those that have no limits, steer nothing. */
static bool steers(const hl_problem *problem, const hl_plan_row *row)
{
    return !row->informed && !problem->deferred[row->step] && (row->limits.has_low || row->limits.has_high);
}

static bool is_named(const hl_planner *planner, const hl_plan_row *row, int adjuster)
{
    const hl_step *step = &planner->book->steps[row->step];
    for (int k = 0; k < step->n_fixes; k++)
        if (step->fixes[k] == adjuster)
            return true;
    return false;
}

/* A reading that nobody took, or that means nothing yet, may be right: it is not moved blind. */
static bool is_unread(const hl_problem *problem, const hl_planner *planner, int step)
{
    const hl_step *of = &planner->book->steps[step];
    return of->kind == HL_MEASURED && of->skipped == NULL && hl__problem_row(problem, step) == NULL &&
           hl__table_holds(&planner->table, step, problem->note) &&
           hl__sheet_applies(planner->sheet, of, problem->note);
}

/* Nobody buys blow with balance papers: what the book sets before the first fault, and passes or was not
 * read, is not moved for the sake of something else. */
static bool is_for_sale(const hl_problem *problem, const hl_planner *planner, int adjuster)
{
    int first = 0;
    while (first < problem->n_rows && !problem->rows[first].fails)
        if (moves_by(problem, adjuster, problem->rows[first++].step))
            return false;
    for (int step = 0; first < problem->n_rows && step < problem->rows[first].step; step++)
        if (moves_by(problem, adjuster, step) && is_unread(problem, planner, step))
            return false;
    return true;
}

/* Does the adjuster come in?  As a way out that the book names for a reading that fails or is moved,
 * or, when those are not enough, as anything that moves it. */
static bool is_wanted(const hl_problem *problem, const hl_planner *planner, int adjuster, bool all_movers)
{
    bool moves = false;
    for (int i = 0; i < problem->n_rows; i++) {
        const hl_plan_row *row = &problem->rows[i];
        if (!row->active || !moves_by(problem, adjuster, row->step))
            continue;
        if (is_named(planner, row, adjuster))
            return true;
        moves = true;
    }
    return all_movers && moves && is_for_sale(problem, planner, adjuster);
}

static void activate(const hl_problem *problem, int adjuster)
{
    for (int i = 0; i < problem->n_rows; i++)
        if (steers(problem, &problem->rows[i]) && moves_by(problem, adjuster, problem->rows[i].step))
            problem->rows[i].active = true;
}

/* All that hangs together with what fails, as far as the solver has room, in the book's order. */
static bool choose_columns(hl_attempt *out, const hl_problem *problem, hl_planner *planner)
{
    int n_adjusters = planner->book->n_adjusters, n = 0;
    bool *in = hl__arena_array(&planner->scratch, (size_t)n_adjusters + 1, sizeof *in);
    bool changed = in != NULL;
    for (int i = 0; i < problem->n_rows; i++)
        problem->rows[i].active = problem->rows[i].fails && steers(problem, &problem->rows[i]);
    while (changed) {
        changed = false;
        for (int a = 0; a < n_adjusters && n < HL_SOLVE_ADJUSTERS; a++) {
            if (in[a] || !problem->usable[a] || !is_wanted(problem, planner, a, out->ways.all_movers))
                continue;
            in[a] = changed = true;
            n++;
            activate(problem, a);
        }
    }
    for (int a = 0; in && a < n_adjusters; a++)
        if (in[a])
            out->adjusters[out->n_adjusters++] = a;
    return in != NULL;
}

/* ---- rows for the solver ----------------------------------------------------------------- */

static hl_amount find_size(hl_amount amount)
{
    return amount < 0 ? -amount : amount;
}

/* The yardstick of closeness: never finer than what the reading can tell. */
static hl_amount find_half(const hl_planner *planner, int index, const hl_target *limits)
{
    const hl_step *step = &planner->book->steps[index];
    hl_gauge_from from;
    const hl_amount gauge = hl__gauge_reading(planner->sheet, planner->book, index, &from);
    hl_amount half = 0;
    if (limits->has_low && limits->has_high)
        half = (limits->high - limits->low) / 2;
    else
        half = find_size(limits->aim - (limits->has_low ? limits->low : limits->high));
    half = half > gauge ? half : gauge;
    return half > step->resolution ? half : step->resolution;
}

static hl_solve_step make_row(const hl_plan_row *row, hl_amount half, const hl_target *limits)
{
    bool open = !limits->has_low || !limits->has_high;
    return (hl_solve_step){.reading = row->reading,
                           .low = limits->low,
                           .aim = limits->aim,
                           .high = limits->high,
                           .has_low = limits->has_low,
                           .has_high = limits->has_high,
                           /* on its open side a reading is as good as its aim */
                           .has_aim = !open || row->fails,
                           .half = half,
                           .keep = !row->fails};
}

/* Had the note the ratio that its facts say, a modelled reading would stand where the model has it. */
static bool put_model(const hl_planner *planner, const hl_problem *problem, int step, hl_amount *reading)
{
    const hl_step *of = &planner->book->steps[step];
    bool assumed = false;
    if (of->kind != HL_MEASURED || !of->formula)
        return true;
    hl__table_values(&planner->table, problem->note, planner->table.note_values);
    double value = hl__step_formula_value(planner->book, planner->sheet, step, problem->note,
                                          planner->table.note_values, &assumed);
    return hl__amount_from(value, reading);
}

static bool is_sound(const hl_solve_step *row)
{
    if (row->has_low && row->has_high && row->low > row->high)
        return false;
    return find_size(row->reading) <= HL_SOLVE_MOST_READ && find_size(row->aim) <= HL_SOLVE_MOST_READ &&
           (!row->has_low || find_size(row->low) <= HL_SOLVE_MOST_READ) &&
           (!row->has_high || find_size(row->high) <= HL_SOLVE_MOST_READ);
}

/* A row that can't be reckoned with is left out here, and told of as refused. */
static void fill_rows(hl_attempt *out, hl_solve_step *rows, const hl_problem *problem, hl_planner *planner)
{
    out->n_steps = 0;
    for (int i = 0; i < problem->n_rows; i++) {
        const hl_plan_row *row = &problem->rows[i];
        bool floats = out->ways.floats && row->step == planner->book->floats.step;
        if (!row->active || out->n_steps == HL_SOLVE_STEPS)
            continue;
        hl_target limits = hl__problem_limits(planner, problem, row, floats);
        hl_solve_step *made = &rows[out->n_steps];
        *made = make_row(row, find_half(planner, row->step, &limits), &limits);
        if (out->ways.by_model && !put_model(planner, problem, row->step, &made->reading))
            continue;
        if (is_sound(made))
            out->steps[out->n_steps++] = row->step;
    }
}

/* ---- columns ----------------------------------------------------------------------------- */

static bool fill_column(hl_attempt *out, int column, const hl_problem *problem, hl_planner *planner)
{
    int a = out->adjusters[column];
    hl_solve_adjuster *made = &out->columns[column];
    const hl_plan_moves *moves = &planner->moves[a];
    double *by = hl__arena_array(&planner->scratch, HL_SOLVE_STEPS, sizeof *by);
    double most = 0;
    if (!by)
        return false;
    for (int i = 0; i < out->n_steps; i++) {
        const hl_effect *effect = &problem->effects[a][out->steps[i]];
        by[i] = effect->kind == HL_EFFECT_BY ? effect->by : 0;
        most = fmax(most, fabs(by[i]));
    }
    int from = 0, to = moves->n; /* no further than the arithmetic has room for; 0 always stays */
    double room = most > 0 ? (double)HL_SOLVE_MOST_SHIFT / most : INFINITY;
    while (from < to && (double)-moves->list[from].amount > room)
        from++;
    while (to > from && (double)moves->list[to - 1].amount > room)
        to--;
    *made = (hl_solve_adjuster){.moves = moves->list + from, .n_moves = to - from, .by = by};
    return true;
}

bool hl__problem_solve(hl_attempt *out, hl_problem *problem, hl_planner *planner, hl_ways_out ways)
{
    hl_solve_step rows[HL_SOLVE_STEPS];
    int bad_step = -1, bad_adjuster = -1;
    *out = (hl_attempt){.ways = ways};
    if (!choose_columns(out, problem, planner))
        return false;
    fill_rows(out, rows, problem, planner);
    for (int k = 0; k < out->n_adjusters; k++)
        if (!fill_column(out, k, problem, planner))
            return false;
    const hl_solve_note note = {rows, out->n_steps, out->columns, out->n_adjusters, 0};
    out->code = hl__solve(&out->found, &note, &planner->scratch, &bad_step, &bad_adjuster);
    return out->code != HL_SOLVE_MEMORY;
}
