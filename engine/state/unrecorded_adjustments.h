/* unrecorded_adjustments.h - adjustments: those on record, and those that a changed reading gives away
 * (layer: state). */
#ifndef HL_UNRECORDED_ADJUSTMENTS_H
#define HL_UNRECORDED_ADJUSTMENTS_H

#include "hammerline/audit.h"
#include "table.h"

/* Fill the table's deeds, and list the presumed ones.  Effects are those of now, so learn first.
 * False = no memory. */
bool hl__find_adjustments(hl_table *table, hl_presumed **out, size_t *n);

#endif
