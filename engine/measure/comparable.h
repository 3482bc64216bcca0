/* comparable.h - are two readings of one note of the same thing (layer: measure). */
#ifndef HL_COMPARABLE_H
#define HL_COMPARABLE_H

#include "hammerline/audit.h"
#include "table.h"

/* Was anything adjusted, on record or presumed, between two rows of the sheet that moves this step at
 * this note?  A slight move counts as none. */
bool hl__adjusted_between(const hl_table *table, int step, int note, long from, long to);
/* The distance between the limits of a step where they are nearest, over the notes it applies to; where
 * there is one limit only, from it to the aim.  False when no note tells. */
bool hl__narrowest(const hl_table *table, int step, hl_amount *out);

#endif
