/* test_convert.c - a sheet as tidy, as wide, and back: nothing that was read is changed on the way.
 *
 * Readings are invented; 1 in = 25.4 mm exactly (NIST SP 811, appendix B.8). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "good_sheet.h"
#include "hammerline.h"

#include "csv.h"

#include <stdio.h>
#include <stdlib.h>

static char *as_tidy(const char *text)
{
    char *out = NULL;
    size_t size = 0;
    hl_err err = {0};
    hl_sheet *sheet = read_sheet(text);
    if (hl_sheet_as_tidy(&out, &size, sheet, &err) != HL_OK)
        fail_msg("%s; %s", err.what, err.todo);
    assert_int_equal(size, strlen(out));
    hl_sheet_free(sheet);
    return out;
}

static char *as_wide(const char *text, char **lost)
{
    char *out = NULL, *said = NULL;
    size_t size = 0;
    hl_err err = {0};
    hl_sheet *sheet = read_sheet(text);
    if (hl_sheet_as_wide(&out, &size, sheet, &said, &err) != HL_OK)
        fail_msg("%s; %s", err.what, err.todo);
    assert_int_equal(size, strlen(out));
    hl_sheet_free(sheet);
    if (lost)
        *lost = said;
    else
        hl_free(said);
    return out;
}

static void assert_line(const char *text, const char *line)
{
    const size_t size = strlen(line);
    for (const char *at = text; (at = strstr(at, line)) != NULL; at++)
        if ((at == text || at[-1] == '\n') && (at[size] == '\n' || at[size] == '\0'))
            return;
    fail_msg("no line '%s' in\n%s", line, text);
}

static void assert_no(const char *text, const char *part)
{
    if (strstr(text, part))
        fail_msg("'%s' in\n%s", part, text);
}

/* ---- the same readings ------------------------------------------------------------------------- */

static const hl_event *find_latest(const hl_sheet *sheet, int step, int note)
{
    const long at = hl__sheet_latest(sheet, step, note);
    return at < 0 ? NULL : &sheet->events[at];
}

static void assert_same_readings(const char *one, const char *other)
{
    hl_sheet *a = read_sheet(one), *b = read_sheet(other);
    assert_int_equal(a->compass.lowest, b->compass.lowest);
    assert_int_equal(a->compass.keys, b->compass.keys);
    int n = 0;
    for (int step = 0; step < book->n_steps; step++)
        for (int note = 0; note <= a->compass.keys; note++) {
            const hl_event *x = find_latest(a, step, note), *y = find_latest(b, step, note);
            if ((x == NULL) != (y == NULL) ||
                (x && (x->kind != y->kind || x->amount != y->amount || x->word != y->word)))
                fail_msg("%s at note %d differs:\n%s\n----\n%s", book->steps[step].id, note, one, other);
            n += x != NULL;
        }
    assert_true(n > 0);
    assert_int_equal(a->n_breaks, b->n_breaks);
    assert_int_equal(a->last_damped, b->last_damped);
    for (int i = 0; i < book->n_facts; i++)
        for (int colour = 0; colour < 2; colour++) {
            assert_true(a->values[i][colour] == b->values[i][colour]);
            assert_int_equal(a->assumed[i][colour], b->assumed[i][colour]);
        }
    assert_string_equal(hl_sheet_fact(a, "piano"), hl_sheet_fact(b, "piano"));
    hl_sheet_free(a);
    hl_sheet_free(b);
}

static const char *const SHEETS[] = {
    /* plain */
    "# book: small\n# piano: invented\nnote,key_dip,blow,repetition\nC4,10.20,46,ok\nD4,9.535,,weak\n",
    /* inches in the head, in a cell, and a bare 0 among them */
    "note,key_dip [in],blow (in),key_level [in]\nC4,.390,1 13/16,0\nD4,3/8,46 mm,.004\nE4,0.4,1-3/4,0\n",
    /* millimetres with single readings in inches, quotes and all */
    "note,key_dip,blow\nC4,3/8 in,\"1 3/4\"\"\"\nD4,10,46\nE4,\"3/8\"\"\",\"1,81 in\"\n",
    /* semicolons and decimal commas */
    "# piano: a; b, \"c\"\n# travel_ratio: 5,1\nnote;key_dip;key_level [in]\nC4;9,535;,004\nD4;10,2 "
    "mm;-0,002\n",
    /* commas for both */
    "# travel_ratio: 5,1\nnote,key_dip,blow [in]\nC4,\"10,2\",\"1,8\"\nD4,\"9,5350\",\"1,83 in\"\n",
    /* tabs, BOM, CRLF */
    "\xEF\xBB\xBF# piano: invented, \"old\"\r\nnote\tkey_dip\tremark\r\nC4\t10.0\tleft, a bit \"stiff\"\r\n",
    /* an 85-note piano, numbers for notes, flats */
    "# compass: A0-A7\n# breaks: 20 49\n# dampers: "
    "A0-D6\nnote,key_dip,damper_key\n1,10,ok\nDb4,10.1,late\n85,9.9,\n",
    /* judged words by a prefix, a skip with its reason, go and no go, a withdrawal that withdraws nothing */
    "note,key_dip,repetition,remark\nC4,within,wea,\nD4,over,ok,\nE4,skip,STRONG,key is "
    "broken\nF4,under,void,\n",
    /* the whole piano, and what a spreadsheet makes of a fact */
    "\"# piano: a, b\",,\n# breaks: 20 34 52,,\nnote,key_dip,una_corda\n,,off\nC4,10,\n",
    /* texts that a spreadsheet would take for formulas stay what they are */
    "note,key_dip,remark\nC4,10,=1+1\nD4,10,-loose\nE4,10,@home\nF4,-0.5 mm,+soft\nG4,10,#3 hammer\n",
    /* colours, and a gauge */
    "# key_front naturals: 250 mm\n# key_front sharps: 201,5\n# gauge key_dip: 0,1 mm\nnote,key_dip\nC4,10\n",
    /* history: the latest counts, a void gives back the one before, adjustments, passes */
    "# hammerline: tidy 1\nnote,step,reading,time,by,method,remark\n,pass,before,,,,\nC4,key_dip,9,,,,\n"
    "C4,key_dip,10.2,,,,\nC4,key_dip,11,,,,\nC4,key_dip,void,,,,\nC4,capstan,raise 1/4 turn,,,,\n"
    "C4,blow,1.8 in,,,,\nD4,blow,1 13/16 in,,,,\n,una_corda,ok,,,,\nC4,capstan,void,,,,\n",
    /* heads in another order, with columns missing */
    "reading;step;note\n10,2;key dip;C4\n;key_dip;D4\nweak;Repetition;Db4\n",
};

static void test_round_trips(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof SHEETS / sizeof *SHEETS; i++) {
        char *tidy = as_tidy(SHEETS[i]), *wide = as_wide(SHEETS[i], NULL);
        char *back = as_wide(tidy, NULL), *again = as_tidy(wide);
        assert_same_readings(SHEETS[i], tidy);
        assert_same_readings(SHEETS[i], wide);
        assert_same_readings(tidy, back);
        assert_same_readings(wide, again);
        assert_string_equal(back, wide); /* through tidy or at once: the same sheet */
        char *third = as_wide(again, NULL), *second = as_tidy(tidy);
        assert_string_equal(third, wide);
        assert_string_equal(second, tidy);
        hl_free(tidy);
        hl_free(wide);
        hl_free(back);
        hl_free(again);
        hl_free(third);
        hl_free(second);
    }
}

/* ---- what it looks like -------------------------------------------------------------------------- */

static void test_tidy_keeps_what_was_typed(void **state)
{
    (void)state;
    char *tidy = as_tidy("## loaned key-dip block\n# piano: a, b\n"
                         "note,key_dip [in],blow,repetition,una_corda,remark\n"
                         ",,,,ok,\n"
                         "C4,.390,46.0,wea,,\"left, \"\"stiff\"\"\"\n"
                         "## after lunch\n"
                         "D4,9.9 mm,\"1 3/4\"\"\",ok,,\n"
                         "E4,,,,,hammer cracked\n");
    assert_string_equal(tidy, "# hammerline: tidy 2\n"
                              "# book: small\n"
                              "## loaned key-dip block\n"
                              "\"# piano: a, b\"\n"
                              "note,step,reading,time,by,method,remark,entry\n"
                              ",una_corda,ok,,,,,\n"
                              "C4,key_dip,.390 in,,,,\"left, \"\"stiff\"\"\",\n"
                              "C4,blow,46.0,,,,\"left, \"\"stiff\"\"\",\n"
                              "C4,repetition,weak,,,,\"left, \"\"stiff\"\"\",\n"
                              "## after lunch\n"
                              "D4,key_dip,9.9 mm,,,,,\n"
                              "D4,blow,\"1 3/4\"\"\",,,,,\n"
                              "D4,repetition,ok,,,,,\n"
                              "## E4: hammer cracked\n");
    hl_free(tidy);
}

/* The columns of a blank sheet, a row for every note; inches in the head when all were typed so. */
static void test_wide_is_a_form(void **state)
{
    (void)state;
    char *lost = NULL;
    char *wide = as_wide("# hammerline: tidy 1\n# compass: C4-D4\n# breaks: C#4\nnote,step,reading\n"
                         "C4,key_dip,.390 in\nD4,key_dip,3/8 in\nC4,blow,1.8 in\nD4,blow,46\n",
                         &lost);
    assert_string_equal(wide, "# book: small\n# compass: C4-D4\n# breaks: C#4\n"
                              "note,key_height [mm],key_level [mm],sharp_height [mm],key_dip [in],blow [mm],"
                              "let_off [mm],drop [mm],aftertouch [mm],checking [mm],repetition,damper_key,"
                              "una_corda,downweight [g],upweight [g]\n"
                              ",,,,,,,,,,,,,,\n"
                              "C4,,,,.390,1.8 in,,,,,,,,,\n"
                              "C#4,,,,,,,,,,,,,,\n"
                              "D4,,,,3/8,46,,,,,,,,,\n");
    assert_string_equal(lost, "");
    hl_free(wide);
    hl_free(lost);
}

/* In a column of inches a bare .01 would be asked about (it is 25 times off), so it keeps its unit. */
static void test_unit_stays_where_it_answers_a_question(void **state)
{
    (void)state;
    char *wide = as_wide("note,step,reading\nC4,key_dip,.016 in\nD4,key_dip,.390 in\n", NULL);
    assert_non_null(strstr(wide, "key_dip [in]"));
    assert_non_null(strstr(wide, "\nC4,,,,.016 in,"));
    assert_non_null(strstr(wide, "\nD4,,,,.390,"));
    hl_free(wide);
}

static void test_separator_and_mark_stay(void **state)
{
    (void)state;
    char *tidy = as_tidy("# piano: a, b; c\nnote;key_dip [in];remark\nC4;,39;x, y\n");
    assert_line(tidy, "\"# piano: a, b; c\"");
    assert_line(tidy, "note;step;reading;time;by;method;remark;entry");
    assert_line(tidy, "C4;key_dip;,39 in;;;;x, y;");
    hl_free(tidy);
}

static void test_tidy_keeps_all_history(void **state)
{
    (void)state;
    char *tidy =
        as_tidy("note,step,reading,remark,by\n,pass,before,new felt,\nC4,capstan,raise 1/4 turn,stiff,A\n"
                "C4,capstan,void,,\nC4,blow,46.20,,B\nC4,blow,,could not reach,\n"
                ",fact,travel_ratio = 5.2,,\n40,query,feels heavy,,\nC4,query,closed,,\n");
    assert_string_equal(tidy, "# hammerline: tidy 2\n# book: small\n"
                              "note,step,reading,time,by,method,remark,entry\n"
                              ",pass,before,,,,new felt,\n"
                              "C4,capstan,raise 1/4 turn,,A,,stiff,\n"
                              "C4,capstan,void,,,,,\n"
                              "C4,blow,46.20,,B,,,\n"
                              "C4,blow,,,,,could not reach,\n"
                              ",fact,travel_ratio = 5.2,,,,,\n"
                              "C4,query,feels heavy,,,,,\n"
                              "C4,query,closed,,,,,\n");
    hl_free(tidy);
}

/* ---- what wide can't hold ------------------------------------------------------------------------ */

static void test_losses_are_counted(void **state)
{
    (void)state;
    char *lost = NULL;
    book->steps[small_step(book, "key_dip")].gauge_name = "dip block";
    char *wide =
        as_wide("# travel_ratio: 5\n# key_front sharps: 200 mm\nnote,step,reading,time,by,method,remark\n"
                "C4,blow,45,,,,\n"
                ",pass,rough,,,,\n"
                ",fact,travel_ratio = 5.2,,,,\n"
                ",fact,key_front = 251 mm,,,,\n"
                "C4,capstan,raise 1/4 turn,,,,\n"
                "C4,blow,46,10:00,A,dial gauge,after work\n"
                "C4,drop,1.4,,,,\n"
                "D4,blow,50,,,,\n"
                "D4,blow,void,,,,\n"
                "D4,drop,,,,,\n"
                "E4,key_dip,within,,,Dip Block,\n"
                "F4,key_dip,within,,,coin,\n"
                "E4,query,knocks,,,,\n"
                "F4,query,clicks,,,,\n"
                "E4,query,closed,,,,\n",
                &lost);
    assert_string_equal(
        lost,
        "1 earlier reading is left out: a later one counts.\n"
        "1 row that was withdrawn is left out.\n"
        "1 adjustment is left out, so a reading that was taken before it no longer shows as stale: read it "
        "again.\n"
        "1 pass is left out.\n"
        "2 queries are left out.\n"
        "1 of them is open: its note may now pass without an answer.\n"
        "2 facts that were stated again keep their last values only.\n"
        "1 go/no-go reading by another gauge than the step's is left out.\n"
        "1 reading loses its time.\n"
        "1 reading loses who took it.\n"
        "2 readings lose their method or gauge.\n"
        "1 remark of a single reading is in its note's row, with the step's name.\n"
        "1 row without a reading is left out.\n");
    assert_line(wide, "# travel_ratio: 5.2");
    assert_line(wide, "# key_front: 251 mm");
    assert_no(wide, "200 mm");
    assert_non_null(strstr(wide, "blow: after work\n"));
    assert_non_null(strstr(wide, "\nE4,,,,within,"));
    assert_non_null(strstr(wide, "\nF4,,,,,")); /* without its gauge's name it would pass */
    hl_free(wide);
    hl_free(lost);
    book->steps[small_step(book, "key_dip")].gauge_name = "";
}

/* Two remarks that do not fit into one cell. */
static void test_long_remarks(void **state)
{
    (void)state;
    char text[3 * HL_CELL_MOST], long_remark[3001], *lost = NULL;
    memset(long_remark, 'x', 3000);
    long_remark[3000] = '\0';
    snprintf(text, sizeof text, "note,step,reading,remark\nC4,blow,46,%s\nC4,drop,1.4,%s\n", long_remark,
             long_remark);
    char *wide = as_wide(text, &lost); /* shared by both: fits */
    assert_string_equal(lost, "");
    hl_free(wide);
    hl_free(lost);
    text[strlen(text) - 2] = 'y';
    wide = as_wide(text, &lost);
    assert_line(lost, "1 remark has no room and is left out.");
    hl_sheet_free(read_sheet(wide));
    hl_free(wide);
    hl_free(lost);
}

/* ---- refusals ------------------------------------------------------------------------------------- */

static void test_refused(void **state)
{
    (void)state;
    static const char bad[] = "note,key_dip\nC4,10\nD4,teen\n";
    char *out = NULL, *lost = NULL;
    size_t size = 0;
    hl_err err = {0};
    hl_sheet *sheet = NULL;
    assert_int_equal(hl_sheet_open_text(&sheet, "demo.csv", bad, sizeof bad - 1, &err), HL_OK);
    assert_int_equal(hl_sheet_as_tidy(&out, &size, sheet, &err), HL_E_USAGE); /* not read yet */
    assert_int_equal(hl_sheet_read(sheet, book, &err), HL_E_SHEET);
    assert_int_equal(hl_sheet_as_tidy(&out, &size, sheet, &err), HL_E_SHEET);
    assert_int_equal(err.line, 3);
    assert_int_equal(hl_sheet_as_wide(&out, &size, sheet, &lost, &err), HL_E_SHEET);
    assert_null(out);
    assert_null(lost);
    hl_sheet_free(sheet);
}

/* A line that quotes or a few more letters would make longer than a cell can be. */
static void test_line_too_long(void **state)
{
    (void)state;
    char text[2 * HL_CELL_MOST], *out = NULL;
    size_t size = 0;
    hl_err err = {0};
    memset(text, 'x', sizeof text);
    memcpy(text, "## ", 3);
    strcpy(text + HL_CELL_MOST - 8, "\nnote,key_dip\nC4,10\n");
    hl_sheet *sheet = read_sheet(text);
    assert_int_equal(hl_sheet_as_tidy(&out, &size, sheet, &err), HL_E_SHEET);
    assert_int_equal(err.line, 1);
    assert_non_null(strstr(err.what, "too long"));
    hl_sheet_free(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_round_trips),
        cmocka_unit_test(test_tidy_keeps_what_was_typed),
        cmocka_unit_test(test_wide_is_a_form),
        cmocka_unit_test(test_unit_stays_where_it_answers_a_question),
        cmocka_unit_test(test_separator_and_mark_stay),
        cmocka_unit_test(test_tidy_keeps_all_history),
        cmocka_unit_test(test_losses_are_counted),
        cmocka_unit_test(test_long_remarks),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_line_too_long),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
