/* effects.h - what an adjuster moves at one note, all steps, in numbers (layer: state).
 *
 * The one table behind corrections, staleness and plans: direct moves from the book, and moves of
 * derived and modelled steps through the slopes of their formulas. */
#ifndef HL_EFFECTS_H
#define HL_EFFECTS_H

#include "book.h"
#include "hammerline/audit.h"
#include "sheet.h"
#include "step_formula.h"
#include "table.h"

/* Fill effects[n_steps] for an adjuster at a note, by the book alone: what is to be judged asks
 * hl__effects_now() of effects_cache.h, which knows what was learned.  `values`: what is known of each step
 * at the note, base units, NaN = unknown (slopes of nonlinear formulas need them; the target's aim stands in
 * for an unknown one). */
void hl__effects_at(const hl_book *book, const hl_sheet *sheet, int adjuster, int note, const double *values,
                    hl_effect *effects);

/* The same with what was learned of this adjuster: factors[n_steps] on the book's direct moves, 0 =
 * none; NULL = the book's own. */
void hl__effects_learned(const hl_book *book, const hl_sheet *sheet, const double *factors, int adjuster,
                         int note, const double *values, hl_effect *effects);
/* What moves with a reading that moved by one unit, nobody knows why: itself, and what is computed from it.
 */
void hl__effects_of_reading(const hl_book *book, const hl_sheet *sheet, int step, int note,
                            const double *values, hl_effect *effects);
/* One move of an adjuster as the book has it (moves are reckoned from facts only). */
hl_effect hl__effect_of_move(const hl_book *book, const hl_sheet *sheet, int adjuster, const hl_move *move,
                             int note);

/* The same of a step with a formula, from the effects on the readings in it.  `values` may be NULL: the
 * aims stand in. */
hl_effect hl__effect_chained(const hl_book *book, const hl_sheet *sheet, int step, int note,
                             const double *values, const hl_effect *effects);

#endif
