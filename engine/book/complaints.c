/* complaints.c - lists of errors (layer: book).  The list is the caller's. */
#include "complaints.h"

#include "arena.h"

#include <stdlib.h>
#include <string.h>

hl_code hl__complaints_add(hl_complaints *all, const hl_err *one)
{
    for (size_t i = 0; i < all->n; i++) {
        const hl_err *other = &all->items[i];
        if (other->line == one->line && strcmp(other->file, one->file) == 0 &&
            strcmp(other->what, one->what) == 0)
            return HL_OK;
    }
    if (!hl__grow((void **)&all->items, all->n, &all->room, sizeof *all->items))
        return HL_E_MEMORY;
    all->items[all->n++] = *one;
    return HL_OK;
}

void hl_complaints_free(hl_complaints *complaints)
{
    free(complaints->items);
    *complaints = (hl_complaints){0};
}
