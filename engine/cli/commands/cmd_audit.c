/* cmd_audit.c - "hammerline audit": is a sheet ready, and what is not; several are for
 * cmd_audit_fleet.c (layer: cli/commands). */
#include "audit_fleet.h"
#include "audit_format.h"
#include "commands.h"
#include "confine.h"
#include "hammerline.h"
#include "output.h"
#include "output_file.h"
#include "rule_paths.h"
#include "sheet_book.h"

typedef struct desk {
    const request *asked;
    bookshelf shelf;
    hl_book *book;
    hl_print print;
    printing out;
} desk;

/* A sheet that could not be judged: its errors on stderr, and in the format, too. */
static int give_up(desk *at, const char *title, const hl_err *bad)
{
    const int code = report(bad), printed = print_refused(&at->out, title, bad, 1);
    return printed > code ? printed : code;
}

static int print_audit(desk *at, const hl_audit *audit)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_code code = is_text(at->out.format) ? hl_audit_text(&text, &size, audit, &at->print, &err)
                                                 : at->out.format->item(&text, &size, audit, &err);
    if (code != HL_OK)
        return report(&err);
    say_text(text, size);
    hl_free(text);
    return EXIT_READY;
}

static int judge(desk *at, const hl_sheet *sheet, bool good)
{
    hl_audit *audit = NULL;
    hl_err err;
    if (hl_audit_run(&audit, sheet, at->book, &at->asked->judging, &err) != HL_OK)
        return give_up(at, hl_sheet_name(sheet), &err);
    int code = print_audit(at, audit);
    if (code == EXIT_READY && (!good || !hl_audit_has_work(audit)))
        code = EXIT_BAD_SHEET;
    else if (code == EXIT_READY && !hl_audit_ready(audit))
        code = EXIT_NOT_READY;
    hl_audit_free(audit);
    return code;
}

static int read_and_judge(desk *at, hl_sheet *sheet)
{
    hl_err err;
    if (open_sheet_book(&at->book, at->asked, sheet, &at->shelf.shelf, &err) != HL_OK)
        return give_up(at, hl_sheet_name(sheet), &err);
    const hl_code code = hl_sheet_read(sheet, at->book, &err);
    say_notices(sheet, at->book);
    if (code == HL_OK)
        return judge(at, sheet, true);
    int n = 0;
    const hl_err *errors = hl_sheet_errors(sheet, &n);
    if (code != HL_E_SHEET || n == 0)
        return give_up(at, hl_sheet_name(sheet), &err);
    for (int i = 0; i < n; i++)
        report(&errors[i]);
    return judge(at, sheet, false);
}

static int audit_sheet(desk *at, const char *path)
{
    hl_sheet *sheet = NULL;
    hl_err err;
    if (open_named_sheet(&sheet, path, &err) != HL_OK)
        return give_up(at, path, &err);
    const int code = read_and_judge(at, sheet);
    hl_sheet_free(sheet);
    return code;
}

int run_audit(const request *asked)
{
    desk at = {.asked = asked, .print = {.width = 80, .color = choose_color(asked->color)}};
    at.out.format = choose_format(asked);
    if (!at.out.format)
        return EXIT_WRONG_USE;
    if (!check_judging(&asked->judging) || !check_output(asked))
        return EXIT_WRONG_USE;
    if (is_fleet(asked))
        return run_audit_fleet(asked, at.out.format);
    int code = open_bookshelf(&at.shelf, asked);
    if (code == EXIT_READY) {
        confine(asked, &at.shelf);
        at.out.alone = true;
        code = begin_item(&at.out);
        if (code == EXIT_READY)
            code = audit_sheet(&at, asked->words[0]);
        const int ended = is_text(at.out.format) ? EXIT_READY : end_items(&at.out);
        code = ended > code ? ended : code;
    }
    hl_book_free(at.book);
    close_bookshelf(&at.shelf);
    return code;
}
