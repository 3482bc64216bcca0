/* step_formula.h - a step's formula at a note, from readings and facts (layer: table). */
#ifndef HL_STEP_FORMULA_H
#define HL_STEP_FORMULA_H

#include "book.h"
#include "sheet.h"

/* The variables of a formula at a note, base units; NaN = unknown.  `values`: [n_steps], what is known of
 * each step there; may be NULL.  `with_aims`: a slope is asked for, not a value, so the aim may be taken for
 * what nobody read.  *assumed is set, never cleared, when an assumed fact takes part. */
void hl__step_vars(const hl_book *book, const hl_sheet *sheet, const hl_formula *formula, int note,
                   const double *values, bool with_aims, double *vars, bool *assumed);
/* Value of a step's formula at a note; NaN when a reading it needs is missing. */
double hl__step_formula_value(const hl_book *book, const hl_sheet *sheet, int step, int note,
                              const double *values, bool *assumed);
/* The same, with its slope by each variable of the formula (HL_FORMULA_VARS places). */
double hl__step_formula_slopes(const hl_book *book, const hl_sheet *sheet, int step, int note,
                               const double *values, bool *assumed, double *slopes);

#endif
