/* test_csv_out.c - the table for spreadsheets.
 *
 * RFC 4180, section 2: CRLF, a cell with a comma or a quote in quotes, quotes doubled.  What a
 * spreadsheet takes for a formula: OWASP, "CSV Injection" (text that begins with = + - @, tab, CR, and
 * full-width = + - @), with blanks before it too. */
#include "judged.h"

#include "csv.h"
#include "csv_cells.h"

#include <stdio.h>

#define COLUMNS 47

static void one_cell(const char *text, const char *want)
{
    hl_text out = {0};
    hl_cells cells = {.out = &out};
    hl__cell_text(&cells, text);
    hl__cells_end(&cells);
    assert_false(out.failed);
    out.data[out.size - 2] = '\0'; /* the line end */
    if (strcmp(out.data, want) != 0)
        fail_msg("\"%s\" became %s, not %s", text, out.data, want);
    hl__text_free(&out);
}

static void texts(void **state)
{
    (void)state;
    static const struct {
        const char *text, *want;
    } cases[] = {
        {"", ""},
        {"C#4", "C#4"},
        {"a remark", "a remark"},
        {"one, two", "\"one, two\""},
        {"one; two", "\"one; two\""},
        {"say \"ok\"", "\"say \"\"ok\"\"\""},
        {"=1+1", "\"'=1+1\""},
        {"+1", "\"'+1\""},
        {"-0.5", "\"'-0.5\""},
        {"@SUM(1)", "\"'@SUM(1)\""},
        {"\t=1", "\"'\\x09=1\""},
        {"\r=1", "\"'\\x0D=1\""},
        {"  =1", "\"'  =1\""},
        {"\xC2\xA0=1", "\"'\xC2\xA0=1\""},
        {"\xEF\xBC\x9D"
         "1",
         "\"'\xEF\xBC\x9D"
         "1\""},
        {"\xEF\xBC\x8B"
         "1",
         "\"'\xEF\xBC\x8B"
         "1\""},
        {"\xEF\xBC\x8D"
         "1",
         "\"'\xEF\xBC\x8D"
         "1\""},
        {"\xEF\xBC\xA0"
         "A",
         "\"'\xEF\xBC\xA0"
         "A\""},
        {"|cmd", "\"'|cmd\""},
        {"%0A", "\"'%0A\""},
        {"a\n=1", "a\\x0A=1"}, /* a line break is shown, so no line begins inside a cell */
        {"a = b", "a = b"},
        {"'quoted'", "\"'quoted'\""},
        {"\x1b[31mred", "\\x1B[31mred"},
        {"\xE2\x80\xAEtxt", "<U+202E>txt"},
        {"bad \xFF byte", "bad \\xFF byte"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        one_cell(cases[i].text, cases[i].want);
}

static void numbers_stay_numbers(void **state)
{
    (void)state;
    hl_text out = {0};
    hl_cells cells = {.out = &out};
    hl__cell_amount(&cells, true, MM(-.5), HL_MM);
    hl__cell_amount(&cells, true, MM(9.525), HL_IN); /* 3/8 in: NIST SP 811, B.8, 1 in = 25.4 mm */
    hl__cell_amount(&cells, false, MM(1), HL_MM);
    hl__cell_number(&cells, true, 40);
    hl__cell_number(&cells, false, 40);
    hl__cells_end(&cells);
    assert_string_equal(out.data, "-0.5,0.375,,40,\r\n");
    hl__text_free(&out);
}

/* The rows of a table, read back by the sheet's own reader. */
typedef struct table {
    char *text;
    size_t size;
    hl_csv csv;
    int n;
    char heads[COLUMNS][24];
} table;

static void start_table(table *t, const judged *j)
{
    hl_err err = {0};
    int line = 0;
    assert_int_equal(hl_audit_csv(&t->text, &t->size, j->audit, true, &err), HL_OK);
    assert_int_equal(hl__csv_start(&t->csv, "out.csv", t->text, t->size, ',', &err), HL_OK);
    assert_int_equal(hl__csv_row(&t->csv, &t->n, &line, &err), HL_OK);
    assert_int_equal(t->n, COLUMNS);
    for (int i = 0; i < COLUMNS; i++)
        snprintf(t->heads[i], sizeof t->heads[i], "%s", t->csv.cells[i].text);
}

static bool next_row(table *t)
{
    hl_err err = {0};
    int line = 0;
    if (hl__csv_row(&t->csv, &t->n, &line, &err) != HL_OK)
        fail_msg("%d: %s", err.line, err.what);
    if (t->n > 0)
        assert_int_equal(t->n, COLUMNS);
    return t->n > 0;
}

static void end_table(table *t)
{
    hl__csv_end(&t->csv);
    hl_free(t->text);
}

static const char *cell(const table *t, const char *column)
{
    for (int i = 0; i < COLUMNS; i++)
        if (strcmp(t->heads[i], column) == 0)
            return t->csv.cells[i].text;
    fail_msg("there is no column %s", column);
    return "";
}

static bool is_row(const table *t, const char *kind)
{
    return strcmp(cell(t, "row"), kind) == 0;
}

static void every_row_has_every_column(void **state)
{
    (void)state;
    judged j = judge(
        "# piano: =1+1, \"grand\"\nnote,step,reading,by,method,remark\nC4,key_dip,9.4,Ann,dial,\"-x, y\"\n"
        "D4,key_dip,within,,,\nC4,repetition,weak,,,\nD4,repetition,ok,,,\n,una_corda,ok,,,\n"
        "C4,downweight,50,,,\nC4,upweight,26,,,\nA4,query,heavy,,,\n");
    table t;
    size_t n = 0, rows = 0;
    const hl_finding *findings = hl_audit_findings(j.audit, &n);
    start_table(&t, &j);
    assert_true(next_row(&t) && is_row(&t, "sheet"));
    assert_string_equal(cell(&t, "verdict"), "not ready");
    assert_string_equal(cell(&t, "persons"), "Ann");
    assert_string_equal(cell(&t, "compass"), "A0 to C8, 88 keys");
    for (size_t i = 0; i < n; i++) {
        if (findings[i].verdict == HL_NOT_APPLICABLE)
            continue;
        assert_true(next_row(&t));
        rows++;
        assert_true(is_row(&t, "finding"));
        assert_string_equal(cell(&t, "path"), "bench.csv");
        assert_string_equal(cell(&t, "sheet"), "bench.csv");
        assert_string_equal(cell(&t, "piano"), "'=1+1, grand");
        assert_string_equal(cell(&t, "step"),
                            findings[i].step >= 0 ? j.book->steps[findings[i].step].id : "");
        assert_string_equal(cell(&t, "verdict"), hl_verdict_name(findings[i].verdict));
    }
    assert_false(next_row(&t));
    assert_true(rows > 500);
    end_table(&t);
    put_away(&j);
}

static void what_the_columns_hold(void **state)
{
    (void)state;
    static const struct {
        const char *rows, *step, *note, *column, *want;
    } cases[] = {
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "note", "40"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "reading", "9.4"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "unit", "mm"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "low", "9.8"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "why", "low"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "adjuster", "front_punching"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "way", "remove"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "by", "Ann"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "method", "dial"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "remark", "thin"},
        {"C4,key_dip,9.4,Ann,dial,thin\n", "key_dip", "C4", "line", "2"},
        {"C4,key_dip,over,,,\n", "key_dip", "C4", "reading", "over"},
        {"C4,key_dip,under,,,\n", "key_dip", "C4", "reading", "under"},
        {"C4,key_dip,within,,,\n", "key_dip", "C4", "reading", "within"},
        {"C4,repetition,weak,,,\n", "repetition", "C4", "reading", "weak"},
        {"C4,repetition,weak,,,\n", "repetition", "C4", "unit", ""},
        {"C4,repetition,ok,,,\n", "repetition", "C4", "reading", "ok"},
        {"C4,repetition,ok,,,\n", "repetition", "C4", "verdict", "pass"},
        {",una_corda,off,,,\n", "una_corda", "", "note", ""},
        {"C4,downweight,50,,,\nC4,upweight,26,,,\n", "friction", "C4", "computed", "yes"},
        {"C4,downweight,50,,,\nC4,upweight,26,,,\n", "friction", "C4", "reading", "12"},
        {"C4,key_dip,skip,,,broken key\n", "key_dip", "C4", "remark", "broken key"},
        {"C4,query,=heavy,,,\n", "", "C4", "remark", "'=heavy"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200] = "note,step,reading,by,method,remark\n";
        strcat(text, cases[i].rows);
        judged j = judge(text);
        table t;
        bool found = false;
        start_table(&t, &j);
        while (!found && next_row(&t))
            found = is_row(&t, "finding") && strcmp(cell(&t, "step"), cases[i].step) == 0 &&
                    strcmp(cell(&t, "name"), cases[i].note) == 0;
        if (!found || strcmp(cell(&t, cases[i].column), cases[i].want) != 0)
            fail_msg("case %zu: \"%s\", not \"%s\"", i, found ? cell(&t, cases[i].column) : "no row",
                     cases[i].want);
        end_table(&t);
        put_away(&j);
    }
}

static void the_guard_stands_in_its_column(void **state)
{
    (void)state;
    const hl_audit_options options = {.rule = HL_RULE_GUARDED};
    judged j = judge_with(small_book(), HEADS "C4,key_level,0\nC4,key_dip,10.17\n", &options);
    table t;
    start_table(&t, &j);
    while (next_row(&t) && (strcmp(cell(&t, "step"), "key_dip") != 0 || strcmp(cell(&t, "name"), "C4") != 0))
        continue;
    assert_string_equal(cell(&t, "verdict"), "doubtful");
    assert_string_equal(cell(&t, "uncertainty"), "0.05");
    end_table(&t);
    put_away(&j);
}

static void heads_only_when_asked(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10\n");
    char *with = NULL, *without = NULL;
    size_t size = 0, less = 0;
    hl_err err = {0};
    assert_int_equal(hl_audit_csv(&with, &size, j.audit, true, &err), HL_OK);
    assert_int_equal(hl_audit_csv(&without, &less, j.audit, false, &err), HL_OK);
    assert_memory_equal(with, "row,path,sheet,piano,", 21);
    assert_string_equal(with + (size - less), without);
    hl_free(with);
    hl_free(without);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts),
        cmocka_unit_test(numbers_stay_numbers),
        cmocka_unit_test(every_row_has_every_column),
        cmocka_unit_test(what_the_columns_hold),
        cmocka_unit_test(the_guard_stands_in_its_column),
        cmocka_unit_test(heads_only_when_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
