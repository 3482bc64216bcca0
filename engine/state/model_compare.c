/* model_compare.c - what was read beside what the step's model says of it (layer: state).
 *
 * Two honest numbers for one thing differ by their gauges.  The reading brings its own; the model
 * brings those of all that it reads, each times the model's slope by it.  They are independent,
 * so they add as the root of the sum of their squares. */
#include "model_compare.h"

#include "gauge_reading.h"

#include <math.h>

/* Nobody reads finer than the step's resolution, whatever is said of the gauge. */
static double find_gauge(const hl_table *table, int step)
{
    hl_gauge_from from;
    hl_amount gauge = hl__gauge_reading(table->sheet, table->book, step, &from);
    hl_amount resolution = table->book->steps[step].resolution;
    return (double)(gauge > resolution ? gauge : resolution) / (double)HL_ONE;
}

static bool rests_on_overtaken(const hl_table *table, const hl_formula *formula, int note)
{
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && hl__table_overtaken(table, formula->vars[i].index, note))
            return true;
    return false;
}

/* How far reading and model may lie apart; false when it can't be told. */
static bool find_allowed(const hl_table *table, int step, const double *slopes, hl_amount *allowed)
{
    const hl_formula *formula = table->book->steps[step].formula;
    double own = find_gauge(table, step), sum = own * own;
    for (int i = 0; i < formula->n_vars; i++) {
        if (formula->vars[i].kind != HL_VAR_STEP)
            continue;
        double part = slopes[i] * find_gauge(table, formula->vars[i].index);
        sum += part * part;
    }
    return hl__amount_from(sqrt(sum), allowed);
}

int hl__compare_colour(const hl_table *table, int note)
{
    return note > 0 && hl_pitch_is_sharp(hl_note_pitch(table->sheet->compass, note)) ? 1 : 0;
}

static double find_fact(const hl_table *table, int fact, int note, const hl_supposed *supposed, bool *assumed)
{
    double value = hl__sheet_value(table->sheet, fact, note, assumed);
    if (supposed == NULL || supposed->fact != fact)
        return value;
    double other = supposed->value[hl__compare_colour(table, note)];
    return isnan(other) ? value : other;
}

void hl__compare_vars(const hl_table *table, const hl_formula *formula, int note, const hl_supposed *supposed,
                      double *vars, bool *assumed)
{
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_FACT)
            vars[i] = find_fact(table, var->index, note, supposed, assumed);
        else
            vars[i] = var->aspect == HL_ASPECT_VALUE ? table->note_values[var->index] : (double)NAN;
    }
}

bool hl__compare_at(const hl_table *table, int step, int note, const hl_supposed *supposed, hl_compared *out)
{
    const hl_formula *formula = table->book->steps[step].formula;
    const hl_standing s = hl__table_at(table, step, note);
    double vars[HL_FORMULA_VARS], slopes[HL_FORMULA_VARS];
    hl_amount allowed = 0;
    bool fresh = s.verdict == HL_PASS || s.verdict == HL_FAIL;
    *out = (hl_compared){0};
    if (!fresh || !s.has_value || s.event < 0 || rests_on_overtaken(table, formula, note))
        return false;
    hl__compare_vars(table, formula, note, supposed, vars, &out->assumed);
    double value = hl__formula_slopes(formula, vars, slopes);
    if (!hl__table_round(table, step, value, &out->model))
        return false;
    if (find_allowed(table, step, slopes, &allowed))
        out->side = s.value - out->model > allowed ? 1 : out->model - s.value > allowed ? -1 : 0;
    return true;
}

static void compare_note(hl_table *table, int step, int note)
{
    hl_compared compared;
    if (!hl__compare_at(table, step, note, NULL, &compared))
        return;
    table->modelled[hl__place(step, note)] = (hl_modelled){.has_model = true,
                                                           .model = compared.model,
                                                           .assumed = compared.assumed,
                                                           .differs = compared.side != 0};
}

bool hl__compare_has_model(const hl_step *step)
{
    return step->kind == HL_MEASURED && step->formula != NULL;
}

bool hl__compare_models(hl_table *table)
{
    table->modelled =
        hl__arena_array(table->arena, (size_t)table->book->n_steps * HL_NOTES, sizeof *table->modelled);
    if (!table->modelled)
        return false;
    for (int note = 0; note <= table->keys; note++) {
        hl__table_values(table, note, table->note_values);
        for (int i = 0; i < table->book->n_steps; i++)
            if (hl__compare_has_model(&table->book->steps[i]) && hl__table_holds(table, i, note))
                compare_note(table, i, note);
    }
    return true;
}
