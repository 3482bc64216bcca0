/* report_history.c - rounds of work with their climate, adjustments made, readings changed, remarks
 * (layer: render/html).  A wide sheet keeps no history, and the record says so. */
#include "report.h"

#include "gauges.h"
#include "notes.h"
#include "page.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

#define ROWS_MOST 400 /* of a list; how many more there are is said */

static void say_rest(hl_record *record, int n)
{
    hl_text line = {0};
    if (n <= ROWS_MOST)
        return;
    hl__text_printf(&line, "And %d more, which are in the sheet.", n - ROWS_MOST);
    hl__paragraph(&record->html, NULL, &line);
}

/* ---- rounds --------------------------------------------------------------------------------------- */

typedef struct round_of_work {
    int readings, adjustments;
    const char *from, *to;
    hl_text climate;
} round_of_work;

static void read_round(round_of_work *in, const hl_sheet *sheet, int pass)
{
    *in = (round_of_work){.from = "", .to = ""};
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (event->pass != pass)
            continue;
        in->readings += hl__is_reading(event) && !event->withdrawn && !hl__is_remark(sheet, event);
        in->adjustments += event->kind == HL_EVENT_ADJUSTMENT && !event->withdrawn;
        if (event->time != 0) {
            in->from = in->from[0] ? in->from : hl__text_at(sheet, event->time);
            in->to = hl__text_at(sheet, event->time);
        }
        if (event->kind == HL_EVENT_FACT) {
            hl__text_add(&in->climate, in->climate.size > 0 ? "; " : "");
            hl__text_safe(&in->climate, hl__text_at(sheet, event->remark));
        }
    }
}

static void add_round(hl_record *record, const hl_sheet *sheet, int pass)
{
    hl_html *html = &record->html;
    round_of_work of;
    hl_text cell = {0};
    read_round(&of, sheet, pass);
    if (pass == 0 && of.readings + of.adjustments == 0) {
        hl__text_free(&of.climate);
        return;
    }
    hl__row_start(html, pass == 0 ? "before any round was named" : sheet->passes[pass]);
    hl__text_printf(&cell, "%d", of.readings);
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__text_printf(&cell, "%d", of.adjustments);
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__say_hands(&cell, sheet, pass);
    hl__html_leaf_take(html, "td", NULL, &cell);
    hl__text_safe(&cell, of.from);
    if (strcmp(of.from, of.to) != 0) {
        hl__text_add(&cell, " to ");
        hl__text_safe(&cell, of.to);
    }
    hl__html_leaf_take(html, "td", NULL, &cell);
    hl__html_leaf_take(html, "td", NULL, &of.climate);
    hl__row_end(html);
}

/* Notes at which an adjuster was moved, and how many rows say so. */
static int add_work(hl_record *record, int adjuster)
{
    const hl_sheet *sheet = record->audit->sheet;
    const int keys = sheet->compass.keys;
    int *notes = calloc((size_t)keys + 2, sizeof *notes), rows = 0, n = 0;
    bool *moved = calloc((size_t)keys + 2, sizeof *moved);
    if (!notes || !moved) {
        record->html.out->failed = true;
        free(notes);
        free(moved);
        return 0;
    }
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (event->kind != HL_EVENT_ADJUSTMENT || event->step != adjuster || event->withdrawn)
            continue;
        moved[event->note] = true;
        rows++;
    }
    for (int note = 0; note <= keys; note++)
        if (moved[note])
            notes[n++] = note;
    if (n > 0) {
        hl_text cell = {0};
        hl__row_start(&record->html, record->audit->book->adjusters[adjuster].title);
        hl__text_printf(&cell, "%d", rows);
        hl__html_leaf_take(&record->html, "td", "number", &cell);
        hl__notes_fold(&cell, sheet->compass, HL_EVERY_NOTE, notes, n);
        hl__html_leaf_take(&record->html, "td", NULL, &cell);
        hl__row_end(&record->html);
    }
    free(notes);
    free(moved);
    return rows;
}

static bool has_adjustments(const hl_sheet *sheet)
{
    bool any = false;
    for (size_t i = 0; i < sheet->n_events && !any; i++)
        any = sheet->events[i].kind == HL_EVENT_ADJUSTMENT && !sheet->events[i].withdrawn;
    return any;
}

void hl__record_rounds(hl_record *record)
{
    static const char *const heads[] = {"Round", "Readings",    "Adjustments", "By",
                                        "When",  "Stated then", NULL};
    static const char *const works[] = {"Adjusted", ">Times", "Notes", NULL};
    const hl_sheet *sheet = record->audit->sheet;
    if (!sheet->tidy)
        return;
    hl__section_open(&record->html, "rounds", "Rounds of work");
    hl__grid_start(&record->html, NULL, "Rounds, with their climate", heads);
    for (int pass = 0; pass < sheet->n_passes; pass++)
        add_round(record, sheet, pass);
    hl__grid_end(&record->html);
    if (has_adjustments(sheet)) {
        hl__grid_start(&record->html, NULL, "Adjustments made", works);
        for (int i = 0; i < record->audit->book->n_adjusters; i++)
            add_work(record, i);
        hl__grid_end(&record->html);
    }
    hl__html_close(&record->html);
}

/* ---- readings changed ----------------------------------------------------------------------------- */

/* Withdrawn, or read again in the same round.  A reading of a later round is no edit, nor is a remark. */
static bool is_edit(const hl_sheet *sheet, const hl_event *event)
{
    return hl__is_reading(event) &&
           (event->withdrawn || (event->before >= 0 && !hl__is_remark(sheet, event) &&
                                 sheet->events[event->before].pass == event->pass));
}

static void add_edit(hl_record *record, const hl_event *event)
{
    const hl_sheet *sheet = record->audit->sheet;
    hl_html *html = &record->html;
    hl_text cell = {0};
    hl__say_note(&cell, sheet, event->note);
    hl__row_start_take(html, &cell);
    hl__html_leaf(html, "td", NULL, record->audit->book->steps[event->step].title);
    if (event->withdrawn) {
        hl__say_event(&cell, sheet, event);
        hl__html_leaf_take(html, "td", NULL, &cell);
        hl__html_leaf(html, "td", NULL, "withdrawn");
    } else {
        hl__say_event(&cell, sheet, &sheet->events[event->before]);
        hl__html_leaf_take(html, "td", NULL, &cell);
        hl__say_event(&cell, sheet, event);
        hl__html_leaf_take(html, "td", NULL, &cell);
    }
    hl__html_leaf(html, "td", NULL, hl__text_at(record->audit->sheet, event->by));
    hl__html_leaf(html, "td", NULL, hl__text_at(record->audit->sheet, event->time));
    hl__text_printf(&cell, "%d", event->line);
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__row_end(html);
}

void hl__record_edits(hl_record *record)
{
    static const char *const heads[] = {"Note", "Step", "Was", "Became", "By", "When", ">Line", NULL};
    const hl_sheet *sheet = record->audit->sheet;
    int n = 0;
    hl__section_open(&record->html, "edits", "Readings changed");
    for (size_t i = 0; i < sheet->n_events; i++) {
        if (!is_edit(sheet, &sheet->events[i]))
            continue;
        if (n == 0)
            hl__grid_start(&record->html, NULL, "Read again in the same round, or withdrawn", heads);
        if (n < ROWS_MOST)
            add_edit(record, &sheet->events[i]);
        n++;
    }
    if (n > 0)
        hl__grid_end(&record->html);
    else
        hl__html_leaf(&record->html, "p", NULL,
                      sheet->tidy ? "None: no reading was withdrawn, or read again in the same round."
                                  : "This sheet has one row a note and keeps no history of its readings.");
    say_rest(record, n);
    hl__html_close(&record->html);
}

/* ---- remarks and queries -------------------------------------------------------------------------- */

static const hl_finding *find_query(const hl_audit *audit, const hl_event *event)
{
    for (size_t i = audit->findings.first[audit->book->n_steps]; i < audit->findings.n; i++)
        if (audit->findings.items[i].line == event->line)
            return &audit->findings.items[i];
    return NULL;
}

/* What a row says beside its number: a remark, or a query and whether it is open. */
static bool say_remark(hl_text *out, const hl_audit *audit, const hl_event *event)
{
    const bool query = event->kind == HL_EVENT_QUERY && event->word != 1;
    if (query)
        hl__text_add(out, find_query(audit, event) ? "Open query: " : "Query, closed: ");
    else if (event->withdrawn || event->kind == HL_EVENT_PASS || event->kind == HL_EVENT_FACT)
        return false;
    hl__text_safe(out, hl__text_at(audit->sheet, event->remark));
    return event->remark != 0;
}

static const char *name_subject(const hl_book *book, const hl_event *event)
{
    if (event->step < 0)
        return "";
    return event->kind == HL_EVENT_ADJUSTMENT ? book->adjusters[event->step].title
                                              : book->steps[event->step].title;
}

static bool add_remark(hl_record *record, const hl_event *event, bool first)
{
    static const char *const heads[] = {"Note", "About", "Remark", "By", "When", NULL};
    const hl_audit *audit = record->audit;
    hl_html *html = &record->html;
    hl_text remark = {0}, note = {0};
    if (!say_remark(&remark, audit, event)) {
        hl__text_free(&remark);
        return false;
    }
    if (first)
        hl__grid_start(html, NULL, "Remarks and queries, in the sheet's order", heads);
    hl__say_note(&note, audit->sheet, event->note);
    hl__row_start_take(html, &note);
    hl__html_leaf(html, "td", NULL, name_subject(audit->book, event));
    hl__html_leaf_take(html, "td", NULL, &remark);
    hl__html_leaf(html, "td", NULL, hl__text_at(record->audit->sheet, event->by));
    hl__html_leaf(html, "td", NULL, hl__text_at(record->audit->sheet, event->time));
    hl__row_end(html);
    return true;
}

void hl__record_remarks(hl_record *record)
{
    static const char *const facts[] = {"remark", "remarks", "note", "notes"};
    const hl_sheet *sheet = record->audit->sheet;
    int n = 0;
    bool said = false;
    hl__section_open(&record->html, "remarks", "Remarks and open queries");
    for (size_t i = 0; i < sheet->n_facts; i++)
        for (size_t k = 0; k < sizeof facts / sizeof *facts; k++)
            if (strcmp(sheet->facts[i].id, facts[k]) == 0 && sheet->facts[i].value[0]) {
                hl__html_leaf(&record->html, "p", NULL, sheet->facts[i].value);
                said = true;
            }
    for (size_t i = 0; i < sheet->n_events && n < ROWS_MOST; i++)
        n += add_remark(record, &sheet->events[i], n == 0);
    if (n > 0)
        hl__grid_end(&record->html);
    else if (!said)
        hl__html_leaf(&record->html, "p", NULL, "None.");
    if (n == ROWS_MOST)
        hl__html_leaf(&record->html, "p", NULL, "There may be more; they are in the sheet.");
    hl__html_close(&record->html);
}
