/* test_quantity.c - readings and limits with their units: exact in mm and in inches. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "quantity.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static hl_amount read_as(const char *text, hl_unit unit)
{
    hl_amount amount = -1;
    hl_err err;
    assert_int_equal(hl__quantity_read(&amount, text, unit, HL_E_SHEET, NULL, &err), HL_OK);
    return amount;
}

/* 1 in = 25.4 mm exactly: NIST Special Publication 811, appendix B.8.  The rows are multiples of
 * it (arithmetic), those in common use at the bench. */
static void inches_are_millimetres_exactly(void **state)
{
    (void)state;
    static const struct {
        const char *inches, *millimetres;
    } pairs[] = {
        {"1/64", "0.396875"},  {"1/32", "0.79375"},   {"1/16", "1.5875"},  {"3/32", "2.38125"},
        {"1/8", "3.175"},      {"3/16", "4.7625"},    {"1/4", "6.35"},     {"3/8", "9.525"},
        {"25/64", "9.921875"}, {"13/32", "10.31875"}, {"7/16", "11.1125"}, {"1/2", "12.7"},
        {"1", "25.4"},         {"0.001", "0.0254"},   {"0.003", "0.0762"}, {"0.005", "0.127"},
        {"0.010", "0.254"},    {"0.030", "0.762"},    {"0.040", "1.016"},  {"0.045", "1.143"},
        {"0.050", "1.27"},     {"0.380", "9.652"},    {"0.390", "9.906"},  {"0.400", "10.16"},
        {"1 3/4", "44.45"},    {"1 7/8", "47.625"},   {"1-3/4", "44.45"},  {".390", "9.906"},
    };
    for (size_t i = 0; i < COUNT(pairs); i++) {
        char text[40];
        hl_amount mm = read_as(pairs[i].millimetres, HL_MM);
        assert_int_equal(read_as(pairs[i].inches, HL_IN), mm);
        snprintf(text, sizeof text, "%s in", pairs[i].inches);
        assert_int_equal(read_as(text, HL_MM), mm);
        snprintf(text, sizeof text, "%s\"", pairs[i].inches);
        assert_int_equal(read_as(text, HL_MM), mm);
        snprintf(text, sizeof text, "%s mm", pairs[i].millimetres);
        assert_int_equal(read_as(text, HL_IN), mm);
    }
}

/* A reading on a limit is on the limit, whichever unit either was written in. */
static void every_thousandth_of_an_inch(void **state)
{
    (void)state;
    for (int n = 1; n <= 2000; n++) {
        char inches[24], millimetres[24];
        snprintf(inches, sizeof inches, "%d.%03d in", n / 1000, n % 1000);
        int64_t nm = (int64_t)n * 25400; /* arithmetic */
        snprintf(millimetres, sizeof millimetres, "%d.%06d", (int)(nm / 1000000), (int)(nm % 1000000));
        hl_amount reading = read_as(inches, HL_MM);
        hl_amount limit = read_as(millimetres, HL_MM);
        assert_int_equal(reading, nm);
        assert_true(reading <= limit && reading >= limit);
        hl_text text = {0}; /* and back */
        hl__text_amount(&text, limit, HL_IN, 0, true);
        assert_int_equal(read_as(text.data, HL_MM), nm);
        hl__text_free(&text);
    }
}

static void units_of_the_bench(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        hl_unit column;
        hl_amount amount;
    } readings[] = {
        {"10.2", HL_MM, 10200000},
        {"10,2", HL_MM, 10200000},
        {"10.2 mm", HL_MM, 10200000},
        {"10.2MM", HL_MM, 10200000},
        {" 10.2  mm ", HL_MM, 10200000},
        {"10.2\xC2\xA0mm", HL_MM, 10200000}, /* a spreadsheet's no-break blank */
        {"10.2 mm\xC2\xA0", HL_MM, 10200000},
        {"5/8\"", HL_MM, 15875000},
        {"5/8\"", HL_IN, 15875000},
        {"5/8 \xE2\x80\x9D", HL_MM, 15875000},
        {"5/8\xE2\x80\xB3", HL_MM, 15875000},
        {"5/8 inch", HL_MM, 15875000},
        {"3/8 in.", HL_MM, 9525000},
        {"2 Inches", HL_MM, 50800000},
        {"52 g", HL_G, 52000000},
        {"52 grams", HL_G, 52000000},
        {"1/8 turn", HL_TURN, 125000},
        {"-1 1/2 turns", HL_TURN, -1500000},
        {"72 deg", HL_DEGREE, 72000000},
        {"72\xC2\xB0", HL_DEGREE, 72000000},
        {"5.5", HL_RATIO, 5500000},
        {"5.5 ratio", HL_RATIO, 5500000},
        {"2 steps", HL_NOTCH, 2000000},
        {"5", HL_NO_UNIT, 5000000},
    };
    for (size_t i = 0; i < COUNT(readings); i++) {
        assert_int_equal(read_as(readings[i].text, readings[i].column), readings[i].amount);
    }
}

static void what_does_not_fit_is_refused(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        hl_unit column;
        const char *what;
    } refused[] = {
        {"12 g", HL_MM, "'12 g' is a weight, this column is a length (mm)"},
        {"12 mm", HL_G, "'12 mm' is a length, this column is a weight (g)"},
        {"3/8 in", HL_TURN, "'3/8 in' is a length, this column is a number of turns (turn)"},
        {"1 turn", HL_IN, "'1 turn' is a number of turns, this column is a length (in)"},
        {"5 mm", HL_RATIO, "'5 mm' is a length, this column is a plain number"},
        {"5 mm", HL_NO_UNIT, "'5 mm' is a length, this column is a plain number"},
        {"5 ratio", HL_MM, "'5 ratio' is a plain number, this column is a length (mm)"},
        {"10.2 cm", HL_MM, "'10.2 cm' ends in 'cm', which is not a unit here"},
        {"10 %", HL_MM, "'10 %' is a percentage, which no reading or limit is"},
        {"10-12", HL_MM, "'10-12' ends in '-12', which is not a unit here"},
        {"10 2", HL_MM, "'10 2' ends in '2', which is not a unit here"},
        {"1 000", HL_MM, "'1 000' ends in '000', which is not a unit here"},
        {"1 mm 2", HL_MM, "'1 mm 2' ends in 'mm 2', which is not a unit here"},
        {"1000001", HL_MM, "'1000001' is more than 1000000 mm"},
        {"39371 in", HL_MM, "'39371 in' is more than 1000000 mm"},
        {"1e3", HL_MM, "'1e3' is not a number here"},
        {"1.234,5", HL_MM, "'1.234,5' has two decimal marks"},
        {"3/0", HL_MM, "'3/0' divides by zero"},
        {"1/2/3", HL_MM, "'1/2/3' has two fraction strokes"},
        {"nan", HL_MM, "'nan' is not a number"},
        {"mm", HL_MM, "'mm' is not a number"},
        {"", HL_MM, "there is no number here"},
    };
    for (size_t i = 0; i < COUNT(refused); i++) {
        hl_amount amount = 7;
        hl_err err;
        hl_code code = hl__quantity_read(&amount, refused[i].text, refused[i].column, HL_E_SHEET, NULL, &err);
        assert_int_equal(code, HL_E_SHEET);
        assert_int_equal(err.code, HL_E_SHEET);
        assert_string_equal(err.what, refused[i].what);
        assert_true(err.todo[0] != '\0');
        assert_int_equal(amount, 0);
    }
}

static void a_rule_file_has_no_columns(void **state)
{
    (void)state;
    hl_amount amount = 0;
    hl_err err;
    assert_int_equal(hl__quantity_read(&amount, "12 g", HL_MM, HL_E_RULE, NULL, &err), HL_E_RULE);
    assert_string_equal(err.what, "'12 g' is a weight, what is asked for is a length (mm)");
    assert_int_equal(hl__quantity_read(&amount, "1e3", HL_MM, HL_E_RULE, NULL, &err), HL_E_RULE);
    assert_int_equal(err.code, HL_E_RULE);
}

static void the_number_as_written_is_told(void **state)
{
    (void)state;
    hl_amount amount = 0;
    hl_number number = {0};
    hl_err err;
    assert_int_equal(hl__quantity_read(&amount, "10,25 mm", HL_MM, HL_E_SHEET, &number, &err), HL_OK);
    assert_int_equal(number.mark, ',');
    assert_int_equal(number.decimals, 2);
}

/* Arithmetic; 10 mm = 10/25.4 in = 0.393701 in. */
static void amounts_are_printed_as_finely_as_they_are_read(void **state)
{
    (void)state;
    static const struct {
        hl_amount value;
        hl_unit unit;
        hl_amount resolution;
        const char *text;
    } amounts[] = {
        {10200000, HL_MM, 100000, "10.2 mm"},
        {10000000, HL_MM, 100000, "10.0 mm"},
        {10000000, HL_MM, 0, "10 mm"},
        {10125000, HL_MM, 250000, "10.13 mm"},
        {46000000, HL_MM, 500000, "46.0 mm"},
        {46000000, HL_MM, 1000000, "46 mm"},
        {46400000, HL_MM, 5000000, "46 mm"},
        {10000000, HL_IN, 0, "0.393701 in"},
        {-10000000, HL_IN, 0, "-0.393701 in"},
        {9906000, HL_IN, 127000, "0.390 in"},  /* read to .005 in */
        {10000000, HL_IN, 100000, "0.394 in"}, /* read to 0.1 mm */
        {52000000, HL_G, 1000000, "52 g"},
        {375000, HL_TURN, 125000, "3/8 turn"},
        {360000, HL_TURN, 125000, "3/8 turn"},
        {-1250000, HL_TURN, 0, "-1 1/4 turn"},
        {72500000, HL_DEGREE, 500000, "72.5 deg"},
        {2000000, HL_NOTCH, 1000000, "2 step"},
        {5000000, HL_NO_UNIT, 0, "5"},
    };
    for (size_t i = 0; i < COUNT(amounts); i++) {
        hl_text text = {0};
        hl__text_amount(&text, amounts[i].value, amounts[i].unit, amounts[i].resolution, true);
        assert_string_equal(text.data, amounts[i].text);
        hl__text_free(&text);
    }
    hl_text bare = {0};
    hl__text_amount(&bare, 10200000, HL_MM, 100000, false);
    assert_string_equal(bare.data, "10.2");
    hl__text_free(&bare);
}

static void every_unit_name_is_read_back(void **state)
{
    (void)state;
    for (hl_unit unit = HL_MM; unit <= HL_NOTCH; unit++) {
        hl_unit back = HL_NO_UNIT;
        const char *name = hl_unit_name(unit);
        assert_true(hl__unit_parse(&back, name, strlen(name)));
        assert_int_equal(back, unit);
    }
    hl_unit unit = HL_MM;
    assert_string_equal(hl_unit_name(HL_NO_UNIT), "");
    assert_false(hl__unit_parse(&unit, "", 0));
    assert_false(hl__unit_parse(&unit, "%", 1));
    assert_false(hl__unit_parse(&unit, "percent", 7));
    assert_false(hl__unit_parse(&unit, "m", 1));
    assert_false(hl__unit_parse(&unit, "gr", 2)); /* grain or gram? never guessed */
}

static void powers_of_units(void **state)
{
    (void)state;
    static const struct {
        const char *text, *name;
        hl_dims dims;
    } known[] = {
        {"mm", "mm", {1, 0, 0, 0, 0}},
        {"mm/turn", "mm/turn", {1, 0, -1, 0, 0}},
        {"g", "g", {0, 1, 0, 0, 0}},
        {"ratio", "ratio", {0, 0, 0, 0, 0}},
        {"g/mm", "g/mm", {-1, 1, 0, 0, 0}},
        {"mm*mm", "mm*mm", {2, 0, 0, 0, 0}},
        {"mm * g", "mm*g", {1, 1, 0, 0, 0}},
        {"1/mm", "1/mm", {-1, 0, 0, 0, 0}},
        {"mm/mm", "ratio", {0, 0, 0, 0, 0}},
        {"mm*g/turn", "mm*g/turn", {1, 1, -1, 0, 0}},
        {"mm / step", "mm/step", {1, 0, 0, 0, -1}},
        {"deg", "deg", {0, 0, 0, 1, 0}},
    };
    char name[48];
    for (size_t i = 0; i < COUNT(known); i++) {
        hl_dims dims;
        assert_true(hl__dims_parse(&dims, known[i].text));
        assert_true(hl__dims_equal(dims, known[i].dims));
        assert_string_equal(hl__dims_name(dims, name), known[i].name);
    }
    static const char *const unknown[] = {"",   "mm/",   "/mm", "mm*", "mm*mm*mm", "mm/turn/turn",
                                          "in", "mm/in", "cm",  "%"};
    for (size_t i = 0; i < COUNT(unknown); i++) {
        hl_dims dims;
        assert_false(hl__dims_parse(&dims, unknown[i]));
    }
    assert_string_equal(hl__dims_name((hl_dims){-2, 1, 0, 0, 0}, name), "g/mm/mm");
    assert_string_equal(hl__dims_name((hl_dims){9, 9, 9, 9, -9}, name), "mm^9*g^9*turn^9*deg^9/step^9");
    assert_string_equal(hl__dims_name((hl_dims){-2, -2, -2, -2, -2}, name),
                        "1/mm/mm/g/g/turn/turn/deg/deg/step/step");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inches_are_millimetres_exactly),
        cmocka_unit_test(every_thousandth_of_an_inch),
        cmocka_unit_test(units_of_the_bench),
        cmocka_unit_test(what_does_not_fit_is_refused),
        cmocka_unit_test(a_rule_file_has_no_columns),
        cmocka_unit_test(the_number_as_written_is_told),
        cmocka_unit_test(amounts_are_printed_as_finely_as_they_are_read),
        cmocka_unit_test(every_unit_name_is_read_back),
        cmocka_unit_test(powers_of_units),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
