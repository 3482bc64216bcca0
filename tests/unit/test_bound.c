/* test_bound.c - how many bad ones there can be when so few turned up.
 *
 * The chances and bounds are held against the GNU Scientific Library (gsl_cdf_hypergeometric_P), the
 * search over strata against trying all ways. */
#include "judged.h"

#include "sampling.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

static void chances_are_those_of_gsl(void **state)
{
    (void)state;
    static const int sizes[] = {1, 2, 7, 36, 52, 85, 88, 97, 352, 8800};
    int n_compared = 0;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        int size = sizes[i], step = size > 100 ? size / 17 : size > 20 ? 5 : 1;
        for (int drawn = 1; drawn <= size; drawn += step)
            for (int bad = 0; bad <= size; bad += step)
                for (int most = 0; most <= drawn; most += step) {
                    double ours = hl__chance_at_most(size, drawn, bad, most);
                    double theirs = gsl_cdf_hypergeometric_P((unsigned)most, (unsigned)bad,
                                                             (unsigned)(size - bad), (unsigned)drawn);
                    if (!(fabs(ours - theirs) <= 1e-9))
                        fail_msg("%d of %d bad, %d drawn, at most %d: ours %.15f, theirs %.15f", bad, size,
                                 drawn, most, ours, theirs);
                    n_compared++;
                }
    }
    assert_true(n_compared > 10000);
}

/* The bound by its definition: the largest number with which so few turn up by a chance above 5 %. */
static int bound_of_gsl(int size, int drawn, int bad, double risk)
{
    int found = -1;
    for (int all = 0; all <= size; all++)
        if (gsl_cdf_hypergeometric_P((unsigned)bad, (unsigned)all, (unsigned)(size - all), (unsigned)drawn) >
            risk * (1 + 1e-9))
            found = all;
    return found;
}

static void bounds_are_those_of_gsl(void **state)
{
    (void)state;
    static const hl_amount confidences[] = {500000, 800000, 900000, 950000, 990000, 999000};
    static const int sizes[] = {1, 2, 5, 20, 52, 73, 88, 97, 176};
    for (size_t s = 0; s < sizeof sizes / sizeof *sizes; s++)
        for (size_t c = 0; c < sizeof confidences / sizeof *confidences; c++)
            for (int drawn = 1; drawn <= sizes[s]; drawn += sizes[s] > 30 ? 4 : 1)
                for (int bad = 0; bad <= drawn && bad < 12; bad++) {
                    double risk = (double)(HL_ONE - confidences[c]) / 1e6;
                    assert_int_equal(hl_sample_bound(sizes[s], drawn, bad, confidences[c]),
                                     bound_of_gsl(sizes[s], drawn, bad, risk));
                }
}

static void well_known_bounds(void **state)
{
    (void)state;
    static const struct {
        int size, drawn, bad;
        hl_amount confidence;
        int want;
        const char *source;
    } cases[] = {
        {88, 20, 0, 950000, 10, "arithmetic: 0 of 20 out, at most 10 of 88"},
        {88, 88, 0, 950000, 0, "all measured: nothing is left to guess"},
        {88, 88, 3, 950000, 3, "arithmetic"},
        {20, 19, 0, 950000, 0, "arithmetic: one bad one hides with a chance of 1/20, not more than 5 %"},
        {20, 18, 0, 950000, 1, "arithmetic: one hides with 1/10; two with 1/190"},
        {88, 1, 1, 950000, 88, "one note, and it is bad: all may be"},
        {88, 1, 0, 950000, 83, "arithmetic: 84 of 88 bad leave 4/88 = 4.5 %, 83 leave 5/88 = 5.7 %"},
        {100000, 59, 0, 950000, 4949, "the rule of 59: 0 of 59 means under 5 % (W. G. Cochran; S. S. Wilks)"},
        {88, 0, 0, 950000, -1, "nothing drawn says nothing"},
        {88, 20, 21, 950000, -1, "more bad than drawn"},
        {88, 20, 0, 1000000, -1, "certainty is not to be had"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int got = hl_sample_bound(cases[i].size, cases[i].drawn, cases[i].bad, cases[i].confidence);
        if (got != cases[i].want)
            fail_msg("%d of %d, %d bad: %d, not %d (%s)", cases[i].drawn, cases[i].size, cases[i].bad, got,
                     cases[i].want, cases[i].source);
    }
}

/* The highest chance over all ways to lay `all` bad ones into the strata from `i` on. */
static double try_all(const hl_stratum *strata, int *bads, int n, int i, int all, int most)
{
    double best = 0;
    if (i == n - 1) {
        bads[i] = all;
        return all > strata[i].size ? 0 : hl__strata_chance(strata, bads, n, most);
    }
    for (int here = 0; here <= all && here <= strata[i].size; here++) {
        bads[i] = here;
        best = fmax(best, try_all(strata, bads, n, i + 1, all - here, most));
    }
    return best;
}

static void the_worst_way_to_lie_is_found(void **state)
{
    (void)state;
    uint64_t at = 7;
    for (int round = 0; round < 1000; round++) {
        hl_stratum strata[4];
        int bads[4], n = 1 + (int)hl__random_below(&at, 4), size = 0, drawn = 0, want = -1;
        for (int i = 0; i < n; i++) {
            strata[i].size = 1 + (int)hl__random_below(&at, 14);
            strata[i].drawn = 1 + (int)hl__random_below(&at, (uint64_t)strata[i].size);
            size += strata[i].size;
            drawn += strata[i].drawn;
        }
        int bad = (int)hl__random_below(&at, 4);
        bad = bad > drawn ? drawn : bad;
        for (int all = 0; all <= size; all++)
            if (try_all(strata, bads, n, 0, all, bad) > .05 * (1 + 1e-9))
                want = all;
        int got = hl__strata_bound(strata, n, bad, .05);
        if (got != want)
            fail_msg("round %d, %d strata, %d bad of %d drawn of %d: %d, not %d", round, n, bad, drawn, size,
                     got, want);
    }
}

static void one_stratum_is_the_plain_bound(void **state)
{
    (void)state;
    for (int drawn = 1; drawn <= 88; drawn += 3)
        for (int bad = 0; bad <= drawn && bad < 9; bad++) {
            const hl_stratum all = {88, drawn};
            assert_int_equal(hl__strata_bound(&all, 1, bad, .05), hl_sample_bound(88, drawn, bad, 950000));
        }
}

/* Past what the search is made for the bound is cautious, never bold: many equal strata can be no
 * better known than one lot of the same size, and not much worse. */
static void many_strata_are_cautious(void **state)
{
    (void)state;
    hl_stratum strata[40];
    for (int i = 0; i < 40; i++)
        strata[i] = (hl_stratum){88, 20};
    for (int bad = 0; bad < 6; bad++) {
        int got = hl__strata_bound(strata, 40, bad, .05);
        int plain = hl_sample_bound(40 * 88, 40 * 20, bad, 950000);
        assert_true(got >= plain);
        assert_true(got <= plain + 2);
    }
}

/* A thousand pianos: the chances along the way are too small for a double, the bound is not. */
static void a_thousand_pianos(void **state)
{
    (void)state;
    static hl_stratum strata[2000];
    for (int i = 0; i < 2000; i++)
        strata[i] = (hl_stratum){44, 11};
    for (int bad = 0; bad <= 3000; bad += 300) {
        int got = hl__strata_bound(strata, 2000, bad, .05);
        int plain = hl_sample_bound(88000, 22000, bad, 950000);
        assert_true(got >= plain);
        assert_true(got <= plain + 3 + plain / 50);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(chances_are_those_of_gsl),
        cmocka_unit_test(bounds_are_those_of_gsl),
        cmocka_unit_test(well_known_bounds),
        cmocka_unit_test(the_worst_way_to_lie_is_found),
        cmocka_unit_test(one_stratum_is_the_plain_bound),
        cmocka_unit_test(many_strata_are_cautious),
        cmocka_unit_test(a_thousand_pianos),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
