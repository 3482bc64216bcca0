/* even.h - a note against its neighbours (layer: judge). */
#ifndef HL_EVEN_H
#define HL_EVEN_H

#include "table.h"

/* Compare every note of a step that asks for it with the median of its four nearest neighbours
 * of the same colour (and section); what was in range and stands out fails uneven.  The step's
 * one figure, the largest departure, goes into *tally. */
void hl__even_mark(hl_table *table, int step, hl_tally *tally);

#endif
