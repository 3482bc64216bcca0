/* evenness.c - a note against its neighbours (layer: judge).
 *
 * (reading - aim) is compared, so that a graded target is no unevenness.  The nearest four that are in range
 * are a note's measure: a note beside a few bad ones is not the uneven one.  Medians of four are halves; all
 * sums here are doubled instead, and stay whole. */
#include "evenness.h"

#include "median.h"
#include "tolerance_float.h"

#define NEIGHBOURS     4
#define FEWEST_TO_TELL 3

/* Of four the middle two are left without the outer ones. */
static hl_amount join_four(hl_amount a, hl_amount b, hl_amount c, hl_amount d)
{
    const hl_amount low_a = a < b ? a : b, high_a = a < b ? b : a;
    const hl_amount low_b = c < d ? c : d, high_b = c < d ? d : c;
    return a + b + c + d - (low_a < low_b ? low_a : low_b) - (high_a > high_b ? high_a : high_b);
}

/* A step's readings as distances from their aims. */
typedef struct offsets {
    hl_amount at[HL_NOTES];
    bool in_range[HL_NOTES];
    hl_amount least, most; /* of those in range */
} offsets;

/* What stands out of its neighbours stays a measure for others. */
static bool is_in_range(unsigned char state)
{
    return state == HL_STATE_PASS || state == HL_STATE_FLOATED || state == HL_STATE_UNEVEN;
}

static void lay_offsets(offsets *out, const hl_table *table, int step)
{
    const int row = hl__place(step, 0);
    const unsigned char *states = table->states + row;
    const hl_amount *aims = table->head->sheet->form->aim + row;
    out->least = INT64_MAX;
    out->most = INT64_MIN;
    out->in_range[0] = false;
    for (int note = 1; note <= table->keys; note++) {
        const hl_amount offset = table->values[row + note] - aims[note];
        const bool in_range = is_in_range(states[note]);
        out->at[note] = offset;
        out->in_range[note] = in_range;
        out->least = in_range && offset < out->least ? offset : out->least;
        out->most = in_range && offset > out->most ? offset : out->most;
    }
}

/* Twice the median of the nearest offsets in range; false when there are fewer than three. */
static bool find_lean(const unsigned char *near, const offsets *all, hl_amount *lean)
{
    hl_amount found[NEIGHBOURS];
    int n = 0;
    /* note 0 is never in range, and is at the list's end */
    if (all->in_range[near[0]] && all->in_range[near[1]] && all->in_range[near[2]] &&
        all->in_range[near[3]]) {
        *lean = join_four(all->at[near[0]], all->at[near[1]], all->at[near[2]], all->at[near[3]]);
        return true;
    }
    for (; *near != 0 && n < NEIGHBOURS; near++)
        if (all->in_range[*near])
            found[n++] = all->at[*near];
    if (n < FEWEST_TO_TELL)
        return false;
    if (n == FEWEST_TO_TELL) {
        const hl_amount low = found[0] < found[1] ? found[0] : found[1];
        const hl_amount high = found[0] < found[1] ? found[1] : found[0];
        *lean = 2 * (found[2] < low ? low : found[2] > high ? high : found[2]);
    } else {
        *lean = join_four(found[0], found[1], found[2], found[3]);
    }
    return true;
}

/* Has the step one number a note, with a target to measure it from? */
static bool is_compared(const hl_step *step)
{
    return step->kind != HL_JUDGED && step->scope != HL_ONCE && step->targets != NULL;
}

/* Where all lie closer together than one may stand out, none does. */
static void mark_step(hl_table *table, int index)
{
    const hl_step *step = &table->book->steps[index];
    const int row = hl__place(index, 0);
    offsets all;
    if (step->even <= 0 || !is_compared(step) || table->counts[index][HL_PASS] < FEWEST_TO_TELL)
        return;
    lay_offsets(&all, table, index);
    if (all.most - all.least <= step->even)
        return;
    const unsigned char *near = hl__head_near(table->head, step, 0);
    for (int note = 1; note <= table->keys; note++) {
        hl_amount lean = 0;
        if (!all.in_range[note] || !find_lean(near + hl__place(note, 0), &all, &lean))
            continue;
        const hl_amount out = 2 * all.at[note] - lean;
        if ((out < 0 ? -out : out) <= 2 * step->even)
            continue;
        table->lean[row + note] = lean;
        hl__table_change(table, index, row + note, HL_STATE_UNEVEN);
    }
}

void hl__even_mark(hl_table *table)
{
    const int floating = table->book->floats.step;
    for (int step = 0; step < table->book->n_steps; step++)
        if (step != floating)
            mark_step(table, step);
    hl__float_mark(table);
    if (floating >= 0)
        mark_step(table, floating);
}

bool hl__even_lean(const hl_table *table, int step, int note, hl_amount *lean_double)
{
    offsets all;
    if (!is_compared(&table->book->steps[step]) || note < 1)
        return false;
    lay_offsets(&all, table, step);
    return find_lean(hl__head_near(table->head, &table->book->steps[step], note), &all, lean_double);
}

/* Only a fresh number can be compared: not go/no-go, not stale, not a model's guess. */
static bool has_number(const hl_table *table, int place)
{
    return hl__state_is_number((hl_state)table->states[place]);
}

bool hl__even_out(const hl_table *table, int step, int note, hl_amount *out_double)
{
    const int place = hl__place(step, note);
    hl_amount lean = 0;
    if (!has_number(table, place) || !hl__even_lean(table, step, note, &lean))
        return false;
    *out_double = 2 * (table->values[place] - hl__table_target(table, step, note)->aim) - lean;
    return true;
}

static void measure_spread(const hl_table *table, int step, const offsets *all, hl_tally *tally)
{
    hl_amount found[HL_NOTES];
    int n = 0;
    for (int note = 1; note <= table->keys; note++)
        if (has_number(table, hl__place(step, note)))
            found[n++] = all->at[note];
    tally->has_mad = n >= FEWEST_TO_TELL;
    if (tally->has_mad)
        tally->mad = hl__mad(found, n);
}

void hl__even_tally(const hl_table *table, int step, hl_tally *tally)
{
    const hl_step *s = &table->book->steps[step];
    offsets all;
    if (s->even <= 0 || !is_compared(s))
        return;
    lay_offsets(&all, table, step);
    measure_spread(table, step, &all, tally);
    for (int note = 1; note <= table->keys; note++) {
        hl_amount lean = 0;
        if (!has_number(table, hl__place(step, note)) ||
            !find_lean(hl__head_near(table->head, s, note), &all, &lean))
            continue;
        const hl_amount out = 2 * all.at[note] - lean, size = out < 0 ? -out : out;
        if (!tally->has_unevenness || size / 2 + size % 2 > tally->unevenness)
            tally->unevenness = size / 2 + size % 2;
        tally->has_unevenness = true;
    }
}
