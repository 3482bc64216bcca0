/* test_sheet_check.c - what the bench may append: exactly what the reader takes below the other rows. */
#include "shipped.h"

#include <stdio.h>

/* One octave and more has been read already; A4 was turned once. */
static const char SO_FAR[] = "# hammerline: tidy 1\n# book: grand\n# dampers: A0-E6\n"
                             "note,step,reading\nC4,blow,46.5\nF#4,sharp_height,12\nA4,capstan,+1/4 turn\n";

typedef struct row_case {
    const char *note, *step, *reading;
    bool good;
} row_case;

static const row_case CASES[] = {
    {"C4", "blow", "46.5", true},
    {"Db4", "blow", "46", true},
    {"40", "blow", "1 3/4 in", true},
    {"C4", "blow", "within", true},
    {"C4", "blow", "void", true},
    {"D4", "blow", "void", false}, /* nothing to withdraw */
    {"C4", "blow", "skip", true},
    {"C4", "blow", "ok", false}, /* measured */
    {"C4", "blow", "1e3", false},
    {"C4", "blow", "46 g", false},
    {"C4", "blow", "1.75", false}, /* 46 / 1.75 is 26: inches? (arithmetic) */
    {"C4", "blow", "1.75 mm", true},
    {"", "blow", "46", false},
    {"C9", "blow", "46", false},
    {"C#4", "key_level", "0.05", false}, /* naturals only */
    {"C4", "key_level", "-0.05", true},
    {"C4", "friction", "12", false}, /* computed */
    {"C4", "centres", "ti", true},
    {"C4", "centres", "ok", true},
    {"C4", "centres", "within", false},
    {"C4", "centres", "wobbly", false},
    {"", "screws", "ok", true},
    {"C4", "screws", "ok", false},
    {"C4", "capstan", "raise 1/8 turn", true},
    {"C4", "capstan", "+1/8", true},
    {"C4", "capstan", "done", true},
    {"C4", "capstan", "sideways", false},
    {"", "capstan", "+1/8", false},
    {"A4", "capstan", "void", true},
    {"C4", "capstan", "void", false},
    {"", "rest_rail", "raise 1 mm", true},
    {"C4", "rest_rail", "raise 1 mm", false},
    {"C4", "query", "feels heavy", true},
    {"C4", "query", "closed", true},
    {"", "pass", "played in", true},
    {"C4", "pass", "played in", false},
    {"C4", "nonsense", "1", false},
    {"C4", "", "1", false},
};

static void test_check_and_reader_agree(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    assert_int_equal(hl_sheet_open_text(&sheet, "bench.csv", SO_FAR, sizeof SO_FAR - 1, &err), HL_OK);
    assert_int_equal(hl_sheet_read(sheet, book, &err), HL_OK);
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        const row_case *c = &CASES[i];
        char text[600];
        const hl_journal_row row = {.note = c->note, .step = c->step, .reading = c->reading};
        const hl_code code = hl_sheet_check_row(sheet, &row, &err);
        if ((code == HL_OK) != c->good)
            fail_msg("%s %s %s: checked as %d: %s", c->note, c->step, c->reading, (int)code, err.what);
        if (code != HL_OK)
            assert_true(err.what[0] && err.todo[0]);
        const int size = snprintf(text, sizeof text, "%s%s,%s,%s\n", SO_FAR, c->note, c->step, c->reading);
        hl_sheet *longer = NULL;
        assert_int_equal(hl_sheet_open_text(&longer, "bench.csv", text, (size_t)size, &err), HL_OK);
        assert_int_equal(hl_sheet_read(longer, book, &err) == HL_OK, c->good);
        hl_sheet_free(longer);
    }
    hl_sheet_free(sheet);
    hl_book_free(book);
}

/* The journal puts the sheet's own decimal mark in, so both are taken, and checking changes nothing. */
static void test_either_decimal_mark(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    assert_int_equal(hl_sheet_open_text(&sheet, "bench.csv", SO_FAR, sizeof SO_FAR - 1, &err), HL_OK);
    assert_int_equal(hl_sheet_read(sheet, book, &err), HL_OK);
    static const char *const readings[] = {"46,5", "46.5", "46,5"};
    for (size_t i = 0; i < 3; i++) {
        const hl_journal_row row = {.note = "D4", .step = "blow", .reading = readings[i]};
        assert_int_equal(hl_sheet_check_row(sheet, &row, &err), HL_OK);
    }
    assert_int_equal(hl_sheet_line(sheet, "blow", 40), 5);
    assert_int_equal(hl_sheet_line(sheet, "capstan", 49), 7);
    assert_int_equal(hl_sheet_line(sheet, "blow", 42), 0);
    assert_int_equal(hl_sheet_line(sheet, "nonsense", 40), 0);
    hl_sheet_free(sheet);
    hl_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_check_and_reader_agree),
        cmocka_unit_test(test_either_decimal_mark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
