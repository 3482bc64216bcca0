/* Schools: a choice, a book that chooses, and steps that go by it.
 *
 * All targets are invented for the test; they say nothing about pianos.  Expected values are
 * arithmetic on them; 1 in = 25.4 mm (international inch, 1959). */
#include "opened_book.h"

#include "book.h"
#include "sound_book.h"

static const char line_step[] =
    "return step { id = 'line', title = 'Line', stage = 'set', unit = 'mm', resolution = 0.1, why = 'w',\n  "
    "ask = by_choice { 'key_line', straight = 'Lay it.', crowned = 'Raise it.' },\n  target = by_choice { "
    "'key_line', straight = range(1, 3),\n    crowned = function(note) return range(note.number, note.number "
    "+ 2) end },\n  model = by_choice { 'key_line', straight = '2 * arm', crowned = '3 * arm' } }\n";
static const char pedal_step[] =
    "return step { id = 'pedal', title = 'Pedal', stage = 'set', kind = 'judged', ask = 'a',\n  why = "
    "by_choice { 'lift', equal = 'Alike.', less = 'A hair.' },\n  faults = by_choice { 'lift', equal = { { "
    "'far', todo = 'Lower.' } },\n    less = { { 'far', todo = 'Lower.' }, { 'short', todo = 'Raise.' } } } "
    "}\n";
static const char base_book[] =
    "return book { id = 'base', api = 1, title = 'Base', stage { 'set', title = 'Set' },\n  choice { "
    "'key_line', 'straight', title = 'The key line is', source = 'invented',\n    options = { straight = "
    "'straight', crowned = 'crowned' } },\n  choice { 'lift', 'equal', title = 'Pedal', options = { less = "
    "'lifts less', equal = 'lifts alike' } },\n  fact { 'arm', title = 'arm', unit = 'mm', value = 1 },\n  "
    "use 'line', use 'pedal',\n}\n";

static void write_base(rule_folder *folder)
{
    open_folder(folder);
    write_rule(folder, "line", line_step);
    write_rule(folder, "pedal", pedal_step);
    write_rule(folder, "base", base_book);
}

static const hl_chosen *choice_of(const hl_book *book, const char *id)
{
    for (int i = 0; i < hl_book_n_choices(book); i++) {
        if (strcmp(hl_book_choice(book, i)->id, id) == 0)
            return hl_book_choice(book, i);
    }
    fail_msg("no choice %s", id);
    return NULL;
}

static const char *option_of(const hl_book *book, const char *id)
{
    const hl_chosen *choice = choice_of(book, id);
    return choice->options[choice->option].name;
}

static void test_the_default_holds(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    hl_book *book = open_or_fail(&folder, "base");
    const hl_step *line = step_of(book, "line"), *pedal = step_of(book, "pedal");
    assert_int_equal(hl_book_n_choices(book), 2);
    const hl_chosen *key_line = choice_of(book, "key_line");
    assert_string_equal(option_of(book, "key_line"), "straight");
    assert_string_equal(key_line->title, "The key line is");
    assert_string_equal(key_line->options[key_line->option].text, "straight");
    assert_string_equal(key_line->source, "invented");
    assert_int_equal(key_line->n_options, 2);
    assert_int_equal(key_line->uses, 3); /* ask, target, model */
    assert_int_equal(key_line->n_changes, 0);
    assert_int_equal(key_line->origin.line, 2);
    assert_target(line, C4, 1, 2, 3);
    assert_string_equal(line->ask, "Lay it.");
    assert_true(hl__formula_value(line->formula, (double[]){1}) == 2);
    assert_int_equal(line->n_changes, 0);
    assert_string_equal(pedal->why, "Alike.");
    assert_int_equal(pedal->n_words, 1);
    close_folder(&folder);
    hl_book_free(book);
}

static void test_a_shop_chooses_and_the_last_one_wins(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    write_rule(&folder, "shop",
               "return book { id = 'shop', api = 1, title = 'Shop', use 'base',\n  choose { 'lift', 'less' "
               "},\n  choose { 'key_line', 'crowned', why = 'house habit' },\n}\n");
    write_rule(
        &folder, "back",
        "return book { id = 'back', api = 1, title = 'Back', use 'shop', choose { 'lift', 'equal' } }");
    hl_book *book = open_or_fail(&folder, "shop");
    const hl_step *line = step_of(book, "line"), *pedal = step_of(book, "pedal");
    assert_string_equal(option_of(book, "key_line"), "crowned");
    assert_target(line, C4, 40, 41, 42); /* C4 is note 40 of 88: a function of the note */
    assert_string_equal(line->ask, "Raise it.");
    assert_true(hl__formula_value(line->formula, (double[]){1}) == 3);
    assert_string_equal(pedal->why, "A hair.");
    assert_int_equal(pedal->n_words, 2);
    assert_string_equal(pedal->words[1].todo, "Raise.");
    /* what was chosen is traced to the line that chose it, in the choice and in each field */
    assert_int_equal(choice_of(book, "key_line")->n_changes, 1);
    assert_int_equal(line->n_changes, 3);
    assert_string_equal(line->changes[0].field, "target");
    assert_string_equal(line->changes[0].why, "house habit");
    assert_string_equal(line->changes[0].origin.file, "shop.lua");
    assert_int_equal(line->changes[0].origin.line, 3);
    hl_book_free(book);
    book = open_or_fail(&folder, "back");
    assert_string_equal(option_of(book, "lift"), "equal");
    assert_string_equal(option_of(book, "key_line"), "crowned");
    assert_int_equal(choice_of(book, "lift")->n_changes, 2);
    close_folder(&folder);
    hl_book_free(book);
}

static void test_a_change_may_bring_or_end_a_choice(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    write_rule(
        &folder, "shop",
        "return book { id = 'shop', api = 1, title = 'Shop', use 'base',\n  choose { 'lift', 'less' },\n  "
        "change { 'line', ask = 'Look.', model = '4 * arm', unit = 'in',\n    target = by_choice { 'lift', "
        "equal = range(1, 2), less = range(2, 4) } },\n  skip { 'pedal', why = 'none' },\n}\n");
    hl_book *book = open_or_fail(&folder, "shop");
    const hl_step *line = step_of(book, "line");
    assert_target(line, C4, 50.8, 76.2, 101.6); /* 2, 3 and 4 in: the unit that the change gives */
    assert_string_equal(line->ask, "Look.");
    assert_int_equal(choice_of(book, "key_line")->uses, 0); /* all three fields are the shop's own now */
    assert_int_equal(choice_of(book, "lift")->uses, 1);     /* a step that is left out does not count */
    hl_book_free(book);
    write_rule(&folder, "idle",
               "return book { id = 'idle', api = 1, title = 'Idle', use 'shop',\n  choose { 'key_line', "
               "'crowned' } }\n");
    book = open_or_fail(&folder, "idle");
    hl_complaints complaints = {0};
    hl_err err;
    assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
    bool told = false;
    for (size_t i = 0; i < complaints.n; i++)
        told = told || strcmp(complaints.items[i].what,
                              "key_line is chosen, and no step of this book goes by it") == 0;
    assert_true(told); /* a choice that decides nothing is not passed over in silence */
    hl_complaints_free(&complaints);
    close_folder(&folder);
    hl_book_free(book);
}

static const mistake mistakes[] = {
    {"choose { 'key_lien', 'crowned' },",
     "main.lua:5: choose: there is no choice 'key_lien' in the book so far; did you mean 'key_line'?"},
    {"choose { 'zzz', 'crowned' },", "main.lua:5: choose: there is no choice 'zzz' in the book so far; "
                                     "choose comes after the use that brings the choice"},
    {"choose { 'key_line', 'crownde' },",
     "main.lua:5: choose: 'crownde' is no option of 'key_line'; did you mean 'crowned'?"},
    {"choose { 'key_line', 'zzz' },",
     "main.lua:5: choose: 'zzz' is no option of 'key_line'; its options are at main.lua:5: 'crowned' is one"},
    {"choose { 'key_line' },", "main.lua:5: choose has no item 2: one of its options"},
    {"choose { 'key_line', 'crowned', hwy = 'x' },",
     "main.lua:5: unknown field 'hwy' in choose; did you mean 'why'?"},
    {"choice { 'key_line', 'a', title = 'T', options = { a = 'x', b = 'y' } },",
     "main.lua:5: choice 'key_line' is declared twice; the first one is at main.lua:5; to take another "
     "option, write choose { \"key_line\", ... }"},
    {"choice { 'other', 'c', title = 'T', options = { a = 'x', b = 'y' } },",
     "main.lua:5: choice: 'c' is no option of 'other'; its options are at main.lua:5: 'a' is one"},
    {"choice { 'other', 'a', title = 'T', options = { a = 'x' } },",
     "main.lua:5: field 'options' of choice must be a table of two or more { option = \"text\", ... }, not a "
     "table of another shape"},
    {"choice { 'other', 'a', title = 'T', options = { a = 'x', B = 'y' } },",
     "main.lua:5: 'B' is not a name; write it as 'b': small letters, digits and _"},
    {"choice { 'other', 'a', title = 'T', options = { a = 'x', b = '' } },",
     "main.lua:5: field 'b' of choice is empty; fill it in, or take it out"},
    {"choice { 'other', 'a', options = { a = 'x', b = 'y' } },",
     "main.lua:5: choice has no 'title'; add it: how the audit's sentence begins"},
    {"change { 'drop', target = by_choice { 'key_lnie', straight = range(1, 2), crowned = range(2, 3) } },",
     "main.lua:5: by_choice: there is no choice 'key_lnie' in the book; did you mean 'key_line'?"},
    {"change { 'drop', target = by_choice { 'key_line', straihgt = range(1, 2), crowned = range(2, 3) } },",
     "main.lua:5: by_choice: 'straihgt' is no option of 'key_line'; did you mean 'straight'?"},
    {"change { 'drop', target = by_choice { 'key_line', crowned = range(2, 3) } },",
     "main.lua:5: by_choice: nothing is said for the option 'straight' of 'key_line'; add straight = ..."},
    {"change { 'drop', target = by_choice { 'key_line', straight = 5, crowned = range(2, 3) } },",
     "main.lua:5: field 'target' of change must be range, at_least, at_most, about, by_colour, zones, graded "
     "or a function, not a number"},
    {"change { 'drop', ask = by_choice { 'key_line', straight = 'a', crowned = range(2, 3) } },",
     "main.lua:5: field 'ask' of change must be a text, not range"},
    {"change { 'drop', ask = by_choice { 'key_line', straight = 'a', crowned = by_choice { 'key_line', "
     "straight = 'a', crowned = 'b' } } },",
     "main.lua:5: field 'ask' of change must be one choice, not one inside another, not by_choice"},
    {"change { 'drop', resolution = by_choice { 'key_line', straight = 1, crowned = 2 } },",
     "main.lua:5: field 'resolution' of change must be a number, or a text with a unit, not by_choice"},
    {"change { 'drop', why = by_choice { 'key_line', straight = 'a', crowned = 'b' }, even = 1 },",
     "main.lua:5: field 'why' of change must be a text, not by_choice"},
    {"change { 'drop', target = by_choice { straight = range(1, 2) } },",
     "main.lua:5: by_choice takes the choice's name, then a value for each option; write by_choice { "
     "\"choice\", option = ..., other = ... }"},
    {"change { 'drop', target = by_choice { 'key_line' } },",
     "main.lua:5: by_choice takes the choice's name, then a value for each option; write by_choice { "
     "\"choice\", option = ..., other = ... }"},
    {"change { 'drop', target = by_choice('key_line') },",
     "main.lua:5: by_choice takes one table; write by_choice { \"choice\", option = ..., other = ... }"},
    {"by_choice { 'key_line', straight = 1, crowned = 2 },",
     "main.lua:1: item 9 of book is by_choice; a book's list holds use, stage, change, adjuster, skip, fact, "
     "float, acknowledge, choice, choose, diagnosis, source and renamed"},
    {"\n  change { 'drop', target = by_choice { 'key_line', straight = range(1, 2),\n    crowned = "
     "function(note) return 5 end } },",
     "main.lua:7: the target function gave a number, asked for A0; return range, at_least, at_most or about"},
};

static void test_mistakes(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof mistakes / sizeof *mistakes; i++) {
        rule_folder folder;
        char entries[700];
        snprintf(entries, sizeof entries,
                 "choice { 'key_line', 'straight', title = 'Line', options = { straight = 's', crowned = 'c' "
                 "} }, %s",
                 mistakes[i].snippet);
        write_sound(&folder, entries);
        assert_refused(&folder, "main", mistakes[i].snippet, mistakes[i].expected);
        close_folder(&folder);
    }
}

static void test_a_stray_by_choice(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    write_rule(&folder, "stray",
               "local t = by_choice { 'key_line', straight = range(1, 2), crowned = range(1, 2) }\nreturn "
               "book { id = 'stray', api = 1, title = 'Stray', use 'base' }\n");
    assert_refused(&folder, "stray", "a by_choice that no field is given",
                   "stray.lua:1: this by_choice is in no step or change and would have no effect; give it to "
                   "a field: target = by_choice { ... }");
    close_folder(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_default_holds),
        cmocka_unit_test(test_a_shop_chooses_and_the_last_one_wins),
        cmocka_unit_test(test_a_change_may_bring_or_end_a_choice),
        cmocka_unit_test(test_mistakes),
        cmocka_unit_test(test_a_stray_by_choice),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) + wrong_messages;
}
