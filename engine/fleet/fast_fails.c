/* fast_fails.c - what fails on a plain sheet, with its corrections (layer: fleet).
 *
 * Corrections are not reckoned a second way: where something fails, the careful layers' table is filled
 * for that note, and correct.c and follow.c do the rest.  A note that passes makes no record at all. */
#include "fast_parts.h"

#include "correct.h"
#include "secondary_faults.h"

#include <math.h>
#include <string.h>

/* At first every place of the table stands as on a sheet without readings. */
static bool start_table(hl_fast *fast, hl_fast_plan *plan)
{
    if (!plan->has_table) {
        if (!hl__table_start(&plan->table, plan->head, plan->book, &plan->arena))
            return false;
        hl__table_read(&plan->table);
        plan->table.known = plan->known;
        plan->table.apart = plan->apart;
        plan->has_table = true;
    }
    plan->table.arena = &fast->arena;
    plan->n_filled = 0;
    for (int i = 0; i < plan->book->n_steps; i++) {
        plan->ever[i] = plan->ever[i] || fast->flat.reads[i] > 0;
        plan->filled[plan->n_filled] = i;
        plan->n_filled += plan->ever[i] && plan->book->steps[i].scope != HL_ONCE;
    }
    return true;
}

/* ---- the table at one note -------------------------------------------------------------------- */

/* What a state is in the table. */
static const struct {
    hl_verdict verdict;
    hl_why why;
    bool listed, has_value;
} STANDINGS[] = {
    [HL_FAST_SILENT] = {HL_MISSING, HL_WHY_UNREAD, false, false},
    [HL_FAST_PASS] = {HL_PASS, HL_WHY_NONE, true, true},
    [HL_FAST_FLOATED] = {HL_PASS, HL_WHY_NONE, true, true},
    [HL_FAST_LOW] = {HL_FAIL, HL_WHY_LOW, true, true},
    [HL_FAST_HIGH] = {HL_FAIL, HL_WHY_HIGH, true, true},
    [HL_FAST_WORD] = {HL_FAIL, HL_WHY_WORD, true, true},
    [HL_FAST_UNEVEN] = {HL_FAIL, HL_WHY_UNEVEN, true, true},
    [HL_FAST_MISSING] = {HL_MISSING, HL_WHY_UNREAD, true, false},
    [HL_FAST_NOT_APPLICABLE] = {HL_NOT_APPLICABLE, HL_WHY_NONE, true, false},
};

static inline double find_exact(const hl_fast *fast, hl_fast_sort sort, int place)
{
    if (sort == HL_FAST_READING)
        return fast->flat.read[place] == HL_FLAT_READ ? (double)fast->flat.values[place] / (double)HL_ONE
                                                      : (double)NAN;
    return sort == HL_FAST_EXACT ? fast->exact[place] : (double)NAN;
}

/* What corrections look at: of a value only whether there is one, its double, and how far its
 * neighbours lean. */
static inline void fill_place(const hl_fast *fast, const hl_fast_plan *plan, int step, int note)
{
    const int place = step * HL_FLAT_NOTES + note;
    const hl_fast_sort sort = (hl_fast_sort)plan->sorts[step];
    const unsigned char state = fast->flat.states[place];
    hl_standing *s = &plan->table.standings[note * plan->book->n_steps + step];
    s->verdict = STANDINGS[state].verdict;
    s->why = STANDINGS[state].why;
    s->listed = STANDINGS[state].listed;
    s->has_value = STANDINGS[state].has_value && sort != HL_FAST_JUDGED;
    s->floated = state == HL_FAST_FLOATED;
    if (state == HL_FAST_UNEVEN) /* nobody asks for it otherwise */
        s->lean_double = fast->lean[place];
    s->exact = find_exact(fast, sort, place);
}

static void fill_note(const hl_fast *fast, const hl_fast_plan *plan, int note)
{
    for (int k = 0; k < plan->n_filled; k++)
        fill_place(fast, plan, plan->filled[k], note);
}

/* Whether a rail is a way out hangs on the step's other notes: nobody moves it for one hammer.  Where
 * most of them pass, that is known without looking at each. */
static void fill_step(const hl_fast *fast, const hl_fast_plan *plan, int step)
{
    const int fails = fast->counts[step][HL_FAIL], passes = fast->counts[step][HL_PASS];
    plan->apart[step] = fails <= passes;
    if (fails <= passes)
        return;
    for (int note = 1; note <= plan->keys; note++)
        fill_place(fast, plan, step, note);
}

/* Notes where something fails; all of them, when something of the instrument does. */
static void fill_table(const hl_fast *fast, const hl_fast_plan *plan)
{
    unsigned char filled[HL_FLAT_NOTES] = {0};
    bool all = false;
    for (size_t i = 0; i < fast->n_fails; i++) {
        filled[fast->fails[i].note] = 1;
        all = all || fast->fails[i].note == 0;
    }
    for (int k = 0; k < plan->table.n_once; k++)
        fill_place(fast, plan, plan->table.once[k], 0);
    for (int note = 1; note <= plan->keys; note++)
        if (all || filled[note])
            fill_note(fast, plan, note);
    for (int k = 0; k < plan->n_whole_fix; k++)
        fill_step(fast, plan, plan->whole_fix[k]);
}

/* ---- findings ----------------------------------------------------------------------------------- */

static void add_fail(hl_fast *fast, const hl_fast_plan *plan, const hl_table *table, int step, int note)
{
    const int place = step * HL_FLAT_NOTES + note;
    const unsigned char state = fast->flat.states[place];
    const bool judged = plan->book->steps[step].kind == HL_JUDGED;
    fast->fails[fast->n_fails++] = (hl_finding){.step = step,
                                                .note = note,
                                                .verdict = HL_FAIL,
                                                .why = STANDINGS[state].why,
                                                .has_value = !judged,
                                                .value = judged ? 0 : fast->flat.values[place],
                                                .word = judged ? (int)fast->flat.values[place] : -1,
                                                .target = *hl__table_target(table, step, note),
                                                .remark = ""};
}

static bool list_fails(hl_fast *fast, const hl_fast_plan *plan, const hl_table *table)
{
    fast->n_fails = 0;
    for (int step = 0; step < plan->book->n_steps; step++) {
        const unsigned char *states = fast->flat.states + step * HL_FLAT_NOTES;
        fast->first[step] = fast->n_fails;
        if (fast->counts[step][HL_FAIL] == 0)
            continue;
        for (int note = hl__fast_next_fail(states, 0); note <= plan->keys;
             note = hl__fast_next_fail(states, note + 1)) {
            if (fast->n_fails == HL_FAST_FAILS)
                return false;
            add_fail(fast, plan, table, step, note);
        }
    }
    fast->first[plan->book->n_steps] = fast->first[plan->book->n_steps + 1] = fast->n_fails;
    return true;
}

static bool correct_one(const hl_fast_plan *plan, hl_finding *finding)
{
    const bool masked =
        plan->masked[finding->step] && hl__audit_mask(&plan->table, finding->step, finding->note) >= 0;
    return masked || hl__correct(&plan->table, finding);
}

bool hl__fast_fails(hl_fast *fast, hl_fast_plan *plan)
{
    const hl_table *table = &plan->table;
    hl__arena_reset(&fast->arena);
    if (!start_table(fast, plan) || !list_fails(fast, plan, table))
        return false;
    fill_table(fast, plan);
    for (size_t i = 0; i < fast->n_fails; i++)
        if (!correct_one(plan, &fast->fails[i]))
            return false;
    hl_audit audit = {.book = plan->book, .findings = fast->fails, .n_findings = fast->n_fails};
    audit.first = fast->first;
    hl__follow(&audit, table);
    return true;
}
