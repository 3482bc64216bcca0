/* test_mistakes.c - kinds of mistake in rule files, generated from classes: every field of every word,
 * written wrong in each of the ways in which people write fields wrong, and the message that each must give.
 *
 * MISTAKES=FILE writes the table: what was written, and what was said. */
#include "rule_folder.h"

#include "fields.h"
#include "host.h"

static int n_kinds = 0, n_wrong = 0;
static FILE *table = NULL;

/* How a table of each word is reached; %s is line 2 of the file. */
typedef struct frame {
    const char *word, *file, *text;
} frame;

#define BOOK(entry) "return book { id = 'main', api = 1, title = 'T', " entry " }\n"

static const frame frames[] = {
    {"step", "one", "return step {\n%s\n}\n"},
    {"change", "main", BOOK("use 'one', change { 'one',\n%s\n }")},
    {"book", "main", "return book {\n%s\n}\n"},
    {"stage", "main", BOOK("stage { 'a',\n%s\n}")},
    {"adjuster", "main", BOOK("adjuster { 'a',\n%s\n}")},
    {"skip", "main", BOOK("skip { 'a',\n%s\n}")},
    {"fact", "main", BOOK("fact { 'a',\n%s\n}")},
    {"float", "main", BOOK("float { 'a',\n%s\n}")},
    {"acknowledge", "main", BOOK("acknowledge { 'a', 'b',\n%s\n}")},
    {"choice", "main", BOOK("choice { 'a', 'b',\n%s\n}")},
    {"choose", "main", BOOK("choose { 'a', 'b',\n%s\n}")},
    {"diagnosis", "main", BOOK("diagnosis { 'a',\n%s\n}")},
    {"source", "main", BOOK("source { 'a',\n%s\n}")},
    {"by_colour", "one", "return step { id = 'one', target = by_colour {\n%s\n} }\n"},
    {"fault", "one", "return step { id = 'one', faults = { { 'w',\n%s\n} } }\n"},
    {"cause", "main", BOOK("diagnosis { 'a', causes = { { 'c',\n%s\n} } }")},
    {"move", "main", BOOK("adjuster { 'a', moves = { x = { 1,\n%s\n} } }")},
    {"case", "t_test", "return tests 'main' { { 'drop', 'A4',\n%s\n} }\n"},
};

/* Everything that is said of the files. */
static hl_complaints find_errors(const frame *f, const char *line)
{
    rule_folder folder;
    char text[2000];
    hl_complaints all = {0};
    hl_err err;
    open_folder(&folder);
    snprintf(text, sizeof text, f->text, line);
    write_rule(&folder, f->file, text);
    const bool tests = strcmp(f->file, "t_test") == 0;
    if (strcmp(f->file, "main") != 0)
        write_rule(&folder, "main", BOOK("use 'one'"));
    if (strcmp(f->file, "one") != 0)
        write_rule(&folder, "one",
                   "return step { id = 'one', title = 'One', stage = 's', unit = 'mm', resolution = 1, "
                   "ask = 'a', why = 'w', target = range(1, 2) }\n");
    const char *folders[] = {folder.path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    if (tests) {
        char path[400];
        hl_rule_tests *opened = NULL;
        snprintf(path, sizeof path, "%s/t_test.lua", folder.path);
        assert_int_equal(hl_rule_tests_open_all(&opened, path, &shelf, &all, &err), HL_E_RULE);
        assert_null(opened);
    } else {
        hl_book *book = NULL;
        assert_int_equal(hl_book_open_all(&book, "main", &shelf, &all, &err), HL_E_RULE);
        assert_null(book);
    }
    close_folder(&folder);
    return all;
}

/* One of the errors begins with `what` and has `todo` in its advice, at this line of this file. */
static void expect(const frame *f, const char *line, int at, const char *what, const char *todo)
{
    hl_complaints all = find_errors(f, line);
    char file[100];
    const hl_err *found = NULL;
    snprintf(file, sizeof file, "%s.lua", f->file);
    for (size_t i = 0; i < all.n && found == NULL; i++) {
        const hl_err *one = &all.items[i];
        if (one->line == at && strcmp(one->file, file) == 0 && strncmp(one->what, what, strlen(what)) == 0 &&
            strstr(one->todo, todo) != NULL && (one->todo[0] != '\0' || strstr(one->what, "must be") != NULL))
            found = one;
    }
    n_kinds++;
    if (found == NULL) {
        n_wrong++;
        print_error("%s {\n%s\n  expected %s:%d: %s ...; %s\n", f->word, line, file, at, what, todo);
        for (size_t i = 0; i < all.n; i++)
            print_error("  got      %s:%d: %s; %s\n", all.items[i].file, all.items[i].line, all.items[i].what,
                        all.items[i].todo);
    } else if (table != NULL) {
        fprintf(table, "%s { %s }\t%s:%d: %s; %s\n", f->word, line, found->file, found->line, found->what,
                found->todo);
    }
    hl_complaints_free(&all);
}

static hl_rule_word find_word(const char *name)
{
    for (hl_rule_word word = 0; word < HL_ALL_WORDS; word++)
        if (strcmp(hl__word_name(word), name) == 0)
            return word;
    fail_msg("no word %s", name);
    return HL_ALL_WORDS;
}

/* Calls `each` for every field with a name of every word. */
static void for_each_field(void (*each)(const frame *, const hl_field *))
{
    for (size_t i = 0; i < sizeof frames / sizeof *frames; i++) {
        const hl_rule_word word = find_word(frames[i].word);
        for (int k = 0; k < hl__word_n_fields(word); k++) {
            const hl_field *field = hl__word_field(word, k);
            if (field != NULL && field->name[0] != '[')
                each(&frames[i], field);
        }
    }
}

/* ---- the classes -------------------------------------------------------------------------------- */

/* Two letters swapped. */
static void misspell(const frame *f, const hl_field *field)
{
    char name[40], line[100], what[100], todo[60];
    snprintf(name, sizeof name, "%s", field->name);
    const size_t n = strlen(name);
    for (size_t i = n > 2 ? n - 2 : 0; name[i] != '\0' && name[i + 1] != '\0'; i++) {
        const char c = name[i];
        name[i] = name[i + 1];
        name[i + 1] = c;
        if (strcmp(name, field->name) != 0)
            break;
    }
    if (strcmp(name, field->name) == 0)
        snprintf(name + n, sizeof name - n, "s"); /* all letters alike */
    snprintf(line, sizeof line, "  %s = 1,", name);
    snprintf(what, sizeof what, "unknown field '%s' in %s", name, f->word);
    snprintf(todo, sizeof todo, "did you mean '%s'?", field->name);
    expect(f, line, 2, what, todo);
}

static void give_wrong_type(const frame *f, const hl_field *field)
{
    char line[100], what[100];
    const char *value = "5", *says = "must be";
    switch (field->type) {
    case HL_F_BOOLEAN:
    case HL_F_NUMBER:
        value = "'yes'";
        break;
    case HL_F_WHOLE:
        value = "1.5";
        says = "is not a whole number";
        break;
    case HL_F_QUANTITY:
        value = "true";
        break;
    case HL_F_ENUM:
        value = "'zzzz'";
        says = "cannot be 'zzzz'";
        break;
    default:
        break;
    }
    snprintf(line, sizeof line, "  %s = %s,", field->name, value);
    snprintf(what, sizeof what, "field '%s' of %s %s", field->name, f->word, says);
    expect(f, line, 2, what, "");
}

static void give_empty(const frame *f, const hl_field *field)
{
    char line[100], what[100];
    if (field->type != HL_F_TEXT)
        return;
    snprintf(line, sizeof line, "  %s = '',", field->name);
    snprintf(what, sizeof what, "field '%s' of %s is empty", field->name, f->word);
    expect(f, line, 2, what, "fill it in");
}

static void give_twice(const frame *f, const hl_field *field)
{
    char line[120], what[120];
    snprintf(line, sizeof line, "  %s = 1,\n  %s = 2,", field->name, field->name);
    snprintf(what, sizeof what, "'%s' is given twice in one table, first in line 2", field->name);
    expect(f, line, 3, what, "take one of the two out");
}

static void leave_comma_out(const frame *f, const hl_field *field)
{
    char line[120], what[120];
    snprintf(line, sizeof line, "  zz = 1\n  %s = 2,", field->name);
    snprintf(what, sizeof what, "there is no comma between 1 and %s", field->name);
    expect(f, line, 2, what, "comma");
}

static void write_colon(const frame *f, const hl_field *field)
{
    char line[120], what[120], todo[80];
    snprintf(line, sizeof line, "  %s: 1,", field->name);
    snprintf(what, sizeof what, "the field %s is given with ':'", field->name);
    snprintf(todo, sizeof todo, "write %s = ...", field->name);
    expect(f, line, 2, what, todo);
}

static void quote_name(const frame *f, const hl_field *field)
{
    char line[120], what[120], todo[80];
    snprintf(line, sizeof line, "  \"%s\" = 1,", field->name);
    snprintf(what, sizeof what, "the name of a field is in quotes: \"%s\"", field->name);
    snprintf(todo, sizeof todo, "write %s = ...", field->name);
    expect(f, line, 2, what, todo);
}

static void compare_instead(const frame *f, const hl_field *field)
{
    char line[120], what[120], todo[80];
    const char *const taken[] = {"select", "type", "error", "assert"};
    for (size_t i = 0; i < sizeof taken / sizeof *taken; i++)
        if (strcmp(field->name, taken[i]) == 0)
            return;
    for (int i = 0; hl__host_word(i) != NULL; i++)
        if (strcmp(hl__host_word(i), field->name) == 0)
            return; /* `step` and `use` are words too: their comparison is an item without a name */
    snprintf(line, sizeof line, "  %s == 1,", field->name);
    snprintf(what, sizeof what, "'%s' is not defined here", field->name);
    snprintf(todo, sizeof todo, "%s = ...", field->name);
    expect(f, line, 2, what, todo);
}

static void every_field_in_every_class(void **state)
{
    (void)state;
    for_each_field(misspell);
    for_each_field(give_wrong_type);
    for_each_field(give_empty);
    for_each_field(give_twice);
    for_each_field(leave_comma_out);
    for_each_field(write_colon);
    for_each_field(quote_name);
    for_each_field(compare_instead);
    assert_int_equal(n_wrong, 0);
}

static void every_word_misspelt(void **state)
{
    (void)state;
    static const frame f = {"", "main", "local x =\n%s\nreturn x\n"};
    for (int i = 0; hl__host_word(i) != NULL; i++) {
        char line[100], what[100], todo[60];
        const char *word = hl__host_word(i);
        /* the first letter doubled: every_field... swaps */
        snprintf(line, sizeof line, "  %c%s { 'a' }", word[0], word);
        snprintf(what, sizeof what, "'%c%s' is not defined here", word[0], word);
        snprintf(todo, sizeof todo, "did you mean '%s'?", word);
        expect(&f, line, 2, what, todo);
    }
    assert_int_equal(n_wrong, 0);
}

/* ---- slips of the pen --------------------------------------------------------------------------- */

static void slips(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        int at;
        const char *what, *todo;
    } pens[] = {
        {"  title = \xE2\x80\x9C"
         "Drop\xE2\x80\x9D,",
         2, "a curly quote", "straight quotes"},
        {"  title = \xE2\x80\x98"
         "Drop\xE2\x80\x99,",
         2, "a curly quote", "straight quotes"},
        {"  title = \xC2\xAB"
         "Drop\xC2\xBB,",
         2, "a curly quote", "straight quotes"},
        {"  title\xC2\xA0= 'Drop',", 2, "a blank of another kind (U+00A0)", "take it out"},
        {"  title = 'Drop', \xC3\xA9", 2, "the character \xC3\xA9 can't be used outside of quotes", "text"},
        {"  # a comment\n  title = 'Drop',", 2, "'#' begins no comment", "-- like this"},
        {"  title = 'Drop', # a comment", 2, "'#' begins no comment", "-- like this"},
        {"  title = 'Drop', // a comment", 2, "'//' begins no comment", "-- like this"},
        {"  // a comment\n  title = 'Drop',", 2, "'//' begins no comment", "-- like this"},
        {"  /* a comment */ title = 'Drop',", 2, "'/*' begins no comment", "-- like this"},
        {"  title = 'Drop' // a comment", 2, "'//' begins no comment", "-- like this"},
        {"  target = range(\"1/16\"\", 2),", 2, "the text \"1/16\" is followed by another quote", "1/16 in"},
        {"  title = 'it's off',", 2, "the text 'it' ends before s", "the other quotes"},
        {"  title = \"the \"good\" one\",", 2, "the text \"the \" ends before good", "the other quotes"},
        {"  title = 'Drop,\n  unit = 'mm',", 2, "the text that begins with 'Drop,",
         "close it on the same line"},
        {"  target = range(1, 2,\n  title = 'x',", 2, "the bracket of range( is not closed before title",
         "add )"},
        {"  fix = { 'a' 'b' },", 2, "there is no comma between 'a' and 'b'", "comma"},
        {"  faults = { { 'a', todo = 'x' } { 'b', todo = 'y' } },", 2, "there is no comma between } and {",
         "comma"},
        {"  target = range(1, 2)\n  title = 'x',", 2, "there is no comma between ) and title", "comma"},
        {"  breaks = true\n  title = 'x',", 2, "there is no comma between true and title", "comma"},
        {"  title = 'x' unit = 'mm',", 2, "there is no comma between 'x' and unit", "comma"},
        {"  fix = { let_off_button },", 2, "'let_off_button' is not defined here",
         "in quotes: \"let_off_button\""},
        {"  resolution = 0,5,", 2, "item 1 of step has no name and no meaning", "point: 0.5"},
        {"  target = range(0,5, 1,5),", 2, "range was given 4 values", "point: 0.5"},
        {"  id = 'Let-off',", 2, "'Let-off' is not a name", "write it as 'let_off'"},
        {"  id = 'Key Dip (mm)',", 2, "'Key Dip (mm)' is not a name", "write it as 'key_dip_mm'"},
        {"  id = '3rd drop',", 2, "'3rd drop' is not a name", "beginning with a letter"},
        {"  fix = { 'Let-off button' },", 2, "'Let-off button' is not a name",
         "write it as 'let_off_button'"},
        {"  breaks = True,", 2, "'True' is not defined here", "write true"},
        {"  breaks = False,", 2, "'False' is not defined here", "write false"},
        {"  even = None,", 2, "'None' is not defined here", "leave the field out"},
        {"  even = null,", 2, "'null' is not defined here", "leave the field out"},
        {"  title = _ENV,", 2, "_ENV is not offered", "rule files compute"},
        {"  breaks = 1 != 2,", 2, "'!' means nothing", "~="},
        {"  target = range(1 | 2, 3),", 2, "the operator | is refused", "use and, or"},
        {"  target = Range(1, 2),", 2, "'Range' is not defined here", "did you mean 'range'?"},
        {"  target = range{1, 2},", 2, "range was given 1 values", "write range(low, high)"},
        {"  target = range(2, 1),", 2, "range(2.0, 1.0) is upside down", "low end"},
        {"  target = 'range(1, 2)',", 2, "field 'target' of step must be range", ""},
        {"  target = { 1, 2 },", 2, "field 'target' of step must be range", ""},
        {"  target = function(note) return range(1, 2),", 2, "", ""},
        {"  title = 'x', },\n  {", 2, "", ""},
    };
    const frame *step = &frames[0];
    for (size_t i = 0; i < sizeof pens / sizeof *pens; i++)
        if (pens[i].what[0] != '\0')
            expect(step, pens[i].line, pens[i].at, pens[i].what, pens[i].todo);
    static const frame whole = {"", "main", "return book { id = 'main', api = 1, title = 'T',\n%s\n"};
    expect(&whole, "change { 'one', title = 'x',\nskip { 'two', why = 'w' } }", 2,
           "change is not closed before skip in line 3", "add }");
    expect(&whole, "  stage { 'a', title = 'A' },", 1, "book is not closed at the end of the file", "add }");
    expect(&whole, "  stage { 'a', title = 'A' }\n  use 'one' }", 2, "there is no comma between } and use",
           "comma");
    expect(&whole, "  use 'one'\n  use 'two' }", 2, "there is no comma between 'one' and use", "comma");
    assert_int_equal(n_wrong, 0);
}

/* ---- all of them in one run --------------------------------------------------------------------- */

static void all_errors_of_a_file_at_once(void **state)
{
    (void)state;
    hl_complaints all = find_errors(&frames[0], "  id = 'one', titel = 'x', title = 5,\n"
                                                "  stage = 's',\n"
                                                "  unit = 'mn',\n"
                                                "  resolution = {},\n"
                                                "  target = range(2, 1),\n"
                                                "  ask = '',");
    static const char *const expected[] = {
        "2 unknown field 'titel' in step",
        "2 field 'title' of step must be a text, not a number",
        "4 field 'unit' of step cannot be 'mn'",
        "5 field 'resolution' of step must be a number, or a text with a unit, not an empty table",
        "6 range(2.0, 1.0) is upside down",
        "7 field 'ask' of step is empty",
    };
    /* Of the whole table there is one more: `why` is missing; in line 1, which comes first. */
    assert_int_equal(all.n, sizeof expected / sizeof *expected + 1);
    assert_string_equal(all.items[0].what, "step has no 'why'");
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        char got[400];
        snprintf(got, sizeof got, "%d %s", all.items[i + 1].line, all.items[i + 1].what);
        assert_string_equal(got, expected[i]);
    }
    hl_complaints_free(&all);
}

/* Two files with errors, and entries that only follow from them, which are not reported. */
static void what_follows_is_left_out(void **state)
{
    (void)state;
    rule_folder folder;
    hl_complaints all = {0};
    hl_book *book = NULL;
    hl_err err;
    open_folder(&folder);
    write_rule(
        &folder, "main",
        "return book { id = 'main', api = 1, title = 'T', stage { 's', title = 'S' }, use 'one', use 'two',\n"
        "  change { 'one', target = range(1, 2) },\n"
        "  skip { 'two', why = 'w' },\n"
        "  change { 'one', tagret = range(1, 2) },\n"
        "  adjuster { 'x', title = 'x', more = 5, less = 'out' },\n"
        "  adjuster { 'x', why = 'over the one above' } }\n");
    write_rule(&folder, "one", "return step { id = 'one', title = 5 }\n");
    write_rule(&folder, "two", "return step { id = 'two', title = 'Two' ask = 'a' }\n");
    assert_int_equal(open_book(&folder, "main", &book, &err), HL_E_RULE);
    assert_int_equal(err.line, 4); /* one alone: as the files are read */
    const char *folders[] = {folder.path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    assert_int_equal(hl_book_open_all(&book, "main", &shelf, &all, &err), HL_E_RULE);
    close_folder(&folder);
    assert_null(book);
    for (size_t i = 0; i < all.n; i++) {
        const char *file = all.items[i].file;
        const int line = all.items[i].line;
        const bool known = (strcmp(file, "main.lua") == 0 && (line == 4 || line == 5)) ||
                           (strcmp(file, "one.lua") == 0 && line == 1) ||
                           (strcmp(file, "two.lua") == 0 && line == 1);
        if (!known)
            print_error("%s:%d: %s\n", file, line, all.items[i].what);
        assert_true(known);
    }
    assert_true(all.n >= 4);
    hl_complaints_free(&all);
}

/* Errors that show only when the book is put together, all of them. */
static void all_errors_of_a_book_at_once(void **state)
{
    (void)state;
    rule_folder folder;
    hl_complaints all = {0};
    hl_book *book = NULL;
    hl_err err;
    open_folder(&folder);
    write_rule(&folder, "main",
               "return book { id = 'main', api = 1, title = 'T', stage { 's', title = 'S' }, use 'one',\n"
               "  skip { 'nine', why = 'w' },\n"
               "  change { 'nine', title = 'x' },\n"
               "  adjuster { 'x', title = 'x', unit = 'turn', more = 'in', less = 'out', finest = 1,\n"
               "    moves = { one = 1,\n"
               "      nine = 1,\n"
               "      ten = 2 } },\n"
               "  diagnosis { 'd', title = 'D', causes = { { 'c', todo = 't' } },\n"
               "    when = 'nine > 1' } }\n");
    write_rule(&folder, "one",
               "return step { id = 'one', title = 'One', stage = 's', unit = 'mm', resolution = 1, ask = "
               "'a', why = 'w',\n"
               "  fix = { 'y' }, target = range(1, 2) }\n");
    const char *folders[] = {folder.path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    assert_int_equal(hl_book_open_all(&book, "main", &shelf, &all, &err), HL_E_RULE);
    close_folder(&folder);
    static const int lines[] = {2, 3};
    assert_int_equal(all.n, 2); /* what refers to others is looked at once these are right */
    for (size_t i = 0; i < all.n; i++)
        assert_int_equal(all.items[i].line, lines[i]);
    hl_complaints_free(&all);
}

static void many_errors_end(void **state)
{
    (void)state;
    hl_complaints all =
        find_errors(&frames[2], "  id = 'main', api = 1, title = (function () for i = 1, 100000 do "
                                "range(i, 0) end return 'x' end)(),");
    /* all of one line and one kind are one error a number */
    assert_true(all.n >= 1 && all.n <= HL_BOOK_ERRORS_MOST + 1);
    hl_complaints_free(&all);
}

static int open_table(void **state)
{
    (void)state;
    const char *path = getenv("MISTAKES");
    table = path != NULL ? fopen(path, "w") : NULL;
    return 0;
}

static int count_kinds(void **state)
{
    (void)state;
    print_message("%d kinds of mistake\n", n_kinds);
    if (table != NULL)
        fclose(table);
    return n_kinds >= 200 ? 0 : 1;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_field_in_every_class),
        cmocka_unit_test(every_word_misspelt),
        cmocka_unit_test(slips),
        cmocka_unit_test(all_errors_of_a_file_at_once),
        cmocka_unit_test(what_follows_is_left_out),
        cmocka_unit_test(all_errors_of_a_book_at_once),
        cmocka_unit_test(many_errors_end),
    };
    return cmocka_run_group_tests(tests, open_table, count_kinds);
}
