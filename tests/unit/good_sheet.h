/* good_sheet.h - reading a sheet that must be good, for the tests of the sheet. */
#ifndef GOOD_SHEET_H
#define GOOD_SHEET_H

#include "sheet.h"
#include "small_book.h"

#include <string.h>

static hl_book *book;

static inline int set_up(void **state)
{
    (void)state;
    book = small_book();
    return 0;
}

static inline int tear_down(void **state)
{
    (void)state;
    small_book_free(book);
    return 0;
}

static inline hl_sheet *read_sheet(const char *text)
{
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    hl_code code = hl_sheet_open_text(&sheet, "demo.csv", text, strlen(text), &err);
    if (code == HL_OK) {
        code = hl_sheet_read(sheet, book, &err);
    }
    if (code != HL_OK) {
        print_error("%d:%d %s; %s\n%s\n", err.line, err.column, err.what, err.todo, text);
    }
    assert_int_equal(code, HL_OK);
    return sheet;
}

#endif
