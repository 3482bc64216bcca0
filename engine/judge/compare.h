/* compare.h - what was read beside what the step's model says of it (layer: judge). */
#ifndef HL_COMPARE_H
#define HL_COMPARE_H

#include "table.h"

/* Beside every fresh reading of a modelled step, put what its model makes of the note's other
 * readings, and whether the two differ by more than the gauges allow.  No verdict changes. */
void hl__compare_models(hl_table *table);

#endif
