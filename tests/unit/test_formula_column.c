/* test_formula_column.c - a formula for all notes at once gives each note what it gives it alone.
 *
 * The formulas are of the trade's kind; the readings are invented, and what is asked is only that both
 * ways agree to the last bit. */
#include "judged.h"

#include "formula.h"

#include <math.h>

#define NOTES 5

static const double dips[NOTES] = {10, 9.8, 10.25, NAN, -.5}, blows[NOTES] = {46, 44.5, 0, 47, -3.1},
                    let_offs[NOTES] = {1.6, 1.2, -2, 1.5, 0};

static const double *readings_of(const hl_book *book, const hl_var *var)
{
    static const double ratio[NOTES] = {5, 5, 5, 5, 5};
    if (var->kind == HL_VAR_FACT)
        return ratio;
    return var->index == small_step(book, "key_dip") ? dips
           : var->index == small_step(book, "blow")  ? blows
                                                     : let_offs;
}

static void each_note_gets_what_it_gets_alone(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "key_dip - (blow - let_off) / travel_ratio",
        "-key_dip + let_off",
        "abs(let_off - key_dip)",
        "min(key_dip, blow)",
        "max(key_dip, blow / 4)",
        "min(max(key_dip, let_off), abs(blow))",
        "blow / let_off", /* by nought there is no number */
        "-abs(-let_off)",
    };
    hl_book *book = small_book();
    for (size_t t = 0; t < sizeof texts / sizeof *texts; t++) {
        const hl_formula *formula = small_formula(book, texts[t]);
        const double *columns[HL_FORMULA_VARS];
        double out[NOTES];
        for (int v = 0; v < formula->n_vars; v++)
            columns[v] = readings_of(book, &formula->vars[v]);
        assert_true(hl__formula_is_plain(formula));
        hl__formula_column(formula, columns, NOTES, out);
        for (int note = 0; note < NOTES; note++) {
            double vars[HL_FORMULA_VARS];
            for (int v = 0; v < formula->n_vars; v++)
                vars[v] = columns[v][note];
            const double alone = hl__formula_value(formula, vars);
            if (isnan(alone) ? !isnan(out[note]) : alone != out[note])
                fail_msg("%s at %d: %g, alone %g", texts[t], note, out[note], alone);
        }
    }
    small_book_free(book);
}

/* Twice the readings, twice the change: what may be added up from one adjustment after another. */
static void which_formulas_are_straight_lines(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        bool linear;
    } cases[] = {
        {"key_dip - (blow - let_off) / travel_ratio", true},
        {"-key_dip * travel_ratio", true},
        {"travel_ratio * key_dip", true},
        {"max(travel_ratio, 4) * key_dip", true}, /* of facts alone */
        {"abs(-travel_ratio) * key_dip", true},
        {"abs(key_dip)", false},
        {"min(key_dip, blow)", false},
        {"max(blow, let_off)", false},
        {"key_dip * blow", false},
        {"let_off / blow", false},
        {"key_dip * (travel_ratio / capstan_ratio)", true},
    };
    hl_book *book = small_book();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        if (hl__formula_is_linear(small_formula(book, cases[i].text)) != cases[i].linear)
            fail_msg("%s", cases[i].text);
    small_book_free(book);
}

static void a_condition_is_not_plain(void **state)
{
    (void)state;
    hl_book *book = small_book();
    assert_false(hl__formula_is_plain(small_formula(book, "blow > key_dip")));
    assert_false(hl__formula_is_plain(small_formula(book, "key_dip > let_off and blow > key_dip")));
    small_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_note_gets_what_it_gets_alone),
        cmocka_unit_test(which_formulas_are_straight_lines),
        cmocka_unit_test(a_condition_is_not_plain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
