/* report_gauges.c - how well the gauges tell, and whether two people agree (layer: render/html). */
#include "report.h"

#include "notes.h"
#include "number.h"
#include "sentence.h"

#include <stdlib.h>

/* ---- gauges --------------------------------------------------------------------------------------- */

static bool is_read(const hl_audit *audit, int step)
{
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        if ((finding->has_value || finding->go) && !finding->computed)
            return true;
    }
    return false;
}

/* Gauges and methods that the sheet's rows name for the step, each once. */
static void say_methods(hl_text *out, const hl_sheet *sheet, int step)
{
    uint32_t last = 0;
    for (size_t i = 0; i < sheet->n_events && out->size < 400; i++) {
        const hl_event *event = &sheet->events[i];
        if (!hl__is_reading(event) || event->step != step || event->method == 0 || event->method == last)
            continue;
        hl__say_once(out, hl__text_at(sheet, event->method));
        last = event->method;
    }
}

static const hl_gauge *find_gauge(const hl_audit *audit, int step)
{
    for (size_t i = 0; i < audit->gauges.n_gauges; i++)
        if (audit->gauges.gauges[i].step == step)
            return &audit->gauges.gauges[i];
    return NULL;
}

static const char *say_source(const hl_gauge *gauge)
{
    switch (gauge ? gauge->from : HL_GAUGE_NONE) {
    case HL_GAUGE_BOOK:
        return "the book";
    case HL_GAUGE_SHEET:
        return "the sheet";
    case HL_GAUGE_RESOLUTION:
        return "not stated: what it is read to";
    case HL_GAUGE_COMPUTED:
        return "its readings";
    case HL_GAUGE_NONE:
        break;
    }
    return "";
}

static const char *say_fitness(const hl_gauge *gauge)
{
    if (!gauge || !gauge->has_tolerance)
        return "";
    if (gauge->coarse_gauge)
        return gauge->coarse_resolution ? "coarse: gauge and scale" : "coarse: gauge";
    return gauge->coarse_resolution ? "coarse: scale" : "yes";
}

/* To a tenth of what the step is read to; more digits say nothing. */
static void say_fine(hl_text *out, const hl_step *step, hl_amount value)
{
    const hl_amount grain = step->resolution / 10;
    hl__say_amount(out, grain > 0 ? hl__round_to(value, grain) : value, step->unit, 0);
}

static void add_gauge(hl_record *record, int index)
{
    hl_html *html = &record->html;
    const hl_step *step = &record->audit->book->steps[index];
    const hl_gauge *gauge = find_gauge(record->audit, index);
    hl_text cell = {0};
    hl__row_start(html, step->title);
    say_methods(&cell, record->audit->sheet, index);
    if (cell.size == 0)
        hl__text_safe(&cell, step->gauge_name[0] ? step->gauge_name
                             : step->method[0]   ? step->method
                                                 : "not stated");
    hl__html_leaf_take(html, "td", NULL, &cell);
    if (step->resolution > 0)
        hl__say_amount(&cell, step->resolution, step->unit, step->resolution);
    hl__html_leaf_take(html, "td", "number", &cell);
    if (gauge && gauge->uncertainty > 0)
        say_fine(&cell, step, gauge->uncertainty);
    else
        hl__text_add(&cell, "not stated");
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__html_leaf(html, "td", NULL, say_source(gauge));
    hl__html_leaf(html, "td", NULL, say_fitness(gauge));
    hl__row_end(html);
}

static void add_gauges(hl_record *record)
{
    static const char *const heads[] = {"Step",     "Gauge or method", ">Read to", ">Good to",
                                        "Says who", "Fine enough",     NULL};
    const hl_audit *audit = record->audit;
    bool started = false;
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (audit->book->steps[i].kind != HL_MEASURED || !is_read(audit, i))
            continue;
        if (!started)
            hl__grid_start(&record->html, NULL, "Gauges, and how well they tell", heads);
        started = true;
        add_gauge(record, i);
    }
    if (!started)
        return;
    hl__grid_end(&record->html);
    hl__html_leaf(
        &record->html, "p", "small",
        "Good to: the uncertainty of one reading, at about 95 %. Fine enough: it takes no more than a "
        "quarter of the span between the limits, and the scale no more than a tenth.");
}

/* ---- readings repeated ---------------------------------------------------------------------------- */

static void add_repeat(hl_record *record, const hl_repeat *repeat)
{
    hl_html *html = &record->html;
    const hl_step *step = &record->audit->book->steps[repeat->step];
    hl_text cell = {0};
    hl__row_start(html, step->title);
    hl__html_leaf(html, "td", NULL, repeat->method);
    hl__text_printf(&cell, "%d", repeat->places);
    hl__html_leaf_take(html, "td", "number", &cell);
    say_fine(&cell, step, repeat->deviation);
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__html_leaf(html, "td", NULL,
                  repeat->freedom < HL_FREEDOM_LEAST ? "too few to tell"
                  : repeat->worse                    ? "worse than its gauge should be"
                  : repeat->coarse                   ? "coarse for this target"
                                                     : "good enough");
    hl__row_end(html);
}

static void add_repeats(hl_record *record)
{
    static const char *const heads[] = {"Step", "Method", ">Notes", ">Standard deviation", "Which is", NULL};
    const hl_audit *audit = record->audit;
    if (audit->gauges.n_repeats == 0)
        return;
    hl__grid_start(&record->html, NULL, "Read more than once by the same hand, nothing moved between", heads);
    for (size_t i = 0; i < audit->gauges.n_repeats; i++)
        add_repeat(record, &audit->gauges.repeats[i]);
    hl__grid_end(&record->html);
}

/* ---- two people ----------------------------------------------------------------------------------- */

static void say_apart(hl_text *out, const hl_audit *audit, const hl_people *people)
{
    int *notes = calloc((size_t)people->n_apart + 1, sizeof *notes);
    if (!notes) {
        out->failed = true;
        return;
    }
    for (int i = 0; i < people->n_apart; i++)
        notes[i] = people->apart[i].note;
    if (people->n_apart == 0)
        hl__text_add(out, "none");
    else
        hl__notes_fold(out, audit->sheet->compass, audit->book->steps[people->step].scope, notes,
                       people->n_apart);
    free(notes);
}

static void add_pair_of_people(hl_record *record, const hl_people *people)
{
    hl_html *html = &record->html;
    const hl_step *step = &record->audit->book->steps[people->step];
    hl_text cell = {0};
    hl__row_start(html, step->title);
    hl__text_safe(&cell, people->first);
    hl__text_add(&cell, ", then ");
    hl__text_safe(&cell, people->second);
    hl__html_leaf_take(html, "td", NULL, &cell);
    hl__text_printf(&cell, "%d", people->notes);
    hl__html_leaf_take(html, "td", "number", &cell);
    if (step->kind != HL_JUDGED)
        say_fine(&cell, step, people->bias);
    hl__html_leaf_take(html, "td", "number", &cell);
    say_apart(&cell, record->audit, people);
    hl__html_leaf_take(html, "td", NULL, &cell);
    hl__row_end(html);
}

static void add_people(hl_record *record)
{
    static const char *const heads[] = {
        "Step", "Read by", ">Notes", ">Second less first", "Apart by more than the gauges allow", NULL};
    const hl_audit *audit = record->audit;
    if (audit->n_people == 0)
        return;
    hl__grid_start(&record->html, NULL, "Read by two people", heads);
    for (size_t i = 0; i < audit->n_people; i++)
        add_pair_of_people(record, &audit->people[i]);
    hl__grid_end(&record->html);
}

void hl__record_gauges(hl_record *record)
{
    add_gauges(record);
    add_repeats(record);
    add_people(record);
}
