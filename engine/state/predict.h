/* predict.h - one adjuster touched at one note: what the readings become (layer: state). */
#ifndef HL_PREDICT_H
#define HL_PREDICT_H

#include "hammerline/audit.h"
#include "table.h"

typedef struct hl_prediction {
    const hl_table *table;
    int adjuster, note;
    const double *values;     /* [n_steps], what is known at the note */
    const hl_effect *effects; /* [n_steps] */
} hl_prediction;

/* The touch of an adjuster at a note, in the table's room: the next one replaces it. */
hl_prediction hl__predict_at(const hl_table *table, int adjuster, int note);
/* The same of another adjuster at the note of the last touch. */
hl_prediction hl__predict_also(const hl_table *table, int adjuster, int note);
/* A step's value after moving by `amount` (signed, + = more), base units; NaN when unknown. */
double hl__predict_value(const hl_prediction *touch, int step, double amount);
/* The same as it will be read: rounded to the step's resolution.  False when unknown. */
bool hl__predict_reading(const hl_prediction *touch, int step, hl_amount amount, hl_amount *out);
/* Fill again and spoils of a correction of `step`; moved by `amount` (signed), or by an unknown
 * amount when `known` is false.  False = no memory. */
bool hl__predict_consequences(const hl_prediction *touch, int step, bool known, hl_amount amount,
                              hl_correction *out);

#endif
