/* test_sources.c - the register of sources: what a book may cite, what is complained of, what is shown.
 *
 * All entries here are invented; what is wanted of them is our own choice. */
#include "rule_folder.h"

#include "source.h"

#define STEP                                                                                                 \
    "return step { id = 'reach', title = 'Reach', unit = 'mm', resolution = .1, stage = 'one', target = "    \
    "range(1, 3),\n"                                                                                         \
    "  ask = 'Read it.', why = 'It matters.', source = '%s' }\n"
#define BOOK                                                                                                 \
    "return book { id = 'one_step', api = 1, title = 'One step', stage { 'one', title = 'One' },\n"          \
    "  source { 'page-2001-reach', kind = 'page', archive = 'a page', subject = 'reach', date = '2001' },\n" \
    "  source { 'geometry', kind = 'geometry', subject = 'geometry of the levers' },\n"                      \
    "%s  use 'reach' }\n"

static hl_book *open_citing(rule_folder *folder, const char *source, const char *entries, hl_err *err)
{
    static const char *folders[1];
    char text[1000];
    hl_book *book = NULL;
    open_folder(folder);
    snprintf(text, sizeof text, STEP, source);
    write_rule(folder, "reach", text);
    snprintf(text, sizeof text, BOOK, entries);
    write_rule(folder, "one_step", text);
    folders[0] = folder->path;
    if (hl_book_open(&book, "one_step", &(hl_shelf){.folders = folders, .n_folders = 1}, err) != HL_OK)
        print_message("%s:%d: %s\n", err->file, err->line, err->what);
    return book;
}

static void an_unknown_key_is_complained_of(void **state)
{
    (void)state;
    static const struct {
        const char *source, *complaint;
    } cases[] = {
        {"page-2001-reach", ""},
        {"page-2001-reach: 2 mm; geometry", ""},
        {"our own bench, 2020", ""}, /* a shop's own words */
        {"memory", ""},              /* one word is a word */
        {"geometry: 1-2; our-bench, twice", ""},
        {"page-2001-reech: 2 mm",
         "reach cites 'page-2001-reech', and the register has no such source; did you "
         "mean 'page-2001-reach'?"},
        {"geometry; our-bench", "reach cites 'our-bench', and the register has no such source; add source { "
                                "\"our-bench\", ... }, or write it in words"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        rule_folder folder;
        hl_err err = {0};
        hl_complaints complaints = {0};
        char got[sizeof complaints.items->what + sizeof complaints.items->todo + 4] = "";
        hl_book *book = open_citing(&folder, cases[i].source, "", &err);
        assert_non_null(book);
        assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
        assert_true(complaints.n <= 1);
        if (complaints.n == 1)
            snprintf(got, sizeof got, "%s; %s", complaints.items[0].what, complaints.items[0].todo);
        assert_string_equal(got, cases[i].complaint);
        assert_true(complaints.n == 0 || strcmp(complaints.items[0].file, "reach.lua") == 0);
        hl_complaints_free(&complaints);
        hl_book_free(book);
        close_folder(&folder);
    }
}

/* A test's case cites sources as a rule does. */
static void a_case_with_an_unknown_key_is_complained_of(void **state)
{
    (void)state;
    rule_folder folder;
    hl_err err = {0};
    hl_complaints complaints = {0};
    hl_rule_tests *tests = NULL;
    char path[300];
    hl_book *book = open_citing(&folder, "geometry", "", &err);
    assert_non_null(book);
    write_rule(&folder, "one_step_test",
               "return tests 'one_step' {\n"
               "  { 'reach', 'A4', reads = 2, want = 'pass', source = 'page-2001-reach' },\n"
               "  { 'reach', 'A4', reads = 2, want = 'pass', source = 'page-2002-reach' },\n}\n");
    snprintf(path, sizeof path, "%s/one_step_test.lua", folder.path);
    const char *folders[] = {folder.path};
    assert_int_equal(hl_rule_tests_open(&tests, path, &(hl_shelf){.folders = folders, .n_folders = 1}, &err),
                     HL_OK);
    assert_int_equal(hl_rule_tests_run(&complaints, tests, &err), HL_OK);
    assert_int_equal(complaints.n, 1);
    assert_int_equal(complaints.items[0].line, 3);
    assert_string_equal(complaints.items[0].what,
                        "the case cites 'page-2002-reach', and the register has no such source");
    hl_complaints_free(&complaints);
    hl_rule_tests_free(tests);
    hl_book_free(book);
    close_folder(&folder);
}

static void a_key_has_a_form(void **state)
{
    (void)state;
    static const struct {
        const char *key;
        bool good;
    } keys[] = {{"list-2001-crown", true}, {"book", true},   {"a1", true},    {"", false},
                {"2001-list", false},      {"list-", false}, {"a--b", false}, {"List-2001", false},
                {"list_2001", false},      {"a b", false}};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        rule_folder folder;
        hl_err err = {0};
        char entry[200];
        assert_int_equal(hl__is_source_key(keys[i].key, strlen(keys[i].key)), keys[i].good);
        snprintf(entry, sizeof entry, "  source { '%s', kind = 'own', subject = 'x' },\n", keys[i].key);
        hl_book *book = open_citing(&folder, "geometry", entry, &err);
        assert_int_equal(book != NULL, keys[i].good);
        if (book == NULL)
            assert_non_null(strstr(err.what, "is not the key of a source"));
        hl_book_free(book);
        close_folder(&folder);
    }
}

static void the_entry_is_shown_and_not_the_key(void **state)
{
    (void)state;
    rule_folder folder;
    hl_err err = {0};
    char *text = NULL;
    size_t size = 0;
    hl_book *book = open_citing(&folder, "page-2001-reach: 2 mm; geometry; our own bench, 2020", "", &err);
    assert_non_null(book);
    assert_int_equal(hl_book_n_sources(book), 2);
    assert_string_equal(hl_book_source(book, 0)->date, "2001");
    assert_int_equal(hl_step_text(&text, &size, book, 0, 0, &(hl_print){.width = 80}, &err), HL_OK);
    assert_non_null(strstr(text, "\nSource        a page, reach, 2001: 2 mm\n"
                                 "              geometry of the levers\n"
                                 "              our own bench, 2020\n"));
    assert_null(strstr(text, "page-2001"));
    free(text);
    hl_book_free(book);
    close_folder(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_unknown_key_is_complained_of),
        cmocka_unit_test(a_case_with_an_unknown_key_is_complained_of),
        cmocka_unit_test(a_key_has_a_form),
        cmocka_unit_test(the_entry_is_shown_and_not_the_key),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
