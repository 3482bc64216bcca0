/* effects.c - what an adjuster moves at one note, all steps, in numbers (layer: state). */
#include "effects.h"

#include <math.h>

/* A move whose fact nobody stated still disturbs: its amount is unknown, like a strong one. */
static hl_effect find_direct(const hl_book *book, const hl_sheet *sheet, const hl_adjuster *adjuster,
                             const hl_move *move, int note, const double *values)
{
    hl_effect effect = {
        .kind = HL_EFFECT_STRONG, .sign = move->sign, .assumed = adjuster->assumed || move->assumed};
    if (move->kind == HL_MOVE_STRONG)
        return effect;
    if (move->kind == HL_MOVE_SLIGHT) {
        effect.kind = HL_EFFECT_SLIGHT;
        return effect;
    }
    double vars[HL_FORMULA_VARS];
    if (!move->formula)
        return effect;
    hl__step_vars(book, sheet, move->formula, note, values, true, vars, &effect.assumed);
    double by = hl__formula_value(move->formula, vars);
    if (!isfinite(by))
        return effect;
    effect.by = by;
    effect.sign = 0;
    effect.kind = by == 0 ? HL_EFFECT_NONE : HL_EFFECT_BY;
    effect.again = move->again;
    return effect;
}

/* Which way one reading's effect takes a formula; 0 = not known. */
static int find_sign(const hl_effect *effect, double slope)
{
    double way = slope * (effect->kind == HL_EFFECT_BY ? effect->by : effect->sign);
    return way > 0 ? 1 : way < 0 ? -1 : 0;
}

hl_effect hl__effect_chained(const hl_book *book, const hl_sheet *sheet, int step, int note,
                             const double *values, const hl_effect *effects)
{
    const hl_formula *formula = book->steps[step].formula;
    double vars[HL_FORMULA_VARS];
    hl_effect total = {.kind = HL_EFFECT_NONE};
    bool assumed = false, learned = false, strong = false, slight = false, again = false;
    bool up = false, down = false, unknown = false;
    hl__step_vars(book, sheet, formula, note, values, true, vars, &assumed);
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP || effects[var->index].kind == HL_EFFECT_NONE)
            continue;
        const double slope = hl__formula_slope(formula, vars, i);
        if (slope == 0)
            continue;
        const hl_effect *effect = &effects[var->index];
        assumed = assumed || effect->assumed;
        learned = learned || effect->learned;
        again = again || effect->again;
        if (effect->kind == HL_EFFECT_SLIGHT) {
            slight = true;
            continue;
        }
        const int sign = find_sign(effect, slope);
        up |= sign > 0;
        down |= sign < 0;
        unknown |= sign == 0;
        if (effect->kind == HL_EFFECT_STRONG || !isfinite(slope))
            strong = true;
        else
            total.by += slope * effect->by;
    }
    total.kind = strong          ? HL_EFFECT_STRONG
                 : total.by != 0 ? HL_EFFECT_BY
                 : slight        ? HL_EFFECT_SLIGHT
                                 : HL_EFFECT_NONE;
    total.assumed = total.kind != HL_EFFECT_NONE && assumed;
    total.learned = total.kind == HL_EFFECT_BY && learned;
    total.again = total.kind == HL_EFFECT_BY && again;
    if (total.kind != HL_EFFECT_BY)
        total.by = 0;
    if (strong && !unknown && up != down)
        total.sign = up ? 1 : -1;
    return total;
}

hl_effect hl__effect_of_move(const hl_book *book, const hl_sheet *sheet, int adjuster, const hl_move *move,
                             int note)
{
    return find_direct(book, sheet, &book->adjusters[adjuster], move, note, NULL);
}

/* What readings taught is no assumption any more. */
static hl_effect apply_factor(hl_effect effect, double factor)
{
    if (effect.kind != HL_EFFECT_BY || factor == 0)
        return effect;
    return (hl_effect){.kind = HL_EFFECT_BY, .by = effect.by * factor, .learned = true};
}

void hl__effects_learned(const hl_book *book, const hl_sheet *sheet, const double *factors, int adjuster,
                         int note, const double *values, hl_effect *effects)
{
    const hl_adjuster *a = &book->adjusters[adjuster];
    for (int i = 0; i < book->n_steps; i++)
        effects[i] = (hl_effect){.kind = HL_EFFECT_NONE};
    for (int i = 0; i < a->n_moves; i++) {
        int step = a->moves[i].step;
        if (!book->steps[step].formula)
            effects[step] = apply_factor(find_direct(book, sheet, a, &a->moves[i], note, values),
                                         factors ? factors[step] : 0);
    }
    for (int k = 0; k < book->n_order; k++)
        effects[book->order[k]] = hl__effect_chained(book, sheet, book->order[k], note, values, effects);
}

void hl__effects_of_reading(const hl_book *book, const hl_sheet *sheet, int step, int note,
                            const double *values, hl_effect *effects)
{
    for (int i = 0; i < book->n_steps; i++)
        effects[i] = (hl_effect){.kind = HL_EFFECT_NONE};
    effects[step] = (hl_effect){.kind = HL_EFFECT_BY, .by = 1};
    for (int k = 0; k < book->n_order; k++)
        if (book->order[k] != step)
            effects[book->order[k]] = hl__effect_chained(book, sheet, book->order[k], note, values, effects);
}

void hl__effects_at(const hl_book *book, const hl_sheet *sheet, int adjuster, int note, const double *values,
                    hl_effect *effects)
{
    hl__effects_learned(book, sheet, NULL, adjuster, note, values, effects);
}
