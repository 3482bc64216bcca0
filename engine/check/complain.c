/* complain.c - adding complaints, and what they are about (layer: check). */
#include "book_check.h"

#include <math.h>
#include <string.h>

hl_err *hl__complain(hl_checking *c)
{
    hl_complaints *all = c->complaints;
    if (!hl__grow((void **)&all->items, all->n, &all->room, sizeof *all->items)) {
        c->no_memory = true;
        return &c->spare;
    }
    return &all->items[all->n++];
}

/* The place of a file in the order of loading: a book comes before what it uses, and is laid over it. */
static int find_depth(const hl_book *book, hl_origin at)
{
    int i = 0;
    while (i < book->n_files && strcmp(book->files[i].file, at.file) != 0)
        i++;
    return i;
}

bool hl__is_later(const hl_book *book, hl_origin a, hl_origin b)
{
    const int x = find_depth(book, a), y = find_depth(book, b);
    return x < y || (x == y && a.line > b.line);
}

double hl__move_effect(const hl_book *book, const hl_move *move, int colour)
{
    double vars[HL_FORMULA_VARS];
    if (move->kind != HL_MOVE_BY)
        return NAN;
    for (int i = 0; i < move->formula->n_vars; i++) {
        const hl_fact *fact = &book->facts[move->formula->vars[i].index];
        vars[i] = fact->has_value ? fact->value[colour] : (double)NAN;
    }
    return hl__formula_value(move->formula, vars);
}
