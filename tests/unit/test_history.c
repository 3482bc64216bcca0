/* test_history.c - a note's passes side by side: what is compared, what is not, what was adjusted.
 *
 * Readings and dates are invented.  The small book says nothing of gauges unless a test does. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "good_sheet.h"
#include "hammerline.h"

#include <stdio.h>

#define HEADS "note,step,reading,time,by,method,remark\n"

static char *tell(const char *text, int note, const char *step, int width)
{
    char *out = NULL;
    size_t size = 0;
    hl_err err = {0};
    hl_print print = {.width = width};
    hl_sheet *sheet = read_sheet(text);
    if (hl_history_text(&out, &size, sheet, note, step ? small_step(book, step) : -1, &print, &err) != HL_OK)
        fail_msg("%s", err.what);
    assert_int_equal(size, strlen(out));
    hl_sheet_free(sheet);
    return out;
}

static void assert_tells(const char *text, int note, const char *step, int width, const char *expected)
{
    char *out = tell(text, note, step, width);
    assert_string_equal(out, expected);
    hl_free(out);
}

static const char THREE[] = "# temperature: 19.5\n# date: 2026-03-01\n" HEADS ",pass,before,,,,\n"
                            "C4,key_dip,9.4,2026-02-28T23:00:00Z,,,\n"
                            "C4,blow,48.5,2026-02-28T23:00:00Z,,,\n"
                            "C4,repetition,weak,,,,\n"
                            "C4,downweight,56,,,,\n"
                            "D4,blow,50,,,,\n"
                            ",pass,rough,,,,\n"
                            ",fact,temperature = 21,,,,\n"
                            "C4,capstan,raise 1/4 turn,2026-03-02T09:00:00Z,,,stiff\n"
                            "D4,capstan,raise 1 turn,,,,\n"
                            "C4,blow,46.2,2026-03-02T10:00:00Z,,,\n"
                            "C4,blow,46,2026-03-02T11:00:00Z,,,\n"
                            "C4,blow,44,2026-03-02T12:00:00Z,,,\n"
                            "C4,blow,void,2026-03-02T12:00:00Z,,,\n"
                            ",pass,played in,,,,\n"
                            ",fact,humidity = 41 %,,,,\n"
                            "C4,blow,46.5,2026-05-02 10:00,,,\n"
                            "C4,key_dip,9.4,2026-05-03 10:00,,,\n"
                            "C4,repetition,ok,,,,\n"
                            "C4,downweight,55,,,,\n"
                            ",una_corda,off,,,,\n";

static void test_side_by_side(void **state)
{
    (void)state;
    assert_tells(THREE, 40, NULL, 80,
                 "C4 (note 40): 3 passes side by side.\n"
                 "\n"
                 "             before      rough        played in         Change\n"
                 "Date         2026-03-01  2026-03-02   2026-05-02 to\n"
                 "                                      2026-05-03\n"
                 "Temperature  19.5        21\n"
                 "Humidity                              41 %\n"
                 "key_dip      9.40 mm                  9.40 mm           none\n"
                 "blow         48.5 mm     46.0 mm (2)  46.5 mm           -2.0 mm, adjusted;\n"
                 "                                                        since +0.5 mm, drift\n"
                 "repetition   weak                     ok\n"
                 "downweight   56 g                     55 g              -1 g, drift\n"
                 "\n"
                 "(2), (3): read so often in that pass; the last reading is shown.\n"
                 "\n"
                 "Adjustments\n"
                 "  rough, 2026-03-02T09:00:00Z (line 12): raise the capstan 1/4 turn; stiff\n");
}

/* The same on a narrow page: the passes go on below, each with the names of the steps beside it. */
static void test_narrow(void **state)
{
    (void)state;
    char *out = tell(THREE, 40, NULL, 40);
    int at = 0, names = 0;
    for (const char *c = out; *c; c++) {
        at = *c == '\n' ? 0 : at + 1;
        assert_true(at <= 40);
    }
    for (const char *c = out; (c = strstr(c, "downweight")) != NULL; c++)
        names++;
    assert_true(names >= 2);
    hl_free(out);
}

static void test_one_step(void **state)
{
    (void)state;
    char *out = tell(THREE, 40, "key_dip", 80);
    assert_non_null(strstr(out, "C4 (note 40), key_dip: 2 passes side by side.\n"));
    assert_null(strstr(out, "blow"));
    assert_null(strstr(out, "Adjustments")); /* a capstan does not move the dip */
    hl_free(out);
    /* The downweight is not moved by it either; aftertouch is, through the blow. */
    assert_null(strstr(out = tell(THREE, 40, "downweight", 80), "Adjustments"));
    hl_free(out);
    out = tell(THREE, 40, "aftertouch", 80);
    assert_non_null(strstr(out, "C4 (note 40), aftertouch: nothing was read here.\n"));
    hl_free(out);
}

static void test_whole_piano(void **state)
{
    (void)state;
    char *out = tell(THREE, 0, NULL, 80);
    assert_non_null(strstr(out, "The whole piano: readings of one pass only, so nothing to compare yet.\n"));
    assert_non_null(strstr(out, "una_corda  off\n"));
    hl_free(out);
}

/* A dial gauge against a ruler says nothing of the piano. */
static void test_other_methods_are_not_compared(void **state)
{
    (void)state;
    char *out =
        tell(HEADS ",pass,before,,,,\nC4,blow,48,,,ruler,\n,pass,rough,,,,\nC4,blow,47,,,Dial gauge,\n"
                   ",pass,after,,,,\nC4,blow,46.4,,,dial gauge,\n",
             40, NULL, 80);
    assert_non_null(strstr(out, "48.0 mm *  47.0 mm  46.4 mm  -0.6 mm, drift\n"));
    assert_non_null(strstr(out, "\n*: taken by another method or gauge"));
    hl_free(out);
    out = tell(HEADS ",pass,before,,,,\nC4,blow,48,,,ruler,\n,pass,after,,,,\nC4,blow,47,,,dial gauge,\n", 40,
               NULL, 80);
    assert_non_null(strstr(out, "blow  48.0 mm *  47.0 mm\n")); /* nothing left to compare */
    hl_free(out);
}

/* Two readings by a gauge good to 0.5 mm differ by up to 0.71 mm for nothing: arithmetic. */
static void test_within_the_gauge(void **state)
{
    (void)state;
    static const char *const changes[][2] = {{"46.7", "+0.7 mm, within the gauge\n"},
                                             {"46.8", "+0.8 mm, drift\n"},
                                             {"46", "none\n"},
                                             {"45", "-1.0 mm, drift\n"}};
    for (size_t i = 0; i < sizeof changes / sizeof *changes; i++) {
        char text[400];
        snprintf(text, sizeof text,
                 "# gauge blow: 0.5 mm\n" HEADS
                 ",pass,before,,,,\nC4,blow,46,,,,\n,pass,after,,,,\nC4,blow,%s,,,,\n",
                 changes[i][0]);
        char *out = tell(text, 40, NULL, 80);
        if (!strstr(out, changes[i][1]))
            fail_msg("no '%s' in\n%s", changes[i][1], out);
        hl_free(out);
    }
}

/* Readings before any pass was named stand first; go and no go have no number to compare. */
static void test_before_any_pass(void **state)
{
    (void)state;
    char *out = tell("# temperature: 18\n" HEADS "C4,key_dip,within,,,block,\nC4,key_dip,skip,,,,no time\n"
                     ",pass,rough,,,,\nC4,key_dip,over,,,block,\nC4,repetition_spring,done,,,,\n"
                     "C4,repetition_spring,stronger,,,,\nC4,front_punching,add .005 in,,,,\n",
                     40, NULL, 80);
    assert_string_equal(out, "C4 (note 40): 2 passes side by side.\n"
                             "\n"
                             "             before any pass  rough\n"
                             "Temperature  18\n"
                             "key_dip      skipped (2)      over\n"
                             "\n"
                             "(2), (3): read so often in that pass; the last reading is shown.\n"
                             "\n"
                             "Adjustments\n"
                             "  rough (line 7): repetition spring adjusted, not said how far\n"
                             "  rough (line 8): make the repetition spring stronger\n"
                             "  rough (line 9): add .005 in of front punching\n");
    hl_free(out);
}

static void test_wide_sheet(void **state)
{
    (void)state;
    assert_tells("# date: 2026-03-01\nnote,key_dip\nC4,10\n", 40, NULL, 80,
                 "C4 (note 40): readings of one pass only, so nothing to compare yet. A wide sheet\n"
                 "  keeps the latest readings only; a tidy one keeps all.\n"
                 "\n"
                 "         the sheet\n"
                 "Date     2026-03-01\n"
                 "key_dip  10.00 mm\n");
}

static void test_refused(void **state)
{
    (void)state;
    char *out = NULL;
    size_t size = 0;
    hl_err err = {0};
    hl_print print = {0};
    hl_sheet *sheet = read_sheet("note,key_dip\nC4,10\n");
    assert_int_equal(hl_history_text(&out, &size, sheet, 89, -1, &print, &err), HL_E_USAGE);
    assert_int_equal(hl_history_text(&out, &size, sheet, 1, book->n_steps, &print, &err), HL_E_USAGE);
    assert_null(out);
    hl_sheet_free(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_side_by_side),
        cmocka_unit_test(test_narrow),
        cmocka_unit_test(test_one_step),
        cmocka_unit_test(test_whole_piano),
        cmocka_unit_test(test_other_methods_are_not_compared),
        cmocka_unit_test(test_within_the_gauge),
        cmocka_unit_test(test_before_any_pass),
        cmocka_unit_test(test_wide_sheet),
        cmocka_unit_test(test_refused),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
