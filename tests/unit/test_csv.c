/* test_csv.c - cells with line and column: RFC 4180's own examples, then what spreadsheets and
 * hands make of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "csv.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* Reads all rows and writes them as "[a|b][c|d]"; a bad row as "{line:column what}". */
static void read_all(char *out, size_t room, const char *bytes, size_t size, char separator)
{
    hl_csv csv;
    hl_err err;
    size_t n = 0;
    assert_int_equal(hl__csv_start(&csv, "sheet.csv", bytes, size, separator, &err), HL_OK);
    for (;;) {
        int cells = 0, line = 0;
        hl_code code = hl__csv_row(&csv, &cells, &line, &err);
        if (code == HL_OK && cells == 0) {
            break;
        }
        if (code != HL_OK) {
            assert_int_equal(code, HL_E_SHEET);
            assert_string_equal(err.file, "sheet.csv");
            assert_true(err.todo[0] != '\0');
            n += (size_t)snprintf(out + n, room - n, "{%d:%d %s}", err.line, err.column, err.what);
            continue;
        }
        for (int i = 0; i < cells; i++) {
            assert_int_equal(csv.cells[i].column, i + 1);
            assert_int_equal(csv.cells[i].size, strlen(csv.cells[i].text));
            n += (size_t)snprintf(out + n, room - n, "%s%s", i == 0 ? "[" : "|", csv.cells[i].text);
        }
        n += (size_t)snprintf(out + n, room - n, "]");
    }
    hl__csv_end(&csv);
}

typedef struct csv_case {
    const char *text, *rows;
    char separator;
} csv_case;

static void check_cases(const csv_case *cases, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        char rows[1024] = "";
        read_all(rows, sizeof rows, cases[i].text, strlen(cases[i].text), cases[i].separator);
        assert_string_equal(rows, cases[i].rows);
    }
}

/* Y. Shafranovich, RFC 4180, section 2, items 1-7, 2005. */
static void rfc_4180_examples(void **state)
{
    static const csv_case CASES[] = {
        /* 1 */ {"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "[aaa|bbb|ccc][zzz|yyy|xxx]", ','},
        /* 2 */ {"aaa,bbb,ccc\r\nzzz,yyy,xxx", "[aaa|bbb|ccc][zzz|yyy|xxx]", ','},
        /* 3 */
        {"field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
         "[field_name|field_name|field_name][aaa|bbb|ccc][zzz|yyy|xxx]", ','},
        /* 4 */ {"aaa,bbb,ccc", "[aaa|bbb|ccc]", ','},
        /* 5 */ {"\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "[aaa|bbb|ccc][zzz|yyy|xxx]", ','},
        /* 6 */ {"\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "[aaa|b\nbb|ccc][zzz|yyy|xxx]", ','},
        /* 7 */ {"\"aaa\",\"b\"\"bb\",\"ccc\"", "[aaa|b\"bb|ccc]", ','},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

/* What spreadsheets write: common practice, no source. */
static void spreadsheets(void **state)
{
    static const csv_case CASES[] = {
        {"", "", ','},
        {"\n", "[]", ','},
        {"a,\n", "[a|]", ','},
        {"a,", "[a|]", ','},
        {",", "[|]", ','},
        {"\"\"", "[]", ','},
        {"\"\",\"\",\"\"", "[||]", ','},
        {"\xEF\xBB\xBFnote,blow\n", "[note|blow]", ','},
        {"\xEF\xBB\xBF\"note\",blow\n", "[note|blow]", ','},
        {"note;blow\nC4;46,5\n", "[note|blow][C4|46,5]", ';'},
        {"note\tblow\nC4\t\t\n", "[note|blow][C4||]", '\t'},
        {"a,b\rc,d\re,f", "[a|b][c|d][e|f]", ','},
        {" a , b b ,\tc\t\n", "[a|b b|c]", ','},
        {"a, \"b,c\" ,d", "[a|b,c|d]", ','},
        {"C4,\xC2\xA0"
         "10.2\xC2\xA0\n",
         "[C4|10.2]", ','},
        /* An inch mark in an open cell is text, never an opening quote. */
        {"C4,3/8\",5\n", "[C4|3/8\"|5]", ','},
        {"C4,\"3/8\"\"\",5\n", "[C4|3/8\"|5]", ','},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

/* A bad row is told with its line and cell, and never takes the rows after it along. */
static void bad_rows(void **state)
{
    static const csv_case CASES[] = {
        {"a,\"b\nc,d\n", "{1:2 a quote that is never closed}[c|d]", ','},
        {"a,\"b\n5,\"c\nd,e\n", "{1:2 text after a closing quote}{2:2 a quote that is never closed}[d|e]",
         ','},
        {"a,\"b\"c\nd,e\n", "{1:2 text after a closing quote}[d|e]", ','},
        {"\"", "{1:1 a quote that is never closed}", ','},
        {"a,b\nc,\xFF\xFE\ne,f", "[a|b]{2:2 text that is not UTF-8 (byte 0xFF)}[e|f]", ','},
        {"a,\xC0\xAF\n", "{1:2 text that is not UTF-8 (byte 0xC0)}", ','},
        {"a,b\x1B[2J\n", "{1:2 a control character (byte 0x1B)}", ','},
        {"a,\"\x7F\"\n", "{1:2 a control character (byte 0x7F)}", ','},
        {"x,\"two\nlines\"\na,\"b\"c\n", "[x|two\nlines]{3:2 text after a closing quote}", ','},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void nul_bytes(void **state)
{
    static const char TEXT[] = "a,b\nc,d\0e\nf,g\n";
    char rows[256] = "";
    (void)state;
    read_all(rows, sizeof rows, TEXT, sizeof TEXT - 1, ',');
    assert_string_equal(rows, "[a|b]{2:2 a NUL byte}[f|g]");
}

static char *fill(size_t size, char c)
{
    char *text = malloc(size);
    assert_non_null(text);
    memset(text, c, size);
    return text;
}

/* The caps of csv.h: on the cap passes, one more is refused and the next row is read. */
static void cell_cap(void **state)
{
    char rows[HL_CELL_MOST + 256] = "";
    char *text = fill(2 * HL_CELL_MOST, 'x');
    (void)state;
    text[HL_CELL_MOST] = '\n';
    text[HL_CELL_MOST + 1] = '\n';
    read_all(rows, sizeof rows, text, HL_CELL_MOST + 2, ',');
    assert_int_equal(strlen(rows), HL_CELL_MOST + 4); /* "[xxx][]": arithmetic */
    text[HL_CELL_MOST] = 'x';
    text[HL_CELL_MOST + 2] = 'y';
    read_all(rows, sizeof rows, text, HL_CELL_MOST + 3, ',');
    assert_string_equal(rows, "{1:1 a cell longer than 4096 bytes}[y]");
    text[0] = '"';
    read_all(rows, sizeof rows, text, 2 * HL_CELL_MOST, ',');
    assert_memory_equal(rows, "{1:1 a cell longer than 4096 bytes}", 35);
    free(text);
}

static void row_cap(void **state)
{
    char rows[HL_CELLS_MOST + 64] = "";
    char *text = fill(HL_CELLS_MOST + 1, ',');
    (void)state;
    read_all(rows, sizeof rows, text, HL_CELLS_MOST - 1, ',');
    assert_int_equal(strlen(rows), HL_CELLS_MOST + 1); /* 512 empty cells: "[", 511 "|", "]" */
    text[HL_CELLS_MOST] = '\n';
    read_all(rows, sizeof rows, text, HL_CELLS_MOST + 1, ',');
    assert_string_equal(rows, "{1:513 a row of more than 512 cells}");
    free(text);
}

static void size_cap(void **state)
{
    hl_csv csv;
    hl_err err;
    (void)state;
    assert_int_equal(hl__csv_start(&csv, "big.csv", "", (size_t)HL_SHEET_MOST + 1, ',', &err), HL_E_SHEET);
    assert_string_equal(err.what, "the sheet is larger than 64 MB");
}

/* Lines are counted through cells of several lines, and torn tells of a missing last line end. */
static void places(void **state)
{
    static const char TEXT[] = "a,\"1\r\n2\"\r\n\r\nb,c";
    hl_csv csv;
    hl_err err;
    int n = 0, line = 0;
    (void)state;
    assert_int_equal(hl__csv_start(&csv, "s", TEXT, sizeof TEXT - 1, ',', &err), HL_OK);
    assert_int_equal(hl__csv_row(&csv, &n, &line, &err), HL_OK);
    assert_int_equal(line, 1);
    assert_true(csv.cells[1].quoted);
    assert_false(csv.cells[0].quoted);
    assert_int_equal(hl__csv_row(&csv, &n, &line, &err), HL_OK);
    assert_int_equal(n, 1);
    assert_int_equal(line, 3);
    assert_false(csv.torn);
    assert_int_equal(hl__csv_row(&csv, &n, &line, &err), HL_OK);
    assert_int_equal(line, 4);
    assert_true(csv.torn);
    assert_int_equal(hl__csv_row(&csv, &n, &line, &err), HL_OK);
    assert_int_equal(n, 0);
    hl__csv_end(&csv);
}

/* Every line opens a quote that the next line's seems to close: each is told, and none twice. */
static void many_open_quotes(void **state)
{
    enum { LINES = 20000 };
    char *text = fill(3 * LINES, '\n');
    hl_csv csv;
    hl_err err;
    int n = 0, line = 0, bad = 0;
    (void)state;
    for (size_t i = 0; i < LINES; i++) {
        memcpy(text + 3 * i, "\"x", 2);
    }
    assert_int_equal(hl__csv_start(&csv, "s", text, (size_t)3 * LINES, ',', &err), HL_OK);
    while (csv.at < csv.end) {
        bad += hl__csv_row(&csv, &n, &line, &err) == HL_E_SHEET;
        assert_int_equal(line, bad);
    }
    hl__csv_end(&csv);
    free(text);
    assert_int_equal(bad, LINES);
}

/* Where a quote that runs on could hide a reading, a cell stays on its line. */
static void one_line(void **state)
{
    static const char TEXT[] = "C4,drop,1.5,\"\nC4,drop,9,\"\n";
    hl_csv csv;
    hl_err err;
    int n = 0, line = 0;
    (void)state;
    assert_int_equal(hl__csv_start(&csv, "s", TEXT, sizeof TEXT - 1, ',', &err), HL_OK);
    csv.one_line = true;
    for (int i = 1; i <= 2; i++) {
        assert_int_equal(hl__csv_row(&csv, &n, &line, &err), HL_E_SHEET);
        assert_string_equal(err.what, "a quote that is not closed on its line");
        assert_int_equal(err.line, i);
        assert_int_equal(err.column, 4);
    }
    hl__csv_end(&csv);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rfc_4180_examples), cmocka_unit_test(spreadsheets),
        cmocka_unit_test(bad_rows),          cmocka_unit_test(nul_bytes),
        cmocka_unit_test(cell_cap),          cmocka_unit_test(row_cap),
        cmocka_unit_test(size_cap),          cmocka_unit_test(places),
        cmocka_unit_test(many_open_quotes),  cmocka_unit_test(one_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
