/* evenness.h - a note against its neighbours (layer: judge). */
#ifndef HL_EVENNESS_H
#define HL_EVENNESS_H

#include "table.h"

/* Fail the passing readings of all steps that stand out from their neighbours, and let pass what the book
 * lets give way.  The floating step gives way to the others, so their evenness is judged before it floats,
 * and its own after: a step that gives way is still to do so evenly. */
void hl__even_mark(hl_table *table);
/* Twice the median of the neighbours' (reading - aim) at a note; false when fewer than three are in range. */
bool hl__even_lean(const hl_table *table, int step, int note, hl_amount *lean_double);
/* How far a note's reading is out of its neighbours' middle, twice: no half is lost.  False: not known. */
bool hl__even_out(const hl_table *table, int step, int note, hl_amount *out_double);
/* One figure for a step: how uneven it is, and how its readings scatter about their aims. */
void hl__even_tally(const hl_table *table, int step, hl_tally *tally);

#endif
