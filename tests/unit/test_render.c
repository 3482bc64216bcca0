/* test_render.c - notes in few words, paragraphs that fit, corrections as a technician says them.
 *
 * All expectations are the house's own way of writing (arithmetic on the 88 keys: A0 is 1, C4 is 40,
 * A4 is 49, C8 is 88); the amounts are invented. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "notes.h"
#include "sentence.h"
#include "wrap.h"

static const hl_compass PIANO = {HL_A0, 88};

static void expect_text(hl_text *text, const char *want)
{
    assert_false(text->failed);
    for (size_t i = 0; i < text->size; i++)
        if (text->data[i] == HL_GLUE)
            text->data[i] = ' ';
    assert_string_equal(text->data ? text->data : "", want);
    hl__text_free(text);
}

/* Numbers of the notes named in `names`, in that order. */
static int read_notes(const char *names, int *notes)
{
    char word[8];
    int n = 0;
    while (*names) {
        const size_t size = strcspn(names, " ");
        memcpy(word, names, size);
        word[size] = '\0';
        notes[n] = hl_note_parse(PIANO, word);
        assert_true(notes[n] > 0);
        n++;
        names += size + (names[size] == ' ');
    }
    return n;
}

static void test_notes_fold_into_ranges(void **state)
{
    (void)state;
    static const struct {
        hl_scope scope;
        const char *notes, *want;
    } cases[] = {
        {HL_EVERY_NOTE, "A4", "A4"},
        {HL_EVERY_NOTE, "C4 C#4", "C4 C#4"}, /* two are named singly */
        {HL_EVERY_NOTE, "C4 C#4 D4", "C4-D4"},
        {HL_EVERY_NOTE, "C3 C#3 D3 D#3 E3 F3 A4", "C3-F3 A4"},
        {HL_EVERY_NOTE, "A0 A#0 B0 C4 B7 C8", "A0-B0 C4 B7 C8"},
        {HL_NATURALS, "C3 D3 E3 F3", "C3-F3"}, /* E-F has no sharp between, C-D has */
        {HL_NATURALS, "C3 E3 F3", "C3 E3 F3"},
        {HL_SHARPS, "C#3 D#3 F#3 A#3", "C#3-F#3 A#3"}, /* G#3 is missing */
        {HL_EVERY_NOTE, "C3 D3 E3 F3", "naturals C3-F3"},
        {HL_EVERY_NOTE, "C#3 D#3 F#3", "sharps C#3-F#3"},
        {HL_EVERY_NOTE, "C3 D3 E3 F3 F#3 G3", "naturals C3-G3, sharps F#3"},
        {HL_DAMPED, "A0 A#0 B0", "A0-B0"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int notes[88];
        hl_text text = {0};
        const int n = read_notes(cases[i].notes, notes);
        hl__notes_fold(&text, PIANO, cases[i].scope, notes, n);
        expect_text(&text, cases[i].want);
    }
}

static void test_whole_keyboard_is_one_range(void **state)
{
    (void)state;
    int notes[88];
    hl_text text = {0};
    for (int i = 0; i < 88; i++)
        notes[i] = i + 1;
    hl__notes_fold(&text, PIANO, HL_EVERY_NOTE, notes, 88);
    expect_text(&text, "A0-C8");
    notes[0] = 0;
    hl__notes_fold(&text, PIANO, HL_ONCE, notes, 1);
    expect_text(&text, "the instrument");
}

static void test_paragraphs_wrap_at_blanks(void **state)
{
    (void)state;
    static const struct {
        const char *paragraph;
        int width, first, hang;
        const char *want;
    } cases[] = {
        {"", 20, 0, 0, "\n"},
        {"turn the drop screw", 20, 0, 0, "turn the drop screw\n"},
        {"turn the drop screw up", 20, 0, 2, "turn the drop screw\n  up\n"},
        {"turn the drop screw", 12, 2, 4, "  turn the\n    drop\n    screw\n"},
        {"want 46.0\1mm here", 12, 0, 1, "want 46.0 mm\n here\n"}, /* a unit stays with its number */
        {"reads 46.0\1mm here", 12, 0, 1, "reads\n 46.0 mm\n here\n"},
        {"a/very/long/path/indeed x", 10, 0, 2, "a/very/long/path/indeed\n  x\n"},
        {"two  blanks   fold", 40, 0, 0, "two blanks fold\n"},
        {"\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9 \xC3\xA9\xC3\xA9", 7, 0, 0,
         "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9 \xC3\xA9\xC3\xA9\n"}, /* columns, not bytes */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl__wrap(&text, cases[i].paragraph, cases[i].width, cases[i].first, cases[i].hang);
        expect_text(&text, cases[i].want);
    }
}

#define MM(x) ((hl_amount)((x)*1000) * 1000)

static void test_targets_in_words(void **state)
{
    (void)state;
    static const struct {
        hl_target target;
        hl_unit unit;
        hl_amount resolution;
        const char *want;
    } cases[] = {
        {{MM(9.9), MM(10), MM(10.1), true, true}, HL_MM, 100000, "9.9-10.1 mm"},
        {{0, MM(1.6), MM(1.6), false, true}, HL_MM, 100000, "at most 1.6 mm"},
        {{20 * HL_ONE, 20 * HL_ONE, 0, true, false}, HL_G, HL_ONE, "at least 20 g"},
        {{-200000, 0, 200000, true, true}, HL_MM, 100000, "-0.2 to 0.2 mm"},
        {{0, 0, 0, false, false}, HL_MM, 100000, "any value"},
        {{1587500, 0, 3175000, true, true}, HL_IN, 25400, "0.0625-0.125 in"}, /* 1/16 and 1/8 in */
        {{MM(46), MM(46), MM(46), true, true}, HL_MM, 100000, "46.0 mm"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl__say_target(&text, &cases[i].target, cases[i].unit, cases[i].resolution);
        expect_text(&text, cases[i].want);
    }
}

static void test_readings_keep_their_digits(void **state)
{
    (void)state;
    static const struct {
        hl_amount low, high;
        hl_unit unit;
        hl_amount resolution;
        const char *want;
    } cases[] = {
        {MM(46), MM(46), HL_MM, 500000, "46.0 mm"},
        {46810000, 46810000, HL_MM, 500000, "46.81 mm"}, /* finer than a person reads: not rounded */
        {MM(46.8), MM(47.1), HL_MM, 100000, "46.8-47.1 mm"},
        {-MM(0.3), -MM(0.1), HL_MM, 100000, "-0.3 to -0.1 mm"},
        {HL_ONE, HL_ONE, HL_TURN, 0, "1 turn"},
        {HL_ONE * 3 / 2, HL_ONE * 3 / 2, HL_TURN, 0, "1 1/2 turns"},
        {HL_ONE * 5, HL_ONE * 5, HL_RATIO, 100000, "5.0"},
        {HL_ONE * 23 / 16, HL_ONE * 23 / 16, HL_TURN, 0, "1 7/16 turns"},
        {-HL_ONE * 3 / 16, HL_ONE * 3 / 16, HL_TURN, 0, "-3/16 to 3/16 turn"},
        {HL_ONE / 3, HL_ONE / 3, HL_TURN, 0, "0.33 turn"},
        {76200, 76200, HL_MM, 0, "0.08 mm"},          /* .003 in */
        {9999980, 9999980, HL_MM, 100000, "10.0 mm"}, /* .3937 in, as typed */
        {325000, 325000, HL_MM, 50000, "0.33 mm"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl__say_span(&text, cases[i].low, cases[i].high, cases[i].unit, cases[i].resolution);
        expect_text(&text, cases[i].want);
    }
}

static const hl_amount PUNCHINGS[] = {100000, 300000};

static void test_corrections_say_the_act(void **state)
{
    (void)state;
    const hl_adjuster capstan = {
        .title = "capstan", .verb = "", .more = "raise", .less = "lower", .unit = HL_TURN};
    const hl_adjuster screw = {
        .title = "drop screw", .verb = "turn", .more = "down", .less = "up", .unit = HL_TURN};
    const hl_adjuster spring = {
        .title = "repetition spring", .verb = "bend", .more = "stronger", .less = "weaker", .unit = HL_NOTCH};
    const hl_adjuster check = {.title = "backcheck", .verb = "bend", .more = "toward", .less = "away"};
    const hl_adjuster punching = {.title = "front punching",
                                  .verb = "",
                                  .more = "add",
                                  .less = "remove",
                                  .unit = HL_MM,
                                  .sizes = PUNCHINGS,
                                  .n_sizes = 2};
    const hl_adjuster lead = {.title = "key lead",
                              .verb = "",
                              .more = "add",
                              .less = "remove",
                              .unit = HL_G,
                              .sizes = PUNCHINGS,
                              .n_sizes = 2};
    const struct {
        const hl_adjuster *adjuster;
        hl_correction correction;
        const char *want;
    } cases[] = {
        {&capstan, {.more = true, .has_amount = true, .amount = HL_ONE / 4}, "raise the capstan 1/4 turn"},
        {&capstan,
         {.more = false, .has_amount = true, .amount = HL_ONE * 3 / 2},
         "lower the capstan 1 1/2 turns"},
        {&screw,
         {.more = false, .has_amount = true, .amount = HL_ONE * 3 / 8},
         "turn the drop screw 3/8 turn up"},
        {&spring,
         {.more = true, .has_amount = true, .amount = HL_ONE},
         "bend the repetition spring a step stronger"},
        {&spring, {.more = false}, "bend the repetition spring weaker"},
        {&check, {.more = true}, "bend the backcheck toward"},
        {&punching,
         {.more = true, .has_amount = true, .amount = 400000, .pieces = {300000, 100000}},
         "add 0.3 + 0.1 mm of front punching (0.4 mm)"},
        {&punching,
         {.more = false, .has_amount = true, .amount = 300000, .pieces = {300000}},
         "remove a 0.3 mm front punching"},
        {&punching, /* .005 in = 0.127 mm exactly */
         {.more = true, .has_amount = true, .amount = 127000, .pieces = {127000}, .assumed = true},
         "add a .005 in front punching (0.13 mm)"},
        {&punching, /* .015 + .005 in = 0.508 mm */
         {.more = true, .has_amount = true, .amount = 508000, .pieces = {381000, 127000}},
         "add .015 + .005 in of front punching (0.51 mm)"},
        {&punching, /* 0.04 mm is no whole thousandth */
         {.more = true, .has_amount = true, .amount = 40000, .pieces = {40000}},
         "add a 0.04 mm front punching"},
        {&punching,
         {.more = true, .has_amount = true, .amount = 167000, .pieces = {127000, 40000}},
         "add .005 in + 0.04 mm of front punching (0.17 mm)"},
        {&lead,
         {.more = true, .has_amount = true, .amount = 8 * HL_ONE, .pieces = {8 * HL_ONE}},
         "add an 8 g key lead"},
        {&lead,
         {.more = true, .has_amount = true, .amount = 14 * HL_ONE, .pieces = {14 * HL_ONE}},
         "add a 14 g key lead"},
        {&capstan,
         {.more = true, .has_amount = true, .amount = HL_ONE / 4, .assumed = true},
         "raise the capstan about 1/4 turn"},
        {&capstan, /* seen on this piano, so no longer assumed */
         {.more = true, .has_amount = true, .amount = HL_ONE / 4, .assumed = true, .learned = true},
         "raise the capstan 1/4 turn"},
        {&punching, {.more = true}, "add front punching"}, /* a go/no-go reading: how much is not known */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl__say_act(&text, cases[i].adjuster, &cases[i].correction);
        expect_text(&text, cases[i].want);
    }
}

/* A title from a strange rule file must not repaint the verdict. */
static void test_strange_titles_stay_harmless(void **state)
{
    (void)state;
    const hl_adjuster evil = {.title = "cap\033[32mstan", .verb = "", .more = "raise", .less = "lower"};
    hl_text text = {0};
    hl__say_way(&text, &evil, true);
    assert_false(text.failed);
    assert_null(strchr(text.data, '\033'));
    assert_non_null(strstr(text.data, "[32mstan"));
    hl__text_free(&text);
}

static void test_errors_stand_on_one_line(void **state)
{
    (void)state;
    static const struct {
        hl_err err;
        const char *want;
    } cases[] = {
        {{.file = "a.csv", .line = 4, .column = 2, .what = "\"H4\" is no note", .todo = "write A0 to C8"},
         "a.csv:4:2: \"H4\" is no note; write A0 to C8\n"},
        {{.file = "a.csv", .what = "no book is named"}, "a.csv: no book is named\n"},
        {{.file = "a.lua", .line = 3, .what = "x"}, "a.lua:3: x\n"},
        {{.what = "x", .todo = "y"}, "x; y\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *text = NULL;
        size_t size = 0;
        assert_int_equal(hl_err_text(&text, &size, &cases[i].err), HL_OK);
        assert_string_equal(text, cases[i].want);
        assert_int_equal(size, strlen(cases[i].want));
        hl_free(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_notes_fold_into_ranges),
        cmocka_unit_test(test_whole_keyboard_is_one_range),
        cmocka_unit_test(test_paragraphs_wrap_at_blanks),
        cmocka_unit_test(test_targets_in_words),
        cmocka_unit_test(test_readings_keep_their_digits),
        cmocka_unit_test(test_corrections_say_the_act),
        cmocka_unit_test(test_strange_titles_stay_harmless),
        cmocka_unit_test(test_errors_stand_on_one_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
