/* effects.h - what an adjuster moves at one note, all steps, in numbers (layer: judge).
 *
 * The one table behind corrections, staleness and plans: direct moves from the book, and moves of
 * derived and modelled steps through the slopes of their formulas. */
#ifndef HL_EFFECTS_H
#define HL_EFFECTS_H

#include "book.h"
#include "sheet.h"

typedef enum hl_effect_kind {
    HL_EFFECT_NONE,
    HL_EFFECT_BY,
    HL_EFFECT_STRONG,
    HL_EFFECT_SLIGHT
} hl_effect_kind;

typedef struct hl_effect {
    hl_effect_kind kind;
    double by; /* step's base units per adjuster's base unit, in the `more` direction */
    bool assumed;
} hl_effect;

/* Fill effects[n_steps] for an adjuster at a note.  `values`: what is known of each step at the
 * note, base units, NaN = unknown (slopes of nonlinear formulas need them; the target's aim
 * stands in for an unknown one). */
void hl__effects_at(const hl_book *book, const hl_sheet *sheet, int adjuster, int note, const double *values,
                    hl_effect *effects);

/* Value of a step's formula at a note from `values` and the sheet's facts; NaN when a reading it
 * needs is missing.  *assumed is set when an assumed fact took part. */
double hl__step_formula_value(const hl_book *book, const hl_sheet *sheet, int step, int note,
                              const double *values, bool *assumed);
/* The same, with its slope by each variable of the formula (HL_FORMULA_VARS places). */
double hl__step_formula_slopes(const hl_book *book, const hl_sheet *sheet, int step, int note,
                               const double *values, bool *assumed, double *slopes);

#endif
