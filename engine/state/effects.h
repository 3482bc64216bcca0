/* effects.h - what an adjuster moves at one note, all steps, in numbers (layer: state).
 *
 * The one table behind corrections, staleness and plans: direct moves from the book, and moves of
 * derived and modelled steps through the slopes of their formulas. */
#ifndef HL_EFFECTS_H
#define HL_EFFECTS_H

#include "book.h"
#include "hammerline/audit.h"
#include "sheet.h"

typedef enum hl_effect_kind {
    HL_EFFECT_NONE,
    HL_EFFECT_BY,
    HL_EFFECT_STRONG,
    HL_EFFECT_SLIGHT
} hl_effect_kind;

typedef struct hl_effect {
    hl_effect_kind kind;
    int sign;  /* of a strong one: the reading goes up (1) or down (-1); 0 = not known */
    double by; /* step's base units per adjuster's base unit, in the `more` direction */
    bool assumed;
    bool learned; /* from readings of this piano, at least in part */
    bool again;   /* by the book's guess of the size, so it is read again after any move */
} hl_effect;

/* Fill effects[n_steps] for an adjuster at a note, by the book alone: what is to be judged asks
 * hl__effects_now() of table.h, which knows what was learned.  `values`: what is known of each step at the
 * note, base units, NaN = unknown (slopes of nonlinear formulas need them; the target's aim
 * stands in for an unknown one). */
void hl__effects_at(const hl_book *book, const hl_sheet *sheet, int adjuster, int note, const double *values,
                    hl_effect *effects);

/* The same with what was learned of this adjuster: factors[n_steps] on the book's direct moves, 0 =
 * none; NULL = the book's own. */
void hl__effects_learned(const hl_book *book, const hl_sheet *sheet, const double *factors, int adjuster,
                         int note, const double *values, hl_effect *effects);
/* One move of an adjuster as the book has it (moves are reckoned from facts only). */
hl_effect hl__effect_of_move(const hl_book *book, const hl_sheet *sheet, int adjuster, const hl_move *move,
                             int note);

/* The same of a step with a formula, from the effects on the readings in it.  `values` may be NULL: the
 * aims stand in. */
hl_effect hl__effect_chained(const hl_book *book, const hl_sheet *sheet, int step, int note,
                             const double *values, const hl_effect *effects);

/* Value of a step's formula at a note from `values` and the sheet's facts; NaN when a reading it
 * needs is missing.  *assumed is set when an assumed fact took part. */
double hl__step_formula_value(const hl_book *book, const hl_sheet *sheet, int step, int note,
                              const double *values, bool *assumed);
/* The same, with its slope by each variable of the formula (HL_FORMULA_VARS places). */
double hl__step_formula_slopes(const hl_book *book, const hl_sheet *sheet, int step, int note,
                               const double *values, bool *assumed, double *slopes);

#endif
