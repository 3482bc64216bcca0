/* test_learn.c - what this piano's adjusters really move, from readings before and after.
 *
 * Figures are arithmetic over the small book: a capstan turn moves blow by -10 mm.  Three
 * adjustments, and no large spread, are what is promised; the bounds themselves are our own choice. */
#include "hammerline.h"
#include "judged.h"

#include "effects_cache.h"
#include "step_formula.h"

#include <math.h>

/* ---- what counts, by hand ------------------------------------------------------------------- */

/* Each capstan turned a quarter down; the book expects 2.5 mm more of blow, this piano gives 3. */
#define THREE                                                                                                \
    "C4,blow,44\nC4,capstan,-1/4 turn\nC4,blow,47\nD4,blow,44\nD4,capstan,-1/4 turn\nD4,blow,47\n"           \
    "E4,blow,44\nE4,capstan,-1/4 turn\nE4,blow,47\n"

static void three_that_agree_are_used(void **state)
{
    (void)state;
    judged j = judge(HEADS THREE "F4,blow,49\n");
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    assert_int_equal(learned->n, 3);
    assert_true(learned->used);
    assert_int_equal(learned->why, HL_LEARNED_USED);
    assert_int_equal(learned->assumed, MM(-10));
    assert_true(fabs(learned->factor - 1.2) < .03); /* 3 mm over 2.5, less what the reading flatters */
    assert_true(learned->effect < MM(-11.6));
    const hl_finding *blow = see(&j, "blow", "F4");
    assert_int_equal(blow->verdict, HL_FAIL);
    assert_true(blow->corrections[0].learned);
    assert_false(blow->corrections[0].assumed);
    assert_int_equal(blow->corrections[0].amount, TURN(.25)); /* 3 mm at 12 a turn; the book says 3/8 */
    put_away(&j);
}

/* The sheet says what its gauge is good to: 1.9 mm can't tell 3 mm from the book's 2.5. */
static void the_sheet_states_the_gauge(void **state)
{
    (void)state;
    judged j = judge("# gauge blow: 1.9 mm\n" HEADS THREE);
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    assert_false(learned->used);
    assert_int_equal(learned->why, HL_LEARNED_NOISE);
    put_away(&j);
}

/* The same effect in what follows from blow: 12 mm a turn are 2.4 mm of aftertouch.  Its model has
 * an assumed ratio, so that correction is learned and assumed. */
static void what_follows_by_a_model_is_learned_with_it(void **state)
{
    (void)state;
    judged j = judge(HEADS THREE "F4,key_dip,10\nF4,blow,46\nF4,let_off,1.6\nF4,aftertouch,.5\n");
    const hl_finding *touch = see(&j, "aftertouch", "F4");
    for (int i = 0; i < touch->n_corrections; i++)
        if (touch->corrections[i].adjuster == small_adjuster(j.book, "capstan")) {
            assert_true(touch->corrections[i].learned);
            assert_true(touch->corrections[i].assumed);
        }
    put_away(&j);
}

static void staleness_goes_by_what_was_learned(void **state)
{
    (void)state;
    judged j = judge(HEADS THREE "F4,blow,46\nF4,capstan,+1/8 turn\n");
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    const hl_finding *blow = see(&j, "blow", "F4");
    assert_int_equal(blow->verdict, HL_STALE);
    assert_true(llabs(blow->shift - learned->effect / 8) <= 1);
    put_away(&j);
}

static void what_is_not_learned_from(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        int n;
        hl_learned_why why;
    } cases[] = {
        {"two are too few",
         "C4,blow,44\nC4,capstan,-1/4 turn\nC4,blow,47\nD4,blow,44\nD4,capstan,-1/4 turn\nD4,blow,47\n", 2,
         HL_LEARNED_FEW},
        {"a third without its reading after", THREE "F4,blow,44\nF4,capstan,-1/4 turn\n", 3, HL_LEARNED_USED},
        {"they don't agree",
         "C4,blow,44\nC4,capstan,-1/4 turn\nC4,blow,44.5\nD4,blow,44\nD4,capstan,-1/4 turn\nD4,blow,46.5\n"
         "E4,blow,44\nE4,capstan,-1/4 turn\nE4,blow,49\nF4,blow,44\nF4,capstan,-1/4 turn\nF4,blow,47.5\n",
         4, HL_LEARNED_SPREAD},
        {"the gauge sees nothing of so little",
         "C4,blow,46\nC4,capstan,-1/100 turn\nC4,blow,46.1\nD4,blow,46\nD4,capstan,-1/100 "
         "turn\nD4,blow,46.1\n"
         "E4,blow,46\nE4,capstan,-1/100 turn\nE4,blow,46.2\n",
         3, HL_LEARNED_NOISE},
        {"the way was written wrong",
         "C4,blow,44\nC4,capstan,+1/4 turn\nC4,blow,46.5\nD4,blow,44\nD4,capstan,+1/4 turn\nD4,blow,46.5\n"
         "E4,blow,44\nE4,capstan,+1/4 turn\nE4,blow,46.5\n",
         3, HL_LEARNED_WAY},
        {"turns written as eighths",
         "C4,blow,44\nC4,capstan,-1/16 turn\nC4,blow,49\nD4,blow,44\nD4,capstan,-1/16 turn\nD4,blow,49\n"
         "E4,blow,44\nE4,capstan,-1/16 turn\nE4,blow,49\n",
         3, HL_LEARNED_FAR},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl__text_add(&text, HEADS);
        hl__text_add(&text, cases[i].rows);
        judged j = judge(text.data);
        const hl_learned *learned = learned_of(&j, "capstan", "blow");
        if (!learned || learned->n != cases[i].n || learned->why != cases[i].why ||
            learned->used != (cases[i].why == HL_LEARNED_USED))
            fail_msg("%s: n %d, why %d", cases[i].what, learned ? learned->n : 0,
                     learned ? (int)learned->why : -1);
        put_away(&j);
        hl__text_free(&text);
    }
}

static void pairs_that_teach_nothing(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
    } cases[] = {
        {"another method", "C4,blow,44,jig\nC4,capstan,-1/4 turn,\nC4,blow,47,rule\n"},
        {"an amount that nobody stated", "C4,blow,44,\nC4,capstan,lower,\nC4,blow,47,\n"},
        {"the adjustment was taken back",
         "C4,blow,44,\nC4,capstan,-1/4 turn,\nC4,capstan,void,\nC4,blow,47,\n"},
        {"the reading was taken back", "C4,blow,44,\nC4,blow,void,\nC4,capstan,-1/4 turn,\nC4,blow,47,\n"},
        {"another note's capstan", "C4,blow,44,\nD4,capstan,-1/4 turn,\nC4,blow,47,\n"},
        {"a gauge, no number", "C4,blow,within,\nC4,capstan,-1/4 turn,\nC4,blow,47,\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[256] = "note,step,reading,method\n";
        strcat(text, cases[i].rows);
        judged j = judge(text);
        if (learned_of(&j, "capstan", "blow"))
            fail_msg("%s", cases[i].what);
        put_away(&j);
    }
}

/* A balance punching of 0.2 mm raises the hammer too: 0.2 x (1 - 125/220) x 5 / (1/2) = 0.86 mm of
 * blow, by the book's levers.  Taken off, the capstan's quarter is seen to have given 3 mm. */
static void what_others_did_is_taken_off(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,blow,44\nC4,balance_punching,+.2 mm\nC4,capstan,-1/4 turn\nC4,blow,46.1364\n"
                           "D4,blow,44\nD4,balance_punching,+.2 mm\nD4,capstan,-1/4 turn\nD4,blow,46.1364\n"
                           "E4,blow,44\nE4,balance_punching,+.2 mm\nE4,capstan,-1/4 turn\nE4,blow,46.1364\n");
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    assert_int_equal(learned->n, 3);
    assert_true(fabs(learned->factor - 1.2) < .05);
    put_away(&j);
}

/* One slip of the pen among eight does not count; the others say 1.2. */
static void one_wild_reading_is_left_out(void **state)
{
    (void)state;
    judged j = judge(HEADS THREE "F4,blow,44\nF4,capstan,-1/4 turn\nF4,blow,47\n"
                                 "G4,blow,44\nG4,capstan,-1/4 turn\nG4,blow,47\n"
                                 "A4,blow,44\nA4,capstan,-1/4 turn\nA4,blow,37\n");
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    assert_int_equal(learned->n, 6);
    assert_true(learned->used);
    assert_true(fabs(learned->factor - 1.2) < .03);
    put_away(&j);
}

/* A rest rail moves every note at once: two turns of it are two adjustments, at however many notes. */
static void a_whole_adjuster_counts_once(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "capstan")].whole = true;
    judged j = judge_by(book, HEADS "C4,blow,44\nD4,blow,44\nE4,blow,44\n,capstan,-1/8 turn\n"
                                    "C4,blow,45.5\nD4,blow,45.5\nE4,blow,45.5\n,capstan,-1/8 turn\n"
                                    "C4,blow,47\nD4,blow,47\nE4,blow,47\n");
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    assert_int_equal(learned->n, 2);
    assert_false(learned->used);
    put_away(&j);
}

/* Sharps keep their own levers: one factor, two effects.  Arms of the small book: 250 and 230 mm
 * for naturals, 200 and 180 for sharps. */
static void geometry_by_colour_stays(void **state)
{
    (void)state;
    judged j =
        judge(HEADS "C4,key_dip,10.6\nC4,front_punching,+.508 mm\nC4,key_dip,9.94\n"
                    "D4,key_dip,10.6\nD4,front_punching,+.508 mm\nD4,key_dip,9.94\n"
                    "E4,key_dip,10.6\nE4,front_punching,+.508 mm\nE4,key_dip,9.94\nF#4,key_dip,10.7\n");
    const hl_learned *learned = learned_of(&j, "front_punching", "key_dip");
    assert_true(learned->used);
    hl_effect effects[64];
    const hl_table *table = &j.audit->table;
    int step = small_step(j.book, "key_dip"), adjuster = small_adjuster(j.book, "front_punching");
    hl__table_values(table, 40, table->note_values);
    hl__effects_now(table, adjuster, 40, table->note_values, effects); /* C4 */
    assert_true(fabs(effects[step].by + learned->factor * 250 / 230) < 1e-9);
    hl__effects_now(table, adjuster, 46, table->note_values, effects); /* F#4 */
    assert_true(fabs(effects[step].by + learned->factor * 200 / 180) < 1e-9);
    put_away(&j);
}

/* ---- lines to keep -------------------------------------------------------------------------- */

static void expect_lines(const char *rows, const char *want)
{
    hl_text text = {0};
    hl_err err = {0};
    char *lines = NULL;
    hl__text_add(&text, HEADS);
    hl__text_add(&text, rows);
    judged j = judge(text.data);
    assert_int_equal(hl_learned_text(&lines, NULL, j.audit, &err), HL_OK);
    assert_string_equal(lines, want);
    hl_free(lines);
    put_away(&j);
    hl__text_free(&text);
}

static void lines_to_keep(void **state)
{
    (void)state;
    /* of pitch, travel ratio and capstan ratio only the pitch is the capstan's own; three quarter turns,
     * each good to a thirty-second, leave the figure a hair nearer to the book's than 1.2 */
    expect_lines(THREE, "# capstan_pitch: 1.19\n");
    expect_lines("C4,blow,44\nC4,capstan,-1/4 turn\nC4,blow,47\n", "");
    /* both arms of the key are everybody's, so the move itself is restated */
    expect_lines("C4,key_dip,10.6\nC4,front_punching,+.508 mm\nC4,key_dip,9.94\n"
                 "D4,key_dip,10.6\nD4,front_punching,+.508 mm\nD4,key_dip,9.94\n"
                 "E4,key_dip,10.6\nE4,front_punching,+.508 mm\nE4,key_dip,9.94\n",
                 "adjuster { \"front_punching\", moves = { key_dip = \"1.19 * (-key_front / key_pin)\" }, "
                 "why = \"learned from 3 adjustments\" },\n");
}

static void expect_in_text(const judged *j, const char *want)
{
    hl_err err = {0};
    char *text = NULL;
    const hl_print print = {.width = 400};
    assert_int_equal(hl_audit_text(&text, NULL, j->audit, &print, &err), HL_OK);
    if (!strstr(text, want))
        fail_msg("no \"%s\" in: %s", want, strstr(text, "Learned") ? strstr(text, "Learned") : "");
    hl_free(text);
}

static void the_audit_says_what_it_learned(void **state)
{
    (void)state;
    judged j = judge(HEADS THREE);
    expect_in_text(&j, "Learned on this piano:\n");
    expect_in_text(&j, "capstan: 1 turn moves blow 11.9 mm here (3 adjustments); the book assumed 10 mm.\n");
    put_away(&j);
    j = judge(HEADS "C4,blow,44\nC4,capstan,+1/4 turn\nC4,blow,46.5\nD4,blow,44\nD4,capstan,+1/4 turn\n"
                    "D4,blow,46.5\nE4,blow,44\nE4,capstan,+1/4 turn\nE4,blow,46.5\n");
    expect_in_text(&j, "capstan, blow: the book's figure (10 mm for 1 turn) stays after 3 adjustments: the "
                       "readings went the other way: look for a way or a sign written wrong.\n");
    put_away(&j);
}

/* The fact line on the sheet, the book is right and nothing remains to be learned. */
static void a_fact_line_closes_the_circle(void **state)
{
    (void)state;
    judged j = judge("# capstan_pitch: 1.2\n" HEADS THREE);
    const hl_learned *learned = learned_of(&j, "capstan", "blow");
    assert_int_equal(learned->assumed, MM(-12));
    assert_true(fabs(learned->factor - 1) < .03);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_that_agree_are_used),
        cmocka_unit_test(the_sheet_states_the_gauge),
        cmocka_unit_test(what_follows_by_a_model_is_learned_with_it),
        cmocka_unit_test(staleness_goes_by_what_was_learned),
        cmocka_unit_test(what_is_not_learned_from),
        cmocka_unit_test(pairs_that_teach_nothing),
        cmocka_unit_test(what_others_did_is_taken_off),
        cmocka_unit_test(one_wild_reading_is_left_out),
        cmocka_unit_test(a_whole_adjuster_counts_once),
        cmocka_unit_test(geometry_by_colour_stays),
        cmocka_unit_test(lines_to_keep),
        cmocka_unit_test(the_audit_says_what_it_learned),
        cmocka_unit_test(a_fact_line_closes_the_circle),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
