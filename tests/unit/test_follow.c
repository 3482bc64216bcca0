/* test_follow.c - a short aftertouch under a long blow needs no paper: it follows from the blow. */
#include "judged.h"

/* Blow 48.5, let-off 1.6, dip 10, travel ratio 5: aftertouch 10 - 46.9 / 5 = 0.62 mm (arithmetic, by
 * the relation of [list-2010-travel-link]).  The capstan brings the blow to 46: 1.12 mm. */
static void a_short_aftertouch_follows_from_a_long_blow(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10\nC4,blow,48.5\nC4,let_off,1.6\nC4,aftertouch,0.6\n");
    const hl_finding *aftertouch = see(&j, "aftertouch", "C4");
    assert_int_equal(aftertouch->verdict, HL_FAIL);
    assert_true(aftertouch->follows);
    assert_int_equal(aftertouch->follows_step, small_step(j.book, "blow"));
    assert_int_equal(aftertouch->n_corrections, 0);
    /* A quarter turn is 2.5 mm of blow, 0.5 mm of aftertouch: 0.6 + 0.5. */
    assert_int_equal(aftertouch->follows_predicted, 1100000);
    assert_true(see(&j, "blow", "C4")->n_corrections > 0);
    put_away(&j);
}

static void with_a_good_blow_it_is_the_paper(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.6\nC4,aftertouch,0.6\n");
    const hl_finding *aftertouch = see(&j, "aftertouch", "C4");
    assert_false(aftertouch->follows);
    assert_true(aftertouch->n_corrections > 0);
    put_away(&j);
}

static void a_cure_that_is_not_enough_leaves_the_correction(void **state)
{
    (void)state;
    /* The blow is 1.1 mm out, worth 0.25 mm of aftertouch; 0.2 + 0.25 is still short. */
    judged j = judge(HEADS "C4,key_dip,10\nC4,blow,47.1\nC4,let_off,1.6\nC4,aftertouch,0.2\n");
    const hl_finding *aftertouch = see(&j, "aftertouch", "C4");
    assert_int_equal(aftertouch->verdict, HL_FAIL);
    assert_false(aftertouch->follows);
    assert_true(aftertouch->n_corrections > 0);
    put_away(&j);
}

/* 60 down, 30 up: mean weight 45 [list-1998-friction]; with the
 * downweight brought to its aim the mean weight comes into range by itself. */
static void a_derived_step_follows_from_its_readings(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,downweight,60\nC4,upweight,30\n");
    const hl_finding *mean = see(&j, "mean_weight", "C4");
    assert_int_equal(mean->verdict, HL_FAIL);
    assert_true(mean->follows);
    assert_int_equal(mean->follows_step, small_step(j.book, "downweight"));
    put_away(&j);
}

/* ---- computed from what is wrong ----------------------------------------------------------------- */

/* Friction is half of down less up [journal-1996-weights], at most 16 in the small book, which names nothing
 * for it; aims 50 and 25.  All numbers are arithmetic. */
static void a_number_made_of_a_wrong_one_is_no_second_fault(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows, *hangs_on;
    } cases[] = {
        {"18, and 12 with the downweight at its aim", "C4,downweight,62\nC4,upweight,26\n", "downweight"},
        {"18, and 15 with the upweight at its aim", "C4,downweight,55\nC4,upweight,19\n", "upweight"},
        {"both are out: the first of the book", "C4,downweight,60\nC4,upweight,19\n", "downweight"},
        {"17.5 of readings that pass: its own fault", "C4,downweight,55\nC4,upweight,20\n", NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[128] = HEADS;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_finding *friction = see(&j, "friction", "C4");
        assert_int_equal(friction->verdict, HL_FAIL); /* it stays out until it is right */
        assert_false(friction->follows);
        if (friction->hangs != (cases[i].hangs_on != NULL) ||
            (friction->hangs && friction->follows_step != small_step(j.book, cases[i].hangs_on)))
            fail_msg("%s", cases[i].what);
        put_away(&j);
    }
}

static void what_would_stay_out_is_a_fault_of_its_own(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_step *friction = &book->steps[small_step(book, "friction")];
    hl_target *targets = malloc((HL_PITCHES + 1) * sizeof *targets);
    assert_non_null(targets);
    for (int i = 0; i <= HL_PITCHES; i++) {
        targets[i] = friction->targets[i];
        targets[i].high = G(11); /* with the downweight at its aim it comes to 12 */
    }
    friction->targets = targets;
    judged j = judge_by(book, HEADS "C4,downweight,62\nC4,upweight,26\n");
    assert_int_equal(see(&j, "friction", "C4")->verdict, HL_FAIL);
    assert_false(see(&j, "friction", "C4")->hangs);
    put_away(&j);
    free(targets);
}

/* A book in which friction comes first: its masked readings are not to be seen to before it. */
static void what_comes_first_hangs_on_nothing(void **state)
{
    (void)state;
    hl_book *book = small_book();
    const int masked[] = {small_step(book, "downweight")};
    book->steps[small_step(book, "friction")].masks = masked;
    book->steps[small_step(book, "friction")].n_masks = 1;
    judged j = judge_by(book, HEADS "C4,downweight,62\nC4,upweight,26\n");
    assert_false(see(&j, "friction", "C4")->hangs);
    put_away(&j);
}

static void what_the_book_can_adjust_is_not_left_for_later(void **state)
{
    (void)state;
    hl_book *book = small_book();
    const int lead[] = {small_adjuster(book, "key_lead")};
    book->steps[small_step(book, "friction")].fixes = lead;
    book->steps[small_step(book, "friction")].n_fixes = 1;
    judged j = judge_by(book, HEADS "C4,downweight,62\nC4,upweight,26\n");
    assert_false(see(&j, "friction", "C4")->hangs);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_short_aftertouch_follows_from_a_long_blow),
        cmocka_unit_test(with_a_good_blow_it_is_the_paper),
        cmocka_unit_test(a_cure_that_is_not_enough_leaves_the_correction),
        cmocka_unit_test(a_derived_step_follows_from_its_readings),
        cmocka_unit_test(a_number_made_of_a_wrong_one_is_no_second_fault),
        cmocka_unit_test(what_would_stay_out_is_a_fault_of_its_own),
        cmocka_unit_test(what_comes_first_hangs_on_nothing),
        cmocka_unit_test(what_the_book_can_adjust_is_not_left_for_later),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
