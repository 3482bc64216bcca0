/* Mistakes in a step file.
 *
 * Left is what somebody wrote, right the whole message: file and line, what is wrong, what to do. */
#include "sound_book.h"

/* Fields of a measured step, in line 3 of one.lua. */
static const mistake step_mistakes[] = {
    {"tagret = range(1, 2),", "one.lua:3: unknown field 'tagret' in step; did you mean 'target'?"},
    {"title = 5, target = range(1, 2),", "one.lua:3: field 'title' of step must be a text, not a number"},
    {"title = '', target = range(1, 2),",
     "one.lua:3: field 'title' of step is empty; fill it in, or take it out"},
    {"unit = 'mn', target = range(1, 2),",
     "one.lua:3: field 'unit' of step cannot be 'mn'; did you mean 'mm'?"},
    {"unit = 'kg', target = range(1, 2),",
     "one.lua:3: field 'unit' of step cannot be 'kg'; did you mean 'g'?"},
    {"need = 'all', target = range(1, 2),",
     "one.lua:3: field 'need' of step cannot be 'all'; it can be: every samples optional"},
    {"breaks = 1, target = range(1, 2),",
     "one.lua:3: field 'breaks' of step must be true or false, not a number"},
    {"across = 'colour', target = range(1, 2),",
     "one.lua:3: field 'across' of step cannot be 'colour'; did you mean 'colours'?"},
    {"pair = 'one', target = range(1, 2),",
     "one.lua:3: step 'one' is a pair with 'one', which is itself; name the step that is read with it"},
    {"pair = 'onne', target = range(1, 2),",
     "one.lua:3: one: there is no step 'onne' in the book; did you mean 'one'?"},
    {"fix = 'screw', target = range(1, 2),",
     "one.lua:3: field 'fix' of step must be a list { \"name\", ... }, not a text"},
    {"fix = { 'screw', 'screw' }, target = range(1, 2),",
     "one.lua:3: field 'fix' of step names 'screw' twice; take one of the two out"},
    {"fix = { 'scrwe' }, target = range(1, 2),",
     "one.lua:3: one: there is no adjuster 'scrwe' in the book; did you mean 'screw'?"},
    {"masks = { 'one' }, target = range(1, 2),", "one.lua:3: step 'one' masks itself; take it out of masks"},
    {"masks = { 'onne' }, target = range(1, 2),",
     "one.lua:3: one: there is no step 'onne' in the book; did you mean 'one'?"},
    {"stage = 'sett', target = range(1, 2),",
     "one.lua:3: one: there is no stage 'sett' in the book; did you mean 'set'?"},
    {"resolution = 0, target = range(1, 2),",
     "one.lua:3: field 'resolution' must be above zero; write how much, such as 0.1"},
    {"resolution = 1e9, target = range(1, 2),",
     "one.lua:3: field 'resolution' of step is not a number that can be used; numbers go up to a million"},
    {"resolution = 0/0, target = range(1, 2),",
     "one.lua:3: field 'resolution' of step is not a number that can be used; numbers go up to a million"},
    {"resolution = '1 g', target = range(1, 2),",
     "one.lua:3: '1 g' is a weight, what is asked for is a length (mm); write it in mm or in, or move it to "
     "where it belongs"},
    {"gauge = 'wide', target = range(1, 2),",
     "one.lua:3: 'wide' is not a number; write it in digits, such as 10.2 or 3/8"},
    {"range(1, 2),", "one.lua:3: item 1 of step has no name and no meaning; give it a name, or take it out"},
    {"target = range(1, 2), [true] = 1,",
     "one.lua:1: a key here is a boolean; fields have names; items of a list have none"},
    {"", "one.lua:1: step 'one' is measured and has no 'target'; add it: what a reading must be, or a "
         "function of the note"},
    {"kind = 'judged', target = range(1, 2),",
     "one.lua:2: step 'one' is judged and takes no 'unit'; take the field out"},
    {"formula = 'one', target = range(1, 2),",
     "one.lua:3: step 'one' is measured and takes no 'formula'; take the field out"},
    {"faults = { { 'slow', todo = 'x' } }, target = range(1, 2),",
     "one.lua:3: step 'one' is measured and takes no 'faults'; take the field out"},
    {"\n  target = range(2, 1),", "one.lua:4: range(2.0, 1.0) is upside down; the low end comes first"},
    {"target = range(1),",
     "one.lua:3: range was given 1 values; write range(low, high) or range(low, high, aim)"},
    {"target = range(1, 2, 3),",
     "one.lua:3: range: the aim 3.0 lies outside; the aim is the third number and lies between low and high"},
    {"target = range('1 in', 2),", "one.lua:3: the target of 'one' is upside down; the low end comes first"},
    {"target = range(1, 'wide'),",
     "one.lua:3: 'wide' is not a number; write it in digits, such as 10.2 or 3/8"},
    {"target = range(1, {}),", "one.lua:3: range takes numbers, not a table; write range(low, high) or "
                               "range(low, high, aim); each a number, or a text such as \"1/16 in\""},
    {"target = range(1, 1/0),", "one.lua:3: range: inf is no target; numbers go up to a million"},
    {"target = range('1 g', '2 g'),", "one.lua:3: '1 g' is a weight, what is asked for is a length (mm); "
                                      "write it in mm or in, or move it to where it belongs"},
    {"target = at_least(2, 1),",
     "one.lua:3: at_least: the aim 1.0 lies outside; the aim lies at the limit or above"},
    {"target = at_most(2, 3),",
     "one.lua:3: at_most: the aim 3.0 lies outside; the aim lies at the limit or below"},
    {"target = about(2, 0),",
     "one.lua:3: about: the tolerance 0.0 is not above zero; the tolerance is how far to either side"},
    {"target = 5,", "one.lua:3: field 'target' of step must be range, at_least, at_most, about, by_colour, "
                    "zones, graded or a function, not a number"},
    {"target = { 1, 2 },", "one.lua:3: field 'target' of step must be range, at_least, at_most, about, "
                           "by_colour, zones, graded or a function, not a table of another shape"},
    {"target = zones {\n    { 'A0-B2', range(1, 2) },\n    { 'C3-C9', range(1, 2) } },",
     "one.lua:3: zones: 'C3-C9' is no zone; write two notes from C0 to B8: \"A0-B2\""},
    {"target = zones { { 'A0-B2', range(1, 2) }, { 'D3-C8', range(1, 2) } },",
     "one.lua:3: zones: no zone holds C3; begin a zone one key above the end of the one before"},
    {"target = zones { { 'A0-B2', range(1, 2) }, { 'B2-C8', range(1, 2) } },",
     "one.lua:3: zones: B2 is in two zones, or out of order; list the zones from low to high, each note in "
     "one of them"},
    {"target = zones { { 'B2-A0', range(1, 2) } },",
     "one.lua:3: zones: 'B2-A0' is upside down; the low note comes first"},
    {"target = zones { { 'A0-B2', by_colour { naturals = range(1, 2), sharps = range(1, 2) } } },",
     "one.lua:3: zones: a row cannot hold by_colour; use range, at_least, at_most or about here; by_colour "
     "goes outside"},
    {"target = zones { { '1-88', range(1, 2) } },",
     "one.lua:3: zones: '1-88' is no zone; write two notes from C0 to B8: \"A0-B2\""},
    {"target = zones {},", "one.lua:3: zones has too few rows; write at least one zone"},
    {"target = graded { { 'A0', range(1, 2) } },",
     "one.lua:3: graded has too few rows; write the lowest and the highest note"},
    {"target = graded { { 'C8', range(1, 2) }, { 'A0', range(1, 2) } },",
     "one.lua:3: graded: A0 comes after C8; list the anchors from low to high, each once"},
    {"target = graded { { 'A0', range(1, 2) }, { 'H8', range(1, 2) } },",
     "one.lua:3: graded: 'H8' is no note; write a note from C0 to B8: \"A0\""},
    {"target = graded { { 'A0', range(1, 2) }, { 'C8', at_least(1) } },",
     "one.lua:3: graded: range and at_least cannot be joined by a line; use the same word at every anchor"},
    {"target = by_colour { naturals = range(1, 2) },",
     "one.lua:3: by_colour has no 'sharps'; add it: target of the sharps"},
    {"target = by_colour { natural = range(1, 2), sharps = range(1, 2) },",
     "one.lua:3: unknown field 'natural' in by_colour; did you mean 'naturals'?"},
    {"target = function (note)\n    if note.number > 5 then return range(1, 2) end\n  end,",
     "one.lua:3: the target function of 'one' gave nothing for A0; return range, at_least, at_most or about "
     "for every note of the book's compass"},
    {"target = function (note) return 5 end,",
     "one.lua:3: the target function gave a number, asked for A0; return range, at_least, at_most or about"},
    {"target = function (note)\n    return range(note.numbr, 2)\n  end,",
     "one.lua:4: a note has no 'numbr', asked for A0; did you mean note.number?"},
    {"scope = 'once', target = zones { { 'A0-C8', range(1, 2) } },",
     "one.lua:3: step 'one' is read once for the instrument and cannot have a target that goes by note; give "
     "range, at_least, at_most or about"},
    {"model = 'blow + ', target = range(1, 2),",
     "one.lua:3: formula \"blow + \", at 8: the formula ends where a number, a name or '(' should be; an "
     "example of a formula: (blow - let_off) / key_dip"},
    {"model = 'bow', target = range(1, 2),",
     "one.lua:3: formula \"bow\", at 1: 'bow' is not known here; 'blow' was perhaps meant"},
    {"model = 'blow * blow', target = range(1, 2),",
     "one.lua:3: the formula of 'one' comes out in mm*mm; the step is in mm; check the formula for a missing "
     "factor"},
    {"model = 'blow > 1', target = range(1, 2),",
     "one.lua:3: the formula of 'one' comes out as yes or no; a step needs a number"},
    {"model = 'touch', target = range(1, 2),", "one.lua:3: formula \"touch\": 'touch' is judged and has no "
                                               "number; ask passes(), fails(), missing() or read() of it"},
    {"model = 'one + blow', target = range(1, 2),",
     "one.lua:3: formulas go round in a circle: 'one' needs 'one', which needs 'one' itself; one of them "
     "must be measured without a formula"},
    {"target = rnage(1, 2),", "one.lua:3: 'rnage' is not defined here; did you mean 'range'?"},
    {"target = print(1),",
     "one.lua:3: print is not offered to rule files; rule files compute; they do not reach outside"},
    {"target = string.rep('x', 5),", "one.lua:3: string.rep is not offered to rule files; rule files "
                                     "compute; rules/meta/words.lua lists what they can call"},
    {"target = ('x'):rep(5),", "one.lua:3: string.rep is not offered to rule files; rule files compute; "
                               "rules/meta/words.lua lists what they can call"},
    {"target = math.flor(1),", "one.lua:3: math.flor is not offered to rule files; did you mean 'floor'?"},
    {"target = range('1' + 1, 2),",
     "one.lua:3: attempt to perform arithmetic on a string value (constant '1')"},
    {"target = range(1 | 2, 4),", "one.lua:3: the operator | is refused in rule files; some releases of Lua "
                                  "compute bitwise operators wrongly; use and, or, not, + and *"},
    {"target = range(({ 1 })[1 < 2], 4),",
     "one.lua:3: a comparison inside [ ] is refused in rule files; some releases of Lua compile it wrongly; "
     "put the comparison into a local first"},
    {"target = range(nil + 1, 4),", "one.lua:3: attempt to perform arithmetic on a nil value"},
    {"title = '\\xff', target = range(1, 2),",
     "one.lua:1: a text here is not UTF-8; write the characters themselves"},
    {"title = 'a\\0b', target = range(1, 2),",
     "one.lua:1: a text here holds a zero byte; write the characters themselves"},
};

/* What a sound step has and the case does not give itself: a field given twice is a mistake of its own. */
static void put_rest(char *out, size_t room, const char *snippet)
{
    static const char *const rest[][2] = {{"title =", "title = 'One', "},
                                          {"stage =", "stage = 'set', "},
                                          {"unit =", "unit = 'mm', "},
                                          {"resolution =", "resolution = 1, "}};
    size_t n = 0;
    out[0] = '\0';
    for (size_t i = 0; i < sizeof rest / sizeof *rest; i++)
        if (strstr(snippet, rest[i][0]) == NULL)
            n += (size_t)snprintf(out + n, room - n, "%s", rest[i][1]);
}

static void test_mistakes_in_a_step(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof step_mistakes / sizeof *step_mistakes; i++) {
        rule_folder folder;
        char text[800], rest[200];
        write_sound(&folder, "use 'one'");
        put_rest(rest, sizeof rest, step_mistakes[i].snippet);
        snprintf(text, sizeof text, "return step { id = 'one', ask = 'a', why = 'w',\n  %s\n  %s\n}\n", rest,
                 step_mistakes[i].snippet);
        write_rule(&folder, "one", text);
        assert_refused(&folder, "main", step_mistakes[i].snippet, step_mistakes[i].expected);
        close_folder(&folder);
    }
}

/* Fields of a judged step, in line 2 of one.lua. */
static const mistake judged_mistakes[] = {
    {"faults = {},",
     "one.lua:2: field 'faults' of step must be a list of tables { \"word\", ... }, not an empty table"},
    {"faults = { { 'slow' } },",
     "one.lua:2: fault 'slow' does not say what to do; give it a 'fix' or a 'todo'"},
    {"faults = { { 'ok', todo = 'x' } },", "one.lua:2: 'ok' cannot be a fault word: it has a meaning of its "
                                           "own in sheets; choose a word that says what is wrong"},
    {"faults = { { 'void', todo = 'x' } },", "one.lua:2: 'void' cannot be a fault word: it has a meaning of "
                                             "its own in sheets; choose a word that says what is wrong"},
    {"faults = { { 'too slow', todo = 'x' } },",
     "one.lua:2: 'too slow' is not a name; write it as 'too_slow': small letters, digits and _"},
    {"faults = { { 'slow', todo = 'x' }, { 'slow', todo = 'y' } },",
     "one.lua:2: field 'faults' of step has 'slow' twice; take one of the two out"},
    {"faults = { { 'slow', tood = 'x' } },",
     "one.lua:2: unknown field 'tood' in fault; did you mean 'todo'?"},
    {"faults = { { 'slow', fix = { { 'screw' } } } },",
     "one.lua:2: field 'fix' of fault must be a list of pairs { \"adjuster\", \"way\" }, not a table of "
     "another shape"},
    {"faults = { { 'slow', fix = { { 'screw', 'up' } } } },",
     "one.lua:2: one: 'up' is no way of 'screw'; its ways are 'in' and 'out'"},
    {"faults = { { 'slow', fix = { { 'srcew', 'in' } } } },",
     "one.lua:2: one: there is no adjuster 'srcew' in the book; did you mean 'screw'?"},
    {"faults = { { 'slow', todo = 'x' } }, fix = { 'screw' },",
     "one.lua:2: step 'one' is judged and takes no 'fix'; take the field out; a judged step names its ways "
     "out with its fault words"},
    {"unit = 'mm', faults = { { 'slow', todo = 'x' } },",
     "one.lua:2: step 'one' is judged and takes no 'unit'; take the field out"},
};

static void test_mistakes_in_a_judged_step(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof judged_mistakes / sizeof *judged_mistakes; i++) {
        rule_folder folder;
        char text[800];
        write_sound(&folder, "use 'one'");
        snprintf(text, sizeof text,
                 "return step { id = 'one', title = 'One', stage = 'set', kind = 'judged', ask = 'a', why = "
                 "'w',\n  %s\n}\n",
                 judged_mistakes[i].snippet);
        write_rule(&folder, "one", text);
        assert_refused(&folder, "main", judged_mistakes[i].snippet, judged_mistakes[i].expected);
        close_folder(&folder);
    }
}

static void test_the_sound_book_is_sound(void **state)
{
    (void)state;
    rule_folder folder;
    hl_book *book;
    hl_err err;
    write_sound(&folder, "");
    assert_int_equal(open_book(&folder, "main", &book, &err), HL_OK);
    hl_book_free(book);
    close_folder(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_mistakes_in_a_step),
        cmocka_unit_test(test_mistakes_in_a_judged_step),
        cmocka_unit_test(test_the_sound_book_is_sound),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) + wrong_messages;
}
