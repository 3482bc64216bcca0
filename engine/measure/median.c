/* median.c - medians of whole numbers, without losing a half (layer: measure). */
#include "median.h"

#include <stdlib.h>

static int compare_amounts(const void *a, const void *b)
{
    hl_amount left = *(const hl_amount *)a, right = *(const hl_amount *)b;
    return (left > right) - (left < right);
}

hl_amount hl__median_double(const hl_amount *sorted, int n)
{
    return sorted[(n - 1) / 2] + sorted[n / 2];
}

hl_amount hl__mad(hl_amount *values, int n)
{
    qsort(values, (size_t)n, sizeof *values, compare_amounts);
    hl_amount middle_double = hl__median_double(values, n);
    for (int i = 0; i < n; i++) {
        hl_amount out_double = 2 * values[i] - middle_double;
        values[i] = out_double < 0 ? -out_double : out_double;
    }
    qsort(values, (size_t)n, sizeof *values, compare_amounts);
    return (hl__median_double(values, n) + 2) / 4;
}
