/* stale.h - readings that an adjustment made since then has overtaken (layer: state). */
#ifndef HL_STALE_H
#define HL_STALE_H

#include "hammerline/audit.h"
#include "table.h"

/* Is a shift more than the step can bear?  More than the book's share of half the target's width,
 * and more than the gauge can tell apart. */
bool hl__stale_matters(const hl_table *table, int step, int note, hl_amount shift);
/* Make stale what was adjusted after it was read, and what is derived from such a reading, through chains of
 * derived steps too.  False = no memory. */
bool hl__stale_mark(hl_table *table);

#endif
