/* effects_cache.c - effects worked out once for all sheets that state the same facts (layer: state). */
#include "effects_cache.h"

#include <string.h>

/* Of one adjuster at the notes of one colour. */
typedef struct cache_set {
    hl_effect *effects; /* [n_steps] */
    int *again;         /* steps to be reckoned at each note, in order */
    int n_again;
    int *moved; /* all steps that may be moved, ascending */
    int n_moved;
} cache_set;

struct hl_effects_cache {
    cache_set *sets; /* [n_adjusters][2] */
};

/* Has each reading in the formula an aim at every note of the colour, to stand in where it was not read?
 * Else an unknown one could make the slope unknown. */
static bool has_aims(const hl_book *book, const hl_sheet *sheet, const hl_formula *formula, int colour)
{
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP)
            continue;
        const hl_step *step = &book->steps[var->index];
        if (var->aspect != HL_ASPECT_VALUE || step->kind == HL_JUDGED || !step->targets ||
            step->scope == HL_ONCE)
            return false;
        for (int note = 1; note <= sheet->compass.keys; note++) {
            const int pitch = hl_note_pitch(sheet->compass, note);
            const hl_target *target = hl__book_target(book, var->index, pitch);
            if (hl_pitch_is_sharp(pitch) == (colour == 1) && !target->has_low && !target->has_high)
                return false;
        }
    }
    return true;
}

static bool is_touched(const cache_set *set, const hl_formula *formula, const unsigned char *open)
{
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP &&
            (set->effects[formula->vars[i].index].kind != HL_EFFECT_NONE || open[formula->vars[i].index]))
            return true;
    return false;
}

static bool is_open(const hl_formula *formula, const unsigned char *open)
{
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && open[formula->vars[i].index])
            return true;
    return false;
}

/* `note` is any of the colour; `open`: [n_steps], steps whose effect hangs on the note's readings. */
static void fill_set(cache_set *set, const hl_book *book, const hl_sheet *sheet, int adjuster, int note,
                     int colour, unsigned char *open)
{
    const hl_adjuster *a = &book->adjusters[adjuster];
    memset(open, 0, (size_t)book->n_steps);
    for (int i = 0; i < a->n_moves; i++)
        if (!book->steps[a->moves[i].step].formula)
            set->effects[a->moves[i].step] = hl__effect_of_move(book, sheet, adjuster, &a->moves[i], note);
    for (int k = 0; k < book->n_order; k++) {
        const int step = book->order[k];
        const hl_formula *formula = book->steps[step].formula;
        if (!is_touched(set, formula, open))
            continue;
        if (!is_open(formula, open) && hl__formula_is_linear(formula) &&
            has_aims(book, sheet, formula, colour)) {
            set->effects[step] = hl__effect_chained(book, sheet, step, note, NULL, set->effects);
            continue;
        }
        open[step] = 1;
        set->again[set->n_again++] = step;
    }
    for (int i = 0; i < book->n_steps; i++)
        if (open[i] || set->effects[i].kind != HL_EFFECT_NONE)
            set->moved[set->n_moved++] = i;
}

static int find_first(const hl_sheet *sheet, int colour)
{
    for (int note = 1; note <= sheet->compass.keys; note++)
        if (hl_pitch_is_sharp(hl_note_pitch(sheet->compass, note)) == (colour == 1))
            return note;
    return 0;
}

/* Moves are reckoned from facts alone, as the host sees to; here it is made sure of. */
static bool rests_on_facts(const hl_book *book)
{
    for (int i = 0; i < book->n_adjusters; i++)
        for (int k = 0; k < book->adjusters[i].n_moves; k++) {
            const hl_formula *formula = book->adjusters[i].moves[k].formula;
            for (int v = 0; formula && v < formula->n_vars; v++)
                if (formula->vars[v].kind != HL_VAR_FACT)
                    return false;
        }
    return true;
}

const hl_effects_cache *hl__effects_cache_new(hl_arena *arena, const hl_book *book, const hl_sheet *sheet)
{
    const size_t steps = (size_t)book->n_steps + 1, sets = 2 * ((size_t)book->n_adjusters + 1);
    hl_effects_cache *cache = hl__arena_take(arena, sizeof *cache);
    unsigned char *marks = hl__arena_array(arena, steps, 1);
    if (!cache || !marks || !rests_on_facts(book))
        return NULL;
    cache->sets = hl__arena_array(arena, sets, sizeof *cache->sets);
    if (!cache->sets)
        return NULL;
    for (int i = 0; i < book->n_adjusters; i++)
        for (int colour = 0; colour < 2; colour++) {
            cache_set *set = &cache->sets[2 * i + colour];
            const int note = find_first(sheet, colour);
            set->effects = hl__arena_array(arena, steps, sizeof *set->effects);
            set->again = hl__arena_array(arena, (size_t)book->n_order + 1, sizeof *set->again);
            set->moved = hl__arena_array(arena, steps, sizeof *set->moved);
            if (!set->effects || !set->again || !set->moved)
                return NULL;
            if (note > 0)
                fill_set(set, book, sheet, i, note, colour, marks);
        }
    return cache;
}

bool hl__effects_cache_get(const hl_effects_cache *cache, const hl_book *book, const hl_sheet *sheet,
                           int adjuster, int note, const double *values, hl_effect *effects)
{
    if (note < 1)
        return false;
    const int colour = hl_pitch_is_sharp(hl_note_pitch(sheet->compass, note));
    const cache_set *set = &cache->sets[2 * adjuster + colour];
    memcpy(effects, set->effects, (size_t)book->n_steps * sizeof *effects);
    for (int i = 0; i < set->n_again; i++)
        effects[set->again[i]] = hl__effect_chained(book, sheet, set->again[i], note, values, effects);
    return true;
}

const int *hl__effects_cache_moved(const hl_effects_cache *cache, const hl_sheet *sheet, int adjuster,
                                   int note, int *n)
{
    if (note < 1)
        return NULL;
    const cache_set *set =
        &cache->sets[2 * adjuster + hl_pitch_is_sharp(hl_note_pitch(sheet->compass, note))];
    *n = set->n_moved;
    return set->moved;
}

void hl__effects_now(const hl_table *table, int adjuster, int note, const double *values, hl_effect *effects)
{
    const double *factors =
        table->factors ? table->factors + (size_t)adjuster * (size_t)table->book->n_steps : NULL;
    const hl_effects_cache *cache = table->factors ? NULL : table->head->effects;
    if (!cache || !hl__effects_cache_get(cache, table->book, table->sheet, adjuster, note, values, effects))
        hl__effects_learned(table->book, table->sheet, factors, adjuster, note, values, effects);
}

const int *hl__effects_moved(const hl_table *table, int adjuster, int note, int *n)
{
    return table->head->effects && !table->factors
               ? hl__effects_cache_moved(table->head->effects, table->sheet, adjuster, note, n)
               : NULL;
}

void hl__effects_of(const hl_table *table, const hl_adjustment *adjustment, int note, const double *values,
                    hl_effect *effects)
{
    if (adjustment->adjuster >= 0)
        hl__effects_now(table, adjustment->adjuster, note, values, effects);
    else
        hl__effects_of_reading(table->book, table->sheet, adjustment->because, note, values, effects);
}
