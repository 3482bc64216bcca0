/* correct.h - what to adjust, which way and how far, for one failing reading (layer: advise). */
#ifndef HL_CORRECT_H
#define HL_CORRECT_H

#include "hammerline/plan.h"
#include "table.h"

/* Fill the finding's corrections (none unless it fails): the ways out in the step's own order,
 * those that land and spoil nothing first.  False = no memory. */
bool hl__correct(const hl_table *table, hl_finding *finding);

#endif
