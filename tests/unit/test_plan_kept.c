/* test_plan_kept.c - what passes is kept, and what fails is brought close: the weighing of one reading
 * against another.
 *
 * Figures are arithmetic over the small book: a let-off button's turn moves let-off by 2 mm and drop by
 * -2 mm; a balance paper t moves the key by t * (1 + 250/220). */
#include "changed_book.h"
#include "hammerline.h"
#include "planned.h"

/* Let-off stands on its limit and passes; the button would bring the drop in, at the cost of that. */
static void what_lies_on_its_limit_is_kept(void **state)
{
    (void)state;
    static const char *const without[] = {"drop_screw"};
    const hl_plan_options options = {.without = without, .n_without = 1};
    static const struct {
        hl_target let_off;
        const char *rows;
    } cases[] = {
        {{MM(.4), MM(1.2), MM(2), true, true}, "C4,let_off,2\nC4,drop,2.4\n"},
        {{MM(1.2), MM(2), MM(2.8), true, true}, "C4,let_off,1.2\nC4,drop,.2 mm\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        set_target(book, "let_off", cases[i].let_off);
        set_fixes(book, "drop", "let_off_button", NULL);
        planned p = plan_finished(book, cases[i].rows, &options);
        assert_int_equal(moved(&p, "C4", "let_off_button"), 0);
        assert_null(unmet(&p, "C4", "let_off"));
        assert_non_null(unmet(&p, "C4", "drop"));
        put_plan_away(&p);
    }
}

/* A low key would be lifted by 0.3 mm, but here that lifts the key height out of its range as well. */
static void the_first_step_is_kept_like_the_rest(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        bool lifted;
    } cases[] = {{"C4,key_height,63.95\nC4,key_level,-.3\n", false}, {"C4,key_level,-.3\n", true}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        add_move(book, "balance_punching", "key_height", "1 + key_front / key_back");
        planned p = plan_finished(book, cases[i].rows, NULL);
        assert_true((moved(&p, "C4", "balance_punching") > 0) == cases[i].lifted);
        assert_true((unmet(&p, "C4", "key_level") == NULL) == cases[i].lifted);
        assert_null(unmet(&p, "C4", "key_height"));
        put_plan_away(&p);
    }
}

/* Let-off 2.1 and drop 0.5, one button for both.  A quarter of a turn up gives 1.6 and 1.0; three
 * eighths 1.35 and 1.25.  Drop has a lower limit alone, 0.6 from its aim, and is weighed by that: let-off
 * comes to its aim. */
static void a_target_with_one_limit_is_weighed_by_its_own_width(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_target(book, "drop", (hl_target){MM(.8), MM(1.4), 0, true, false});
    set_fixes(book, "drop", "let_off_button", NULL);
    planned p = plan_finished(book, "C4,let_off,2.1\nC4,drop,.5 mm\n", NULL);
    assert_int_equal(moved(&p, "C4", "let_off_button"), -TURN(.25));
    assert_int_equal(known(&p, "C4", "let_off"), MM(1.6));
    assert_int_equal(known(&p, "C4", "drop"), MM(1));
    put_plan_away(&p);
}

/* Dip may give way by 0.25, but only where the aftertouch comes in by that; 0.2 is too little by far. */
static void the_float_has_to_be_earned(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        bool earned;
    } cases[] = {{"C4,key_dip,10.2\nC4,aftertouch,.7\n", true},
                 {"C4,key_dip,10.2\nC4,aftertouch,.2\n", false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        book->floats = (hl_float){.step = small_step(book, "key_dip"), .within = MM(.25)};
        book->steps[small_step(book, "key_dip")].even = 0;
        book->steps[small_step(book, "blow")].even = MM(.1);
        planned p = plan_finished(book, cases[i].rows, NULL);
        assert_true((known(&p, "C4", "key_dip") > MM(10.2)) == cases[i].earned);
        assert_true((unmet(&p, "C4", "aftertouch") == NULL) == cases[i].earned);
        put_plan_away(&p);
    }
}

/* The first step of the book may float as well: here aftertouch follows from the key height, which front
 * paper lowers (no real action does that). */
static void the_first_step_may_float(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->floats = (hl_float){.step = 0, .within = MM(.25)};
    book->steps[small_step(book, "blow")].even = MM(.1);
    book->steps[small_step(book, "aftertouch")].formula =
        small_formula(book, "key_height - (blow - let_off) / travel_ratio - lost_motion");
    set_fact(book, "lost_motion", 53.5); /* 63.5 - 8.88 - 53.5 = 1.12 */
    ((hl_move *)book->adjusters[small_adjuster(book, "front_punching")].moves)[0].step = 0;
    planned p = plan_finished(book, "C4,key_height,64\nC4,aftertouch,.7\n", NULL);
    assert_in_range(known(&p, "C4", "key_height"), MM(64) + 1, MM(64.25));
    assert_int_equal(note_of(&p, "C4")->n_unmet, 0);
    put_plan_away(&p);
}

/* A step that no model ties to others has nothing to give way for. */
static void a_float_for_nothing_is_none(void **state)
{
    (void)state;
    static const char *const without[] = {"drop_screw", "let_off_button"};
    const hl_plan_options options = {.without = without, .n_without = 2};
    hl_book *book = small_book();
    book->floats = (hl_float){.step = small_step(book, "drop"), .within = MM(.25)};
    planned p = plan_finished(book, "C4,drop,1.9\n", &options);
    assert_int_equal(unmet(&p, "C4", "drop")->why, HL_LACK_LEFT_OUT);
    assert_int_equal(unmet(&p, "C4", "drop")->by, MM(.3));
    put_plan_away(&p);
}

/* No key takes 200 g of lead, but a book may say so: the plan reckons with what it has room for. */
static void a_large_reach_does_no_harm(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "key_lead")].reach = G(200);
    planned p = plan_finished(book, "C4,downweight,57\nC4,upweight,31\n", NULL);
    assert_int_equal(moved(&p, "C4", "key_lead"), G(6)); /* 51, 25 and 38 */
    put_plan_away(&p);
}

/* Blow 49 with the capstan left out: papers under the balance rail lift the capstan, too, and would do it.
 * They are not for sale where the level passes, nor where nobody read it. */
static void a_level_that_nobody_read_is_not_sold_for_blow(void **state)
{
    (void)state;
    static const char *const without[] = {"capstan"};
    const hl_plan_options options = {.without = without, .n_without = 1};
    static const char *const sheets[] = {HEADS "F4,blow,49\n", HEADS "F4,key_level,0\nF4,blow,49\n"};
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++) {
        planned p = plan_judged(judge(sheets[i]), &options);
        assert_int_equal(moved(&p, "F4", "balance_punching"), 0);
        assert_non_null(unmet(&p, "F4", "blow"));
        put_plan_away(&p);
    }
}

/* Where the book leaves level and dip out, nobody will read them, and a natural has no sharp's height; the
 * key height is unread, but papers do not move it (here).  So the papers may be had. */
static void what_is_never_read_bars_nothing(void **state)
{
    (void)state;
    static const char *const without[] = {"capstan"};
    const hl_plan_options options = {.without = without, .n_without = 1};
    hl_book *book = small_book();
    book->steps[small_step(book, "key_level")].skipped = "not here";
    book->steps[small_step(book, "key_dip")].skipped = "not here";
    planned p = plan_judged(judge_by(book, HEADS "F4,blow,49\n"), &options);
    assert_true(moved(&p, "F4", "balance_punching") > 0);
    assert_null(unmet(&p, "F4", "blow"));
    put_plan_away(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_lies_on_its_limit_is_kept),
        cmocka_unit_test(the_first_step_is_kept_like_the_rest),
        cmocka_unit_test(a_target_with_one_limit_is_weighed_by_its_own_width),
        cmocka_unit_test(the_float_has_to_be_earned),
        cmocka_unit_test(the_first_step_may_float),
        cmocka_unit_test(a_float_for_nothing_is_none),
        cmocka_unit_test(a_large_reach_does_no_harm),
        cmocka_unit_test(a_level_that_nobody_read_is_not_sold_for_blow),
        cmocka_unit_test(what_is_never_read_bars_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
