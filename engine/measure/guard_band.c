/* guard_band.c - how well a value is known, and the verdict that reckons with it (layer: measure).
 *
 * Comes after all else has judged by the bare limits, so that neighbours, floats and diagnoses see
 * the same table under either rule. */
#include "guard_band.h"

#include "tolerance_float.h"
#include "verdict.h"

#include <math.h>
#include <string.h>

/* ---- how well a value is known ------------------------------------------------------------- */

hl_amount hl__gauge_reading(const hl_sheet *sheet, const hl_book *book, int step, hl_gauge_from *from)
{
    const hl_step *s = &book->steps[step];
    if (sheet->gauges && sheet->gauges[step] > 0) {
        *from = HL_GAUGE_SHEET;
        return sheet->gauges[step];
    }
    *from = s->gauge > 0 ? HL_GAUGE_BOOK : s->resolution > 0 ? HL_GAUGE_RESOLUTION : HL_GAUGE_NONE;
    return s->gauge > 0 ? s->gauge : s->resolution > 0 ? s->resolution : 0;
}

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
        hl__step_formula_slopes(table->book, table->sheet, step, note, table->values, &assumed, own);
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
    hl__table_values(table, note, table->values);
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

static bool is_number(const hl_standing *s)
{
    return s->has_value && !s->go && (s->verdict == HL_PASS || s->verdict == HL_FAIL) &&
           s->why != HL_WHY_UNEVEN;
}

static void judge(hl_standing *s, const hl_target *sure, const hl_target *possible, hl_amount guard)
{
    hl_ruling ruling = hl__verdict_guarded(sure, possible, s->value, guard);
    s->verdict = ruling.verdict;
    s->why = ruling.why;
    s->guarded = true;
    s->guard = guard;
    if (s->floated && s->verdict != HL_PASS) {
        s->floated = false;
        s->shift = 0;
    }
}

/* Within a gauge that the book does not name, so nobody knows what it was made to. */
static bool is_of_no_gauge(const hl_step *step, const hl_standing *s)
{
    return s->go && s->verdict == HL_PASS && step->gauge_name[0] == '\0';
}

static void judge_step(hl_table *table, int step, double *slopes)
{
    for (int note = 0; note <= table->keys; note++) {
        hl_standing *s = hl__table_at(table, step, note);
        hl_amount guard = 0;
        if (hl__table_holds(table, step, note) && is_of_no_gauge(&table->book->steps[step], s)) {
            s->verdict = HL_DOUBTFUL;
            s->why = HL_WHY_OTHER_GAUGE;
        }
        if (!hl__table_holds(table, step, note) || !is_number(s) ||
            !hl__gauge_value(table, step, note, slopes, &guard))
            continue;
        hl_target sure, possible;
        hl__floated_limits(table, step, note, &sure, &possible);
        judge(s, &sure, &possible, guard);
    }
}

bool hl__guarded_mark(hl_table *table)
{
    const int floating = table->book->floats.step;
    double *slopes = hl__arena_array(table->arena, (size_t)table->book->n_steps + 1, sizeof *slopes);
    if (!slopes)
        return false;
    for (int step = 0; step < table->book->n_steps; step++)
        if (step != floating)
            judge_step(table, step, slopes);
    if (floating >= 0) /* whether it may give way hangs on the others */
        judge_step(table, floating, slopes);
    return true;
}
