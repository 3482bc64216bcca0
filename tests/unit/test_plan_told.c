/* test_plan_told.c - what a plan says of readings that it can't bring in: why, by how much, and once.
 *
 * Figures are arithmetic over the small book: a capstan turn moves blow by -10 mm; friction is half of what
 * downweight has over upweight; blow may stand 0.75 mm from its neighbours and is read to 0.1. */
#include "changed_book.h"
#include "hammerline.h"
#include "planned.h"

static int count_told(const planned *p, const char *note, const char *step)
{
    const hl_plan_note *of = note_of(p, note);
    int n = 0;
    for (int i = 0; of && i < of->n_unmet; i++)
        n += of->unmet[i].step == small_step(p->j.book, step);
    return n;
}

/* Friction has no screw: 17.5 g is told of, 1.5 too much.  The same of a figure that follows from
 * aftertouch is the note's geometry. */
static void what_no_tool_cures_is_told(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,downweight,55\nC4,upweight,20\n", NULL);
    assert_int_equal(unmet(&p, "C4", "friction")->why, HL_LACK_UNMOVED);
    assert_int_equal(unmet(&p, "C4", "friction")->by, G(1.5));
    assert_true(unmet(&p, "C4", "friction")->above);
    assert_false(unmet(&p, "C4", "friction")->uneven);
    put_plan_away(&p);
    hl_book *book = small_book();
    book->steps[small_step(book, "friction")].formula = small_formula(book, "aftertouch");
    small_order(book);
    p = plan_finished(book, "", NULL); /* 1.1, and 8 is the least */
    assert_int_equal(unmet(&p, "C4", "friction")->why, HL_LACK_GEOMETRY);
    assert_false(unmet(&p, "C4", "friction")->above);
    assert_int_equal(unmet(&p, "C4", "friction")->by, G(6.9));
    put_plan_away(&p);
}

/* That front paper is laid by feel is no reason to be silent about the key height, which has no way out. */
static void a_way_by_feel_is_that_steps_own(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->adjusters[small_adjuster(book, "front_punching")].n_sizes = 0;
    planned p = plan_finished(book, "C4,key_height,70\nC4,key_dip,10.5\nC4,aftertouch,1.4\n", NULL);
    assert_int_equal(unmet(&p, "C4", "key_height")->why, HL_LACK_UNMOVED);
    assert_null(unmet(&p, "C4", "key_dip"));
    put_plan_away(&p);
}

/* Let-off waits for the key height, and with it the drop, which has the same button in this book; the
 * friction beside them is told of, once. */
static void each_fault_is_told_once(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_mask(book, "key_height", "let_off");
    set_fixes(book, "drop", "let_off_button", NULL);
    planned p = plan_finished(
        book, "C4,key_height,70\nC4,let_off,3\nC4,drop,1.9\nC4,downweight,55\nC4,upweight,20\n", NULL);
    assert_non_null(waits(&p, "C4", "drop"));
    assert_int_equal(count_told(&p, "C4", "drop"), 0);
    assert_int_equal(count_told(&p, "C4", "friction"), 1);
    assert_int_equal(count_told(&p, "C4", "key_height"), 1);
    assert_int_equal(note_of(&p, "C4")->n_unmet, 2);
    put_plan_away(&p);
}

/* What means nothing while the keys stand wrong is not told of, though it is not read again by itself. */
static void what_means_nothing_yet_is_not_told(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_mask(book, "key_height", "friction");
    planned p = plan_finished(book, "C4,key_height,70\nC4,downweight,55\nC4,upweight,20\n", NULL);
    assert_int_equal(count_told(&p, "C4", "key_height"), 1);
    assert_int_equal(count_told(&p, "C4", "friction"), 0);
    for (int i = 0; i < note_of(&p, "C4")->n_foreseen; i++) /* nor known */
        assert_int_not_equal(note_of(&p, "C4")->foreseen[i].step, small_step(p.j.book, "friction"));
    put_plan_away(&p);
}

/* An eighth of a turn brings 48 to 46.75, on the edge of what the neighbours at 46 allow, but it will be
 * read as 46.8; a quarter would spoil the aftertouch.  Below them 44 comes to 45.25, read as 45.3. */
static void a_hair_from_the_neighbours_is_told(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), "C4,blow,48\nF#4,blow,44\n", NULL);
    const hl_unmet_reading *one = unmet(&p, "C4", "blow");
    assert_int_equal(moved(&p, "C4", "capstan"), TURN(.125));
    assert_int_equal(one->why, HL_LACK_GRAIN);
    assert_true(one->uneven && one->above);
    assert_int_equal(one->by, MM(.05));
    assert_int_equal(one->n_adjusters, 0);
    assert_int_equal(moved(&p, "F#4", "capstan"), -TURN(.125));
    assert_null(unmet(&p, "F#4", "blow"));
    put_plan_away(&p);
}

/* The same of a capstan that was turned down after the last reading, 45.5 + 1.25: the plan has no finer move,
 * or none at all when the capstan stays as it is today. */
static void what_was_turned_to_a_hair_is_told(void **state)
{
    (void)state;
    static const char *const without[] = {"capstan"}, *const rows = "C4,blow,45.5\nC4,capstan,-1/8 turn\n";
    const hl_plan_options options = {.without = without, .n_without = 1};
    planned p = plan_finished(small_book(), rows, NULL);
    assert_int_equal(count_moved(&p, "C4"), 0);
    assert_int_equal(note_of(&p, "C4")->n_unmet, 1);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_GRAIN);
    put_plan_away(&p);
    p = plan_finished(small_book(), rows, &options);
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_LEFT_OUT);
    assert_int_equal(unmet(&p, "C4", "blow")->n_adjusters, 1);
    assert_int_equal(unmet(&p, "C4", "blow")->adjusters[0], small_adjuster(p.j.book, "capstan"));
    put_plan_away(&p);
}

/* The first step at the first key, and work by feel: no different from the rest. */
static void the_first_fault_is_carried_along(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_fixes(book, "key_height", "repetition_spring", NULL);
    planned p = plan_finished(book, "A0,key_height,70\n", NULL);
    int n = 0;
    const hl_chore *chores = hl_plan_chores(p.plan, &n);
    assert_int_equal(n, 1);
    assert_int_equal(chores[0].note, 1);
    assert_int_equal(chores[0].adjuster, small_adjuster(p.j.book, "repetition_spring"));
    assert_int_equal(count_told(&p, "A0", "key_height"), 0);
    put_plan_away(&p);
}

/* The capstan has not the reach; that is told of, and is no work by feel, though the book names a way. */
static void what_is_told_is_not_carried_along(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_fixes(book, "blow", "capstan", "repetition_spring");
    book->adjusters[small_adjuster(book, "capstan")].reach = TURN(.125);
    planned p = plan_finished(book, "C4,blow,50\n", NULL);
    int n = 0;
    assert_int_equal(unmet(&p, "C4", "blow")->why, HL_LACK_REACH);
    hl_plan_chores(p.plan, &n);
    assert_int_equal(n, 0);
    put_plan_away(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_no_tool_cures_is_told),
        cmocka_unit_test(a_way_by_feel_is_that_steps_own),
        cmocka_unit_test(each_fault_is_told_once),
        cmocka_unit_test(what_means_nothing_yet_is_not_told),
        cmocka_unit_test(a_hair_from_the_neighbours_is_told),
        cmocka_unit_test(what_was_turned_to_a_hair_is_told),
        cmocka_unit_test(the_first_fault_is_carried_along),
        cmocka_unit_test(what_is_told_is_not_carried_along),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
