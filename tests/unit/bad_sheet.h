/* bad_sheet.h - reading a sheet that must be refused, for the tests of the sheet. */
#ifndef BAD_SHEET_H
#define BAD_SHEET_H

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

/* Opens and reads; HL_E_SHEET is wanted.  *sheet stays NULL when it could not even be opened. */
static inline void refuse(hl_sheet **sheet, const char *text, size_t size, hl_err *err)
{
    hl_code code = hl_sheet_open_text(sheet, "demo.csv", text, size, err);
    if (code == HL_OK) {
        code = hl_sheet_read(*sheet, book, err);
    }
    if (code != HL_E_SHEET) {
        print_error("taken for good: %s\n", text);
    }
    assert_int_equal(code, HL_E_SHEET);
    assert_int_equal(err->code, HL_E_SHEET);
    assert_string_equal(err->file, "demo.csv");
    assert_true(err->what[0] != '\0' && err->todo[0] != '\0');
}

#endif
