/* test_statistics.c - our medians against the GNU Scientific Library and certified data.
 *
 * The engine has medians and the median absolute deviation, in whole millionths; it has no mean and
 * no standard deviation, so of the certified sets only the medians are asked. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "median.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST 1001

static int compare(const void *a, const void *b)
{
    hl_amount left = *(const hl_amount *)a, right = *(const hl_amount *)b;
    return (left > right) - (left < right);
}

static double our_median(const hl_amount *values, int n)
{
    hl_amount sorted[MOST];
    memcpy(sorted, values, (size_t)n * sizeof *sorted);
    qsort(sorted, (size_t)n, sizeof *sorted, compare);
    return (double)hl__median_double(sorted, n) / 2e6;
}

static double our_mad(const hl_amount *values, int n)
{
    hl_amount scratch[MOST];
    memcpy(scratch, values, (size_t)n * sizeof *scratch);
    return (double)hl__mad(scratch, n) / 1e6;
}

static void assert_same(double ours, double theirs, double within)
{
    if (!(fabs(ours - theirs) <= within))
        fail_msg("ours %.9f, theirs %.9f", ours, theirs);
}

static void compare_with_gsl(const hl_amount *values, int n)
{
    double data[MOST], work[MOST];
    for (int i = 0; i < n; i++)
        data[i] = (double)values[i] / 1e6;
    /* a double holds ten million and seven decimals, no more */
    assert_same(our_mad(values, n), gsl_stats_mad0(data, 1, (size_t)n, work), 5.1e-7 + 4e-9);
    assert_same(our_median(values, n), gsl_stats_median(data, 1, (size_t)n), 4e-9);
}

static void printed_examples(void **state)
{
    (void)state;
    static const struct {
        double data[24];
        int n;
        double median, mad;
        const char *source;
    } cases[] = {
        {{2.20, 2.20, 2.4, 2.4, 2.5, 2.7, 2.8, 2.9, 3.03, 3.03, 3.10, 3.37,
          3.4,  3.4,  3.4, 3.5, 3.6, 3.7, 3.7, 3.7, 3.7,  3.77, 5.28, 28.95},
         24,
         3.385,
         .355,
         "chem: Venables and Ripley, Modern Applied Statistics with S, 2002, section 5.5"},
        {{17.2, 18.1, 16.5, 18.3, 12.6}, 5, 17.2, .9, "GSL manual, 2.7 (MAD is arithmetic)"},
        {{1, 2, 3, 4, 5, 6, 7, 8, 9}, 9, 5, 2, "R, help page of mad"},
        {{1, 2, 3, 4, 5, 6, 7, 8, 100}, 9, 5, 2, "one wild value moves neither"},
        {{-3, 4}, 2, .5, 3.5, "arithmetic"},
        {{7}, 1, 7, 0, "arithmetic"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_amount values[24];
        for (int k = 0; k < cases[i].n; k++)
            values[k] = (hl_amount)llround(cases[i].data[k] * 1e6);
        assert_same(our_median(values, cases[i].n), cases[i].median, 1e-12);
        assert_same(our_mad(values, cases[i].n), cases[i].mad, 1e-12);
        compare_with_gsl(values, cases[i].n);
    }
}

/* NIST StRD, univariate: NumAcc1 to 4 are symmetric, so that their certified mean is the median too.
 * In whole millionths it comes out to the last digit, where a double no longer holds 10000000.2. */
static void nist_sets(void **state)
{
    (void)state;
    static const struct {
        int n;
        hl_amount first, low, high, median, mad;
    } cases[] = {
        {3, INT64_C(10000001000000), INT64_C(10000003000000), INT64_C(10000002000000),
         INT64_C(10000002000000), 1000000},
        {1001, 1200000, 1100000, 1300000, 1200000, 100000},
        {1001, INT64_C(1000000200000), INT64_C(1000000100000), INT64_C(1000000300000), INT64_C(1000000200000),
         100000},
        {1001, INT64_C(10000000200000), INT64_C(10000000100000), INT64_C(10000000300000),
         INT64_C(10000000200000), 100000},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_amount values[MOST], sorted[MOST];
        values[0] = cases[i].first;
        for (int k = 1; k < cases[i].n; k++)
            values[k] = k % 2 == 1 ? cases[i].low : cases[i].high;
        memcpy(sorted, values, sizeof sorted);
        qsort(sorted, (size_t)cases[i].n, sizeof *sorted, compare);
        assert_int_equal(hl__median_double(sorted, cases[i].n), 2 * cases[i].median);
        assert_int_equal(hl__mad(sorted, cases[i].n), cases[i].mad);
        compare_with_gsl(values, cases[i].n);
    }
}

/* Any set will do: odd and even, ties, both signs. */
static void the_same_as_gsl_on_any_set(void **state)
{
    (void)state;
    uint32_t seed = 20260101;
    for (int round = 0; round < 400; round++) {
        hl_amount values[MOST];
        int n = 1 + round % 97;
        int64_t grain = round % 3 == 0 ? 1 : round % 3 == 1 ? 50000 : 10000000;
        for (int i = 0; i < n; i++) {
            seed = seed * UINT32_C(1664525) + UINT32_C(1013904223);
            values[i] = ((int64_t)(seed >> 12) % 4001 - 2000) * grain;
        }
        compare_with_gsl(values, n);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(printed_examples),
        cmocka_unit_test(nist_sets),
        cmocka_unit_test(the_same_as_gsl_on_any_set),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
