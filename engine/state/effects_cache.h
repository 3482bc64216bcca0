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

typedef struct hl_effects_cache hl_effects_cache;

/* NULL: no memory, or formulas that go in a circle; then each effect is reckoned anew. */
const hl_effects_cache *hl__effects_cache_new(hl_arena *arena, const hl_book *book, const hl_sheet *sheet);
/* As hl__effects_at(), to the last bit; false for the instrument (note 0), which is not known. */
bool hl__effects_cache_get(const hl_effects_cache *cache, const hl_book *book, const hl_sheet *sheet,
                           int adjuster, int note, const double *values, hl_effect *effects);

/* The steps that it may move there, ascending; NULL for the instrument. */
const int *hl__effects_cache_moved(const hl_effects_cache *cache, const hl_sheet *sheet, int adjuster,
                                   int note, int *n);

/* What an adjuster moves at a note, as far as this piano has taught it, else by the book. */
void hl__effects_now(const hl_table *table, int adjuster, int note, const double *values, hl_effect *effects);
/* The same of an adjustment: where no adjuster can be named, of the reading that moved. */
void hl__effects_of(const hl_table *table, const hl_adjustment *adjustment, int note, const double *values,
                    hl_effect *effects);
/* The steps that it may move there, *n of them, ascending; NULL and *n as it was: any of them. */
const int *hl__effects_moved(const hl_table *table, int adjuster, int note, int *n);

#endif
