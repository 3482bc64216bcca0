/* locale_driver.c - a program that, unlike ours, heeds the person's locale and uses the library.
 *
 *   locale_driver RULES SHEET      prints all that the library says of the sheet
 *
 * locales.sh compares its output under several locales.  The first line tells the locale's decimal
 * mark, as a sign that it is in force; it goes to standard error. */
#include "hammerline.h"

#include <locale.h>
#include <stdio.h>

static int print_text(hl_code code, char *text, size_t size, const hl_err *err)
{
    if (code != HL_OK) {
        fprintf(stderr, "%s:%d: %s\n", err->file, err->line, err->what);
        return 1;
    }
    const int bad = fwrite(text, 1, size, stdout) != size;
    hl_free(text);
    return bad;
}

static int print_all(const hl_book *book, const hl_sheet *sheet, const hl_audit *audit, const hl_plan *plan)
{
    const hl_print page = {.width = 80};
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    int bad = 0;
#define PRINT(call) bad |= print_text(call, text, size, &err)
    PRINT(hl_audit_text(&text, &size, audit, &page, &err));
    PRINT(hl_audit_json(&text, &size, audit, &err));
    PRINT(hl_audit_csv(&text, &size, audit, true, &err));
    PRINT(hl_report_html(&text, &size, audit, NULL, &err));
    PRINT(hl_plan_text(&text, &size, plan, &page, &err));
    PRINT(hl_plan_json(&text, &size, plan, &err));
    PRINT(hl_book_text(&text, &size, book, &page, &err));
    PRINT(hl_sheet_blank(&text, &size, book, &err));
    PRINT(hl_sheet_as_tidy(&text, &size, sheet, &err));
    return bad;
}

int main(int argc, char **argv)
{
    hl_book *book = NULL;
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_plan *plan = NULL;
    hl_err err;
    if (argc != 3 || setlocale(LC_ALL, "") == NULL)
        return 2;
    fprintf(stderr, "%s\n", localeconv()->decimal_point);
    const char *const folders[] = {argv[1]};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    if (hl_sheet_open(&sheet, argv[2], &err) != HL_OK ||
        hl_book_open(&book, hl_sheet_book_id(sheet), &shelf, &err) != HL_OK ||
        hl_sheet_read(sheet, book, &err) != HL_OK || hl_audit_run(&audit, sheet, book, NULL, &err) != HL_OK ||
        hl_plan_run(&plan, audit, NULL, &err) != HL_OK)
        return print_text(err.code, NULL, 0, &err);
    const int bad = print_all(book, sheet, audit, plan);
    hl_plan_free(plan);
    hl_audit_free(audit);
    hl_sheet_free(sheet);
    hl_book_free(book);
    return bad;
}
