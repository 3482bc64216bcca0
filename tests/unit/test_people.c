/* test_people.c - a second person's readings beside the first's.
 *
 * What may be compared is our own rule (people.c); two readings of one thing differ by the root of the
 * sum of the squares of their uncertainties (GUM 5.1.2).  The figures are arithmetic.  Dip is read to
 * 0.05 mm here, so two readings may be 0.0707 apart. */
#include "judged.h"

#define TOP "note,step,reading,by,method\n"

static const hl_people *see_people(const judged *j, const char *step, const char *first, const char *second)
{
    size_t n = 0;
    const hl_people *list = hl_audit_people(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (list[i].step == small_step(j->book, step) && strcmp(list[i].first, first) == 0 &&
            strcmp(list[i].second, second) == 0)
            return &list[i];
    return NULL;
}

static void two_people_are_compared(void **state)
{
    (void)state;
    judged j =
        judge(TOP "C4,key_dip,10.0,Ann,\nD4,key_dip,10.0,Ann,\nE4,key_dip,9.9,Ann,\nF4,key_dip,10,Ann,\n"
                  "C4,key_dip,10.05,Ben,\nD4,key_dip,10.05,Ben,\nE4,key_dip,10.1,Ben,\n");
    const hl_people *people = see_people(&j, "key_dip", "Ann", "Ben");
    assert_non_null(people);
    assert_int_equal(people->notes, 3);
    assert_int_equal(people->bias, MM(.05));
    assert_int_equal(people->allowed, 70711);
    assert_int_equal(people->n_apart, 1);
    assert_int_equal(people->apart[0].note, 44);
    assert_int_equal(people->apart[0].first, MM(9.9));
    assert_int_equal(people->apart[0].second, MM(10.1));
    put_away(&j);
}

static void the_median_of_an_even_number(void **state)
{
    (void)state;
    judged j = judge(TOP "C4,key_dip,10,A,\nC4,key_dip,10.01,B,\nD4,key_dip,10,A,\nD4,key_dip,10.06,B,\n");
    assert_int_equal(see_people(&j, "key_dip", "A", "B")->bias, MM(.035));
    put_away(&j);
}

static void the_sheets_gauge_decides(void **state)
{
    (void)state;
    static const struct {
        const char *top;
        int apart;
    } cases[] = {
        {"# gauge key_dip: 0.1\n", 0},   /* 0.14 <= 0.1414 */
        {"# gauge key_dip: 0.098\n", 1}, /* 0.14 > 0.1386 */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200];
        strcpy(text, cases[i].top);
        strcat(text, TOP "C4,key_dip,10,A,\nC4,key_dip,10.14,B,\n");
        judged j = judge(text);
        assert_int_equal(see_people(&j, "key_dip", "A", "B")->n_apart, cases[i].apart);
        put_away(&j);
    }
}

static void what_is_compared(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        int notes; /* 0: no comparison at all */
        double second;
    } cases[] = {
        {"one after the other", "C4,key_dip,10,A,\nC4,key_dip,10.1,B,\n", 1, 10.1},
        {"who stands first in the sheet is the first, whoever reads first here",
         "D4,blow,46,A,\nC4,key_dip,10.1,B,\nC4,key_dip,10,A,\n", 1, 10.1},
        {"the same person twice", "C4,key_dip,10,A,\nC4,key_dip,10.1,A,\n", 0, 0},
        {"a reading without a name", "C4,key_dip,10,A,\nC4,key_dip,10.1,,\nD4,blow,46,B,\n", 0, 0},
        {"unlike methods", "C4,key_dip,10,A,block\nC4,key_dip,10.1,B,dial\n", 0, 0},
        {"another pass", "C4,key_dip,10,A,\n,pass,later,,\nC4,key_dip,10.1,B,\n", 0, 0},
        {"adjusted between", "C4,key_dip,10,A,\nC4,front_punching,+0.127,A,\nC4,key_dip,9.8,B,\n", 0, 0},
        {"adjusted after both", "C4,key_dip,10,A,\nC4,key_dip,10.1,B,\nC4,front_punching,+0.127,A,\n", 1,
         10.1},
        {"adjusted and read again: the readings before are still a pair",
         "C4,key_dip,10,A,\nC4,key_dip,10.1,B,\nC4,front_punching,+0.127,A,\nC4,key_dip,9.9,A,\n", 1, 10.1},
        {"the latest of each", "C4,key_dip,10,A,\nC4,key_dip,10.12,B,\nC4,key_dip,10.15,B,\n", 1, 10.15},
        {"a withdrawn one does not count",
         "C4,key_dip,10,A,\nC4,key_dip,10.12,B,\nC4,key_dip,10.15,B,\nC4,key_dip,void,B,\n", 1, 10.12},
        {"a go/no-go reading is no number", "C4,key_dip,within,A,\nC4,key_dip,10.1,B,\n", 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300] = TOP;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_people *people = see_people(&j, "key_dip", "A", "B");
        if ((people ? people->notes : 0) != cases[i].notes)
            fail_msg("%s: %d notes", cases[i].what, people ? people->notes : 0);
        if (people && (people->n_apart != 1 || people->apart[0].second != MM(cases[i].second)))
            fail_msg("%s: wrong reading", cases[i].what);
        put_away(&j);
    }
}

static void judgements_differ_or_not(void **state)
{
    (void)state;
    judged j =
        judge(TOP "C4,repetition,ok,A,\nC4,repetition,ok,B,\nD4,repetition,ok,A,\nD4,repetition,weak,B,\n"
                  ",una_corda,ok,A,\n,una_corda,off,B,\n");
    const hl_people *people = see_people(&j, "repetition", "A", "B");
    assert_int_equal(people->notes, 2);
    assert_int_equal(people->bias, 0);
    assert_int_equal(people->allowed, 0);
    assert_int_equal(people->n_apart, 1);
    assert_int_equal(people->apart[0].first_word, -1);
    assert_int_equal(people->apart[0].second_word, 0);
    assert_int_equal(see_people(&j, "una_corda", "A", "B")->apart[0].note, 0);
    put_away(&j);
}

static void three_people_are_three_pairs(void **state)
{
    (void)state;
    judged j = judge(TOP "C4,key_dip,10,A,\nC4,key_dip,10.1,B,\nC4,key_dip,10.2,C,\n");
    size_t n = 0;
    hl_audit_people(j.audit, &n);
    assert_int_equal(n, 3);
    assert_int_equal(see_people(&j, "key_dip", "A", "B")->bias, MM(.1));
    assert_int_equal(see_people(&j, "key_dip", "A", "C")->bias, MM(.2));
    assert_int_equal(see_people(&j, "key_dip", "B", "C")->bias, MM(.1));
    put_away(&j);
}

/* A second person's reading counts like any other: the latest. */
static void the_verdict_is_the_latest_readings(void **state)
{
    (void)state;
    judged j = judge(TOP "C4,key_dip,10,A,\nC4,key_dip,10.4,B,\n");
    assert_int_equal(see(&j, "key_dip", "C4")->verdict, HL_FAIL);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_people_are_compared),
        cmocka_unit_test(the_median_of_an_even_number),
        cmocka_unit_test(the_sheets_gauge_decides),
        cmocka_unit_test(what_is_compared),
        cmocka_unit_test(judgements_differ_or_not),
        cmocka_unit_test(three_people_are_three_pairs),
        cmocka_unit_test(the_verdict_is_the_latest_readings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
