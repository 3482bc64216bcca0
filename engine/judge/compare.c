/* compare.c - what was read beside what the step's model says of it (layer: judge).
 *
 * Two honest numbers for one thing differ by their gauges.  The reading brings its own; the model
 * brings those of all that it reads, each times the model's slope by it.  They are independent,
 * so they add as the root of the sum of their squares. */
#include "compare.h"

#include "stale.h"

#include <math.h>

/* Nobody reads finer than the step's resolution, whatever is said of the gauge. */
static double find_gauge(const hl_step *step)
{
    hl_amount gauge = step->gauge > step->resolution ? step->gauge : step->resolution;
    return (double)gauge / (double)HL_ONE;
}

static bool rests_on_overtaken(const hl_table *table, const hl_formula *formula, int note)
{
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && hl__stale_overtaken(table, formula->vars[i].index, note))
            return true;
    return false;
}

/* How far reading and model may lie apart; false when it can't be told. */
static bool find_allowed(const hl_table *table, int step, const double *slopes, hl_amount *allowed)
{
    const hl_formula *formula = table->book->steps[step].formula;
    double own = find_gauge(&table->book->steps[step]), sum = own * own;
    for (int i = 0; i < formula->n_vars; i++) {
        if (formula->vars[i].kind != HL_VAR_STEP)
            continue;
        double part = slopes[i] * find_gauge(&table->book->steps[formula->vars[i].index]);
        sum += part * part;
    }
    return hl__amount_from(sqrt(sum), allowed);
}

static void compare_note(hl_table *table, int step, int note)
{
    const hl_formula *formula = table->book->steps[step].formula;
    hl_standing *s = hl__table_at(table, step, note);
    double slopes[HL_FORMULA_VARS];
    hl_amount allowed = 0;
    bool fresh = s->verdict == HL_PASS || s->verdict == HL_FAIL;
    if (!fresh || !s->has_value || s->event < 0 || rests_on_overtaken(table, formula, note))
        return;
    bool assumed = s->model_assumed;
    double value =
        hl__step_formula_slopes(table->book, table->sheet, step, note, table->values, &assumed, slopes);
    s->model_assumed = assumed;
    s->has_model = hl__table_round(table, step, value, &s->model);
    if (!s->has_model || !find_allowed(table, step, slopes, &allowed))
        return;
    hl_amount apart = s->value < s->model ? s->model - s->value : s->value - s->model;
    s->model_differs = apart > allowed;
}

void hl__compare_models(hl_table *table)
{
    for (int note = 0; note <= table->keys; note++) {
        hl__table_values(table, note, table->values);
        for (int i = 0; i < table->book->n_steps; i++) {
            const hl_step *step = &table->book->steps[i];
            if (step->kind == HL_MEASURED && step->formula != NULL && hl__table_holds(table, i, note))
                compare_note(table, i, note);
        }
    }
}
