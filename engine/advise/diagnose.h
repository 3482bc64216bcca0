/* diagnose.h - what several readings of a note, taken together, point to (layer: advise). */
#ifndef HL_DIAGNOSE_H
#define HL_DIAGNOSE_H

#include "hammerline/audit.h"
#include "table.h"

#define HL_WIDE_FEWEST 3 /* notes that must be told before "everywhere" means anything */

/* Try every diagnosis of the book at every note; what holds and is not silenced goes into *out.
 * The table must be finished: staleness, evenness and float marked.  False = no memory. */
bool hl__diagnose(const hl_table *table, hl_diagnosed **out, size_t *n);

#endif
