/* page_gauges.c - what the readings were taken with, and how well they repeat (layer: render/text). */
#include "decision.h"

#include "number.h"
#include "sentence.h"

static void add_item(hl_text *line, const char *head)
{
    hl__text_add(line, line->size == 0 ? head : ", ");
}

static void end_line(hl_page *page, hl_text *line)
{
    if (hl__text_any(line)) {
        hl__text_char(line, '.');
        hl__page_add(page, line, HL_INK_PLAIN, 0, 2);
    }
    hl__text_free(line);
}

static const hl_step *step_of(const hl_page *page, int step)
{
    return &page->audit->book->steps[step];
}

/* An uncertainty to a tenth of what the step is read to; more digits of it say nothing. */
static void say_fine(hl_text *line, const hl_step *step, hl_amount value)
{
    const hl_amount grain = step->resolution / 10;
    hl__say_amount(line, grain > 0 ? hl__round_to(value, grain) : value, step->unit, 0);
}

/* The steps whose uncertainty comes from one place, each with it. */
static void print_source(hl_page *page, hl_gauge_from from, const char *head)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    for (size_t i = 0; i < audit->gauges.n_gauges; i++) {
        const hl_gauge *gauge = &audit->gauges.gauges[i];
        if (gauge->from != from)
            continue;
        add_item(&line, head);
        hl__text_safe(&line, step_of(page, gauge->step)->title);
        if (gauge->uncertainty == 0)
            continue;
        hl__text_char(&line, ' ');
        say_fine(&line, step_of(page, gauge->step), gauge->uncertainty);
    }
    end_line(page, &line);
}

static void print_uncertainties(hl_page *page)
{
    hl_text line = {0};
    print_source(page, HL_GAUGE_SHEET, "One reading is good to, as the sheet states: ");
    print_source(page, HL_GAUGE_BOOK, "One reading is good to, as the book states: ");
    print_source(page, HL_GAUGE_RESOLUTION, "Nobody states the gauge, so what it is read to is taken: ");
    print_source(page, HL_GAUGE_COMPUTED,
                 "Computed, from their readings by the root of the sum of the squares, up to: ");
    print_source(page, HL_GAUGE_NONE, "Not known, so judged by the simple rule: ");
    hl__text_add(&line,
                 "Facts count as exact. Go/no-go readings, judgements and evenness are judged as ever");
    end_line(page, &line);
}

/* ---- too coarse -------------------------------------------------------------------------------- */

static void print_coarse(hl_page *page, bool resolution, const char *head)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    for (size_t i = 0; i < audit->gauges.n_gauges; i++) {
        const hl_gauge *gauge = &audit->gauges.gauges[i];
        const hl_step *step = step_of(page, gauge->step);
        if (!(resolution ? gauge->coarse_resolution : gauge->coarse_gauge))
            continue;
        add_item(&line, head);
        hl__text_safe(&line, step->title);
        hl__text_char(&line, ' ');
        say_fine(&line, step, resolution ? step->resolution : gauge->uncertainty);
        hl__text_add(&line, " of ");
        hl__say_amount(&line, gauge->tolerance, step->unit, 0);
    }
    end_line(page, &line);
}

/* ---- repeats ----------------------------------------------------------------------------------- */

static void print_repeat(hl_page *page, const hl_repeat *repeat)
{
    const hl_step *step = step_of(page, repeat->step);
    hl_text line = {0};
    hl__text_add(&line, "Repeats, ");
    hl__text_safe(&line, step->title);
    if (repeat->method[0]) {
        hl__text_add(&line, " by ");
        hl__text_safe(&line, repeat->method);
    }
    hl__text_printf(&line, ": %d %s, pooled standard deviation ", repeat->places,
                    repeat->places == 1 ? "place" : "places");
    say_fine(&line, step, repeat->deviation);
    hl__text_printf(&line, " (%d %s of freedom)", repeat->freedom,
                    repeat->freedom == 1 ? "degree" : "degrees");
    if (repeat->freedom < HL_FREEDOM_LEAST)
        hl__text_add(&line, "; too few to judge the gauge by");
    if (repeat->worse)
        hl__text_add(&line, "; twice that is more than the gauge is said to be good to: state what it is");
    if (repeat->coarse)
        hl__text_add(&line, "; twice that is more than a quarter of the tolerance: too coarse");
    end_line(page, &line);
}

static bool is_stated(const hl_audit *audit)
{
    for (size_t i = 0; i < audit->gauges.n_gauges; i++)
        if (audit->gauges.gauges[i].from == HL_GAUGE_SHEET)
            return true;
    return false;
}

void hl__page_gauges(hl_page *page)
{
    const hl_audit *audit = page->audit;
    const bool guarded = audit->options.rule == HL_RULE_GUARDED;
    hl_text line = {0};
    if (audit->gauges.n_gauges == 0 || (!guarded && audit->gauges.n_repeats == 0 && !is_stated(audit)))
        return;
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== Gauges ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    if (guarded)
        print_uncertainties(page);
    for (size_t i = 0; i < audit->gauges.n_repeats; i++)
        print_repeat(page, &audit->gauges.repeats[i]);
    print_coarse(page, true, "Read too coarsely, to more than a tenth of the tolerance (rule of thumb): ");
    print_coarse(page, false,
                 "Gauge too coarse, good to no more than a quarter of the tolerance (as calibration "
                 "practice asks): ");
}
