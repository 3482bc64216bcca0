/* test_walk_entry.c - what a typed line means at the bench: gauges, words, ranges, slips. */
#include "../../engine/cli/walk/walk_clean.c"
#include "../../engine/cli/walk/walk_entry.c"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static const hl_compass PIANO = {HL_A0, 88};
static const hl_step BLOW = {.id = "blow", .kind = HL_MEASURED, .unit = HL_MM};
static const hl_step WEIGHT = {.id = "downweight", .kind = HL_MEASURED, .unit = HL_G};
static const hl_word WORDS[] = {{.word = "tight"}, {.word = "loose"}, {.word = "click"}, {.word = "back"}};
static const hl_step CENTRES = {.id = "centres", .kind = HL_JUDGED, .words = WORDS, .n_words = 4};

static entry read_at(const char *line, const hl_step *step)
{
    entry out;
    entry_read(&out, line, PIANO, step);
    return out;
}

/* Forms of gauges from reliability.md B2 (public interface manuals); the rest is how people write. */
static void test_numbers_of_gauges_and_people(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *kept;
    } cases[] = {
        {"9.53", "9.53"},
        {"  9.53  ", "9.53"},
        {"9,53", "9.53"},
        {"10,050", "10.050"}, /* one number a line: a comma in it is a decimal comma */
        {"0009.53", "9.53"},
        {"+0009.53", "9.53"},
        {"-0000.05", "-0.05"},
        {"01A+0009.53", "9.53"},
        {"01A+0009.530", "9.530"},
        {"01A-0000.050", "-0.050"},
        {"01A+00.37520", "0.37520 in"}, /* five decimals after two digits are inches */
        {"00.5", "0.5"},
        {"0", "0"},
        {".390 in", ".390 in"},
        {"3/8", "3/8"},
        {"1 3/4", "1 3/4"},
        {"1-3/4 in", "1-3/4 in"},
        {"\033[200~1.00\033[201~", "1.00"}, /* a paste */
        {"46\xC2\xA0mm", "46 mm"},          /* a no-break space from a phone */
        {"1.234,5", "1.234,5"},             /* left for the sheet's reader to refuse */
        {"1e3", "1e3"},
        {"nonsense", "nonsense"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const entry got = read_at(cases[i].typed, &BLOW);
        assert_int_equal(got.kind, ENTRY_READING);
        assert_int_equal(got.select, SELECT_HERE);
        assert_string_equal(got.text, cases[i].kept);
    }
    /* Inches are of lengths only. */
    assert_string_equal(read_at("01A+00.37520", &WEIGHT).text, "0.37520");
}

static void test_nothing_is_recorded_by_nothing(void **state)
{
    (void)state;
    static const char *const empty[] = {"", " ", "   ", "\xC2\xA0", "\033[200~\033[201~"};
    for (size_t i = 0; i < sizeof empty / sizeof *empty; i++)
        assert_int_equal(read_at(empty[i], &BLOW).kind, ENTRY_EMPTY);
    /* An arrow key, a backspace from a pipe, C1, a cut UTF-8 character, an overlong slash, NUL's stand-in. */
    static const char *const bad[] = {"9.5\033[A", "9.5\b6",   "9\x7F", "9\xC2\x9B.5",
                                      "caf\xC3",   "\xC0\xAF", "\1"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(read_at(bad[i], &BLOW).kind, ENTRY_BAD);
}

static void test_gauge_words(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *kept;
    } cases[] = {{"within", "within"}, {"wi", "within"},   {"w", "within"},
                 {"over", "over"},     {"UNDER", "under"}, {"within the gauge", "within"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_string_equal(read_at(cases[i].typed, &BLOW).text, cases[i].kept);
    /* A judged step knows no gauge: the word goes to the reader, which refuses it. */
    assert_string_equal(read_at("w", &CENTRES).text, "w");
    assert_int_equal(read_at("ok", &BLOW).kind, ENTRY_BAD);
    assert_int_equal(read_at("ok", &CENTRES).kind, ENTRY_READING);
    assert_int_equal(read_at("void", &BLOW).kind, ENTRY_BAD);
}

/* C3 = 28, B4 = 51, F3 = 33, A#3 = Bb3 = 38: scientific names, A0 = 1 (arithmetic). */
static void test_notes_and_ranges(void **state)
{
    (void)state;
    static const struct {
        const char *typed;
        unsigned select;
        int from, to;
        const char *kept;
    } cases[] = {
        {"F3 9.6", SELECT_SPAN, 33, 33, "9.6"},
        {"f3 9,6", SELECT_SPAN, 33, 33, "9.6"},
        {"Bb3 01A+0009.60", SELECT_SPAN, 38, 38, "9.60"},
        {"C3-B4 within", SELECT_SPAN, 28, 51, "within"},
        {"B4-C3 within", SELECT_SPAN, 28, 51, "within"},
        {"C3 - B4 w", SELECT_SPAN, 28, 51, "within"},
        {"C3..B4 10", SELECT_SPAN, 28, 51, "10"},
        {"C3\xE2\x80\x93"
         "B4 10",
         SELECT_SPAN, 28, 51, "10"},
        {"C2 -0.05", SELECT_SPAN, 16, 16, "-0.05"}, /* a low key, no range */
        {"C2 +0.05", SELECT_SPAN, 16, 16, "0.05"},
        {"C2 .390 in", SELECT_SPAN, 16, 16, ".390 in"},
        {"all 10", SELECT_ALL, 0, 0, "10"},
        {"naturals within", SELECT_NATURALS, 0, 0, "within"},
        {"naturals C3-B4 10", SELECT_NATURALS | SELECT_SPAN, 28, 51, "10"},
        {"rest sharps w", SELECT_REST | SELECT_SHARPS, 0, 0, "within"},
        {"section 10", SELECT_SECTION, 0, 0, "10"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const entry got = read_at(cases[i].typed, &BLOW);
        assert_int_equal(got.kind, ENTRY_READING);
        assert_int_equal(got.select, cases[i].select);
        assert_int_equal(got.from, cases[i].from);
        assert_int_equal(got.to, cases[i].to);
        assert_string_equal(got.text, cases[i].kept);
        assert_false(got.replaces);
    }
    assert_true(read_at("C3-B4 within replace", &BLOW).replaces);
    assert_string_equal(read_at("C3-B4 within replace", &BLOW).text, "within");
    assert_int_equal(read_at("F3", &BLOW).kind, ENTRY_NOTE);
    assert_int_equal(read_at("F3", &BLOW).from, 33);
    assert_string_equal(read_at("C3 - B4  10", &BLOW).notes, "C3 - B4");
    assert_string_equal(read_at("naturals done 1/8 up", &BLOW).notes, "naturals");
    assert_string_equal(read_at("10", &BLOW).notes, "");
    /* Who named the note must name it again, or the number goes to the note in hand. */
    assert_non_null(strstr(read_at("E4 ok", &BLOW).todo, "Name E4 again"));
    assert_null(strstr(read_at("ok", &BLOW).todo, "again"));
    assert_int_equal(read_at("C3-B4", &BLOW).kind, ENTRY_BAD);
    assert_int_equal(read_at("all", &BLOW).kind, ENTRY_BAD);
    /* Not notes: outside the piano, or half a name. */
    assert_int_equal(read_at("C9 10", &BLOW).select, SELECT_HERE);
    assert_int_equal(read_at("C3-H4 10", &BLOW).select, SELECT_HERE);
}

static void test_same_as_last(void **state)
{
    (void)state;
    assert_true(read_at("=", &BLOW).same);
    assert_true(read_at("same", &CENTRES).same);
    assert_true(read_at("C3-B4 =", &BLOW).same);
    assert_false(read_at("46", &BLOW).same);
}

static void test_commands(void **state)
{
    (void)state;
    static const struct {
        const char *typed;
        command_id command;
        const char *text;
    } cases[] = {
        {"undo", COMMAND_UNDO, ""},
        {"Undo", COMMAND_UNDO, ""},
        {"skip no key lead", COMMAND_SKIP, "no key lead"},
        {"note knuckle worn", COMMAND_REMARK, "knuckle worn"},
        {"go let-off F3", COMMAND_GO, "let-off F3"},
        {"done", COMMAND_DONE, ""},
        {"done 1/8", COMMAND_DONE, "1/8"},
        {"turned 1/8 down", COMMAND_DONE, "1/8 down"},
        {"?", COMMAND_HELP, ""},
        {"help", COMMAND_HELP, ""},
        {"F3 query feels heavy", COMMAND_QUERY, "feels heavy"},
        {"C3-B4 skip no dampers", COMMAND_SKIP, "no dampers"},
        {"quit", COMMAND_QUIT, ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const entry got = read_at(cases[i].typed, &BLOW);
        assert_int_equal(got.kind, ENTRY_COMMAND);
        assert_int_equal(got.command, cases[i].command);
        assert_string_equal(got.text, cases[i].text);
    }
    /* Commands are typed in full, so that a fault word may be cut: "ti" is tight, "li" no list. */
    assert_int_equal(read_at("li", &CENTRES).kind, ENTRY_READING);
    /* A fault of the step goes before a command of the same name, and ':' the other way. */
    assert_int_equal(read_at("back", &CENTRES).kind, ENTRY_READING);
    assert_int_equal(read_at(":back", &CENTRES).command, COMMAND_BACK);
    assert_int_equal(read_at("back", &BLOW).command, COMMAND_BACK);
    assert_int_equal(read_at(":nothing", &BLOW).kind, ENTRY_BAD);
}

static void test_longest_line(void **state)
{
    (void)state;
    char line[ENTRY_MOST + 2];
    memset(line, 'x', sizeof line);
    memcpy(line, "note ", 5);
    line[ENTRY_MOST] = '\0';
    assert_int_equal(read_at(line, &BLOW).command, COMMAND_REMARK);
    assert_int_equal(strlen(read_at(line, &BLOW).text), ENTRY_MOST - 5);
    line[ENTRY_MOST] = 'x';
    line[ENTRY_MOST + 1] = '\0';
    assert_int_equal(read_at(line, &BLOW).kind, ENTRY_BAD);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_numbers_of_gauges_and_people),
        cmocka_unit_test(test_nothing_is_recorded_by_nothing),
        cmocka_unit_test(test_gauge_words),
        cmocka_unit_test(test_notes_and_ranges),
        cmocka_unit_test(test_same_as_last),
        cmocka_unit_test(test_commands),
        cmocka_unit_test(test_longest_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
