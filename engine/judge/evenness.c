/* evenness.c - a note against its neighbours (layer: judge).
 *
 * (reading - aim) is compared, so that a graded target is no unevenness.  Medians of four are
 * halves; all sums here are doubled instead, and stay whole. */
#include "evenness.h"

#include "median.h"

#define NEIGHBOURS     4
#define FEWEST_TO_TELL 3

/* Only a fresh number can be compared: not go/no-go, not stale, not a model's guess. */
static bool has_number(const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    return s->listed && s->has_value && (s->verdict == HL_PASS || s->verdict == HL_FAIL);
}

/* A note beside a few bad ones is not the uneven one: only what is in range is compared with. */
static bool is_in_range(const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    return has_number(table, step, note) && (s->verdict == HL_PASS || s->why == HL_WHY_UNEVEN);
}

static bool is_neighbour(const hl_table *table, int step, int note, int other)
{
    hl_compass compass = table->sheet->compass;
    if (!is_in_range(table, step, other)) /* the cheapest question, and on a new sheet the usual answer */
        return false;
    if (hl_pitch_is_sharp(hl_note_pitch(compass, note)) != hl_pitch_is_sharp(hl_note_pitch(compass, other)))
        return false;
    return !table->book->steps[step].breaks ||
           hl__sheet_section(table->sheet, note) == hl__sheet_section(table->sheet, other);
}

static hl_amount find_offset(const hl_table *table, int step, int note)
{
    return hl__table_at(table, step, note)->value - hl__table_target(table, step, note)->aim;
}

/* Put an offset into its place among the n smaller ones. */
static void insert_offset(hl_amount *sorted, int n, hl_amount offset)
{
    while (n > 0 && sorted[n - 1] > offset) {
        sorted[n] = sorted[n - 1];
        n--;
    }
    sorted[n] = offset;
}

/* The nearest first, outward on both sides. */
static int collect_offsets(const hl_table *table, int step, int note, hl_amount *sorted)
{
    int n = 0;
    for (int away = 1; away < table->keys && n < NEIGHBOURS; away++) {
        int below = note - away, above = note + away;
        if (below >= 1 && is_neighbour(table, step, note, below))
            insert_offset(sorted, n++, find_offset(table, step, below));
        if (n < NEIGHBOURS && above <= table->keys && is_neighbour(table, step, note, above))
            insert_offset(sorted, n++, find_offset(table, step, above));
    }
    return n;
}

bool hl__even_lean(const hl_table *table, int step, int note, hl_amount *lean_double)
{
    hl_amount sorted[NEIGHBOURS];
    if (!hl__table_holds(table, step, note) || note < 1)
        return false;
    int n = collect_offsets(table, step, note, sorted);
    if (n < FEWEST_TO_TELL)
        return false;
    *lean_double = hl__median_double(sorted, n);
    return true;
}

static void compare_note(hl_table *table, int step, int note, hl_tally *tally)
{
    hl_standing *s = hl__table_at(table, step, note);
    if (!hl__even_lean(table, step, note, &s->lean_double))
        return;
    s->has_lean = true;
    hl_amount out_double = 2 * find_offset(table, step, note) - s->lean_double;
    hl_amount size_double = out_double < 0 ? -out_double : out_double;
    hl_amount size = size_double / 2 + size_double % 2;
    if (!tally->has_unevenness || size > tally->unevenness)
        tally->unevenness = size;
    tally->has_unevenness = true;
    if (s->verdict == HL_PASS && size_double > 2 * table->book->steps[step].even) {
        s->verdict = HL_FAIL;
        s->why = HL_WHY_UNEVEN;
        s->shift = out_double < 0 ? -size : size;
    }
}

static void measure_spread(const hl_table *table, int step, hl_tally *tally)
{
    hl_amount offsets[HL_PITCHES];
    int n = 0;
    for (int note = 1; note <= table->keys && n < HL_PITCHES; note++)
        if (has_number(table, step, note))
            offsets[n++] = find_offset(table, step, note);
    tally->has_mad = n >= FEWEST_TO_TELL;
    if (tally->has_mad)
        tally->mad = hl__mad(offsets, n);
}

void hl__even_mark(hl_table *table, int step, hl_tally *tally)
{
    const hl_step *s = &table->book->steps[step];
    if (s->even <= 0 || s->kind == HL_JUDGED || s->scope == HL_ONCE)
        return;
    measure_spread(table, step, tally);
    for (int note = 1; note <= table->keys; note++)
        if (has_number(table, step, note))
            compare_note(table, step, note, tally);
}
