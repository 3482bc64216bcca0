/* test_published.c - cases that were printed somewhere, against the books as they are shipped.
 *
 * Beside each is the key of its source (docs/sources.md).  "Computed" means that the source prints the
 * readings and not the result.  Where a result is printed, a case that fails shows the inputs, what is
 * printed, and ours. */
#include "shipped.h"

#include "effects.h"
#include "leads.h"

#include <math.h>

static judged weigh(const char *note, const char *down, const char *up)
{
    hl_text text = {0};
    hl__text_printf(&text, "# book: grand\n" HEADS "%s,downweight,%s\n%s,upweight,%s\n", note, down, note,
                    up);
    assert_false(text.failed);
    judged j = judge_by(open_shipped("grand"), text.data);
    hl__text_free(&text);
    return j;
}

static void mean_weight_and_friction(void **state)
{
    (void)state;
    static const struct {
        const char *down, *up;
        double mean, friction;
        const char *source;
    } cases[] = {
        {"52", "28", 40, 12, "[college-weights]"},
        {"53", "27", 40, 13, "[college-weights], with 1 g more friction"},
        {"50", "25", 37.5, 12.5, "[list-1998-friction] (friction computed)"},
        {"60", "30", 45, 15, "[list-1998-friction]"},
        {"60", "20", 40, 20, "[list-1998-friction]"},
        {"50", "20", 35, 15, "[list-1998-weights]"},
        {"46", "24", 35, 11, "[list-1998-weights]"},
        {"52", "18", 35, 17, "[list-1998-weights] (downweight computed)"},
        {"50", "26", 38, 12, "[list-1998-weights]"},
        {"47", "23", 35, 12, "[list-1998-weights]"},
        {"81", "16", 48.5, 32.5, "[list-2003-friction-c5] (mean weight computed)"},
        {"45", "26", 35.5, 9.5, "[list-2000-shimmed-stack], before (computed)"},
        {"47", "24", 35.5, 11.5,
         "[list-2000-shimmed-stack], after: friction changed, the mean did not (computed)"},
        {"56", "33", 44.5, 11.5, "[list-2004-weights]"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = weigh("A4", cases[i].down, cases[i].up);
        if (see(&j, "mean_weight", "A4")->value != MM(cases[i].mean) ||
            see(&j, "friction", "A4")->value != MM(cases[i].friction))
            fail_msg("%s", cases[i].source);
        put_away(&j);
    }
}

/* 70 and 20 became 48 and 30, mean weight 45 became 39, by friction work alone:
 * [college-2004-friction-first].  So friction is told first, and no lead is asked for. */
static void friction_work_brings_the_weight_along(void **state)
{
    (void)state;
    judged j = weigh("A4", "70", "20");
    assert_int_equal(see(&j, "mean_weight", "A4")->value, G(45));
    assert_int_equal(see(&j, "mean_weight", "A4")->why, HL_WHY_HIGH);
    assert_int_equal(see(&j, "friction", "A4")->value, G(25));
    assert_int_equal(see(&j, "friction", "A4")->why, HL_WHY_HIGH);
    assert_non_null(told(&j, "friction_first", "A4"));
    assert_null(told(&j, "heavy_not_rough", "A4"));
    /* while friction is wrong, the mean weight's excess means nothing */
    assert_int_equal(see(&j, "mean_weight", "A4")->n_corrections, 0);
    assert_non_null(strstr(see(&j, "mean_weight", "A4")->remark, "first"));
    put_away(&j);

    j = weigh("A4", "48", "30");
    assert_int_equal(see(&j, "mean_weight", "A4")->value, G(39));
    static const char *const steps[] = {"downweight", "upweight", "friction", "mean_weight"};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        assert_int_equal(see(&j, steps[i], "A4")->verdict, HL_PASS);
    assert_int_equal(count_told(&j), 0);
    put_away(&j);
}

/* 81 and 16: friction 32.5 is the fault.  [list-2003-friction-c5] */
static void friction_32_is_flagged(void **state)
{
    (void)state;
    judged j = weigh("A4", "81", "16");
    const hl_finding *friction = see(&j, "friction", "A4");
    assert_int_equal(friction->value, G(32.5));
    assert_int_equal(friction->verdict, HL_FAIL);
    assert_int_equal(friction->why, HL_WHY_HIGH);
    assert_non_null(told(&j, "friction_first", "A4"));
    put_away(&j);
}

/* Friction 21 at C5 is too much where 13 is expected: [list-2003-friction-c5].  The weighings
 * around it are arithmetic. */
static void friction_at_c5(void **state)
{
    (void)state;
    judged j = weigh("C5", "60", "18");
    assert_int_equal(see(&j, "friction", "C5")->value, G(21));
    assert_int_equal(see(&j, "friction", "C5")->why, HL_WHY_HIGH);
    put_away(&j);
    j = weigh("C5", "51", "25");
    assert_int_equal(see(&j, "friction", "C5")->value, G(13));
    assert_int_equal(see(&j, "friction", "C5")->verdict, HL_PASS);
    put_away(&j);
}

/* Key front load 28.0, hammer 10.4, whippen 18.5, capstan ratio .52, mean weight 44: hammer leverage 6.0;
 * with 39 it is 5.5.  [college-2004-leverage] */
static void the_hammer_leverage(void **state)
{
    (void)state;
    static const struct {
        const char *down, *up;
        double ratio; /* 5.998 and 5.517, rounded to the step's 0.01 */
    } cases[] = {{"56", "32", 6}, {"51", "27", 5.52}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl__text_printf(&text,
                        "# book: grand\n# capstan_ratio: .52\n" HEADS
                        "A4,downweight,%s\nA4,upweight,%s\nA4,key_front_load,28.0\n"
                        "A4,hammer_weight,10.4\nA4,whippen_weight,18.5\n",
                        cases[i].down, cases[i].up);
        assert_false(text.failed);
        judged j = judge_by(open_shipped("grand"), text.data);
        assert_int_equal(see(&j, "implied_leverage", "A4")->value, MM(cases[i].ratio));
        put_away(&j);
        hl__text_free(&text);
    }
}

static void compare_printed(const char *inputs, double printed, double within, double ours,
                            const char *source)
{
    if (!(fabs(ours - printed) <= within))
        fail_msg("%s: printed %g, ours %g (%s)", inputs, printed, ours, source);
}

/* Hammer, whippen and key by themselves, and the mean weight that follows by the static balance. */
static void the_static_balance(void **state)
{
    (void)state;
    static const struct {
        const char *front, *leverage;
        double printed, within;
        const char *source;
    } cases[] = {
        {"28.0", "6", 44, .5, "[college-2004-leverage]"},   /* ours 44.02: printed in whole grams */
        {"28.0", "5.5", 39, .5, "[college-2004-leverage]"}, /* 38.82 */
        {"33.0", "5.5", 34, .5,
         "[college-2004-leverage] and 5 g more at the front, [list-2008-key-front-load]"},
        {"29.0", "5.5", 38, .5, "[college-2004-leverage] and 1 g more at the front, [college-weights]"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl_leads leads;
        hl_err err = {0};
        hl__text_printf(&text,
                        "# book: grand\n# capstan_ratio: .52\n# hammer_leverage: %s\n" HEADS
                        "A4,key_front_load,%s\nA4,hammer_weight,10.4\nA4,whippen_weight,18.5\n",
                        cases[i].leverage, cases[i].front);
        assert_false(text.failed);
        judged j = judge_by(open_shipped("grand"), text.data);
        assert_int_equal(hl_leads_for_note(&leads, j.audit, 49, NULL, &err), HL_OK);
        assert_int_equal(leads.by, HL_LEADS_WEIGHTS);
        compare_printed(text.data, cases[i].printed, cases[i].within, (double)leads.mean / 1e6,
                        cases[i].source);
        put_away(&j);
        hl__text_free(&text);
    }
}

/* What lies on the capstan, felt at the key's front: C c = P f. */
static void a_weight_on_the_capstan(void **state)
{
    (void)state;
    static const struct {
        const char *inputs;
        double on_capstan, ratio, printed, within;
        const char *source;
    } cases[] = {
        {"100 g, ratio .59 as printed", 100, .59, 58.8, .5, "[list-1999-capstan-ratio]"},
        {"10 g, ratio .59", 10, .59, 5.9, .05, "[list-1999-capstan-ratio]"},
        {"10 g, arms 2 : 1", 10, .5, 5, 1e-9, "[page-weight-levers]"},
        {"5 g of capstan, ratio about .5", 5, .5, 2, .5, "[list-2006-capstan-weight]"},
        {"6 g of capstan, ratio about .5", 6, .5, 3, .5, "[list-2006-capstan-weight]"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const hl_weights weights = {.whippen = cases[i].on_capstan, .capstan_ratio = cases[i].ratio};
        compare_printed(cases[i].inputs, cases[i].printed, cases[i].within, hl__lifted(&weights),
                        cases[i].source);
    }
}

/* ---- papers ---------------------------------------------------------------------------------------- */

/* What one millimetre of an adjuster does to a step at a note, of a sheet with these facts and dip 10. */
static double effect_at(const char *facts, const char *adjuster, const char *step, const char *note)
{
    hl_text text = {0};
    hl__text_printf(&text, "# book: grand\n%s" HEADS "C4,key_dip,10\n", facts);
    assert_false(text.failed);
    judged j = judge_by(open_shipped("grand"), text.data);
    const int n = hl_book_n_steps(j.book);
    double *values = calloc((size_t)n, sizeof *values);
    hl_effect *effects = calloc((size_t)n, sizeof *effects);
    assert_true(values != NULL && effects != NULL);
    for (int i = 0; i < n; i++)
        values[i] = NAN;
    hl__effects_at(j.book, j.sheet, hl_book_find_adjuster(j.book, adjuster),
                   hl_note_parse(hl_sheet_compass(j.sheet), note), values, effects);
    const double by = effects[hl_book_find_step(j.book, step)].by;
    free(values);
    free(effects);
    put_away(&j);
    hl__text_free(&text);
    return by;
}

/* The back rail 3 mm higher and the balance rail 1.5 leave the front where it was, when the two arms are
 * equal. */
static void two_rails(void **state)
{
    (void)state;
    static const char arms[] = "# key_front: 220\n# key_back: 220\n";
    const double front = 3 * effect_at(arms, "back_rail_cloth", "key_height", "C4") +
                         1.5 * effect_at(arms, "balance_punching", "key_height", "C4");
    compare_printed("cloth +3 mm, balance paper +1.5 mm, equal arms", 0, 1e-9, front,
                    "[list-2002-key-papers]");
}

/* Aftertouch .045 in: a paper of .005 in makes it .040, one taken out makes it .050.  The source leaves out
 * that the edge of the key moves a little more than the paper's place does: .0004 in. */
static void a_front_paper_and_aftertouch(void **state)
{
    (void)state;
    const double by = effect_at("", "front_punching", "aftertouch", "C4");
    compare_printed(".045 in, paper of .005 in added", .040, .0005, .045 + .005 * by,
                    "[college-2004-aftertouch]");
    compare_printed(".045 in, paper of .005 in removed", .050, .0005, .045 - .005 * by,
                    "[college-2004-aftertouch]");
}

/* ---- two rows of keys ------------------------------------------------------------------------------ */

static double fact_of(const hl_book *book, const char *id, int colour)
{
    const int at = hl__book_find_fact(book, id);
    assert_true(at >= 0 && hl_book_fact(book, at)->has_value);
    return hl_book_fact(book, at)->value[colour];
}

/* The sharps' balance pins are a row of their own, about 20 mm further from the player
 * [list-2003-balance-pins], 20.6 in a published plan [plan-keyboard]; all keys share one capstan line and one
 * back rail.  Places are measured from the front of a natural, where a sharp's front is 50 mm back (common
 * practice). */
static void sharps_have_a_row_of_pins_of_their_own(void **state)
{
    (void)state;
    static const double front_of[2] = {0, 50};
    hl_book *book = open_shipped("grand");
    double pin[2], capstan[2], back[2], front_pin[2];
    for (int c = 0; c < 2; c++) {
        pin[c] = front_of[c] + fact_of(book, "key_front", c);
        front_pin[c] = pin[c] - fact_of(book, "key_pin", c) - front_of[c];
        capstan[c] = pin[c] + fact_of(book, "key_capstan", c);
        back[c] = pin[c] + fact_of(book, "key_back", c);
    }
    compare_printed("rows of balance pins, mm apart", 20, 5, pin[1] - pin[0], "[list-2003-balance-pins]");
    compare_printed("rows of balance pins, mm apart", 20.6, 5, pin[1] - pin[0], "[plan-keyboard]");
    compare_printed("capstans of sharps behind those of naturals", 0, 1, capstan[1] - capstan[0],
                    "geometry: one line");
    compare_printed("back rail of sharps behind that of naturals", 0, 1, back[1] - back[0],
                    "geometry: one rail");
    compare_printed("front pin behind the front of a natural", 20, 1, front_pin[0], "[page-key-pins]");
    for (int c = 0; c < 2; c++)
        compare_printed("capstan ratio from its arms", fact_of(book, "capstan_ratio", c), .005,
                        fact_of(book, "key_capstan", c) / fact_of(book, "key_front", c), "geometry");
    hl_book_free(book);
}

/* (47 - 2) / (10 - 1) = 5: the link is [list-2010-travel-link]; the example is derived. */
static void the_travel_ratio(void **state)
{
    (void)state;
    judged j = judge_by(open_shipped("grand"),
                        "# book: grand\n" HEADS "A4,blow,47\nA4,let_off,2\nA4,key_dip,10\nA4,aftertouch,1\n");
    assert_int_equal(see(&j, "implied_travel_ratio", "A4")->value, MM(5));
    put_away(&j);
}

/* The grand's school: dip gives way by .010 in where aftertouch is held [college-2005-dip-floats].  10.9 mm
 * is beyond the naturals' 10.7, and floats; 11 does not. */
static void dip_floats_in_the_grand(void **state)
{
    (void)state;
    const char *rows = "# book: grand\n" HEADS "A4,blow,46\nA4,let_off,1.5\nA4,aftertouch,1.2\nA4,key_dip,";
    char text[256];
    strcpy(text, rows);
    strcat(text, "10.9\n");
    judged j = judge_by(open_shipped("grand"), text);
    assert_int_equal(hl_audit_float(j.audit), small_step(j.book, "key_dip"));
    assert_int_equal(see(&j, "key_dip", "A4")->verdict, HL_PASS);
    assert_true(see(&j, "key_dip", "A4")->floated);
    put_away(&j);
    strcpy(text, rows);
    strcat(text, "11\n");
    j = judge_by(open_shipped("grand"), text);
    assert_int_equal(see(&j, "key_dip", "A4")->why, HL_WHY_HIGH);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mean_weight_and_friction),
        cmocka_unit_test(friction_work_brings_the_weight_along),
        cmocka_unit_test(friction_32_is_flagged),
        cmocka_unit_test(friction_at_c5),
        cmocka_unit_test(the_hammer_leverage),
        cmocka_unit_test(the_static_balance),
        cmocka_unit_test(a_weight_on_the_capstan),
        cmocka_unit_test(two_rails),
        cmocka_unit_test(a_front_paper_and_aftertouch),
        cmocka_unit_test(sharps_have_a_row_of_pins_of_their_own),
        cmocka_unit_test(the_travel_ratio),
        cmocka_unit_test(dip_floats_in_the_grand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
