/* stale.c - readings that an adjustment made since then has overtaken (layer: judge).
 *
 * All adjustments after a reading, recorded or presumed (presume.c), are summed before they are
 * judged: a capstan turned up and back down again leaves the reading fresh. */
#include "stale.h"

#include "guard_band.h"

#include <math.h>

static hl_amount find_size(hl_amount amount)
{
    return amount < 0 ? -amount : amount;
}

/* A one-sided target is as wide as from its limit to its aim; a step without limits bears no
 * more than its gauge, because others may be computed from it. */
static hl_amount find_half_width(const hl_target *target)
{
    if (target->has_low && target->has_high)
        return (target->high - target->low) / 2;
    if (target->has_low)
        return find_size(target->aim - target->low);
    return target->has_high ? find_size(target->high - target->aim) : 0;
}

bool hl__stale_matters(const hl_table *table, int step, int note, hl_amount shift)
{
    hl_amount half = find_half_width(hl__table_target(table, step, note));
    hl_amount size = find_size(shift);
    double share = (double)table->book->stale_share / (double)HL_ONE;
    hl_gauge_from from;
    hl_amount gauge = hl__gauge_reading(table->sheet, table->book, step, &from);
    return size > (from == HL_GAUGE_RESOLUTION ? 0 : gauge) && (double)size > share * (double)half;
}

static void move_reading(hl_standing *s, const hl_effect *effect, const hl_deed *deed, int index)
{
    bool recorded = deed->because < 0;
    if (effect->kind == HL_EFFECT_NONE)
        return;
    if (effect->kind == HL_EFFECT_SLIGHT) {
        s->slight = true;
        return;
    }
    if (!recorded)
        s->guess = index + 1;
    if (effect->kind == HL_EFFECT_STRONG || effect->again || deed->unknown) {
        s->strong = true;
        s->recorded_strong = s->recorded_strong || recorded;
        return;
    }
    s->moved += effect->by * deed->amount;
    s->guessed += recorded ? 0 : effect->by * deed->amount;
}

/* What one adjustment does to the readings of one note that were made before it. */
static void move_note(hl_table *table, int index, int note)
{
    const hl_deed *deed = &table->deeds[index];
    hl__table_values(table, note, table->values);
    hl__effects_now(table, deed->adjuster, note, table->values, table->effects);
    for (int i = 0; i < table->book->n_steps; i++) {
        hl_standing *s = hl__table_at(table, i, note);
        if (hl__table_holds(table, i, note) && s->event >= 0 && s->event <= deed->at)
            move_reading(s, &table->effects[i], deed, index);
    }
}

/* Would it be stale by what is on record alone? */
static bool is_on_record(const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    hl_amount shift = 0;
    if (s->recorded_strong || s->guess == 0)
        return true;
    return !hl__amount_from(s->moved - s->guessed, &shift) || hl__stale_matters(table, step, note, shift);
}

static void mark_read(hl_table *table, int step, int note)
{
    hl_standing *s = hl__table_at(table, step, note);
    hl_amount shift = 0;
    if (s->verdict != HL_PASS && s->verdict != HL_FAIL && s->verdict != HL_DOUBTFUL)
        return;
    if (!hl__amount_from(s->moved, &shift))
        s->strong = true;
    if (!s->strong && !hl__stale_matters(table, step, note, shift))
        return;
    s->verdict = HL_STALE;
    s->why = HL_WHY_ADJUSTED;
    s->shift = s->strong ? 0 : shift; /* then nobody knows */
    s->presumed = !is_on_record(table, step, note);
}

/* A reading that the book leaves out is never called stale, but it can have been overtaken. */
bool hl__stale_overtaken(const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    hl_amount shift = 0;
    if (s->verdict != HL_NOT_APPLICABLE || s->event < 0)
        return s->verdict == HL_STALE || s->overtaken;
    return s->strong || !hl__amount_from(s->moved, &shift) || hl__stale_matters(table, step, note, shift);
}

/* Does it rest on a reading that has been overtaken?  *guess: by presumed adjustments alone. */
static bool uses_stale(const hl_table *table, int step, int note, int *guess)
{
    const hl_formula *formula = table->book->steps[step].formula;
    bool any = false, recorded = false;
    *guess = 0;
    for (int i = 0; formula && i < formula->n_vars; i++) {
        int from = formula->vars[i].index;
        if (formula->vars[i].kind != HL_VAR_STEP || !hl__stale_overtaken(table, from, note))
            continue;
        const hl_standing *s = hl__table_at(table, from, note);
        any = true;
        recorded = recorded || (s->verdict == HL_STALE ? !s->presumed : s->guess == 0);
        *guess = s->guess ? s->guess : *guess;
    }
    *guess = recorded ? 0 : *guess;
    return any;
}

/* How far the derived value should have moved, from what its readings should be now. */
static double find_derived_shift(hl_table *table, int step, int note)
{
    bool assumed = false;
    hl__table_values(table, note, table->after);
    for (int i = 0; i < table->book->n_steps; i++)
        table->after[i] += hl__table_at(table, i, note)->moved;
    double now = hl__step_formula_value(table->book, table->sheet, step, note, table->after, &assumed);
    return isnan(now) ? 0 : now - hl__table_at(table, step, note)->exact;
}

static void make_computed_stale(hl_standing *s, int guess)
{
    s->verdict = HL_STALE;
    s->why = HL_WHY_ADJUSTED;
    s->presumed = guess > 0;
    s->guess = guess;
    if (!hl__amount_from(s->moved, &s->shift))
        s->shift = 0;
}

/* Slight shifts of two readings can come to one that the step derived from them can't bear.  How far a step
 * moved is found whatever its verdict: others may be computed from one that is not judged here. */
static void mark_computed(hl_table *table, int step, int note)
{
    hl_standing *s = hl__table_at(table, step, note);
    int guess = 0;
    hl_amount shift = 0;
    bool overtaken = uses_stale(table, step, note, &guess);
    if (table->book->steps[step].kind != HL_DERIVED) {
        /* the model's value rests on readings that no longer hold */
        if (s->verdict == HL_MISSING)
            s->has_value = s->computed = s->computed && !overtaken;
        return;
    }
    if (isnan(s->exact))
        return;
    s->moved = find_derived_shift(table, step, note);
    if (!overtaken && hl__amount_from(s->moved, &shift) && !hl__stale_matters(table, step, note, shift))
        return;
    s->overtaken = true;
    s->guess = guess;
    if (s->computed && s->verdict != HL_NOT_APPLICABLE)
        make_computed_stale(s, guess);
}

static void mark_note(hl_table *table, int note)
{
    for (int i = 0; i < table->book->n_steps; i++)
        if (hl__table_holds(table, i, note) && hl__table_at(table, i, note)->event >= 0)
            mark_read(table, i, note);
    for (int k = 0; k < table->book->n_order; k++)
        if (hl__table_holds(table, table->book->order[k], note))
            mark_computed(table, table->book->order[k], note);
}

void hl__stale_mark(hl_table *table)
{
    for (int i = 0; i < table->n_deeds; i++) {
        const hl_deed *deed = &table->deeds[i];
        int from = deed->everywhere ? 0 : deed->note, to = deed->everywhere ? table->keys : deed->note;
        for (int note = from; note <= to; note++)
            move_note(table, i, note);
    }
    for (int note = 0; table->n_deeds > 0 && note <= table->keys; note++)
        mark_note(table, note);
}
