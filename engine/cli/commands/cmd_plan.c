/* cmd_plan.c - "hammerline plan": every note at once, as a work list and a parts list (layer: cli/commands).
 */
#include "commands.h"
#include "confine.h"
#include "hammerline.h"
#include "output.h"
#include "output_file.h"
#include "rule_paths.h"
#include "sheet_book.h"

typedef struct planning {
    const request *asked;
    bookshelf shelf;
    hl_book *book;
    hl_sheet *sheet;
    hl_audit *audit;
    hl_plan *plan;
} planning;

/* The error on stderr; in JSON an object that says so, too. */
static int give_up(const planning *at, const hl_err *bad)
{
    const int code = report(bad);
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (!at->asked->given[OPTION_JSON])
        return code;
    if (hl_plan_error_json(&text, &size, at->asked->words[0], bad, &err) != HL_OK)
        return report(&err);
    say_text(text, size);
    hl_free(text);
    return code;
}

/* Bad rows are reported, and the rest is planned all the same: *good tells. */
static hl_code read_sheet(planning *at, bool *good, hl_err *err)
{
    const hl_code code = hl_sheet_read(at->sheet, at->book, err);
    say_notices(at->sheet, at->book);
    int n = 0;
    const hl_err *errors = hl_sheet_errors(at->sheet, &n);
    *good = code == HL_OK;
    if (code == HL_OK || code != HL_E_SHEET || n == 0)
        return code;
    for (int i = 0; i < n; i++)
        report(&errors[i]);
    return HL_OK;
}

static int print_plan(const planning *at)
{
    const hl_print print = {.width = 80, .color = choose_color(at->asked->color)};
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_code code = at->asked->given[OPTION_JSON] ? hl_plan_json(&text, &size, at->plan, &err)
                                                       : hl_plan_text(&text, &size, at->plan, &print, &err);
    if (code != HL_OK)
        return report(&err);
    say_text(text, size);
    hl_free(text);
    return EXIT_READY;
}

static int plan_sheet(planning *at)
{
    const request *asked = at->asked;
    const hl_plan_options options = {.without = asked->without,
                                     .n_without = asked->n_without,
                                     .reversible = asked->given[OPTION_REVERSIBLE],
                                     .lines = asked->lines,
                                     .n_lines = asked->n_lines};
    hl_err err = {.code = HL_OK};
    bool good = true;
    if (open_named_sheet(&at->sheet, asked->words[0], &err) != HL_OK ||
        open_sheet_book(&at->book, asked, at->sheet, &at->shelf.shelf, &err) != HL_OK ||
        read_sheet(at, &good, &err) != HL_OK ||
        hl_audit_run(&at->audit, at->sheet, at->book, NULL, &err) != HL_OK ||
        hl_plan_run(&at->plan, at->audit, &options, &err) != HL_OK)
        return give_up(at, &err);
    const int code = print_plan(at);
    if (code != EXIT_READY)
        return code;
    if (!good)
        return EXIT_BAD_SHEET;
    return hl_plan_idle(at->plan) ? EXIT_READY : EXIT_NOT_READY;
}

int run_plan(const request *asked)
{
    planning at = {.asked = asked};
    if (!check_output(asked))
        return EXIT_WRONG_USE;
    int code = open_bookshelf(&at.shelf, asked);
    if (code == EXIT_READY) {
        confine(asked, &at.shelf);
        code = plan_sheet(&at);
    }
    hl_plan_free(at.plan);
    hl_audit_free(at.audit);
    hl_sheet_free(at.sheet);
    hl_book_free(at.book);
    close_bookshelf(&at.shelf);
    return code;
}
