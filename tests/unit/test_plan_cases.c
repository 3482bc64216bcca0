/* test_plan_cases.c - the planner's rules, one at a time, over the small book.
 *
 * Figures are arithmetic: a capstan turn moves blow by -10 mm and aftertouch by +2 mm; front paper of
 * t takes t * 250/230 off the dip, and off the aftertouch; blow may stand 0.75 mm from its neighbours. */
#include "changed_book.h"
#include "hammerline.h"
#include "planned.h"

#include <stdio.h>

/* ---- options ----------------------------------------------------------------------------------- */

static void the_scope_is_read_as_people_write_it(void **state)
{
    (void)state;
    static const struct {
        const char *scope;
        bool only;
    } cases[] = {
        {"inspect only", true},          {"Inspect only", true},  {"INSPECT ONLY", true},
        {"inspect_only", true},          {"inspect-only", true},  {"inspect", false},
        {"inspect only, please", false}, {"inspect+only", false}, {"in pect only", false},
        {"xnspect only", false},         {"all of it", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200];
        snprintf(text, sizeof text, "# scope: %s\n%sC4,blow,48\n", cases[i].scope, HEADS);
        planned p = plan_judged(judge(text), NULL);
        if (hl_plan_inspect_only(p.plan) != cases[i].only)
            fail_msg("%s", cases[i].scope);
        put_plan_away(&p);
    }
}

/* The first adjuster and the first step of a book can be named like any other. */
static void the_first_of_the_book_can_be_named(void **state)
{
    (void)state;
    static const char *const without[] = {"front_punching"}, *const line[] = {"key_height"};
    const hl_plan_options left_out = {.without = without, .n_without = 1};
    planned p = plan_finished(small_book(), "C4,key_dip,10.3\nC4,aftertouch,1.4\n", &left_out);
    assert_int_equal(small_adjuster(p.j.book, "front_punching"), 0);
    assert_int_equal(count_moved(&p, "C4"), 0);
    assert_int_equal(unmet(&p, "C4", "key_dip")->why, HL_LACK_LEFT_OUT);
    put_plan_away(&p);
    const hl_plan_options on_line = {.lines = line, .n_lines = 1};
    p = plan_judged(judge("# samples: C4 E4\n" HEADS "C4,key_height,63.4\nE4,key_height,63.6\n"), &on_line);
    int n = 0;
    const hl_on_line *lines = hl_plan_lines(p.plan, &n);
    assert_int_equal(small_step(p.j.book, "key_height"), 0);
    assert_int_equal(n, 1); /* D4: C#4 and D#4 have none */
    assert_int_equal(lines[0].target.aim, MM(63.5));
    put_plan_away(&p);
    hl_book *book = small_book();
    book->adjusters[0].irreversible = true;
    const hl_plan_options reversible = {.reversible = true};
    p = plan_finished(book, "C4,key_dip,10.3\nC4,aftertouch,1.4\n", &reversible);
    assert_int_equal(moved(&p, "C4", "front_punching"), 0);
    put_plan_away(&p);
}

static void a_slip_in_a_name_is_answered_with_the_right_one(void **state)
{
    (void)state;
    static const char *const adjuster[] = {"capstans"}, *const step[] = {"blov"},
                             *const first_adjuster[] = {"front_punchin"}, *const first_step[] = {"key_heigt"},
                             *const strange[] = {"xyzzyx"};
    const struct {
        hl_plan_options options;
        const char *says;
    } cases[] = {{{.without = adjuster, .n_without = 1}, "mean 'capstan'"},
                 {{.without = first_adjuster, .n_without = 1}, "mean 'front_punching'"},
                 {{.lines = step, .n_lines = 1}, "mean 'blow'"},
                 {{.lines = first_step, .n_lines = 1}, "mean 'key_height'"},
                 {{.without = strange, .n_without = 1}, "front_punching"}};
    judged j = judge_finished(small_book(), "");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_plan *plan = NULL;
        hl_err err = {0};
        assert_int_equal(hl_plan_run(&plan, j.audit, &cases[i].options, &err), HL_E_USAGE);
        if (strstr(err.todo, cases[i].says) == NULL)
            fail_msg("%s", err.todo);
    }
    for (int n = 0; n < 2; n++) { /* of a book with no adjuster, and with one */
        hl_plan *plan = NULL;
        hl_err err = {0};
        const int all = j.book->n_adjusters;
        j.book->n_adjusters = n;
        assert_int_equal(hl_plan_run(&plan, j.audit, &cases[4].options, &err), HL_E_USAGE);
        assert_non_null(strstr(err.todo, n == 0 ? "such as none" : "such as front_punching"));
        j.book->n_adjusters = all;
    }
    put_away(&j);
}

/* ---- what is moved ------------------------------------------------------------------------------ */

/* No finest move and no sizes: it can't be reckoned in amounts, only felt. */
static void without_a_finest_move_it_is_done_by_feel(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "capstan")].finest = 0;
    planned p = plan_finished(book, "C4,blow,48\n", NULL);
    int n = 0;
    const hl_chore *chores = hl_plan_chores(p.plan, &n);
    assert_int_equal(count_moved(&p, "C4"), 0);
    assert_int_equal(n, 1);
    assert_int_equal(chores[0].adjuster, small_adjuster(p.j.book, "capstan"));
    put_plan_away(&p);
}

/* What moves the whole instrument is no way out for one note. */
static void what_moves_all_notes_is_not_moved_for_one(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "capstan")].whole = true;
    planned p = plan_finished(book, "C4,blow,48\n", NULL);
    assert_int_equal(count_moved(&p, "C4"), 0);
    assert_non_null(unmet(&p, "C4", "blow"));
    put_plan_away(&p);
}

/* Blow 49 wants a quarter turn, which would leave aftertouch at 1.6 even with the dip at its least;
 * aftertouch passes and its neighbours share its line, so it is not for sale: an eighth is turned. */
static void what_passes_is_not_sold(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,blow,49\nC4,aftertouch,1.3\n", NULL);
    assert_int_equal(moved(&p, "C4", "capstan"), TURN(.125));
    assert_non_null(unmet(&p, "C4", "blow"));
    assert_null(unmet(&p, "C4", "aftertouch"));
    assert_in_range(known(&p, "C4", "aftertouch"), MM(.8), MM(1.4));
    put_plan_away(&p);
}

/* Both ends of the keyboard, and the first step of the book, are planned like the rest. */
static void the_ends_of_the_keyboard(void **state)
{
    (void)state;
    planned p =
        plan_finished(small_book(), "A0,blow,48\nA0,aftertouch,.7\nC8,blow,48\nC8,aftertouch,.7\n", NULL);
    assert_true(moved(&p, "A0", "capstan") > 0);
    assert_true(moved(&p, "C8", "capstan") > 0);
    assert_int_equal(note_of(&p, "C8")->note, 88);
    put_plan_away(&p);
}

/* What lies on its limit passes, and is left where it is. */
static void on_the_limit_is_inside(void **state)
{
    (void)state;
    static const char *const rows[] = {"C4,let_off,2\n", "C4,let_off,1.2\n", "C4,drop,1.6\n", "C4,drop,.8\n"};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        planned p = plan_finished(small_book(), rows[i], NULL);
        assert_true(hl_plan_idle(p.plan));
        put_plan_away(&p);
    }
}

/* A target of one point is a target: 1.6 mm and nothing else, and 1.85 is an eighth of a turn off. */
static void a_target_of_one_point(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_target(book, "let_off", (hl_target){MM(1.6), MM(1.6), MM(1.6), true, true});
    planned p = plan_finished(book, "C4,let_off,1.85\n", NULL);
    assert_int_equal(moved(&p, "C4", "let_off_button"), -TURN(.125));
    assert_int_equal(note_of(&p, "C4")->n_unmet, 0);
    put_plan_away(&p);
}

/* A handful of paper is no finer than two: 0.3 mm of dip is 0.276 of paper, 0.254 is one piece. */
static void papers_are_few(void **state)
{
    (void)state;
    static const double off[] = {.05, .1, .15, .2, .25, .3, .4, .5, .6, .8, 1, 1.5};
    for (size_t i = 0; i < sizeof off / sizeof *off; i++) {
        char rows[100];
        snprintf(rows, sizeof rows, "C4,key_dip,%d.%02d\nC4,aftertouch,1.4\n",
                 10 + (int)((20 + off[i] * 100) / 100), (int)(20 + off[i] * 100 + .5) % 100);
        planned p = plan_finished(small_book(), rows, NULL);
        const hl_plan_note *note = note_of(&p, "C4");
        for (int k = 0; note && k < note->n_adjustments; k++) {
            const hl_correction *one = &note->adjustments[k];
            hl_amount sum = 0;
            int n = 0;
            for (; n < HL_PIECES && one->pieces[n] != 0; n++)
                sum += one->pieces[n];
            if (one->adjuster != 0)
                continue;
            assert_int_equal(sum, one->amount);
            assert_true(n <= 2);
        }
        put_plan_away(&p);
    }
}

/* ---- what is known ---------------------------------------------------------------------------- */

static const hl_foreseen *foreseen(const planned *p, const char *note, const char *step)
{
    const hl_plan_note *of = note_of(p, note);
    for (int i = 0; of && i < of->n_foreseen; i++)
        if (of->foreseen[i].step == small_step(p->j.book, step))
            return &of->foreseen[i];
    return NULL;
}

static void what_is_foretold_says_on_what_it_rests(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,blow,48\nC4,aftertouch,.7\nC4,let_off,within\n", NULL);
    assert_true(foreseen(&p, "C4", "blow")->moved && foreseen(&p, "C4", "blow")->assumed);
    assert_false(foreseen(&p, "C4", "key_dip")->moved);
    assert_false(foreseen(&p, "C4", "key_dip")->assumed);
    assert_null(foreseen(&p, "C4", "let_off")); /* a gauge says no number */
    put_plan_away(&p);
    hl_book *book = small_book();
    for (int i = 0; i < book->n_adjusters; i++) {
        book->adjusters[i].assumed = false;
        for (int k = 0; k < book->adjusters[i].n_moves; k++)
            ((hl_move *)book->adjusters[i].moves)[k].assumed = false;
    }
    p = plan_judged(judge_by(book, "# capstan_pitch: 1 mm/turn\n# travel_ratio: 5\n# capstan_ratio: .5\n"
                                   "# lost_motion: 0 mm\n# key_front: 250 mm\n# key_pin: 230 mm\n"
                                   "# key_back: 220 mm\n# key_capstan: 125 mm\n" HEADS
                                   "C4,key_dip,10\nC4,blow,48\nC4,let_off,1.6\nC4,aftertouch,.7\n"),
                    NULL);
    assert_true(foreseen(&p, "C4", "blow")->moved);
    assert_false(foreseen(&p, "C4", "blow")->assumed);
    put_plan_away(&p);
}

static void what_waits_is_not_foretold(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_mask(book, "key_level", "key_dip");
    planned p = plan_finished(book, "C4,key_level,-0.3\nC4,key_dip,9.5\n", NULL);
    assert_int_equal(note_of(&p, "C4")->waiting[0].step, small_step(p.j.book, "key_dip"));
    assert_null(foreseen(&p, "C4", "key_dip"));
    assert_non_null(foreseen(&p, "C4", "key_level"));
    put_plan_away(&p);
}

/* The first step of the book can be what has to come first. */
static void the_first_step_can_mask(void **state)
{
    (void)state;
    hl_book *book = small_book();
    int *masks = hl__arena_array(&book->arena, 1, sizeof *masks);
    masks[0] = small_step(book, "blow");
    book->steps[0].masks = masks; /* key_height: no way out of it is named */
    book->steps[0].n_masks = 1;
    planned p = plan_finished(book, "C4,key_height,70\nC4,blow,48\nC4,aftertouch,.5\n", NULL);
    assert_int_equal(waits(&p, "C4", "blow")->first, 0);
    assert_int_equal(moved(&p, "C4", "capstan"), 0);
    assert_null(foreseen(&p, "C4", "blow"));
    put_plan_away(&p);
}

/* Front paper at both ends of the keyboard: A0 and C8 are naturals, and each takes a .010 in piece. */
static void the_parts_of_the_whole_keyboard(void **state)
{
    (void)state;
    planned p = plan_finished(
        small_book(), "A0,key_dip,10.3\nA0,aftertouch,1.4\nC8,key_dip,10.3\nC8,aftertouch,1.4\n", NULL);
    int n = 0, count = 0;
    const hl_part *parts = hl_plan_parts(p.plan, &n);
    for (int i = 0; i < n; i++)
        count += parts[i].adjuster == 0 && parts[i].size == MM(.254) && !parts[i].sharps ? parts[i].count : 0;
    assert_int_equal(count, 2);
    put_plan_away(&p);
}

/* ---- lines --------------------------------------------------------------------------------------- */

/* C4 to E4 by the samples' readings; D4 is half way.  Where no evenness is asked the line is as wide as
 * half the target, or from its limit to its aim, and never narrower than what is read. */
static void how_wide_a_line_is(void **state)
{
    (void)state;
    static const struct {
        hl_target target;
        double even, from, to, low, aim, high;
    } cases[] = {
        {{MM(1.2), MM(1.6), MM(2), true, true}, 0, 1.6, 1.6, 1.2, 1.6, 2},
        {{MM(1.2), MM(1.6), MM(2), true, true}, 0, 1.3, 1.5, 1.2, 1.4, 1.8},
        {{MM(1.2), MM(1.6), MM(2), true, true}, .1, 1.5, 1.7, 1.5, 1.6, 1.7},
        {{MM(1.2), MM(1.6), MM(2), true, true}, .000001, 1.5, 1.7, 1.599999, 1.6, 1.600001},
        {{MM(1.2), MM(1.6), MM(2), true, true}, .1, 1.3, 1.4, 1.3, 1.4, 1.5}, /* 1.35 is read 1.4 */
        {{MM(1.2), MM(1.6), MM(2), true, true}, .1, 1.9, 1.8, 1.8, 1.9, 2},   /* 1.85 is read 1.9 */
        {{MM(1.2), MM(1.6), 0, true, false}, 0, 1.6, 2.0, 1.4, 1.8, 2.2},     /* 0.4 below the aim */
        {{0, MM(1.6), MM(2.2), false, true}, 0, 1.4, 1.6, .9, 1.5, 2.1},      /* 0.6 above it */
        {{MM(1.6), MM(1.6), 0, true, false}, 0, 1.7, 1.9, 1.7, 1.8, 1.9},     /* none: what is read */
    };
    static const char *const line[] = {"let_off"};
    const hl_plan_options options = {.lines = line, .n_lines = 1};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200];
        hl_book *book = small_book();
        set_target(book, "let_off", cases[i].target);
        book->steps[small_step(book, "let_off")].even = MM(cases[i].even);
        snprintf(text, sizeof text, "# samples: C4 E4\n%sC4,let_off,%d.%d\nE4,let_off,%d.%d\n", HEADS,
                 (int)cases[i].from, (int)(cases[i].from * 10 + .5) % 10, (int)cases[i].to,
                 (int)(cases[i].to * 10 + .5) % 10);
        planned p = plan_judged(judge_by(book, text), &options);
        int n = 0;
        const hl_on_line *lines = hl_plan_lines(p.plan, &n);
        assert_int_equal(n, 3); /* C#4, D4, D#4 */
        assert_int_equal(lines[1].note, 42);
        if (lines[1].target.low != MM(cases[i].low) || lines[1].target.aim != MM(cases[i].aim) ||
            lines[1].target.high != MM(cases[i].high))
            fail_msg("case %zu: %lld %lld %lld", i, (long long)lines[1].target.low,
                     (long long)lines[1].target.aim, (long long)lines[1].target.high);
        put_plan_away(&p);
    }
}

/* From 1.6 to 1.5 over three keys, held to a nanometre: a third is 33,333 nm, down as well as up. */
static void a_line_is_rounded_to_the_nearest(void **state)
{
    (void)state;
    static const char *const line[] = {"let_off"};
    static const struct {
        const char *rows;
        hl_amount first, second;
    } cases[] = {{"C4,let_off,1.6\nD#4,let_off,1.5\n", 1566667, 1533333},
                 {"C4,let_off,1.6\nD#4,let_off,1.7\n", 1633333, 1666667}};
    const hl_plan_options options = {.lines = line, .n_lines = 1};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[120] = "# samples: C4 D#4\n" HEADS;
        hl_book *book = small_book();
        book->steps[small_step(book, "let_off")].resolution = 1;
        strcat(text, cases[i].rows);
        planned p = plan_judged(judge_by(book, text), &options);
        int n = 0;
        const hl_on_line *lines = hl_plan_lines(p.plan, &n);
        assert_int_equal(n, 2);
        assert_int_equal(lines[0].target.aim, cases[i].first);
        assert_int_equal(lines[1].target.aim, cases[i].second);
        put_plan_away(&p);
    }
}

/* All is ready; the key height's samples alone are asked for, but the line wants every natural read. */
static void a_line_that_is_not_read_is_work(void **state)
{
    (void)state;
    static const char *const line[] = {"key_height"};
    static const struct {
        const char *rows;
        bool idle;
    } cases[] = {{"", true}, {"B0,key_height,void\n", false}, {"B7,key_height,void\n", false}};
    const hl_plan_options options = {.lines = line, .n_lines = 1};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl_book *book = small_book();
        hl__text_add(&text, "# samples: A0 C8\n" HEADS);
        for (int note = 0; note <= book->compass.keys; note++)
            type_note(&text, book, note);
        hl__text_add(&text, cases[i].rows);
        planned p = plan_judged(judge_by(book, text.data), &options);
        assert_int_equal(hl_plan_idle(p.plan), cases[i].idle);
        hl__text_free(&text);
        put_plan_away(&p);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_scope_is_read_as_people_write_it),
        cmocka_unit_test(the_first_of_the_book_can_be_named),
        cmocka_unit_test(a_slip_in_a_name_is_answered_with_the_right_one),
        cmocka_unit_test(without_a_finest_move_it_is_done_by_feel),
        cmocka_unit_test(what_moves_all_notes_is_not_moved_for_one),
        cmocka_unit_test(what_passes_is_not_sold),
        cmocka_unit_test(the_ends_of_the_keyboard),
        cmocka_unit_test(on_the_limit_is_inside),
        cmocka_unit_test(a_target_of_one_point),
        cmocka_unit_test(papers_are_few),
        cmocka_unit_test(what_is_foretold_says_on_what_it_rests),
        cmocka_unit_test(what_waits_is_not_foretold),
        cmocka_unit_test(the_first_step_can_mask),
        cmocka_unit_test(the_parts_of_the_whole_keyboard),
        cmocka_unit_test(how_wide_a_line_is),
        cmocka_unit_test(a_line_is_rounded_to_the_nearest),
        cmocka_unit_test(a_line_that_is_not_read_is_work),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
