/* test_presumed.c - adjustments that nobody wrote down, and shifts too small to matter.
 *
 * The rule is our own (design, section 1).  Figures are arithmetic over the small book: a capstan
 * turn moves blow by -10 mm and aftertouch by +2 mm; no gauge is stated, so a reading is good to
 * its resolution, 0.1 mm for blow: two of them may differ by 2 * sqrt(2) * 0.1 + 0.1 = 0.38 mm and mean
 * nothing. */
#include "hammerline.h"
#include "judged.h"

#define PLAIN "note,step,reading,by,method\n"
#define NOTE  "C4,key_dip,10,,\nC4,blow,46,,\nC4,let_off,1.6,,\nC4,aftertouch,1.1,,\nC4,checking,15,,\n"

/* How many go into the verdicts; those that nothing has settled yet are listed only. */
static size_t count_settled(const judged *j)
{
    size_t n = 0, settled = 0;
    const hl_presumed *list = hl_audit_presumed(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        settled += !list[i].pending;
    return settled;
}

static judged after(const char *rows)
{
    char text[512] = PLAIN NOTE;
    strcat(text, rows);
    return judge(text);
}

static void a_changed_reading_gives_an_adjustment_away(void **state)
{
    (void)state;
    judged j = after("C4,blow,45,,\nC4,blow,45,,\n"); /* the second one settles that it holds */
    size_t n = 0;
    const hl_presumed *list = hl_audit_presumed(j.audit, &n);
    assert_int_equal(n, 2); /* the question, then the answer */
    assert_true(list[0].pending);
    assert_false(list[1].pending);
    assert_int_equal(list[0].adjuster, small_adjuster(j.book, "capstan"));
    assert_int_equal(list[0].step, small_step(j.book, "blow"));
    assert_int_equal(list[0].amount, TURN(.1)); /* 1 mm at 10 mm a turn */
    assert_int_equal(list[0].line, 7);
    const hl_finding *touch = see(&j, "aftertouch", "C4");
    assert_int_equal(touch->verdict, HL_STALE);
    assert_int_equal(touch->why, HL_WHY_ADJUSTED);
    assert_int_equal(touch->shift, MM(.2));
    assert_true(touch->presumed);
    assert_int_equal(touch->presumed_adjuster, small_adjuster(j.book, "capstan"));
    assert_int_equal(touch->presumed_step, small_step(j.book, "blow"));
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_PASS); /* it was read just now */
    assert_false(see(&j, "blow", "C4")->presumed);
    assert_int_equal(see(&j, "let_off", "C4")->verdict, HL_PASS); /* the capstan does not move it */
    put_away(&j);
}

/* A gauge of 0.5 mm, stated by the sheet: two readings may differ by 1.91 mm and mean nothing. */
static void the_sheet_states_the_gauge(void **state)
{
    (void)state;
    static const struct {
        const char *head, *reading;
        size_t n;
    } cases[] = {
        {"", "C4,blow,45.3,,\nC4,blow,45.3,,\n", 1},
        {"# gauge blow: 0.5 mm\n", "C4,blow,45.3,,\nC4,blow,45.3,,\n", 0},
        {"# gauge blow: 0.5 mm\n", "C4,blow,44,,\nC4,blow,44,,\n", 1},
        {"# gauge key_dip: 0.3 mm\n", "C4,blow,45.3,,\nC4,blow,45.3,,\n", 1}, /* another step's */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[512];
        strcpy(text, cases[i].head);
        strcat(text, PLAIN NOTE);
        strcat(text, cases[i].reading);
        judged j = judge(text);
        const size_t n = count_settled(&j);
        if (n != cases[i].n)
            fail_msg("%s%s", cases[i].head, cases[i].reading);
        put_away(&j);
    }
}

static void what_presumes_an_adjustment(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        size_t n;
    } cases[] = {
        {"a repeat within the gauge", "C4,blow,46.1,,\n", 0},
        {"two gauges apart by chance", "C4,blow,45.7,,\n", 0},
        {"beyond them, and nothing has settled it", "C4,blow,45.5,,\n", 0},
        {"beyond them, and read again", "C4,blow,45.5,,\nC4,blow,45.5,,\n", 1},
        {"the first one was right", "C4,blow,45.5,,\nC4,blow,46,,\n", 0},
        {"a second person", "C4,blow,45,Ann,\n", 0},
        {"the second person's own repeat", "C4,blow,45,Ann,\nC4,blow,45,Ann,\n", 1},
        {"another method", "C4,blow,45,,jig\n", 0},
        {"a new pass", ",pass,final,,\nC4,blow,45,,\n", 1},
        {"twice in the new pass", ",pass,final,,\nC4,blow,45,,\nC4,blow,44,,\n", 1},
        {"as the recorded turn predicts", "C4,capstan,+1/8 turn,,\nC4,blow,44.8,,\n", 0},
        {"a tenth off it is the turn's own doubt", "C4,capstan,+1/8 turn,,\nC4,blow,44.6,,\n", 0},
        {"far from what it should be, which is in doubt", "C4,capstan,+1/4 turn,,\nC4,blow,46,,\n", 0},
        {"far from what it should be, and read again", "C4,capstan,+1/4 turn,,\nC4,blow,46,,\nC4,blow,46,,\n",
         1},
        {"turned, nobody said how far", "C4,capstan,done,,\nC4,blow,43,,\n", 0},
        {"the reading was taken back", "C4,blow,45,,\nC4,blow,void,,\n", 0},
        {"a mistyped one was taken back first", "C4,blow,void,,\nC4,blow,45,,\n", 0},
        {"judged words have no numbers", "C4,repetition,ok,,\nC4,repetition,weak,,\n", 0},
        {"dip goes by its front punching", "C4,key_dip,9.6,,\nC4,key_dip,9.6,,\n", 1},
        {"nothing in numbers moves the key height", "C4,key_height,63.5,,\nC4,key_height,64,,\n", 0},
        {"a gauge is no number", "C4,blow,within,,\n", 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = after(cases[i].rows);
        const size_t n = count_settled(&j);
        if (n != cases[i].n)
            fail_msg("%s: %zu presumed", cases[i].what, n);
        put_away(&j);
    }
}

/* Blow first, then aftertouch, which went with it: that explains it, and nobody touched the dip. */
static void one_presumption_explains_what_follows(void **state)
{
    (void)state;
    judged j = after("C4,blow,45,,\nC4,blow,45,,\nC4,aftertouch,1.3,,\n");
    assert_int_equal(count_settled(&j), 1);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "aftertouch", "C4")->verdict, HL_PASS);
    put_away(&j);
}

static void a_recorded_turn_is_not_called_presumed(void **state)
{
    (void)state;
    judged j = after("C4,capstan,+1/4 turn,,\nC4,blow,46,,\n");
    /* on record +1/4, and by the look of it nothing moved: one of the two is wrong */
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_DOUBTFUL);
    assert_int_equal(see(&j, "blow", "C4")->why, HL_WHY_WORK);
    put_away(&j);
    j = after("C4,capstan,+1/8 turn,,\nC4,blow,44,,\n");
    assert_int_equal(see(&j, "aftertouch", "C4")->verdict, HL_STALE);
    assert_false(see(&j, "aftertouch", "C4")->presumed); /* stale by what is on record alone */
    put_away(&j);
}

static void the_audit_says_that_it_presumed(void **state)
{
    (void)state;
    hl_err err = {0};
    char *text = NULL;
    const hl_print print = {.width = 400};
    judged j = after("C4,blow,45,,\nC4,blow,45,,\n");
    assert_int_equal(hl_audit_text(&text, NULL, j.audit, &print, &err), HL_OK);
    const char want[] = "but blow has changed since with no work on record: presumed that somebody adjusted "
                        "the capstan: expect 1.3";
    if (!strstr(text, want))
        fail_msg("%s", text);
    hl_free(text);
    put_away(&j);
}

/* One note read again does not turn the whole job red. */
static void a_whole_adjuster_is_never_presumed_from_one_note(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "capstan")].whole = true;
    judged j = judge_by(book, PLAIN NOTE "D4,blow,46,,\nC4,blow,45,,\n");
    assert_int_equal(see(&j, "aftertouch", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "blow", "D4")->verdict, HL_PASS);
    put_away(&j);
}

/* Lead was put in and not written down: mean weight rests on an upweight from before. */
static void derived_steps_say_that_it_was_presumed(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,downweight,52\nC4,upweight,28\nC4,downweight,45\nC4,downweight,45\n");
    assert_int_equal(see(&j, "upweight", "C4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "upweight", "C4")->shift, G(-7));
    const hl_finding *mean = see(&j, "mean_weight", "C4");
    assert_int_equal(mean->verdict, HL_STALE);
    assert_true(mean->presumed);
    assert_int_equal(mean->presumed_adjuster, small_adjuster(j.book, "key_lead"));
    put_away(&j);
}

/* ---- shifts that are only noted ------------------------------------------------------------- */

static void a_small_shift_is_noted_and_passes(void **state)
{
    (void)state;
    judged j = after("C4,capstan,+1/50 turn,,\n"); /* 0.2 mm of blow, of the 0.25 that it bears */
    const hl_finding *blow = see(&j, "blow", "C4");
    assert_int_equal(blow->verdict, HL_PASS);
    assert_true(blow->shifted);
    assert_int_equal(blow->moved, MM(-.2));
    assert_false(see(&j, "key_dip", "C4")->shifted);
    put_away(&j);
    j = after("C4,capstan,+1/50 turn,,\nC4,capstan,-1/50 turn,,\n");
    assert_false(see(&j, "blow", "C4")->shifted);
    put_away(&j);
    j = after("C4,capstan,+1/500 turn,,\n"); /* 0.02 mm: nobody can read it */
    assert_false(see(&j, "blow", "C4")->shifted);
    put_away(&j);
    j = after("C4,front_punching,+.01 mm,,\n"); /* "slight" on checking: no number, told all the same */
    assert_true(see(&j, "checking", "C4")->shifted);
    assert_int_equal(see(&j, "checking", "C4")->moved, 0);
    assert_int_equal(see(&j, "checking", "C4")->verdict, HL_PASS);
    put_away(&j);
}

/* Two weights each bear 1.25 and 1.5 g; their mean bears 0.9 after the target is narrowed. */
static void small_shifts_add_up_in_a_derived_step(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_target *targets = (hl_target *)book->steps[small_step(book, "mean_weight")].targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = (hl_target){G(36.4), G(38), G(43.6), true, true};
    judged j = judge_by(book, HEADS "C4,downweight,52\nC4,upweight,28\nC4,key_lead,+1\n");
    assert_int_equal(see(&j, "downweight", "C4")->verdict, HL_PASS);
    assert_true(see(&j, "downweight", "C4")->shifted);
    assert_int_equal(see(&j, "mean_weight", "C4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "mean_weight", "C4")->shift, G(-1));
    assert_int_equal(see(&j, "friction", "C4")->verdict, HL_PASS); /* both weights went together */
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_changed_reading_gives_an_adjustment_away),
        cmocka_unit_test(the_sheet_states_the_gauge),
        cmocka_unit_test(what_presumes_an_adjustment),
        cmocka_unit_test(one_presumption_explains_what_follows),
        cmocka_unit_test(a_recorded_turn_is_not_called_presumed),
        cmocka_unit_test(a_whole_adjuster_is_never_presumed_from_one_note),
        cmocka_unit_test(derived_steps_say_that_it_was_presumed),
        cmocka_unit_test(the_audit_says_that_it_presumed),
        cmocka_unit_test(a_small_shift_is_noted_and_passes),
        cmocka_unit_test(small_shifts_add_up_in_a_derived_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
