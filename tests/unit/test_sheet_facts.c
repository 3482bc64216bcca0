/* test_sheet_facts.c - what a sheet states about its piano: numbers, compass, sections, dampers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "good_sheet.h"

#include <stdio.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

static void check_value(const hl_sheet *sheet, const char *fact, const char *note, bool want_assumed,
                        double want)
{
    bool assumed = false;
    int number = hl_note_parse(sheet->compass, note);
    double value = hl__sheet_value(sheet, hl__book_find_fact(book, fact), number, &assumed);
    assert_int_equal(assumed, want_assumed);
    assert_true(value > want - 1e-9 && value < want + 1e-9);
}

/* A decimal comma in a fact needs no quotes: fact lines have no columns. */
static void facts_with_commas(void **state)
{
    hl_sheet *sheet =
        read_sheet("# travel_ratio: 5,1\n# breaks: 20,34, 52,,,\n# place: \"the \"\"old\"\" hall\"\n"
                   "\"# owner: A, B\",,\nnote,drop\nC4,1.5\n");
    (void)state;
    check_value(sheet, "travel_ratio", "C4", false, 5.1);
    assert_int_equal(sheet->n_breaks, 3);
    assert_int_equal(sheet->breaks[2], 52);
    assert_string_equal(hl_sheet_fact(sheet, "owner"), "A, B");
    hl_sheet_free(sheet);
}

/* Facts of the sheet stand before the book's; a colour's before the common one.  The book's own
 * values are small_book.c's. */
static void facts(void **state)
{
    hl_sheet *sheet = read_sheet("# book: Small,,\n"
                                 "# Piano: no. 7, walnut,\n"
                                 "# key_front sharps: 204 mm\n"
                                 "# key_front: 9 in\n"
                                 "# key pin naturals: 231,,\n"
                                 "# capstan_pitch: .05 in/turn\n"
                                 "\"# travel_ratio: 5.1\"\n"
                                 "# let_off_pitch: 1 1/2 mm / turn\n"
                                 "# capstan_ratio:,.52\n"
                                 "# lost_motion: .2\n"
                                 "# place: Hall; # not a fact: still the place\n"
                                 "note,drop\nC4,1.5\n");
    (void)state;
    assert_string_equal(hl_sheet_book_id(sheet), "small");
    assert_string_equal(hl_sheet_fact(sheet, "piano"), "no. 7, walnut");
    assert_string_equal(hl_sheet_fact(sheet, "owner"), "");
    assert_string_equal(hl_sheet_fact(sheet, "place"), "Hall; # not a fact: still the place");
    assert_string_equal(hl_sheet_name(sheet), "demo.csv");
    check_value(sheet, "key_front", "C4", false, 228.6); /* 9 * 25.4 */
    check_value(sheet, "key_front", "C#4", false, 204);
    check_value(sheet, "key_pin", "C4", false, 231);
    check_value(sheet, "key_pin", "C#4", true, 180);
    check_value(sheet, "capstan_pitch", "C4", false, 1.27);
    check_value(sheet, "travel_ratio", "C4", false, 5.1);
    check_value(sheet, "let_off_pitch", "C4", false, 1.5);
    check_value(sheet, "capstan_ratio", "C4", false, .52);
    check_value(sheet, "hammer_leverage", "C4", true, 5.5);
    hl_sheet_free(sheet);
}

/* A form's lines that nobody filled in state nothing. */
static void facts_left_empty(void **state)
{
    hl_sheet *sheet = read_sheet(
        "# book:\n# piano:\n# key_front:\n# dampers:,,\n# breaks: \n# breaks:\nnote,drop\nC4,1.5\n");
    (void)state;
    assert_string_equal(hl_sheet_book_id(sheet), "");
    check_value(sheet, "key_front", "C4", true, 250);
    assert_null(sheet->undamped);
    assert_int_equal(sheet->n_breaks, 0);
    hl_sheet_free(sheet);
}

static void facts_later(void **state)
{
    hl_sheet *sheet = read_sheet("# temperature: 20\nnote,step,reading\n"
                                 ",fact,travel_ratio = 5.2\n"
                                 ",fact,key_front sharps = 204 mm\n"
                                 ",fact,temperature: 22\n"
                                 ",fact,travel_ratio = 5.3\n");
    (void)state;
    check_value(sheet, "travel_ratio", "C4", false, 5.3);
    check_value(sheet, "key_front", "C#4", false, 204);
    check_value(sheet, "key_front", "C4", true, 250);
    assert_string_equal(hl_sheet_fact(sheet, "temperature"), "22");
    assert_int_equal(sheet->events[0].kind, HL_EVENT_FACT);
    assert_string_equal(hl__text_at(sheet, sheet->events[0].remark), "travel_ratio = 5.2");
    hl_sheet_free(sheet);
}

/* 85 keys run from A0 to A7 (common practice): notes count from the lowest key, names stay. */
static void compass(void **state)
{
    static const struct {
        const char *fact, *note;
        int lowest, keys, number;
    } CASES[] = {
        {"85 from A0", "A7", 9, 85, 85},
        {"85 keys from A0", "A7", 9, 85, 85},
        {"A0-A7", "C4", 9, 85, 40},
        {"C1-C8", "C4", 12, 85, 37},
        {"c1 - c8", "C1", 12, 85, 1},
        {"C0-B8", "A4", 0, 108, 58},
        {"F1\xE2\x80\x93"
         "F6",
         "F1", 17, 61, 1},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(CASES); i++) {
        char text[128];
        snprintf(text, sizeof text, "# compass: %s\nnote,blow\n%s,46\n", CASES[i].fact, CASES[i].note);
        hl_sheet *sheet = read_sheet(text);
        assert_int_equal(hl_sheet_compass(sheet).lowest, CASES[i].lowest);
        assert_int_equal(hl_sheet_compass(sheet).keys, CASES[i].keys);
        assert_int_equal(sheet->events[0].note, CASES[i].number);
        hl_sheet_free(sheet);
    }
}

static bool applies(const hl_sheet *sheet, const char *step, const char *note)
{
    int number = note[0] == '\0' ? 0 : hl_note_parse(sheet->compass, note);
    return hl__sheet_applies(sheet, hl_book_step(book, small_step(book, step)), number);
}

static void scopes(void **state)
{
    hl_sheet *sheet = read_sheet("# dampers: A0-D6\nnote,damper_key\nC7,late\n");
    (void)state;
    assert_true(applies(sheet, "blow", "C4"));
    assert_false(applies(sheet, "blow", ""));
    assert_true(applies(sheet, "una_corda", ""));
    assert_false(applies(sheet, "una_corda", "C4"));
    assert_true(applies(sheet, "sharp_height", "C#4"));
    assert_false(applies(sheet, "sharp_height", "C4"));
    assert_true(applies(sheet, "key_height", "C4"));
    assert_false(applies(sheet, "key_height", "C#4"));
    assert_true(applies(sheet, "damper_key", "D6"));
    assert_false(applies(sheet, "damper_key", "D#6"));
    assert_int_equal(sheet->last_damped, 66); /* D6 is note 66 of 88: arithmetic */
    hl_sheet_free(sheet);

    static const struct {
        const char *fact, *damped, *free; /* free "": no note is excused */
    } CASES[] = {{"# dampers: 1-66\n", "D6", "D#6"},
                 {"# dampers: 1-20 22-66\n", "22", "21"},
                 {"# dampers: all\n", "C8", ""},
                 {"", "C8", ""}};
    for (size_t i = 0; i < COUNT(CASES); i++) {
        char text[64];
        snprintf(text, sizeof text, "%snote,blow\nC4,46\n", CASES[i].fact);
        sheet = read_sheet(text);
        assert_true(applies(sheet, "damper_key", CASES[i].damped));
        assert_true(CASES[i].free[0] == '\0' || !applies(sheet, "damper_key", CASES[i].free));
        hl_sheet_free(sheet);
    }
}

static void sections_and_samples(void **state)
{
    static const struct {
        const char *facts;
        int samples[9]; /* ended by 0 */
    } CASES[] = {
        /* First, middle and last natural of 88 keys: A0, E4, C8. */
        {"", {1, 44, 88}},
        /* Sections 1-20, 21-52, 53-88; 20 is E2, 21 F2, 52 C5, 53 C#5 (so 54). */
        {"# breaks: 20 52\n", {1, 20, 21, 52, 54, 88}},
        {"# breaks: E2, C5\n", {1, 20, 21, 52, 54, 88}},
        {"# samples: C8 A0, 40\n", {1, 40, 88}},
        {"# samples: C8 A0, 40\n# breaks: 20\n", {1, 40, 88}},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(CASES); i++) {
        char text[128];
        snprintf(text, sizeof text, "%snote,blow\nC4,46\n", CASES[i].facts);
        hl_sheet *sheet = read_sheet(text);
        const int *next = CASES[i].samples;
        for (int note = 0; note <= 88; note++) {
            bool want = note > 0 && note == *next;
            next += want;
            assert_int_equal(hl__sheet_is_sample(sheet, note), want);
        }
        assert_int_equal(*next, 0);
        hl_sheet_free(sheet);
    }
    hl_sheet *sheet = read_sheet("# breaks: 20 52\nnote,blow\nC4,46\n");
    static const int SECTIONS[][2] = {{1, 0}, {20, 0}, {21, 1}, {52, 1}, {53, 2}, {88, 2}};
    for (size_t i = 0; i < COUNT(SECTIONS); i++) {
        assert_int_equal(hl__sheet_section(sheet, SECTIONS[i][0]), SECTIONS[i][1]);
    }
    hl_sheet_free(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(facts_with_commas),    cmocka_unit_test(facts),   cmocka_unit_test(facts_left_empty),
        cmocka_unit_test(facts_later),          cmocka_unit_test(compass), cmocka_unit_test(scopes),
        cmocka_unit_test(sections_and_samples),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
