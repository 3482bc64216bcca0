/* test_verdict.c - one reading against one target. */
#include "judged.h"

#include "verdict.h"

/* .390 in = 9.906 mm and .420 in = 10.668 mm: arithmetic, 1 in = 25.4 mm. */
static void a_reading_on_a_limit_passes(void **state)
{
    (void)state;
    static const struct {
        hl_target target;
        hl_amount reading;
        hl_verdict verdict;
        hl_why why;
    } cases[] = {
        {{9906000, 10000000, 10668000, true, true}, 9906000, HL_PASS, HL_WHY_NONE},
        {{9906000, 10000000, 10668000, true, true}, 9905999, HL_FAIL, HL_WHY_LOW},
        {{9906000, 10000000, 10668000, true, true}, 10668000, HL_PASS, HL_WHY_NONE},
        {{9906000, 10000000, 10668000, true, true}, 10668001, HL_FAIL, HL_WHY_HIGH},
        {{0, 1600000, 1600000, false, true}, -5000000, HL_PASS, HL_WHY_NONE},
        {{0, 1600000, 1600000, false, true}, 1600001, HL_FAIL, HL_WHY_HIGH},
        {{20000000, 20000000, 0, true, false}, 99000000, HL_PASS, HL_WHY_NONE},
        {{20000000, 20000000, 0, true, false}, 19999999, HL_FAIL, HL_WHY_LOW},
        {{0, 0, 0, false, false}, 123456789, HL_PASS, HL_WHY_NONE},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_ruling ruling = hl__verdict_value(&cases[i].target, cases[i].reading);
        assert_int_equal(ruling.verdict, cases[i].verdict);
        assert_int_equal(ruling.why, cases[i].why);
    }
}

static void inches_and_millimetres_pass_alike(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_step *dip = &book->steps[small_step(book, "key_dip")];
    hl_target *targets = (hl_target *)dip->targets;
    dip->even = 0; /* the limits alone are asked here */
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = (hl_target){9906000, 10000000, 10668000, true, true}; /* .390 to .420 in */
    judged j = judge_by(book, HEADS "C4,key_dip,.390 in\nD4,key_dip,9.906\nE4,key_dip,0.389 in\n"
                                    "F4,key_dip,.420 in\nG4,key_dip,10.669\n");
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "key_dip", "D4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "key_dip", "E4")->why, HL_WHY_LOW);
    assert_int_equal(see(&j, "key_dip", "F4")->verdict, HL_PASS);
    assert_int_equal(see(&j, "key_dip", "G4")->why, HL_WHY_HIGH);
    put_away(&j);
}

/* Common practice, no source: dip is judged with a block, "within" or not. */
static void a_gauge_passes_only_by_its_own_name(void **state)
{
    (void)state;
    static const struct {
        const char *gauge, *method;
        hl_event_kind kind;
        hl_verdict verdict;
        hl_why why;
    } cases[] = {
        {"", "", HL_EVENT_WITHIN, HL_PASS, HL_WHY_NONE},
        {"", "strip", HL_EVENT_WITHIN, HL_PASS, HL_WHY_NONE},
        {"10 mm block", "", HL_EVENT_WITHIN, HL_PASS, HL_WHY_NONE},
        {"10 mm block", "10 MM Block", HL_EVENT_WITHIN, HL_PASS, HL_WHY_NONE},
        {"Zach's block A", "zACH'S BLOCK a", HL_EVENT_WITHIN, HL_PASS, HL_WHY_NONE},
        {"block [", "block {", HL_EVENT_WITHIN, HL_MISSING, HL_WHY_OTHER_GAUGE},
        {"10 mm block", "10 mm", HL_EVENT_WITHIN, HL_MISSING, HL_WHY_OTHER_GAUGE},
        {"10 mm block", "10 mm blocks", HL_EVENT_WITHIN, HL_MISSING, HL_WHY_OTHER_GAUGE},
        {"10 mm block", "10 mm block", HL_EVENT_OVER, HL_FAIL, HL_WHY_HIGH},
        {"10 mm block", "10 mm block", HL_EVENT_UNDER, HL_FAIL, HL_WHY_LOW},
        {"10 mm block", "9 mm block", HL_EVENT_UNDER, HL_MISSING, HL_WHY_OTHER_GAUGE},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char texts[64] = "";
        strcpy(texts + 1, cases[i].method);
        hl_step step = {.kind = HL_MEASURED, .gauge_name = cases[i].gauge};
        const hl_book book = {.steps = &step};
        /* the sheet names its gauge with limits inside the target */
        hl_go_gauge gauge = {.stated = true, .low = 2, .high = 3, .name = cases[i].gauge};
        const hl_target target = {.low = 1, .high = 4, .has_low = true, .has_high = true};
        const hl_sheet sheet = {.texts = texts, .book = &book, .go_gauges = &gauge};
        const hl_event event = {.kind = (unsigned char)cases[i].kind, .method = 1};
        const hl_meaning *meaning = &hl__meanings[hl__verdict_other(&sheet, 0, &target, &event)];
        assert_int_equal(meaning->verdict, cases[i].verdict);
        assert_int_equal(meaning->why, cases[i].why);
    }
}

static void what_is_no_reading_of_the_step_never_passes(void **state)
{
    (void)state;
    static const hl_event_kind kinds[] = {HL_EVENT_VALUE, HL_EVENT_WORD, HL_EVENT_WITHIN,
                                          HL_EVENT_SKIP,  HL_EVENT_VOID, HL_EVENT_QUERY,
                                          HL_EVENT_PASS,  HL_EVENT_FACT, HL_EVENT_ADJUSTMENT};
    hl_step steps[] = {{.kind = HL_JUDGED, .gauge_name = "", .n_words = 2},
                       {.kind = HL_MEASURED, .gauge_name = ""}};
    const hl_book book = {.steps = steps};
    hl_go_gauge gauges[2] = {{0}};
    const hl_sheet sheet = {.book = &book, .go_gauges = gauges};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        const hl_event event = {.kind = (unsigned char)kinds[i]};
        assert_int_equal(hl__meanings[hl__verdict_other(&sheet, 0, NULL, &event)].verdict, HL_MISSING);
        /* nobody says what the gauge was made to */
        assert_int_equal(hl__meanings[hl__verdict_other(&sheet, 1, NULL, &event)].verdict,
                         kinds[i] == HL_EVENT_WITHIN ? HL_DOUBTFUL : HL_MISSING);
    }
}

static void what_was_not_read_says_why(void **state)
{
    (void)state;
    hl_step step = {.kind = HL_MEASURED, .gauge_name = ""};
    const hl_book book = {.steps = &step};
    hl_go_gauge gauge = {0};
    const hl_sheet sheet = {.book = &book, .go_gauges = &gauge};
    const hl_event skip = {.kind = HL_EVENT_SKIP}, query = {.kind = HL_EVENT_QUERY};
    assert_int_equal(hl__meanings[hl__verdict_other(&sheet, 0, NULL, &skip)].why, HL_WHY_SKIPPED);
    assert_int_equal(hl__meanings[hl__verdict_other(&sheet, 0, NULL, &query)].why, HL_WHY_UNREAD);
    assert_int_equal(hl__meanings[HL_STATE_MISSING_WITHDRAWN].why, HL_WHY_WITHDRAWN);
}

/* In doubt, by 0.2 mm either way: the limit in question is named, the only one there is or the nearer
 * of two. */
static void a_doubt_names_its_limit(void **state)
{
    (void)state;
    static const struct {
        hl_target target;
        hl_amount reading;
        hl_why why;
    } cases[] = {
        {{0, 0, MM(.1), false, true}, MM(.05), HL_WHY_HIGH},
        {{MM(9.8), MM(10), 0, true, false}, MM(9.9), HL_WHY_LOW},
        {{MM(9.8), MM(10), MM(10.2), true, true}, MM(9.9), HL_WHY_LOW},
        {{MM(9.8), MM(10), MM(10.2), true, true}, MM(10.1), HL_WHY_HIGH},
        {{MM(9.8), MM(10), MM(10.2), true, true}, MM(10), HL_WHY_LOW}, /* as near to both */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const hl_target *target = &cases[i].target;
        hl_ruling ruling = hl__verdict_guarded(target, target, cases[i].reading, MM(.2) + 1);
        assert_int_equal(ruling.verdict, HL_DOUBTFUL);
        assert_int_equal(ruling.why, cases[i].why);
    }
}

/* Pairs read in [college-weights], [list-2004-weights], [list-1998-weights], [list-2003-friction-c5] and
 * [list-2000-shimmed-stack]: shimming the stack changed friction, not the mean. */
static void touchweight_makes_mean_weight_and_friction(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        double mean, friction;
    } cases[] = {
        {"A4,downweight,52\nA4,upweight,28\n", 40, 12},     {"A4,downweight,53\nA4,upweight,27\n", 40, 13},
        {"A4,downweight,50\nA4,upweight,20\n", 35, 15},     {"A4,downweight,46\nA4,upweight,24\n", 35, 11},
        {"A4,downweight,56\nA4,upweight,33\n", 44.5, 11.5}, {"A4,downweight,50\nA4,upweight,26\n", 38, 12},
        {"A4,downweight,81\nA4,upweight,16\n", 48.5, 32.5}, {"A4,downweight,45\nA4,upweight,26\n", 35.5, 9.5},
        {"A4,downweight,47\nA4,upweight,24\n", 35.5, 11.5},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[128] = HEADS;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_finding *mean = see(&j, "mean_weight", "A4");
        assert_true(mean->has_value && mean->computed);
        assert_int_equal(mean->value, G(cases[i].mean));
        assert_int_equal(see(&j, "friction", "A4")->value, G(cases[i].friction));
        assert_int_equal(see(&j, "friction", "A4")->verdict, cases[i].friction > 16 ? HL_FAIL : HL_PASS);
        put_away(&j);
    }
}

/* The equation: [list-2010-travel-link]; the rows are arithmetic.
 * First row: 47, 2, 10, 1 mm are a ratio of 5.0. */
static void aftertouch_follows_from_dip_blow_and_let_off(void **state)
{
    (void)state;
    static const struct {
        const char *facts, *rows;
        hl_amount aftertouch;
    } cases[] = {
        {"# travel_ratio: 5\n", "C4,key_dip,10\nC4,blow,47\nC4,let_off,2\n", 1000000},
        {"# travel_ratio: 5\n", "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.5\n", 1100000},
        {"# travel_ratio: 5.5\n", "C4,key_dip,10\nC4,blow,45\nC4,let_off,1.5\n", 2090909},
        {"# travel_ratio: 5.5\n# lost_motion: 0.2\n", "C4,key_dip,10\nC4,blow,47\nC4,let_off,1.5\n", 1527273},
        {"# travel_ratio: 5\n", "C4,key_dip,9.6\nC4,blow,44\nC4,let_off,1\n", 1000000},
        {"# travel_ratio: 5\n# lost_motion: 0.1\n", "C4,key_dip,10\nC4,blow,45\nC4,let_off,2\n", 1300000},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        book->steps[small_step(book, "aftertouch")].resolution = 1; /* to see every digit */
        char text[256] = "";
        strcat(text, cases[i].facts);
        strcat(text, HEADS);
        strcat(text, cases[i].rows);
        judged j = judge_by(book, text);
        const hl_finding *finding = see(&j, "aftertouch", "C4");
        assert_int_equal(finding->verdict, HL_MISSING); /* reckoned is not read */
        assert_true(finding->has_value && finding->computed);
        assert_int_equal(finding->value, cases[i].aftertouch);
        put_away(&j);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_reading_on_a_limit_passes),
        cmocka_unit_test(inches_and_millimetres_pass_alike),
        cmocka_unit_test(a_gauge_passes_only_by_its_own_name),
        cmocka_unit_test(what_is_no_reading_of_the_step_never_passes),
        cmocka_unit_test(what_was_not_read_says_why),
        cmocka_unit_test(a_doubt_names_its_limit),
        cmocka_unit_test(touchweight_makes_mean_weight_and_friction),
        cmocka_unit_test(aftertouch_follows_from_dip_blow_and_let_off),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
