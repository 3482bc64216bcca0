/* test_implied.c - a travel ratio that nobody stated, and that this piano's readings contradict.
 *
 * Dip 10, blow 46, let-off 1.5: aftertouch = 10 - 44.5 / ratio, [list-2010-travel-link];
 * so the ratio that an aftertouch asks for is 44.5 / (10 - aftertouch).  All numbers are arithmetic;
 * a handful of eight notes, and half of them, are our own choice.  No gauge is stated, so reading and
 * model may differ by 0.076 mm (test_compare.c). */
#include "hammerline.h"
#include "judged.h"

#include <math.h>

#define FIRST 28 /* C3 of 88 keys: 28 ... 39 are its octave */

/* `n` notes from `from` up, of one colour or of any ('a', 'n', 's'); the note after the last. */
static int add_notes(hl_text *text, int from, int n, char colour, const char *aftertouch)
{
    int note = from;
    for (; n > 0; note++) {
        int pitch = HL_A0 + note - 1;
        if (colour != 'a' && hl_pitch_is_sharp(pitch) != (colour == 's'))
            continue;
        const char *name = hl_pitch_name(pitch);
        hl__text_printf(text, "%s,key_dip,10\n%s,blow,46\n%s,let_off,1.5\n%s,aftertouch,%s\n", name, name,
                        name, name, aftertouch);
        n--;
    }
    return note;
}

static judged judge_notes(hl_book *book, const char *head, int n, const char *aftertouch, int n_other,
                          const char *other)
{
    hl_text text = {0};
    hl__text_printf(&text, "%s%s", head, HEADS);
    int next = add_notes(&text, FIRST, n, 'a', aftertouch);
    add_notes(&text, next, n_other, 'a', other);
    assert_false(text.failed);
    judged j = judge_by(book, text.data);
    hl__text_free(&text);
    return j;
}

static int count_strange(const judged *j)
{
    size_t n = 0;
    int strange = 0;
    const hl_finding *findings = hl_audit_findings(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        strange += findings[i].model_differs;
    return strange;
}

static bool is_near(double a, double b)
{
    return fabs(a - b) < 1e-9;
}

static void it_is_told_once_and_no_note_is_suspected(void **state)
{
    (void)state;
    judged j = judge_notes(small_book(), "", 12, "1.75", 0, "");
    size_t n = 0;
    const hl_implied *list = hl_audit_implied(j.audit, &n);
    assert_int_equal(n, 1);
    assert_int_equal(list[0].step, small_step(j.book, "aftertouch"));
    assert_string_equal(j.book->facts[list[0].fact].id, "travel_ratio");
    assert_int_equal(list[0].colour, 0);
    assert_true(list[0].above);
    assert_false(list[0].instead);
    assert_true(is_near(list[0].assumed, 5));
    assert_true(is_near(list[0].implied, 5.39)); /* 44.5 / 8.25 = 5.3939 */
    assert_int_equal(list[0].compared, 12);
    assert_int_equal(list[0].differ, 12);
    assert_int_equal(list[0].agree, 12);
    assert_int_equal(count_strange(&j), 0);
    const hl_finding *touch = see(&j, "aftertouch", "C3");
    assert_int_equal(touch->model, MM(1.75)); /* 10 - 44.5 / 5.39 = 1.744 */
    assert_true(touch->model_assumed);
    put_away(&j);
}

/* Neither what is told nor the line that it asks for judges anything. */
static void verdicts_stay_and_the_line_settles_it(void **state)
{
    (void)state;
    judged told = judge_notes(small_book(), "", 10, "1.75", 2, "1.1");
    judged stated = judge_notes(small_book(), "# travel_ratio: 5.39\n", 10, "1.75", 2, "1.1");
    size_t n = 0, m = 0;
    hl_audit_implied(told.audit, &n);
    assert_int_equal(n, 1);
    hl_audit_implied(stated.audit, &n);
    assert_int_equal(n, 0);
    assert_int_equal(count_strange(&told), count_strange(&stated));
    const hl_finding *a = hl_audit_findings(told.audit, &n), *b = hl_audit_findings(stated.audit, &m);
    assert_int_equal(n, m);
    for (size_t i = 0; i < n; i++) {
        assert_int_equal(a[i].verdict, b[i].verdict);
        assert_int_equal(a[i].why, b[i].why);
        assert_int_equal(a[i].model, b[i].model);
    }
    assert_int_equal(see(&told, "aftertouch", "C3")->verdict, HL_FAIL); /* 1.75 is over 1.4 all the same */
    put_away(&told);
    put_away(&stated);
}

static void when_it_is_told(void **state)
{
    (void)state;
    static const struct {
        const char *what, *head, *aftertouch, *other;
        int n, n_other;
        size_t told;
        double implied; /* of the first */
        int strange;
    } cases[] = {
        {"a slip among them stays one", "", "1.75", "0.9", 12, 1, 1, 5.39, 1},
        {"eight are enough", "", "1.75", "", 8, 0, 1, 5.39, 0},
        {"seven are not", "", "1.75", "", 7, 0, 0, 0, 7},
        {"nor when most agree as it is", "", "1.75", "1.1", 8, 9, 0, 0, 8},
        {"half and half: no ratio suits most", "", "1.75", "1.1", 8, 8, 0, 0, 8},
        {"one more, and it does", "", "1.75", "1.1", 9, 8, 1, 5.39, 8},
        {"to both sides: no ratio does that", "", "1.75", "0.45", 8, 8, 0, 0, 16},
        {"too little to differ", "", "1.15", "", 12, 0, 0, 0, 0},
        {"the ratio was measured", "# travel_ratio: 5\n", "1.75", "", 12, 0, 0, 0, 12},
        {"less than nothing is lost by no lever", "# travel_ratio: 5.2\n", "1.75", "", 12, 0, 0, 0, 12},
        {"short: ratio, or lost motion instead", "", "0.6", "", 12, 0, 2, 4.73, 0}, /* 44.5 / 9.4 = 4.734 */
        {"only lost motion is left", "# travel_ratio: 5\n", "0.6", "", 12, 0, 1, .5, 0},
        {"short, and both were measured", "# travel_ratio: 5\n# lost_motion: 0\n", "0.6", "", 12, 0, 0, 0,
         12},
        {"just under three times", "", "6.9", "", 12, 0, 1, 14.4, 0}, /* 44.5 / 3.1 = 14.35; 3 x 5 = 15 */
        {"beyond it: all read off", "", "7.1", "", 12, 0, 0, 0, 12},  /* 44.5 / 2.9 = 15.34 */
        {"no ratio gives more than the dip", "", "10.5", "", 12, 0, 0, 0, 12},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_notes(small_book(), cases[i].head, cases[i].n, cases[i].aftertouch, cases[i].n_other,
                               cases[i].other);
        size_t n = 0;
        const hl_implied *list = hl_audit_implied(j.audit, &n);
        if (n != cases[i].told || (n > 0 && !is_near(list[0].implied, cases[i].implied)) ||
            count_strange(&j) != cases[i].strange)
            fail_msg("%s: %d told, the first %f, %d strange", cases[i].what, (int)n,
                     n > 0 ? list[0].implied : 0, count_strange(&j));
        put_away(&j);
    }
}

static void another_fact_may_do_instead(void **state)
{
    (void)state;
    judged j = judge_notes(small_book(), "", 12, "0.6", 0, "");
    size_t n = 0;
    const hl_implied *list = hl_audit_implied(j.audit, &n);
    assert_int_equal(n, 2);
    assert_false(list[0].instead);
    assert_false(list[0].above);
    assert_true(list[1].instead);
    assert_string_equal(j.book->facts[list[1].fact].id, "lost_motion");
    assert_true(is_near(list[1].assumed, 0));
    assert_true(is_near(list[1].implied, .5)); /* the model says 1.1, the gauge 0.6 */
    put_away(&j);
}

/* ---- naturals and sharps ----------------------------------------------------------------------- */

static judged judge_colours(const char *head, int naturals, const char *of_naturals, int sharps,
                            const char *of_sharps)
{
    hl_book *book = small_book();
    for (int i = 0; i < book->n_facts; i++)
        if (strcmp(book->facts[i].id, "travel_ratio") == 0)
            book->facts[i].value[1] = 5.1; /* the model says 1.274 there, 1.25 as it is read */
    hl_text text = {0};
    hl__text_printf(&text, "%s%s", head, HEADS);
    add_notes(&text, FIRST, naturals, 'n', of_naturals);
    add_notes(&text, FIRST, sharps, 's', of_sharps);
    assert_false(text.failed);
    judged j = judge_by(book, text.data);
    hl__text_free(&text);
    return j;
}

static void each_colour_has_its_own(void **state)
{
    (void)state;
    static const struct {
        const char *what, *head;
        int naturals;
        const char *of_naturals;
        int sharps;
        const char *of_sharps;
        double implied[2]; /* 0: not told */
        int strange;
    } cases[] = {
        /* 44.5 / 8.05 = 5.528 */
        {"both", "", 12, "1.75", 8, "1.95", {5.39, 5.53}, 0},
        {"naturals, and the sharps are right", "", 12, "1.75", 8, "1.25", {5.39, 0}, 0},
        {"sharps, and the naturals are right", "", 12, "1.1", 8, "1.95", {0, 5.53}, 0},
        {"seven sharps are too few", "", 12, "1.1", 7, "1.95", {0, 0}, 7},
        {"two sharps say nothing of theirs", "", 12, "1.75", 2, "1.95", {5.39, 0}, 2},
        {"three do, beside the naturals", "", 12, "1.75", 3, "1.95", {5.39, 5.53}, 0},
        {"the naturals' was measured", "# travel_ratio naturals: 5\n", 12, "1.1", 8, "1.95", {0, 5.53}, 0},
        {"a measured one is not doubted", "# travel_ratio naturals: 5\n", 9, "1.75", 8, "1.95", {0, 5.53}, 9},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_colours(cases[i].head, cases[i].naturals, cases[i].of_naturals, cases[i].sharps,
                                 cases[i].of_sharps);
        size_t n = 0;
        double implied[2] = {0, 0};
        const hl_implied *list = hl_audit_implied(j.audit, &n);
        for (size_t k = 0; k < n; k++) {
            assert_in_range(list[k].colour, 1, 2);
            assert_int_equal(list[k].compared, list[k].colour == 1 ? cases[i].naturals : cases[i].sharps);
            assert_true(is_near(list[k].assumed, list[k].colour == 1 ? 5 : 5.1));
            implied[list[k].colour - 1] = list[k].implied;
        }
        if (!is_near(implied[0], cases[i].implied[0]) || !is_near(implied[1], cases[i].implied[1]) ||
            count_strange(&j) != cases[i].strange)
            fail_msg("%s: %f and %f, %d strange", cases[i].what, implied[0], implied[1], count_strange(&j));
        put_away(&j);
    }
}

/* ---- told --------------------------------------------------------------------------------------- */

static void it_says_what_to_write(void **state)
{
    (void)state;
    static const struct {
        const char *aftertouch, *text;
    } cases[] = {
        {"1.75", "The book assumes 5; these readings imply 5.39."},
        {"1.75", "agrees with key_dip, blow and let_off at 12 of 12 notes; as assumed, at 0."},
        {"1.75", "\n    # travel_ratio: 5.39\n"},
        {"1.75", "If it is not, look at how aftertouch was read: most lie above what the others give."},
        {"0.6", "\n    # lost_motion: 0.5 mm\n"},
        {"0.6", "Or measure this: lost_motion. The book assumes 0 mm; these readings imply 0.5 mm."},
        {"0.6", "If none of these is, look at how aftertouch was read: most lie below what"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_notes(small_book(), "", 12, cases[i].aftertouch, 0, "");
        const hl_print print = {.width = 200};
        char *text = NULL;
        size_t size = 0;
        hl_err err;
        assert_int_equal(hl_audit_text(&text, &size, j.audit, &print, &err), HL_OK);
        if (!strstr(text, cases[i].text))
            fail_msg("'%s' is not in:\n%s", cases[i].text, text);
        hl_free(text);
        put_away(&j);
    }
}

static void programs_read_it_too(void **state)
{
    (void)state;
    judged j = judge_notes(small_book(), "", 12, "1.75", 1, "1.1");
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(hl_audit_json(&text, &size, j.audit, &err), HL_OK);
    const char *member =
        "\"implied_facts\": [\n"
        "    {\"fact\": \"travel_ratio\", \"notes\": \"all\", \"assumed\": 5, \"implied\": 5.39, \"unit\": "
        "\"ratio\", \"step\": \"aftertouch\", \"above\": true, \"instead\": false, \"compared\": 13, "
        "\"differ\": 12, \"agree\": 12}\n  ]";
    if (!strstr(text, member))
        fail_msg("no such member in:\n%s", text);
    hl_free(text);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_told_once_and_no_note_is_suspected),
        cmocka_unit_test(verdicts_stay_and_the_line_settles_it),
        cmocka_unit_test(when_it_is_told),
        cmocka_unit_test(another_fact_may_do_instead),
        cmocka_unit_test(each_colour_has_its_own),
        cmocka_unit_test(it_says_what_to_write),
        cmocka_unit_test(programs_read_it_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
