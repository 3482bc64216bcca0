/* places.c - what counts at each place: readings put, taken back and withdrawn (layer: sheet).
 *
 * The readings of a place are a list of events, the latest first, by `before`.  -1 ends it; NOTHING ends it
 * too, and says that readings of this place were withdrawn. */
#include "form.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

#define NOTHING (-2)

static void set_state(hl_places *places, int step, int place, hl_state state)
{
    places->states[place] = (unsigned char)state;
    if (state == HL_STATE_OTHER || state == HL_STATE_WITHDRAWN) {
        places->odd[step] = 1;
    }
}

static hl_state find_state(const hl_form *form, const hl_event *event, int place)
{
    const bool judged = form->book->steps[event->step].kind == HL_JUDGED;
    if (event->kind == HL_EVENT_VALUE && !judged) {
        return event->amount < form->low[place]    ? HL_STATE_LOW
               : event->amount > form->high[place] ? HL_STATE_HIGH
                                                   : HL_STATE_PASS;
    }
    if (event->kind == HL_EVENT_WORD && judged) {
        return event->word < 0 ? HL_STATE_PASS : HL_STATE_WORD;
    }
    return HL_STATE_OTHER;
}

/* The event `index`, or what `index` says instead of one, counts at the place from now on. */
static void settle(hl_sheet *sheet, int step, int place, int index)
{
    hl_places *places = &sheet->places;
    if (index < 0) {
        set_state(places, step, place, index == NOTHING ? HL_STATE_WITHDRAWN : HL_STATE_UNREAD);
        return;
    }
    const hl_event *event = &sheet->events[index];
    places->latest[place] = index;
    places->values[place] = event->kind == HL_EVENT_WORD ? event->word : event->amount;
    set_state(places, step, place, find_state(sheet->form, event, place));
}

static bool has_reading(unsigned char state)
{
    return state != HL_STATE_UNREAD && state != HL_STATE_WITHDRAWN && state != HL_STATE_CLOSED;
}

void hl__places_put(hl_sheet *sheet, int index)
{
    hl_event *event = &sheet->events[index];
    const int place = hl__place(event->step, event->note);
    const unsigned char state = sheet->places.states[place];
    event->before = has_reading(state)            ? sheet->places.latest[place]
                    : state == HL_STATE_WITHDRAWN ? NOTHING
                                                  : -1;
    sheet->again = sheet->again || state != HL_STATE_UNREAD;
    settle(sheet, event->step, place, index);
}

void hl__places_forget(hl_sheet *sheet, int place)
{
    set_state(&sheet->places, place / HL_NOTES, place, HL_STATE_UNREAD);
}

bool hl__sheet_add_usual(hl_sheet *sheet, const hl_usual *usual, int n)
{
    const size_t wanted = sheet->n_events + (size_t)n;
    if (wanted > sheet->room_events) {
        hl_event *events = realloc(sheet->events, 2 * wanted * sizeof *events);
        if (events == NULL) {
            return false;
        }
        sheet->events = events;
        sheet->room_events = 2 * wanted;
    }
    const int pass = sheet->expanded ? sheet->n_passes - 1 : 0; /* a row that begins a pass is not usual */
    for (int i = 0; i < n; i++) {
        const int step = usual[i].place / HL_NOTES;
        const bool judged = sheet->book->steps[step].kind == HL_JUDGED;
        sheet->places.latest[usual[i].place] = (int)sheet->n_events;
        sheet->events[sheet->n_events++] = (hl_event){.kind = judged ? HL_EVENT_WORD : HL_EVENT_VALUE,
                                                      .amount = judged ? 0 : usual[i].value,
                                                      .word = judged ? (int)usual[i].value : 0,
                                                      .step = step,
                                                      .note = (unsigned char)(usual[i].place % HL_NOTES),
                                                      .line = usual[i].line,
                                                      .pass = pass,
                                                      .before = -1};
    }
    return true;
}

bool hl__sheet_expand(hl_sheet *sheet)
{
    if (sheet->expanded) {
        return true;
    }
    const int n = (int)sheet->n_events;
    sheet->n_events = 0;
    sheet->expanded = hl__sheet_add_usual(sheet, sheet->usual, n);
    if (!sheet->expanded) {
        sheet->n_events = (size_t)n;
    }
    return sheet->expanded;
}

/* The one above `index` in the list that begins with `latest`; -1: it is the first. */
static int find_above(const hl_sheet *sheet, int latest, int index)
{
    int above = -1;
    while (latest >= 0 && latest != index) {
        above = latest;
        latest = sheet->events[latest].before;
    }
    return above;
}

/* `named`: 1 + the index of the reading that goes; 0: the latest.  Returns the one that went, or -1. */
static int withdraw_reading(hl_sheet *sheet, int step, int note, int named)
{
    const int place = hl__place(step, note);
    sheet->again = true;
    if (!has_reading(sheet->places.states[place])) {
        settle(sheet, step, place, NOTHING);
        return -1;
    }
    const int latest = sheet->places.latest[place], index = named > 0 ? named - 1 : latest;
    const int above = find_above(sheet, latest, index);
    hl_event *event = &sheet->events[index];
    event->withdrawn = true;
    if (above >= 0) {
        sheet->events[above].before = event->before >= 0 ? event->before : NOTHING;
    } else {
        settle(sheet, step, place, event->before >= 0 ? event->before : NOTHING);
    }
    return index;
}

bool hl__sheet_was_read(const hl_sheet *sheet, int step, int note)
{
    return has_reading(sheet->places.states[hl__place(step, note)]);
}

int hl__sheet_latest(const hl_sheet *sheet, int step, int note)
{
    const int place = hl__place(step, note);
    return sheet->expanded && has_reading(sheet->places.states[place]) ? sheet->places.latest[place] : -1;
}

bool hl__sheet_withdrawn(const hl_sheet *sheet, int step, int note)
{
    return sheet->places.states[hl__place(step, note)] == HL_STATE_WITHDRAWN;
}

int hl__sheet_latest_change(const hl_sheet *sheet, int adjuster, int note)
{
    return sheet->changes == NULL ? -1 : sheet->changes[hl__place(adjuster, note)];
}

void hl__sheet_withdraw_change(hl_sheet *sheet, const hl_event *event, int index)
{
    int *latest = &sheet->changes[hl__place(event->step, event->note)];
    const int above = find_above(sheet, *latest, index), before = sheet->events[index].before;
    sheet->events[index].withdrawn = true;
    sheet->n_changes--;
    *(above >= 0 ? &sheet->events[above].before : latest) = before;
}

static bool make_changes(hl_sheet *sheet)
{
    const size_t n = (size_t)sheet->book->n_adjusters * HL_NOTES;
    if (sheet->changes == NULL) {
        sheet->changes = hl__arena_array(&sheet->row_arena, n + 1, sizeof *sheet->changes);
        for (size_t i = 0; sheet->changes != NULL && i < n; i++) {
            sheet->changes[i] = -1;
        }
    }
    return sheet->changes != NULL;
}

hl_code hl__sheet_add(hl_sheet *sheet, const hl_event *event, hl_err *err)
{
    const bool change = event->kind == HL_EVENT_ADJUSTMENT;
    if (!hl__sheet_expand(sheet) || (change && !make_changes(sheet))) {
        return hl__no_memory(err);
    }
    void *items = sheet->events;
    if (!hl__grow(&items, sheet->n_events, &sheet->room_events, sizeof *event)) {
        return hl__no_memory(err);
    }
    sheet->events = items;
    const int index = (int)sheet->n_events++;
    hl_event *kept = &sheet->events[index];
    *kept = *event;
    kept->before = -1;
    kept->pass = sheet->n_passes - 1;
    if (change) {
        int *last = &sheet->changes[hl__place(event->step, event->note)];
        kept->before = *last;
        *last = index;
        sheet->n_changes++;
    } else if (event->kind == HL_EVENT_QUERY) {
        sheet->has_queries = true;
    } else if (event->step >= 0 && event->kind == HL_EVENT_VOID) {
        kept->before = withdraw_reading(sheet, event->step, event->note, (int)event->amount);
    } else if (event->kind == HL_EVENT_CONFIRM || event->kind == HL_EVENT_ACCEPTED) {
        sheet->has_words = true;
    } else if (event->step >= 0) {
        hl__places_put(sheet, index);
    }
    return HL_OK;
}

bool hl__places_make(hl_sheet *sheet)
{
    const size_t n = (size_t)sheet->book->n_steps + 1, all = n * HL_NOTES;
    hl_places *places = &sheet->places;
    places->values = hl__arena_array(&sheet->arena, all, sizeof *places->values);
    places->states = hl__arena_array(&sheet->arena, n, HL_NOTES);
    places->latest = hl__arena_array(&sheet->arena, all, sizeof *places->latest);
    places->odd = hl__arena_array(&sheet->arena, n, 1);
    return places->values && places->states && places->latest && places->odd;
}

void hl__places_clear(hl_sheet *sheet)
{
    const size_t n = (size_t)sheet->book->n_steps;
    memcpy(sheet->places.states, sheet->form->closed, n * HL_NOTES);
    memset(sheet->places.odd, 0, n);
}
