/* test_compare.c - an aftertouch that was read beside the one that dip, blow and let-off make.
 *
 * aftertouch = dip - (blow - let-off) / ratio - lost motion: [list-2010-travel-link];
 * the worked numbers are arithmetic, since no published example was found. */
#include "judged.h"

static void what_the_model_says(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        double model;
    } cases[] = {
        {"# travel_ratio: 5\n" HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\nC4,aftertouch,1.1\n", 1.1},
        /* 2.0909, 1.5273: rounded to what a person reads, 0.05 */
        {"# travel_ratio: 5.5\n" HEADS "C4,key_dip,10\nC4,blow,45\nC4,let_off,1.5\nC4,aftertouch,1.1\n", 2.1},
        {"# travel_ratio: 5.5\n# lost_motion: 0.2\n" HEADS
         "C4,key_dip,10\nC4,blow,47\nC4,let_off,1.5\nC4,aftertouch,1.1\n",
         1.55},
        {"# travel_ratio: 5\n" HEADS "C4,key_dip,9.6\nC4,blow,44\nC4,let_off,1\nC4,aftertouch,1.1\n", 1},
        {"# lost_motion: 0.1\n" HEADS "C4,key_dip,10\nC4,blow,45\nC4,let_off,2\nC4,aftertouch,1.1\n", 1.3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge(cases[i].rows);
        const hl_finding *f = see(&j, "aftertouch", "C4");
        assert_true(f->has_model);
        assert_int_equal(f->model, MM(cases[i].model));
        assert_int_equal(f->value, MM(1.1)); /* the reading stays what was read */
        assert_false(f->computed);
        put_away(&j);
    }
}

/* The small book states no gauges, so the resolutions stand in: dip .05, blow .1, let-off .1,
 * aftertouch .05, and slopes 1, 1/5, 1/5: the root of .05^2 + .05^2 + .02^2 + .02^2 is 0.0762.
 * With the gauges of the shipped grand (.1, .5, .3, .15) it is the root of
 * .1^2 + .1^2 + .06^2 + .15^2 = 0.2147.  The model says 1.10. */
static void when_the_two_differ(void **state)
{
    (void)state;
    static const struct {
        bool gauges;
        const char *reading;
        bool differs;
        hl_verdict verdict;
    } cases[] = {
        {false, "1.1", false, HL_PASS},    {false, "1.176", false, HL_PASS}, {false, "1.177", true, HL_PASS},
        {false, "1.024", false, HL_PASS},  {false, "1.023", true, HL_PASS},  {true, "1.2", false, HL_PASS},
        {true, "1.3147", false, HL_PASS},  {true, "1.3149", true, HL_PASS},  {true, "0.5", true, HL_FAIL},
        {true, "0.799999", true, HL_FAIL}, /* it differs, and it is short: the limit alone judges */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        char text[256];
        if (cases[i].gauges) {
            book->steps[small_step(book, "key_dip")].gauge = MM(.1);
            book->steps[small_step(book, "blow")].gauge = MM(.5);
            book->steps[small_step(book, "let_off")].gauge = MM(.3);
            book->steps[small_step(book, "aftertouch")].gauge = MM(.15);
        }
        strcpy(text, HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\nC4,aftertouch,");
        strcat(text, cases[i].reading);
        strcat(text, "\n");
        judged j = judge_by(book, text);
        const hl_finding *f = see(&j, "aftertouch", "C4");
        assert_true(f->has_model);
        if (f->model_differs != cases[i].differs)
            fail_msg("%s, %s gauges", cases[i].reading, cases[i].gauges ? "with" : "without");
        assert_int_equal(f->verdict, cases[i].verdict);
        put_away(&j);
    }
}

/* A gauge that the sheet states goes before the book's; reckoned as above.  Nobody reads finer than the
 * resolution, whatever is stated. */
static void the_sheet_states_the_gauge(void **state)
{
    (void)state;
    static const struct {
        const char *head, *reading;
        bool differs;
    } cases[] = {
        /* .3^2 + .05^2 + .02^2 + .02^2: 0.3055 */
        {"# gauge aftertouch: 0.3 mm\n", "1.405", false},
        {"# gauge aftertouch: 0.3 mm\n", "1.406", true},
        /* .05^2 + .2^2 + .02^2 + .02^2: 0.2081 */
        {"# gauge key_dip: 0.2 mm\n", "1.308", false},
        {"# gauge key_dip: 0.2 mm\n", "1.309", true},
        /* a fifth of the blow's 1 mm: .05^2 + .05^2 + .2^2 + .02^2: 0.2131 */
        {"# gauge blow: 1 mm\n", "1.313", false},
        {"# gauge blow: 1 mm\n", "1.314", true},
        {"# gauge aftertouch: 0.001 mm\n", "1.176", false},
        {"# gauge aftertouch: 0.001 mm\n", "1.177", true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[256];
        strcpy(text, cases[i].head);
        strcat(text, HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\nC4,aftertouch,");
        strcat(text, cases[i].reading);
        strcat(text, "\n");
        judged j = judge(text);
        if (see(&j, "aftertouch", "C4")->model_differs != cases[i].differs)
            fail_msg("%s%s", cases[i].head, cases[i].reading);
        put_away(&j);
    }
}

static void when_nothing_can_be_compared(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
    } cases[] = {
        {"the blow was not read", "C4,key_dip,10\nC4,let_off,1.5\nC4,aftertouch,1.1\n"},
        {"aftertouch itself was not", "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\n"},
        {"the gauge says no number", "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\nC4,aftertouch,within\n"},
        {"the dip has changed since",
         "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\nC4,front_punching,+0.254\nC4,aftertouch,1.1\n"},
        {"the aftertouch has",
         "C4,aftertouch,1.1\nC4,front_punching,+0.381\nC4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[256] = HEADS;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_finding *f = see(&j, "aftertouch", "C4");
        if (f->has_model || f->model_differs)
            fail_msg("%s", cases[i].what);
        put_away(&j);
    }
}

/* A model is only as good as its ratio: one that nobody measured is said to be assumed. */
static void an_assumed_ratio_is_told(void **state)
{
    (void)state;
    const char *rows = HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\nC4,aftertouch,1.1\n";
    judged j = judge(rows);
    assert_true(see(&j, "aftertouch", "C4")->model_assumed);
    assert_false(see(&j, "aftertouch", "C4")->assumed); /* the reading is no assumption */
    put_away(&j);
    char text[256] = "# travel_ratio: 5\n# lost_motion: 0\n";
    strcat(text, rows);
    j = judge(text);
    assert_false(see(&j, "aftertouch", "C4")->model_assumed);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_the_model_says),        cmocka_unit_test(when_the_two_differ),
        cmocka_unit_test(the_sheet_states_the_gauge), cmocka_unit_test(when_nothing_can_be_compared),
        cmocka_unit_test(an_assumed_ratio_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
