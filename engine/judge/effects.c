/* effects.c - what an adjuster moves at one note, all steps, in numbers (layer: judge). */
#include "effects.h"

#include <math.h>

static double find_aim(const hl_book *book, const hl_sheet *sheet, int step, int note)
{
    const hl_step *s = &book->steps[step];
    if (s->kind == HL_JUDGED || !s->targets)
        return NAN;
    int pitch = s->scope == HL_ONCE || note == 0 ? -1 : hl_note_pitch(sheet->compass, note);
    const hl_target *target = hl__book_target(book, step, pitch);
    if (!target->has_low && !target->has_high)
        return NAN;
    return (double)target->aim / (double)HL_ONE;
}

/* The variables of a formula at a note.  `with_aims`: a slope is asked for, not a value, so the
 * aim may stand in for what nobody read. */
static void gather_vars(const hl_book *book, const hl_sheet *sheet, const hl_formula *formula, int note,
                        const double *values, bool with_aims, double *vars, bool *assumed)
{
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_FACT) {
            vars[i] = hl__sheet_value(sheet, var->index, note, assumed);
        } else if (var->aspect != HL_ASPECT_VALUE) {
            vars[i] = NAN; /* aspects belong to conditions; no value follows from them */
        } else {
            vars[i] = values[var->index];
            if (with_aims && isnan(vars[i]))
                vars[i] = find_aim(book, sheet, var->index, note);
        }
    }
}

double hl__step_formula_value(const hl_book *book, const hl_sheet *sheet, int step, int note,
                              const double *values, bool *assumed)
{
    const hl_formula *formula = book->steps[step].formula;
    double vars[HL_FORMULA_VARS];
    if (!formula)
        return NAN;
    gather_vars(book, sheet, formula, note, values, false, vars, assumed);
    return hl__formula_value(formula, vars);
}

double hl__step_formula_slopes(const hl_book *book, const hl_sheet *sheet, int step, int note,
                               const double *values, bool *assumed, double *slopes)
{
    const hl_formula *formula = book->steps[step].formula;
    double vars[HL_FORMULA_VARS];
    if (!formula)
        return NAN;
    gather_vars(book, sheet, formula, note, values, false, vars, assumed);
    return hl__formula_slopes(formula, vars, slopes);
}

/* A move whose fact nobody stated still disturbs: its amount is unknown, like a strong one. */
static hl_effect find_direct(const hl_book *book, const hl_sheet *sheet, const hl_adjuster *adjuster,
                             const hl_move *move, int note, const double *values)
{
    hl_effect effect = {HL_EFFECT_STRONG, 0, adjuster->assumed || move->assumed};
    if (move->kind == HL_MOVE_STRONG)
        return effect;
    if (move->kind == HL_MOVE_SLIGHT) {
        effect.kind = HL_EFFECT_SLIGHT;
        return effect;
    }
    double vars[HL_FORMULA_VARS];
    if (!move->formula)
        return effect;
    gather_vars(book, sheet, move->formula, note, values, true, vars, &effect.assumed);
    double by = hl__formula_value(move->formula, vars);
    if (!isfinite(by))
        return effect;
    effect.by = by;
    effect.kind = by == 0 ? HL_EFFECT_NONE : HL_EFFECT_BY;
    return effect;
}

static hl_effect find_chained(const hl_book *book, const hl_sheet *sheet, int step, int note,
                              const double *values, const hl_effect *effects)
{
    const hl_formula *formula = book->steps[step].formula;
    double vars[HL_FORMULA_VARS], slopes[HL_FORMULA_VARS];
    hl_effect total = {HL_EFFECT_NONE, 0, false};
    bool assumed = false, strong = false, slight = false;
    gather_vars(book, sheet, formula, note, values, true, vars, &assumed);
    hl__formula_slopes(formula, vars, slopes);
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP || effects[var->index].kind == HL_EFFECT_NONE || slopes[i] == 0)
            continue;
        const hl_effect *effect = &effects[var->index];
        assumed = assumed || effect->assumed;
        if (effect->kind == HL_EFFECT_SLIGHT)
            slight = true;
        else if (effect->kind == HL_EFFECT_STRONG || !isfinite(slopes[i]))
            strong = true;
        else
            total.by += slopes[i] * effect->by;
    }
    if (strong)
        total = (hl_effect){HL_EFFECT_STRONG, 0, assumed};
    else if (total.by != 0)
        total = (hl_effect){HL_EFFECT_BY, total.by, assumed};
    else if (slight)
        total = (hl_effect){HL_EFFECT_SLIGHT, 0, assumed};
    return total;
}

static bool same_effect(const hl_effect *a, const hl_effect *b)
{
    return a->kind == b->kind && a->by == b->by && a->assumed == b->assumed;
}

void hl__effects_at(const hl_book *book, const hl_sheet *sheet, int adjuster, int note, const double *values,
                    hl_effect *effects)
{
    const hl_adjuster *a = &book->adjusters[adjuster];
    for (int i = 0; i < book->n_steps; i++)
        effects[i] = (hl_effect){HL_EFFECT_NONE, 0, false};
    for (int i = 0; i < a->n_moves; i++)
        if (!book->steps[a->moves[i].step].formula)
            effects[a->moves[i].step] = find_direct(book, sheet, a, &a->moves[i], note, values);
    /* A formula may build on another's result: go on until nothing changes, in bounded rounds. */
    bool changed = true;
    for (int round = 0; changed && round < HL_FORMULA_DEPTH; round++) {
        changed = false;
        for (int i = 0; i < book->n_steps; i++) {
            if (!book->steps[i].formula)
                continue;
            hl_effect effect = find_chained(book, sheet, i, note, values, effects);
            changed = changed || !same_effect(&effect, &effects[i]);
            effects[i] = effect;
        }
    }
}
