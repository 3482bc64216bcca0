/* reproducibility.h - two people's readings of the same notes (layer: measure). */
#ifndef HL_REPRODUCIBILITY_H
#define HL_REPRODUCIBILITY_H

#include "hammerline/audit.h"
#include "table.h"

/* List the people who read the same notes, into the table's arena.  False = no memory. */
bool hl__reproducibility_find(hl_people **out, size_t *n, const hl_table *table);

#endif
