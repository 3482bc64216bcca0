/* Mistakes in a book.
 *
 * Left is what somebody wrote, right the whole message: file and line, what is wrong, what to do. */
#include "sound_book.h"

/* Entries of a book, in line 5 of main.lua. */
static const mistake book_mistakes[] = {
    {"stage { 'set', caution = 'Mind the strings.' }, stage { 'set', caution = false },",
     "main.lua:5: the caution of 'set' is taken away without a reason: Mind the strings.; give why = ...; it "
     "is printed where the caution was"},
    {"change { 'drop', caution = 'Lead.' }, change { 'drop', caution = false, title = 'x' },",
     "main.lua:5: the caution of 'drop' is taken away without a reason: Lead.; give why = ...; it is printed "
     "where the caution was"},
    {"change { 'drop', caution = false, why = 'none' },",
     "main.lua:5: 'drop' has no caution, so there is nothing to take away; take out caution = false"},
    {"change { 'drop', caution = '' },",
     "main.lua:5: field 'caution' of change is empty; fill it in, or take it out"},
    {"change { 'drop', caution = true },",
     "main.lua:5: field 'caution' of change must be a text, or false, not true or false"},
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
    {"change { 'drop', pair = 'touch' },", "main.lua:5: step 'drop' is a pair with 'touch', and they differ "
                                           "in kind; both must be measured, in mm or in g"},
    {"use 'third', change { 'drop', pair = 'blow' }, change { 'third', pair = 'blow' },",
     "main.lua:5: step 'third' is a pair with 'blow', and one of them has another partner; a step has one "
     "partner; take the other `pair` out"},
    {"change { 'drop', formula = 'blow' },",
     "main.lua:5: step 'drop' is measured and takes no 'formula'; take the field out"},
    {"change { 'drop', target = graded { { 'A0', range(1, 2) }, { 'D8', range(2, 3) } } },",
     "main.lua:5: the target of 'drop' names D8, and the book's compass is A0-C8; name a note inside it, or "
     "widen the book's compass"},
    {"change { 'drop', target = by_colour { naturals = zones { { 'G0-C4', range(1, 2) }, { 'C#4-C8', "
     "range(2, 3) } }, sharps = range(1, 2) } },",
     "main.lua:5: the target of 'drop' names G0, and the book's compass is A0-C8; name a note inside it, or "
     "widen the book's compass"},
    {"change { 'drop', target = graded { { 'A0', range(1, 2) }, { 'C9', range(2, 3) } } },",
     "main.lua:5: graded: 'C9' is no note; write a note from C0 to B8: \"A0\""},
    {"change { target = range(1, 2) },", "main.lua:5: change has no item 1: the step to change"},
    {"change { 'drop', 5 },", "main.lua:5: item 2 of change has no name and no meaning; give it a name, or "
                              "take it out; decimals are written with a point: 0.5"},
    {"\n  change { 'drop', target = range('2 in', '1 in') },",
     "main.lua:6: the target of 'drop' is upside down; the low end comes first"},
    {"skip { 'dorp', why = 'x' },",
     "main.lua:5: skip: there is no step 'dorp' in the book so far; did you mean 'drop'?"},
    {"\n  skip { 'blow', why = 'x' },",
     "main.lua:6: skip of 'blow': 'derived' is computed from it; skip 'derived' too, or keep this one"},
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
    {"adjuster { 'screw', moves = { touch = 'up' } },",
     "main.lua:5: adjuster 'screw' moves 'touch' up or down, but that step is judged; write \"strong\" or "
     "\"slight\""},
    {"adjuster { 'screw', moves = { drop = true } },",
     "main.lua:5: field 'drop' of adjuster must be a number, a formula, \"up\", \"down\", \"strong\", "
     "\"slight\" or false, not true or false"},
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
    {"adjuster { 'screw', moves = { 1 } },", "main.lua:5: field 'moves' of adjuster must be a table { step = "
                                             "amount, ... }, not a table of another shape"},
    {"adjuster { 'screw', unit = 'mm' },", "main.lua:5: adjuster 'screw' changes a unit, from turn to mm; "
                                           "formulas count on the unit it had at main.lua:3"},
    {"adjuster { 'drop', title = 'x', more = 'a', less = 'b' },",
     "main.lua:5: adjuster 'drop' has the name of a step; that one is at drop.lua:1; rename one of the two"},
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
     "main.lua:5: adjuster 'new' goes by judgement and cannot move 'drop' by an amount; write \"up\", "
     "\"down\", \"strong\" or \"slight\", or give it a unit"},
    {"adjuster { 'new', title = 'x', more = 'a', less = 'b', unit = 'turn', sizes = { 0 } },",
     "main.lua:5: field 'sizes' must be above zero; write how much, such as 0.1"},
    {"adjuster { 'Screw', title = 'x', more = 'a', less = 'b' },",
     "main.lua:5: 'Screw' is not a name; write it as 'screw': small letters, digits and _"},
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
     "main.lua:5: fact 'drop' has the name of a step; that one is at drop.lua:1; rename one of the two"},
    {"stage { 'end' },",
     "main.lua:5: stage 'end' is not in the book so far, and a new one must have 'title'; name for people"},
    {"float { 'dorp', within = 1 },",
     "main.lua:5: float: there is no step 'dorp' in the book; did you mean 'drop'?"},
    {"float { 'touch', within = 1 },", "main.lua:5: float: 'touch' is not measured; name a measured step"},
    {"float { 'drop', within = -1 },",
     "main.lua:5: field 'within' must be above zero; write how much, such as 0.1"},
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
     "main.lua:5: field 'causes' of diagnosis must be a list of tables { \"word\", ... }, not an empty "
     "table"},
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
    {"use 'main',",
     "main.lua:5: use \"main\" makes a loop: main.lua is being put together already; this file is itself "
     "named main; to build on the book of that name, give yours another name and id"},
    {"use(5),", "main.lua:5: use takes one name; write use \"name\""},
    {"5,", "main.lua:1: item 8 of book is a number; a book's list holds use, stage, change, adjuster, skip, "
           "fact, float, acknowledge, choice, choose, diagnosis, source and renamed"},
    {"range(1, 2),", "main.lua:1: item 8 of book is range; a book's list holds use, stage, change, adjuster, "
                     "skip, fact, float, acknowledge, choice, choose, diagnosis, source and renamed"},
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
     "drop.lua:2: drop: there is no adjuster 'screw' in the book; add it to the book, or take the name out"},
    {"return book { id = 'main', api = 1, title = 'x', stage { 'set', title = 'S' }, use 'touch',\n  use "
     "'derived' }",
     "derived.lua:2: formula \"blow - drop\", at 1: 'blow' is not known here; name a step or a fact of the "
     "book"},
    {"return book { id = 'main', api = 1 title = 'x' }",
     "main.lua:1: there is no comma between 1 and title; end each field and each entry of a list with a "
     "comma"},
    {"return book { id = 'main', api = 1, title = 'x'",
     "main.lua:1: book is not closed at the end of the file; add } behind its last field"},
    {"total = 1\nreturn book { id = 'main', api = 1, title = 'x' }",
     "main.lua:1: 'total' is not a local name; write 'local total = ...'"},
    {"local s = skip { 'drop', why = 'x' }\nreturn book { id = 'main', api = 1, title = 'x', use 'touch' }",
     "main.lua:1: this skip is in no book and would have no effect; put it into the list of the book that "
     "the file returns"},
    {"local s = skip { 'drop', why = 'x' }\nreturn book { id = 'main', api = 1, title = 'x', s, s }",
     "main.lua:2: item 2 of book (skip) is in a book already; write it once"},
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_mistakes_in_a_book),
        cmocka_unit_test(test_mistakes_in_a_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) + wrong_messages;
}
