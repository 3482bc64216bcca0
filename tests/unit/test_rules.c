/* test_rules.c - every shipped book and shop opens, has nothing for `rules check` to complain of, and
 * passes its own tests.  The rule tests carry their sources; this file only counts them, so that an
 * empty run can't pass. */
#include "shipped.h"

#include <dirent.h>
#include <stdio.h>

static const char *const folders[] = {RULES_FOLDER};
static const hl_shelf shelf = {.folders = folders, .n_folders = 1};

static void tell(const hl_complaints *complaints)
{
    for (size_t i = 0; i < complaints->n; i++)
        print_error("%s:%d: %s; %s\n", complaints->items[i].file, complaints->items[i].line,
                    complaints->items[i].what, complaints->items[i].todo);
}

static void check_book(const hl_book *book)
{
    hl_complaints complaints = {0};
    hl_err err;
    assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
    tell(&complaints);
    if (complaints.n > 0)
        fail_msg("%s: %zu complaints", hl_book_id(book), complaints.n);
    assert_int_equal(hl_book_warn(&complaints, book, &err), HL_OK);
    tell(&complaints);
    assert_int_equal(complaints.n, 0);
    assert_true(hl_book_n_steps(book) > 40); /* grand and upright have about 50: none was lost */
    hl_complaints_free(&complaints);
}

static void books_have_nothing_to_complain_of(void **state)
{
    (void)state;
    static const char *const books[] = {"grand", "upright", "concert_hire", "historical_85", "home_upright"};
    for (size_t i = 0; i < sizeof books / sizeof *books; i++) {
        hl_book *book = open_shipped(books[i]);
        check_book(book);
        hl_book_free(book);
    }
}

/* Every choice has two options; the book of tests takes the one that the shipped book does not. */
static void both_options_are_tested(const char *shipped, const char *other, int n)
{
    hl_book *one = open_shipped(shipped);
    hl_book *two = open_shipped(other);
    assert_int_equal(hl_book_n_choices(one), n);
    assert_int_equal(hl_book_n_choices(two), n);
    for (int i = 0; i < n; i++) {
        const hl_chosen *a = hl_book_choice(one, i), *b = hl_book_choice(two, i);
        assert_string_equal(a->id, b->id);
        assert_int_equal(a->n_options, 2);
        assert_int_not_equal(a->option, b->option);
        assert_true(a->uses > 0 && a->source[0] != '\0');
    }
    hl_book_free(one);
    hl_book_free(two);
}

static void each_school_is_tested(void **state)
{
    (void)state;
    both_options_are_tested("grand", RULES_FOLDER "/tests/grand_schools.lua", 4);
    both_options_are_tested("upright", RULES_FOLDER "/tests/upright_schools.lua", 3);
}

/* Returns how many cases there are. */
static int run_file(const char *path)
{
    hl_rule_tests *tests = NULL;
    hl_complaints complaints = {0};
    hl_err err;
    if (hl_rule_tests_open(&tests, path, &shelf, &err) != HL_OK)
        fail_msg("%s:%d: %s; %s", err.file, err.line, err.what, err.todo);
    assert_int_equal(hl_rule_tests_run(&complaints, tests, &err), HL_OK);
    tell(&complaints);
    if (complaints.n > 0)
        fail_msg("%s: %zu of %d cases", path, complaints.n, hl_rule_tests_count(tests));
    const int n = hl_rule_tests_count(tests);
    check_book(hl_rule_tests_book(tests));
    hl_complaints_free(&complaints);
    hl_rule_tests_free(tests);
    return n;
}

static void all_rule_tests_pass(void **state)
{
    (void)state;
    DIR *folder = opendir(RULES_FOLDER "/tests");
    assert_non_null(folder);
    int files = 0, cases = 0;
    for (const struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        char path[600];
        const size_t size = strlen(entry->d_name);
        if (size < 9 || strcmp(entry->d_name + size - 9, "_test.lua") != 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", RULES_FOLDER "/tests", entry->d_name);
        const int n = run_file(path);
        assert_true(n > 0);
        cases += n;
        files++;
    }
    closedir(folder);
    assert_true(files >= 7);
    assert_true(cases >= 430);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(books_have_nothing_to_complain_of),
        cmocka_unit_test(each_school_is_tested),
        cmocka_unit_test(all_rule_tests_pass),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
