/* chart_data.c - what one step says along the compass, and the scale to draw it on (layer: render/html). */
#include "chart.h"

#include "number.h"

#include <math.h>
#include <stdlib.h>

#define DEEPEST   8 /* derived steps of derived steps */
#define BANDS     3 /* readings farther from the target than so many of its widths go to the edge */
#define TICKS     6 /* most lines of an axis */
#define THOU      INT64_C(25400) /* a thousandth of an inch */
#define FAR_LIMIT (HL_ONE * 1000000)

/* ---- readings of an earlier pass ------------------------------------------------------------- */

static bool is_reading(const hl_event *event)
{
    return event->kind == HL_EVENT_VALUE && !event->withdrawn;
}

/* The first number of the step at the note, when the reading that counts belongs to a later pass. */
static bool find_first(const hl_sheet *sheet, int step, int note, hl_amount *out)
{
    long at = hl__sheet_latest(sheet, step, note);
    if (at < 0)
        return false;
    const int pass = sheet->events[at].pass;
    bool found = false;
    for (at = sheet->events[at].before; at >= 0; at = sheet->events[at].before) {
        const hl_event *event = &sheet->events[at];
        if (is_reading(event) && event->pass < pass) {
            *out = event->amount;
            found = true;
        }
    }
    return found;
}

/* What a derived step came to with the first readings; NaN unless all of them belong to an earlier
 * pass. */
static double find_first_value(const hl_audit *audit, int index, int note, int depth)
{
    const hl_step *step = &audit->book->steps[index];
    hl_amount first = 0;
    double values[HL_FORMULA_VARS];
    if (step->kind != HL_DERIVED)
        return find_first(audit->sheet, index, step->scope == HL_ONCE ? 0 : note, &first)
                   ? (double)first / (double)HL_ONE
                   : (double)NAN;
    if (!step->formula || depth >= DEEPEST)
        return (double)NAN;
    for (int i = 0; i < step->formula->n_vars; i++) {
        const hl_var *var = &step->formula->vars[i];
        bool assumed = false;
        if (var->kind == HL_VAR_FACT)
            values[i] = hl__sheet_value(audit->sheet, var->index, note, &assumed);
        else if (var->aspect == HL_ASPECT_VALUE)
            values[i] = find_first_value(audit, var->index, note, depth + 1);
        else
            return (double)NAN;
    }
    return hl__formula_value(step->formula, values);
}

static void add_before(hl_series *series, int note)
{
    hl_spot *spot = &series->spots[note];
    const double value = find_first_value(series->audit, series->index, note, 0);
    hl_amount amount = 0;
    if (!hl__amount_from(value, &amount))
        return;
    if (series->step->kind == HL_DERIVED && series->step->resolution > 0)
        amount = hl__round_to(amount, series->step->resolution);
    spot->has_before = true;
    spot->before = amount;
    series->n_before++;
}

/* ---- the series --------------------------------------------------------------------------------- */

bool hl__series_start(hl_series *series, const hl_audit *audit, int step)
{
    const int keys = audit->sheet->compass.keys;
    *series = (hl_series){.audit = audit, .step = &audit->book->steps[step], .index = step, .keys = keys};
    series->spots = calloc((size_t)keys + 1, sizeof *series->spots);
    if (!series->spots)
        return false;
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        if (finding->note < 1 || finding->note > keys || finding->verdict == HL_NOT_APPLICABLE)
            continue;
        series->spots[finding->note].finding = finding;
        series->n_numbers += finding->has_value;
        series->n_go += finding->go;
        if (finding->has_value && audit->sheet->n_passes > 1)
            add_before(series, finding->note);
    }
    return true;
}

void hl__series_free(hl_series *series)
{
    free(series->spots);
    *series = (hl_series){0};
}

bool hl__series_drawable(const hl_series *series)
{
    return series->step->kind != HL_JUDGED && series->step->scope != HL_ONCE &&
           series->n_numbers + series->n_go > 0;
}

bool hl__series_any_uneven(const hl_series *series)
{
    bool any = false;
    for (int note = 1; note <= series->keys; note++) {
        const hl_finding *finding = series->spots[note].finding;
        any = any || (finding && finding->verdict == HL_FAIL && finding->why == HL_WHY_UNEVEN);
    }
    return any;
}

bool hl__spot_out(const hl_spot *spot)
{
    return spot->finding && spot->finding->verdict != HL_PASS && spot->finding->verdict != HL_MISSING;
}

/* ---- the scale ----------------------------------------------------------------------------------- */

typedef struct extent {
    hl_amount low, high;
    bool any;
} extent;

static void stretch(extent *over, hl_amount value)
{
    over->low = !over->any || value < over->low ? value : over->low;
    over->high = !over->any || value > over->high ? value : over->high;
    over->any = true;
}

static void stretch_target(extent *over, const hl_target *target)
{
    if (target->has_low)
        stretch(over, target->low);
    if (target->has_high)
        stretch(over, target->high);
}

hl_scale hl__scale_around(hl_amount low, hl_amount high, hl_unit unit)
{
    static const hl_amount steps[] = {1, 2, 5};
    hl_amount power = unit == HL_IN ? THOU : 1;
    hl_scale scale = {low, high, power};
    for (int i = 0; (high - low) / scale.tick >= TICKS; i++) {
        if (i > 0 && i % 3 == 0)
            power *= 10;
        scale.tick = steps[i % 3] * power;
    }
    return scale;
}

/* A reading past its wall is drawn at the edge. */
static void stretch_readings(extent *over, const hl_series *series, extent wanted)
{
    const hl_amount width = wanted.high - wanted.low;
    const hl_amount wall = width > 0 ? BANDS * width : FAR_LIMIT;
    for (int note = 1; note <= series->keys; note++) {
        const hl_spot *spot = &series->spots[note];
        if (!spot->finding)
            continue;
        const hl_amount values[] = {spot->finding->value, spot->before};
        const bool has[] = {spot->finding->has_value, spot->has_before};
        for (int i = 0; i < 2; i++)
            if (has[i] &&
                (!wanted.any || (values[i] >= wanted.low - wall && values[i] <= wanted.high + wall)))
                stretch(over, values[i]);
    }
}

hl_scale hl__series_scale(const hl_series *series)
{
    extent wanted = {0}, all = {0};
    for (int note = 1; note <= series->keys; note++)
        if (series->spots[note].finding)
            stretch_target(&wanted, &series->spots[note].finding->target);
    all = wanted;
    stretch_readings(&all, series, wanted);
    if (!all.any)
        return hl__scale_around(0, HL_ONE, series->step->unit);
    hl_amount margin = (all.high - all.low) / 10;
    if (margin == 0)
        margin = series->step->resolution > 0 ? 2 * series->step->resolution : HL_ONE;
    return hl__scale_around(all.low - margin, all.high + margin, series->step->unit);
}
