/* plan_problem.c - one note as the solver wants it (layer: advise/plan).
 *
 * Rows are the readings that can be reckoned with; columns are the adjusters that may be moved.  What
 * an adjuster moves comes from effects.h, derived steps and models included: there is no second list. */
#include "plan.h"

#include "effects_cache.h"
#include "evenness.h"
#include "tolerance_float.h"
#include "verdict.h"

#include <math.h>

/* ---- limits ------------------------------------------------------------------------------ */

static hl_amount halve_up(hl_amount twice)
{
    return twice >= 0 ? (twice + 1) / 2 : twice / 2;
}

static hl_amount halve_down(hl_amount twice)
{
    return twice >= 0 ? twice / 2 : (twice - 1) / 2;
}

/* The band that the neighbours leave, as they will stand; a line between samples comes before it. */
static hl_target find_near(const hl_planner *planner, int step, int note)
{
    const hl_step *s = &planner->book->steps[step];
    const hl_target *line = hl__plan_on_line(planner, step, note);
    hl_target near = {0};
    hl_amount lean = 0;
    if (line)
        return *line;
    if (planner->alone || s->even <= 0 || !hl__even_lean(&planner->table, step, note, &lean))
        return near;
    hl_amount middle = 2 * hl__table_target(&planner->table, step, note)->aim + lean;
    near = (hl_target){.aim = halve_down(middle), .has_low = true, .has_high = true};
    near.low = halve_up(middle - 2 * s->even);
    near.high = halve_down(middle + 2 * s->even);
    return near;
}

/* A computed value is judged as it is rounded: the reckoning may use that last half step. */
hl_amount hl__problem_rounding(const hl_step *step)
{
    return step->kind == HL_DERIVED && step->resolution >= 2 ? step->resolution / 2 - 1 : 0;
}

/* Where the two exclude each other, the book's target counts and the neighbours have to follow. */
static hl_target join_limits(const hl_step *step, const hl_target *plain, const hl_target *near)
{
    hl_target limits = *plain;
    if (near->has_low && (!limits.has_low || near->low > limits.low))
        limits.low = near->low;
    if (near->has_high && (!limits.has_high || near->high < limits.high))
        limits.high = near->high;
    limits.has_low = limits.has_low || near->has_low;
    limits.has_high = limits.has_high || near->has_high;
    if (limits.has_low && limits.has_high && limits.low > limits.high)
        limits = *plain;
    if (near->has_low)
        limits.aim = near->aim;
    if (limits.has_low && limits.aim < limits.low)
        limits.aim = limits.low;
    if (limits.has_high && limits.aim > limits.high)
        limits.aim = limits.high;
    limits.low -= hl__problem_rounding(step);
    limits.high += hl__problem_rounding(step);
    return limits;
}

hl_target hl__problem_limits(const hl_planner *planner, const hl_problem *problem, const hl_plan_row *row,
                             bool floats)
{
    hl_target wide = *hl__table_target(&planner->table, row->step, problem->note);
    if (!floats)
        return row->limits;
    wide.low -= planner->book->floats.within;
    wide.high += planner->book->floats.within;
    return join_limits(&planner->book->steps[row->step], &wide, &row->near);
}

static bool is_outside(const hl_target *limits, hl_amount value)
{
    return (limits->has_low && value < limits->low) || (limits->has_high && value > limits->high);
}

/* ---- rows -------------------------------------------------------------------------------- */

static void add_row(hl_problem *problem, const hl_planner *planner, int step, const hl_standing *s)
{
    const hl_step *of = &planner->book->steps[step];
    hl_plan_row row = {.step = step, .guard = s->go};
    row.plain = hl__float_target(&planner->table, step, problem->note);
    if (!row.guard)
        row.near = find_near(planner, step, problem->note);
    row.limits = join_limits(of, &row.plain, &row.near);
    row.informed = of->kind == HL_DERIVED && of->n_fixes == 0;
    if (row.guard)
        row.reading = row.plain.aim;
    else if (!hl__amount_from(s->exact, &row.reading))
        return;
    row.fails = !row.guard && is_outside(&row.limits, row.reading);
    problem->rows[problem->n_rows++] = row;
}

static bool has_reading(const hl_standing *s)
{
    return s->verdict == HL_PASS || s->verdict == HL_FAIL || s->verdict == HL_DOUBTFUL ||
           s->verdict == HL_STALE;
}

static void take_step(hl_problem *problem, const hl_planner *planner, int step)
{
    const hl_standing s = hl__table_at(&planner->table, step, problem->note);
    const hl_step *of = &planner->book->steps[step];
    if (of->kind == HL_JUDGED || !hl__table_holds(&planner->table, step, problem->note) || !has_reading(&s))
        return;
    int mask = hl__judge_mask(&planner->audit->table, step, problem->note);
    bool unknown = s.verdict == HL_STALE && !s.has_value;
    if (mask >= 0 || unknown) {
        if (of->kind == HL_MEASURED) /* a derived one is not read, and follows of itself */
            problem->waiting[problem->n_waiting++] = (hl_waiting){step, mask, -1};
        return;
    }
    /* A gauge that it does not fit says no amount: the audit's way out is carried along. */
    if (s.go ? s.verdict == HL_PASS : s.has_value)
        add_row(problem, planner, step, &s);
}

hl_plan_row *hl__problem_row(const hl_problem *problem, int step)
{
    for (int i = 0; i < problem->n_rows; i++)
        if (problem->rows[i].step == step)
            return &problem->rows[i];
    return NULL;
}

bool hl__problem_fails(const hl_problem *problem)
{
    for (int i = 0; i < problem->n_rows; i++)
        if (problem->rows[i].fails)
            return true;
    return false;
}

/* ---- what may be moved ------------------------------------------------------------------- */

static bool is_fix(const hl_step *step, int adjuster)
{
    for (int i = 0; i < step->n_fixes; i++)
        if (step->fixes[i] == adjuster)
            return true;
    return false;
}

static bool moves_at_all(const hl_effect *effect)
{
    return effect->kind == HL_EFFECT_BY || effect->kind == HL_EFFECT_STRONG;
}

/* Nobody turns blind: what moves a reading that means nothing yet stays until it is read, except the
 * cure of what masks it.  Returns what has to come first, or -1. */
static int find_blind(const hl_problem *problem, const hl_planner *planner, int adjuster)
{
    for (int i = 0; i < problem->n_waiting; i++) {
        const hl_waiting *w = &problem->waiting[i];
        if (w->first >= 0 && moves_at_all(&problem->effects[adjuster][w->step]) &&
            !is_fix(&planner->book->steps[w->first], adjuster))
            return w->first;
    }
    return -1;
}

/* A failing reading that waits for its own tool waits with it, rather than be bought with others. */
static void put_off(hl_problem *problem, const hl_planner *planner, const int *blind)
{
    int kept = 0;
    for (int i = 0; i < problem->n_rows; i++) {
        const hl_step *step = &planner->book->steps[problem->rows[i].step];
        int first = -1;
        for (int k = 0; k < step->n_fixes && first < 0; k++)
            first = blind[step->fixes[k]];
        if (first < 0 || !problem->rows[i].fails)
            problem->rows[kept++] = problem->rows[i];
        else if (step->kind == HL_MEASURED)
            problem->waiting[problem->n_waiting++] = (hl_waiting){problem->rows[i].step, first, -1};
    }
    problem->n_rows = kept;
}

static bool find_effects(hl_problem *problem, hl_planner *planner)
{
    const hl_book *book = planner->book;
    hl_arena *scratch = &planner->scratch;
    problem->effects = hl__arena_array(scratch, (size_t)book->n_adjusters + 1, sizeof *problem->effects);
    problem->usable = hl__arena_array(scratch, (size_t)book->n_adjusters + 1, sizeof *problem->usable);
    problem->deferred = hl__arena_array(scratch, (size_t)book->n_steps + 1, sizeof *problem->deferred);
    int *blind = hl__arena_array(scratch, (size_t)book->n_adjusters + 1, sizeof *blind);
    if (!problem->effects || !problem->usable || !problem->deferred || !blind)
        return false;
    hl__table_values(&planner->table, problem->note, planner->table.note_values);
    for (int a = 0; a < book->n_adjusters; a++) {
        blind[a] = -1;
        if (!planner->moves[a].list)
            continue;
        hl_effect *effects = hl__arena_array(scratch, (size_t)book->n_steps + 1, sizeof *effects);
        if (!effects)
            return false;
        hl__effects_now(&planner->table, a, problem->note, planner->table.note_values, effects);
        problem->effects[a] = effects;
        blind[a] = find_blind(problem, planner, a);
        problem->usable[a] = !planner->plan->left_out[a] && blind[a] < 0;
    }
    put_off(problem, planner, blind);
    return true;
}

bool hl__problem_start(hl_problem *problem, hl_planner *planner, int note)
{
    size_t n = (size_t)planner->book->n_steps + 1;
    *problem = (hl_problem){.note = note};
    problem->rows = hl__arena_array(&planner->scratch, n, sizeof *problem->rows);
    problem->waiting = hl__arena_array(&planner->scratch, n, sizeof *problem->waiting);
    if (!problem->rows || !problem->waiting)
        return false;
    for (int step = 0; step < planner->book->n_steps; step++)
        take_step(problem, planner, step);
    return !hl__problem_fails(problem) || find_effects(problem, planner);
}
