/* Mistakes that take more than one file, and mistakes in test files.
 *
 * Left is what somebody wrote, right the whole message: file and line, what is wrong, what to do. */
#include "sound_book.h"

static void test_a_loop_names_both_places(void **state)
{
    (void)state;
    rule_folder folder;
    open_folder(&folder);
    write_rule(&folder, "one", "return book { id = 'one', api = 1, title = 'One',\n  use 'two' }\n");
    write_rule(&folder, "two", "return book { id = 'two', api = 1, title = 'Two',\n\n  use 'three' }\n");
    write_rule(&folder, "three",
               "return book { id = 'three', api = 1, title = 'Three',\n\n\n  use 'two' }\n");
    assert_refused(&folder, "one", "a loop",
                   "three.lua:4: use \"two\" makes a loop: two.lua is being put together already; it was "
                   "asked for at one.lua:2; take one of the two out");
    close_folder(&folder);
}

static void test_a_step_in_two_files(void **state)
{
    (void)state;
    rule_folder folder;
    write_sound(&folder, "use 'shops/drop',");
    write_rule(&folder, "shops/drop",
               "\nreturn step { id = 'drop', title = 'D', stage = 'set', unit = 'mm', ask = 'a', why = "
               "'w',\n  resolution = 0.1, target = range(1, 3) }\n");
    assert_refused(&folder, "main", "two files",
                   "shops/drop.lua:2: step 'drop' is defined twice; the first one is at drop.lua:1; rename "
                   "this one, or use change { \"drop\", ... }");
    close_folder(&folder);
}

static void test_a_file_under_another_name(void **state)
{
    (void)state;
    rule_folder folder;
    write_sound(&folder, "use 'dropp',");
    write_rule(&folder, "dropp",
               "return step { id = 'dropping', title = 'D', stage = 'set', unit = 'mm', ask = 'a', why = "
               "'w',\n  resolution = 0.1, target = range(1, 3) }\n");
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
               "'a', why = 'w',\n  resolution = 1, formula = 'blow + two' }\n");
    write_rule(&folder, "two",
               "return step { id = 'two', title = 'Two', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n "
               " resolution = 1, target = range(1, 2), model = 'one - drop' }\n");
    assert_refused(&folder, "main", "a circle",
                   "two.lua:2: formulas go round in a circle: 'two' needs 'one', which needs 'two' itself; "
                   "one of them must be measured without a formula");
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
    assert_refused(&inside, "main", "a link",
                   "main.lua:5: rule file 'secret' is a link that leads out of the rule folders; put the "
                   "file itself there");
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
     "t.lua:3: the book 'main' has no step 'dorp'; did you mean 'drop'?"},
    {"return tests 'main' { { 'drop', 'H4', want = 'missing' } }",
     "t.lua:1: the book has no note 'H4'; write a note such as \"A4\", or \"\" for the instrument"},
    {"return tests 'main' { { 'drop', 'once', want = 'missing' } }",
     "t.lua:1: this step is read at notes: 'drop'; name a note"},
    {"return tests 'main' { { 'drop', 'A4', want = 'perfect' } }",
     "t.lua:1: no verdict is called 'perfect'; want is pass, fail, doubtful, stale, missing or not "
     "applicable"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', why = 'hihg' } }",
     "t.lua:1: no reason is called 'hihg'; why is low, high, uneven, or a fault word of the step"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', fix = { 'scrwe', 'in' } } }",
     "t.lua:1: the book 'main' has no adjuster 'scrwe'; did you mean 'screw'?"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', fix = { 'screw', 'up' } } }",
     "t.lua:1: 'up' is no way of 'screw'; its ways are 'in' and 'out'"},
    {"return tests 'main' { { 'drop', 'A4', reads = 9, want = 'fail', fix = { 'screw', 'in', -1 } } }",
     "t.lua:1: this is no amount of 'screw'; write a positive amount in its unit"},
    {"return tests 'main' { { 'drop', 'A4', raeds = 9, want = 'fail' } }",
     "t.lua:1: unknown field 'raeds' in case; did you mean 'reads'?"},
    {"return tests 'main' { { 'drop', 'A4', with = { dorp = 1 }, want = 'missing' } }",
     "t.lua:1: the book 'main' has no step 'dorp'; did you mean 'drop'?"},
    {"return tests 'main' { { 'drop', 'A4', facts = { amr = 1 }, want = 'missing' } }",
     "t.lua:1: the book has no fact 'amr'; name one that the book has"},
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_loop_names_both_places),  cmocka_unit_test(test_a_step_in_two_files),
        cmocka_unit_test(test_a_file_under_another_name), cmocka_unit_test(test_books_too_deep_in_each_other),
        cmocka_unit_test(test_formulas_in_a_circle),      cmocka_unit_test(test_a_link_out_of_the_folders),
        cmocka_unit_test(test_a_book_that_is_not_there),  cmocka_unit_test(test_a_file_that_is_too_long),
        cmocka_unit_test(test_mistakes_in_a_test_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) + wrong_messages;
}
