/* follow.c - a fault that goes away when another is cured (layer: judge). */
#include "follow.h"

#include "effects.h"
#include "formula.h"
#include "verdict.h"

#include <math.h>

static const hl_finding *find_failing(const hl_audit *audit, int step, int note)
{
    for (size_t i = audit->first[step]; i < audit->first[step + 1]; i++)
        if (audit->findings[i].note == note && audit->findings[i].verdict == HL_FAIL)
            return &audit->findings[i];
    return NULL;
}

/* What the reading becomes by its first correction; NaN when that is not known or not enough. */
static double find_cured(const hl_finding *finding)
{
    if (finding == NULL || finding->n_corrections == 0)
        return NAN;
    const hl_correction *first = &finding->corrections[0];
    return first->has_predicted && first->lands ? (double)first->predicted / (double)HL_ONE : NAN;
}

static bool passes(const hl_table *table, const hl_finding *finding, hl_amount value)
{
    const hl_target *target = hl__table_target(table, finding->step, finding->note);
    if (hl__verdict_value(target, value).verdict != HL_PASS)
        return false;
    if (finding->why != HL_WHY_UNEVEN)
        return true;
    const hl_standing *standing = hl__table_at(table, finding->step, finding->note);
    hl_amount out_double = 2 * (value - target->aim) - standing->lean_double;
    return (out_double < 0 ? -out_double : out_double) <= 2 * table->book->steps[finding->step].even;
}

static void follow_one(hl_audit *audit, const hl_table *table, hl_finding *finding)
{
    const hl_formula *formula = table->book->steps[finding->step].formula;
    double *values = table->after;
    hl__table_values(table, finding->note, values);
    int cause = -1;
    for (int v = 0; v < formula->n_vars; v++) {
        const hl_var *var = &formula->vars[v];
        if (var->kind != HL_VAR_STEP || var->index == finding->step)
            continue;
        double cured = find_cured(find_failing(audit, var->index, finding->note));
        if (isnan(cured))
            continue;
        values[var->index] = cured;
        cause = cause < 0 || var->index < cause ? var->index : cause;
    }
    if (cause < 0)
        return;
    /* A measured reading keeps its own distance from the model: only the change is the model's. */
    bool assumed = false;
    double after =
        hl__step_formula_value(table->book, table->sheet, finding->step, finding->note, values, &assumed);
    hl__table_values(table, finding->note, values);
    double before =
        hl__step_formula_value(table->book, table->sheet, finding->step, finding->note, values, &assumed);
    const hl_standing *standing = hl__table_at(table, finding->step, finding->note);
    hl_amount predicted = 0;
    if (!finding->has_value || finding->go ||
        !hl__table_round(table, finding->step, standing->exact + after - before, &predicted) ||
        !passes(table, finding, predicted))
        return;
    finding->follows = true;
    finding->follows_step = cause;
    finding->follows_predicted = predicted;
    finding->n_corrections = 0;
}

/* Does all that fails among what the diagnosis looked at go away with another cure? */
static bool is_explained(const hl_audit *audit, const hl_diagnosed *diagnosed)
{
    const hl_formula *when = audit->book->diagnoses[diagnosed->diagnosis].when;
    int failing = 0, following = 0;
    for (int v = 0; v < when->n_vars; v++) {
        if (when->vars[v].kind != HL_VAR_STEP)
            continue;
        const hl_finding *finding = find_failing(audit, when->vars[v].index, diagnosed->note);
        failing += finding != NULL;
        following += finding != NULL && finding->follows;
    }
    return failing > 0 && failing == following;
}

static void quiet_explained(hl_audit *audit)
{
    size_t kept = 0;
    for (size_t i = 0; i < audit->n_diagnosed; i++)
        if (audit->diagnosed[i].note == 0 || !is_explained(audit, &audit->diagnosed[i]))
            audit->diagnosed[kept++] = audit->diagnosed[i];
    audit->n_diagnosed = kept;
}

void hl__follow(hl_audit *audit, const hl_table *table)
{
    for (size_t i = 0; i < audit->n_findings; i++) {
        hl_finding *finding = &audit->findings[i];
        if (finding->step < 0 || finding->verdict != HL_FAIL ||
            table->book->steps[finding->step].formula == NULL)
            continue;
        follow_one(audit, table, finding);
    }
    quiet_explained(audit);
}
