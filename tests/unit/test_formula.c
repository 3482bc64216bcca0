/* test_formula.c - arithmetic over steps and facts: values and slopes, units, what is not known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "formula_names.h"

static double value_of(const char *text, const double *vars)
{
    hl_arena arena = {0};
    double value = hl__formula_value(parse(&arena, text), vars);
    hl__arena_free(&arena);
    return value;
}

/* B = (D + U) / 2, F = (D - U) / 2.  Pairs printed in [list-1998-weights], [list-1998-friction],
 * [college-weights] and [list-2003-friction-c5] (81, 16). */
static void mean_weight_and_friction(void **state)
{
    (void)state;
    static const struct {
        double down, up, mean, friction;
    } pairs[] = {
        {52, 28, 40, 12}, {53, 27, 40, 13}, {50, 25, 37.5, 12.5}, {60, 30, 45, 15},     {60, 20, 40, 20},
        {50, 20, 35, 15}, {46, 24, 35, 11}, {56, 33, 44.5, 11.5}, {81, 16, 48.5, 32.5},
    };
    hl_arena arena = {0};
    hl_formula *mean = parse(&arena, "(downweight + upweight) / 2");
    hl_formula *friction = parse(&arena, "(downweight - upweight) / 2");
    assert_int_equal(mean->n_vars, 2);
    assert_int_equal(mean->vars[0].index, 4); /* in the order of the text */
    assert_true(hl__dims_equal(mean->dims, (hl_dims){.mass = 1}));
    for (size_t i = 0; i < COUNT(pairs); i++) {
        const double vars[] = {pairs[i].down, pairs[i].up};
        double slopes[2];
        assert_true(fabs(hl__formula_value(mean, vars) - pairs[i].mean) < 1e-12);
        assert_true(fabs(hl__formula_slopes(friction, vars, slopes) - pairs[i].friction) < 1e-12);
        assert_true(fabs(slopes[0] - 0.5) < 1e-15 && fabs(slopes[1] + 0.5) < 1e-15); /* arithmetic */
    }
    hl__arena_free(&arena);
}

/* Travel ratio ([list-2010-travel-link]: the relation; the numbers are arithmetic), and its
 * slopes in closed form: d/d(blow) = 1/(dip - after), d/d(dip) = -ratio/(dip - after). */
static void travel_ratio_and_its_slopes(void **state)
{
    (void)state;
    hl_arena arena = {0};
    hl_formula *ratio = parse(&arena, "(blow - let_off) / (key_dip - aftertouch)");
    const double vars[] = {47, 2, 10, 1};
    double slopes[4];
    assert_true(fabs(hl__formula_slopes(ratio, vars, slopes) - 5.0) < 1e-12);
    assert_true(hl__dims_equal(ratio->dims, (hl_dims){0}));
    assert_false(ratio->literal);
    const double closed[] = {1.0 / 9, -1.0 / 9, -5.0 / 9, 5.0 / 9};
    for (int i = 0; i < 4; i++) {
        assert_true(fabs(slopes[i] - closed[i]) < 1e-14);
    }
    hl__arena_free(&arena);
}

/* Aftertouch = dip - (blow - let-off)/ratio: rows by arithmetic from the same relation. */
static void aftertouch_from_the_other_readings(void **state)
{
    (void)state;
    static const struct {
        double dip, blow, let_off, ratio, after;
    } rows[] = {
        {10, 46, 1.5, 5.0, 1.1},
        {10, 45, 1.5, 5.5, 2.090909090909},
        {9.6, 44, 1.0, 5.0, 1.0},
    };
    hl_arena arena = {0};
    hl_formula *after = parse(&arena, "key_dip - (blow - let_off) / travel_ratio");
    for (size_t i = 0; i < COUNT(rows); i++) {
        const double vars[] = {rows[i].dip, rows[i].blow, rows[i].let_off, rows[i].ratio};
        double slopes[4];
        assert_true(fabs(hl__formula_slopes(after, vars, slopes) - rows[i].after) < 1e-10);
        assert_true(fabs(slopes[0] - 1) < 1e-15);
        assert_true(fabs(slopes[1] + 1 / rows[i].ratio) < 1e-15);
        assert_true(fabs(slopes[2] - 1 / rows[i].ratio) < 1e-15);
    }
    hl__arena_free(&arena);
}

/* Hammer leverage by weights.  First row: 28.0, 10.4, 18.5, .52 and 44 give 6.0, [college-2004-leverage]; the
 * second by arithmetic: 54 / 9.5. */
static void strike_hammer_leverage(void **state)
{
    (void)state;
    const char *text = "(mean + front_load - capstan_ratio * whippen_weight) / hammer_weight";
    const double printed[] = {44, 28.0, 0.52, 18.5, 10.4};
    const double made[] = {38, 25, 0.50, 18, 9.5};
    assert_true(fabs(value_of(text, printed) - 6.0) < 0.005);
    assert_true(fabs(value_of(text, made) - 54 / 9.5) < 1e-12);
}

static void slopes_agree_with_central_differences(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "(blow - let_off) / (key_dip - aftertouch)",
        "blow * key_dip / (let_off + aftertouch) - key_dip",
        "-(-blow) * let_off / -key_dip + aftertouch * 2.5",
        "abs(let_off - blow) + min(key_dip, aftertouch) * 3 - max(blow, let_off) / 7",
        "1 / (blow / key_dip + let_off / aftertouch)",
        "(blow + let_off) * (blow - let_off) / (key_dip * key_dip)",
        "capstan_pitch * travel_ratio / capstan_ratio",
    };
    uint64_t seed = 1;
    for (size_t i = 0; i < COUNT(texts); i++) {
        hl_arena arena = {0};
        hl_formula *formula = parse(&arena, texts[i]);
        for (int round = 0; round < 50; round++) {
            double vars[HL_FORMULA_VARS], slopes[HL_FORMULA_VARS];
            for (int j = 0; j < formula->n_vars; j++) {
                seed = seed * 6364136223846793005u + 1442695040888963407u;
                vars[j] = 1 + (double)(seed >> 40) / 16777216.0 * 40;
            }
            double value = hl__formula_slopes(formula, vars, slopes);
            assert_true(fabs(value - hl__formula_value(formula, vars)) <= 0);
            for (int j = 0; j < formula->n_vars; j++) {
                double at = vars[j], step = 1e-5;
                vars[j] = at + step;
                double above = hl__formula_value(formula, vars);
                vars[j] = at - step;
                double below = hl__formula_value(formula, vars);
                vars[j] = at;
                double slope = (above - below) / (2 * step);
                if (fabs(slope - slopes[j]) > 1e-5 * (1 + fabs(slope))) {
                    fail_msg("%s by variable %d: %g and %g", texts[i], j, slope, slopes[j]);
                }
            }
        }
        hl__arena_free(&arena);
    }
}

/* Arithmetic. */
static void grammar(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double value;
    } formulas[] = {
        {"1 + 2 * 3", 7},
        {"(1 + 2) * 3", 9},
        {"10 - 4 - 3", 3},
        {"16 / 4 / 2", 2},
        {"-2 * 3", -6},
        {"2 - -3", 5},
        {"--2", 2},
        {".5 + 0.25", 0.75},
        {"abs(-3)", 3},
        {"abs(3)", 3},
        {"min(2, 3) + max(2, 3) * 10", 32},
        {"min(max(1, 5), 4)", 4},
        {" 1\t+\n1 ", 2},
        {"1 < 2", 1},
        {"2 < 2", 0},
        {"2 <= 2", 1},
        {"2 >= 3", 0},
        {"3 > 2", 1},
        {"2 == 2", 1},
        {"2 == 3", 0},
        {"not 1 < 2", 0},
        {"not 2 < 1 and 1 < 2", 1},
        {"1 < 2 or 1 < 2 and 2 < 1", 1}, /* and before or */
        {"(1 < 2 or 1 < 2) and 2 < 1", 0},
        {"1 + 1 < 3", 1},
        {"not not 1 < 2", 1},
    };
    for (size_t i = 0; i < COUNT(formulas); i++) {
        double value = value_of(formulas[i].text, NULL);
        if (fabs(value - formulas[i].value) > 1e-12) {
            fail_msg("%s gives %g", formulas[i].text, value);
        }
    }
}

static void a_plain_number_takes_the_unit_of_its_place(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        hl_dims dims;
        bool literal, condition;
    } formulas[] = {
        {"key_dip - 1", {.length = 1}, false, false},
        {"1 - key_dip", {.length = 1}, false, false},
        {"2 * (3 + 4) + downweight", {.mass = 1}, false, false},
        {"min(1, blow)", {.length = 1}, false, false},
        {"key_dip * 2", {.length = 1}, false, false},
        {"key_dip / blow - 1", {0}, false, false},
        {"key_dip * blow", {.length = 2}, false, false},
        {"1 / capstan_pitch", {.length = -1, .turn = 1}, false, false},
        {"downweight / blow", {.mass = 1, .length = -1}, false, false},
        {"9.9", {0}, true, false},
        {"-(1 + 2) / 3", {0}, true, false},
        {"blow < 45", {0}, false, true},
        {"neighbours(blow)", {.length = 1}, false, false},
        {"abs(blow - neighbours(blow)) > 1", {0}, false, true},
        {"low(key_dip)", {0}, false, true},
    };
    for (size_t i = 0; i < COUNT(formulas); i++) {
        hl_arena arena = {0};
        hl_formula *formula = parse(&arena, formulas[i].text);
        assert_true(hl__dims_equal(formula->dims, formulas[i].dims));
        assert_int_equal(formula->literal, formulas[i].literal);
        assert_int_equal(formula->condition, formulas[i].condition);
        assert_string_equal(formula->text, formulas[i].text);
        hl__arena_free(&arena);
    }
}

static void aspects_of_a_step_are_variables_of_their_own(void **state)
{
    (void)state;
    hl_arena arena = {0};
    hl_formula *f =
        parse(&arena, "low(blow) and not (high(blow) or passes(key_dip)) and blow < neighbours(blow) "
                      "and (fails(repetition) or missing(let_off)) and read(blow) and low(blow)");
    static const struct {
        int index;
        hl_aspect aspect;
    } want[] = {
        {0, HL_ASPECT_LOW},        {0, HL_ASPECT_HIGH},  {2, HL_ASPECT_PASSES},  {0, HL_ASPECT_VALUE},
        {0, HL_ASPECT_NEIGHBOURS}, {6, HL_ASPECT_FAILS}, {1, HL_ASPECT_MISSING}, {0, HL_ASPECT_READ},
    };
    assert_int_equal(f->n_vars, COUNT(want));
    for (size_t i = 0; i < COUNT(want); i++) {
        assert_int_equal(f->vars[i].index, want[i].index);
        assert_int_equal(f->vars[i].aspect, want[i].aspect);
    }
    const double yes[] = {1, 0, 0, 44, 46, 1, 0, 1};
    const double no[] = {1, 0, 1, 44, 46, 1, 0, 1};
    assert_true(hl__formula_value(f, yes) > 0.5);
    assert_true(hl__formula_value(f, no) < 0.5);
    hl__arena_free(&arena);
}

/* No reading, no number - and no diagnosis either. */
static void what_was_not_read_settles_nothing(void **state)
{
    (void)state;
    const double unread[] = {(double)NAN};
    const double missing_unread[] = {1, (double)NAN};
    assert_true(isnan(value_of("blow * 0", unread)));
    assert_true(isnan(value_of("abs(blow)", unread)));
    assert_true(isnan(value_of("min(blow, 1)", unread)));
    assert_true(isnan(value_of("max(1, blow)", unread)));
    static const char *const conditions[] = {"blow < 45",          "blow >= 45",
                                             "blow == 45",         "not (blow < 45)",
                                             "not (blow >= 45)",   "blow < 45 or blow >= 45",
                                             "blow < 45 and 1 < 2"};
    for (size_t i = 0; i < COUNT(conditions); i++) {
        double value = value_of(conditions[i], unread);
        assert_true(value >= 0 && value <= 0);
    }
    assert_true(value_of("missing(blow) or blow > 45", missing_unread) > 0.5);
    assert_true(value_of("not (blow > 45 and 2 < 1)", unread) > 0.5); /* settled by the other side */
}

static void division_by_zero_is_no_number(void **state)
{
    (void)state;
    hl_arena arena = {0};
    hl_formula *ratio = parse(&arena, "(blow - let_off) / (key_dip - aftertouch)");
    const double vars[] = {47, 2, 10, 10};
    double slopes[4];
    assert_true(isnan(hl__formula_slopes(ratio, vars, slopes)));
    for (int i = 0; i < 4; i++) {
        assert_true(isnan(slopes[i]));
    }
    hl__arena_free(&arena);
    assert_true(isnan(value_of("0 / 0", NULL)));
    assert_true(isnan(value_of("1 / (2 - 2) * 0", NULL)));
    const double huge[] = {1e300};
    assert_true(isnan(value_of("blow * blow", huge)));
}

static void slopes_stay_on_their_branch(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double x, slope;
    } branches[] = {
        {"abs(blow)", 3, 1},    {"abs(blow)", -3, -1},  {"abs(blow)", 0, 1},    {"min(blow, 5)", 3, 1},
        {"min(blow, 5)", 7, 0}, {"max(blow, 5)", 3, 0}, {"max(5, blow)", 7, 1}, {"blow * blow", 4, 8},
    };
    for (size_t i = 0; i < COUNT(branches); i++) {
        hl_arena arena = {0};
        double slope = 99;
        hl__formula_slopes(parse(&arena, branches[i].text), &branches[i].x, &slope);
        assert_true(fabs(slope - branches[i].slope) < 1e-15);
        hl__arena_free(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mean_weight_and_friction),
        cmocka_unit_test(travel_ratio_and_its_slopes),
        cmocka_unit_test(aftertouch_from_the_other_readings),
        cmocka_unit_test(strike_hammer_leverage),
        cmocka_unit_test(slopes_agree_with_central_differences),
        cmocka_unit_test(grammar),
        cmocka_unit_test(a_plain_number_takes_the_unit_of_its_place),
        cmocka_unit_test(aspects_of_a_step_are_variables_of_their_own),
        cmocka_unit_test(what_was_not_read_settles_nothing),
        cmocka_unit_test(division_by_zero_is_no_number),
        cmocka_unit_test(slopes_stay_on_their_branch),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
