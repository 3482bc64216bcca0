/* test_number.c - numbers exactly as people write them; what is refused, and printing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* Values: arithmetic. */
static void numbers_of_the_bench(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        hl_amount amount; /* millionths */
        size_t used;
    } numbers[] = {
        {"10.2", 10200000, 4},
        {"10,2", 10200000, 4},
        {".390", 390000, 4},
        {",39", 390000, 3},
        {"0", 0, 1},
        {"007", 7000000, 3},
        {"  46", 46000000, 4},
        {"+1.5", 1500000, 4},
        {"-0.05", -50000, 5},
        {"\xE2\x88\x92"
         "2",
         -2000000, 4}, /* a word processor's minus */
        {"3/8", 375000, 3},
        {"-3/8", -375000, 4},
        {"9/8", 1125000, 3},
        {"0/4", 0, 3},
        {"1 3/4", 1750000, 5},
        {"1-3/4", 1750000, 5},
        {"1  3/4", 1750000, 6},
        {"-1 1/4", -1250000, 6},
        {"10.2 mm", 10200000, 4},
        {"3/8\"", 375000, 3},
        {"1 in", 1000000, 1},
        {"5 e3", 5000000, 1}, /* the rest is for the unit to refuse */
        {"10-12", 10000000, 2},
        {"0.123456789", 123457, 11}, /* rounded half away from zero */
        {"0.0000005", 1, 9},         /* half */
        {"-0.0000005", -1, 10},      /* half */
        {"0.000000499", 0, 11},      /* below half */
        {"1/3", 333333, 3},
        {"2/3", 666667, 3},
        {"000000000000001", 1000000, 15}, /* leading zeros don't count */
        {"1000000", 1000000000000, 7},
    };
    for (size_t i = 0; i < COUNT(numbers); i++) {
        hl_number number;
        hl_err err;
        size_t used = 0;
        hl_amount amount = -1;
        const char *text = numbers[i].text;
        assert_int_equal(hl__number_read(&number, text, strlen(text), &used, &err), HL_OK);
        assert_int_equal(used, numbers[i].used);
        assert_true(hl__number_scale(&number, HL_ONE, &amount));
        assert_int_equal(amount, numbers[i].amount);
    }
}

static void the_way_it_was_written_is_kept(void **state)
{
    (void)state;
    hl_number number;
    hl_err err;
    size_t used = 0;
    assert_int_equal(hl__number_read(&number, "10,25", 5, &used, &err), HL_OK);
    assert_int_equal(number.mark, ',');
    assert_int_equal(number.decimals, 2);
    assert_int_equal(number.whole, 10);
    assert_int_equal(number.up, 25);
    assert_int_equal(number.down, 100);
    assert_false(number.fraction);
    assert_int_equal(hl__number_read(&number, "1-3/4", 5, &used, &err), HL_OK);
    assert_int_equal(number.mark, 0);
    assert_true(number.fraction);
    assert_int_equal(number.whole, 1);
    assert_int_equal(number.up, 3);
    assert_int_equal(number.down, 4);
    /* size counts, not a NUL */
    assert_int_equal(hl__number_read(&number, "10.25", 4, &used, &err), HL_OK);
    assert_int_equal(number.up, 2);
    assert_int_equal(used, 4);
}

static void what_is_refused_says_how_to_write_it(void **state)
{
    (void)state;
    static const struct {
        const char *text, *what, *todo;
    } refused[] = {
        {"", "there is no number here", "digits"},
        {"   ", "there is no number here", "digits"},
        {"-", "'-' is not a number", "digits"},
        {".", "'.' is not a number", "digits"},
        {"--5", "'--5' is not a number", "digits"},
        {"- 5", "'-' is not a number", "digits"},
        {"/2", "'/2' is not a number", "digits"},
        {"1e3", "'1e3' is not a number here", "write it out: 1000"},
        {"-2E2", "'-2E2' is not a number here", "write it out: -200"},
        {"1.5e3", "'1.5e3' is not a number here", "plain digits"},
        {"1e-3", "'1e-3' is not a number here", "plain digits"},
        {"1e99999999999999999999", "'1e99999999999999999999' is not a number here", "plain digits"},
        {"0x10", "'0x10' is not a number here", "decimal digits"},
        {"nan", "'nan' is not a number", "digits"},
        {"inf mm", "'inf' is not a number", "digits"},
        {"ten", "'ten' is not a number", "digits"},
        {"1.234,5", "'1.234,5' has two decimal marks", "without marks"},
        {"1,234.5", "'1,234.5' has two decimal marks", "without marks"},
        {"1.2.3", "'1.2.3' has two decimal marks", "without marks"},
        {"10..2", "'10..2' has two decimal marks", "without marks"},
        {"10.", "'10.' ends in its decimal mark", "leave out"},
        {"3/0", "'3/0' divides by zero", "below the stroke"},
        {"1 3/0", "'1 3/0' divides by zero", "below the stroke"},
        {"1/2/3", "'1/2/3' has two fraction strokes", "3/8"},
        {"1 1/2/3", "'1 1/2/3' has two fraction strokes", "3/8"},
        {"1/", "'1/' has no number below the stroke", "3/8"},
        {"1.5/2", "'1.5/2' mixes a fraction and a decimal mark", "one of them"},
        {"1/2.5", "'1/2.5' mixes a fraction and a decimal mark", "one of them"},
        {"1 9/8", "'1 9/8' has a fraction that is not less than one", "3/8"},
        {"1234567890123", "'1234567890123' has more than 12 digits before its decimal mark", "check"},
        {"0.1234567890", "'0.1234567890' has more than 9 digits after its decimal mark", "last digits"},
        {"1/1234567890", "'1/1234567890' has more than 9 digits in its fraction", "check"},
    };
    for (size_t i = 0; i < COUNT(refused); i++) {
        hl_number number;
        hl_err err;
        size_t used = 9;
        const char *text = refused[i].text;
        assert_int_equal(hl__number_read(&number, text, strlen(text), &used, &err), HL_E_SHEET);
        assert_int_equal(used, 0);
        assert_string_equal(err.what, refused[i].what);
        assert_non_null(strstr(err.todo, refused[i].todo));
        assert_int_equal(err.line, 0);
    }
}

/* However long and strange the word is, the message holds a short whole piece of it. */
static void strange_words_are_quoted_short(void **state)
{
    (void)state;
    char text[4097];
    memset(text, 'x', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    for (size_t i = 0; i + 3 < sizeof text; i += 3) {
        memcpy(text + i, "\xE2\x99\xAF", 3);
    }
    hl_number number;
    hl_err err;
    size_t used = 0;
    assert_int_equal(hl__number_read(&number, text, strlen(text), &used, &err), HL_E_SHEET);
    assert_true(strlen(err.what) < 70);
    const char *at = err.what;
    for (uint32_t point = 0; *at != '\0';) {
        int length = hl__utf8_next(at, strlen(at), &point);
        assert_int_not_equal(length, 0);
        at += length;
    }
}

static void too_much_does_not_fit(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int64_t per_unit;
        bool fits;
    } sizes[] = {
        {"1000000", 1000000, true},
        {"1000000.000001", 1000000, false},
        {"1000000.0000004", 1000000, true},
        {"-1000001", 1000000, false},
        {"999999999999", 1000000, false},
        {"39370", 25400000, true},
        {"39371", 25400000, false},
        {"1", 0, false},
        {"1", -5, false},
        {"1", INT64_MAX, false},
        {"999999999/1", 1000000, false},
    };
    for (size_t i = 0; i < COUNT(sizes); i++) {
        hl_number number;
        hl_err err;
        size_t used = 0;
        hl_amount amount = 0;
        assert_int_equal(hl__number_read(&number, sizes[i].text, strlen(sizes[i].text), &used, &err), HL_OK);
        assert_int_equal(hl__number_scale(&number, sizes[i].per_unit, &amount), sizes[i].fits);
    }
}

static void decimals_are_printed_without_rounding_twice(void **state)
{
    (void)state;
    static const struct {
        hl_amount value;
        int decimals;
        const char *decimal, *exact, *fraction;
    } amounts[] = {
        {10250000, 1, "10.3", "10.25", "10 1/4"}, /* half away from zero */
        {-10250000, 1, "-10.3", "-10.25", "-10 1/4"},
        {10249999, 1, "10.2", "10.249999", "10.249999"},
        {3000000, 2, "3.00", "3", "3"},
        {0, 1, "0.0", "0", "0"},
        {-40000, 1, "0.0", "-0.04", "-0.04"}, /* never -0 */
        {-50000, 1, "-0.1", "-0.05", "-0.05"},
        {1, 6, "0.000001", "0.000001", "0.000001"},
        {375000, 3, "0.375", "0.375", "3/8"},
        {-375000, 0, "0", "-0.375", "-3/8"},
        {500000, 0, "1", "0.5", "1/2"},
        {1250000, 2, "1.25", "1.25", "1 1/4"},
        {-1750000, 2, "-1.75", "-1.75", "-1 3/4"},
        {333333, 2, "0.33", "0.333333", "0.333333"},
        {INT64_MIN, 6, "-9223372036854.775808", "-9223372036854.775808", "-9223372036854.775808"},
        {INT64_MAX, 9, "9223372036854.775807", "9223372036854.775807", "9223372036854.775807"},
    };
    for (size_t i = 0; i < COUNT(amounts); i++) {
        hl_text decimal = {0}, exact = {0}, fraction = {0};
        hl__text_decimal(&decimal, amounts[i].value, amounts[i].decimals);
        hl__text_exact(&exact, amounts[i].value);
        hl__text_fraction(&fraction, amounts[i].value);
        assert_string_equal(decimal.data, amounts[i].decimal);
        assert_string_equal(exact.data, amounts[i].exact);
        assert_string_equal(fraction.data, amounts[i].fraction);
        hl__text_free(&decimal);
        hl__text_free(&exact);
        hl__text_free(&fraction);
    }
}

/* What is printed exactly is read back exactly. */
static void printing_and_reading_agree(void **state)
{
    (void)state;
    uint64_t seed = 88;
    for (int i = 0; i < 20000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        hl_amount value = (hl_amount)(seed >> 24) % (INT64_C(1000000) * HL_ONE) * (seed & 1u ? 1 : -1);
        if (i % 3 == 0) {
            value = value / 125000 * 125000;
        }
        for (int form = 0; form < 2; form++) {
            hl_text text = {0};
            hl_number number;
            hl_err err;
            size_t used = 0;
            hl_amount back = 0;
            if (form == 0) {
                hl__text_exact(&text, value);
            } else {
                hl__text_fraction(&text, value);
            }
            assert_int_equal(hl__number_read(&number, text.data, text.size, &used, &err), HL_OK);
            assert_int_equal(used, text.size);
            assert_true(hl__number_scale(&number, HL_ONE, &back));
            assert_int_equal(back, value);
            hl__text_free(&text);
        }
    }
}

static void doubles_are_printed_short_and_plain(void **state)
{
    (void)state;
    static const struct {
        double value;
        const char *text;
    } doubles[] = {
        {0, "0"},
        {-0.0, "0"},
        {5, "5"},
        {-5.5, "-5.5"},
        {0.1, "0.1"},
        {0.1 + 0.2, "0.3"},
        {100, "100"},
        {1e6, "1000000"},
        {123456789, "123456789"},
        {1234567891.0, "1234567890"}, /* within 1e-9 of it */
        {0.0254, "0.0254"},
        {1.0 / 3, "0.333333333"},
        {2.0 / 3, "0.666666667"},
        {9.99999999999, "10"},
        {0.99999999999, "1"},
        {999.9999999999, "1000"},
        {5.684210526315789, "5.68421053"},
        {1e-9, "0.000000001"},
        {1e22, "10000000000000000000000"},
        {(double)NAN, "null"},
        {(double)INFINITY, "null"},
    };
    for (size_t i = 0; i < COUNT(doubles); i++) {
        hl_text text = {0};
        hl__text_double(&text, doubles[i].value);
        assert_string_equal(text.data, doubles[i].text);
        hl__text_free(&text);
    }
}

/* Against the C library, in the plain locale that a test starts in. */
static void doubles_come_back_near_enough(void **state)
{
    (void)state;
    uint64_t seed = 440;
    for (int i = 0; i < 20000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double value = ldexp((double)(seed >> 11), (int)(seed % 1000u) - 550) * (seed & 2u ? 1 : -1);
        hl_text text = {0};
        hl__text_double(&text, value);
        assert_null(strpbrk(text.data, "eE,"));
        double back = strtod(text.data, NULL);
        assert_true(fabs(back - value) <= 5.1e-9 * fabs(value)); /* half a unit of nine digits */
        hl__text_free(&text);
    }
    hl_text text = {0};
    hl__text_double(&text, 1.7976931348623157e308);
    assert_int_equal(strlen(text.data), 309);
    hl__text_free(&text);
    hl__text_double(&text, 5e-324);
    assert_true(strtod(text.data, NULL) > 0);
    hl__text_free(&text);
}

static void rounding_goes_to_the_nearest_grain(void **state)
{
    (void)state;
    static const struct {
        hl_amount value, grain, rounded;
    } roundings[] = {
        {10249999, 100000, 10200000},
        {10250000, 100000, 10300000},
        {-10250000, 100000, -10300000},
        {187500, 125000, 250000},
        {187499, 125000, 125000},
        {7, 5, 5},
        {8, 5, 10},
        {-8, 5, -10},
        {12345, 1, 12345},
        {0, 125000, 0},
        {INT64_MAX, 1000000, INT64_MAX - 775807},
    };
    for (size_t i = 0; i < COUNT(roundings); i++) {
        assert_int_equal(hl__round_to(roundings[i].value, roundings[i].grain), roundings[i].rounded);
    }
}

static void doubles_become_amounts(void **state)
{
    (void)state;
    hl_amount amount = 7;
    assert_true(hl__amount_from(10.2, &amount));
    assert_int_equal(amount, 10200000);
    assert_true(hl__amount_from(-1.1, &amount));
    assert_int_equal(amount, -1100000);
    assert_true(hl__amount_from(1e6, &amount));
    assert_int_equal(amount, 1000000000000);
    assert_false(hl__amount_from(1000000.1, &amount));
    assert_false(hl__amount_from((double)NAN, &amount));
    assert_false(hl__amount_from(-(double)INFINITY, &amount));
    assert_int_equal(amount, 1000000000000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_of_the_bench),
        cmocka_unit_test(the_way_it_was_written_is_kept),
        cmocka_unit_test(what_is_refused_says_how_to_write_it),
        cmocka_unit_test(strange_words_are_quoted_short),
        cmocka_unit_test(too_much_does_not_fit),
        cmocka_unit_test(decimals_are_printed_without_rounding_twice),
        cmocka_unit_test(printing_and_reading_agree),
        cmocka_unit_test(doubles_are_printed_short_and_plain),
        cmocka_unit_test(doubles_come_back_near_enough),
        cmocka_unit_test(rounding_goes_to_the_nearest_grain),
        cmocka_unit_test(doubles_become_amounts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
