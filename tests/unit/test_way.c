/* test_way.c - moves of which the way is known and the amount is not: "up" and "down".
 *
 * The correction then names the adjuster and its way, and leaves how far to the hand.  The grand's
 * figures are published; the small book's are invented, its ways arithmetic. */
#include "rule_folder.h"
#include "shipped.h"

static const char pair_book[] =
    "return book { id = 'pair', api = 1, title = 'Pair', compass = 'C4-C5', stage { 'set', title = 'Set' },\n"
    "  adjuster { 'screw', title = 'screw', more = 'in', less = 'out',\n"
    "    moves = { a = 'up', b = 'up' } },\n"
    "  use 'a', use 'b', use 'sum', use 'less', use 'turned' }\n";

static void write_measured(rule_folder *folder, const char *id)
{
    char text[300];
    snprintf(text, sizeof text,
             "return step { id = '%s', title = 'T', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
             "  resolution = 0.1, target = range(1, 3), fix = { 'screw' } }\n",
             id);
    write_rule(folder, id, text);
}

static void write_derived(rule_folder *folder, const char *id, const char *formula)
{
    char text[300];
    snprintf(
        text, sizeof text,
        "return step { id = '%s', title = 'T', stage = 'set', kind = 'derived', unit = 'mm', ask = 'a',\n"
        "  why = 'w', resolution = 0.1, formula = '%s', target = range(-1, 1), fix = { 'screw' } }\n",
        id, formula);
    write_rule(folder, id, text);
}

static judged judge_pair(const char *rows)
{
    rule_folder folder;
    hl_book *book;
    hl_err err;
    hl_text text = {0};
    open_folder(&folder);
    write_rule(&folder, "pair", pair_book);
    write_measured(&folder, "a");
    write_measured(&folder, "b");
    write_derived(&folder, "sum", "a + b");
    write_derived(&folder, "less", "a - b");
    write_derived(&folder, "turned", "-a");
    if (open_book(&folder, "pair", &book, &err) != HL_OK)
        fail_msg("%s:%d: %s; %s", err.file, err.line, err.what, err.todo);
    close_folder(&folder);
    hl__text_printf(&text, "# book: pair\n" HEADS "%s", rows);
    judged j = judge_by(book, text.data);
    hl__text_free(&text);
    return j;
}

static void assert_way(const judged *j, const char *step, bool more)
{
    const hl_finding *finding = see(j, step, "C4");
    assert_int_equal(finding->verdict, HL_FAIL);
    assert_int_equal(finding->n_corrections, 1);
    const hl_correction *c = &finding->corrections[0];
    assert_int_equal(c->more, more);
    assert_false(c->has_amount);
    assert_false(c->has_predicted);
    assert_false(c->lands);
}

static void a_reading_knows_its_way(void **state)
{
    (void)state;
    judged j = judge_pair("C4,a,5\nC4,b,0.5\n");
    assert_way(&j, "a", false); /* too much: out */
    assert_way(&j, "b", true);  /* too little: in */
    put_away(&j);
}

static void a_formula_carries_the_way(void **state)
{
    (void)state;
    judged j = judge_pair("C4,a,1.5\nC4,b,1.5\n"); /* all else passes, so nothing goes first */
    assert_way(&j, "sum", false);                  /* 3.0, both rise */
    assert_way(&j, "turned", false);               /* -1.5 is too low, and falls as a rises */
    put_away(&j);
}

static void what_pulls_both_ways_has_none(void **state)
{
    (void)state;
    judged j = judge_pair("C4,a,3\nC4,b,1.5\n"); /* a - b is 1.5, and both rise */
    assert_int_equal(see(&j, "less", "C4")->verdict, HL_FAIL);
    assert_int_equal(see(&j, "less", "C4")->n_corrections, 0);
    put_away(&j);
}

/* Friction 21 at C5 is too high: [list-2003-friction-c5].  Nobody repins to a gram. */
static void friction_is_freed_without_an_amount(void **state)
{
    (void)state;
    judged j = judge_by(open_shipped("grand"), "# book: grand\n" HEADS "C5,downweight,61\nC5,upweight,19\n");
    const hl_finding *friction = see(&j, "friction", "C5");
    assert_int_equal(friction->why, HL_WHY_HIGH);
    assert_int_equal(friction->n_corrections, 1);
    const hl_correction *c = &friction->corrections[0];
    assert_string_equal(hl_book_adjuster(j.book, c->adjuster)->id, "centre_pin");
    assert_false(c->more);
    assert_false(c->has_amount);
    bool down = false, up = false;
    for (int i = 0; i < c->n_again; i++) {
        down = down || c->again[i] == hl_book_find_step(j.book, "downweight");
        up = up || c->again[i] == hl_book_find_step(j.book, "upweight");
    }
    assert_true(down && up); /* weigh again */
    char *text;
    size_t size;
    hl_err err;
    assert_int_equal(hl_audit_text(&text, &size, j.audit, NULL, &err), HL_OK);
    assert_non_null(strstr(text, "Make the centres freer"));
    hl_free(text);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_reading_knows_its_way),
        cmocka_unit_test(a_formula_carries_the_way),
        cmocka_unit_test(what_pulls_both_ways_has_none),
        cmocka_unit_test(friction_is_freed_without_an_amount),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
