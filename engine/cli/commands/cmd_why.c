/* cmd_why.c - "hammerline why": one verdict explained (layer: cli/commands). */
#include "commands.h"
#include "confine.h"
#include "hammerline.h"
#include "output.h"
#include "output_file.h"
#include "rule_paths.h"
#include "sheet_book.h"

typedef struct question {
    const request *asked;
    bookshelf shelf;
    hl_book *book;
    hl_sheet *sheet;
    hl_audit *audit;
} question;

static int explain(question *at, bool good)
{
    const hl_print print = {.width = 80, .color = choose_color(at->asked->color)};
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const int note_asked = find_named_note(at->sheet, at->asked->words[1]);
    const int step = note_asked < 0 ? -1 : find_named_step(at->book, at->asked->words[2]);
    if (note_asked < 0 || step < 0)
        return EXIT_WRONG_USE;
    if (hl_audit_run(&at->audit, at->sheet, at->book, &at->asked->judging, &err) != HL_OK ||
        hl_why_text(&text, &size, at->audit, step, note_asked, &print, &err) != HL_OK)
        return report(&err);
    say_text(text, size);
    hl_free(text);
    return good ? EXIT_READY : EXIT_BAD_SHEET;
}

/* Bad rows are reported, and the rest is judged all the same. */
static int answer(question *at)
{
    hl_err err;
    int n = 0;
    if (open_named_sheet(&at->sheet, at->asked->words[0], &err) != HL_OK ||
        open_sheet_book(&at->book, at->asked, at->sheet, &at->shelf.shelf, &err) != HL_OK)
        return report(&err);
    const hl_code code = hl_sheet_read(at->sheet, at->book, &err);
    const hl_err *errors = hl_sheet_errors(at->sheet, &n);
    if (code != HL_OK && (code != HL_E_SHEET || n == 0))
        return report(&err);
    for (int i = 0; i < n; i++)
        report(&errors[i]);
    return explain(at, code == HL_OK);
}

int run_why(const request *asked)
{
    question at = {.asked = asked};
    if (!check_output(asked))
        return EXIT_WRONG_USE;
    int code = open_bookshelf(&at.shelf, asked);
    if (code == EXIT_READY) {
        confine(asked, &at.shelf);
        code = answer(&at);
    }
    hl_audit_free(at.audit);
    hl_sheet_free(at.sheet);
    hl_book_free(at.book);
    close_bookshelf(&at.shelf);
    return code;
}
