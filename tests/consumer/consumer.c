/* consumer.c - another program that uses the library as installed: audits one sheet, says the answer.
 *
 * consumer RULES SHEET prints "ready" or "not ready".  It is read as C and as C++. */
#include <hammerline.h>

#include <stdio.h>
#include <string.h>

static int fail(const hl_err *err)
{
    fprintf(stderr, "consumer: %s: %s; %s\n", err->file, err->what, err->todo);
    return 1;
}

int main(int argc, char **argv)
{
    hl_sheet *sheet = NULL;
    hl_book *book = NULL;
    hl_audit *audit = NULL;
    hl_audit_options options;
    hl_shelf shelf;
    hl_err err;
    int code = 1;
    if (argc != 3 || hl_version_number() < HL_VERSION_NUMBER || strcmp(hl_version(), HL_VERSION) != 0)
        return 2;
    memset(&options, 0, sizeof options);
    memset(&shelf, 0, sizeof shelf);
    const char *folders[1] = {argv[1]};
    shelf.folders = folders;
    shelf.n_folders = 1;
    if (hl_sheet_open(&sheet, argv[2], &err) != HL_OK ||
        hl_book_open(&book, hl_sheet_book_id(sheet), &shelf, &err) != HL_OK ||
        hl_sheet_read(sheet, book, &err) != HL_OK ||
        hl_audit_run(&audit, sheet, book, &options, &err) != HL_OK)
        code = fail(&err);
    else
        code = puts(hl_audit_ready(audit) ? "ready" : "not ready") < 0;
    hl_audit_free(audit);
    hl_book_free(book);
    hl_sheet_free(sheet);
    return code;
}
