/* tolerance_float.h - the one step that a book lets give way (layer: table).
 *
 * A model ties a few readings together (aftertouch = dip - (blow - let-off) / ratio).  Where all
 * but one of them pass, that one may lie a little beyond its target, if the book's school says so. */
#ifndef HL_TOLERANCE_FLOAT_H
#define HL_TOLERANCE_FLOAT_H

#include "hammerline/audit.h"
#include "table.h"

/* The step whose model ties the book's floating step to others; -1 when none does. */
int hl__float_model(const hl_book *book);
/* Is `step` one of the readings that the model of `model` ties?  Derived ones are not readings. */
bool hl__float_ties(const hl_book *book, int model, int step);
/* Pass the floating step's readings that lie beyond their target, but inside the float, at every
 * note where the others of its set pass. */
void hl__float_mark(hl_table *table);
/* The target at a note, widened where the reading was floated. */
hl_target hl__float_target(const hl_table *table, int step, int note);
/* When readings can be in doubt: the limits that surely hold, and those that may.  They differ where
 * this step floats, and one of the others of its set is in doubt. */
void hl__float_limits(const hl_table *table, int step, int note, hl_target *sure, hl_target *possible);

#endif
