/* test_float.c - the one step that a book lets give way, where the others of its set all pass.
 *
 * The small book ties dip, blow, let-off and aftertouch by aftertouch's model.  Here dip may give
 * way by 0.25 mm, as one school has it (.010 in: [college-2005-dip-floats]); dip's own target is
 * 9.8 to 10.2 mm, its evenness 0.15.  The rest is arithmetic. */
#include "judged.h"

#include "tolerance_float.h"

#define OTHERS "C4,blow,46\nC4,let_off,1.6\nC4,aftertouch,1.1\n"

static hl_book *floating(const char *step, double within)
{
    hl_book *book = small_book();
    book->floats = (hl_float){small_step(book, step), MM(within), {"test", 1}};
    return book;
}

static judged judge_floating(const char *step, double within, const char *rows)
{
    char text[512] = HEADS;
    strcat(text, rows);
    return judge_by(floating(step, within), text);
}

static void what_dip_may_do(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        hl_verdict verdict;
        hl_why why;
        bool floated;
        double shift;
    } cases[] = {
        {"inside its target nothing floats", "C4,key_dip,10.2\n" OTHERS, HL_PASS, HL_WHY_NONE, false, 0},
        {"beyond it, the others pass", "C4,key_dip,10.4\n" OTHERS, HL_PASS, HL_WHY_NONE, true, .2},
        {"on the widened limit", "C4,key_dip,10.45\n" OTHERS, HL_PASS, HL_WHY_NONE, true, .25},
        {"a millionth past it", "C4,key_dip,10.450001\n" OTHERS, HL_FAIL, HL_WHY_HIGH, false, 0},
        {"on the lower one", "C4,key_dip,9.55\n" OTHERS, HL_PASS, HL_WHY_NONE, true, -.25},
        {"a millionth below it", "C4,key_dip,9.549999\n" OTHERS, HL_FAIL, HL_WHY_LOW, false, 0},
        {"in inches as well: .411 in is 10.4394 mm", "C4,key_dip,.411 in\n" OTHERS, HL_PASS, HL_WHY_NONE,
         true, .2394},
        {"the gauge gives no number to float", "C4,key_dip,over\n" OTHERS, HL_FAIL, HL_WHY_HIGH, false, 0},
        {"another of the set fails", "C4,key_dip,10.4\n" OTHERS "C4,blow,47.1\n", HL_FAIL, HL_WHY_HIGH, false,
         0},
        {"another was not read", "C4,key_dip,10.4\nC4,blow,46\nC4,let_off,1.6\n", HL_FAIL, HL_WHY_HIGH, false,
         0},
        {"another was withdrawn", "C4,key_dip,10.4\n" OTHERS "C4,let_off,void\n", HL_FAIL, HL_WHY_HIGH, false,
         0},
        {"another was overtaken", "C4,key_dip,10.4\n" OTHERS "C4,capstan,+1/4 turn\n", HL_FAIL, HL_WHY_HIGH,
         false, 0},
        {"gauges whose limits nobody stated show nothing of the others",
         "C4,key_dip,10.4\nC4,blow,within\nC4,let_off,within\nC4,aftertouch,within\n", HL_FAIL, HL_WHY_HIGH,
         false, 0},
        {"a step outside the set does not matter", "C4,key_dip,10.4\n" OTHERS "C4,checking,18\n", HL_PASS,
         HL_WHY_NONE, true, .2},
        {"another stands out from its neighbours",
         "C4,key_dip,10.4\n" OTHERS "D4,blow,45.1\nE4,blow,45.1\nF4,blow,45.1\n", HL_FAIL, HL_WHY_HIGH, false,
         0},
        {"what gives way is still to do so evenly",
         "C4,key_dip,10.4\n" OTHERS "D4,key_dip,10\nE4,key_dip,10\nF4,key_dip,10\n", HL_FAIL, HL_WHY_UNEVEN,
         true, .4},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_floating("key_dip", .25, cases[i].rows);
        const hl_finding *f = see(&j, "key_dip", "C4");
        if (f->verdict != cases[i].verdict || f->why != cases[i].why || f->floated != cases[i].floated ||
            f->shift != MM(cases[i].shift))
            fail_msg("%s", cases[i].what);
        assert_int_equal(f->target.high, MM(10.2)); /* the target itself stays what the book says */
        const hl_tally *tally = hl_audit_tally(j.audit, small_step(j.book, "key_dip"));
        assert_int_equal(tally->floated, f->floated && f->verdict == HL_PASS ? 1 : 0);
        put_away(&j);
    }
}

static void the_audit_names_what_floats(void **state)
{
    (void)state;
    judged j = judge_floating("key_dip", .25, "C4,key_dip,10.4\n" OTHERS);
    assert_int_equal(hl_audit_float(j.audit), small_step(j.book, "key_dip"));
    assert_int_equal(hl_audit_total(j.audit)->floated, 1);
    assert_int_equal(see(&j, "key_dip", "C4")->n_corrections, 0);
    put_away(&j);
    j = judge(HEADS "C4,key_dip,10.4\n" OTHERS);
    assert_int_equal(hl_audit_float(j.audit), -1);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_FAIL);
    put_away(&j);
}

/* Another school: dip is held, aftertouch (0.8 to 1.4) gives way; a third lets blow go. */
static void other_schools(void **state)
{
    (void)state;
    judged j =
        judge_floating("aftertouch", .2, "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.6\nC4,aftertouch,.6\n");
    assert_true(see(&j, "aftertouch", "C4")->floated);
    assert_int_equal(see(&j, "aftertouch", "C4")->shift, MM(-.2));
    put_away(&j);
    j = judge_floating("aftertouch", .2, "C4,key_dip,10.3\nC4,blow,46\nC4,let_off,1.6\nC4,aftertouch,.6\n");
    assert_int_equal(see(&j, "aftertouch", "C4")->verdict, HL_FAIL);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_FAIL);
    put_away(&j);
    j = judge_floating("blow", 1, "C4,key_dip,10\nC4,blow,48\nC4,let_off,1.6\nC4,aftertouch,1.1\n");
    assert_int_equal(see(&j, "blow", "C4")->shift, MM(1));
    put_away(&j);
    j = judge_floating("blow", 0, "C4,key_dip,10\nC4,blow,48\nC4,let_off,1.6\nC4,aftertouch,1.1\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_FAIL);
    put_away(&j);
}

/* Nothing ties drop to the others, so it can't give way, and the book's check says so. */
static void what_nothing_ties_can_not_float(void **state)
{
    (void)state;
    judged j = judge_floating("drop", .25, "C4,key_dip,10\n" OTHERS "C4,drop,1.7\n");
    assert_int_equal(see(&j, "drop", "C4")->verdict, HL_FAIL);
    hl_complaints complaints = {0};
    hl_err err = {0};
    assert_int_equal(hl_book_check(&complaints, j.book, &err), HL_OK);
    bool said = false;
    for (size_t i = 0; i < complaints.n; i++)
        said = said || (strstr(complaints.items[i].what, "drop can't give way") != NULL &&
                        strcmp(complaints.items[i].file, "test") == 0);
    assert_true(said);
    hl_complaints_free(&complaints);
    assert_int_equal(hl__float_model(j.book), -1);
    put_away(&j);
}

/* A step that the book leaves out was never read, so it vouches for nothing. */
static void a_step_left_out_vouches_for_nothing(void **state)
{
    (void)state;
    hl_book *book = floating("key_dip", .25);
    book->steps[small_step(book, "let_off")].skipped = "set by another";
    judged j = judge_by(book, HEADS "C4,key_dip,10.4\n" OTHERS);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_FAIL);
    put_away(&j);
}

static void a_floated_note_is_ready(void **state)
{
    (void)state;
    hl_book *book = floating("key_dip", .25);
    book->steps[small_step(book, "key_dip")].even = 0;
    judged j = judge_finished(book, "C4,key_dip,10.4\n");
    assert_true(hl_audit_ready(j.audit));
    assert_int_equal(hl_audit_total(j.audit)->floated, 1);
    put_away(&j);
}

/* Key level 0.15 mm high: taking out .003 in (0.0762 mm) of balance paper lowers the key and the
 * dip by 0.0762 x (1 + 250/220) = 0.163 mm.  Dip 10.40 -> 10.25 is still inside the float. */
static void a_correction_does_not_spoil_what_still_floats(void **state)
{
    (void)state;
    judged j = judge_floating("key_dip", .25, "C4,key_level,.15\nC4,key_dip,10.4\n" OTHERS);
    const hl_finding *level = see(&j, "key_level", "C4");
    assert_true(level->n_corrections > 0);
    assert_true(level->corrections[0].lands);
    assert_false(lists(&j, level->corrections[0].spoils, level->corrections[0].n_spoils, "key_dip"));
    put_away(&j);
    /* 9.6 floats too, but 9.44 would not */
    j = judge_floating("key_dip", .25, "C4,key_level,.15\nC4,key_dip,9.6\n" OTHERS);
    level = see(&j, "key_level", "C4");
    assert_true(lists(&j, level->corrections[0].spoils, level->corrections[0].n_spoils, "key_dip"));
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_dip_may_do),
        cmocka_unit_test(the_audit_names_what_floats),
        cmocka_unit_test(other_schools),
        cmocka_unit_test(what_nothing_ties_can_not_float),
        cmocka_unit_test(a_step_left_out_vouches_for_nothing),
        cmocka_unit_test(a_floated_note_is_ready),
        cmocka_unit_test(a_correction_does_not_spoil_what_still_floats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
