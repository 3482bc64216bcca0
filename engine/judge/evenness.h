/* evenness.h - a note against its neighbours (layer: judge). */
#ifndef HL_EVENNESS_H
#define HL_EVENNESS_H

#include "hammerline/audit.h"
#include "table.h"

/* Twice the median of (reading - aim) of the four nearest neighbours of the same colour and section;
 * false when there are fewer than three that can be compared. */
bool hl__even_lean(const hl_table *table, int step, int note, hl_amount *lean_double);
/* Compare every note of a step that asks for it with the median of its four nearest neighbours
 * of the same colour (and section); what was in range and stands out fails uneven.  The step's
 * one figure, the largest departure, goes into *tally, and the median absolute deviation, which
 * judges nothing. */
void hl__even_mark(hl_table *table, int step, hl_tally *tally);

#endif
