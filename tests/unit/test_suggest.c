/* test_suggest.c - the nearest right name to a misspelt one.  Distances: arithmetic. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "nearest_name.h"

static const char *const STEPS[] = {"key_dip",    "blow",     "let_off",  "drop",
                                    "aftertouch", "checking", "key_level"};

static const char *suggest(const char *asked)
{
    hl_suggest s = {asked, NULL, 0};
    for (size_t i = 0; i < sizeof STEPS / sizeof STEPS[0]; i++) {
        hl__suggest_offer(&s, STEPS[i]);
    }
    return s.best;
}

static void slips_of_the_pen(void **state)
{
    (void)state;
    static const struct {
        const char *asked, *best;
    } slips[] = {
        {"letoff", "let_off"},        {"let-off", "let_off"},
        {"Let Off", "let_off"},       {"keydip", "key_dip"},
        {"kye_dip", "key_dip"},       {"dorp", "drop"},
        {"aftertuoch", "aftertouch"}, {"after_touch", "aftertouch"},
        {"cheking", "checking"},      {"BLOW", "blow"},
        {"key_levle", "key_level"},
    };
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        const char *best = suggest(slips[i].asked);
        assert_non_null(best);
        assert_string_equal(best, slips[i].best);
    }
}

static void far_names_get_no_guess(void **state)
{
    (void)state;
    assert_null(suggest("voicing"));
    assert_null(suggest("x"));
    assert_null(suggest(""));
    assert_null(suggest("blow_distance_of_the_hammer"));
    char long_name[2000];
    memset(long_name, 'k', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = '\0';
    assert_null(suggest(long_name));
}

static void one_swap_counts_one(void **state)
{
    (void)state;
    hl_suggest s = {"dorp", NULL, 0};
    hl__suggest_offer(&s, "drop");
    assert_int_equal(s.distance, 1);
}

static void short_names_must_share_something(void **state)
{
    (void)state;
    hl_suggest s = {"a", NULL, 0};
    hl__suggest_offer(&s, "b");
    assert_null(s.best);
    s = (hl_suggest){"m", NULL, 0};
    hl__suggest_offer(&s, "mm");
    assert_string_equal(s.best, "mm");
}

static void the_first_of_equals_stays(void **state)
{
    (void)state;
    hl_suggest s = {"lower", NULL, 0};
    hl__suggest_offer(&s, "loser");
    hl__suggest_offer(&s, "lowed");
    assert_string_equal(s.best, "loser");
    hl__suggest_offer(&s, "lower");
    assert_string_equal(s.best, "lower");
    assert_int_equal(s.distance, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slips_of_the_pen),          cmocka_unit_test(far_names_get_no_guess),
        cmocka_unit_test(one_swap_counts_one),       cmocka_unit_test(short_names_must_share_something),
        cmocka_unit_test(the_first_of_equals_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
