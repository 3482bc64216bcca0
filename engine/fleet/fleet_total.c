/* fleet_total.c - what all sheets of a fleet come to (layer: fleet). */
#include "fleet_total.h"

#include "book.h"
#include "errors.h"

#include <stdlib.h>

static bool copy_words(hl_fleet_total *total, const hl_book *book)
{
    hl_arena *arena = &total->arena;
    const size_t steps = (size_t)book->n_steps + 1, adjusters = (size_t)book->n_adjusters + 1;
    total->id = hl__arena_copy(arena, book->id);
    total->steps = hl__arena_array(arena, steps, sizeof *total->steps);
    total->adjusters = hl__arena_array(arena, adjusters, sizeof *total->adjusters);
    total->counts = hl__arena_array(arena, steps, sizeof *total->counts);
    total->cures = hl__arena_array(arena, adjusters, sizeof *total->cures);
    if (!total->id || !total->steps || !total->adjusters || !total->counts || !total->cures)
        return false;
    bool good = true;
    for (int i = 0; good && i < book->n_steps; i++)
        good = (total->steps[i] = hl__arena_copy(arena, book->steps[i].title)) != NULL;
    for (int i = 0; good && i < book->n_adjusters; i++)
        good = (total->adjusters[i] = hl__arena_copy(arena, book->adjusters[i].title)) != NULL;
    return good;
}

static hl_fleet_total *find_total(hl_fleet_totals *totals, const hl_book *book)
{
    for (size_t i = 0; i < totals->n; i++)
        if (totals->books[i].book == book)
            return &totals->books[i];
    void *items = totals->books;
    if (!hl__grow(&items, totals->n, &totals->room, sizeof *totals->books))
        return NULL;
    totals->books = items;
    hl_fleet_total *added = &totals->books[totals->n];
    *added = (hl_fleet_total){.book = book, .n_steps = book->n_steps, .n_adjusters = book->n_adjusters};
    if (!copy_words(added, book)) {
        hl__arena_free(&added->arena);
        return NULL;
    }
    totals->n++;
    return added;
}

hl_code hl_fleet_totals_add(hl_fleet_totals *totals, const hl_fleet_sheet *sheet, hl_err *err)
{
    totals->n_sheets += !sheet->again;
    totals->n_judged -= sheet->was_judged;
    totals->n_ready -= sheet->was_ready;
    if (!sheet->judged)
        return HL_OK;
    hl_fleet_total *total = find_total(totals, sheet->book);
    if (!total)
        return hl__no_memory(err);
    totals->n_judged++;
    totals->n_ready += sheet->ready && sheet->code == HL_OK;
    long fails = 0;
    for (int i = 0; i < total->n_steps; i++) {
        for (int k = 0; k < HL_VERDICTS; k++)
            total->counts[i][k] += sheet->counts[i][k];
        fails += sheet->counts[i][HL_FAIL];
    }
    total->queries += sheet->total[HL_FAIL] - fails;
    for (int i = 0; i < total->n_adjusters; i++)
        total->cures[i] += sheet->cures[i];
    return HL_OK;
}

void hl_fleet_totals_free(hl_fleet_totals *totals)
{
    for (size_t i = 0; i < totals->n; i++)
        hl__arena_free(&totals->books[i].arena);
    free(totals->books);
    *totals = (hl_fleet_totals){0};
}
