/* test_sheet_hostile.c - many faults at once, and sheets no spreadsheet would write: nothing crashes,
 * hangs or grows, and no bad cell becomes a reading. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bad_sheet.h"
#include "csv.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* All bad rows of a sheet in one run, in its order, each once; the good rows are read. */
static void all_in_one_run(void **state)
{
    static const char TEXT[] = "# travel_rato: 5\n"
                               "note,key_dip,blow,blwo\n"
                               "C4,1e3,nan,5\n"
                               "D4,10,46,\n"
                               "H4,10,46,\n"
                               "E4,x,46,\n"
                               "F4,\"10,46,\n"
                               "G4,10\n"
                               "A4,10,46,\n";
    static const struct {
        int line, column;
    } WANT[] = {{1, 1}, {2, 4}, {3, 2}, {5, 1}, {6, 2}, {7, 2}, {8, 2}};
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    int n = 0;
    (void)state;
    refuse(&sheet, TEXT, sizeof TEXT - 1, &err);
    const hl_err *errors = hl_sheet_errors(sheet, &n);
    assert_int_equal(n, COUNT(WANT));
    for (size_t i = 0; i < COUNT(WANT); i++) {
        assert_int_equal(errors[i].line, WANT[i].line);
        assert_int_equal(errors[i].column, WANT[i].column);
    }
    assert_int_equal(err.line, 1);
    /* D4 and A4 whole, and E4's blow, which stands beside a bad cell: arithmetic. */
    assert_int_equal(sheet->n_events, 5);
    hl_sheet_free(sheet);
}

static void too_many_to_list(void **state)
{
    enum { ROWS = 1500 };
    char *text = malloc(32 + 16 * ROWS);
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    int n = 0;
    (void)state;
    assert_non_null(text);
    size_t size = (size_t)sprintf(text, "note,step,reading\n");
    for (int i = 0; i < ROWS; i++) {
        size += (size_t)sprintf(text + size, "C4,blow,1e3\n");
    }
    refuse(&sheet, text, size, &err);
    const hl_err *errors = hl_sheet_errors(sheet, &n);
    assert_int_equal(n, HL_ERRORS_MOST + 1);
    assert_int_equal(errors[0].line, 2);
    assert_int_equal(errors[HL_ERRORS_MOST - 1].line, HL_ERRORS_MOST + 1);
    assert_string_equal(errors[HL_ERRORS_MOST].what, "and 500 more bad rows");
    hl_sheet_free(sheet);
    free(text);
}

/* NUL bytes anywhere: told, never the end of the sheet. */
static void nul_bytes(void **state)
{
    static const char TEXT[] = "note,blow\nC4,4\0"
                               "6\nD4,46\n";
    static const char NULS[64] = {0};
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    (void)state;
    refuse(&sheet, TEXT, sizeof TEXT - 1, &err);
    assert_string_equal(err.what, "a NUL byte");
    assert_int_equal(err.line, 2);
    assert_int_equal(sheet->n_events, 1);
    hl_sheet_free(sheet);
    refuse(&sheet, NULS, sizeof NULS, &err);
    assert_string_equal(err.what, "a NUL byte");
    hl_sheet_free(sheet);
}

/* One line of 200 MB is refused by its size; one of 60 MB by its first cell, without a copy. */
static void one_long_line(void **state)
{
    static const size_t SIZES[] = {(size_t)200 << 20, (size_t)60 << 20};
    (void)state;
    for (size_t i = 0; i < COUNT(SIZES); i++) {
        char *text = malloc(SIZES[i]);
        hl_sheet *sheet = NULL;
        hl_err err = {0};
        assert_non_null(text);
        memset(text, 'x', SIZES[i]);
        refuse(&sheet, text, SIZES[i], &err);
        assert_string_equal(err.what,
                            i == 0 ? "the sheet is larger than 64 MB" : "a cell longer than 4096 bytes");
        hl_sheet_free(sheet);
        free(text);
    }
}

/* Every piece of a good sheet, cut anywhere, and with any one byte spoilt: never a crash, and what
 * is read stays inside the tables. */
static void cut_and_spoilt(void **state)
{
    static const char TEXT[] =
        "# book: small\n# key_front sharps: 204 mm\n# breaks: 20 52\n# dampers: 1-66\n"
        "note,step,reading,remark\nC4,blow,\"46,1\",a\n,una_corda,off,\nC4,capstan,raise 1/4,\n"
        "C4,query,why,\n,fact,travel_ratio = 5.2,\n,pass,final,\nC4,blow,void,\n";
    static const char BYTES[] = {'\0', '"', ',', '\n', '#', ';', '\x80', 'A', '9', '-'};
    char text[sizeof TEXT];
    (void)state;
    for (size_t i = 0; i < sizeof TEXT; i++) {
        for (size_t k = 0; k <= sizeof BYTES; k++) {
            hl_sheet *sheet = NULL;
            hl_err err = {0};
            size_t size = k == sizeof BYTES ? i : sizeof TEXT - 1;
            memcpy(text, TEXT, sizeof TEXT);
            if (k < sizeof BYTES && i < sizeof TEXT - 1) {
                text[i] = BYTES[k];
            }
            hl_code code = hl_sheet_open_text(&sheet, "s", text, size, &err);
            if (code == HL_OK) {
                code = hl_sheet_read(sheet, book, &err);
            }
            assert_true(code == HL_OK || (code == HL_E_SHEET && err.what[0] != '\0'));
            for (size_t e = 0; sheet != NULL && e < sheet->n_events; e++) {
                assert_in_range(sheet->events[e].note, 0, 88);
            }
            hl_sheet_free(sheet);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_in_one_run), cmocka_unit_test(too_many_to_list), cmocka_unit_test(nul_bytes),
        cmocka_unit_test(one_long_line),  cmocka_unit_test(cut_and_spoilt),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
