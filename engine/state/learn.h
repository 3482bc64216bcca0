/* learn.h - what the adjusters really move on this piano (layer: state). */
#ifndef HL_LEARN_H
#define HL_LEARN_H

#include "hammerline/audit.h"
#include "table.h"

/* Learn from the sheet's readings and the book's effects, nothing else; list what was learned, and
 * give the table the factors that are used.  False = no memory. */
bool hl__learn(hl_table *table, hl_learned **out, size_t *n);

/* How far an adjustment may do something else than was reckoned: an assumed effect is off by up to
 * so large a share (as the trade's lever figures differ between actions), one that is not by less;
 * and a hand does not stop a screw on the spot. */
#define HL_ASSUMED_SHARE 0.15
#define HL_KNOWN_SHARE   0.05
#define HL_HAND_SHARE    0.25 /* of the finest useful move: standard deviation */
/* A gauge is stated as a limit; its standard deviation is about half of that. */
#define HL_GAUGE_SHARE 0.5

/* What a reading of the step is good to, in base units: the gauge's limit, not its deviation. */
double hl__reading_doubt(const hl_table *table, int step);
/* Were the two readings taken by one person and method? */
bool hl__comparable(const hl_sheet *sheet, const hl_event *a, const hl_event *b);
/* Two texts of the sheet's rows. */
bool hl__same_text(const hl_sheet *sheet, uint32_t a, uint32_t b);
/* Standard deviation of what the hand adds to one adjustment, in the adjuster's unit. */
double hl__hand_doubt(const hl_adjuster *adjuster);

#endif
