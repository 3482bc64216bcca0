/* changed_book.h - small changes to a book that a test has to itself. */
#ifndef CHANGED_BOOK_H
#define CHANGED_BOOK_H

#include "small_book.h"

#include <string.h>

static inline void set_target(hl_book *book, const char *step, hl_target target)
{
    hl_target *targets = (hl_target *)book->steps[small_step(book, step)].targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = target;
}

static inline void set_fact(hl_book *book, const char *fact, double value)
{
    for (int i = 0; i < book->n_facts; i++)
        if (strcmp(book->facts[i].id, fact) == 0)
            book->facts[i].value[0] = book->facts[i].value[1] = value;
}

/* While `first` is wrong, `then` means nothing. */
static inline void set_mask(hl_book *book, const char *first, const char *then)
{
    int *masks = hl__arena_array(&book->arena, 1, sizeof *masks);
    masks[0] = small_step(book, then);
    book->steps[small_step(book, first)].masks = masks;
    book->steps[small_step(book, first)].n_masks = 1;
}

/* The step's ways out; `second` may be NULL. */
static inline void set_fixes(hl_book *book, const char *step, const char *first, const char *second)
{
    int *fixes = hl__arena_array(&book->arena, 2, sizeof *fixes), n = 0;
    fixes[n++] = small_adjuster(book, first);
    if (second)
        fixes[n++] = small_adjuster(book, second);
    book->steps[small_step(book, step)].fixes = fixes;
    book->steps[small_step(book, step)].n_fixes = n;
}

static inline void add_move(hl_book *book, const char *adjuster, const char *step, const char *by)
{
    hl_adjuster *a = &book->adjusters[small_adjuster(book, adjuster)];
    hl_move *moves = hl__arena_array(&book->arena, (size_t)a->n_moves + 1, sizeof *moves);
    memcpy(moves, a->moves, (size_t)a->n_moves * sizeof *moves);
    moves[a->n_moves++] = (hl_move){.step = small_step(book, step), .formula = small_formula(book, by)};
    a->moves = moves;
}

#endif
