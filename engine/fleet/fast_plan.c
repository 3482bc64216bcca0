/* fast_plan.c - what all plain sheets with one head have in common (layer: fleet). */
#include "fast_plan.h"

#include "tolerance_float.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void hl__fast_plan_free(hl_fast_plan *plan)
{
    hl_sheet_free(plan->head);
    hl__arena_free(&plan->arena);
    free(plan->key);
    *plan = (hl_fast_plan){0};
}

static int place_of(int step, int note)
{
    return step * HL_FLAT_NOTES + note;
}

/* ---- what is asked for, and the limits -------------------------------------------------------- */

static hl_fast_state find_state(const hl_standing *s)
{
    if (!s->listed)
        return HL_FAST_SILENT;
    return s->verdict == HL_NOT_APPLICABLE ? HL_FAST_NOT_APPLICABLE : HL_FAST_MISSING;
}

static void lay_place(hl_fast_plan *plan, const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    const hl_target *target = hl__table_target(table, step, note);
    const int place = place_of(step, note);
    const hl_fast_state state = find_state(s);
    plan->low[place] = target->has_low ? target->low : INT64_MIN;
    plan->high[place] = target->has_high ? target->high : INT64_MAX;
    plan->aim[place] = target->aim;
    plan->applies[place] = s->why != HL_WHY_SCOPE;
    plan->asked[place] = s->asked;
    plan->states[place] = (unsigned char)state;
    if (state != HL_FAST_SILENT)
        plan->counts[step][s->verdict]++;
}

static bool lay_steps(hl_fast_plan *plan)
{
    hl_table table;
    hl_arena arena = {0};
    bool good = hl__table_start(&table, plan->head, plan->book, &arena);
    if (good) {
        hl__table_read(&table);
        hl__table_compute(&table);
    }
    for (int i = 0; good && i < plan->book->n_steps; i++) {
        plan->by_section[i] = hl__table_asks_sections(&table, i);
        for (int note = 0; note <= plan->keys; note++)
            if (hl__table_holds(&table, i, note))
                lay_place(plan, &table, i, note);
    }
    hl__arena_free(&arena);
    return good;
}

/* ---- formulas ---------------------------------------------------------------------------------- */

/* Can the formula be computed note by note?  Once-for-all steps stand in another row than their
 * users, and aspects are for conditions. */
static bool is_plain(const hl_book *book, int step)
{
    const hl_formula *formula = book->steps[step].formula;
    if (!formula || !hl__formula_is_plain(formula) || book->steps[step].scope == HL_ONCE)
        return false;
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_STEP &&
            (var->aspect != HL_ASPECT_VALUE || book->steps[var->index].scope == HL_ONCE))
            return false;
    }
    return true;
}

static bool order_derived(hl_fast_plan *plan)
{
    const hl_book *book = plan->book;
    for (int k = 0; k < book->n_order; k++) {
        const int step = book->order[k];
        if (book->steps[step].kind != HL_DERIVED)
            continue;
        if (plan->n_derived == HL_FAST_DERIVED || !is_plain(book, step))
            return false;
        plan->derived[plan->n_derived++] = step;
    }
    return true;
}

static void lay_formulas(hl_fast_plan *plan)
{
    const hl_book *book = plan->book;
    for (int k = 0; k < plan->n_derived; k++) {
        const hl_formula *formula = book->steps[plan->derived[k]].formula;
        for (int i = 0; i < formula->n_vars; i++)
            if (formula->vars[i].kind == HL_VAR_STEP)
                plan->in_formula[formula->vars[i].index] = true;
    }
    for (int fact = 0; fact < book->n_facts; fact++)
        for (int note = 0; note <= plan->keys; note++) {
            bool assumed = false;
            plan->facts[place_of(fact, note)] = hl__sheet_value(plan->head, fact, note, &assumed);
        }
}

/* ---- limits of what is computed ------------------------------------------------------------------ */

#define SIGN (UINT64_C(1) << 63)

/* Doubles in their order as whole numbers. */
static uint64_t rank_of(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits & SIGN ? ~bits : bits | SIGN;
}

static double double_of(uint64_t rank)
{
    const uint64_t bits = rank & SIGN ? rank & ~SIGN : ~rank;
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* Rounding keeps the order, so a limit on what is rounded is one on the double itself: the first one that
 * is rounded to `limit` or more.  Then nothing need be rounded to be judged. */
static double find_first_at(const hl_table *table, int step, hl_amount limit)
{
    uint64_t low = rank_of(-HL_FAST_FAR), high = rank_of(HL_FAST_FAR);
    hl_amount rounded = 0;
    if (hl__table_round(table, step, HL_FAST_FAR, &rounded) && rounded < limit)
        return INFINITY;
    while (low < high) {
        const uint64_t middle = low + (high - low) / 2;
        if (hl__table_round(table, step, double_of(middle), &rounded) && rounded < limit)
            low = middle + 1;
        else
            high = middle;
    }
    return double_of(low);
}

static void lay_limits(hl_fast_plan *plan)
{
    const hl_table table = {.book = plan->book};
    for (int k = 0; k < plan->n_derived; k++) {
        const int row = place_of(plan->derived[k], 0);
        for (int note = 1; note <= plan->keys; note++) {
            const hl_amount low = plan->low[row + note], high = plan->high[row + note];
            const bool same =
                note > 1 && low == plan->low[row + note - 1] && high == plan->high[row + note - 1];
            const uint64_t beyond =
                same || high == INT64_MAX ? 0 : rank_of(find_first_at(&table, plan->derived[k], high + 1));
            plan->least[row + note] = same               ? plan->least[row + note - 1]
                                      : low == INT64_MIN ? -HL_FAST_FAR
                                                         : find_first_at(&table, plan->derived[k], low);
            plan->most[row + note] = same                ? plan->most[row + note - 1]
                                     : high == INT64_MAX ? HL_FAST_FAR
                                                         : double_of(beyond - 1);
        }
    }
}

/* ---- neighbours --------------------------------------------------------------------------------- */

static bool is_near(const hl_fast_plan *plan, int note, int other, bool section)
{
    hl_compass compass = plan->head->compass;
    return hl_pitch_is_sharp(hl_note_pitch(compass, note)) ==
               hl_pitch_is_sharp(hl_note_pitch(compass, other)) &&
           (!section || hl__sheet_section(plan->head, note) == hl__sheet_section(plan->head, other));
}

/* In the order of even.c: outward, the lower one first. */
static void lay_neighbours(hl_fast_plan *plan, bool section)
{
    for (int note = 1; note <= plan->keys; note++) {
        unsigned char *list = &plan->near[section][place_of(note, 0)];
        for (int away = 1; away < plan->keys; away++) {
            if (note - away >= 1 && is_near(plan, note, note - away, section))
                *list++ = (unsigned char)(note - away);
            if (note + away <= plan->keys && is_near(plan, note, note + away, section))
                *list++ = (unsigned char)(note + away);
        }
    }
}

/* ---- the whole ----------------------------------------------------------------------------------- */

static bool take_memory(hl_fast_plan *plan)
{
    hl_arena *arena = &plan->arena;
    const size_t steps = (size_t)plan->book->n_steps + 1, places = steps * HL_FLAT_NOTES;
    plan->low = hl__arena_array(arena, places, sizeof *plan->low);
    plan->high = hl__arena_array(arena, places, sizeof *plan->high);
    plan->aim = hl__arena_array(arena, places, sizeof *plan->aim);
    plan->applies = hl__arena_array(arena, places, 1);
    plan->asked = hl__arena_array(arena, places, 1);
    plan->states = hl__arena_array(arena, places, 1);
    plan->counts = hl__arena_array(arena, steps, sizeof *plan->counts);
    plan->by_section = hl__arena_array(arena, steps, sizeof *plan->by_section);
    plan->in_formula = hl__arena_array(arena, steps, sizeof *plan->in_formula);
    plan->least = hl__arena_array(arena, places, sizeof *plan->least);
    plan->most = hl__arena_array(arena, places, sizeof *plan->most);
    plan->simple = hl__arena_array(arena, steps, sizeof *plan->simple);
    plan->all_asked = hl__arena_array(arena, steps, sizeof *plan->all_asked);
    plan->whole_fix = hl__arena_array(arena, steps, sizeof *plan->whole_fix);
    plan->apart = hl__arena_array(arena, steps, sizeof *plan->apart);
    plan->masked = hl__arena_array(arena, steps, sizeof *plan->masked);
    plan->filled = hl__arena_array(arena, steps, sizeof *plan->filled);
    plan->sorts = hl__arena_array(arena, steps, 1);
    plan->ever = hl__arena_array(arena, steps, sizeof *plan->ever);
    plan->facts =
        hl__arena_array(arena, ((size_t)plan->book->n_facts + 1) * HL_FLAT_NOTES, sizeof *plan->facts);
    plan->near[0] = hl__arena_array(arena, HL_FLAT_NOTES, HL_FLAT_NOTES);
    plan->near[1] = hl__arena_array(arena, HL_FLAT_NOTES, HL_FLAT_NOTES);
    return plan->low && plan->high && plan->aim && plan->applies && plan->asked && plan->states &&
           plan->counts && plan->least && plan->most && plan->by_section && plan->all_asked && plan->simple &&
           plan->whole_fix && plan->apart && plan->masked && plan->filled && plan->sorts && plan->ever &&
           plan->in_formula && plan->facts && plan->near[0] && plan->near[1];
}

/* The floating step and those that it is tied to are read note by note. */
static bool find_float(hl_fast_plan *plan)
{
    const hl_book *book = plan->book;
    plan->model = book->floats.within > 0 ? hl__floated_model(book) : -1;
    for (int i = 0; plan->model >= 0 && i < book->n_steps; i++)
        if (hl__floated_ties(book, plan->model, i) && book->steps[i].scope == HL_ONCE)
            return false;
    return true;
}

static bool has_whole_fix(const hl_book *book, const hl_step *step)
{
    for (int k = 0; k < step->n_fixes; k++)
        if (book->adjusters[step->fixes[k]].whole)
            return step->scope != HL_ONCE;
    return false;
}

static void lay_marks(hl_fast_plan *plan)
{
    const hl_book *book = plan->book;
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        plan->ever[i] = step->kind == HL_DERIVED;
        plan->sorts[i] = step->kind == HL_JUDGED                           ? HL_FAST_JUDGED
                         : step->kind == HL_DERIVED || plan->in_formula[i] ? HL_FAST_EXACT
                                                                           : HL_FAST_READING;
        plan->simple[i] = !step->skipped;
        int open = 0, asked = 0;
        for (int place = place_of(i, 0); place <= place_of(i, plan->keys); place++) {
            if (plan->form.blank[place] != HL_FLAT_FREE)
                continue;
            open++;
            asked += plan->asked[place];
            plan->simple[i] = plan->simple[i] && plan->applies[place];
        }
        plan->simple[i] = plan->simple[i] && (asked == 0 || asked == open);
        plan->all_asked[i] = asked > 0;
        if (has_whole_fix(book, step))
            plan->whole_fix[plan->n_whole_fix++] = i;
        for (int k = 0; k < step->n_masks; k++)
            plan->masked[step->masks[k]] = true;
    }
}

bool hl__fast_plan(hl_fast_plan *out, const hl_book *book, const char *top, size_t size)
{
    hl_err err;
    *out = (hl_fast_plan){.book = book};
    if (!book)
        return true;
    if (hl_sheet_open_text(&out->head, "", top, size, &err) != HL_OK)
        return err.code != HL_E_MEMORY;
    if (hl__sheet_read_head(out->head, book, &err) != HL_OK)
        return err.code != HL_E_MEMORY;
    if (out->head->n_errors > 0 || !hl__fast_form(&out->form, &out->arena, out->head))
        return true;
    out->keys = out->head->compass.keys;
    if (!take_memory(out) || !lay_steps(out))
        return false;
    if (!order_derived(out) || !find_float(out))
        return true;
    lay_formulas(out);
    lay_limits(out);
    lay_marks(out);
    out->known = hl__known_new(&out->arena, book, out->head);
    lay_neighbours(out, false);
    lay_neighbours(out, true);
    out->plain = true;
    return true;
}
