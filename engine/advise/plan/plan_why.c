/* plan_why.c - why a reading stays outside its target (layer: advise/plan). */
#include "plan.h"

#include "tolerance_float.h"

#include <math.h>

/* ---- small questions --------------------------------------------------------------------- */

static bool is_known(const hl_problem *problem, int adjuster, int step)
{
    return problem->effects && problem->effects[adjuster] &&
           problem->effects[adjuster][step].kind == HL_EFFECT_BY;
}

/* A way out by feel stays open: it is carried along as work, not told of as unmet. */
static bool has_feel(const hl_planner *planner, int step)
{
    const hl_step *s = &planner->book->steps[step];
    for (int i = 0; i < s->n_fixes; i++) {
        int a = s->fixes[i];
        if (!planner->moves[a].list && !planner->book->adjusters[a].whole && !planner->plan->left_out[a])
            return true;
    }
    return false;
}

/* Reads a step that has a model of its own: what is left over is the note's geometry. */
static bool is_geometry(const hl_book *book, int step)
{
    const hl_formula *formula = book->steps[step].formula;
    for (int i = 0; book->steps[step].kind == HL_DERIVED && formula && i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_STEP && book->steps[var->index].kind == HL_MEASURED &&
            book->steps[var->index].formula)
            return true;
    }
    return false;
}

static bool is_told(const hl_plan_note *note, int step)
{
    for (int i = 0; i < note->n_unmet; i++)
        if (note->unmet[i].step == step)
            return true;
    for (int i = 0; i < note->n_waiting; i++)
        if (note->waiting[i].step == step)
            return true;
    return false;
}

static bool find_distance(const hl_target *limits, hl_amount value, hl_unmet_reading *out)
{
    if (limits->has_low && value < limits->low)
        out->by = limits->low - value;
    else if (limits->has_high && value > limits->high)
        out->by = value - limits->high;
    out->above = limits->has_high && value > limits->high;
    return out->by > 0;
}

/* A computed value was allowed to lie as far out as it is rounded: told of, it is told from the target. */
static hl_amount tell_by(const hl_planner *planner, int step, hl_amount by)
{
    const hl_step *s = &planner->book->steps[step];
    return by + hl__problem_rounding(s);
}

/* ---- the note's own ratio ---------------------------------------------------------------- */

static bool misses_tied(const hl_planner *planner, const hl_attempt *attempt, int model)
{
    for (int i = 0; i < attempt->found.n_unmet; i++)
        if (hl__float_ties(planner->book, model, attempt->steps[attempt->found.unmet[i].step]))
            return true;
    return false;
}

/* Were the modelled reading where its model has it, would all that it ties be met?  Then it is the
 * note's own ratio that stands in the way. */
static bool blame_geometry(hl_planner *planner, hl_problem *problem, const hl_attempt *attempt, int step,
                           bool *blamed)
{
    const hl_book *book = planner->book;
    *blamed = false;
    for (int model = 0; model < book->n_steps && !*blamed; model++) {
        if (book->steps[model].kind != HL_MEASURED || !book->steps[model].formula ||
            !hl__float_ties(book, model, step) || !hl__problem_row(problem, model))
            continue;
        hl_ways_out ways = attempt->ways;
        hl_attempt *other = hl__arena_take(&planner->scratch, sizeof *other);
        ways.by_model = true;
        if (!other || !hl__problem_solve(other, problem, planner, ways))
            return false;
        *blamed = other->code == HL_SOLVE_OK && !misses_tied(planner, other, model);
    }
    return true;
}

/* ---- lists ------------------------------------------------------------------------------- */

static bool list_bits(hl_planner *planner, uint32_t bits, const int *names, const int **list, int *n)
{
    int *made = hl__arena_array(&planner->plan->arena, 33, sizeof *made);
    *n = 0;
    for (int i = 0; made && i < 32; i++)
        if (bits & (UINT32_C(1) << i))
            made[(*n)++] = names[i];
    *list = made;
    return made != NULL;
}

static bool list_left_out(hl_planner *planner, const hl_problem *problem, hl_unmet_reading *out)
{
    int n_adjusters = planner->book->n_adjusters, n = 0;
    int *made = hl__arena_array(&planner->plan->arena, (size_t)n_adjusters + 1, sizeof *made);
    for (int a = 0; made && a < n_adjusters; a++)
        if (planner->plan->left_out[a] && is_known(problem, a, out->step))
            made[n++] = a;
    if (n > 0) {
        out->why = HL_LACK_LEFT_OUT;
        out->adjusters = made;
        out->n_adjusters = n;
        out->n_against = 0;
    }
    return made != NULL;
}

/* ---- the solver's words ------------------------------------------------------------------ */

static hl_lack name_lack(hl_unmet_why why)
{
    static const hl_lack names[] = {[HL_UNMET_UNMOVED] = HL_LACK_UNMOVED,
                                    [HL_UNMET_REACH] = HL_LACK_REACH,
                                    [HL_UNMET_CONFLICT] = HL_LACK_CONFLICT,
                                    [HL_UNMET_GRAIN] = HL_LACK_GRAIN};
    return names[why];
}

static bool tell_unmet(hl_planner *planner, hl_problem *problem, const hl_attempt *attempt,
                       const hl_unmet *unmet, hl_plan_note *note, hl_unmet_reading *out)
{
    int step = attempt->steps[unmet->step];
    const hl_plan_row *row = hl__problem_row(problem, step);
    if (unmet->why == HL_UNMET_UNMOVED && has_feel(planner, step))
        return true;
    *out = (hl_unmet_reading){.step = step,
                              .by = tell_by(planner, step, unmet->by),
                              .above = unmet->above,
                              .why = name_lack(unmet->why)};
    out->uneven =
        !find_distance(&row->plain, attempt->found.predicted[unmet->step], &(hl_unmet_reading){.step = step});
    if (!list_bits(planner, unmet->against, attempt->steps, &out->against, &out->n_against) ||
        !list_bits(planner, unmet->reach, attempt->adjusters, &out->adjusters, &out->n_adjusters))
        return false;
    bool blamed = false;
    if (!list_left_out(planner, problem, out))
        return false;
    if (out->why != HL_LACK_GRAIN && out->why != HL_LACK_LEFT_OUT &&
        !blame_geometry(planner, problem, attempt, step, &blamed))
        return false;
    out->why = blamed ? HL_LACK_GEOMETRY : out->why;
    note->n_unmet++;
    return true;
}

/* ---- what took no part ------------------------------------------------------------------- */

static bool took_part(const hl_attempt *attempt, int step)
{
    for (int i = 0; attempt->code == HL_SOLVE_OK && i < attempt->n_steps; i++)
        if (attempt->steps[i] == step)
            return true;
    return false;
}

/* Derived readings that nothing cures, and numbers too large to reckon with. */
static void tell_others(const hl_planner *planner, const hl_problem *problem, const hl_attempt *attempt,
                        hl_plan_note *note, hl_unmet_reading *list)
{
    for (int i = 0; i < problem->n_rows; i++) {
        const hl_plan_row *row = &problem->rows[i];
        const hl_standing s = hl__table_at(&planner->table, row->step, note->note);
        hl_unmet_reading one = {.step = row->step};
        hl_amount now = 0;
        if (row->guard || problem->deferred[row->step] || !s.has_value || took_part(attempt, row->step) ||
            !hl__amount_from(s.exact, &now) || !find_distance(&row->limits, now, &one))
            continue;
        one.by = tell_by(planner, row->step, one.by);
        one.uneven = !find_distance(&row->plain, now, &(hl_unmet_reading){.step = row->step});
        one.why = !row->informed                          ? HL_LACK_REFUSED
                  : is_geometry(planner->book, row->step) ? HL_LACK_GEOMETRY
                                                          : HL_LACK_UNMOVED;
        list[note->n_unmet++] = one;
    }
}

static void order_unmet(hl_unmet_reading *list, int n)
{
    for (int i = 1; i < n; i++) {
        hl_unmet_reading one = list[i];
        int k = i;
        for (; k > 0 && list[k - 1].step > one.step; k--)
            list[k] = list[k - 1];
        list[k] = one;
    }
}

bool hl__plan_explain(hl_planner *planner, hl_problem *problem, const hl_attempt *attempt, hl_plan_note *note)
{
    size_t room = (size_t)problem->n_rows + HL_SOLVE_STEPS + 1;
    hl_unmet_reading *list = hl__arena_array(&planner->plan->arena, room, sizeof *list);
    note->unmet = list;
    if (!list)
        return false;
    for (int i = 0; attempt->code == HL_SOLVE_OK && i < attempt->found.n_unmet; i++)
        if (!tell_unmet(planner, problem, attempt, &attempt->found.unmet[i], note, &list[note->n_unmet]))
            return false;
    tell_others(planner, problem, attempt, note, list);
    order_unmet(list, note->n_unmet);
    return true;
}

/* ---- in the end -------------------------------------------------------------------------- */

static bool fails_untold(const hl_planner *planner, const hl_plan_note *note, int step)
{
    const hl_standing s = hl__table_at(&planner->table, step, note->note);
    return hl__table_holds(&planner->table, step, note->note) && s.verdict == HL_FAIL && s.has_value &&
           !s.go && planner->book->steps[step].kind != HL_JUDGED && !is_told(note, step) &&
           !has_feel(planner, step) && hl__judge_mask(&planner->audit->table, step, note->note) < 0;
}

static hl_lack find_rest_lack(const hl_planner *planner, int step)
{
    const hl_step *of = &planner->book->steps[step];
    if (of->kind == HL_DERIVED && of->n_fixes == 0)
        return is_geometry(planner->book, step) ? HL_LACK_GEOMETRY : HL_LACK_UNMOVED;
    for (int i = 0; i < of->n_fixes; i++)
        if (planner->plan->left_out[of->fixes[i]])
            return HL_LACK_LEFT_OUT;
    return of->n_fixes == 0 ? HL_LACK_UNMOVED : HL_LACK_GRAIN;
}

static hl_unmet_reading make_rest(const hl_planner *planner, int step, int note)
{
    const hl_standing s = hl__table_at(&planner->table, step, note);
    const hl_step *of = &planner->book->steps[step];
    hl_unmet_reading one = {
        .step = step, .uneven = s.why == HL_WHY_UNEVEN, .why = find_rest_lack(planner, step)};
    for (int i = 0; one.why == HL_LACK_LEFT_OUT && i < of->n_fixes && one.n_adjusters == 0; i++)
        if (planner->plan->left_out[of->fixes[i]]) {
            one.adjusters = &of->fixes[i];
            one.n_adjusters = 1;
        }
    if (one.uneven) {
        const hl_amount shift = hl__table_shift(&planner->table, step, note);
        one.above = shift > 0;
        one.by = (shift < 0 ? -shift : shift) - of->even;
    } else {
        find_distance(hl__table_target(&planner->table, step, note), s.value, &one);
    }
    return one;
}

bool hl__plan_explain_rest(hl_planner *planner, hl_plan_note *note)
{
    int n_steps = planner->book->n_steps, n = 0;
    for (int step = 0; step < n_steps; step++)
        n += fails_untold(planner, note, step) ? 1 : 0;
    if (n == 0)
        return true;
    size_t room = (size_t)note->n_unmet + (size_t)n;
    hl_unmet_reading *list = hl__arena_array(&planner->plan->arena, room, sizeof *list);
    if (!list)
        return false;
    for (int i = 0; i < note->n_unmet; i++)
        list[i] = note->unmet[i];
    int at = note->n_unmet;
    for (int step = 0; step < n_steps; step++)
        if (fails_untold(planner, note, step))
            list[at++] = make_rest(planner, step, note->note);
    order_unmet(list, at);
    note->unmet = list;
    note->n_unmet = at;
    return true;
}
