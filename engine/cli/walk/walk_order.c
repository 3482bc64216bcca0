/* walk_order.c - the book's order through the notes, and what is still open in it (layer: cli/walk).
 *
 * Stages and steps as the book has them.  Inside a measured step the sample notes come first; then
 * section by section the naturals upward and the sharps on the way back, as the hands go. */
#include "walk.h"

#include <stdlib.h>

const hl_finding *walk_cell(const walk *w, place at)
{
    return at.step < 0 ? NULL : w->cells[(size_t)at.step * ((size_t)w->keys + 1) + (size_t)at.note];
}

const char *walk_note_name(const walk *w, int note)
{
    return note == 0 ? "" : hl_pitch_name(hl_note_pitch(hl_sheet_compass(w->sheet), note));
}

static bool is_sharp(const walk *w, int note)
{
    return hl_pitch_is_sharp(hl_note_pitch(hl_sheet_compass(w->sheet), note));
}

bool walk_is_open(const walk *w, place at)
{
    const hl_finding *finding = walk_cell(w, at);
    if (!finding)
        return at.step >= 0 && w->opened[at.step];
    return finding->verdict == HL_STALE || (finding->verdict == HL_MISSING && finding->why != HL_WHY_SKIPPED);
}

/* ---- the order --------------------------------------------------------------------------------- */

static bool is_asked(const walk *w, place at)
{
    const hl_finding *finding = walk_cell(w, at);
    if (finding)
        return finding->verdict != HL_NOT_APPLICABLE;
    return w->opened[at.step] && hl_sheet_applies(w->sheet, at.step, at.note);
}

static void add_place(walk *w, place at)
{
    if (is_asked(w, at))
        w->order[w->n_order++] = at;
}

static void add_section(walk *w, int step, int first, int last, bool samples)
{
    for (int note = first; note <= last; note++)
        if (!is_sharp(w, note) && !(samples && hl_sheet_is_sample(w->sheet, note)))
            add_place(w, (place){step, note});
    for (int note = last; note >= first; note--)
        if (is_sharp(w, note) && !(samples && hl_sheet_is_sample(w->sheet, note)))
            add_place(w, (place){step, note});
}

static void add_step(walk *w, int index)
{
    const hl_step *step = hl_book_step(w->book, index);
    if (step->kind == HL_DERIVED || step->skipped)
        return;
    add_place(w, (place){index, 0});
    const bool samples = step->kind == HL_MEASURED;
    for (int note = 1; samples && note <= w->keys; note++)
        if (hl_sheet_is_sample(w->sheet, note))
            add_place(w, (place){index, note});
    for (int first = 1, note = 1; note <= w->keys; note++) {
        if (note < w->keys && hl_sheet_section(w->sheet, note + 1) == hl_sheet_section(w->sheet, note))
            continue;
        add_section(w, index, first, note, samples);
        first = note + 1;
    }
}

bool walk_make_order(walk *w)
{
    const int steps = hl_book_n_steps(w->book);
    if (!w->order)
        w->order = malloc(((size_t)steps * ((size_t)w->keys + 1) + 1) * sizeof *w->order);
    if (!w->order)
        return false;
    w->n_order = 0;
    for (int stage = 0; stage < hl_book_n_stages(w->book); stage++)
        for (int step = 0; step < steps; step++)
            if (hl_book_step(w->book, step)->stage == stage)
                add_step(w, step);
    return true;
}

/* ---- moving in it ------------------------------------------------------------------------------ */

/* Where a place is in the order; n_order when it is not in it. */
static size_t find_place(const walk *w, place at)
{
    size_t i = 0;
    while (i < w->n_order && !walk_same_place(w->order[i], at))
        i++;
    return i;
}

place walk_next_open(const walk *w, place at)
{
    const size_t from = at.step < 0 ? w->n_order : find_place(w, at);
    for (size_t i = from + 1; i < w->n_order; i++)
        if (walk_is_open(w, w->order[i]))
            return w->order[i];
    for (size_t i = 0; i < w->n_order && i <= from; i++)
        if (walk_is_open(w, w->order[i]))
            return w->order[i];
    return (place){-1, 0};
}

place walk_neighbour(const walk *w, place at, int way)
{
    const size_t from = find_place(w, at);
    if (from == w->n_order)
        return way < 0 && w->n_order > 0 ? w->order[w->n_order - 1] : at;
    if (way < 0)
        return from > 0 ? w->order[from - 1] : at;
    return from + 1 < w->n_order ? w->order[from + 1] : at;
}

int walk_count_open(const walk *w, place from, place to)
{
    int n = 0;
    const size_t end = find_place(w, to);
    for (size_t i = find_place(w, from); i < end && i < w->n_order; i++)
        n += walk_is_open(w, w->order[i]);
    return n;
}

static bool is_stop(const walk *w, place at)
{
    for (size_t i = 0; i < w->n_stops; i++)
        if (walk_same_place(w->stops[i].at, at))
            return true;
    return false;
}

place walk_begin_step(const walk *w, int step)
{
    place first = {-1, 0};
    for (size_t i = 0; i < w->n_order; i++) {
        if (w->order[i].step != step)
            continue;
        if (walk_is_open(w, w->order[i]))
            return w->order[i];
        if (first.step < 0)
            first = w->order[i];
    }
    return first;
}

bool walk_lingers(const walk *w)
{
    return w->linger >= 0 && !w->stay && w->here.step == w->linger && !walk_is_open(w, w->here);
}

void walk_settle(walk *w)
{
    if (w->stay && w->here.step >= 0)
        return;
    w->stay = false;
    if (w->linger >= 0 && !w->again) {
        w->here = walk_begin_step(w, w->linger);
        return;
    }
    if (w->again) {
        if (w->here.step < 0 || !is_stop(w, w->here))
            w->here = walk_next_stop(w, w->here);
    } else if (w->here.step < 0 || !walk_is_open(w, w->here)) {
        w->here = walk_next_open(w, w->here);
    }
}
