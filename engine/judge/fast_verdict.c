/* fast_verdict.c - every reading of a plain sheet against its target, and what is computed from them
 * (layer: judge).  See fast_rows.h; its oracle is table.c. */
#include "fast_parts.h"

#include "number.h"

#include <math.h>
#include <string.h>

static const hl_verdict VERDICTS[] = {
    [HL_FAST_SILENT] = HL_NOT_APPLICABLE, [HL_FAST_PASS] = HL_PASS,
    [HL_FAST_FLOATED] = HL_PASS,          [HL_FAST_LOW] = HL_FAIL,
    [HL_FAST_HIGH] = HL_FAIL,             [HL_FAST_WORD] = HL_FAIL,
    [HL_FAST_UNEVEN] = HL_FAIL,           [HL_FAST_MISSING] = HL_MISSING,
    [HL_FAST_NOT_APPLICABLE] = HL_NOT_APPLICABLE,
};

/* The careful reader asks about a reading that may be in inches; then it is to ask. */
static bool is_doubtful(const hl_step *step, hl_amount value, hl_amount aim, bool low)
{
    hl_amount small = low ? value : aim, big = low ? aim : value;
    return (step->unit == HL_MM || step->unit == HL_IN) && small > 0 && big >= 20 * small && big <= 30 * small;
}

static void put_state(hl_fast *fast, int step, int place, hl_fast_state state)
{
    fast->states[place] = (unsigned char)state;
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

/* The usual step: where it can be read, its reading is judged.  Without a branch a reading, but for
 * the loop's own. */
static bool judge_simple(hl_fast *fast, const hl_fast_plan *plan, int index, int from, int to)
{
    const int row = index * HL_FLAT_NOTES;
    const hl_amount *values = fast->flat.values + row, *low = plan->low + row, *high = plan->high + row;
    const unsigned char *read = fast->flat.read + row, *before = plan->states + row;
    unsigned char *states = fast->states + row;
    int *counts = fast->counts[index], reads = 0, fails = 0, asked = 0;
    for (int note = from; note <= to; note++) {
        const int is_read = read[note] == HL_FLAT_READ;
        const int is_low = values[note] < low[note], is_high = values[note] > high[note];
        const int state = HL_FAST_PASS + is_low * (HL_FAST_LOW - HL_FAST_PASS) +
                          is_high * (HL_FAST_HIGH - HL_FAST_PASS);
        states[note] = (unsigned char)(is_read ? state : before[note]);
        reads += is_read;
        fails += is_read & (is_low | is_high);
        asked += is_read & (before[note] == HL_FAST_MISSING);
    }
    counts[HL_MISSING] -= asked;
    counts[HL_FAIL] += fails;
    counts[HL_PASS] += reads - fails;
    for (int note = from; fails > 0 && note <= to; note++)
        if ((states[note] == HL_FAST_LOW || states[note] == HL_FAST_HIGH) &&
            is_doubtful(&plan->book->steps[index], values[note], plan->aim[row + note],
                        states[note] == HL_FAST_LOW))
            return false;
    return true;
}

static bool judge_numbers(hl_fast *fast, const hl_fast_plan *plan, int index, int from, int to)
{
    const hl_step *step = &plan->book->steps[index];
    for (int note = from; note <= to; note++) {
        const int place = index * HL_FLAT_NOTES + note;
        const hl_amount value = fast->flat.values[place];
        const bool read = fast->flat.read[place] == HL_FLAT_READ;
        hl_fast_state state = HL_FAST_PASS;
        if (read && (value < plan->low[place] || value > plan->high[place])) {
            state = value < plan->low[place] ? HL_FAST_LOW : HL_FAST_HIGH;
            if (is_doubtful(step, value, plan->aim[place], state == HL_FAST_LOW))
                return false;
        }
        if (!read || !plan->applies[place] || step->skipped)
            state = find_other(plan, step, place, read);
        put_state(fast, index, place, state);
    }
    return true;
}

static void judge_words(hl_fast *fast, const hl_fast_plan *plan, int index, int from, int to)
{
    const hl_step *step = &plan->book->steps[index];
    for (int note = from; note <= to; note++) {
        const int place = index * HL_FLAT_NOTES + note;
        const bool read = fast->flat.read[place] == HL_FLAT_READ;
        hl_fast_state state = fast->flat.values[place] < 0 ? HL_FAST_PASS : HL_FAST_WORD;
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
    hl_amount value = 0;
    if (hl__amount_from(fast->exact[place], &value) && step->resolution > 0)
        value = hl__round_to(value, step->resolution);
    fast->flat.values[place] = value;
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
        const int is_low = exact[note] < least[note], is_high = exact[note] > most[note];
        const int state = HL_FAST_PASS + is_low * (HL_FAST_LOW - HL_FAST_PASS) +
                          is_high * (HL_FAST_HIGH - HL_FAST_PASS);
        fast->states[row + note] = (unsigned char)(known ? state : plan->states[row + note]);
        passes += known & !(is_low | is_high);
        fails += known & (is_low | is_high);
    }
    counts[HL_PASS] += passes;
    counts[HL_FAIL] += fails;
    for (int note = 1; (step->even > 0 || fails > 0) && note <= plan->keys; note++)
        if (fast->states[row + note] == HL_FAST_LOW || fast->states[row + note] == HL_FAST_HIGH ||
            (step->even > 0 && fast->states[row + note] == HL_FAST_PASS))
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
    memcpy(fast->states, plan->states, (size_t)book->n_steps * HL_FLAT_NOTES);
    memcpy(fast->counts, plan->counts, (size_t)book->n_steps * sizeof *fast->counts);
    for (int i = 0; i < book->n_steps; i++) {
        const bool once = book->steps[i].scope == HL_ONCE;
        const int from = once ? 0 : 1, to = once ? 0 : plan->keys;
        if (plan->in_formula[i] && book->steps[i].kind != HL_DERIVED)
            fill_exact(fast, plan, i);
        if (!fast->flat.any[i])
            continue;
        if (plan->by_section[i])
            return false;
        if (book->steps[i].kind != HL_JUDGED && plan->simple[i]) {
            if (!judge_simple(fast, plan, i, from, to))
                return false;
            continue;
        }
        memset(fast->counts[i], 0, sizeof fast->counts[i]);
        if (book->steps[i].kind == HL_JUDGED)
            judge_words(fast, plan, i, from, to);
        else if (!judge_numbers(fast, plan, i, from, to))
            return false;
    }
    for (int k = 0; k < plan->n_derived; k++)
        compute_derived(fast, plan, plan->derived[k]);
    return true;
}
