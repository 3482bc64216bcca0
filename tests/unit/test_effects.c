/* test_effects.c - what one adjuster moves at a note: levers, and the chain through formulas. */
#include "judged.h"

#include "effects.h"
#include "step_formula.h"

#include <math.h>

static void assert_near(double got, double want)
{
    if (!(fabs(got - want) < 1e-9))
        fail_msg("got %.12g, want %.12g", got, want);
}

typedef struct bench {
    hl_book *book;
    hl_sheet *sheet;
    double values[64];
    hl_effect effects[64];
} bench;

static void set_up(bench *b, const char *facts)
{
    hl_err err = {0};
    char text[512];
    strcpy(text, facts);
    strcat(text, HEADS "C4,key_dip,10\n");
    if (!b->book)
        b->book = small_book();
    assert_true(b->book->n_steps <= 64);
    if (hl_sheet_open_text(&b->sheet, "bench.csv", text, strlen(text), &err) != HL_OK ||
        hl_sheet_read(b->sheet, b->book, &err) != HL_OK)
        fail_msg("%s", err.what);
    for (int i = 0; i < b->book->n_steps; i++)
        b->values[i] = NAN;
}

static void clear_up(bench *b)
{
    hl_sheet_free(b->sheet);
    small_book_free(b->book);
}

static const hl_effect *effect_of(bench *b, const char *adjuster, const char *step, const char *note)
{
    hl__effects_at(b->book, b->sheet, small_adjuster(b->book, adjuster),
                   hl_note_parse(hl_sheet_compass(b->sheet), note), b->values, b->effects);
    return &b->effects[small_step(b->book, step)];
}

/* Lever geometry (consistent with [list-2002-key-papers]): a front
 * punching at the pin counts front/pin at the key's edge; a balance punching raises the front by
 * 1 + front/back.  Arms of the small book: 250, 230, 220 mm; sharps 200 and 180 mm. */
static void punchings_act_by_the_keys_levers(void **state)
{
    (void)state;
    bench b = {0};
    set_up(&b, "");
    assert_near(effect_of(&b, "front_punching", "key_dip", "C4")->by, -250.0 / 230);
    assert_near(effect_of(&b, "front_punching", "key_dip", "C#4")->by, -200.0 / 180);
    assert_near(effect_of(&b, "balance_punching", "key_level", "C4")->by, 1 + 250.0 / 220);
    assert_near(effect_of(&b, "balance_punching", "key_dip", "C4")->by, 1 + 250.0 / 220);
    assert_near(effect_of(&b, "balance_punching", "sharp_height", "C#4")->by, 1 + 200.0 / 220);
    assert_true(effect_of(&b, "front_punching", "key_dip", "C4")->assumed);
    clear_up(&b);
}

/* One millimetre of capstan is 10 mm of hammer with a ratio of 5 and a capstan ratio of one half, so
 * 0.1 mm is 1 mm (geometry). */
static void a_capstan_acts_by_ratio_and_capstan_ratio(void **state)
{
    (void)state;
    bench b = {0};
    set_up(&b, "# travel_ratio: 5\n# capstan_ratio: 0.5\n# capstan_pitch: 1\n");
    const hl_effect *blow = effect_of(&b, "capstan", "blow", "C4");
    assert_int_equal(blow->kind, HL_EFFECT_BY);
    assert_near(blow->by * 0.1, -1);
    clear_up(&b);
}

/* Aftertouch = dip - (blow - let-off)/R - lost motion [list-2010-travel-link], so
 * each slope is arithmetic: dip 1, blow -1/R, let-off 1/R. */
static void a_modelled_step_moves_by_its_slopes(void **state)
{
    (void)state;
    bench b = {0};
    set_up(&b, "");
    assert_near(effect_of(&b, "capstan", "aftertouch", "C4")->by, 10.0 / 5);
    assert_near(effect_of(&b, "front_punching", "aftertouch", "C4")->by, -250.0 / 230);
    assert_near(effect_of(&b, "let_off_button", "aftertouch", "C4")->by, 2.0 / 5);
    assert_int_equal(effect_of(&b, "drop_screw", "aftertouch", "C4")->kind, HL_EFFECT_NONE);
    double rise = (1 - 125.0 / 220) * 5 / 0.5;
    assert_near(effect_of(&b, "balance_punching", "aftertouch", "C4")->by, 1 + 250.0 / 220 + rise / 5);
    clear_up(&b);
}

/* One gram at the front is one gram of mean weight, with opposite sign, and no friction:
 * [college-weights]. */
static void lead_moves_mean_weight_and_not_friction(void **state)
{
    (void)state;
    bench b = {0};
    set_up(&b, "");
    assert_near(effect_of(&b, "key_lead", "mean_weight", "C4")->by, -1);
    assert_int_equal(effect_of(&b, "key_lead", "friction", "C4")->kind, HL_EFFECT_NONE);
    clear_up(&b);
}

static void set_move(hl_book *book, const char *adjuster, const char *step, hl_move_kind kind)
{
    hl_adjuster *a = &book->adjusters[small_adjuster(book, adjuster)];
    for (int i = 0; i < a->n_moves; i++)
        if (a->moves[i].step == small_step(book, step))
            ((hl_move *)a->moves)[i].kind = kind;
}

static void strong_and_slight_go_down_the_chain(void **state)
{
    (void)state;
    bench b = {.book = small_book()};
    set_move(b.book, "capstan", "blow", HL_MOVE_STRONG);
    set_move(b.book, "let_off_button", "let_off", HL_MOVE_SLIGHT);
    set_up(&b, "");
    assert_int_equal(effect_of(&b, "capstan", "aftertouch", "C4")->kind, HL_EFFECT_STRONG);
    assert_int_equal(effect_of(&b, "let_off_button", "aftertouch", "C4")->kind, HL_EFFECT_SLIGHT);
    assert_int_equal(effect_of(&b, "repetition_spring", "repetition", "C4")->kind, HL_EFFECT_STRONG);
    clear_up(&b);
}

static void a_move_without_its_fact_disturbs_by_an_unknown_amount(void **state)
{
    (void)state;
    bench b = {.book = small_book()};
    b.book->facts[hl__book_find_fact(b.book, "capstan_pitch")].has_value = false;
    set_up(&b, "");
    assert_int_equal(effect_of(&b, "capstan", "blow", "C4")->kind, HL_EFFECT_STRONG);
    assert_int_equal(effect_of(&b, "capstan", "aftertouch", "C4")->kind, HL_EFFECT_STRONG);
    assert_int_equal(effect_of(&b, "front_punching", "key_dip", "C4")->kind, HL_EFFECT_BY);
    clear_up(&b);
}

/* A book with a circle is refused elsewhere; here it must only end. */
static void a_circle_of_formulas_ends(void **state)
{
    (void)state;
    bench b = {.book = small_book()};
    const hl_formula *formula = b.book->steps[small_step(b.book, "mean_weight")].formula;
    hl_var *vars = (hl_var *)formula->vars;
    for (int i = 0; i < formula->n_vars; i++)
        if (vars[i].index == small_step(b.book, "upweight"))
            vars[i].index = small_step(b.book, "mean_weight");
    set_up(&b, "");
    assert_int_not_equal(effect_of(&b, "key_lead", "mean_weight", "C4")->kind, HL_EFFECT_NONE);
    clear_up(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(punchings_act_by_the_keys_levers),
        cmocka_unit_test(a_capstan_acts_by_ratio_and_capstan_ratio),
        cmocka_unit_test(a_modelled_step_moves_by_its_slopes),
        cmocka_unit_test(lead_moves_mean_weight_and_not_friction),
        cmocka_unit_test(strong_and_slight_go_down_the_chain),
        cmocka_unit_test(a_move_without_its_fact_disturbs_by_an_unknown_amount),
        cmocka_unit_test(a_circle_of_formulas_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
