/* gauges.c - is what the readings were taken with fine enough for their targets (layer: measure). */
#include "gauges.h"

#include "comparable.h"
#include "guard_band.h"
#include "learn.h"

#include <math.h>
#include <string.h>

void hl__pool_add(hl_pool *pool, int n, double sum, double squares)
{
    if (n < 2)
        return;
    double about = squares - sum * sum / n;
    pool->squares += about > 0 ? about : 0;
    pool->places++;
    pool->freedom += n - 1;
}

double hl__pool_deviation(const hl_pool *pool)
{
    return pool->freedom > 0 ? sqrt(pool->squares / pool->freedom) : 0;
}

/* ---- the gauges of the steps ----------------------------------------------------------------- */

/* The largest uncertainty of the step's numbers; false when it has no number at all. */
static bool find_uncertainty(const hl_table *table, int step, double *slopes, hl_amount *out)
{
    bool any = false;
    *out = 0;
    for (int note = 0; note <= table->keys; note++) {
        const hl_standing s = hl__table_at(table, step, note);
        hl_amount here = 0;
        if (!hl__table_holds(table, step, note) || !s.has_value || s.verdict == HL_MISSING ||
            s.verdict == HL_NOT_APPLICABLE)
            continue;
        any = true;
        if (hl__gauge_value(table, step, note, slopes, &here) && here > *out)
            *out = here;
    }
    return any;
}

static void fill_gauge(const hl_table *table, hl_gauge *gauge)
{
    const hl_step *step = &table->book->steps[gauge->step];
    if (step->kind == HL_DERIVED)
        gauge->from = gauge->uncertainty > 0 ? HL_GAUGE_COMPUTED : HL_GAUGE_NONE;
    else
        hl__gauge_reading(table->sheet, table->book, gauge->step, &gauge->from);
    gauge->has_tolerance = hl__narrowest(table, gauge->step, &gauge->tolerance);
    if (!gauge->has_tolerance)
        return;
    gauge->coarse_resolution = step->kind == HL_MEASURED && 10 * step->resolution > gauge->tolerance;
    gauge->coarse_gauge = 4 * gauge->uncertainty > gauge->tolerance;
}

static bool find_gauges(hl_gauge_report *out, const hl_table *table)
{
    const size_t n = (size_t)table->book->n_steps + 1;
    double *slopes = hl__arena_array(table->arena, n, sizeof *slopes);
    out->gauges = hl__arena_array(table->arena, n, sizeof *out->gauges);
    if (!slopes || !out->gauges)
        return false;
    for (int step = 0; step < table->book->n_steps; step++) {
        hl_gauge gauge = {.step = step};
        if (table->book->steps[step].kind == HL_JUDGED ||
            !find_uncertainty(table, step, slopes, &gauge.uncertainty))
            continue;
        fill_gauge(table, &gauge);
        out->gauges[out->n_gauges++] = gauge;
    }
    return true;
}

/* ---- repeats ----------------------------------------------------------------------------------- */

/* Readings of one place that repeat each other, kept at the row of the first. */
typedef struct series {
    long first; /* its row + 1; 0: this row is no number */
    int n;
    double sum, squares; /* of the differences from the first */
} series;

bool hl__is_remark(const hl_sheet *sheet, const hl_event *event)
{
    const hl_event *before = event->before >= 0 ? &sheet->events[event->before] : NULL;
    return before && event->remark != 0 && !hl__same_text(sheet, event->remark, before->remark) &&
           before->kind == event->kind && before->amount == event->amount && before->pass == event->pass &&
           hl__comparable(sheet, before, event);
}

static bool is_number(const hl_sheet *sheet, const hl_event *event)
{
    return event->kind == HL_EVENT_VALUE && !event->withdrawn && !hl__is_remark(sheet, event);
}

/* Two readings that contradict each other are no repeat of one thing. */
static bool is_contradicted(const hl_table *table, const hl_event *event)
{
    return table->doubts && table->doubts[hl__place(event->step, event->note)] == HL_DOUBT_DISAGREE;
}

/* The series that the reading in row `at` goes on with, or 0: its own. */
static long find_series(const hl_table *table, const series *all, long at)
{
    const hl_event *event = &table->sheet->events[at];
    for (long i = event->before; i >= 0; i = table->sheet->events[i].before) {
        const hl_event *other = &table->sheet->events[i];
        if (other->pass != event->pass)
            return 0;
        if (is_number(table->sheet, other) && hl__comparable(table->sheet, other, event))
            return hl__adjusted_between(table, event->step, event->note, i, at) ||
                           is_contradicted(table, event)
                       ? 0
                       : all[i].first;
    }
    return 0;
}

/* False when no reading repeats another. */
static bool collect(const hl_table *table, series *all)
{
    bool any = false;
    for (size_t i = 0; i < table->sheet->n_events; i++) {
        const hl_event *event = &table->sheet->events[i];
        if (!is_number(table->sheet, event))
            continue;
        long first = event->before >= 0 ? find_series(table, all, (long)i) : 0;
        any = any || first > 0;
        all[i].first = first > 0 ? first : (long)i + 1;
        series *own = &all[all[i].first - 1];
        double from_first =
            (double)(event->amount - table->sheet->events[all[i].first - 1].amount) / (double)HL_ONE;
        own->n++;
        own->sum += from_first;
        own->squares += from_first * from_first;
    }
    return any;
}

typedef struct pooled {
    int step;
    const char *method;
    hl_pool pool;
} pooled;

static pooled *find_pooled(pooled *list, size_t *n, int step, const char *method)
{
    for (size_t i = 0; i < *n; i++)
        if (list[i].step == step && strcmp(list[i].method, method) == 0)
            return &list[i];
    list[*n] = (pooled){.step = step, .method = method};
    return &list[(*n)++];
}

static void add_repeat(hl_gauge_report *out, const hl_table *table, const pooled *from)
{
    hl_gauge_from source;
    hl_amount tolerance = 0;
    hl_repeat repeat = {.step = from->step,
                        .method = from->method,
                        .places = from->pool.places,
                        .freedom = from->pool.freedom};
    if (!hl__amount_from(hl__pool_deviation(&from->pool), &repeat.deviation))
        return;
    bool enough = repeat.freedom >= HL_FREEDOM_LEAST;
    hl_amount stated = hl__gauge_reading(table->sheet, table->book, from->step, &source);
    repeat.coarse =
        enough && hl__narrowest(table, from->step, &tolerance) && 8 * repeat.deviation > tolerance;
    repeat.worse =
        enough && (source == HL_GAUGE_BOOK || source == HL_GAUGE_SHEET) && 2 * repeat.deviation > stated;
    out->repeats[out->n_repeats++] = repeat;
}

/* There can't be more pools than places that were read again. */
static bool pool_series(hl_gauge_report *out, const hl_table *table, const series *all)
{
    const hl_sheet *sheet = table->sheet;
    size_t most = 0, n = 0;
    for (size_t i = 0; i < sheet->n_events; i++)
        most += all[i].n > 1;
    pooled *list = hl__arena_array(table->arena, most + 1, sizeof *list);
    out->repeats = hl__arena_array(table->arena, most + 1, sizeof *out->repeats);
    if (!list || !out->repeats)
        return false;
    for (size_t i = 0; i < sheet->n_events; i++)
        if (all[i].n > 1)
            hl__pool_add(
                &find_pooled(list, &n, sheet->events[i].step, hl__text_at(sheet, sheet->events[i].method))
                     ->pool,
                all[i].n, all[i].sum, all[i].squares);
    for (int step = 0; step < table->book->n_steps; step++)
        for (size_t i = 0; i < n; i++)
            if (list[i].step == step)
                add_repeat(out, table, &list[i]);
    return true;
}

static bool find_repeats(hl_gauge_report *out, const hl_table *table)
{
    const hl_sheet *sheet = table->sheet;
    bool again = false;
    for (size_t i = 0; i < sheet->n_events && !again; i++)
        again = is_number(sheet, &sheet->events[i]) && sheet->events[i].before >= 0;
    if (!again)
        return true; /* most sheets hold every reading once */
    series *all = hl__arena_array(table->arena, sheet->n_events + 1, sizeof *all);
    return all && (!collect(table, all) || pool_series(out, table, all));
}

bool hl__gauges_find(hl_gauge_report *out, const hl_table *table)
{
    return find_gauges(out, table) && find_repeats(out, table);
}
