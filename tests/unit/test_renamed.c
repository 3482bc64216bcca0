/* test_renamed.c - names of before: each is read for ever, and means what it meant.
 *
 * The old names are those of the first release, as its rule files had them; what they are called now is our
 * own choice. */
#include "rule_folder.h"

#include "shipped.h"

#include <math.h>

/* What the first release called them, and what they were. */
static const struct {
    const char *was, *is;
    char what; /* 's' a step, 'f' a fact */
    bool in_upright;
} names[] = {
    {"balance_weight", "mean_weight", 's', true},
    {"key_front_weight", "key_front_load", 's', false},
    {"weight_ratio", "hammer_leverage", 'f', false},
    {"implied_weight_ratio", "implied_leverage", 's', false},
    {"key_ratio", "capstan_ratio", 'f', true},
    {"distance_ratio", "travel_ratio", 'f', true},
    {"implied_ratio", "implied_travel_ratio", 's', true},
};
#define N_NAMES (sizeof names / sizeof *names)

static void each_is_found_under_its_new_name_only(void **state)
{
    (void)state;
    static const char *const books[] = {"grand", "upright"};
    for (size_t b = 0; b < 2; b++) {
        hl_book *book = open_shipped(books[b]);
        assert_int_equal(hl_book_n_renamed(book), N_NAMES);
        for (size_t i = 0; i < N_NAMES; i++) {
            const bool step = names[i].what == 's';
            const int was =
                step ? hl_book_find_step(book, names[i].was) : hl__book_find_fact(book, names[i].was);
            const int is =
                step ? hl_book_find_step(book, names[i].is) : hl__book_find_fact(book, names[i].is);
            assert_int_equal(was, is);
            assert_int_equal(is >= 0, b == 0 || names[i].in_upright);
            if (is >= 0)
                assert_string_equal(step ? hl_book_step(book, is)->id : hl_book_fact(book, is)->id,
                                    names[i].is);
            assert_int_equal(
                step ? hl__book_find_fact(book, names[i].was) : hl_book_find_step(book, names[i].was), -1);
        }
        hl_book_free(book);
    }
}

/* No old name has come back with another meaning: nothing that is shipped is called so. */
static void no_old_name_is_used_again(void **state)
{
    (void)state;
    static const char *const books[] = {"grand", "upright"};
    for (size_t b = 0; b < 2; b++) {
        hl_book *book = open_shipped(books[b]);
        for (size_t i = 0; i < N_NAMES; i++) {
            for (int s = 0; s < hl_book_n_steps(book); s++)
                assert_string_not_equal(hl_book_step(book, s)->id, names[i].was);
            for (int f = 0; f < hl_book_n_facts(book); f++)
                assert_string_not_equal(hl_book_fact(book, f)->id, names[i].was);
            for (int a = 0; a < hl_book_n_adjusters(book); a++)
                assert_string_not_equal(hl_book_adjuster(book, a)->id, names[i].was);
        }
        hl_book_free(book);
    }
}

#define ROWS                                                                                                 \
    HEADS "A4,downweight,56\nA4,upweight,32\nA4,hammer_weight,10.4\nA4,whippen_weight,18.5\n"                \
          "A4,blow,47\nA4,let_off,2\nA4,key_dip,10\nA4,aftertouch,1\n"

/* The same sheet in old and in new names: the same readings, the same verdicts. */
static void an_old_sheet_says_the_same(void **state)
{
    (void)state;
    judged old = judge_by(open_shipped("grand"), "# book: grand\n# key_ratio: .52\n# weight_ratio: 6\n"
                                                 "# distance_ratio naturals: 5.2\n" ROWS
                                                 "A4,Key front weight,28\n,fact,distance_ratio = 5.1\n");
    judged now = judge_by(open_shipped("grand"), "# book: grand\n# capstan_ratio: .52\n# hammer_leverage: 6\n"
                                                 "# travel_ratio naturals: 5.2\n" ROWS
                                                 "A4,key_front_load,28\n,fact,travel_ratio = 5.1\n");
    hl_err notice;
    assert_int_equal(see(&old, "implied_leverage", "A4")->value, MM(6)); /* 5.998, [college-2004-leverage] */
    size_t n = 0, m = 0;
    const hl_finding *a = hl_audit_findings(old.audit, &n), *b = hl_audit_findings(now.audit, &m);
    assert_int_equal(n, m);
    for (size_t i = 0; i < n; i++) {
        assert_true(a[i].step == b[i].step && a[i].note == b[i].note);
        assert_true(a[i].verdict == b[i].verdict && a[i].value == b[i].value && a[i].why == b[i].why);
    }
    bool assumed = false;
    for (int f = 0; f < hl_book_n_facts(old.book); f++) {
        const double was = hl__sheet_value(old.sheet, f, 49, &assumed),
                     is = hl__sheet_value(now.sheet, f, 49, &assumed);
        assert_true(was == is || (isnan(was) && isnan(is)));
    }
    assert_false(hl_sheet_notice(now.sheet, &notice));
    assert_true(hl_sheet_notice(old.sheet, &notice));
    assert_string_equal(
        notice.what, "key_ratio is called capstan_ratio now, and other names in this sheet have changed too");
    assert_int_equal(notice.line, 2);
    put_away(&old);
    put_away(&now);
}

/* One name only, and in a wide sheet's heads. */
static void the_notice_names_the_line(void **state)
{
    (void)state;
    judged j = judge_by(open_shipped("grand"), "# book: grand\nnote,downweight,key_front_weight\nA4,50,28\n");
    hl_err notice;
    assert_true(hl_sheet_notice(j.sheet, &notice));
    assert_string_equal(notice.what, "key_front_weight is called key_front_load now");
    assert_int_equal(notice.line, 2);
    put_away(&j);
}

/* A slip in an old name is a slip still, and an old name beside its new one states a thing twice. */
static void slips_are_still_slips(void **state)
{
    (void)state;
    static const struct {
        const char *text, *what, *todo;
    } cases[] = {
        {"# distance_rato: 5\n" HEADS "A4,blow,46\n", "there is no fact 'distance_rato'",
         "did you mean 'travel_ratio'? A remark begins with '##'"},
        {"# key_ratio: .5\n# capstan_ratio: .52\n" HEADS "A4,blow,46\n",
         "capstan_ratio is stated twice, first on line 1", "keep one of the two lines"},
        {"note,key_front_weight,key_front_load\nA4,28,28\n",
         "the column 'key_front_load' stands twice, first as column 2", "keep one of the two"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = open_shipped("grand");
        hl_sheet *sheet;
        hl_err err;
        int n = 0;
        assert_int_equal(hl_sheet_open_text(&sheet, "x.csv", cases[i].text, strlen(cases[i].text), &err),
                         HL_OK);
        assert_int_equal(hl_sheet_read(sheet, book, &err), HL_E_SHEET);
        const hl_err *errors = hl_sheet_errors(sheet, &n);
        assert_true(n >= 1);
        assert_string_equal(errors[0].what, cases[i].what);
        assert_string_equal(errors[0].todo, cases[i].todo);
        hl_sheet_free(sheet);
        hl_book_free(book);
    }
}

/* ---- books --------------------------------------------------------------------------------------- */

#define STEP(id, more)                                                                                       \
    "return step { id = '" id                                                                                \
    "', title = 'X', unit = 'mm', resolution = .1, stage = 'one', scope = 'every',\n"                        \
    "  ask = 'Read it.', why = 'It matters.', unsourced = true, " more " }\n"

static hl_book *open_shop(rule_folder *folder, const char *shop, hl_err *err)
{
    static const char *folders[1];
    hl_book *book = NULL;
    open_folder(folder);
    write_rule(folder, "reach", STEP("reach", "target = range(1, 3), fix = { 'screw' }"));
    write_rule(folder, "lift",
               STEP("lift", "target = range(1, 9), masks = { 'reach' }, model = 'reach * share'"));
    write_rule(
        folder, "base",
        "return book { id = 'base', api = 1, title = 'Base', stage { 'one', title = 'One' },\n"
        "  renamed { 'stretch', 'reach' }, renamed { 'old_screw', 'screw' }, renamed { 'part', 'share' },\n"
        "  fact { 'share', title = 'share', unit = 'ratio', value = 2 },\n"
        "  adjuster { 'screw', title = 'screw', more = 'in', less = 'out', unit = 'turn', finest = .1,\n"
        "    moves = { reach = 1 } },\n"
        "  use 'reach', use 'lift' }\n");
    write_rule(folder, "shop", shop);
    folders[0] = folder->path;
    (void)hl_book_open(&book, "shop", &(hl_shelf){.folders = folders, .n_folders = 1}, err);
    return book;
}

static void everything_that_names_a_step_may_use_an_old_name(void **state)
{
    (void)state;
    static const struct {
        const char *entries;
        int line; /* of the notice; 0: nothing old is used */
    } cases[] = {
        {"use 'base' }", 0},
        {"use 'base',\n  change { 'stretch', target = range(1, 4) } }", 3},
        {"use 'base',\n\n  skip { 'lift', why = 'x' }, skip { 'stretch', why = 'not here' } }", 4},
        {"use 'base',\n  adjuster { 'old_screw', moves = { stretch = 2 } } }", 3},
        {"use 'base',\n  fact { 'part', value = 3 } }", 3},
        {"use 'base',\n  float { 'stretch', within = 1 } }", 3},
        {"use 'base',\n  acknowledge { 'old_screw', 'stretch', why = 'known' } }", 3},
        {"use 'base',\n  change { 'lift', masks = { 'stretch' } } }", 3},
        {"use 'base',\n  change { 'lift', model = 'stretch * part' } }", 3},
        {"use 'base',\n  adjuster { 'wedge', title = 'w', more = 'in', less = 'out', unit = 'mm', finest = "
         "1,\n"
         "    moves = { reach = 'part' } } }",
         4},
        {"use 'base',\n  diagnosis { 'd', title = 'D', when = 'fails(stretch)',\n"
         "    causes = { { 'c', test = 't', todo = 'do' } } } }",
         3},
        /* before the table of names is known */
        {"\n  adjuster { 'old_screw', title = 's', more = 'in', less = 'out', unit = 'turn', finest = .1,\n"
         "    moves = { stretch = 2 } },\n  use 'base' }",
         3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        rule_folder folder;
        hl_err err = {0};
        hl_complaints notices = {0};
        char shop[700];
        snprintf(shop, sizeof shop, "return book { id = 'shop', api = 1, title = 'Shop',\n  %s\n",
                 cases[i].entries);
        hl_book *book = open_shop(&folder, shop, &err);
        if (book == NULL)
            fail_msg("%s\n%s:%d: %s; %s", shop, err.file, err.line, err.what, err.todo);
        assert_int_equal(hl_book_notices(&notices, book, &err), HL_OK);
        assert_int_equal(notices.n, cases[i].line > 0); /* one a file, however many names */
        if (notices.n > 0 &&
            (notices.items[0].line != cases[i].line || strcmp(notices.items[0].file, "shop.lua") != 0))
            fail_msg("%s\nnoticed at %s:%d", shop, notices.items[0].file, notices.items[0].line);
        for (int s = 0; s < hl_book_n_steps(book); s++)
            assert_string_not_equal(hl_book_step(book, s)->id, "stretch");
        hl_complaints_free(&notices);
        hl_book_free(book);
        close_folder(&folder);
    }
}

/* The old name does what the new one does: the change, the fact and the move arrive. */
static void what_an_old_name_says_counts(void **state)
{
    (void)state;
    rule_folder folder;
    hl_err err = {0};
    hl_book *book = open_shop(&folder,
                              "return book { id = 'shop', api = 1, title = 'Shop', use 'base',\n"
                              "  change { 'stretch', target = range(2, 4) }, fact { 'part', value = 3 },\n"
                              "  adjuster { 'old_screw', moves = { stretch = 2 } } }\n",
                              &err);
    assert_non_null(book);
    const int reach = hl_book_find_step(book, "reach");
    assert_int_equal(hl__book_target(book, reach, 48)->low, MM(2));
    assert_true(book->facts[hl__book_find_fact(book, "share")].value[0] == 3);
    const hl_adjuster *screw = hl_book_adjuster(book, hl_book_find_adjuster(book, "old_screw"));
    assert_string_equal(screw->id, "screw");
    assert_int_equal(screw->n_moves, 1);
    assert_true(hl__formula_value(screw->moves[0].formula, NULL) == 2);
    hl_book_free(book);
    close_folder(&folder);
}

/* Names without a table, and stages, are what they are. */
static void without_a_table_nothing_is_renamed(void **state)
{
    (void)state;
    rule_folder folder;
    hl_err err = {0};
    hl_book *book = open_shop(&folder,
                              "return book { id = 'shop', api = 1, title = 'Shop',\n"
                              "  stage { 'stretch', title = 'A stage' }, use 'base' }\n",
                              &err);
    assert_non_null(book);
    assert_string_equal(hl_book_stage(book, 0)->id, "stretch");
    hl_book_free(book);
    close_folder(&folder);
    book = open_shop(&folder,
                     "return book { id = 'shop', api = 1, title = 'Shop', stage { 'one', title = 'One' },\n"
                     "  use 'lone', change { 'key_ratio', target = range(1, 2) } }\n",
                     &err);
    assert_null(book);
    close_folder(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_is_found_under_its_new_name_only),
        cmocka_unit_test(no_old_name_is_used_again),
        cmocka_unit_test(an_old_sheet_says_the_same),
        cmocka_unit_test(the_notice_names_the_line),
        cmocka_unit_test(slips_are_still_slips),
        cmocka_unit_test(everything_that_names_a_step_may_use_an_old_name),
        cmocka_unit_test(what_an_old_name_says_counts),
        cmocka_unit_test(without_a_table_nothing_is_renamed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
