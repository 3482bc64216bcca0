/* test_stale.c - readings that an adjustment made since then has overtaken.
 *
 * The rule is our own (design, section 1): a shift matters that is more than a quarter of half the
 * target's width and more than the gauge.  Figures are arithmetic over the small book: a capstan
 * turn moves blow by -10 mm and aftertouch by +2 mm; blow bears 0.25 mm, aftertouch 0.075 mm. */
#include "judged.h"

static const char READ[] =
    HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.6\nC4,aftertouch,1.1\nC4,checking,15\n"
          "C4,drop,1.4\nC4,repetition,ok\nD4,blow,46\n";

static judged after(hl_book *book, const char *rows)
{
    char text[512];
    strcpy(text, READ);
    strcat(text, rows);
    return judge_by(book, text);
}

static void the_capstan_overtakes_blow_and_aftertouch_only(void **state)
{
    (void)state;
    judged j = after(small_book(), "C4,capstan,+1/8 turn\n");
    const hl_finding *blow = see(&j, "blow", "C4");
    assert_int_equal(blow->verdict, HL_STALE);
    assert_int_equal(blow->why, HL_WHY_ADJUSTED);
    assert_int_equal(blow->shift, MM(-1.25));
    assert_true(blow->has_value);
    assert_int_equal(see(&j, "aftertouch", "C4")->shift, MM(.25));
    /* the let-off gap and the drop are places of the whippen against fixed buttons */
    assert_int_equal(see(&j, "let_off", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "drop", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "blow", "D4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "blow", "C4")->n_corrections, 0);
    put_away(&j);
}

static void what_makes_a_blow_reading_stale(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        hl_verdict verdict;
    } cases[] = {
        {"a quarter of half the width is still borne", "C4,capstan,+0.025 turn\n", HL_PASS},
        {"a hair more is not", "C4,capstan,+0.0251 turn\n", HL_STALE},
        {"many small turns add up", "C4,capstan,+0.02 turn\nC4,capstan,+0.02 turn\n", HL_STALE},
        {"up and back down again", "C4,capstan,+1 turn\nC4,capstan,-1 turn\n", HL_PASS},
        {"turned, nobody said how far", "C4,capstan,done\n", HL_STALE},
        {"read again since", "C4,capstan,+0.05 turn\nC4,blow,45.5\n", HL_PASS},
        {"read again, and it does not fit the work", "C4,capstan,+1 turn\nC4,blow,45.8\n", HL_DOUBTFUL},
        {"the row was taken back", "C4,capstan,+1 turn\nC4,capstan,void\n", HL_PASS},
        {"an earlier reading came back", "C4,capstan,+1 turn\nC4,blow,45.8\nC4,blow,void\n", HL_STALE},
        {"the neighbour's capstan", "D4,capstan,+1 turn\n", HL_PASS},
        {"the let-off button does not move it", "C4,let_off_button,+1 turn\n", HL_PASS},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = after(small_book(), cases[i].rows);
        if (see(&j, "blow", "C4")->verdict != cases[i].verdict)
            fail_msg("%s: %s", cases[i].what, hl_verdict_name(see(&j, "blow", "C4")->verdict));
        put_away(&j);
    }
}

static void the_gauge_must_be_able_to_tell(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "blow")].gauge = MM(1.25);
    judged j = after(book, "C4,capstan,+0.09 turn\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_PASS);
    put_away(&j);
    /* too little for the gauge, but it would take the reading past its limit */
    book = small_book();
    book->steps[small_step(book, "blow")].gauge = MM(1.25);
    j = after(book, "C4,capstan,+1/8 turn\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_STALE);
    put_away(&j);
}

static void strong_moves_overtake_words_and_slight_ones_never(void **state)
{
    (void)state;
    judged j = after(small_book(), "C4,repetition_spring,+1 step\nC4,front_punching,+0.0762 mm\n");
    assert_int_equal(see(&j, "repetition", "C4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "drop", "C4")->verdict, HL_PASS);     /* slight, by the spring */
    assert_int_equal(see(&j, "checking", "C4")->verdict, HL_PASS); /* slight, by the punching */
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_STALE);
    put_away(&j);
}

static void a_go_reading_is_overtaken_too(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,within\nC4,front_punching,+0.254 mm\n");
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_STALE);
    put_away(&j);
}

/* 5 g more in the key: both weighings are 5 g too high, and so is what was derived from them. */
static void derived_from_stale_is_stale(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,downweight,52\nC4,upweight,28\nC4,key_lead,+5\n");
    const hl_finding *mean = see(&j, "mean_weight", "C4");
    assert_int_equal(mean->verdict, HL_STALE);
    assert_int_equal(mean->shift, G(-5));
    /* friction does not move by lead, but what it is reckoned from has gone */
    assert_int_equal(see(&j, "friction", "C4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "friction", "C4")->shift, 0);
    put_away(&j);
    j = judge(HEADS "C4,downweight,52\nC4,upweight,28\nC4,key_lead,+5\nC4,downweight,47\n");
    assert_int_equal(see(&j, "downweight", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "mean_weight", "C4")->verdict, HL_STALE); /* upweight still is */
    put_away(&j);
}

static void a_models_value_goes_with_its_readings(void **state)
{
    (void)state;
    const char *text = HEADS "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.6\nC4,capstan,+1/8 turn\n";
    judged j = judge(text);
    assert_int_equal(see(&j, "aftertouch", "C4")->verdict, HL_MISSING);
    assert_false(see(&j, "aftertouch", "C4")->has_value);
    put_away(&j);
}

/* A rest rail, glides: one screw for all notes. */
static void a_whole_adjuster_overtakes_every_note(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "capstan")].whole = true;
    judged j = after(book, ",capstan,+1/8 turn\n");
    assert_int_equal(see(&j, "blow", "C4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "blow", "D4")->verdict, HL_STALE);
    put_away(&j);
}

/* A step read only for information bears no more than its gauge: others are derived from it. */
static void a_step_without_limits_can_be_stale(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_target *targets = (hl_target *)book->steps[small_step(book, "downweight")].targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = (hl_target){0};
    judged j = judge_by(book, HEADS "C4,downweight,52\nC4,upweight,28\nC4,key_lead,+1\n");
    assert_int_equal(see(&j, "downweight", "C4")->verdict, HL_STALE);
    assert_int_equal(see(&j, "upweight", "C4")->verdict, HL_PASS); /* bears 1.5 g */
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_capstan_overtakes_blow_and_aftertouch_only),
        cmocka_unit_test(what_makes_a_blow_reading_stale),
        cmocka_unit_test(the_gauge_must_be_able_to_tell),
        cmocka_unit_test(strong_moves_overtake_words_and_slight_ones_never),
        cmocka_unit_test(a_go_reading_is_overtaken_too),
        cmocka_unit_test(derived_from_stale_is_stale),
        cmocka_unit_test(a_models_value_goes_with_its_readings),
        cmocka_unit_test(a_whole_adjuster_overtakes_every_note),
        cmocka_unit_test(a_step_without_limits_can_be_stale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
