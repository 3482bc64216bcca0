/* effects_cache.h - effects worked out once for all sheets that state the same facts (layer: state).
 *
 * What an adjuster moves hangs on facts, which differ by colour at most; only the slope of a formula that
 * is no straight line hangs on the note's readings too.  So a fleet need not reckon it anew for each
 * failing reading: it takes the known ones, and reckons what is left. */
#ifndef HL_EFFECTS_CACHE_H
#define HL_EFFECTS_CACHE_H

#include "arena.h"
#include "effects.h"
#include "hammerline/audit.h"

typedef struct hl_known hl_known;

/* NULL: no memory, or formulas that go in a circle; then each effect is reckoned anew. */
const hl_known *hl__known_new(hl_arena *arena, const hl_book *book, const hl_sheet *sheet);
/* As hl__effects_at(), to the last bit; false for the instrument (note 0), which is not known. */
bool hl__known_effects(const hl_known *known, const hl_book *book, const hl_sheet *sheet, int adjuster,
                       int note, const double *values, hl_effect *effects);

/* The steps that it may move there, ascending; NULL for the instrument. */
const int *hl__known_moved(const hl_known *known, const hl_sheet *sheet, int adjuster, int note, int *n);

#endif
