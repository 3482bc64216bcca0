/* guard_band.c - how well a value is known, and the verdict that reckons with it (layer: measure).
 *
 * Comes after all else has judged by the bare limits, so that neighbours, floats and diagnoses see
 * the same table under either rule. */
#include "guard_band.h"

#include "step_formula.h"
#include "tolerance_float.h"
#include "verdict.h"

#include <math.h>
#include <string.h>

/* ---- how well a value is known ------------------------------------------------------------- */

/* Adds `by` times the slopes of a derived step onto those of the readings below it.  A reading that is
 * used twice is one reading: its slopes add up before they are squared. */
static bool add_slopes(const hl_table *table, int step, int note, double by, double *slopes, int depth)
{
    const hl_formula *formula = table->book->steps[step].formula;
    double own[HL_FORMULA_VARS];
    bool assumed = false;
    if (!formula || depth == 0)
        return false;
    double value =
        hl__step_formula_slopes(table->book, table->sheet, step, note, table->note_values, &assumed, own);
    if (isnan(value))
        return false;
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP || own[i] == 0)
            continue;
        if (table->book->steps[var->index].kind != HL_DERIVED)
            slopes[var->index] += by * own[i];
        else if (!add_slopes(table, var->index, note, by * own[i], slopes, depth - 1))
            return false;
    }
    return true;
}

bool hl__gauge_value(const hl_table *table, int step, int note, double *slopes, hl_amount *out)
{
    const hl_book *book = table->book;
    hl_gauge_from from;
    if (book->steps[step].kind != HL_DERIVED) {
        *out = hl__gauge_reading(table->sheet, book, step, &from);
        return from != HL_GAUGE_NONE;
    }
    memset(slopes, 0, (size_t)book->n_steps * sizeof *slopes);
    hl__table_values(table, note, table->note_values);
    if (!add_slopes(table, step, note, 1, slopes, HL_FORMULA_DEPTH))
        return false;
    double sum = 0;
    for (int i = 0; i < book->n_steps; i++) {
        if (slopes[i] == 0)
            continue;
        double part = slopes[i] * (double)hl__gauge_reading(table->sheet, book, i, &from) / (double)HL_ONE;
        sum += part * part;
    }
    return hl__amount_from(sqrt(sum), out) && *out > 0;
}

/* ---- the verdict --------------------------------------------------------------------------- */

/* Within a gauge that the book does not name, so nobody knows what it was made to. */
static bool is_of_no_gauge(const hl_step *step, hl_state state)
{
    return state == HL_STATE_GO && step->gauge_name[0] == '\0';
}

static hl_state find_state(const hl_ruling *ruling, hl_state before)
{
    if (ruling->verdict == HL_DOUBTFUL)
        return ruling->why == HL_WHY_LOW ? HL_STATE_DOUBT_LOW : HL_STATE_DOUBT_HIGH;
    if (ruling->verdict == HL_FAIL)
        return ruling->why == HL_WHY_LOW ? HL_STATE_LOW : HL_STATE_HIGH;
    return before == HL_STATE_FLOATED ? HL_STATE_FLOATED : HL_STATE_PASS;
}

static void judge_place(hl_table *table, int step, int note, double *slopes)
{
    const int place = hl__place(step, note);
    const hl_state state = (hl_state)table->states[place];
    hl_amount guard = 0;
    hl_target sure, possible;
    if (is_of_no_gauge(&table->book->steps[step], state))
        hl__table_change(table, step, place, HL_STATE_DOUBT_GAUGE);
    if (!hl__state_is_number(state) || state == HL_STATE_UNEVEN ||
        table->book->steps[step].kind == HL_JUDGED || !hl__gauge_value(table, step, note, slopes, &guard))
        return;
    hl__float_limits(table, step, note, &sure, &possible);
    const hl_ruling ruling = hl__verdict_guarded(&sure, &possible, table->values[place], guard);
    hl__table_change(table, step, place, find_state(&ruling, state));
    table->guards[place] = guard;
}

static void judge_step(hl_table *table, int step, double *slopes)
{
    for (int note = 0; note <= table->keys; note++)
        if (hl__table_holds(table, step, note))
            judge_place(table, step, note, slopes);
}

bool hl__guard_band_mark(hl_table *table)
{
    const int floating = table->book->floats.step;
    const size_t n = (size_t)table->book->n_steps + 1;
    double *slopes = hl__arena_array(table->arena, n, sizeof *slopes);
    table->guards = hl__arena_array(table->arena, n * HL_NOTES, sizeof *table->guards);
    if (!slopes || !table->guards)
        return false;
    for (int step = 0; step < table->book->n_steps; step++)
        if (step != floating)
            judge_step(table, step, slopes);
    if (floating >= 0) /* whether it may give way depends on the others */
        judge_step(table, floating, slopes);
    return true;
}
