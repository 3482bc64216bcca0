/* report_results.c - each step in one line, and the charts (layer: render/html). */
#include "report.h"

#include "chart.h"
#include "leaf.h"
#include "page.h"
#include "sentence.h"

static bool has_any(const hl_tally *tally)
{
    int n = 0;
    for (int i = 0; i < HL_VERDICTS; i++)
        n += i == HL_NOT_APPLICABLE ? 0 : tally->count[i];
    return n > 0;
}

static void add_count(hl_html *html, int n)
{
    hl_text cell = {0};
    hl__text_printf(&cell, n == 0 ? "\xE2\x80\x93" : "%d", n);
    hl__html_leaf_take(html, "td", "number", &cell);
}

static void add_row(hl_record *record, int index)
{
    hl_html *html = &record->html;
    const hl_step *step = &record->audit->book->steps[index];
    const hl_tally *tally = &record->audit->tallies[index];
    hl_text cell = {0};
    hl__row_start(html, step->title);
    if (step->kind == HL_JUDGED)
        hl__text_add(&cell, "judged ok");
    else
        hl__say_targets(&cell, record->audit->book, step);
    hl__html_leaf_take(html, "td", NULL, &cell);
    add_count(html, tally->count[HL_PASS]);
    add_count(html, tally->count[HL_FAIL]);
    add_count(html, tally->count[HL_STALE] + tally->count[HL_DOUBTFUL]);
    add_count(html, tally->count[HL_MISSING]);
    if (tally->has_unevenness)
        hl__say_amount(&cell, tally->unevenness, step->unit, step->resolution);
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__row_end(html);
}

void hl__record_results(hl_record *record)
{
    static const char *const heads[] = {"Step",          "Wanted",      ">Pass", ">Out", ">Again or in doubt",
                                        ">Not measured", ">Unevenness", NULL};
    const hl_audit *audit = record->audit;
    hl__section_open(&record->html, "results", "Every step in one line");
    hl__grid_start(&record->html, "results", "Readings that pass, step by step", heads);
    for (int i = 0; i < audit->book->n_steps; i++)
        if (has_any(&audit->tallies[i]))
            add_row(record, i);
    hl__grid_end(&record->html);
    hl__html_leaf(
        &record->html, "p", "small",
        "Unevenness is the furthest that a note stands out from its neighbours of the same colour.");
    hl__html_close(&record->html);
}

/* ---- charts ------------------------------------------------------------------------------------ */

static void link_table(hl_record *record, int index, int id)
{
    hl_text target = {0};
    hl__text_printf(&target, "#table-%d", id);
    hl__html_open(&record->html, "a", "href", target.data, NULL);
    hl__html_text(&record->html, record->audit->book->steps[index].title);
    hl__html_close(&record->html);
    record->html.out->failed |= target.failed;
    hl__text_free(&target);
}

static void open_figure(hl_record *record, const char *title)
{
    hl__html_open(&record->html, "figure", NULL);
    hl__html_leaf(&record->html, "h3", NULL, title);
    hl__html_open(&record->html, "div", "class", "wide", "tabindex", "0", "role", "region", "aria-label",
                  title, NULL);
}

/* Ends the drawing's box; the caption's text follows. */
static void open_caption(hl_record *record)
{
    hl__html_close(&record->html);
    hl__html_open(&record->html, "figcaption", NULL);
}

static void close_figure(hl_record *record)
{
    hl__html_text(&record->html, ".");
    hl__html_close(&record->html);
    hl__html_close(&record->html);
    hl__html_line(&record->html);
}

/* ---- the board ------------------------------------------------------------------------------------ */

static bool reads_something(const hl_audit *audit)
{
    int n = 0;
    for (int i = 0; i < HL_VERDICTS; i++)
        n += i == HL_NOT_APPLICABLE ? 0 : audit->total.count[i];
    return n > 0;
}

void hl__record_board(hl_record *record)
{
    const hl_audit *audit = record->audit;
    if (!reads_something(audit))
        return;
    hl__section_open(&record->html, "board", "The piano at a glance");
    hl__html_open(&record->html, "div", "class", "wide", "tabindex", "0", "role", "region", "aria-label",
                  "Every step at every note", NULL);
    hl__chart_board(&record->html, audit, audit->book->n_steps + 2);
    hl__html_close(&record->html);
    hl__board_legend(&record->html);
    hl__html_close(&record->html);
}

/* ---- charts ---------------------------------------------------------------------------------------- */

static void add_touch(hl_record *record)
{
    const hl_audit *audit = record->audit;
    bool some = false;
    open_figure(record, "Touchweight");
    hl__chart_touch(&record->html, audit, audit->book->n_steps + 1);
    open_caption(record);
    hl__html_text(
        &record->html,
        "A note's downweight and upweight, joined by a thin line; the tick at its middle is the mean weight. "
        "Grey: the limits of downweight; broken line: of upweight. Ringed and crossed: out of limits; in a "
        "triangle: uneven");
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (!record->asked->numbers || !hl__chart_in_touch(audit, i))
            continue;
        hl__html_text(&record->html, some ? ", " : ". Numbers: ");
        link_table(record, i, i + 1);
        some = true;
    }
    close_figure(record);
}

static void add_chart(hl_record *record, const hl_series *series, int id, bool small)
{
    hl_text caption = {0};
    open_figure(record, series->step->title);
    hl__chart_step(&record->html, series, id, small);
    open_caption(record);
    hl__text_add(&caption, "Wanted: ");
    hl__say_targets(&caption, record->audit->book, series->step);
    hl__text_add(&caption, hl__band_is_split(series) ? "; broken lines for the sharps" : "");
    hl__text_add(&caption, hl__series_any_uneven(series) ? "; in a triangle: uneven" : "");
    if (record->asked->numbers)
        hl__text_add(&caption, ". Numbers: ");
    hl__html_take(&record->html, &caption);
    if (record->asked->numbers)
        link_table(record, series->index, id);
    close_figure(record);
}

/* Calls `use` for each step that is drawn; its chart and table have the id step + 1. */
typedef void series_user(hl_record *record, const hl_series *series, int id);

static void each_series(hl_record *record, series_user *use)
{
    for (int i = 0; i < record->audit->book->n_steps; i++) {
        hl_series series;
        if (!hl__series_start(&series, record->audit, i)) {
            record->html.out->failed = true;
            return;
        }
        if (hl__series_drawable(&series))
            use(record, &series, i + 1);
        hl__series_free(&series);
    }
}

/* Every note of it passes: its chart may be small, and shares a row of the page. */
static bool passes(const hl_audit *audit, int step)
{
    const int *count = audit->tallies[step].count;
    return count[HL_FAIL] + count[HL_DOUBTFUL] + count[HL_STALE] + count[HL_MISSING] == 0;
}

static void draw_large(hl_record *record, const hl_series *series, int id)
{
    if (!hl__chart_in_touch(record->audit, series->index) && !passes(record->audit, series->index))
        add_chart(record, series, id, false);
}

static void draw_small(hl_record *record, const hl_series *series, int id)
{
    if (!hl__chart_in_touch(record->audit, series->index) && passes(record->audit, series->index))
        add_chart(record, series, id, true);
}

static void add_table(hl_record *record, const hl_series *series, int id)
{
    hl__chart_table(&record->html, series, id);
}

static bool has_charts(const hl_audit *audit)
{
    bool any = false;
    for (int i = 0; i < audit->book->n_steps && !any; i++) {
        const hl_step *step = &audit->book->steps[i];
        for (size_t k = audit->findings.first[i]; k < audit->findings.first[i + 1] && !any; k++)
            any = step->kind != HL_JUDGED && step->scope != HL_ONCE &&
                  (audit->findings.items[k].has_value || audit->findings.items[k].go);
    }
    return any;
}

void hl__record_charts(hl_record *record)
{
    if (!has_charts(record->audit))
        return;
    hl__section_open(&record->html, "charts", "Along the compass");
    hl__chart_legend(&record->html, record->audit->sheet->n_passes > 1);
    each_series(record, draw_large);
    if (hl__chart_has_touch(record->audit))
        add_touch(record);
    hl__html_open(&record->html, "div", "class", "small-charts", NULL);
    each_series(record, draw_small);
    hl__html_close(&record->html);
    hl__html_close(&record->html);
}

/* All findings as a table for spreadsheets, kept inside this file. */
static void link_csv(hl_record *record)
{
    char *csv = NULL;
    size_t size = 0;
    hl_err err;
    hl_text link = {0}, name = {0};
    if (hl_audit_csv(&csv, &size, record->audit, true, &err) != HL_OK) {
        record->html.out->failed = true;
        return;
    }
    hl__text_add(&link, "data:text/csv;base64,");
    hl__text_base64(&link, csv, size);
    hl__text_safe(&name, hl__base_name(hl_sheet_name(record->audit->sheet)));
    hl__text_add(&name, "-findings.csv");
    hl__html_open(&record->html, "p", NULL);
    hl__html_open(&record->html, "a", "download", name.data, "href", link.data, NULL);
    hl__html_text(&record->html, "All readings and verdicts as a table for spreadsheets");
    hl__html_close(&record->html);
    hl__html_text(&record->html, ", kept inside this file.");
    hl__html_close(&record->html);
    record->html.out->failed |= link.failed || name.failed;
    hl__text_free(&link);
    hl__text_free(&name);
    hl_free(csv);
}

void hl__record_numbers(hl_record *record)
{
    if (!has_charts(record->audit))
        return;
    hl__section_open(&record->html, "numbers", "The numbers");
    if (record->asked->numbers)
        each_series(record, add_table);
    link_csv(record);
    hl__html_close(&record->html);
}
