/* unrecorded_adjustments.c - adjustments: those on record, and those that a changed reading gives away
 * (layer: state).
 *
 * Goes through the sheet in its order and keeps, for each step and note, what its last reading
 * should have become.  When the same person takes it again by the same method in the same pass
 * and finds something else, by more than both gauges and the moves in between allow, somebody is
 * presumed to have turned the first thing that moves the step and not to have written it down. */
#include "unrecorded_adjustments.h"

#include "effects_cache.h"
#include "learn.h"

#include <math.h>
#include <stdlib.h>

/* Of one step at one note. */
typedef struct track {
    long last;    /* row of its last number + 1; 0 = none */
    double moved; /* what was done since should have changed it by this */
    double doubt; /* and may as well have done this much more or less */
    bool unknown; /* something moved it, nobody knows how far: then nothing is presumed */
} track;

typedef struct walk {
    hl_table *table;
    track *tracks; /* [n_steps][keys + 1] */
    hl_presumed *list;
    size_t n;
} walk;

static bool is_again(const hl_sheet *sheet, const hl_event *event)
{
    if (event->kind != HL_EVENT_VALUE || event->withdrawn || event->before < 0)
        return false;
    return sheet->events[event->before].kind == HL_EVENT_VALUE;
}

static bool is_adjustment(const hl_event *event)
{
    return event->kind == HL_EVENT_ADJUSTMENT && !event->withdrawn;
}

static track *find_track(const walk *w, int step, int note)
{
    return &w->tracks[(size_t)step * ((size_t)w->table->keys + 1) + (size_t)note];
}

static void add_to_track(track *t, const hl_effect *effect, const hl_adjustment *adjustment,
                         const hl_adjuster *adjuster)
{
    if (t->last == 0 || effect->kind == HL_EFFECT_NONE)
        return;
    if (effect->kind != HL_EFFECT_BY || adjustment->unknown) {
        t->unknown = true;
        return;
    }
    double shift = effect->by * adjustment->amount;
    double share = effect->assumed ? HL_ASSUMED_SHARE : HL_KNOWN_SHARE;
    t->moved += shift;
    t->doubt += share * fabs(shift) + 2 * hl__hand_doubt(adjuster) * fabs(effect->by);
}

static void carry_note(const walk *w, const hl_adjustment *adjustment, int note)
{
    hl_table *table = w->table;
    hl__table_values(table, note, table->note_values);
    hl__effects_now(table, adjustment->adjuster, note, table->note_values, table->effects);
    for (int i = 0; i < table->book->n_steps; i++)
        if (hl__table_holds(table, i, note))
            add_to_track(find_track(w, i, note), &table->effects[i], adjustment,
                         &table->book->adjusters[adjustment->adjuster]);
}

static void add_adjustment(const walk *w, hl_adjustment adjustment)
{
    hl_table *table = w->table;
    table->adjustments[table->n_adjustments++] = adjustment;
    int from = adjustment.everywhere ? 0 : adjustment.note,
        to = adjustment.everywhere ? table->keys : adjustment.note;
    for (int note = from; w->tracks && note <= to; note++)
        carry_note(w, &adjustment, note);
}

static void add_recorded(const walk *w, long at)
{
    const hl_event *event = &w->table->sheet->events[at];
    add_adjustment(
        w, (hl_adjustment){.at = at,
                           .adjuster = event->step,
                           .note = event->note,
                           .everywhere = event->note == 0 || w->table->book->adjusters[event->step].whole,
                           .unknown = event->no_amount,
                           .amount = (double)event->amount / (double)HL_ONE,
                           .because = -1,
                           .row = -1});
}

/* The step's first adjuster with an effect in numbers, or -1.  One that serves every note is never
 * presumed from a single note: one touched screw must not turn the whole job red. */
static int find_fix(const hl_table *table, int step, int note, double *by)
{
    const hl_step *s = &table->book->steps[step];
    for (int i = 0; i < s->n_fixes; i++) {
        int index = s->fixes[i];
        if (table->book->adjusters[index].whole && note > 0)
            continue;
        hl__table_values(table, note, table->note_values);
        hl__effects_now(table, index, note, table->note_values, table->effects);
        *by = table->effects[step].by;
        if (table->effects[step].kind == HL_EFFECT_BY && *by != 0)
            return index;
    }
    return -1;
}

static void add_presumed(walk *w, long at, double difference)
{
    const hl_event *event = &w->table->sheet->events[at];
    double by = 0;
    hl_amount amount = 0;
    int adjuster = find_fix(w->table, event->step, event->note, &by);
    if (adjuster < 0 || !hl__amount_from(difference / by, &amount))
        return;
    w->list[w->n++] = (hl_presumed){adjuster, event->note, event->step, event->line, amount};
    add_adjustment(w, (hl_adjustment){.at = at - 1,
                                      .adjuster = adjuster,
                                      .note = event->note,
                                      .everywhere = w->table->book->adjusters[adjuster].whole,
                                      .amount = difference / by,
                                      .because = event->step,
                                      .row = at});
}

/* A person's slips of the gauge are independent, so the two add as the root of their squares; what
 * the moves may have done adds to that. */
static bool is_beyond(const hl_table *table, int step, const track *t, double difference)
{
    double gauge = hl__reading_doubt(table, step);
    return fabs(difference) > sqrt(2 * gauge * gauge) + t->doubt;
}

static void take_reading(walk *w, long at)
{
    const hl_table *table = w->table;
    const hl_event *event = &table->sheet->events[at];
    track *t = find_track(w, event->step, event->note);
    const hl_event *before = t->last > 0 ? &table->sheet->events[t->last - 1] : NULL;
    if (before && !t->unknown && before->pass == event->pass && hl__comparable(table->sheet, before, event)) {
        double difference = (double)(event->amount - before->amount) / (double)HL_ONE - t->moved;
        if (is_beyond(table, event->step, t, difference))
            add_presumed(w, at, difference);
    }
    *t = (track){.last = at + 1};
}

/* Room for what may come; *again: how many readings were taken again. */
static bool make_room(walk *w, size_t *again)
{
    const hl_table *table = w->table;
    size_t recorded = 0, notes = (size_t)table->keys + 1;
    *again = 0;
    for (size_t i = 0; i < table->sheet->n_events; i++) {
        recorded += is_adjustment(&table->sheet->events[i]);
        *again += is_again(table->sheet, &table->sheet->events[i]);
    }
    w->table->adjustments = hl__arena_array(table->arena, recorded + *again + 1, sizeof *table->adjustments);
    w->list = hl__arena_array(table->arena, *again + 1, sizeof *w->list);
    if (*again > 0) /* most sheets have none, and then there is nothing to presume */
        w->tracks = calloc((size_t)table->book->n_steps * notes + 1, sizeof *w->tracks);
    return table->adjustments && w->list && (*again == 0 || w->tracks);
}

bool hl__find_adjustments(hl_table *table, hl_presumed **out, size_t *n)
{
    walk w = {.table = table};
    size_t again = 0;
    table->n_adjustments = 0;
    *out = NULL;
    *n = 0;
    if (!table->sheet->again && table->sheet->n_changes == 0)
        return true;
    bool ok = make_room(&w, &again);
    for (size_t i = 0; ok && i < table->sheet->n_events; i++) {
        const hl_event *event = &table->sheet->events[i];
        if (is_adjustment(event))
            add_recorded(&w, (long)i);
        else if (again > 0 && event->kind == HL_EVENT_VALUE && !event->withdrawn)
            take_reading(&w, (long)i);
    }
    free(w.tracks);
    *out = w.list;
    *n = w.n;
    return ok;
}
