/* choose.h - the amount that a hand can do, nearest to the one that reckoning wants (layer: advise). */
#ifndef HL_CHOOSE_H
#define HL_CHOOSE_H

#include "hammerline/plan.h"

/* Would this amount bring the reading into its target? */
typedef bool hl_lands(void *context, hl_amount amount);

typedef struct hl_choice {
    hl_amount amount;            /* never 0 */
    hl_amount pieces[HL_PIECES]; /* largest first; 0 = unused */
    bool lands;
} hl_choice;

/* A multiple of the adjuster's finest move: the nearest to `wanted` (> 0), or, when that does not
 * land, the neighbouring one that does.  With sizes instead: of the sums that land, one of the
 * fewest pieces, nearest to `wanted`; when none lands, the nearest sum. */
void hl__choose_amount(const hl_adjuster *adjuster, hl_amount wanted, hl_lands *lands, void *context,
                       hl_choice *out);

#endif
