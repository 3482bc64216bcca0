/* sheet_lost.c - remarks that must share a row, and what a wide sheet leaves out (layer: render/data). */
#include "sheet_lost.h"

#include "csv.h"
#include "sentence.h"

#include <string.h>

static bool is_other_gauge(const hl_sheet *sheet, const hl_event *event)
{
    const bool go = event->kind >= HL_EVENT_WITHIN && event->kind <= HL_EVENT_UNDER;
    const char *gauge = go ? sheet->book->steps[event->step].gauge_name : "";
    return gauge[0] && event->method != 0 && !hl__same_method(gauge, hl__text_at(sheet, event->method));
}

long hl__widening_event(const hl_widening *of, int step, int note)
{
    const hl_sheet *sheet = of->sheet;
    const long at = hl__sheet_latest(sheet, step, note);
    return at < 0 || is_other_gauge(sheet, &sheet->events[at]) ? -1 : at;
}

/* ---- remarks --------------------------------------------------------------------------------- */

/* The remark that all readings of the row have in common; "" for none, NULL when they differ. */
static const char *find_shared(const hl_widening *of, int note)
{
    const char *shared = NULL;
    for (int step = 0; step < of->sheet->book->n_steps; step++) {
        const long at = hl__widening_event(of, step, note);
        if (at < 0)
            continue;
        const char *remark = hl__text_at(of->sheet, of->sheet->events[at].remark);
        if (shared && strcmp(shared, remark) != 0)
            return NULL;
        shared = remark;
    }
    return shared ? shared : "";
}

/* Adds the remarks of single readings; returns how many found no room in the cell. */
static int add_singles(hl_text *out, const hl_widening *of, int note, int *n)
{
    int dropped = 0;
    *n = 0;
    for (int step = 0; step < of->sheet->book->n_steps; step++) {
        const long at = hl__widening_event(of, step, note);
        const char *remark = at < 0 ? "" : hl__text_at(of->sheet, of->sheet->events[at].remark);
        const char *id = of->sheet->book->steps[step].id;
        if (!remark[0])
            continue;
        if (out->size + strlen(id) + strlen(remark) + 4 >= HL_CELL_MOST) {
            dropped++;
            continue;
        }
        hl__text_printf(out, "%s%s: %s", out->size > 0 ? "; " : "", id, remark);
        ++*n;
    }
    return dropped;
}

void hl__widening_remark(hl_text *out, const hl_widening *of, int note)
{
    int n = 0;
    const char *shared = find_shared(of, note);
    if (shared)
        hl__text_add(out, shared);
    else
        add_singles(out, of, note, &n);
}

/* ---- what is lost ---------------------------------------------------------------------------- */

typedef struct losses {
    int earlier, withdrawn, adjustments, passes, queries, open, facts, times, people, methods, gauges;
    int singles, dropped, unread;
} losses;

static bool is_open(const hl_sheet *sheet, size_t query)
{
    for (size_t i = query + 1; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (event->kind == HL_EVENT_QUERY && event->note == sheet->events[query].note && event->word == 1)
            return false;
    }
    return true;
}

static void count_reading(losses *in, const hl_widening *of, long at)
{
    const hl_sheet *sheet = of->sheet;
    const hl_event *event = &sheet->events[at];
    if (event->withdrawn) {
        in->withdrawn++;
    } else if (hl__sheet_latest(sheet, event->step, event->note) != at) {
        in->earlier++;
    } else if (is_other_gauge(sheet, event)) {
        in->gauges++;
    } else {
        in->times += event->time != 0;
        in->people += event->by != 0;
        in->methods += event->method != 0;
    }
}

static void count_event(losses *in, const hl_widening *of, size_t at)
{
    const hl_event *event = &of->sheet->events[at];
    const bool closes = event->kind == HL_EVENT_QUERY && event->word == 1;
    if (event->kind <= HL_EVENT_UNDER || event->kind == HL_EVENT_SKIP)
        count_reading(in, of, (long)at);
    in->adjustments += event->kind == HL_EVENT_ADJUSTMENT && !event->withdrawn;
    in->withdrawn += event->kind == HL_EVENT_ADJUSTMENT && event->withdrawn;
    in->passes += event->kind == HL_EVENT_PASS;
    in->queries += event->kind == HL_EVENT_QUERY && !closes;
    in->open += event->kind == HL_EVENT_QUERY && !closes && is_open(of->sheet, at);
}

static losses count(const hl_widening *of, const hl_written *written)
{
    losses in = {0};
    for (size_t i = 0; i < of->sheet->n_events; i++)
        count_event(&in, of, i);
    for (size_t i = 0; i < of->sheet->n_facts; i++)
        in.facts += hl__out_outdated(of->sheet, i);
    for (size_t i = 0; i < written->n_rows; i++)
        in.unread += written->rows[i].event < 0 && !written->rows[i].line;
    for (int note = 0; note <= of->sheet->compass.keys; note++) {
        int n = 0;
        hl_text remark = {0};
        if (!find_shared(of, note))
            in.dropped += add_singles(&remark, of, note, &n);
        in.singles += n;
        hl__text_free(&remark);
    }
    return in;
}

static void say(hl_text *out, int n, const char *one, const char *many)
{
    if (n == 0)
        return;
    hl__say_count(out, n, one, many);
    hl__text_char(out, '\n');
}

void hl__widening_lost(hl_text *out, const hl_widening *of, const hl_written *written)
{
    const losses in = count(of, written);
    say(out, in.earlier, "earlier reading is left out: a later one counts.",
        "earlier readings are left out: later ones count.");
    say(out, in.withdrawn, "row that was withdrawn is left out.", "rows that were withdrawn are left out.");
    say(out, in.adjustments,
        "adjustment is left out, so a reading that was taken before it no longer shows as stale: read it "
        "again.",
        "adjustments are left out, so readings that were taken before them no longer show as stale: read "
        "them again.");
    say(out, in.passes, "pass is left out.", "passes are left out.");
    say(out, in.queries, "query is left out.", "queries are left out.");
    say(out, in.open, "of them is open: its note may now pass without an answer.",
        "of them are open: their notes may now pass without an answer.");
    say(out, in.facts, "fact that was stated again keeps its last value only.",
        "facts that were stated again keep their last values only.");
    say(out, in.gauges, "go/no-go reading by another gauge than the step's is left out.",
        "go/no-go readings by other gauges than the step's are left out.");
    say(out, in.times, "reading loses its time.", "readings lose their time.");
    say(out, in.people, "reading loses who took it.", "readings lose who took them.");
    say(out, in.methods, "reading loses its method or gauge.", "readings lose their method or gauge.");
    say(out, in.singles, "remark of a single reading is in its note's row, with the step's name.",
        "remarks of single readings are in their notes' rows, with the steps' names.");
    say(out, in.dropped, "remark has no room and is left out.", "remarks have no room and are left out.");
    say(out, in.unread, "row without a reading is left out.", "rows without a reading are left out.");
}
