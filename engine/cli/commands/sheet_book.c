/* sheet_book.c - finds the book of a sheet (layer: cli/commands). */
#include "sheet_book.h"

#include <stdio.h>
#include <string.h>

bool is_one_piano(const char *path, hl_err *err)
{
    if (!hl_fleet_is_many(path))
        return true;
    *err = (hl_err){.code = HL_E_SHEET,
                    .what = "it holds many instruments, and this command takes one",
                    .todo = "put the rows of one of them into a file of their own; 'hammerline audit' reads "
                            "all of them at once"};
    snprintf(err->file, sizeof err->file, "%s", path);
    return false;
}

hl_code open_sheet_book(hl_book **out, const request *asked, const hl_sheet *sheet, const hl_shelf *shelf,
                        hl_err *err)
{
    const char *name = asked->book ? asked->book : hl_sheet_book_id(sheet);
    if (!name[0]) {
        *err = (hl_err){.code = HL_E_SHEET,
                        .what = "no book is named",
                        .todo = "write a line \"# book: grand\" above the column heads, or say --book grand"};
        snprintf(err->file, sizeof err->file, "%s", hl_sheet_name(sheet));
        return err->code;
    }
    if (hl_book_open(out, name, shelf, err) == HL_OK)
        return HL_OK;
    if (err->code == HL_E_USAGE && !asked->book) {
        err->code = HL_E_SHEET; /* no such book: it is the sheet that asks for it */
        if (!err->file[0])
            snprintf(err->file, sizeof err->file, "%s", hl_sheet_name(sheet));
        if (strncmp(err->todo, "did you mean", strlen("did you mean")) != 0)
            snprintf(err->todo, sizeof err->todo,
                     "if it lies elsewhere, say where: --rules FOLDER, or --book FOLDER/%.100s.lua", name);
    }
    return err->code;
}

bool has_work(const hl_audit *audit)
{
    const hl_tally *total = hl_audit_total(audit);
    for (int i = 0; i < HL_VERDICTS; i++)
        if (i != HL_NOT_APPLICABLE && total->count[i] > 0)
            return true;
    return false;
}
