/* walk_select.c - the notes that a line is about (layer: cli/walk). */
#include "walk.h"

#include <stdlib.h>

static bool is_taken(const walk *w, const entry *typed, place at)
{
    const bool sharp = hl_pitch_is_sharp(hl_note_pitch(hl_sheet_compass(w->sheet), at.note));
    const int here = w->here.note > 0 ? w->here.note : w->last.note > 0 ? w->last.note : 1;
    const unsigned select = typed->select;
    if ((select & SELECT_SPAN) && (at.note < typed->from || at.note > typed->to))
        return false;
    if ((select & SELECT_NATURALS) && sharp)
        return false;
    if ((select & SELECT_SHARPS) && !sharp)
        return false;
    if ((select & SELECT_SAMPLES) && !hl_sheet_is_sample(w->sheet, at.note))
        return false;
    if ((select & SELECT_SECTION) && hl_sheet_section(w->sheet, at.note) != hl_sheet_section(w->sheet, here))
        return false;
    return !(select & SELECT_REST) || walk_is_open(w, at);
}

/* A span names its notes; a group means those of it that the book asks for. */
static bool is_meant(const walk *w, const entry *typed, place at)
{
    if (!hl_sheet_applies(w->sheet, at.step, at.note) || !is_taken(w, typed, at))
        return false;
    return (typed->select & SELECT_SPAN) || walk_cell(w, at) || w->opened[at.step];
}

static place *select_one(walk *w, place at, size_t *n)
{
    place *places = malloc(sizeof *places);
    if (!places) {
        walk_no_memory(w);
        return NULL;
    }
    places[0] = at;
    *n = 1;
    return places;
}

static place *select_many(walk *w, const entry *typed, int step, size_t *n)
{
    place *places = malloc(((size_t)w->keys + 1) * sizeof *places);
    if (!places) {
        walk_no_memory(w);
        return NULL;
    }
    for (int note = 1; note <= w->keys; note++)
        if (is_meant(w, typed, (place){step, note}))
            places[(*n)++] = (place){step, note};
    if (*n > 0)
        return places;
    free(places);
    walk_say(w, 0, 2, "%s is read at none of these notes. Nothing was recorded.",
             hl_book_step(w->book, step)->title);
    return NULL;
}

place *walk_select(walk *w, const entry *typed, size_t *n)
{
    const int step = w->here.step >= 0 ? w->here.step : w->last.step;
    *n = 0;
    if (typed->select == SELECT_HERE && w->here.step >= 0)
        return select_one(w, w->here, n);
    if (step < 0 || typed->select == SELECT_HERE) {
        walk_say(w, 0, 2, "Nothing is waiting to be read. Go to a step first, as in: go blow C4.");
        return NULL;
    }
    if (hl_book_step(w->book, step)->scope == HL_ONCE) {
        walk_say(w, 0, 2, "%s is read once for the piano: type the reading alone.",
                 hl_book_step(w->book, step)->title);
        return NULL;
    }
    if (typed->select == SELECT_SPAN && typed->from == typed->to)
        return select_one(w, (place){step, typed->from}, n);
    return select_many(w, typed, step, n);
}
