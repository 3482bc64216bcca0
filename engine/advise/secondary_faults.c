/* secondary_faults.c - a fault that goes away when another is cured (layer: advise). */
#include "secondary_faults.h"

#include "effects.h"
#include "formula.h"
#include "predict.h"
#include "step_formula.h"
#include "verdict.h"

#include <math.h>

static const hl_finding *find_failing(const hl_findings *all, int step, int note)
{
    for (size_t i = all->first[step]; i < all->first[step + 1]; i++)
        if (all->items[i].note == note && all->items[i].verdict == HL_FAIL)
            return &all->items[i];
    return NULL;
}

/* How far the first correction of `cause` shifts the step; NaN when that is not known, or no cure. */
static double find_shift(const hl_table *table, const hl_finding *cause, int step)
{
    if (cause == NULL || cause->n_corrections == 0)
        return NAN;
    const hl_correction *first = &cause->corrections[0];
    if (!first->has_amount || !first->lands)
        return NAN;
    const hl_prediction touch = hl__predict_at(table, first->adjuster, cause->note);
    double amount = (double)(first->more ? first->amount : -first->amount) / (double)HL_ONE;
    return hl__predict_value(&touch, step, amount) - touch.values[step];
}

static bool passes(const hl_table *table, const hl_finding *finding, hl_amount value)
{
    const hl_target *target = hl__table_target(table, finding->step, finding->note);
    if (hl__verdict_value(target, value).verdict != HL_PASS)
        return false;
    if (finding->why != HL_WHY_UNEVEN)
        return true;
    const hl_amount lean = table->lean[hl__table_place(table, finding->step, finding->note)];
    hl_amount out_double = 2 * (value - target->aim) - lean;
    return (out_double < 0 ? -out_double : out_double) <= 2 * table->book->steps[finding->step].even;
}

/* Two faults that one adjuster cures are cured by moving it once. */
static bool is_touched(const int *touched, int n, int adjuster)
{
    for (int i = 0; i < n; i++)
        if (touched[i] == adjuster)
            return true;
    return false;
}

static void follow_one(hl_findings *all, const hl_table *table, hl_finding *finding)
{
    const hl_formula *formula = table->book->steps[finding->step].formula;
    double shift = 0;
    int first = -1, n_touched = 0, touched[HL_FORMULA_VARS];
    for (int v = 0; v < formula->n_vars; v++) {
        const hl_var *var = &formula->vars[v];
        if (var->kind != HL_VAR_STEP || var->index == finding->step)
            continue;
        const hl_finding *cause = find_failing(all, var->index, finding->note);
        double by = find_shift(table, cause, finding->step);
        if (isnan(by) || by == 0 || is_touched(touched, n_touched, cause->corrections[0].adjuster))
            continue;
        touched[n_touched++] = cause->corrections[0].adjuster;
        shift += by;
        first = first < 0 || var->index < first ? var->index : first;
    }
    const double exact = hl__table_exact(table, finding->step, finding->note);
    hl_amount predicted = 0;
    if (first < 0 || !finding->has_value || finding->go ||
        !hl__table_round(table, finding->step, exact + shift, &predicted) ||
        !passes(table, finding, predicted))
        return;
    finding->follows = true;
    finding->follows_step = first;
    finding->follows_predicted = predicted;
    finding->n_corrections = 0;
}

/* Does all that fails among what the diagnosis looked at go away with another cure? */
static bool is_explained(const hl_findings *all, const hl_formula *when, int note)
{
    int failing = 0, following = 0;
    for (int v = 0; v < when->n_vars; v++) {
        if (when->vars[v].kind != HL_VAR_STEP)
            continue;
        const hl_finding *finding = find_failing(all, when->vars[v].index, note);
        failing += finding != NULL;
        following += finding != NULL && finding->follows;
    }
    return failing > 0 && failing == following;
}

size_t hl__secondary_quiet(hl_diagnosed *diagnosed, size_t n, const hl_findings *all, const hl_table *table)
{
    size_t kept = 0;
    for (size_t i = 0; i < n; i++)
        if (diagnosed[i].note == 0 ||
            !is_explained(all, table->book->diagnoses[diagnosed[i].diagnosis].when, diagnosed[i].note))
            diagnosed[kept++] = diagnosed[i];
    return kept;
}

void hl__secondary_mark(hl_findings *all, const hl_table *table)
{
    for (size_t i = 0; i < all->n; i++) {
        hl_finding *finding = &all->items[i];
        if (finding->step < 0 || finding->verdict != HL_FAIL ||
            table->book->steps[finding->step].formula == NULL)
            continue;
        follow_one(all, table, finding);
    }
}

/* ---- computed from what is wrong ----------------------------------------------------------------- */

static bool masks(const hl_step *step, int other)
{
    for (int i = 0; i < step->n_masks; i++)
        if (step->masks[i] == other)
            return true;
    return false;
}

/* The note's values with the failing ones among the step's readings at their aims; the first of those
 * in the book's order, or -1. */
static int put_right(const hl_findings *all, const hl_table *table, const hl_finding *finding)
{
    const hl_step *step = &table->book->steps[finding->step];
    int first = -1;
    hl__table_values(table, finding->note, table->note_values);
    for (int v = 0; v < step->formula->n_vars; v++) {
        const hl_var *var = &step->formula->vars[v];
        if (var->kind != HL_VAR_STEP || masks(step, var->index) ||
            find_failing(all, var->index, finding->note) == NULL)
            continue;
        table->note_values[var->index] =
            (double)hl__table_target(table, var->index, finding->note)->aim / (double)HL_ONE;
        first = first < 0 || var->index < first ? var->index : first;
    }
    return first;
}

static void hang_one(const hl_findings *all, const hl_table *table, hl_finding *finding)
{
    bool assumed = false;
    hl_amount value = 0;
    int first = put_right(all, table, finding);
    if (first < 0 || hl__judge_mask(table, finding->step, finding->note) >= 0)
        return;
    double exact = hl__step_formula_value(table->book, table->sheet, finding->step, finding->note,
                                          table->note_values, &assumed);
    if (!hl__table_round(table, finding->step, exact, &value) || !passes(table, finding, value))
        return;
    finding->hangs = true;
    finding->follows_step = first;
}

void hl__depends_mark(hl_findings *all, const hl_table *table)
{
    for (size_t i = 0; i < all->n; i++) {
        hl_finding *finding = &all->items[i];
        if (finding->step < 0 || finding->verdict != HL_FAIL || finding->follows)
            continue;
        const hl_step *step = &table->book->steps[finding->step];
        if (step->kind == HL_DERIVED && step->n_fixes == 0)
            hang_one(all, table, finding);
    }
}
