/* predict.c - one adjuster touched at one note: what the readings become (layer: state). */
#include "predict.h"

#include "effects_cache.h"
#include "step_formula.h"

#include "stale.h"
#include "tolerance_float.h"
#include "verdict.h"

#include <math.h>
#include <string.h>

hl_prediction hl__predict_at(const hl_table *table, int adjuster, int note)
{
    hl__table_values(table, note, table->note_values);
    return hl__predict_also(table, adjuster, note);
}

hl_prediction hl__predict_also(const hl_table *table, int adjuster, int note)
{
    hl__effects_now(table, adjuster, note, table->note_values, table->effects);
    return (hl_prediction){table, adjuster, note, table->note_values, table->effects};
}

static double predict_value(const hl_prediction *touch, int step, double amount, int depth);

/* A derived step is computed anew from what its readings become: exact where a slope is not. */
static double predict_derived(const hl_prediction *touch, int step, double amount, int depth)
{
    const hl_table *table = touch->table;
    const hl_formula *formula = table->book->steps[step].formula;
    bool assumed = false;
    for (int i = 0; i < formula->n_vars; i++) {
        int from = formula->vars[i].index;
        if (formula->vars[i].kind == HL_VAR_STEP)
            table->after[from] = predict_value(touch, from, amount, depth + 1);
    }
    return hl__step_formula_value(table->book, table->sheet, step, touch->note, table->after, &assumed);
}

static double predict_value(const hl_prediction *touch, int step, double amount, int depth)
{
    const hl_step *s = &touch->table->book->steps[step];
    const hl_effect *effect = &touch->effects[step];
    switch (effect->kind) {
    case HL_EFFECT_STRONG:
        return NAN;
    case HL_EFFECT_BY:
        if (s->kind == HL_DERIVED && s->formula && depth < HL_FORMULA_DEPTH)
            return predict_derived(touch, step, amount, depth);
        return touch->values[step] + effect->by * amount;
    case HL_EFFECT_NONE:
    case HL_EFFECT_SLIGHT:
        break;
    }
    return touch->values[step];
}

double hl__predict_value(const hl_prediction *touch, int step, double amount)
{
    return predict_value(touch, step, amount, 0);
}

bool hl__predict_reading(const hl_prediction *touch, int step, hl_amount amount, hl_amount *out)
{
    double value = predict_value(touch, step, (double)amount / (double)HL_ONE, 0);
    return hl__table_round(touch->table, step, value, out);
}

/* ---- what it disturbs -------------------------------------------------------------------- */

static bool must_read_again(const hl_prediction *touch, int step, bool known, hl_amount amount)
{
    const hl_effect *effect = &touch->effects[step];
    hl_amount shift = 0;
    if (effect->kind == HL_EFFECT_STRONG || effect->again)
        return true;
    if (effect->kind != HL_EFFECT_BY)
        return false;
    if (!known || !hl__amount_from(effect->by * (double)amount / (double)HL_ONE, &shift))
        return true;
    return hl__stale_matters(touch->table, step, touch->note, shift);
}

static bool is_spoilt(const hl_prediction *touch, int step, hl_amount amount)
{
    const hl_state state = hl__table_state(touch->table, step, touch->note);
    hl_amount reading = 0;
    if ((state != HL_STATE_PASS && state != HL_STATE_FLOATED) ||
        touch->table->book->steps[step].kind == HL_JUDGED || touch->effects[step].kind != HL_EFFECT_BY)
        return false;
    if (!hl__predict_reading(touch, step, amount, &reading))
        return false;
    const hl_target target = hl__float_target(touch->table, step, touch->note);
    return hl__verdict_value(&target, reading).verdict != HL_PASS;
}

static void mark_note(const hl_prediction *touch, int fixed, bool known, hl_amount amount)
{
    const hl_table *table = touch->table;
    const hl_effect *effects = touch->effects;
    int n = table->book->n_steps;
    const int *moved = hl__effects_moved(table, touch->adjuster, touch->note, &n);
    for (int k = 0; k < n; k++) {
        const int i = moved ? moved[k] : k;
        if (effects[i].kind == HL_EFFECT_NONE)
            continue;
        const hl_meaning *meaning = &hl__meanings[hl__table_state(table, i, touch->note)];
        if (!hl__table_holds(table, i, touch->note) || !meaning->listed ||
            meaning->verdict == HL_NOT_APPLICABLE)
            continue;
        /* a derived step is not read: what it is derived from is */
        if (!table->marks_again[i] && table->book->steps[i].kind != HL_DERIVED &&
            must_read_again(touch, i, known, amount))
            table->marks_again[i] = 1;
        if (known && i != fixed && is_spoilt(touch, i, amount))
            table->marks_spoil[i] = 1;
    }
}

static void mark_whole(const hl_prediction *touch, int fixed, bool known, hl_amount amount)
{
    const hl_table *table = touch->table;
    for (int note = 1; note <= table->keys; note++) {
        hl_prediction other = {table, touch->adjuster, note, table->elsewhere, table->effects_elsewhere};
        hl__table_values(table, note, table->elsewhere);
        hl__effects_now(table, touch->adjuster, note, table->elsewhere, table->effects_elsewhere);
        mark_note(&other, fixed, known, amount);
    }
}

/* The corrected step is read again in any case; a derived one through its readings. */
static void mark_itself(const hl_table *table, int step, int depth)
{
    const hl_step *s = &table->book->steps[step];
    if (s->kind != HL_DERIVED || !s->formula || depth >= HL_FORMULA_DEPTH) {
        table->marks_again[step] = 1;
        return;
    }
    for (int i = 0; i < s->formula->n_vars; i++)
        if (s->formula->vars[i].kind == HL_VAR_STEP && !table->marks_again[s->formula->vars[i].index])
            mark_itself(table, s->formula->vars[i].index, depth + 1);
}

static bool list_marks(const hl_table *table, const unsigned char *marks, const int **list, int *n)
{
    int count = 0;
    for (int i = 0; i < table->book->n_steps; i++)
        count += marks[i];
    if (count == 0) {
        *list = NULL;
        *n = 0;
        return true;
    }
    int *steps = hl__arena_array(table->arena, (size_t)count + 1, sizeof *steps);
    if (!steps)
        return false;
    *list = steps;
    *n = count;
    for (int i = 0; count > 0; i++)
        if (marks[i]) {
            *steps++ = i;
            count--;
        }
    return true;
}

bool hl__predict_consequences(const hl_prediction *touch, int step, bool known, hl_amount amount,
                              hl_correction *out)
{
    const hl_table *table = touch->table;
    size_t n = (size_t)table->book->n_steps;
    memset(table->marks_again, 0, n);
    memset(table->marks_spoil, 0, n);
    mark_itself(table, step, 0);
    mark_note(touch, step, known, amount);
    if (touch->note == 0 && table->book->adjusters[touch->adjuster].whole)
        mark_whole(touch, step, known, amount);
    return list_marks(table, table->marks_again, &out->again, &out->n_again) &&
           list_marks(table, table->marks_spoil, &out->spoils, &out->n_spoils);
}
