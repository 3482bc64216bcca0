/* Targets: every way to write one, and what it comes to at a note.
 *
 * All figures are invented; the expected ones are arithmetic on them (1 in = 25.4 mm). */
#include "opened_book.h"

/* A one-step book whose target is `target`. */
static hl_book *open_with_target(rule_folder *folder, const char *target)
{
    char text[1024];
    open_folder(folder);
    snprintf(text, sizeof text,
             "return step { id = 'one', title = 'One', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
             "  resolution = 0.1, target = %s }\n",
             target);
    write_rule(folder, "one", text);
    write_rule(
        folder, "small",
        "return book { id = 'small', api = 1, title = 'S', stage { 'set', title = 'Set' }, use 'one' }\n");
    return open_or_fail(folder, "small");
}

static void test_targets(void **state)
{
    (void)state;
    static const struct {
        const char *target;
        int pitch;
        double low, aim, high;
    } cases[] = {
        {"range(1, 2)", C4, 1, 1.5, 2},
        {"range(1, 2, 1.9)", C4, 1, 1.9, 2},
        {"range('1/16 in', 2)", C4, 1.5875, 1.79375, 2},
        {"about(5, 0.5)", C4, 4.5, 5, 5.5},
        {"by_colour { naturals = range(1, 2), sharps = range(3, 4) }", C4, 1, 1.5, 2},
        {"by_colour { naturals = range(1, 2), sharps = range(3, 4) }", CS4, 3, 3.5, 4},
        {"zones { { 'A0-B3', range(1, 2) }, { 'C4-C8', range(3, 4) } }", C4 - 1, 1, 1.5, 2},
        {"zones { { 'A0-B3', range(1, 2) }, { 'C4-C8', range(3, 4) } }", C4, 3, 3.5, 4},
        {"zones { { 'A0-B3', range(1, 2) }, { 'C4-C8', range(3, 4) } }", 0, 1, 1.5, 2},   /* outermost */
        {"zones { { 'A0-B3', range(1, 2) }, { 'C4-C8', range(3, 4) } }", 107, 3, 3.5, 4}, /* reach out */
        {"zones { { 'A0-B3', range(1, 2) }, { 'C4', range(5, 6) }, { 'C#4-C8', range(3, 4) } }", C4, 5, 5.5,
         6},
        {"graded { { 'A0', range(2, 3) }, { 'C8', range(1, 2) } }", HL_A0, 2, 2.5, 3},
        {"graded { { 'A0', range(2, 3) }, { 'C8', range(1, 2) } }", C8, 1, 1.5, 2},
        {"graded { { 'A0', range(2, 3) }, { 'C8', range(1, 2) } }", 0, 2, 2.5, 3}, /* held outside */
        /* C4 is key 40: 39/87 of the way; 2 - 0.448, 2.5 - 0.448, 3 - 0.448 to the nearest 0.1 */
        {"graded { { 'A0', range(2, 3) }, { 'C8', range(1, 2) } }", C4, 1.6, 2.1, 2.6},
        {"graded { { 'A0', range(0, 1) }, { 'C4', range(4, 5) }, { 'C8', range(0, 1) } }", 60, 3, 3.5, 4},
        {"function (note) return range(note.number, note.number + note.octave) end", C4, 40, 42, 44},
        {"function (note) return note.colour == 'sharp' and range(9, 9) or range(1, 1) end", CS4, 9, 9, 9},
        {"by_colour { naturals = function (note) return about(note.octave, 1) end, sharps = range(7, 8) }",
         C4, 3, 4, 5},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        rule_folder folder;
        hl_book *book = open_with_target(&folder, cases[i].target);
        assert_target(step_of(book, "one"), cases[i].pitch, cases[i].low, cases[i].aim, cases[i].high);
        assert_true(step_of(book, "one")->targets[C4].has_low && step_of(book, "one")->targets[C4].has_high);
        hl_book_free(book);
        close_folder(&folder);
    }
}

static void test_one_sided_targets(void **state)
{
    (void)state;
    rule_folder folder;
    hl_book *book = open_with_target(&folder, "at_least(-2)");
    const hl_target *target = &step_of(book, "one")->targets[C4];
    assert_true(target->has_low && !target->has_high);
    assert_int_equal(target->low, -2000000);
    assert_int_equal(target->aim, -2000000); /* the limit, unless stated */
    hl_book_free(book);
    close_folder(&folder);
    book = open_with_target(&folder, "at_most(3, 2)");
    target = &step_of(book, "one")->targets[C4];
    assert_true(!target->has_low && target->has_high);
    assert_int_equal(target->aim, 2000000);
    hl_book_free(book);
    close_folder(&folder);
}

/* Rule files see texts, tables and numbers the same way everywhere. */
static void test_what_rule_files_can_call(void **state)
{
    (void)state;
    static const char *const truths[] = {
        "tostring({}) == 'table' and tostring(step) == 'function'",
        "string.format('%s %d %.2f', {}, 3, 1.5) == 'table 3 1.50'",
        "('AbC'):lower() == 'abc' and #('abc') == 3 and ('abc'):sub(2, 2) == 'b'",
        "(function (s) for k in pairs { b = 2, a = 1, 7 } do s = s .. k end return s end)('') == '1ab'",
        "tonumber('1.5') == 1.5 and tonumber('x') == nil and tonumber(' 2 ') == 2",
        "table.concat({ 1, 2, 3 }, '-') == '1-2-3' and select('#', table.unpack { 1, 2 }) == 2",
        "math.floor(2.7) == 2 and math.max(1, 3) == 3 and math.type(1) == 'integer'",
        "1.5 .. '' == '1.5'", /* whatever the locale */
        "type(range(1, 2)) == 'userdata'",
    };
    for (size_t i = 0; i < sizeof truths / sizeof *truths; i++) {
        char target[400];
        snprintf(target, sizeof target, "function () assert(%s) return range(1, 2) end", truths[i]);
        rule_folder folder;
        hl_book *book = open_with_target(&folder, target);
        hl_book_free(book);
        close_folder(&folder);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_targets),
        cmocka_unit_test(test_one_sided_targets),
        cmocka_unit_test(test_what_rule_files_can_call),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
