/* stale.c - readings that an adjustment made since then has overtaken (layer: state).
 *
 * All adjustments after a reading, recorded or not, are summed before they are judged: a capstan turned up
 * and back down again leaves the reading fresh. */
#include "stale.h"

#include "effects_cache.h"
#include "evidence.h"
#include "gauge_reading.h"
#include "step_formula.h"

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

/* ---- what work did to a reading --------------------------------------------------------------------- */

static void move_reading(hl_moved *moved, const hl_effect *effect, const hl_adjustment *adjustment, int index)
{
    const bool recorded = adjustment->because < 0;
    if (effect->kind == HL_EFFECT_NONE)
        return;
    if (effect->kind == HL_EFFECT_SLIGHT) {
        moved->slight = true;
        return;
    }
    if (!recorded)
        moved->guess = index + 1;
    if (effect->kind == HL_EFFECT_STRONG || effect->again || adjustment->unknown) {
        moved->strong = true;
        moved->recorded_strong = moved->recorded_strong || recorded;
        return;
    }
    moved->by += effect->by * adjustment->amount;
    moved->guessed += recorded ? 0 : effect->by * adjustment->amount;
}

/* What one adjustment does to the readings of one note that were made before it. */
static void move_note(hl_table *table, int index, int note)
{
    const hl_adjustment *adjustment = &table->adjustments[index];
    hl__table_values(table, note, table->note_values);
    hl__effects_of(table, adjustment, note, table->note_values, table->effects);
    for (int i = 0; i < table->book->n_steps; i++) {
        if (!hl__table_holds(table, i, note))
            continue;
        const int event = hl__table_event(table, i, note);
        if (event >= 0 && hl__evidence_before(table->sheet, event, adjustment))
            move_reading(&table->moved[hl__place(i, note)], &table->effects[i], adjustment, index);
    }
}

/* ---- what was read ---------------------------------------------------------------------------------- */

/* Would it be stale by what is on record alone? */
static bool is_on_record(const hl_table *table, int step, int note, const hl_moved *moved)
{
    hl_amount shift = 0;
    if (moved->recorded_strong || moved->guess == 0)
        return true;
    return !hl__amount_from(moved->by - moved->guessed, &shift) ||
           hl__stale_matters(table, step, note, shift);
}

/* A passing reading that the work on record has taken past a limit: too little to call it stale, too much to
 * call it right. */
static bool leaves_limits(const hl_table *table, int place, hl_amount shift)
{
    return shift != 0 && table->states[place] == HL_STATE_PASS &&
           hl__table_by_limits(table, place, table->values[place] + shift) != HL_STATE_PASS;
}

/* A reading that is not judged here is never called stale, but it can have been overtaken. */
static void mark_read(hl_table *table, int step, int note)
{
    const int place = hl__place(step, note);
    hl_moved *moved = &table->moved[place];
    const hl_verdict verdict = hl__meanings[table->states[place]].verdict;
    const bool judged = verdict == HL_PASS || verdict == HL_FAIL || verdict == HL_DOUBTFUL;
    hl_amount shift = 0;
    if (!judged && verdict != HL_NOT_APPLICABLE)
        return;
    const bool far = !hl__amount_from(moved->by, &shift);
    moved->strong = moved->strong || (judged && far);
    if (!moved->strong && !far && !hl__stale_matters(table, step, note, shift) &&
        !leaves_limits(table, place, shift))
        return;
    moved->overtaken = true;
    if (!judged)
        return;
    moved->presumed = !is_on_record(table, step, note, moved);
    hl__table_change(table, step, place, HL_STATE_STALE);
}

/* ---- what is computed ------------------------------------------------------------------------------- */

/* Does it rest on a reading that has been overtaken?  *guess: by unrecorded adjustments alone. */
static bool uses_overtaken(const hl_table *table, int step, int note, int *guess)
{
    const hl_formula *formula = table->book->steps[step].formula;
    bool any = false, recorded = false;
    *guess = 0;
    for (int i = 0; i < formula->n_vars; i++) {
        const int from = formula->vars[i].index;
        if (formula->vars[i].kind != HL_VAR_STEP || !hl__table_overtaken(table, from, note))
            continue;
        const hl_moved *moved = hl__table_moved(table, from, note);
        const bool stale = hl__table_state(table, from, note) == HL_STATE_STALE;
        any = true;
        recorded = recorded || (stale ? !moved->presumed : moved->guess == 0);
        *guess = moved->guess ? moved->guess : *guess;
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
        table->after[i] += hl__table_moved(table, i, note)->by;
    double now = hl__step_formula_value(table->book, table->sheet, step, note, table->after, &assumed);
    return isnan(now) ? 0 : now - hl__table_exact(table, step, note);
}

/* Slight shifts of two readings can come to one that the step derived from them can't bear.  How far a step
 * moved is found whatever its verdict: others may be computed from one that is not judged here. */
static void mark_computed(hl_table *table, int step, int note)
{
    const int place = hl__place(step, note);
    hl_moved *moved = &table->moved[place];
    int guess = 0;
    hl_amount shift = 0;
    if (isnan(table->exact[place]))
        return;
    const bool overtaken = uses_overtaken(table, step, note, &guess);
    moved->by = find_derived_shift(table, step, note);
    if (!overtaken && hl__amount_from(moved->by, &shift) && !hl__stale_matters(table, step, note, shift))
        return;
    moved->overtaken = true;
    moved->guess = guess;
    if (!hl__state_is_number((hl_state)table->states[place]))
        return;
    moved->presumed = guess > 0;
    hl__table_change(table, step, place, HL_STATE_STALE);
}

static void mark_note(hl_table *table, int note)
{
    for (int i = 0; i < table->book->n_steps; i++)
        if (hl__table_holds(table, i, note) && hl__table_event(table, i, note) >= 0)
            mark_read(table, i, note);
    for (int k = 0; k < table->book->n_order; k++) {
        const int step = table->book->order[k];
        if (table->book->steps[step].kind == HL_DERIVED && hl__table_holds(table, step, note))
            mark_computed(table, step, note);
    }
}

bool hl__stale_mark(hl_table *table)
{
    if (table->n_adjustments == 0)
        return true;
    table->moved =
        hl__arena_array(table->arena, (size_t)table->book->n_steps * HL_NOTES, sizeof *table->moved);
    if (!table->moved)
        return false;
    for (int i = 0; i < table->n_adjustments; i++) {
        const hl_adjustment *adjustment = &table->adjustments[i];
        int from = adjustment->everywhere ? 0 : adjustment->note;
        int to = adjustment->everywhere ? table->keys : adjustment->note;
        for (int note = from; note <= to; note++)
            move_note(table, i, note);
    }
    for (int note = 0; note <= table->keys; note++)
        mark_note(table, note);
    return true;
}
