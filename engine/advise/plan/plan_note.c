/* plan_note.c - one note solved, and what becomes of it (layer: advise/plan). */
#include "plan.h"

#include "stale.h"
#include "tolerance_float.h"

#include <math.h>
#include <string.h>

#define DEFERRALS 4 /* readings put off one after another, until the rest can be solved */

int hl__plan_rank(const hl_book *book, int adjuster)
{
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        for (int k = 0; k < step->n_fixes; k++)
            if (step->fixes[k] == adjuster)
                return i;
        for (int w = 0; w < step->n_words; w++)
            for (int k = 0; k < step->words[w].n_remedies; k++)
                if (step->words[w].remedies[k].adjuster == adjuster)
                    return i;
    }
    return book->n_steps;
}

/* ---- which way out ----------------------------------------------------------------------- */

static bool is_better(const hl_attempt *a, const hl_attempt *b)
{
    for (int tier = 0; tier < 3; tier++)
        if (a->found.violation[tier] != b->found.violation[tier])
            return a->found.violation[tier] < b->found.violation[tier];
    return false;
}

/* The float stands only where all that it is tied to passes. */
static bool is_float_earned(const hl_planner *planner, const hl_attempt *attempt)
{
    int model = hl__float_model(planner->book);
    for (int i = 0; i < attempt->found.n_unmet; i++)
        if (hl__float_ties(planner->book, model, attempt->steps[attempt->found.unmet[i].step]))
            return false;
    return true;
}

static bool may_float(const hl_planner *planner, const hl_problem *problem)
{
    const hl_float *floats = &planner->book->floats;
    return floats->step >= 0 && floats->within > 0 && hl__float_model(planner->book) >= 0 &&
           hl__problem_row(problem, floats->step) != NULL;
}

/* The ways out that the book names come first, then the float, then whatever moves it. */
static bool find_way_out(hl_attempt *best, hl_problem *problem, hl_planner *planner)
{
    for (int way = 0; way < 4; way++) {
        const hl_ways_out ways = {.all_movers = way >= 2, .floats = way % 2 == 1};
        hl_attempt *attempt = hl__arena_take(&planner->scratch, sizeof *attempt);
        if (ways.floats && !may_float(planner, problem))
            continue;
        if (!attempt || !hl__problem_solve(attempt, problem, planner, ways))
            return false;
        bool usable = attempt->code == HL_SOLVE_OK && (!ways.floats || is_float_earned(planner, attempt));
        if (way == 0 || (usable && (best->code != HL_SOLVE_OK || is_better(attempt, best))))
            *best = *attempt;
        if (best->code == HL_SOLVE_OK && best->found.met)
            break;
    }
    return true;
}

/* ---- what can't be cured in one go ------------------------------------------------------- */

static const hl_solve_move *find_move(const hl_attempt *attempt, int column)
{
    return &attempt->columns[column].moves[attempt->found.move[column]];
}

/* A failing reading that one of the moves shifts by an unknown amount is read again before it is
 * cured.  True when there is one that was not put off yet. */
static bool defer(hl_problem *problem, const hl_planner *planner, const hl_attempt *attempt)
{
    for (int k = 0; k < attempt->n_adjusters; k++) {
        int a = attempt->adjusters[k];
        if (find_move(attempt, k)->amount == 0)
            continue;
        for (int i = 0; i < problem->n_rows; i++) {
            const hl_plan_row *row = &problem->rows[i];
            if (!row->fails || problem->deferred[row->step] ||
                problem->effects[a][row->step].kind != HL_EFFECT_STRONG)
                continue;
            problem->deferred[row->step] = true;
            if (planner->book->steps[row->step].kind == HL_MEASURED)
                problem->waiting[problem->n_waiting++] = (hl_waiting){row->step, -1, a};
            return true;
        }
    }
    return false;
}

static bool solve(hl_attempt *best, hl_problem *problem, hl_planner *planner)
{
    for (int i = 0; i <= DEFERRALS; i++) {
        if (!find_way_out(best, problem, planner))
            return false;
        if (best->code != HL_SOLVE_OK || !defer(problem, planner, best))
            break;
    }
    return true;
}

/* ---- what becomes of the note ------------------------------------------------------------ */

static void fill_trust(const hl_problem *problem, int adjuster, hl_correction *out)
{
    for (int i = 0; i < problem->n_rows; i++) {
        const hl_plan_row *row = &problem->rows[i];
        const hl_effect *effect = &problem->effects[adjuster][row->step];
        if (row->guard || effect->kind != HL_EFFECT_BY)
            continue;
        out->assumed = out->assumed || effect->assumed;
        out->learned = out->learned || effect->learned;
    }
}

static void insert_adjustment(const hl_book *book, hl_correction *list, int n, const hl_correction *one)
{
    int rank = hl__plan_rank(book, one->adjuster);
    for (; n > 0 && hl__plan_rank(book, list[n - 1].adjuster) > rank; n--)
        list[n] = list[n - 1];
    list[n] = *one;
}

static bool write_adjustments(hl_planner *planner, const hl_problem *problem, const hl_attempt *attempt,
                              hl_plan_note *out)
{
    hl_correction *list =
        hl__arena_array(&planner->plan->arena, (size_t)attempt->n_adjusters + 1, sizeof *list);
    if (!list)
        return false;
    for (int k = 0; k < attempt->n_adjusters; k++) {
        const hl_solve_move *move = find_move(attempt, k);
        if (move->amount == 0)
            continue;
        hl_correction one = {.adjuster = attempt->adjusters[k], .more = move->amount > 0, .has_amount = true};
        one.amount = one.more ? move->amount : -move->amount;
        one.lands = true;
        memcpy(one.pieces, move->pieces, sizeof one.pieces);
        fill_trust(problem, one.adjuster, &one);
        insert_adjustment(planner->book, list, out->n_adjustments++, &one);
    }
    out->adjustments = list;
    out->proven = attempt->found.proven;
    return true;
}

static hl_amount find_signed(const hl_correction *adjustment)
{
    return adjustment->more ? adjustment->amount : -adjustment->amount;
}

/* What all moves together do to a step, and how far they do it one by one; false when one of them does
 * it by an unknown amount. */
static bool find_shift(const hl_problem *problem, const hl_plan_note *note, int step, hl_amount *shift,
                       hl_amount *travel)
{
    *shift = *travel = 0;
    for (int i = 0; i < note->n_adjustments; i++) {
        const hl_effect *effect = &problem->effects[note->adjustments[i].adjuster][step];
        if (effect->kind == HL_EFFECT_STRONG || effect->again)
            return false;
        if (effect->kind != HL_EFFECT_BY)
            continue;
        hl_amount one = (hl_amount)llround(effect->by * (double)find_signed(&note->adjustments[i]));
        *shift += one;
        *travel += one < 0 ? -one : one;
    }
    return true;
}

/* Every reading of the note moves, those too that took no part. */
static void lay_moves(hl_planner *planner, const hl_problem *problem, const hl_plan_note *note)
{
    for (int step = 0; step < planner->book->n_steps; step++) {
        const hl_standing s = hl__table_at(&planner->table, step, note->note);
        hl_amount shift = 0, travel = 0, now = 0;
        if (planner->book->steps[step].kind != HL_MEASURED ||
            !hl__table_holds(&planner->table, step, note->note) || !s.has_value || s.go)
            continue;
        if (!find_shift(problem, note, step, &shift, &travel)) {
            const int place = hl__table_place(&planner->table, step, note->note);
            planner->table.states[place] = HL_STATE_LOST;
            planner->table.exact[place] = NAN;
        } else if (shift != 0 && hl__amount_from(s.exact, &now)) {
            hl__plan_lay(planner, step, note->note, now + shift);
        }
    }
    hl__plan_derive(planner, note->note);
}

static bool copy_waiting(hl_planner *planner, const hl_problem *problem, hl_plan_note *out)
{
    hl_waiting *list = hl__arena_array(&planner->plan->arena, (size_t)problem->n_waiting + 1, sizeof *list);
    if (!list)
        return false;
    if (problem->n_waiting > 0)
        memcpy(list, problem->waiting, (size_t)problem->n_waiting * sizeof *list);
    out->waiting = list;
    out->n_waiting = problem->n_waiting;
    return true;
}

/* ---- what to read again ------------------------------------------------------------------ */

static void mark_shifted(const hl_planner *planner, const hl_problem *problem, const hl_plan_note *note,
                         unsigned char *marks)
{
    for (int step = 0; step < planner->book->n_steps; step++) {
        const hl_standing s = hl__table_at(&planner->table, step, note->note);
        const hl_plan_row *row = hl__problem_row(problem, step);
        hl_amount shift = 0, travel = 0;
        if (planner->book->steps[step].kind == HL_DERIVED || s.verdict == HL_NOT_APPLICABLE ||
            !hl__table_holds(&planner->table, step, note->note) || (!s.listed && s.event < 0))
            continue;
        /* two moves that cancel do so only as far as both are known */
        bool known = find_shift(problem, note, step, &shift, &travel);
        bool cured = row && row->fails && travel != 0;
        if (!known || cured || hl__stale_matters(&planner->table, step, note->note, travel))
            marks[step] = 1;
    }
}

/* A derived reading that stays out is read again through what it is computed from. */
static void mark_derived(const hl_planner *planner, const hl_plan_note *note, unsigned char *marks)
{
    for (int i = 0; i < note->n_unmet; i++) {
        const hl_step *step = &planner->book->steps[note->unmet[i].step];
        if (note->unmet[i].why != HL_LACK_GEOMETRY || !step->formula)
            continue;
        marks[note->unmet[i].step] = step->kind == HL_MEASURED;
        for (int v = 0; v < step->formula->n_vars; v++)
            if (step->formula->vars[v].kind == HL_VAR_STEP)
                marks[step->formula->vars[v].index] = 1;
    }
}

static bool list_again(hl_planner *planner, const hl_problem *problem, hl_plan_note *out)
{
    int n_steps = planner->book->n_steps, n = 0;
    unsigned char *marks = planner->table.marks_again;
    memset(marks, 0, (size_t)n_steps);
    mark_shifted(planner, problem, out, marks);
    mark_derived(planner, out, marks);
    for (int i = 0; i < out->n_waiting; i++)
        if (planner->book->steps[out->waiting[i].step].kind != HL_DERIVED)
            marks[out->waiting[i].step] = 1;
    int *list = hl__arena_array(&planner->plan->arena, (size_t)n_steps + 1, sizeof *list);
    for (int step = 0; list && step < n_steps; step++)
        if (marks[step])
            list[n++] = step;
    out->again = list;
    out->n_again = n;
    return list != NULL;
}

/* ---- the note ---------------------------------------------------------------------------- */

static bool same_moves(const hl_plan_note *a, const hl_plan_note *b)
{
    if (a->n_adjustments != b->n_adjustments)
        return false;
    for (int i = 0; i < a->n_adjustments; i++)
        if (a->adjustments[i].adjuster != b->adjustments[i].adjuster ||
            find_signed(&a->adjustments[i]) != find_signed(&b->adjustments[i]))
            return false;
    return true;
}

static bool solve_failing(hl_planner *planner, hl_problem *problem, hl_plan_note *out)
{
    hl_attempt *best = hl__arena_take(&planner->scratch, sizeof *best);
    if (!best || !solve(best, problem, planner))
        return false;
    if (best->code == HL_SOLVE_OK) {
        if (!write_adjustments(planner, problem, best, out))
            return false;
        lay_moves(planner, problem, out);
    }
    return hl__plan_explain(planner, problem, best, out);
}

bool hl__plan_note(hl_planner *planner, int note, bool *changed)
{
    hl_plan_note before = planner->notes[note], *out = &planner->notes[note];
    hl_problem problem;
    hl__plan_restore(planner, note);
    *out = (hl_plan_note){.note = note, .proven = true};
    bool good = hl__problem_start(&problem, planner, note);
    if (good && hl__problem_fails(&problem))
        good = solve_failing(planner, &problem, out);
    if (good)
        good = copy_waiting(planner, &problem, out);
    if (good && problem.effects)
        good = list_again(planner, &problem, out);
    *changed = good && !same_moves(&before, out);
    hl__arena_free(&planner->scratch);
    return good;
}
