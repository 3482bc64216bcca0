/* test_even.c - a note against its four nearest neighbours of the same colour and section.
 *
 * The rule is our own (design, section 6); the figures are arithmetic.  The small book lets dip
 * stand out by 0.15 mm, blow by 0.75 mm. */
#include "judged.h"

static void a_note_that_stands_out_fails_in_range(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10.0\nD4,key_dip,10.0\nE4,key_dip,9.84\nF4,key_dip,10.0\n"
                           "G4,key_dip,10.0\n");
    const hl_finding *e = see(&j, "key_dip", "E4");
    assert_int_equal(e->verdict, HL_FAIL);
    assert_int_equal(e->why, HL_WHY_UNEVEN);
    assert_int_equal(e->shift, MM(-.16));
    assert_int_equal(see(&j, "key_dip", "D4")->verdict, HL_PASS);
    const hl_tally *tally = hl_audit_tally(j.audit, small_step(j.book, "key_dip"));
    assert_true(tally->has_unevenness);
    assert_int_equal(tally->unevenness, MM(.16));
    put_away(&j);
}

static void exactly_as_far_as_allowed_passes(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10.0\nD4,key_dip,10.0\nE4,key_dip,9.85\nF4,key_dip,10.0\n"
                           "G4,key_dip,10.0\n");
    assert_int_equal(see(&j, "key_dip", "E4")->verdict, HL_PASS);
    put_away(&j);
}

/* Offsets of E4's neighbours 0, 0, 0.1, 0.1: the median of four is the mean of the middle two,
 * 0.05.  9.90 is then out by exactly 0.15. */
static void the_median_of_four_is_between_the_middle_two(void **state)
{
    (void)state;
    const char *neighbours = HEADS "C4,key_dip,10.0\nD4,key_dip,10.1\nF4,key_dip,10.0\nG4,key_dip,10.1\n";
    char text[256];
    strcpy(text, neighbours);
    strcat(text, "E4,key_dip,9.90\n");
    judged j = judge(text);
    assert_int_equal(see(&j, "key_dip", "E4")->verdict, HL_PASS);
    put_away(&j);
    strcpy(text, neighbours);
    strcat(text, "E4,key_dip,9.899999\n");
    j = judge(text);
    assert_int_equal(see(&j, "key_dip", "E4")->why, HL_WHY_UNEVEN);
    put_away(&j);
}

static void what_does_not_take_part(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        bool uneven;
    } cases[] = {
        {"three neighbours are enough", "C4,key_dip,10\nD4,key_dip,10\nF4,key_dip,10\nE4,key_dip,9.8\n",
         true},
        {"two tell nothing", "C4,key_dip,10\nD4,key_dip,10\nE4,key_dip,9.8\n", false},
        {"sharps are no neighbours of a natural",
         "C4,key_dip,10\nC#4,key_dip,10\nD#4,key_dip,10\nF#4,key_dip,10\nE4,key_dip,9.8\n", false},
        {"nor what the gauge said", "C4,key_dip,10\nD4,key_dip,10\nF4,key_dip,within\nE4,key_dip,9.8\n",
         false},
        {"a withdrawn reading neither",
         "C4,key_dip,10\nD4,key_dip,10\nF4,key_dip,10\nF4,key_dip,void\nE4,key_dip,9.8\n", false},
        {"nor one that was adjusted since",
         "C4,key_dip,10\nD4,key_dip,10\nF4,key_dip,10\nF4,front_punching,+0.254\nE4,key_dip,9.8\n", false},
        {"nor a neighbour out of range: it is the bad one",
         "C4,key_dip,10\nD4,key_dip,10.3\nF4,key_dip,10.3\nG4,key_dip,10.3\nE4,key_dip,10.1\n", false},
        {"the good ones further off are compared with instead",
         "A3,key_dip,10.1\nB3,key_dip,10.1\nC4,key_dip,10.1\nD4,key_dip,10.3\nF4,key_dip,10.3\nE4,key_dip,10."
         "1\n",
         false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[320] = HEADS;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        if ((see(&j, "key_dip", "E4")->why == HL_WHY_UNEVEN) != cases[i].uneven)
            fail_msg("%s", cases[i].what);
        put_away(&j);
    }
}

/* C4 is note 40, so the first section ends with B3. */
static void a_section_break_ends_the_neighbourhood(void **state)
{
    (void)state;
    const char *text = "# breaks: 39\n" HEADS "A3,key_dip,10\nB3,key_dip,10\nE4,key_dip,10\nD4,key_dip,10\n"
                       "C4,key_dip,9.8\n";
    judged j = judge(text);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_PASS);
    put_away(&j);
    hl_book *book = small_book();
    book->steps[small_step(book, "key_dip")].breaks = false;
    j = judge_by(book, text);
    assert_int_equal(see(&j, "key_dip", "C4")->why, HL_WHY_UNEVEN);
    put_away(&j);
}

/* A graded target is no unevenness: (reading - aim) is compared. */
static void a_graded_aim_is_even(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_target *targets = (hl_target *)book->steps[small_step(book, "key_dip")].targets;
    for (int i = 0; i < HL_PITCHES; i++)
        targets[i] = (hl_target){MM(9) + i * 10000, MM(10) + i * 10000, MM(12) + i * 10000, true, true};
    /* C4 is pitch 48: the aims are 10.48, 10.50, 10.52, 10.53, 10.55 */
    judged j = judge_by(book, HEADS "C4,key_dip,10.48\nD4,key_dip,10.50\nE4,key_dip,10.52\nF4,key_dip,10.53\n"
                                    "G4,key_dip,10.55\n");
    const hl_tally *tally = hl_audit_tally(j.audit, small_step(j.book, "key_dip"));
    assert_true(tally->has_unevenness);
    assert_int_equal(tally->unevenness, 0);
    put_away(&j);
}

/* A note too short of its neighbours is brought to them, not to the aim: neighbours lie at 10.15,
 * E4 at 9.95; 0.2 mm is wanted and 0.2 / (250/230) = 0.184 mm of paper removed does it. */
static void an_uneven_note_is_brought_to_its_neighbours(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10.15\nD4,key_dip,10.15\nE4,key_dip,9.95\nF4,key_dip,10.15\n"
                           "G4,key_dip,10.15\n");
    const hl_finding *e = see(&j, "key_dip", "E4");
    assert_int_equal(e->why, HL_WHY_UNEVEN);
    assert_int_equal(e->n_corrections, 1);
    assert_false(e->corrections[0].more);
    assert_true(e->corrections[0].lands);
    assert_int_equal(e->corrections[0].pieces[0], 127000); /* .005 in, the nearest piece in the box */
    assert_int_equal(e->corrections[0].predicted, MM(10.10));
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_note_that_stands_out_fails_in_range),
        cmocka_unit_test(exactly_as_far_as_allowed_passes),
        cmocka_unit_test(the_median_of_four_is_between_the_middle_two),
        cmocka_unit_test(what_does_not_take_part),
        cmocka_unit_test(a_section_break_ends_the_neighbourhood),
        cmocka_unit_test(a_graded_aim_is_even),
        cmocka_unit_test(an_uneven_note_is_brought_to_its_neighbours),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
