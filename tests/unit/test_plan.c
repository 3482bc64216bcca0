/* test_plan.c - the plan of a whole note, on the small book, where every figure can be reckoned.
 *
 * The small book: a capstan turn moves the hammer 10 mm, ratio 5, so aftertouch = dip - (blow -
 * let-off) / 5; a front paper t takes 250/230 t from the dip (arithmetic from its facts). */
#include "changed_book.h"
#include "hammerline.h"
#include "planned.h"

static void test_a_finished_piano_needs_nothing(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "", NULL);
    int n = -1;
    assert_true(hl_plan_idle(p.plan));
    hl_plan_notes(p.plan, &n);
    assert_int_equal(n, 0);
    put_plan_away(&p);
}

/* Blow 2 mm long takes 0.4 mm of aftertouch: one capstan cures both.  1/4 turn gives 45.5, 1/8 would
 * leave 46.75 at the end of what the neighbours allow (arithmetic). */
static void test_one_capstan_cures_blow_and_aftertouch(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,blow,48\nC4,aftertouch,0.7\n", NULL);
    assert_int_equal(count_moved(&p, "C4"), 1);
    assert_int_equal(moved(&p, "C4", "capstan"), TURN(0.25));
    assert_int_equal(known(&p, "C4", "blow"), MM(45.5));
    assert_int_equal(known(&p, "C4", "aftertouch"), MM(1.2));
    assert_true(note_of(&p, "C4")->proven);
    assert_true(note_of(&p, "C4")->adjustments[0].assumed);
    assert_true(reads_again(&p, "C4", "blow"));
    assert_true(reads_again(&p, "C4", "aftertouch"));
    assert_false(reads_again(&p, "C4", "key_dip"));
    assert_false(hl_plan_idle(p.plan));
    put_plan_away(&p);
}

/* A low key gets a balance paper, which deepens its dip and shortens its blow: the front paper and
 * the capstan pay for that, and nothing that passed is lost. */
static void test_a_low_key_is_paid_for_in_the_same_go(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,key_level,-0.55\n", NULL);
    const hl_plan_note *note = note_of(&p, "C4");
    assert_true(moved(&p, "C4", "balance_punching") > 0);
    assert_true(moved(&p, "C4", "front_punching") > 0);
    assert_true(moved(&p, "C4", "capstan") < 0);
    assert_int_equal(note->n_unmet, 0);
    /* 1 + 250/220 of the paper's thickness at the key front (arithmetic of the lever) */
    assert_in_range(known(&p, "C4", "key_level") + MM(1), MM(0.9), MM(1.1));
    assert_in_range(known(&p, "C4", "key_dip"), MM(9.85), MM(10.15));
    assert_in_range(known(&p, "C4", "blow"), MM(45.25), MM(46.75));
    put_plan_away(&p);
}

/* The dip's own tool is the front paper; a balance paper would deepen the dip too, but the key is level. */
static void test_dip_is_not_bought_with_balance_papers(void **state)
{
    (void)state;
    static const char *const without[] = {"front_punching"};
    const hl_plan_options options = {.without = without, .n_without = 1};
    planned p = plan_finished(small_book(), "C4,key_dip,9.7\nC#4,key_dip,9.7\n", &options);
    for (int i = 0; i < 2; i++) {
        const char *note = i == 0 ? "C4" : "C#4";
        const hl_unmet_reading *one = unmet(&p, note, "key_dip");
        assert_int_equal(moved(&p, note, "balance_punching"), 0);
        assert_non_null(one);
        assert_int_equal(one->why, HL_LACK_LEFT_OUT);
        assert_int_equal(one->adjusters[0], small_adjuster(p.j.book, "front_punching"));
        assert_int_equal(one->by, MM(0.15)); /* 9.85 is as far as the neighbours allow */
        assert_false(one->above);
    }
    put_plan_away(&p);
}

/* Nothing is wrong with any screw: by its own readings C4 lifts the hammer 44.4 mm in 9.8 mm of key
 * (ratio 4.5, arithmetic), so its aftertouch can't come without giving up dip or blow. */
static void test_a_note_with_a_ratio_of_its_own_says_geometry(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,aftertouch,0.2\n", NULL);
    const hl_unmet_reading *one = unmet(&p, "C4", "aftertouch");
    assert_non_null(one);
    assert_int_equal(one->why, HL_LACK_GEOMETRY);
    assert_true(one->by > 0 && !one->above);
    assert_string_equal(hl_lack_name(one->why), "geometry");
    assert_null(unmet(&p, "C4", "key_dip")); /* what passed is kept all the same */
    assert_null(unmet(&p, "C4", "blow"));
    put_plan_away(&p);
}

static void test_the_float_gives_way_only_when_nothing_else_helps(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->floats = (hl_float){.step = small_step(book, "key_dip"), .within = MM(0.25)};
    book->steps[small_step(book, "key_dip")].even = 0;
    /* 0.2 more aftertouch than the dip has room for, with the blow left no room by its neighbours */
    book->steps[small_step(book, "blow")].even = MM(0.1);
    planned p = plan_finished(book, "C4,key_dip,10.2\nC4,aftertouch,0.7\n", NULL);
    const hl_plan_note *note = note_of(&p, "C4");
    assert_int_equal(note->n_unmet, 0);
    assert_in_range(known(&p, "C4", "key_dip"), MM(10.2) + 1, MM(10.45));
    for (int i = 0; i < note->n_foreseen; i++)
        assert_true(note->foreseen[i].floated == (note->foreseen[i].step == small_step(p.j.book, "key_dip")));
    put_plan_away(&p);
    /* a long blow takes as much, and the capstan gives it back: the dip stays in its target */
    p = plan_finished(small_book(), "C4,key_dip,10.1\nC4,blow,47.5\nC4,aftertouch,0.7\n", NULL);
    assert_in_range(known(&p, "C4", "key_dip"), MM(9.8), MM(10.2));
    assert_int_equal(note_of(&p, "C4")->n_unmet, 0);
    put_plan_away(&p);
}

static void test_reach_is_honoured(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "capstan")].reach = TURN(0.125);
    planned p = plan_finished(book, "C4,blow,50\n", NULL);
    const hl_unmet_reading *one = unmet(&p, "C4", "blow");
    assert_int_equal(moved(&p, "C4", "capstan"), TURN(0.125));
    assert_non_null(one);
    assert_int_equal(one->why, HL_LACK_REACH);
    assert_true(one->above);
    assert_int_equal(one->by, MM(2)); /* 50 - 1.25 = 48.75; neighbours allow 46.75 */
    put_plan_away(&p);
}

/* What the sheet says was done since is reckoned in: the plan starts where the reading stands now. */
static void test_work_done_since_is_reckoned_in(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(),
                              "C4,blow,47.5\nC4,aftertouch,0.8\nC4,capstan,+1/8 turn\n"
                              "D4,checking,18\nD4,key_dip,10.4\n",
                              NULL);
    assert_int_equal(count_moved(&p, "C4"), 0); /* 47.5 - 1.25 = 46.25 */
    /* a strong move: nobody knows where that reading stands, so it is read before it is cured */
    put_plan_away(&p);
    hl_book *book = small_book();
    hl_adjuster *paper = &book->adjusters[small_adjuster(book, "front_punching")];
    hl_move *moves = hl__arena_array(&book->arena, 2, sizeof *moves);
    moves[0] = paper->moves[0];
    moves[1] = paper->moves[1];
    moves[1].kind = HL_MOVE_STRONG; /* on checking */
    paper->moves = moves;
    p = plan_finished(book, "D4,checking,18\nD4,key_dip,10.4\nD4,aftertouch,1.5\n", NULL);
    assert_true(moved(&p, "D4", "front_punching") > 0);
    assert_int_equal(moved(&p, "D4", "backcheck"), 0);
    assert_non_null(waits(&p, "D4", "checking"));
    assert_int_equal(waits(&p, "D4", "checking")->adjuster, small_adjuster(p.j.book, "front_punching"));
    put_plan_away(&p);
}

/* While a step is wrong that masks another, the other's tool stays where it is. */
static void test_a_masked_reading_waits(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_mask(book, "key_level", "key_dip");
    planned p = plan_finished(book, "C4,key_level,-0.3\nC4,key_dip,9.5\n", NULL);
    assert_true(moved(&p, "C4", "balance_punching") > 0);
    assert_int_equal(moved(&p, "C4", "front_punching"), 0);
    assert_non_null(waits(&p, "C4", "key_dip"));
    assert_int_equal(waits(&p, "C4", "key_dip")->first, small_step(p.j.book, "key_level"));
    assert_null(unmet(&p, "C4", "key_dip"));
    put_plan_away(&p);
}

static void test_judged_faults_and_gauges_are_carried_along(void **state)
{
    (void)state;
    planned p = plan_finished(
        small_book(), "C4,repetition,weak\nD4,damper_key,late\n,una_corda,off\nE4,let_off,over\n", NULL);
    int n = 0;
    const hl_chore *chores = hl_plan_chores(p.plan, &n);
    assert_int_equal(n, 4);
    assert_int_equal(chores[0].step, small_step(p.j.book, "let_off"));
    assert_int_equal(chores[0].adjuster, small_adjuster(p.j.book, "let_off_button"));
    assert_false(chores[0].correction->has_amount);
    assert_int_equal(chores[1].adjuster, small_adjuster(p.j.book, "repetition_spring"));
    assert_true(chores[1].correction->more);
    assert_int_equal(chores[2].adjuster, -1); /* its word says what to do */
    assert_int_equal(chores[3].note, 0);
    put_plan_away(&p);
}

static void test_bad_input_is_told(void **state)
{
    (void)state;
    /* a slip of the pen: three metres */
    planned p = plan_finished(small_book(), "C4,blow,3000 mm\n", NULL);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_REFUSED);
    put_plan_away(&p);
    /* far outside any reach */
    p = plan_finished(small_book(), "C4,blow,400 mm\n", NULL);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_REACH);
    put_plan_away(&p);
    /* targets that exclude one another */
    hl_book *book = small_book();
    hl_step *blow = &book->steps[small_step(book, "blow")];
    hl_target *targets = hl__arena_array(&book->arena, HL_PITCHES + 1, sizeof *targets);
    memcpy(targets, blow->targets, (HL_PITCHES + 1) * sizeof *targets);
    targets[48] = (hl_target){MM(47), MM(46), MM(45), true, true}; /* C4 */
    blow->targets = targets;
    p = plan_finished(book, "", NULL);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_REFUSED);
    put_plan_away(&p);
    /* a fact that nobody stated: what the capstan does is unknown, so it is not moved */
    book = small_book();
    for (int i = 0; i < book->n_facts; i++)
        if (strcmp(book->facts[i].id, "capstan_pitch") == 0)
            book->facts[i].has_value = false;
    p = plan_finished(book, "C4,blow,48\n", NULL);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_UNMOVED);
    assert_int_equal(count_moved(&p, "C4"), 0);
    put_plan_away(&p);
    /* one that is nought */
    book = small_book();
    for (int i = 0; i < book->n_facts; i++)
        if (strcmp(book->facts[i].id, "capstan_pitch") == 0)
            book->facts[i].value[0] = 0;
    p = plan_finished(book, "C4,blow,48\n", NULL);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_UNMOVED);
    put_plan_away(&p);
}

static void test_options_are_held_to_the_book(void **state)
{
    (void)state;
    static const char *const wrong[] = {"front_punchings"};
    static const char *const judged_step[] = {"repetition"};
    const hl_plan_options options[] = {{.without = wrong, .n_without = 1},
                                       {.lines = wrong, .n_lines = 1},
                                       {.lines = judged_step, .n_lines = 1}};
    judged j = judge_finished(small_book(), "");
    for (int i = 0; i < 3; i++) {
        hl_plan *plan = NULL;
        hl_err err = {0};
        assert_int_equal(hl_plan_run(&plan, j.audit, &options[i], &err), HL_E_USAGE);
        assert_null(plan);
        assert_true(err.todo[0] != '\0');
        if (i == 0)
            assert_non_null(strstr(err.todo, "front_punching"));
    }
    put_away(&j);
}

static void test_irreversible_work_can_be_left_out(void **state)
{
    (void)state;
    for (int reversible = 0; reversible < 2; reversible++) {
        hl_book *book = small_book();
        book->adjusters[small_adjuster(book, "key_lead")].irreversible = true;
        const hl_plan_options options = {.reversible = reversible};
        planned p = plan_finished(book, "C4,downweight,57\nC4,upweight,31\n", &options);
        if (reversible)
            assert_int_equal(unmet(&p, "C4", "downweight")->why, HL_LACK_LEFT_OUT);
        else
            assert_true(moved(&p, "C4", "key_lead") > 0);
        put_plan_away(&p);
    }
}

static void test_inspect_only_proposes_nothing(void **state)
{
    (void)state;
    judged j = judge_by(small_book(), "# scope: Inspect only\n" HEADS "C4,blow,48\nC4,repetition,weak\n");
    planned p = plan_judged(j, NULL);
    int notes = -1, chores = -1;
    hl_plan_notes(p.plan, &notes);
    hl_plan_chores(p.plan, &chores);
    assert_true(hl_plan_inspect_only(p.plan));
    assert_int_equal(notes, 0);
    assert_int_equal(chores, 0);
    assert_false(hl_plan_idle(p.plan));
    put_plan_away(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_finished_piano_needs_nothing),
        cmocka_unit_test(test_one_capstan_cures_blow_and_aftertouch),
        cmocka_unit_test(test_a_low_key_is_paid_for_in_the_same_go),
        cmocka_unit_test(test_dip_is_not_bought_with_balance_papers),
        cmocka_unit_test(test_a_note_with_a_ratio_of_its_own_says_geometry),
        cmocka_unit_test(test_the_float_gives_way_only_when_nothing_else_helps),
        cmocka_unit_test(test_reach_is_honoured),
        cmocka_unit_test(test_work_done_since_is_reckoned_in),
        cmocka_unit_test(test_a_masked_reading_waits),
        cmocka_unit_test(test_judged_faults_and_gauges_are_carried_along),
        cmocka_unit_test(test_bad_input_is_told),
        cmocka_unit_test(test_options_are_held_to_the_book),
        cmocka_unit_test(test_irreversible_work_can_be_left_out),
        cmocka_unit_test(test_inspect_only_proposes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
