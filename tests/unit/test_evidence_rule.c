/* test_evidence_rule.c - how often honest readers are doubted, and how seldom a slip is missed.
 *
 * Source of the bound: arithmetic.  U is two standard deviations of a reading, so a difference of two has the
 * standard deviation U / sqrt(2), and 2 * sqrt(2) * U is four of those; a two-sided normal tail of 4
 * is 6.3e-5 (tables of the normal distribution).  Seeds are fixed; the generator is a plain linear congruence
 * with Box-Muller on top. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdbool.h>

static uint64_t seed = 20261128;

static double draw_uniform(void)
{
    seed = seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return ((double)(seed >> 11) + 0.5) / 9007199254740992.0;
}

static double draw_normal(void)
{
    return sqrt(-2 * log(draw_uniform())) * cos(6.283185307179586 * draw_uniform());
}

static double read_to(double value, double resolution)
{
    return round(value / resolution) * resolution;
}

static bool differ(double a, double b, double u, double resolution)
{
    return fabs(a - b) > 2 * sqrt(2) * u + resolution;
}

/* Blow: read with a rule to 0.5 mm, good to 0.5 mm.  At most .01 notes of 88 a step. */
static void honest_pairs_are_hardly_ever_doubted(void **state)
{
    (void)state;
    const double u = 0.5, resolution = 0.5;
    const int pianos = 20000;
    int doubted = 0;
    for (int i = 0; i < pianos * 88; i++) {
        const double truth = 44 + 4 * draw_uniform();
        doubted += differ(read_to(truth + u / 2 * draw_normal(), resolution),
                          read_to(truth + u / 2 * draw_normal(), resolution), u, resolution);
    }
    assert_true((double)doubted / pianos <= 0.01);
}

/* A slip of 4 * sqrt(2) * U + one resolution, 3.3 mm at the blow, is seen in 999 of 1,000. */
static void a_slip_is_hardly_ever_missed(void **state)
{
    (void)state;
    const double u = 0.5, resolution = 0.5, slip = 4 * sqrt(2) * u + resolution;
    const int n = 200000;
    int seen = 0;
    assert_true(fabs(slip - 3.3) < 0.05);
    for (int i = 0; i < n; i++) {
        const double truth = 44 + 4 * draw_uniform();
        seen += differ(read_to(truth + u / 2 * draw_normal(), resolution),
                       read_to(truth + slip + u / 2 * draw_normal(), resolution), u, resolution);
    }
    assert_true((double)seen / n >= 0.999);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(honest_pairs_are_hardly_ever_doubted),
        cmocka_unit_test(a_slip_is_hardly_ever_missed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
