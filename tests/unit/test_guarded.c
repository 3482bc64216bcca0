/* test_guarded.c - verdicts that reckon with the gauge.
 *
 * The zones are those of ISO 14253-1 (proven good inside the limits shrunk by U, proven bad outside
 * them widened by U; from memory, 1998 form) and of ILAC-G8:09/2019, 4.2 (guard band w = U).  All in whole
 * millionths: on a shrunk limit passes. */
#include "judged.h"

#include "guard_band.h"
#include "verdict.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>

static const hl_audit_options GUARDED = {.rule = HL_RULE_GUARDED};

static judged guarded(const char *text)
{
    return judge_with(small_book(), text, &GUARDED);
}

static void the_zones(void **state)
{
    (void)state;
    static const struct {
        double low, high, guard, value;
        hl_verdict simple, guarded;
        hl_why why;
        const char *source;
    } cases[] = {
        {-4, 4, 1.6, 3.20, HL_PASS, HL_DOUBTFUL, HL_WHY_HIGH, "ILAC-G8: w = 0 pass; w = U = 1.6, A = 2.4"},
        {-4, 4, 1.6, 2.4, HL_PASS, HL_PASS, HL_WHY_NONE, "ILAC-G8: on the acceptance limit"},
        {-4, 4, 1.6, 2.400001, HL_PASS, HL_DOUBTFUL, HL_WHY_HIGH, "a millionth past it"},
        {-4, 4, 1.6, -3.20, HL_PASS, HL_DOUBTFUL, HL_WHY_LOW, "ILAC-G8, mirrored"},
        {-4, 4, 1.6, 5.6, HL_FAIL, HL_DOUBTFUL, HL_WHY_HIGH, "ILAC-G8: conditional fail up to TL + w"},
        {-4, 4, 1.6, 5.600001, HL_FAIL, HL_FAIL, HL_WHY_HIGH, "ILAC-G8: fail past TL + w"},
        {-4, 4, 1.6, -5.7, HL_FAIL, HL_FAIL, HL_WHY_LOW, "ILAC-G8: fail below TL - w"},
        {19.95, 20.05, .015, 20.040, HL_PASS, HL_DOUBTFUL, HL_WHY_HIGH,
         "arithmetic: 20.035 < 20.040 < 20.065 is undecided"},
        {19.95, 20.05, .015, 20.035, HL_PASS, HL_PASS, HL_WHY_NONE, "arithmetic"},
        {9.95, 10.05, .04, 10.03, HL_PASS, HL_DOUBTFUL, HL_WHY_HIGH,
         "arithmetic: 10.01 < 10.03 < 10.09 is undecided"},
        {0, 1, .6, .5, HL_PASS, HL_DOUBTFUL, HL_WHY_LOW, "U past half the tolerance: nothing passes"},
        {0, 1, .5, .5, HL_PASS, HL_PASS, HL_WHY_NONE, "arithmetic: one point is left"},
        {0, 1, .6, .7, HL_PASS, HL_DOUBTFUL, HL_WHY_HIGH, "the nearer limit is named"},
        {0, 1, 0, 1, HL_PASS, HL_PASS, HL_WHY_NONE, "without uncertainty it is the simple rule"},
        {0, 1, 0, 1.000001, HL_FAIL, HL_FAIL, HL_WHY_HIGH, "a millionth past it fails"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const hl_target target = {MM(cases[i].low), MM((cases[i].low + cases[i].high) / 2), MM(cases[i].high),
                                  true, true};
        hl_ruling ruling = hl__verdict_guarded(&target, &target, MM(cases[i].value), MM(cases[i].guard));
        if (hl__verdict_value(&target, MM(cases[i].value)).verdict != cases[i].simple ||
            ruling.verdict != cases[i].guarded || ruling.why != cases[i].why)
            fail_msg("case %zu: %s (%s)", i, hl_verdict_name(ruling.verdict), cases[i].source);
    }
}

static void one_limit_is_guarded_alone(void **state)
{
    (void)state;
    const hl_target least = {MM(20), MM(25), 0, true, false}, most = {0, MM(1), MM(2), false, true};
    assert_int_equal(hl__verdict_guarded(&least, &least, MM(1000), MM(1)).verdict, HL_PASS);
    assert_int_equal(hl__verdict_guarded(&least, &least, MM(20.5), MM(1)).why, HL_WHY_LOW);
    assert_int_equal(hl__verdict_guarded(&least, &least, MM(18.9), MM(1)).verdict, HL_FAIL);
    assert_int_equal(hl__verdict_guarded(&most, &most, MM(-1000), MM(1)).verdict, HL_PASS);
    assert_int_equal(hl__verdict_guarded(&most, &most, MM(1.5), MM(1)).why, HL_WHY_HIGH);
    const hl_target any = {0};
    assert_int_equal(hl__verdict_guarded(&any, &any, MM(1), MM(1)).verdict, HL_PASS);
}

/* What the rule is worth: with U = 2 u, a value that passes guarded is out with a chance of at most
 * 1 - Phi(2) = 2.3 % (ILAC-G8: under 2.5 %), and its examples come out as JCGM 106 has them. */
static void what_the_guard_is_worth(void **state)
{
    (void)state;
    static const struct {
        double low, high, u, value, chance;
        hl_verdict want;
        const char *source;
    } cases[] = {
        {12.5, 16.3, 1.8, 13.6, .66263, HL_DOUBTFUL, "JCGM 106:2012, 7.4: p = 0.66"},
        {-1e3, -5.40, .05, -5.47, .919243, HL_DOUBTFUL, "JCGM 106:2012, 7.3 (inputs from memory)"},
        {490, 1e3, 8.6, 509.7, .989010, HL_PASS, "JCGM 106:2012, 7.3 (inputs from memory)"},
        {-4, 4, .8, 3.20, 1 - .158655, HL_DOUBTFUL, "ILAC-G8: PFA 0.158655"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const hl_target target = {MM(cases[i].low), 0, MM(cases[i].high), true, true};
        double chance = gsl_cdf_ugaussian_P((cases[i].high - cases[i].value) / cases[i].u) -
                        gsl_cdf_ugaussian_P((cases[i].low - cases[i].value) / cases[i].u);
        if (!(fabs(chance - cases[i].chance) < 2e-6))
            fail_msg("%.6f: %s", chance, cases[i].source);
        hl_verdict got =
            hl__verdict_guarded(&target, &target, MM(cases[i].value), MM(2 * cases[i].u)).verdict;
        if (got != cases[i].want)
            fail_msg("%s: %s", hl_verdict_name(got), cases[i].source);
        assert_true(got != HL_PASS || chance >= .977);
    }
}

/* The small book's dip: 9.8-10.2 mm, read to 0.05. */
static void where_the_uncertainty_comes_from(void **state)
{
    (void)state;
    static const struct {
        const char *top;
        double book;
        hl_gauge_from from;
        double want;
    } cases[] = {
        {"", 0, HL_GAUGE_RESOLUTION, .05},
        {"", .08, HL_GAUGE_BOOK, .08},
        {"# gauge key_dip: 0.1 mm\n", .08, HL_GAUGE_SHEET, .1},
        {"# gauge key dip: 0.02\n", .08, HL_GAUGE_SHEET, .02},
        {"# gauge key_dip: .001 in\n", 0, HL_GAUGE_SHEET, .0254},
        {"# gauges: dial no. 3\n# gauge: a dial\n# gauge maker: unknown\n", .08, HL_GAUGE_BOOK, .08},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200];
        hl_book *book = small_book();
        book->steps[small_step(book, "key_dip")].gauge = MM(cases[i].book);
        snprintf(text, sizeof text, "%s%sC4,key_dip,10.13\n", cases[i].top, HEADS);
        judged j = judge_with(book, text, &GUARDED);
        hl_gauge_from from;
        assert_int_equal(hl__gauge_reading(j.sheet, j.book, small_step(book, "key_dip"), &from),
                         MM(cases[i].want));
        assert_int_equal(from, cases[i].from);
        const hl_finding *dip = see(&j, "key_dip", "C4");
        assert_true(dip->guarded);
        assert_int_equal(dip->guard, MM(cases[i].want));
        assert_int_equal(dip->verdict, 10.13 <= 10.2 - cases[i].want ? HL_PASS : HL_DOUBTFUL);
        put_away(&j);
    }
}

static void bad_gauge_facts_are_refused(void **state)
{
    (void)state;
    static const char *const tops[] = {
        "# gauge keydip: 0.1\n",         "# gauge key_dip: 0\n",
        "# gauge key_dip: -0.1\n",       "# gauge key_dip: good\n",
        "# gauge key_dip: 0.1 g\n",      "# gauge friction: 1\n",
        "# gauge repetition: 0.1\n",     "# gauge elsewhere: 0.1\n",
        "# gauge key_dip sharps: 0.1\n", "# gauge key_dip: 0.1\n# gauge key dip: 0.2\n",
    };
    for (size_t i = 0; i < sizeof tops / sizeof *tops; i++) {
        char text[200];
        hl_book *book = small_book();
        hl_sheet *sheet = NULL;
        hl_err err = {0};
        snprintf(text, sizeof text, "%s%sC4,key_dip,10\n", tops[i], HEADS);
        assert_int_equal(hl_sheet_open_text(&sheet, "bench.csv", text, strlen(text), &err), HL_OK);
        if (hl_sheet_read(sheet, book, &err) != HL_E_SHEET || err.line < 1 || !err.todo[0])
            fail_msg("%s: %s; %s", tops[i], err.what, err.todo);
        hl_sheet_free(sheet);
        small_book_free(book);
    }
}

/* Mean weight is half the sum, friction half the difference of two weighings: with 1 g each both are
 * known to sqrt(1/4 + 1/4) = 0.707107 g.  A later one made of both, mean + friction = downweight, is
 * known to 1 g, not to sqrt(0.5 + 0.5 + ...) of four: downweight is one reading. */
static void derived_values_take_it_from_their_readings(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "mean_weight")].formula = small_formula(book, "(downweight + upweight) / 2");
    judged j = judge_with(book, HEADS "C4,downweight,50\nC4,upweight,26\n", &GUARDED);
    assert_int_equal(see(&j, "mean_weight", "C4")->guard, 707107);
    assert_int_equal(see(&j, "friction", "C4")->guard, 707107);
    assert_int_equal(see(&j, "mean_weight", "C4")->verdict, HL_PASS); /* 38 of 34-42 */
    put_away(&j);

    book = small_book();
    hl_step *friction = &book->steps[small_step(book, "friction")];
    friction->formula = small_formula(book, "mean_weight + (downweight - upweight) / 2");
    small_order(book);
    friction->targets = book->steps[small_step(book, "downweight")].targets;
    j = judge_with(book,
                   "# gauge downweight: 1\n# gauge upweight: 3\n" HEADS "C4,downweight,50\nC4,upweight,26\n",
                   &GUARDED);
    assert_int_equal(see(&j, "friction", "C4")->guard, G(1)); /* the upweight falls out */
    put_away(&j);
}

/* Root of the sum of squares, each times the slope: arithmetic, 0.3 and 0.4 give 0.5. */
static void gu3(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "friction")].formula = small_formula(book, "downweight - upweight");
    small_order(book);
    judged j = judge_with(
        book, "# gauge downweight: 0.3\n# gauge upweight: 0.4\n" HEADS "C4,downweight,50\nC4,upweight,26\n",
        &GUARDED);
    assert_int_equal(see(&j, "friction", "C4")->guard, G(.5));
    put_away(&j);
}

static void doubtful_is_not_ready(void **state)
{
    (void)state;
    judged j = judge_finished(small_book(), "");
    assert_true(hl_audit_ready(j.audit));
    put_away(&j);
    /* dip 10.17 passes simply; read to 0.05 it is within 0.05 of 10.2 */
    j = guarded(HEADS "C4,key_dip,10.17\n");
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_DOUBTFUL);
    assert_int_equal(see(&j, "key_dip", "C4")->n_corrections, 0);
    assert_int_equal(hl_audit_total(j.audit)->count[HL_DOUBTFUL], 1);
    assert_false(hl_audit_ready(j.audit));
    put_away(&j);
}

static void what_it_leaves_alone(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "key_dip")].gauge_name = "dip block";
    judged j = judge_with(book,
                          "# go gauge key_dip: dip block, 9.8-10.2 mm\n" HEADS
                          "C4,key_dip,within\nD4,key_dip,over\nC4,repetition,ok\nE4,repetition,weak\n"
                          "F4,blow,46\nF4,capstan,+1\n",
                          &GUARDED);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_PASS);
    assert_false(see(&j, "key_dip", "C4")->guarded);
    assert_int_equal(see(&j, "key_dip", "D4")->verdict, HL_FAIL);
    assert_int_equal(see(&j, "repetition", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "repetition", "E4")->verdict, HL_FAIL);
    assert_int_equal(see(&j, "blow", "F4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "drop", "F4")->verdict, HL_MISSING);
    put_away(&j);
    /* who stands out from the neighbours is judged as ever: E4 by 0.2, allowed is 0.15 */
    j = guarded(HEADS "C4,key_dip,10.1\nD4,key_dip,10.1\nE4,key_dip,9.9\nF4,key_dip,10.1\nG4,key_dip,10.1\n");
    assert_int_equal(see(&j, "key_dip", "E4")->why, HL_WHY_UNEVEN);
    put_away(&j);
}

/* Somebody has to know what the gauge was made to, by either rule. */
static void a_gauge_that_nobody_names_settles_nothing(void **state)
{
    (void)state;
    judged j = guarded(HEADS "C4,blow,within\nD4,blow,under\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_DOUBTFUL);
    assert_int_equal(see(&j, "blow", "C4")->why, HL_WHY_OTHER_GAUGE);
    assert_int_equal(see(&j, "blow", "D4")->verdict, HL_FAIL);
    put_away(&j);
    j = judge(HEADS "C4,blow,within\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_DOUBTFUL);
    put_away(&j);
    j = judge("# go gauge blow: strip, 45-47 mm\n" HEADS "C4,blow,within\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_PASS);
    put_away(&j);
}

/* Dip, blow and aftertouch as one set: aftertouch may lie 0.2 mm beyond 0.8-1.4.  Let-off stands in
 * the set too.  0.05 mm is what dip and aftertouch are read to, 0.1 blow and let-off. */
static void a_float_that_hangs_on_a_doubt(void **state)
{
    (void)state;
    static const struct {
        const char *dip, *aftertouch;
        hl_verdict want;
        bool floated;
        const char *why;
    } cases[] = {
        {"10.0", "1.50", HL_PASS, true, "beyond 1.4, inside 1.6 - 0.05, and the others surely pass"},
        {"10.0", "1.58", HL_DOUBTFUL, false, "too near 1.6"},
        {"10.0", "1.64", HL_DOUBTFUL, false, "past 1.6 by less than 0.05"},
        {"10.0", "1.70", HL_FAIL, false, "past 1.65"},
        {"10.17", "1.50", HL_DOUBTFUL, false, "dip is in doubt, so it may be allowed or not"},
        {"10.17", "1.30", HL_PASS, false, "inside the bare target whatever dip is"},
        {"10.17", "1.70", HL_FAIL, false, "out even if it may float"},
        {"10.30", "1.50", HL_FAIL, false, "dip is out, so nothing floats"},
        {"10.30", "1.42", HL_DOUBTFUL, false, "past 1.4 by less than 0.05"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200];
        hl_book *book = small_book();
        book->floats.step = small_step(book, "aftertouch");
        book->floats.within = MM(.2);
        snprintf(text, sizeof text, "%sC4,key_dip,%s\nC4,blow,46\nC4,let_off,1.6\nC4,aftertouch,%s\n", HEADS,
                 cases[i].dip, cases[i].aftertouch);
        judged j = judge_with(book, text, &GUARDED);
        const hl_finding *aftertouch = see(&j, "aftertouch", "C4");
        if (aftertouch->verdict != cases[i].want || aftertouch->floated != cases[i].floated)
            fail_msg("%s: %s", cases[i].why, hl_verdict_name(aftertouch->verdict));
        put_away(&j);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_zones),
        cmocka_unit_test(one_limit_is_guarded_alone),
        cmocka_unit_test(what_the_guard_is_worth),
        cmocka_unit_test(where_the_uncertainty_comes_from),
        cmocka_unit_test(bad_gauge_facts_are_refused),
        cmocka_unit_test(derived_values_take_it_from_their_readings),
        cmocka_unit_test(gu3),
        cmocka_unit_test(doubtful_is_not_ready),
        cmocka_unit_test(what_it_leaves_alone),
        cmocka_unit_test(a_gauge_that_nobody_names_settles_nothing),
        cmocka_unit_test(a_float_that_hangs_on_a_doubt),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
