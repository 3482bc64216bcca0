/* learn_fit.h - one effect from several adjustments, each read before and after (layer: state). */
#ifndef HL_LEARN_FIT_H
#define HL_LEARN_FIT_H

#include "hammerline/audit.h"

/* One adjustment; base units of the step. */
typedef struct hl_seen {
    double predicted; /* what the book expects of it; never 0 */
    double seen;      /* what the readings say of it */
    double doubt;     /* standard deviation of `seen` */
    double wanted;    /* how far the reading before lay from the aim; NaN = no aim */
    int note;
    long row;     /* of the adjustment, for counting */
    double ratio; /* room for the fit */
} hl_seen;

typedef struct hl_fit {
    double factor; /* of the book's effect: as used, or as seen when it is not */
    double spread; /* standard deviation of single adjustments, as a share of the factor */
    hl_learned_why why;
} hl_fit;

#define HL_LEARN_LEAST 3 /* adjustments */

/* `n` >= 1 of them, of which `told` are different adjustments; puts them in disorder.  `reading`:
 * variance of one reading. */
hl_fit hl__learn_fit(hl_seen *seen, int n, int told, double reading);

#endif
