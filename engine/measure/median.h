/* median.h - medians of whole numbers, without losing a half (layer: measure). */
#ifndef HL_MEDIAN_H
#define HL_MEDIAN_H

#include "hammerline/audit.h"

/* Twice the median of n > 0 ascending values. */
hl_amount hl__median_double(const hl_amount *sorted, int n);
/* Median absolute deviation from the median of n > 0 values, unscaled, rounded to a whole number.
 * Puts the values in disorder. */
hl_amount hl__mad(hl_amount *values, int n);

#endif
