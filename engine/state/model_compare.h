/* model_compare.h - what was read beside what the step's model says of it (layer: state). */
#ifndef HL_MODEL_COMPARE_H
#define HL_MODEL_COMPARE_H

#include "hammerline/audit.h"
#include "table.h"

/* A fact taken for another value than the sheet's or the book's. */
typedef struct hl_supposed {
    int fact;
    double value[2]; /* [0] naturals, [1] sharps; NaN: as it stands */
} hl_supposed;

typedef struct hl_compared {
    hl_amount model;
    bool assumed; /* a fact in it was not stated for this piano */
    int side;     /* the reading lies above (1) or below (-1) by more than the gauges allow; else 0 */
} hl_compared;

/* The model's value beside a fresh reading at a note; `supposed` may be NULL.  False when they can't be
 * compared.  table->note_values must hold the note's. */
bool hl__compare_at(const hl_table *table, int step, int note, const hl_supposed *supposed, hl_compared *out);
/* What a formula reads at a note, in the order of its variables, NaN = unknown; values as above. */
void hl__compare_vars(const hl_table *table, const hl_formula *formula, int note, const hl_supposed *supposed,
                      double *vars, bool *assumed);
/* The colour whose facts hold at a note: 0 naturals (and the instrument), 1 sharps. */
int hl__compare_colour(const hl_table *table, int note);
/* May the step's readings be compared at all?  Measured, and with a model. */
bool hl__compare_has_model(const hl_step *step);

/* Beside every fresh reading of a modelled step, put what its model makes of the note's other
 * readings, and whether the two differ by more than the gauges allow.  No verdict changes.  False = no
 * memory. */
bool hl__compare_models(hl_table *table);

#endif
