/* Every mistake in a rule file is told with file and line, what is wrong, and what to do.
 *
 * Left is what somebody wrote, right the whole message.  Targets and moves are invented. */
#include "rule_folder.h"

static void assert_message(const hl_err *err, const char *snippet, const char *expected)
{
    char got[1000];
    snprintf(got, sizeof got, "%s:%d: %s%s%s", err->file, err->line, err->what,
             err->todo[0] != '\0' ? "; " : "", err->todo);
    if (strcmp(got, expected) != 0)
        print_error("%s\n  got      %s\n  expected %s\n", snippet, got, expected);
    assert_string_equal(got, expected);
    assert_int_equal(err->code, HL_E_RULE);
}

static void assert_refused(rule_folder *folder, const char *book_name, const char *snippet,
                           const char *expected)
{
    hl_book *book;
    hl_err err;
    if (open_book(folder, book_name, &book, &err) == HL_OK)
        print_error("was taken: %s\n", snippet);
    assert_null(book);
    assert_message(&err, snippet, expected);
}

typedef struct mistake {
    const char *snippet, *expected;
} mistake;

/* A sound book: a measured, a derived and a judged step, an adjuster, a fact. */
static void write_sound(rule_folder *folder, const char *entries)
{
    char text[1200];
    open_folder(folder);
    write_rule(
        folder, "drop",
        "return step { id = 'drop', title = 'Drop', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, target = range(1, 3), fix = { 'screw' } }\n");
    write_rule(
        folder, "grand/blow",
        "return step { id = 'blow', title = 'Blow', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, target = range(40, 50) }\n");
    write_rule(folder, "derived",
               "return step { id = 'derived', title = 'Derived', stage = 'set', kind = 'derived', unit = "
               "'mm', ask = 'a',\n"
               "  why = 'w', resolution = 0.1, formula = 'blow - drop' }\n");
    write_rule(
        folder, "touch",
        "return step { id = 'touch', title = 'Touch', stage = 'set', kind = 'judged', ask = 'a', why = 'w',\n"
        "  faults = { { 'heavy', todo = 'Ease it.' } } }\n");
    snprintf(
        text, sizeof text,
        "return book { id = 'main', api = 1, title = 'Main', stage { 'set', title = 'Set' }, use 'drop', use "
        "'grand/blow',\n"
        "  use 'derived', use 'touch', fact { 'arm', title = 'arm', unit = 'mm', value = 1 },\n"
        "  adjuster { 'screw', title = 'screw', unit = 'turn', more = 'in', less = 'out', finest = 1/8,\n"
        "    moves = { drop = 1, touch = 'slight' } },\n"
        "  %s\n"
        "}\n",
        entries);
    write_rule(folder, "main", text);
}

/* Fields of a measured step, in line 3 of one.lua; `unit`, `stage` and `resolution` come before,
 * so that a case may state them again: the later one wins in a Lua table. */
static const mistake step_mistakes[] = {
    {"tagret = range(1, 2),", "one.lua:3: unknown field 'tagret' in step; did you mean 'target'?"},
    {"title = 5, target = range(1, 2),", "one.lua:1: field 'title' of step must be a text, not a number"},
    {"title = '', target = range(1, 2),",
     "one.lua:1: field 'title' of step is empty; fill it in, or take it out"},
    {"unit = 'mn', target = range(1, 2),",
     "one.lua:1: field 'unit' of step cannot be 'mn'; did you mean 'mm'?"},
    {"unit = 'kg', target = range(1, 2),",
     "one.lua:1: field 'unit' of step cannot be 'kg'; did you mean 'g'?"},
    {"need = 'all', target = range(1, 2),",
     "one.lua:1: field 'need' of step cannot be 'all'; it can be: every samples optional"},
    {"breaks = 1, target = range(1, 2),",
     "one.lua:1: field 'breaks' of step must be true or false, not a number"},
    {"fix = 'screw', target = range(1, 2),",
     "one.lua:1: field 'fix' of step must be a list { \"name\", ... }, not a text"},
    {"fix = { 'screw', 'screw' }, target = range(1, 2),",
     "one.lua:1: field 'fix' of step names 'screw' twice; take one of the two out"},
    {"fix = { 'scrwe' }, target = range(1, 2),",
     "one.lua:1: one: there is no adjuster 'scrwe' in the book; did you mean 'screw'?"},
    {"masks = { 'one' }, target = range(1, 2),", "one.lua:1: step 'one' masks itself; take it out of masks"},
    {"masks = { 'onne' }, target = range(1, 2),",
     "one.lua:1: one: there is no step 'onne' in the book; did you mean 'one'?"},
    {"stage = 'sett', target = range(1, 2),",
     "one.lua:1: one: there is no stage 'sett' in the book; did you mean 'set'?"},
    {"resolution = 0, target = range(1, 2),",
     "one.lua:1: field 'resolution' must be above zero; write a number above zero"},
    {"resolution = 1e9, target = range(1, 2),",
     "one.lua:1: field 'resolution' of step is not a number that can be used; numbers go up to a million"},
    {"resolution = 0/0, target = range(1, 2),",
     "one.lua:1: field 'resolution' of step is not a number that can be used; numbers go up to a million"},
    {"resolution = '1 g', target = range(1, 2),",
     "one.lua:1: '1 g' is a weight, what is asked for is a length (mm); write it in mm or in, or move it to "
     "where it belongs"},
    {"gauge = 'wide', target = range(1, 2),",
     "one.lua:1: 'wide' is not a number; write it in digits, such as 10.2 or 3/8"},
    {"range(1, 2),", "one.lua:3: item 1 of step has no name and no meaning; give it a name, or take it out"},
    {"target = range(1, 2), [true] = 1,",
     "one.lua:1: a key here is a boolean; fields have names; items of a list have none"},
    {"", "one.lua:1: step 'one' is measured and has no 'target'; add it: what a reading must be, or a "
         "function of the note"},
    {"kind = 'judged', target = range(1, 2),",
     "one.lua:1: step 'one' is judged and takes no 'unit'; take the field out"},
    {"formula = 'one', target = range(1, 2),",
     "one.lua:1: step 'one' is measured and takes no 'formula'; take the field out"},
    {"faults = { { 'slow', todo = 'x' } }, target = range(1, 2),",
     "one.lua:1: step 'one' is measured and takes no 'faults'; take the field out"},
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
    {"target = 5,", "one.lua:1: field 'target' of step must be range, at_least, at_most, about, by_colour, "
                    "zones, graded or a function, not a number"},
    {"target = { 1, 2 },", "one.lua:1: field 'target' of step must be range, at_least, at_most, about, "
                           "by_colour, zones, graded or a function, not a table"},
    {"target = zones {\n    { 'A0-B2', range(1, 2) },\n    { 'C3-C9', range(1, 2) } },",
     "one.lua:3: zones: 'C3-C9' is no zone; write two notes from C0 to B8: \"A0-B2\""},
    {"target = zones { { 'A0-B2', range(1, 2) }, { 'D3-C8', range(1, 2) } },",
     "one.lua:3: zones: no zone holds C3; begin a zone one key above the end of the one before"},
    {"target = zones { { 'A0-B2', range(1, 2) }, { 'B2-C8', range(1, 2) } },",
     "one.lua:3: zones: B2 stands in two zones, or out of order; list the zones from low to high, each note "
     "in one of them"},
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
     "one.lua:3: the target function of 'one' gave nothing for C0; return range, at_least, at_most or about "
     "for every note from C0 to B8"},
    {"target = function (note) return 5 end,",
     "one.lua:3: the target function gave a number for C0; return range, at_least, at_most or about"},
    {"target = function (note)\n    return range(note.numbr, 2)\n  end,",
     "one.lua:4: range takes numbers, not nothing; write range(low, high) or range(low, high, aim); each a "
     "number, or a text such as \"1/16 in\""},
    {"scope = 'once', target = zones { { 'A0-C8', range(1, 2) } },",
     "one.lua:3: step 'one' is read once for the instrument and cannot have a target that goes by note; give "
     "range, at_least, at_most or about"},
    {"model = 'blow + ', target = range(1, 2),",
     "one.lua:1: formula \"blow + \", at 8: the formula ends where a number, a name or '(' should stand; an "
     "example of a formula: (blow - let_off) / key_dip"},
    {"model = 'bow', target = range(1, 2),",
     "one.lua:1: formula \"bow\", at 1: 'bow' is not known here; 'blow' was perhaps meant"},
    {"model = 'blow * blow', target = range(1, 2),",
     "one.lua:1: the formula of 'one' comes out in mm*mm; the step is in mm; check the formula for a missing "
     "factor"},
    {"model = 'blow > 1', target = range(1, 2),",
     "one.lua:1: the formula of 'one' comes out as yes or no; a step needs a number"},
    {"model = 'touch', target = range(1, 2),", "one.lua:1: formula \"touch\": 'touch' is judged and has no "
                                               "number; ask passes(), fails(), missing() or read() of it"},
    {"model = 'one + blow', target = range(1, 2),",
     "one.lua:1: formulas go round in a circle: 'one' needs 'one', which needs 'one' itself; one of them "
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

static void test_mistakes_in_a_step(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof step_mistakes / sizeof *step_mistakes; i++) {
        rule_folder folder;
        char text[800];
        write_sound(&folder, "use 'one'");
        snprintf(
            text, sizeof text,
            "return step { id = 'one', title = 'One', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
            "  resolution = 1,\n  %s\n}\n",
            step_mistakes[i].snippet);
        write_rule(&folder, "one", text);
        assert_refused(&folder, "main", step_mistakes[i].snippet, step_mistakes[i].expected);
        close_folder(&folder);
    }
}

/* Fields of a judged step, in line 2 of one.lua. */
static const mistake judged_mistakes[] = {
    {"faults = {},",
     "one.lua:1: field 'faults' of step must be a list of tables { \"word\", ... }, not a table"},
    {"faults = { { 'slow' } },",
     "one.lua:1: fault 'slow' does not say what to do; give it a 'fix' or a 'todo'"},
    {"faults = { { 'ok', todo = 'x' } },", "one.lua:1: 'ok' cannot be a fault word: it has a meaning of its "
                                           "own in sheets; choose a word that says what is wrong"},
    {"faults = { { 'void', todo = 'x' } },", "one.lua:1: 'void' cannot be a fault word: it has a meaning of "
                                             "its own in sheets; choose a word that says what is wrong"},
    {"faults = { { 'too slow', todo = 'x' } },",
     "one.lua:1: 'too slow' is not a name; use small letters, digits and _, beginning with a letter, at most "
     "48: key_dip"},
    {"faults = { { 'slow', todo = 'x' }, { 'slow', todo = 'y' } },",
     "one.lua:1: field 'faults' of step has 'slow' twice; take one of the two out"},
    {"faults = { { 'slow', tood = 'x' } },",
     "one.lua:1: unknown field 'tood' in fault; did you mean 'todo'?"},
    {"faults = { { 'slow', fix = { { 'screw' } } } },",
     "one.lua:1: field 'fix' of fault must be a list of pairs { \"adjuster\", \"way\" }, not a table"},
    {"faults = { { 'slow', fix = { { 'screw', 'up' } } } },",
     "one.lua:1: one: 'up' is no way of 'screw'; its ways are 'in' and 'out'"},
    {"faults = { { 'slow', fix = { { 'srcew', 'in' } } } },",
     "one.lua:1: one: there is no adjuster 'srcew' in the book; did you mean 'screw'?"},
    {"faults = { { 'slow', todo = 'x' } }, fix = { 'screw' },",
     "one.lua:1: step 'one' is judged and takes no 'fix'; take the field out; a judged step's ways out stand "
     "with its fault words"},
    {"unit = 'mm', faults = { { 'slow', todo = 'x' } },",
     "one.lua:1: step 'one' is judged and takes no 'unit'; take the field out"},
};

static void test_mistakes_in_a_judged_step(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof judged_mistakes / sizeof *judged_mistakes; i++) {
        rule_folder folder;
        char text[800];
        write_sound(&folder, "use 'one'");
        snprintf(
            text, sizeof text,
            "return step { id = 'one', title = 'One', stage = 'set', kind = 'judged', ask = 'a', why = 'w',\n"
            "  %s\n}\n",
            judged_mistakes[i].snippet);
        write_rule(&folder, "one", text);
        assert_refused(&folder, "main", judged_mistakes[i].snippet, judged_mistakes[i].expected);
        close_folder(&folder);
    }
}

/* Entries of a book, in line 5 of main.lua. */
static const mistake book_mistakes[] = {
    {"change { 'dorp', target = range(1, 2) },",
     "main.lua:5: change: there is no step 'dorp' in the book so far; did you mean 'drop'?"},
    {"change { 'zzz', target = range(1, 2) },", "main.lua:5: change: there is no step 'zzz' in the book so "
                                                "far; change comes after the use that brings the step"},
    {"change { 'drop', tagret = range(1, 2) },",
     "main.lua:5: unknown field 'tagret' in change; did you mean 'target'?"},
    {"change { 'drop', id = 'x' },",
     "main.lua:5: change cannot give 'id'; write a step of its own and skip this one"},
    {"change { 'drop', kind = 'judged' },",
     "main.lua:5: change cannot give 'kind'; write a step of its own and skip this one"},
    {"change { 'drop', unit = 'g' },", "main.lua:5: change of 'drop' changes a unit, from mm to g; formulas "
                                       "and adjusters count on mm; write a step of its own"},
    {"change { 'drop', why = 'no reason' },",
     "main.lua:5: change of 'drop' changes nothing; name the field and its new value: target = range(1, 2)"},
    {"change { 'drop', formula = 'blow' },",
     "main.lua:5: step 'drop' is measured and takes no 'formula'; take the field out"},
    {"change { target = range(1, 2) },", "main.lua:5: change has no item 1: the step to change"},
    {"change { 'drop', 5 },",
     "main.lua:5: item 2 of change has no name and no meaning; give it a name, or take it out"},
    {"\n  change { 'drop', target = range('2 in', '1 in') },",
     "main.lua:6: the target of 'drop' is upside down; the low end comes first"},
    {"skip { 'dorp', why = 'x' },",
     "main.lua:5: skip: there is no step 'dorp' in the book so far; did you mean 'drop'?"},
    {"skip { 'drop' },", "main.lua:5: skip has no 'why'; add it: the reason; it stays in the record"},
    {"skip { 'drop', why = 'x' }, skip { 'drop', why = 'y' },",
     "main.lua:5: step 'drop' is left out already; see main.lua:5; take one of the two out"},
    {"adjuster { 'scrwe', moves = { drop = 1 } },", "main.lua:5: adjuster 'scrwe' is not in the book so far, "
                                                    "and a new one must have 'title'; did you mean 'screw'?"},
    {"adjuster { 'screw', moves = { dorp = 1 } },",
     "main.lua:5: screw: there is no step 'dorp' in the book; did you mean 'drop'?"},
    {"adjuster { 'screw', moves = { derived = 1 } },",
     "main.lua:5: adjuster 'screw' cannot say how it moves 'derived'; its moves follow from its formula; "
     "take this one out"},
    {"adjuster { 'screw', moves = { touch = 1 } },",
     "main.lua:5: adjuster 'screw' moves 'touch' by an amount, but that step is judged; write \"strong\" or "
     "\"slight\""},
    {"adjuster { 'screw', moves = { drop = true } },",
     "main.lua:5: field 'drop' of adjuster must be a number, a formula, \"strong\", \"slight\" or false, not "
     "true or false"},
    {"adjuster { 'screw', moves = { drop = 0 } },",
     "main.lua:5: adjuster 'screw' moves 'drop' by nothing; leave it out, or write false to take an earlier "
     "one out"},
    {"adjuster { 'screw', moves = { blow = false } },",
     "main.lua:5: adjuster 'screw' does not move 'blow', so there is nothing to take out; take out blow = "
     "false"},
    {"adjuster { 'screw', moves = { drop = 'blow' } },",
     "main.lua:5: formula \"blow\": 'blow' is a step; an adjuster moves by the same amount whatever was "
     "read; use facts"},
    {"adjuster { 'screw', moves = { drop = 'arm' } },",
     "main.lua:5: adjuster 'screw' moves 'drop' by \"arm\", which comes out in mm and must be in mm/turn; "
     "check the formula for a missing factor"},
    {"adjuster { 'screw', moves = { 1 } },",
     "main.lua:5: field 'moves' of adjuster must be a table { step = amount, ... }, not a table"},
    {"adjuster { 'screw', unit = 'mm' },", "main.lua:5: adjuster 'screw' changes a unit, from turn to mm; "
                                           "formulas count on the unit it had at main.lua:3"},
    {"adjuster { 'drop', title = 'x', more = 'a', less = 'b' },",
     "main.lua:5: adjuster 'drop' has the name of a step; that one stands at drop.lua:1; rename one of the "
     "two"},
    {"adjuster { 'low', title = 'x', more = 'a', less = 'b' },",
     "main.lua:5: 'low' has a meaning of its own in sheets and formulas; choose another name"},
    {"adjuster { 'new', title = 'x', more = 'a', less = 'a' },",
     "main.lua:5: adjuster 'new' has the same word for more and less; name the two ways apart: \"raise\" and "
     "\"lower\""},
    {"adjuster { 'new', title = 'x', more = 'a', less = 'b', unit = 'turn' },",
     "main.lua:5: adjuster 'new' has an amount but neither 'finest' nor 'sizes'; add finest = 1/8, or sizes "
     "= { ... }"},
    {"adjuster { 'new', title = 'x', more = 'a', less = 'b', finest = 1 },",
     "main.lua:5: adjuster 'new' goes by judgement and has no 'finest'; give it a unit, or leave the amount "
     "out"},
    {"adjuster { 'new', title = 'x', more = 'a', less = 'b', moves = { drop = 1 } },",
     "main.lua:5: adjuster 'new' goes by judgement and cannot move 'drop' by an amount; write \"strong\" or "
     "\"slight\", or give it a unit"},
    {"adjuster { 'new', title = 'x', more = 'a', less = 'b', unit = 'turn', sizes = { 0 } },",
     "main.lua:5: field 'sizes' must be above zero; write a number above zero"},
    {"adjuster { 'Screw', title = 'x', more = 'a', less = 'b' },",
     "main.lua:5: 'Screw' is not a name; use small letters, digits and _, beginning with a letter, at most "
     "48: key_dip"},
    {"fact { 'new', title = 'x', unit = 'mile' },",
     "main.lua:5: fact 'new' has the unit 'mile', which is none; write mm, g, turn, deg, ratio, or one over "
     "another: mm/turn"},
    {"fact { 'new', title = 'x', unit = 'mm', naturals = 1 },",
     "main.lua:5: fact 'new' has a value for one colour only; give naturals and sharps, or value for both"},
    {"fact { 'new', unit = 'mm' },",
     "main.lua:5: fact 'new' is not in the book so far, and a new one must have 'title'; name for people"},
    {"fact { 'arm', unit = 'g' },",
     "main.lua:5: fact 'arm' changes a unit, from mm to g; formulas count on the unit it had at main.lua:2"},
    {"fact { 'drop', title = 'x', unit = 'mm' },",
     "main.lua:5: fact 'drop' has the name of a step; that one stands at drop.lua:1; rename one of the two"},
    {"stage { 'end' },",
     "main.lua:5: stage 'end' is not in the book so far, and a new one must have 'title'; name for people"},
    {"float { 'dorp', within = 1 },",
     "main.lua:5: float: there is no step 'dorp' in the book; did you mean 'drop'?"},
    {"float { 'touch', within = 1 },", "main.lua:5: float: 'touch' is not measured; name a measured step"},
    {"float { 'drop', within = -1 },",
     "main.lua:5: field 'within' must be above zero; write a number above zero"},
    {"acknowledge { 'screw', 'dorp', why = 'x' },",
     "main.lua:5: acknowledge: there is no step 'dorp' in the book; did you mean 'drop'?"},
    {"acknowledge { 'screw', why = 'x' },",
     "main.lua:5: acknowledge has no item 2: the earlier step that it disturbs"},
    {"diagnosis { 'd', title = 'D', when = 'drop + 1', causes = { { 'c' } } },",
     "main.lua:5: diagnosis 'd': 'when' is a number, not a condition; compare something, or ask low(), "
     "high(), fails() of a step"},
    {"diagnosis { 'd', title = 'D', when = 'touch > 1', causes = { { 'c' } } },",
     "main.lua:5: formula \"touch > 1\": 'touch' is judged and has no number; ask passes(), fails(), "
     "missing() or read() of it"},
    {"diagnosis { 'd', title = 'D', when = 'low(drpo)', causes = { { 'c' } } },",
     "main.lua:5: formula \"low(drpo)\", at 5: 'drpo' is not known here; 'drop' was perhaps meant"},
    {"diagnosis { 'd', title = 'D', when = 'low(drop)', causes = {} },",
     "main.lua:5: field 'causes' of diagnosis must be a list of tables { \"word\", ... }, not a table"},
    {"use 'dorp',", "main.lua:5: there is no rule file 'dorp'; did you mean 'drop'?"},
    {"use 'grand/blwo',", "main.lua:5: there is no rule file 'grand/blwo'; did you mean 'grand/blow'?"},
    {"use 'drop.lua',", "main.lua:5: \"drop.lua\" is not the name of a rule file; leave out .lua"},
    {"use '/etc/passwd',", "main.lua:5: \"/etc/passwd\" is not the name of a rule file; an absolute path is "
                           "refused; files are looked for beside the asking file and in the rule folders"},
    {"use '../drop',", "main.lua:5: \"../drop\" is not the name of a rule file; '..' is refused; files are "
                       "looked for beside the asking file and in the rule folders"},
    {"use '',", "main.lua:5: \"\" is not the name of a rule file; write \"drop\" or \"grand/drop\""},
    {"use 'drop',", "main.lua:5: use \"drop\": drop.lua is in the book already; it was used at main.lua:1; "
                    "take one of the two out"},
    {"use 'main',", "main.lua:5: use \"main\" makes a loop: main.lua is being put together already; it is "
                    "the book that was opened; take this line out"},
    {"use(5),", "main.lua:5: use takes one name; write use \"name\""},
    {"5,", "main.lua:1: item 8 of book is a number; a book's list holds use, stage, change, adjuster, skip, "
           "fact, float, acknowledge and diagnosis"},
    {"range(1, 2),", "main.lua:1: item 8 of book is range; a book's list holds use, stage, change, adjuster, "
                     "skip, fact, float, acknowledge and diagnosis"},
    {"nil, use 'one',", "main.lua:1: item 8 is nil; take it out"},
    {"stpe { 'x' },", "main.lua:5: 'stpe' is not defined here; did you mean 'step'?"},
    {"step { id = 'x', title = 'x', stage = 'set', unit = 'mm', ask = 'a', why = 'w', resolution = 1, target "
     "= range(1, 2) },",
     "main.lua:1: item 8 of book is a step; put it in a file of its own and write use \"its_name\""},
};

static void test_mistakes_in_a_book(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof book_mistakes / sizeof *book_mistakes; i++) {
        rule_folder folder;
        write_sound(&folder, book_mistakes[i].snippet);
        assert_refused(&folder, "main", book_mistakes[i].snippet, book_mistakes[i].expected);
        close_folder(&folder);
    }
}

/* Whole files: what stands in main.lua alone. */
static const mistake file_mistakes[] = {
    {"", "main.lua:1: the file returns nothing; end it with return step { ... } or return book { ... }"},
    {"return 5",
     "main.lua:1: the file returns a number; end it with return step { ... } or return book { ... }"},
    {"return { id = 'main' }",
     "main.lua:1: the file returns a table; end it with return step { ... } or return book { ... }"},
    {"return range(1, 2)",
     "main.lua:1: the file returns range; a book is needed here; end it with return book { ... }"},
    {"return step { id = 'main', title = 'x', stage = 'set', kind = 'judged', ask = 'a', why = 'w',\n  "
     "faults = { { 'x', todo = 'x' } } }",
     "main.lua:1: the file returns step; a book is needed here; end it with return book { ... }"},
    {"return tests 'main' { { 'drop', 'A4', reads = 1, want = 'pass' } }",
     "main.lua:1: the file returns tests; a book is needed here; end it with return book { ... }"},
    {"return book { id = 'main', title = 'x', use 'drop' }",
     "main.lua:1: book has no 'api'; add it: version of the rule language: 1"},
    {"return book { id = 'main', api = 2, title = 'x', use 'drop' }",
     "main.lua:1: the book is written for version 2 of the rule language; this program reads version 1; use "
     "a newer hammerline"},
    {"return book { id = 'main', api = 0, title = 'x', use 'drop' }",
     "main.lua:1: the book is written for version 0 of the rule language; this program reads version 1; "
     "write api = 1"},
    {"return book { id = 'main', api = 1.5, title = 'x', use 'drop' }",
     "main.lua:1: field 'api' of book is not a whole number that can be used; numbers go up to a million"},
    {"return book { id = 'man', api = 1, title = 'x', use 'drop' }",
     "main.lua:1: the file is named 'main.lua' and the book in it 'man'; give both the same name"},
    {"return book { id = 'main', api = 1, use 'drop' }",
     "main.lua:1: book has no 'title'; add it: name for people"},
    {"return book { id = 'main', api = 1, title = 'x' }",
     "main.lua:1: the book has no step; add use \"name\" for each step"},
    {"return book { id = 'main', api = 1, title = 'x', tilte = 'y' }",
     "main.lua:1: unknown field 'tilte' in book; did you mean 'title'?"},
    {"return book { id = 'main', api = 1, title = 'x', compass = 'C8-A0', stage { 'set', title = 'S' }, use "
     "'drop' }",
     "main.lua:1: 'C8-A0' is no compass; write the lowest and the highest note: \"A0-C8\""},
    {"return book { id = 'main', api = 1, title = 'x', compass = '88 keys', stage { 'set', title = 'S' }, "
     "use 'drop' }",
     "main.lua:1: '88 keys' is no compass; write the lowest and the highest note: \"A0-C8\""},
    {"return book { id = 'main', api = 1, title = 'x', stale_share = 2, stage { 'set', title = 'S' }, use "
     "'drop' }",
     "main.lua:1: field 'stale_share' must be above 0, up to 1; write a part of one: 0.25"},
    {"return book { id = 'main', api = 1, title = 'x', stage { 'end', title = 'E' }, use 'drop' }",
     "drop.lua:1: drop: there is no stage 'set' in the book; add it to the book, or take the name out"},
    {"return book { id = 'main', api = 1, title = 'x', stage { 'set', title = 'S' }, use 'drop' }",
     "drop.lua:1: drop: there is no adjuster 'screw' in the book; add it to the book, or take the name out"},
    {"return book { id = 'main', api = 1 title = 'x' }", "main.lua:1: '}' expected near 'title'"},
    {"return book { id = 'main', api = 1, title = 'x'", "main.lua:1: '}' expected near <eof>"},
    {"total = 1\nreturn book { id = 'main', api = 1, title = 'x' }",
     "main.lua:1: 'total' is not a local name; write 'local total = ...'"},
    {"local s = skip { 'drop', why = 'x' }\nreturn book { id = 'main', api = 1, title = 'x', use 'touch' }",
     "main.lua:1: this skip stands in no book and would have no effect; put it into the list of the book "
     "that the file returns"},
    {"local s = skip { 'drop', why = 'x' }\nreturn book { id = 'main', api = 1, title = 'x', s, s }",
     "main.lua:2: item 2 of book (skip) stands in a book already; write it once"},
    {"math.pi = 3\nreturn book { id = 'main', api = 1, title = 'x' }",
     "main.lua:1: the libraries cannot be changed; write a local function instead"},
    {"\n\nlocal x = nil + 1", "main.lua:3: attempt to perform arithmetic on a nil value"},
    {"-- \xe9\nreturn book {}", "main.lua:1: the file is not UTF-8 text; save it as plain text, UTF-8"},
    {"return book 'main'", "main.lua:1: book takes one table; write book { ... }"},
    {"return step { id = 'main' }, 5", "main.lua:1: step has no 'title'; add it: name for people"},
};

static void test_mistakes_in_a_file(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof file_mistakes / sizeof *file_mistakes; i++) {
        rule_folder folder;
        write_sound(&folder, "");
        write_rule(&folder, "main", file_mistakes[i].snippet);
        assert_refused(&folder, "main", file_mistakes[i].snippet, file_mistakes[i].expected);
        close_folder(&folder);
    }
}

/* ---- mistakes that take more than one file --------------------------------------------------------- */

static void test_a_loop_names_both_places(void **state)
{
    (void)state;
    rule_folder folder;
    open_folder(&folder);
    write_rule(&folder, "one", "return book { id = 'one', api = 1, title = 'One',\n  use 'two' }\n");
    write_rule(&folder, "two", "return book { id = 'two', api = 1, title = 'Two',\n\n  use 'three' }\n");
    write_rule(&folder, "three",
               "return book { id = 'three', api = 1, title = 'Three',\n\n\n  use 'two' }\n");
    assert_refused(
        &folder, "one", "a loop",
        "three.lua:4: use \"two\" makes a loop: two.lua is being put together already; it was asked for at "
        "one.lua:2; take one of the two out");
    close_folder(&folder);
}

static void test_a_step_in_two_files(void **state)
{
    (void)state;
    rule_folder folder;
    write_sound(&folder, "use 'shops/drop',");
    write_rule(&folder, "shops/drop",
               "\nreturn step { id = 'drop', title = 'D', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
               "  resolution = 0.1, target = range(1, 3) }\n");
    assert_refused(
        &folder, "main", "two files",
        "shops/drop.lua:2: step 'drop' is defined twice; the first one stands at drop.lua:1; rename this "
        "one, or use change { \"drop\", ... }");
    close_folder(&folder);
}

static void test_a_file_under_another_name(void **state)
{
    (void)state;
    rule_folder folder;
    write_sound(&folder, "use 'dropp',");
    write_rule(
        &folder, "dropp",
        "return step { id = 'dropping', title = 'D', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, target = range(1, 3) }\n");
    assert_refused(
        &folder, "main", "another name",
        "dropp.lua:1: the file is named 'dropp.lua' and the step in it 'dropping'; give both the same name");
    close_folder(&folder);
}

static void test_books_too_deep_in_each_other(void **state)
{
    (void)state;
    rule_folder folder;
    open_folder(&folder);
    for (int i = 0; i < 20; i++) {
        char name[16], text[200];
        snprintf(name, sizeof name, "b%d", i);
        snprintf(text, sizeof text, "return book { id = 'b%d', api = 1, title = 'B', use 'b%d' }\n", i,
                 i + 1);
        write_rule(&folder, name, text);
    }
    assert_refused(&folder, "b0", "too deep", "b16.lua:1: books use each other more than 16 deep");
    close_folder(&folder);
}

static void test_formulas_in_a_circle(void **state)
{
    (void)state;
    rule_folder folder;
    write_sound(&folder, "use 'one', use 'two',");
    write_rule(&folder, "one",
               "return step { id = 'one', title = 'One', stage = 'set', kind = 'derived', unit = 'mm', ask = "
               "'a', why = 'w',\n"
               "  resolution = 1, formula = 'blow + two' }\n");
    write_rule(&folder, "two",
               "return step { id = 'two', title = 'Two', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
               "  resolution = 1, target = range(1, 2), model = 'one - drop' }\n");
    assert_refused(
        &folder, "main", "a circle",
        "two.lua:1: formulas go round in a circle: 'two' needs 'one', which needs 'two' itself; one of them "
        "must be measured without a formula");
    close_folder(&folder);
}

static void test_a_link_out_of_the_folders(void **state)
{
    (void)state;
    rule_folder inside, outside;
    write_sound(&inside, "use 'secret',");
    open_folder(&outside);
    write_rule(&outside, "secret", "return step {}\n");
    char from[300], to[300];
    snprintf(from, sizeof from, "%s/secret.lua", outside.path);
    snprintf(to, sizeof to, "%s/secret.lua", inside.path);
    assert_int_equal(symlink(from, to), 0);
    assert_refused(
        &inside, "main", "a link",
        "main.lua:5: rule file 'secret' is a link that leads out of the rule folders; put the file itself "
        "there");
    unlink(to);
    close_folder(&inside);
    close_folder(&outside);
}

static void test_a_book_that_is_not_there(void **state)
{
    (void)state;
    rule_folder folder;
    hl_book *book;
    hl_err err;
    write_sound(&folder, "");
    /* The caller asked for nonsense: no rule file is at fault. */
    assert_int_equal(open_book(&folder, "mian", &book, &err), HL_E_USAGE);
    assert_string_equal(err.what, "there is no rule file 'mian'");
    assert_string_equal(err.todo, "did you mean 'main'?");
    assert_int_equal(open_book(&folder, "/nowhere/main.lua", &book, &err), HL_E_USAGE);
    assert_int_equal(open_book(&folder, "", &book, &err), HL_E_USAGE);
    close_folder(&folder);
}

static void test_a_file_that_is_too_long(void **state)
{
    (void)state;
    rule_folder folder;
    hl_book *book;
    hl_err err;
    const size_t size = 300 << 10;
    char *blanks = malloc(size);
    assert_non_null(blanks);
    memset(blanks, ' ', size);
    open_folder(&folder);
    write_rule_bytes(&folder, "long", blanks, size);
    free(blanks);
    assert_int_equal(open_book(&folder, "long", &book, &err), HL_E_RULE);
    assert_string_equal(err.file, "long.lua");
    close_folder(&folder);
}

/* What stands in a test file. */
static const mistake test_mistakes[] = {
    {"return tests 'main' {}", "t.lua:1: tests holds no case; a test file without a case proves nothing"},
    {"return tests 'mian' { { 'drop', 'A4', want = 'missing' } }",
     "t.lua:1: there is no rule file 'mian'; did you mean 'main'?"},
    {"return tests 'main' {\n  { 'drop', 'A4', want = 'missing' },\n  { 'dorp', 'A4', want = 'missing' } }",
     "t.lua:3: the book 'main' has no step 'dorp'; case 2: did you mean 'drop'?"},
    {"return tests 'main' { { 'drop', 'H4', want = 'missing' } }",
     "t.lua:1: the book has no note 'H4'; case 1: write a note such as \"A4\", or \"\" for the instrument"},
    {"return tests 'main' { { 'drop', 'once', want = 'missing' } }",
     "t.lua:1: this step is read at notes: 'drop'; case 1: name a note"},
    {"return tests 'main' { { 'drop', 'A4', want = 'perfect' } }",
     "t.lua:1: no verdict is called 'perfect'; case 1: want is pass, fail, doubtful, stale, missing or not "
     "applicable"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', why = 'hihg' } }",
     "t.lua:1: no reason is called 'hihg'; case 1: why is low, high, uneven, or a fault word of the step"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', fix = { 'scrwe', 'in' } } }",
     "t.lua:1: the book 'main' has no adjuster 'scrwe'; case 1: did you mean 'screw'?"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', fix = { 'screw', 'up' } } }",
     "t.lua:1: 'up' is no way of 'screw'; case 1: its ways are 'in' and 'out'"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', fix = { 'screw', 'in', -1 } } }",
     "t.lua:1: this is no amount of 'screw'; case 1: write a positive amount in its unit"},
    {"return tests 'main' { { 'drop', 'A4', raeds = 9, want = 'fail' } }",
     "t.lua:1: unknown field 'raeds' in case; case 1: did you mean 'reads'?"},
    {"return tests 'main' { { 'drop', 'A4', with = { dorp = 1 }, want = 'missing' } }",
     "t.lua:1: the book 'main' has no step 'dorp'; case 1: did you mean 'drop'?"},
    {"return tests 'main' { { 'drop', 'A4', facts = { amr = 1 }, want = 'missing' } }",
     "t.lua:1: the book has no fact 'amr'; case 1: name one that the book has"},
    {"return tests 'main' { 5 }",
     "t.lua:1: case 1 is a number; write { \"step\", \"A4\", reads = 1, want = \"pass\" }"},
    {"return tests { { 'drop', 'A4', want = 'missing' } }",
     "t.lua:1: tests takes one name; write tests \"book\" { ... }"},
    {"return book { id = 't', api = 1, title = 'T' }",
     "t.lua:1: the file returns a book, not tests; end it with return tests \"book\" { ... }"},
};

static void test_mistakes_in_a_test_file(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof test_mistakes / sizeof *test_mistakes; i++) {
        rule_folder folder;
        char path[300];
        hl_rule_tests *tests;
        hl_err err;
        write_sound(&folder, "");
        write_rule(&folder, "t", test_mistakes[i].snippet);
        snprintf(path, sizeof path, "%s/t.lua", folder.path);
        const char *folders[] = {folder.path};
        const hl_shelf shelf = {.folders = folders, .n_folders = 1};
        hl_rule_tests_open(&tests, path, &shelf, &err);
        assert_null(tests);
        assert_message(&err, test_mistakes[i].snippet, test_mistakes[i].expected);
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
        cmocka_unit_test(test_the_sound_book_is_sound),      cmocka_unit_test(test_mistakes_in_a_step),
        cmocka_unit_test(test_mistakes_in_a_judged_step),    cmocka_unit_test(test_mistakes_in_a_book),
        cmocka_unit_test(test_mistakes_in_a_file),           cmocka_unit_test(test_a_loop_names_both_places),
        cmocka_unit_test(test_a_step_in_two_files),          cmocka_unit_test(test_a_file_under_another_name),
        cmocka_unit_test(test_books_too_deep_in_each_other), cmocka_unit_test(test_formulas_in_a_circle),
        cmocka_unit_test(test_a_link_out_of_the_folders),    cmocka_unit_test(test_a_book_that_is_not_there),
        cmocka_unit_test(test_a_file_that_is_too_long),      cmocka_unit_test(test_mistakes_in_a_test_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
