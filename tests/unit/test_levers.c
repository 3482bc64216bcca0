/* test_levers.c - the lever arithmetic of the rules against an action solved from its coordinates.
 *
 * levers.h solves every contact by root finding; nothing of it comes from the rules.  Where the book counts
 * with one average ratio the windows are as wide as that makes it wrong; they are stated beside each case. */
#include "effects.h"
#include "levers.h"
#include "shipped.h"

static void assert_close(double got, double want, double within, const char *what)
{
    if (!(fabs(got - want) <= within))
        fail_msg("%s: %.4f, not %.4f within %.4f", what, got, want, within);
}

/* The example's own settings come back, and its stroke (geometry). */
static void the_example_closes(void **state)
{
    (void)state;
    const levers l = example_levers();
    const regulation r = regulate(&l);
    assert_close(r.blow, 46, .02, "blow");
    assert_close(r.let_off, 1.6, .02, "let-off");
    assert_close(r.drop, 1.6, .02, "drop");
    assert_close(r.aftertouch, 1, .03, "aftertouch");
    assert_close(r.ratio, 4.93, .02, "average ratio");
    const double rest = press_key(&l, 0).on_lever;
    assert_close(press_key(&l, 1).on_lever - rest, 6.25, .02, "1 mm of key");
    assert_close(press_key(&l, 5).on_lever - rest, 28.8, .05, "5 mm of key");
    double before = 1e9; /* the ratio falls all the way (geometry) */
    for (int mm = 0; mm < 7; mm++) {
        const double ratio = press_key(&l, mm + 1).on_lever - press_key(&l, mm).on_lever;
        assert_true(ratio < before);
        before = ratio;
    }
}

typedef struct shift {
    double blow, let_off, drop, aftertouch;
} shift;

/* By one mm, from a tenth to either side. */
static shift shift_of(size_t field)
{
    levers up = example_levers(), down = up;
    *(double *)((char *)&up + field) += .1;
    *(double *)((char *)&down + field) -= .1;
    const regulation a = regulate(&up), b = regulate(&down);
    return (shift){(a.blow - b.blow) / .2, (a.let_off - b.let_off) / .2, (a.drop - b.drop) / .2,
                   (a.aftertouch - b.aftertouch) / .2};
}

static void screws_move_what_the_rules_say(void **state)
{
    (void)state;
    const shift capstan = shift_of(offsetof(levers, capstan_height));
    assert_close(capstan.let_off, 0, .01, "a capstan leaves let-off where it is");
    assert_close(capstan.drop, 0, .03, "and drop"); /* the press is searched in steps of .002 mm */
    assert_close(capstan.aftertouch, 2.04, .04, "aftertouch a mm of capstan: front arm over capstan arm");
    assert_close(capstan.blow, -12.6, .2, "blow a mm of capstan");
    const shift button = shift_of(offsetof(levers, button)); /* up: the let-off gets closer */
    assert_close(button.let_off, -4.97, .05, "let-off a mm of button");
    assert_close(button.drop / button.let_off, -.69, .02, "drop loses .7 of what let-off gains");
    assert_close(button.aftertouch / button.let_off, .211, .01,
                 "aftertouch: one over the ratio near let-off");
    const shift screw = shift_of(offsetof(levers, drop_screw));
    assert_close(screw.drop, -4.23, .08, "drop a mm of screw");
    assert_close(screw.let_off, 0, .01, "a drop screw leaves let-off where it is");
    const shift string = shift_of(offsetof(levers, string));
    assert_close(string.blow, 1, 1e-9, "string up");
    assert_close(string.let_off, 1, 1e-9, "string up");
    const shift dip = shift_of(offsetof(levers, dip));
    assert_close(dip.aftertouch, 1, 1e-9, "dip and aftertouch are one for one");
}

/* Sharps: a row of balance pins of their own, the naturals' capstan line, fronts 50 mm behind. */
static void sharps_hang_on_a_few_millimetres(void **state)
{
    (void)state;
    static const struct {
        double behind; /* the sharps' pins, behind the naturals' */
        double ratio, aftertouch;
        const char *source;
    } rows[] = {
        {20.6, 4.65, .457, "[list-2003-balance-pins] about 20; a published keyboard plan has 20.6"},
        {17, 4.89, .925, "the book's default"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        levers l = example_levers();
        l.pivot.x += rows[i].behind;
        l.front = 254 + rows[i].behind - 50;
        l.capstan = 127 - rows[i].behind;
        set_blow(&l, 46);
        const regulation r = regulate(&l);
        assert_close(r.ratio, rows[i].ratio, .02, rows[i].source);
        assert_close(r.aftertouch, rows[i].aftertouch, .03, rows[i].source);
    }
}

/* ---- the book beside it ------------------------------------------------------------------------ */

static double effect_of(const judged *j, const char *adjuster, const char *step)
{
    hl_effect effects[200];
    const int at = hl_book_find_step(j->book, step), a = hl_book_find_adjuster(j->book, adjuster);
    assert_true(at >= 0 && a >= 0 && hl_book_n_steps(j->book) < 200);
    hl__effects_at(j->book, j->sheet, a, 40, NULL, effects); /* C4 */
    assert_int_equal(effects[at].kind, HL_EFFECT_BY);
    return effects[at].by;
}

/* The example's arms and screws stated as facts: then the book's table is the geometry's. */
static void the_book_moves_as_the_levers_do(void **state)
{
    (void)state;
    judged j = judge_by(open_shipped("grand"),
                        "# book: grand\n# travel_ratio: 4.933\n# capstan_ratio: 0.5\n# key_front: 254\n"
                        "# key_pin: 234\n# key_back: 225\n# key_capstan: 127\n# capstan_pitch: 1\n"
                        "# let_off_turn: 4.97\n# drop_turn: 4.23\n" HEADS "C4,blow,46\n");
    static const struct {
        const char *adjuster, *step;
        double want, within;
        const char *why;
    } rows[] = {
        {"capstan", "blow", -12.6, 3, "at rest the ratio is over 6, and the book counts with the average"},
        {"capstan", "aftertouch", 2.04, .1, "front arm over capstan arm"},
        {"let_off_button", "let_off", 4.97, .001, "stated"},
        {"let_off_button", "drop", -3.44, .1, "-.69 of it"},
        {"let_off_button", "aftertouch", 1.05, .06, "one over the ratio near let-off, 4.73; average 4.93"},
        {"drop_screw", "drop", 4.23, .001, "stated"},
        {"front_punching", "key_dip", -1.09, .01, "front over pin arm"},
        {"front_punching", "aftertouch", -1.09, .01, "the same"},
        {"balance_punching", "key_height", 2.13, .01, "(front + back) over back"},
        {"balance_punching", "key_dip", 2.22, .01, "front over back and front over pin"},
        {"balance_punching", "blow", -5.45, 1.2, "the average ratio again"},
        {"balance_punching", "aftertouch", 3.14, .1, "dip and blow together"},
        {"back_rail_cloth", "key_height", -1.13, .01, "front over back"},
        {"back_rail_cloth", "key_dip", -1.13, .01, "the same"},
        {"back_rail_cloth", "blow", -7.2, 1.7, "the average ratio again"},
        {"back_rail_cloth", "aftertouch", 0, .02, "dip and blow cancel"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const int at = hl_book_find_step(j.book, rows[i].step);
        hl_effect effects[200];
        if (rows[i].want == 0) {
            hl__effects_at(j.book, j.sheet, hl_book_find_adjuster(j.book, rows[i].adjuster), 40, NULL,
                           effects);
            assert_close(effects[at].by, 0, rows[i].within, rows[i].why);
            continue;
        }
        const double got = effect_of(&j, rows[i].adjuster, rows[i].step);
        if (!(fabs(got - rows[i].want) <= rows[i].within))
            fail_msg("%s on %s: %.3f, not %.3f (%s)", rows[i].adjuster, rows[i].step, got, rows[i].want,
                     rows[i].why);
    }
    put_away(&j);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_example_closes),
        cmocka_unit_test(screws_move_what_the_rules_say),
        cmocka_unit_test(sharps_hang_on_a_few_millimetres),
        cmocka_unit_test(the_book_moves_as_the_levers_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
