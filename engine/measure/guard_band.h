/* guard_band.h - how well a value is known, and the verdict that reckons with it (layer: measure).
 *
 * Guarded acceptance is that of ISO 14253-1: to be proven good a value lies inside its limits shrunk by
 * its uncertainty U, to be proven bad outside them widened by U; between, nothing is proven. */
#ifndef HL_GUARD_BAND_H
#define HL_GUARD_BAND_H

#include "gauge_reading.h"
#include "hammerline/audit.h"
#include "table.h"

/* What any value at a note is good to.  A derived one takes it from its readings: the root of the sum of
 * their squares, each times the slope by it; facts count as exact.  `slopes`: [n_steps], scratch.
 * False when it can't be told. */
bool hl__gauge_value(const hl_table *table, int step, int note, double *slopes, hl_amount *out);
/* Judge every number of the table again, guarded.  False = no memory. */
bool hl__guard_band_mark(hl_table *table);

#endif
