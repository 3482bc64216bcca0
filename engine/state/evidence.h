/* evidence.h - what the rows of a sheet show together: adjustments, and readings that contradict each other
 * (layer: state). */
#ifndef HL_EVIDENCE_H
#define HL_EVIDENCE_H

#include "table.h"

/* Is there anything to weigh?  Then the sheet's events are looked at (hl__sheet_expand). */
bool hl__evidence_asks(const hl_head *head, const hl_sheet *sheet);
/* Fill table->adjustments with those on record and those that a changed reading gives away, and table->doubts
 * with the readings that other rows contradict.  *out: the unrecorded ones whose adjuster is a guess worth
 * naming. False = no memory. */
bool hl__evidence_find(hl_table *table, hl_presumed **out, size_t *n);
/* A passing reading in doubt does not count as a pass.  After staleness was marked, before evenness. */
void hl__evidence_mark(hl_table *table);
/* What somebody accepted as it is.  After evenness was marked. */
void hl__evidence_accept(hl_table *table);
/* Is it the name of a round that was read before the work? */
bool hl__evidence_as_found(const char *name);
/* Was this reading taken before the work, by its place in the sheet or by its own clock? */
bool hl__evidence_before(const hl_sheet *sheet, int reading, const hl_adjustment *adjustment);

#endif
