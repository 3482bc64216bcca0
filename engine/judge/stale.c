/* stale.c - readings that an adjustment made since then has overtaken (layer: judge).
 *
 * All adjustments after a reading are summed before they are judged: a capstan turned up and
 * back down again leaves the reading fresh. */
#include "stale.h"

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
    return size > table->book->steps[step].gauge && (double)size > share * (double)half;
}

/* What one adjustment (row `at`) does to the readings of one note that were made before it. */
static void move_note(hl_table *table, long at, int note)
{
    const hl_event *event = &table->sheet->events[at];
    hl__table_values(table, note, table->values);
    hl__effects_at(table->book, table->sheet, event->step, note, table->values, table->effects);
    for (int i = 0; i < table->book->n_steps; i++) {
        const hl_effect *effect = &table->effects[i];
        hl_standing *s = hl__table_at(table, i, note);
        if (!hl__table_holds(table, i, note) || s->event < 0 || s->event > at)
            continue;
        if (effect->kind == HL_EFFECT_STRONG || (effect->kind == HL_EFFECT_BY && event->no_amount))
            s->strong = true;
        else if (effect->kind == HL_EFFECT_BY)
            s->moved += effect->by * (double)event->amount / (double)HL_ONE;
    }
}

static void mark_read(hl_table *table, int step, int note)
{
    hl_standing *s = hl__table_at(table, step, note);
    hl_amount shift = 0;
    if (s->verdict != HL_PASS && s->verdict != HL_FAIL)
        return;
    if (!hl__amount_from(s->moved, &shift))
        s->strong = true;
    if (!s->strong && !hl__stale_matters(table, step, note, shift))
        return;
    s->verdict = HL_STALE;
    s->why = HL_WHY_ADJUSTED;
    s->shift = shift;
}

/* A reading that the book leaves out is never called stale, but it can have been overtaken. */
bool hl__stale_overtaken(const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    hl_amount shift = 0;
    if (s->verdict != HL_NOT_APPLICABLE || s->event < 0)
        return s->verdict == HL_STALE;
    return s->strong || !hl__amount_from(s->moved, &shift) || hl__stale_matters(table, step, note, shift);
}

static bool uses_stale(const hl_table *table, int step, int note)
{
    const hl_formula *formula = table->book->steps[step].formula;
    for (int i = 0; formula && i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && hl__stale_overtaken(table, formula->vars[i].index, note))
            return true;
    return false;
}

/* How far the derived value should have moved, from what its readings should be now. */
static void fill_derived_shift(hl_table *table, int step, int note)
{
    hl_standing *s = hl__table_at(table, step, note);
    bool assumed = false;
    hl__table_values(table, note, table->after);
    for (int i = 0; i < table->book->n_steps; i++)
        table->after[i] += hl__table_at(table, i, note)->moved;
    double now = hl__step_formula_value(table->book, table->sheet, step, note, table->after, &assumed);
    s->moved = isnan(now) ? 0 : now - s->exact;
    if (!hl__amount_from(s->moved, &s->shift))
        s->shift = 0;
}

/* True when something became stale that others may be derived from. */
static bool mark_computed(hl_table *table, int step, int note)
{
    hl_standing *s = hl__table_at(table, step, note);
    if (!s->computed || !uses_stale(table, step, note))
        return false;
    if (s->verdict == HL_MISSING) {
        /* the model's value rests on readings that no longer hold */
        s->has_value = s->computed = false;
        return false;
    }
    if (s->verdict != HL_PASS && s->verdict != HL_FAIL)
        return false;
    s->verdict = HL_STALE;
    s->why = HL_WHY_ADJUSTED;
    fill_derived_shift(table, step, note);
    return true;
}

static void mark_note(hl_table *table, int note)
{
    for (int i = 0; i < table->book->n_steps; i++)
        if (hl__table_holds(table, i, note) && hl__table_at(table, i, note)->event >= 0)
            mark_read(table, i, note);
    bool changed = true;
    while (changed) { /* each round makes one more stale, so it ends */
        changed = false;
        for (int i = 0; i < table->book->n_steps; i++)
            if (hl__table_holds(table, i, note) && mark_computed(table, i, note))
                changed = true;
    }
}

void hl__stale_mark(hl_table *table)
{
    bool any = false;
    for (size_t i = 0; i < table->sheet->n_events; i++) {
        const hl_event *event = &table->sheet->events[i];
        if (event->kind != HL_EVENT_ADJUSTMENT || event->withdrawn)
            continue;
        any = true;
        if (event->note > 0 && !table->book->adjusters[event->step].whole) {
            move_note(table, (long)i, event->note);
            continue;
        }
        for (int note = 0; note <= table->keys; note++)
            move_note(table, (long)i, note);
    }
    for (int note = 0; any && note <= table->keys; note++)
        mark_note(table, note);
}
