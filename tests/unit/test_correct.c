/* test_correct.c - what to adjust, which way and how far.
 *
 * Figures are arithmetic over the small book's levers:
 * a capstan turn moves blow -10 mm (pitch 1 mm, ratio 5, capstan ratio 1/2), a let-off button turn
 * 2 mm, a drop screw turn 2 mm, front paper -250/230 of its thickness. */
#include "judged.h"

#include "choose.h"

/* Ways: geometry. */
static void amounts_are_those_that_a_hand_can_do(void **state)
{
    (void)state;
    static const struct {
        const char *step, *rows, *adjuster;
        bool more;
        double amount, predicted;
        bool lands;
    } cases[] = {
        /* 47.4 wants 1.4 mm: 1/8 turn is the nearest, 1.25 mm; 46.15 is read as 46.2 */
        {"blow", "C4,blow,47.4\n", "capstan", true, .125, 46.2, true},
        {"blow", "C4,blow,44\n", "capstan", false, .25, 46.5, true},
        /* a short let-off: the button goes down, the gap grows by 2 mm a turn */
        {"let_off", "C4,let_off,1.1\n", "let_off_button", true, .25, 1.6, true},
        {"let_off", "C4,let_off,2.6\n", "let_off_button", false, .5, 1.6, true},
        {"drop", "C4,drop,0.4\n", "drop_screw", true, .5, 1.4, true},
        {"drop", "C4,drop,2.2\n", "drop_screw", false, .375, 1.5, true}, /* 1.45 is read as 1.5 */
        /* checked too far from the string: bend toward the tail, 1:1 */
        {"checking", "C4,checking,18\n", "backcheck", true, 3, 15, true},
        {"checking", "C4,checking,13\n", "backcheck", false, 2, 15, true},
        /* one gram at the front is one gram of downweight */
        {"downweight", "C4,downweight,58\n", "key_lead", true, 8, 50, true},
        {"upweight", "C4,upweight,18\n", "key_lead", false, 7, 25, true},
        {"mean_weight", "C4,downweight,54\nC4,upweight,32\n", "key_lead", true, 5, 38, true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[128] = HEADS;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_finding *finding = see(&j, cases[i].step, "C4");
        assert_int_equal(finding->verdict, HL_FAIL);
        assert_int_equal(finding->n_corrections, 1);
        const hl_correction *c = &finding->corrections[0];
        assert_string_equal(j.book->adjusters[c->adjuster].id, cases[i].adjuster);
        assert_int_equal(c->more, cases[i].more);
        assert_true(c->has_amount && c->has_predicted && c->assumed);
        assert_int_equal(c->amount, TURN(cases[i].amount));
        assert_int_equal(c->predicted, MM(cases[i].predicted));
        assert_int_equal(c->lands, cases[i].lands);
        assert_false(c->beyond_reach);
        put_away(&j);
    }
}

/* 10.6 wants 0.6 mm less: 0.6 * 230/250 = 0.552 mm of paper; .020 in (0.508) is one piece. */
static void papers_are_made_up_of_the_fewest_pieces(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10.6\nC4,checking,15\n");
    const hl_correction *c = &see(&j, "key_dip", "C4")->corrections[0];
    assert_true(c->more);
    assert_int_equal(c->amount, 508000);
    assert_int_equal(c->pieces[0], 508000);
    assert_int_equal(c->pieces[1], 0);
    assert_int_equal(c->predicted, MM(10.05)); /* 10.6 - 0.552 = 10.048 */
    assert_true(c->lands);
    put_away(&j);
    /* 11.9 wants 1.748 mm, no piece is so thick: .060 + .010 in (1.778) come nearest of two */
    j = judge(HEADS "C4,key_dip,11.9\n");
    c = &see(&j, "key_dip", "C4")->corrections[0];
    assert_int_equal(c->amount, 1778000);
    assert_int_equal(c->pieces[0], 1524000);
    assert_int_equal(c->pieces[1], 254000);
    assert_int_equal(c->pieces[2], 0);
    assert_true(c->lands);
    put_away(&j);
    /* 18 mm is past four of the thickest */
    j = judge(HEADS "C4,key_dip,18\n");
    c = &see(&j, "key_dip", "C4")->corrections[0];
    assert_int_equal(c->amount, 4 * 1524000);
    assert_int_equal(c->pieces[3], 1524000);
    assert_false(c->lands);
    put_away(&j);
}

/* A balance punching raises the front 1 + 250/220 of its thickness; a low key of 0.25 mm wants
 * 0.117 mm, the .005 in paper.  A high key loses it. */
static void balance_paper_cures_a_low_key(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_level,-0.25\nD4,key_level,0.25\n");
    const hl_correction *low = &see(&j, "key_level", "C4")->corrections[0];
    assert_true(low->more && low->lands);
    assert_int_equal(low->amount, 127000);
    assert_int_equal(low->predicted, 0); /* -0.25 + 0.271 = 0.021, read to 0.05 */
    assert_false(see(&j, "key_level", "D4")->corrections[0].more);
    put_away(&j);
}

static bool lands_between(void *context, hl_amount amount)
{
    const hl_amount *limits = context;
    return amount >= limits[0] && amount <= limits[1];
}

static void the_chosen_amount(void **state)
{
    (void)state;
    static const hl_amount box[] = {2, 5, 10};
    static const struct {
        const char *what;
        hl_amount finest, wanted, low, high, amount;
        bool lands;
    } cases[] = {
        {"the nearest multiple", 10, 33, 25, 40, 30, true},
        {"half a step is rounded up", 10, 35, 25, 45, 40, true},
        {"never no move at all", 10, 2, 0, 10, 10, true},
        {"the one above when only that lands", 10, 34, 38, 45, 40, true},
        {"the one below when only that lands", 10, 36, 28, 35, 30, true},
        {"none lands: the nearest, and it says so", 10, 34, 33, 35, 30, false},
        {"none lands and the nearest is nothing", 10, 3, 2, 4, 10, false},
        {"one piece that lands before two that are nearer", 0, 7, 4, 10, 5, true},
        {"two pieces", 0, 7, 6, 8, 7, true},
        {"three pieces", 0, 9, 9, 9, 9, true},
        {"four pieces", 0, 27, 27, 27, 27, true},
        {"past four of the largest", 0, 99, 98, 100, 40, false},
        {"less than the smallest piece", 0, 1, 1, 1, 2, false},
        {"no sum lands: the nearest", 0, 3, 3, 3, 2, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_adjuster adjuster = {.finest = cases[i].finest};
        if (cases[i].finest == 0) {
            adjuster.sizes = box;
            adjuster.n_sizes = 3;
        }
        hl_amount limits[2] = {cases[i].low, cases[i].high}, sum = 0;
        hl_choice choice;
        hl__choose_amount(&adjuster, cases[i].wanted, lands_between, limits, &choice);
        if (choice.amount != cases[i].amount || choice.lands != cases[i].lands)
            fail_msg("%s: got %d", cases[i].what, (int)choice.amount);
        for (int k = 0; k < HL_PIECES; k++)
            sum += choice.pieces[k];
        assert_int_equal(sum, cases[i].finest ? 0 : choice.amount);
    }
}

static void a_fault_word_has_a_way_and_no_arithmetic(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,repetition,weak\nD4,repetition,strong\n,una_corda,off\n");
    const hl_finding *weak = see(&j, "repetition", "C4");
    assert_int_equal(weak->why, HL_WHY_WORD);
    assert_string_equal(j.book->steps[weak->step].words[weak->word].word, "weak");
    assert_int_equal(weak->n_corrections, 1);
    assert_true(weak->corrections[0].more);
    assert_true(weak->corrections[0].has_amount);
    assert_int_equal(weak->corrections[0].amount, HL_ONE); /* one small step, then read again */
    assert_false(weak->corrections[0].has_predicted || weak->corrections[0].lands);
    assert_true(lists(&j, weak->corrections[0].again, weak->corrections[0].n_again, "repetition"));
    assert_false(see(&j, "repetition", "D4")->corrections[0].more);
    assert_int_equal(see(&j, "una_corda", "")->n_corrections, 0); /* its word says what to do */
    put_away(&j);
}

static void a_go_reading_knows_the_way_only(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,over\nD4,key_dip,under\n");
    const hl_correction *c = &see(&j, "key_dip", "C4")->corrections[0];
    assert_true(c->more); /* too deep: add front paper */
    assert_false(c->has_amount || c->has_predicted || c->lands);
    assert_false(see(&j, "key_dip", "D4")->corrections[0].more);
    put_away(&j);
}

/* An adjuster by judgement has a way too: bend, look, bend again. */
static void an_adjuster_without_a_unit_has_no_amount(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "backcheck")].unit = HL_NO_UNIT;
    judged j = judge_by(book, HEADS "C4,checking,18\n");
    const hl_correction *c = &see(&j, "checking", "C4")->corrections[0];
    assert_true(c->more);
    assert_false(c->has_amount || c->has_predicted);
    put_away(&j);
}

static void past_its_reach_is_said(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "backcheck")].reach = MM(3);
    judged j = judge_by(book, HEADS "C4,checking,18\nD4,checking,18.5\n");
    assert_false(see(&j, "checking", "C4")->corrections[0].beyond_reach); /* 3 mm: just so far */
    assert_true(see(&j, "checking", "D4")->corrections[0].beyond_reach);  /* 3.5 mm */
    put_away(&j);
}

/* Let-off too close by 0.5 mm: the button down 1/4 turn takes 0.5 mm off the drop (drop is the
 * fall below the let-off point), and gives 0.1 mm of aftertouch. */
static void it_names_what_to_read_again_and_what_it_spoils(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,let_off,1.1\nC4,drop,1.2\nC4,aftertouch,1.3\nC4,key_dip,10\nC4,blow,46\n");
    const hl_correction *c = &see(&j, "let_off", "C4")->corrections[0];
    assert_int_equal(c->amount, TURN(.25));
    assert_int_equal(c->n_again, 3);
    assert_true(lists(&j, c->again, c->n_again, "let_off"));
    assert_true(lists(&j, c->again, c->n_again, "drop"));
    assert_true(lists(&j, c->again, c->n_again, "aftertouch"));
    assert_int_equal(c->n_spoils, 1);
    assert_true(lists(&j, c->spoils, c->n_spoils, "drop")); /* 0.7, below 0.8 */
    put_away(&j);
}

static void a_derived_step_is_read_again_through_its_readings(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,downweight,54\nC4,upweight,32\n");
    const hl_correction *c = &see(&j, "mean_weight", "C4")->corrections[0];
    assert_int_equal(c->n_again, 2);
    assert_true(lists(&j, c->again, c->n_again, "downweight"));
    assert_true(lists(&j, c->again, c->n_again, "upweight"));
    /* upweight and downweight pass at 27 and 49 too */
    assert_int_equal(c->n_spoils, 0);
    put_away(&j);
}

/* Too little aftertouch by 0.5 mm: 0.46 mm of front paper out would take dip to 10.5, out of
 * range; the capstan up 1/4 turn would take blow to 44.5, out of range too, so the book's order
 * stays.  With blow at 48 the capstan spoils nothing, and comes first. */
static void ways_that_spoil_nothing_come_first(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,aftertouch,0.6\nC4,key_dip,10\nC4,blow,47\nC4,let_off,1.6\n");
    const hl_finding *f = see(&j, "aftertouch", "C4");
    assert_int_equal(f->n_corrections, 2);
    assert_string_equal(j.book->adjusters[f->corrections[0].adjuster].id, "front_punching");
    assert_int_equal(f->corrections[0].n_spoils, 1);
    assert_int_equal(f->corrections[1].n_spoils, 1);
    put_away(&j);
    j = judge(HEADS "C4,aftertouch,0.6\nC4,key_dip,10\nC4,blow,48\nC4,let_off,1.6\n");
    f = see(&j, "aftertouch", "C4");
    assert_string_equal(j.book->adjusters[f->corrections[0].adjuster].id, "capstan");
    assert_true(f->corrections[0].more && f->corrections[0].lands);
    assert_int_equal(f->corrections[0].amount, TURN(.25));
    assert_int_equal(f->corrections[0].n_spoils, 0);
    put_away(&j);
}

/* An adjuster whose move on the step is not a number is no answer to a number. */
static void an_adjuster_of_unknown_effect_is_left_out(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->facts[hl__book_find_fact(book, "capstan_pitch")].has_value = false;
    judged j = judge_by(book, HEADS "C4,blow,48\nC4,aftertouch,0.6\n");
    assert_int_equal(see(&j, "blow", "C4")->n_corrections, 0);
    assert_int_equal(see(&j, "aftertouch", "C4")->n_corrections, 1); /* the front punching is left */
    put_away(&j);
}

static void one_sided_targets_are_corrected_to_their_aim(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_target *targets = (hl_target *)book->steps[small_step(book, "drop")].targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = (hl_target){0, MM(1.6), MM(1.6), false, true}; /* at most 1/16 in, say */
    judged j = judge_by(book, HEADS "C4,drop,1.7\n");
    const hl_correction *c = &see(&j, "drop", "C4")->corrections[0];
    assert_false(c->more);
    assert_int_equal(c->amount, TURN(.125)); /* 1/20 turn is wanted, but no hand turns less than 1/8 */
    assert_int_equal(c->predicted, MM(1.5)); /* 1.45, read to 0.1 */
    assert_true(c->lands);
    put_away(&j);
}

/* An instrument step put right by something that moves every note: all of them are looked at. */
static void a_whole_adjuster_looks_at_every_note(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_step *una = &book->steps[small_step(book, "una_corda")];
    hl_adjuster *rail = &book->adjusters[small_adjuster(book, "capstan")];
    hl_remedy remedy = {small_adjuster(book, "capstan"), true};
    rail->whole = true;
    ((hl_word *)una->words)[0].remedies = &remedy;
    ((hl_word *)una->words)[0].n_remedies = 1;
    judged j = judge_by(book, HEADS ",una_corda,off\nC4,blow,46\nC4,let_off,1.6\n");
    const hl_correction *c = &see(&j, "una_corda", "")->corrections[0];
    assert_true(lists(&j, c->again, c->n_again, "una_corda"));
    assert_true(lists(&j, c->again, c->n_again, "blow"));
    assert_false(lists(&j, c->again, c->n_again, "let_off"));
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(amounts_are_those_that_a_hand_can_do),
        cmocka_unit_test(papers_are_made_up_of_the_fewest_pieces),
        cmocka_unit_test(balance_paper_cures_a_low_key),
        cmocka_unit_test(the_chosen_amount),
        cmocka_unit_test(a_fault_word_has_a_way_and_no_arithmetic),
        cmocka_unit_test(a_go_reading_knows_the_way_only),
        cmocka_unit_test(an_adjuster_without_a_unit_has_no_amount),
        cmocka_unit_test(past_its_reach_is_said),
        cmocka_unit_test(it_names_what_to_read_again_and_what_it_spoils),
        cmocka_unit_test(a_derived_step_is_read_again_through_its_readings),
        cmocka_unit_test(ways_that_spoil_nothing_come_first),
        cmocka_unit_test(an_adjuster_of_unknown_effect_is_left_out),
        cmocka_unit_test(one_sided_targets_are_corrected_to_their_aim),
        cmocka_unit_test(a_whole_adjuster_looks_at_every_note),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
