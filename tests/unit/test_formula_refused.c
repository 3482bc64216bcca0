/* test_formula_refused.c - formulas that are refused, where, and what bounds them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "formula_names.h"

static void what_is_refused_says_where(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int column;
        const char *what, *todo;
    } refused[] = {
        {"blow + downweight", 6, "mm and g can't be added", "units"},
        {"blow - let_off * key_dip", 6, "mm and mm*mm can't be subtracted", "units"},
        {"key_dip < downweight", 9, "mm and g can't be compared", "units"},
        {"min(blow, upweight)", 1, "mm and g can't be put into one min()", "units"},
        {"capstan_pitch + blow", 15, "mm/turn and mm can't be added", "units"},
        {"(blow < 3) + 1", 12, "a condition (yes or no) can't be added", "and, or, not"},
        {"low(blow) == high(blow)", 11, "a condition (yes or no) can't be compared", "and, or, not"},
        {"-low(blow)", 1, "a condition (yes or no) can't be made negative", "and, or, not"},
        {"blow and 1 < 2", 6, "'and' joins conditions (yes or no), and a number is beside it", "compare"},
        {"not blow", 1, "'not' joins conditions (yes or no), and a number is beside it", "compare"},
        {"1 < blow < 3", 10, "there are two comparisons in a row", "a < b and b < c"},
        {"key_dpi - 1", 1, "'key_dpi' is not known here", "'key_dip' was perhaps meant"},
        {"1 + zebra", 5, "'zebra' is not known here", "a step or a fact"},
        {"2 * repetition", 5, "'repetition' is not known here", "a step or a fact"}, /* judged: no value */
        {"low(front_load)", 5, "low() asks about a step, and 'front_load' is a fact", "step"},
        {"low(3)", 5, "'3' is where the name of a step should be", "example"},
        {"sqrt(blow)", 1, "'sqrt' is not a function", "abs, min, max"},
        {"abs(blow, 2)", 9, "',' is where ')' should be", "example"},
        {"min(blow)", 9, "')' is where ',' and a second value should be", "example"},
        {"", 1, "the formula is empty", "write one"},
        {"  ", 1, "the formula is empty", "write one"},
        {"blow +", 7, "the formula ends where a number, a name or '(' should be", "example"},
        {"(blow", 6, "the formula ends where ')' should be", "example"},
        {"blow)", 5, "')' is where an operator or the end should be", "example"},
        {"blow let_off", 6, "'let_off' is where an operator or the end should be", "example"},
        {"+ 3", 1, "'+' is where a number, a name or '(' should be", "example"},
        {"blow ^ 2", 6, "'^' means nothing in a formula", "x * x"},
        {"blow = 2", 6, "'=' means nothing in a formula", "=="},
        {"blow ~= 2", 6, "'~' means nothing in a formula", "not (a == b)"},
        {"blow \xC3\x97 2", 6, "'\xC3\x97' means nothing in a formula", "+ - * /"},
        {"blow \xFF", 6, "'\xFF' means nothing in a formula", "+ - * /"},
        {"1e3", 1, "'1e3' is not a number here", "plain digits"},
        {"0x10", 1, "'0x10' is not a number here", "plain digits"},
        {"2mm", 1, "'2mm' is not a number here", "unit of its place"},
        {"1.2.3", 1, "'1.2.3' has two decimal points", "one point"},
        {"3. + 1", 1, "'3.' ends in its decimal point", "digits"},
        {"1234567890123456", 1, "'1234567890123456' has more digits than any measurement", "last digits"},
        {"blow*blow*blow*blow*blow*blow*blow*blow*blow*blow", 45, "a unit goes beyond its 9th power here",
         "product"},
    };
    for (size_t i = 0; i < COUNT(refused); i++) {
        hl_arena arena = {0};
        hl_formula *formula = (hl_formula *)&arena;
        hl_err err = {0};
        assert_int_equal(hl__formula_parse(&formula, &arena, refused[i].text, look_up, NULL, &err),
                         HL_E_RULE);
        assert_null(formula);
        assert_string_equal(err.what, refused[i].what);
        assert_int_equal(err.column, refused[i].column);
        assert_string_equal(err.file, "");
        assert_non_null(strstr(err.todo, refused[i].todo));
        hl__arena_free(&arena);
    }
}

static void refuse_text(const char *text, const char *says)
{
    hl_arena arena = {0};
    hl_formula *formula = NULL;
    hl_err err = {0};
    assert_int_equal(hl__formula_parse(&formula, &arena, text, look_up, NULL, &err), HL_E_RULE);
    assert_non_null(strstr(err.what, says));
    assert_true(err.todo[0] != '\0');
    hl__arena_free(&arena);
}

static void nothing_grows_without_end(void **state)
{
    (void)state;
    static const char *const openings[] = {"(", "-", "not ", "abs(", "min(1, ", "1 + ("};
    for (size_t i = 0; i < COUNT(openings); i++) {
        char text[1001] = "";
        while (strlen(text) + strlen(openings[i]) < 900) {
            strcat(text, openings[i]);
        }
        refuse_text(text, "nested deeper than 32 levels");
    }
    char text[5000];
    memset(text, ' ', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    refuse_text(text, "longer than 1000 characters");
    memset(text, 'x', 900);
    text[900] = '\0';
    refuse_text(text, "too long for a name");

    /* The deepest that is taken, holding the most operands open: 31 levels of 1 < 2 + 3 * ( ... */
    hl_arena arena = {0};
    char deep[1001] = "";
    for (int i = 0; i < 31; i++) {
        strcat(deep, "2+3*min(4,");
    }
    strcat(deep, "1");
    for (int i = 0; i < 31; i++) {
        strcat(deep, ")");
    }
    assert_true(fabs(hl__formula_value(parse(&arena, deep), NULL) - 14) < 1e-12); /* 2 + 3 * 4 */
    hl__arena_free(&arena);

    /* The innermost operand is a level too: 31 parentheses around it are taken, 32 are not. */
    char nest[80] = "";
    for (int i = 0; i < 32; i++) {
        strcat(nest, "(");
    }
    strcat(nest, "1");
    for (int i = 0; i < 32; i++) {
        strcat(nest, ")");
    }
    refuse_text(nest, "nested deeper than 32 levels");
    nest[64] = '\0';
    assert_true(fabs(hl__formula_value(parse(&arena, nest + 1), NULL) - 1) < 1e-12);
    hl__arena_free(&arena);
}

static bool look_up_anything(void *context, const char *name, hl_var *out, const char **nearest)
{
    (void)context;
    (void)nearest;
    out->kind = HL_VAR_FACT;
    out->index = name[0] * 256 + name[1];
    return true;
}

static void sixteen_names_and_no_more(void **state)
{
    (void)state;
    hl_arena arena = {0};
    hl_formula *formula = NULL;
    hl_err err = {0};
    const char *sixteen = "a1+a2+a3+a4+a5+a6+a7+a8+b1+b2+b3+b4+b5+b6+b7+b8+a1+b8";
    assert_int_equal(hl__formula_parse(&formula, &arena, sixteen, look_up_anything, NULL, &err), HL_OK);
    assert_int_equal(formula->n_vars, 16);
    const char *seventeen = "a1+a2+a3+a4+a5+a6+a7+a8+b1+b2+b3+b4+b5+b6+b7+b8+c1";
    assert_int_equal(hl__formula_parse(&formula, &arena, seventeen, look_up_anything, NULL, &err), HL_E_RULE);
    assert_string_equal(err.what, "the formula uses more than 16 names");
    hl__arena_free(&arena);
}

/* Words thrown together: each either parses and gives a number or NaN, or is refused at a place
 * inside the text. */
static void words_thrown_together_never_crash(void **state)
{
    (void)state;
    static const char *const words[] = {
        "blow",
        "let_off",
        "key_dip",
        "downweight",
        "low(",
        "neighbours(",
        "abs(",
        "min(",
        "max(",
        "(",
        ")",
        ")",
        ",",
        "+",
        "-",
        "*",
        "/",
        "<",
        "<=",
        "==",
        "and",
        "or",
        "not",
        "1",
        "2.5",
        "0",
        "blow",
        "travel_ratio",
        "capstan_ratio",
        "\xFF",
    };
    uint64_t seed = 49;
    int parsed = 0, refused = 0;
    for (int i = 0; i < 20000; i++) {
        char text[400] = "";
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        int n = 1 + (int)(seed >> 33) % 12;
        for (int j = 0; j < n; j++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            strcat(text, words[(seed >> 33) % COUNT(words)]);
            strcat(text, " ");
        }
        hl_arena arena = {0};
        hl_formula *formula = NULL;
        hl_err err = {0};
        if (hl__formula_parse(&formula, &arena, text, look_up, NULL, &err) == HL_OK) {
            double vars[HL_FORMULA_VARS], slopes[HL_FORMULA_VARS];
            for (int j = 0; j < HL_FORMULA_VARS; j++) {
                vars[j] = j % 3 == 2 ? (double)NAN : j;
            }
            double value = hl__formula_slopes(formula, vars, slopes);
            assert_true(isnan(value) || isfinite(value));
            assert_true(!formula->condition || (value >= 0 && value <= 1));
            parsed++;
        } else {
            assert_true(err.column >= 1 && (size_t)err.column <= strlen(text) + 1);
            assert_true(err.what[0] != '\0' && err.todo[0] != '\0');
            refused++;
        }
        hl__arena_free(&arena);
    }
    assert_true(parsed > 500 && refused > 5000); /* both ways were really taken */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_refused_says_where),
        cmocka_unit_test(nothing_grows_without_end),
        cmocka_unit_test(sixteen_names_and_no_more),
        cmocka_unit_test(words_thrown_together_never_crash),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
