/* comparable.c - are two readings of one note of the same thing (layer: measure). */
#include "comparable.h"

#include "effects_cache.h"

/* Deeds stand in the order of their rows: the first one at or after `row`. */
static int find_deed(const hl_table *table, long row)
{
    int low = 0, high = table->n_adjustments;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (table->adjustments[middle].at < row)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

bool hl__adjusted_between(const hl_table *table, int step, int note, long from, long to)
{
    for (int i = find_deed(table, from); i < table->n_adjustments && table->adjustments[i].at < to; i++) {
        const hl_adjustment *adjustment = &table->adjustments[i];
        if (!adjustment->everywhere && adjustment->note != note)
            continue;
        hl__table_values(table, note, table->note_values);
        hl__effects_of(table, adjustment, note, table->note_values, table->effects);
        if (table->effects[step].kind == HL_EFFECT_BY || table->effects[step].kind == HL_EFFECT_STRONG)
            return true;
    }
    return false;
}

/* A single limit with the aim on it gives no measure of how fine to read. */
static bool find_width(const hl_target *target, hl_amount *out)
{
    if (target->has_low && target->has_high) {
        *out = target->high - target->low;
        return true;
    }
    *out = target->has_low ? target->aim - target->low : target->has_high ? target->high - target->aim : 0;
    return *out > 0;
}

bool hl__narrowest(const hl_table *table, int step, hl_amount *out)
{
    bool any = false;
    for (int note = 0; note <= table->keys; note++) {
        hl_amount width = 0;
        if (!hl__table_holds(table, step, note) ||
            !hl__sheet_applies(table->sheet, &table->book->steps[step], note) ||
            !find_width(hl__table_target(table, step, note), &width))
            continue;
        if (!any || width < *out)
            *out = width;
        any = true;
    }
    return any;
}
