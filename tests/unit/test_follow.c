/* test_follow.c - a short aftertouch under a long blow needs no paper: it follows from the blow. */
#include "judged.h"

/* Blow 48.5, let-off 1.6, dip 10, distance ratio 5: aftertouch 10 - 46.9 / 5 = 0.62 mm (arithmetic, by
 * the relation of Gravagne, technicians' list, 2010).  The capstan brings the blow to 46: 1.12 mm. */
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

/* 60 down, 30 up: balance weight 45 (Ilvedson and Ballard, technicians' list, 1998); with the
 * downweight brought to its aim the balance weight comes into range by itself. */
static void a_derived_step_follows_from_its_readings(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,downweight,60\nC4,upweight,30\n");
    const hl_finding *balance = see(&j, "balance_weight", "C4");
    assert_int_equal(balance->verdict, HL_FAIL);
    assert_true(balance->follows);
    assert_int_equal(balance->follows_step, small_step(j.book, "downweight"));
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_short_aftertouch_follows_from_a_long_blow),
        cmocka_unit_test(with_a_good_blow_it_is_the_paper),
        cmocka_unit_test(a_cure_that_is_not_enough_leaves_the_correction),
        cmocka_unit_test(a_derived_step_follows_from_its_readings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
