/* fast_verdict.c - every reading of a plain sheet against its target, and what is computed from them
 * (layer: judge).  See fast_rows.h; its oracle is table.c. */
#include "fast_parts.h"

#include "quantity.h"

#include "number.h"

#include <math.h>
#include <string.h>

static const hl_verdict VERDICTS[] = {
    [HL_FAST_SILENT] = HL_NOT_APPLICABLE,
    [HL_FAST_PASS] = HL_PASS,
    [HL_FAST_FLOATED] = HL_PASS,
    [HL_FAST_LOW] = HL_FAIL,
    [HL_FAST_HIGH] = HL_FAIL,
    [HL_FAST_WORD] = HL_FAIL,
    [HL_FAST_UNEVEN] = HL_FAIL,
    [HL_FAST_MISSING] = HL_MISSING,
    [HL_FAST_NOT_APPLICABLE] = HL_NOT_APPLICABLE,
};

/* The careful reader asks about a reading that may be in inches; then it is to ask. */
static bool is_doubtful(const hl_fast_plan *plan, int index, int place, hl_amount value)
{
    const hl_target target = {.low = plan->low[place],
                              .aim = plan->aim[place],
                              .high = plan->high[place],
                              .has_low = plan->low[place] != INT64_MIN,
                              .has_high = plan->high[place] != INT64_MAX};
    int times = 0;
    return hl__cell_asks_unit(&target, value, plan->form.units[index], &times);
}

static void put_state(hl_fast *fast, int step, int place, hl_fast_state state)
{
    fast->flat.states[place] = (unsigned char)state;
    if (state != HL_FAST_SILENT)
        fast->counts[step][VERDICTS[state]]++;
}

/* A place that was not read, or where a reading counts for nothing. */
static hl_fast_state find_other(const hl_fast_plan *plan, const hl_step *step, int place, bool read)
{
    if (!plan->applies[place])
        return HL_FAST_NOT_APPLICABLE;
    if (step->skipped)
        return read || plan->asked[place] ? HL_FAST_NOT_APPLICABLE : HL_FAST_SILENT;
    return plan->asked[place] ? HL_FAST_MISSING : HL_FAST_SILENT;
}

/* Asks about inches where a number lies outside. */
static bool is_clear(const hl_fast *fast, const hl_fast_plan *plan, int index)
{
    const int row = index * HL_FLAT_NOTES;
    const unsigned char *states = fast->flat.states + row;
    if (fast->flat.outs[index] == 0)
        return true;
    for (int note = hl__fast_next_fail(states, 0); note <= plan->keys;
         note = hl__fast_next_fail(states, note + 1))
        if (is_doubtful(plan, index, row + note, fast->flat.values[row + note]))
            return false;
    return true;
}

/* The usual step: wherever it can be read its reading is judged, so its states stand already, and it is
 * asked for all along or not at all. */
static void count_simple(hl_fast *fast, const hl_fast_plan *plan, int index)
{
    const int reads = fast->flat.reads[index], outs = fast->flat.outs[index];
    if (plan->all_asked[index])
        fast->counts[index][HL_MISSING] -= reads;
    fast->counts[index][HL_FAIL] += outs;
    fast->counts[index][HL_PASS] += reads - outs;
}

/* The others, place by place. */
static void judge_places(hl_fast *fast, const hl_fast_plan *plan, int index, int from, int to)
{
    const hl_step *step = &plan->book->steps[index];
    memset(fast->counts[index], 0, sizeof fast->counts[index]);
    for (int note = from; note <= to; note++) {
        const int place = index * HL_FLAT_NOTES + note;
        const bool read = fast->flat.read[place] == HL_FLAT_READ;
        hl_fast_state state = (hl_fast_state)fast->flat.states[place];
        if (!read || !plan->applies[place] || step->skipped)
            state = find_other(plan, step, place, read);
        put_state(fast, index, place, state);
    }
}

static void fill_exact(hl_fast *fast, const hl_fast_plan *plan, int index)
{
    const int from = index * HL_FLAT_NOTES;
    for (int i = from; i <= from + plan->keys; i++)
        fast->exact[i] =
            fast->flat.read[i] == HL_FLAT_READ ? (double)fast->flat.values[i] / (double)HL_ONE : (double)NAN;
}

/* What a reader of the sheet sees of it. */
static void round_value(hl_fast *fast, const hl_step *step, int place)
{
    const double scaled = fast->exact[place] * 1e6; /* within HL_FAST_FAR: whole part and rest are exact */
    const hl_amount whole = (hl_amount)scaled;
    const double rest = scaled - (double)whole;
    const hl_amount value = whole + (rest >= 0.5) - (rest <= -0.5); /* as llround() does */
    fast->flat.values[place] = step->resolution > 0 ? hl__round_to(value, step->resolution) : value;
}

/* The limits are those of the double, so only what fails, or is compared with its neighbours, is rounded. */
static void judge_derived(hl_fast *fast, const hl_fast_plan *plan, int index)
{
    const hl_step *step = &plan->book->steps[index];
    const int row = index * HL_FLAT_NOTES;
    const double *exact = fast->exact + row, *least = plan->least + row, *most = plan->most + row;
    int *counts = fast->counts[index], passes = 0, fails = 0;
    for (int note = 1; note <= plan->keys; note++) {
        const bool known = plan->applies[row + note] && fabs(exact[note]) <= HL_FAST_FAR;
        const int is_low = exact[note]<least[note], is_high = exact[note]> most[note];
        const int state =
            HL_FAST_PASS + is_low * (HL_FAST_LOW - HL_FAST_PASS) + is_high * (HL_FAST_HIGH - HL_FAST_PASS);
        fast->flat.states[row + note] = (unsigned char)(known ? state : plan->states[row + note]);
        passes += known & !(is_low | is_high);
        fails += known & (is_low | is_high);
    }
    counts[HL_PASS] += passes;
    counts[HL_FAIL] += fails;
    for (int note = hl__fast_next_fail(fast->flat.states + row, 0); note <= plan->keys;
         note = hl__fast_next_fail(fast->flat.states + row, note + 1))
        round_value(fast, step, row + note);
    for (int note = 1; step->even > 0 && note <= plan->keys; note++)
        if (fast->flat.states[row + note] == HL_FAST_PASS)
            round_value(fast, step, row + note);
}

static void compute_derived(hl_fast *fast, const hl_fast_plan *plan, int index)
{
    const hl_step *step = &plan->book->steps[index];
    const double *vars[HL_FORMULA_VARS];
    for (int i = 0; i < step->formula->n_vars; i++) {
        const hl_var *var = &step->formula->vars[i];
        vars[i] = (var->kind == HL_VAR_STEP ? fast->exact : plan->facts) + var->index * HL_FLAT_NOTES;
    }
    hl__formula_column(step->formula, vars, plan->keys + 1, fast->exact + index * HL_FLAT_NOTES);
    if (!step->skipped)
        judge_derived(fast, plan, index);
}

bool hl__fast_verdicts(hl_fast *fast, const hl_fast_plan *plan)
{
    const hl_book *book = plan->book;
    memcpy(fast->counts, plan->counts, (size_t)book->n_steps * sizeof *fast->counts);
    for (int i = 0; i < book->n_steps; i++) {
        const bool once = book->steps[i].scope == HL_ONCE;
        const int from = once ? 0 : 1, to = once ? 0 : plan->keys;
        if (plan->in_formula[i] && book->steps[i].kind != HL_DERIVED)
            fill_exact(fast, plan, i);
        if (fast->flat.reads[i] == 0)
            continue;
        if (plan->by_section[i] || (book->steps[i].kind != HL_JUDGED && !is_clear(fast, plan, i)))
            return false;
        if (plan->simple[i])
            count_simple(fast, plan, i);
        else
            judge_places(fast, plan, i, from, to);
    }
    for (int k = 0; k < plan->n_derived; k++)
        compute_derived(fast, plan, plan->derived[k]);
    return true;
}
