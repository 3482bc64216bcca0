/* cmd_sheet.c - "hammerline sheet": blank sheets, wide and tidy, a note's passes (layer: cli/commands). */
#include "commands.h"
#include "confine.h"
#include "hammerline.h"
#include "output.h"
#include "output_file.h"
#include "rule_paths.h"
#include "sheet_book.h"

#include <stdio.h>
#include <string.h>

#define WIDTH 80

/* ---- new ------------------------------------------------------------------------------------- */

static int make_tidy(const request *asked, const hl_book *book)
{
    char *facts = NULL;
    size_t size = 0;
    hl_err err;
    if (!asked->output) {
        complain("a tidy sheet is made as a file: hammerline sheet new %s --tidy -o FILE", asked->words[0]);
        return EXIT_WRONG_USE;
    }
    hl_code code = hl_sheet_blank_facts(&facts, &size, book, &err);
    if (code == HL_OK)
        code = hl_journal_create(asked->output, hl_book_id(book), facts, &err);
    hl_free(facts);
    if (code != HL_OK)
        return report(&err);
    note("saved");
    return EXIT_READY;
}

typedef hl_code blank_printer(char **out, size_t *size, const hl_book *book, hl_err *err);

static int make_blank(const request *asked, const hl_book *book, blank_printer *print)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const int code = print(&text, &size, book, &err) == HL_OK ? give_out(asked, text, size) : report(&err);
    hl_free(text);
    return code;
}

static int new_sheet(const request *asked, const hl_shelf *shelf)
{
    hl_book *book = NULL;
    hl_err err;
    if (hl_book_open(&book, asked->words[0], shelf, &err) != HL_OK)
        return report(&err);
    const int code =
        asked->given[OPTION_TIDY] ? make_tidy(asked, book) : make_blank(asked, book, hl_sheet_blank);
    hl_book_free(book);
    return code;
}

/* To fill in on paper. */
static int new_form(const request *asked, const hl_shelf *shelf)
{
    hl_book *book = NULL;
    hl_err err;
    if (hl_book_open(&book, asked->words[0], shelf, &err) != HL_OK)
        return report(&err);
    const int code = make_blank(asked, book, hl_form_html);
    hl_book_free(book);
    return code;
}

/* ---- an old sheet ------------------------------------------------------------------------------ */

typedef struct opened {
    hl_sheet *sheet;
    hl_book *book;
    bool bad; /* some rows could not be read; they were reported */
} opened;

static void close_sheet(opened *of)
{
    hl_sheet_free(of->sheet);
    hl_book_free(of->book);
}

static int read_rows(opened *of)
{
    hl_err err;
    int n = 0;
    const hl_code code = hl_sheet_read(of->sheet, of->book, &err);
    say_notices(of->sheet, of->book);
    if (code == HL_OK)
        return EXIT_READY;
    const hl_err *errors = hl_sheet_errors(of->sheet, &n);
    if (code != HL_E_SHEET || n == 0)
        return report(&err);
    for (int i = 0; i < n; i++)
        report(&errors[i]);
    of->bad = true;
    return EXIT_READY;
}

static int read_sheet(opened *of, const request *asked, const hl_shelf *shelf)
{
    hl_err err;
    if (open_sheet_book(&of->book, asked, of->sheet, shelf, &err) != HL_OK)
        return report(&err);
    return read_rows(of);
}

/* Close it in any case. */
static int open_sheet(opened *out, const request *asked, const hl_shelf *shelf)
{
    hl_err err;
    if (open_named_sheet(&out->sheet, asked->words[0], &err) != HL_OK)
        return report(&err);
    return read_sheet(out, asked, shelf);
}

/* ---- convert ----------------------------------------------------------------------------------- */

/* A sentence a line, on stderr. */
static void say_lost(const char *lost)
{
    const hl_print print = {.width = WIDTH};
    if (lost[0])
        note("A wide sheet holds the latest readings only:");
    while (*lost) {
        char line[256];
        const size_t size = strcspn(lost, "\n");
        char *text = NULL;
        size_t n = 0;
        hl_err err;
        snprintf(line, sizeof line, "%.*s", (int)size, lost);
        if (hl_paragraph_text(&text, &n, line, 2, 4, &print, &err) == HL_OK)
            fwrite(text, 1, n, stderr);
        hl_free(text);
        lost += size + (lost[size] == '\n');
    }
}

static int convert(const request *asked, const opened *from)
{
    char *text = NULL, *lost = NULL;
    size_t size = 0;
    hl_err err;
    const bool wide = asked->to ? strcmp(asked->to, "wide") == 0 : hl_sheet_is_tidy(from->sheet);
    const char *named = hl_sheet_book_id(from->sheet), *used = hl_book_id(from->book);
    const hl_code code = wide ? hl_sheet_as_wide(&text, &size, from->sheet, &lost, &err)
                              : hl_sheet_as_tidy(&text, &size, from->sheet, &err);
    const int end = code == HL_OK ? give_out(asked, text, size) : report(&err);
    if (end == EXIT_READY) {
        if (named[0] && strcmp(named, used) != 0)
            complain("%s names the book %s, by which it was read, in place of %s", asked->output, used,
                     named);
        say_lost(lost ? lost : "");
    }
    hl_free(text);
    hl_free(lost);
    return end;
}

/* A sheet that was sorted is put in order, and that is all.  False: it was not. */
static bool put_in_order(const request *asked, const hl_sheet *sheet, int *code)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_sheet_in_order(&text, &size, sheet, &err) != HL_OK || !text)
        return false;
    *code = give_out(asked, text, size);
    if (*code == EXIT_READY)
        complain(
            "%s has the rows of %s in the order in which they were saved; those without a mark come last",
            asked->output, asked->words[0]);
    hl_free(text);
    return true;
}

/* The sheet is opened once: it may be a pipe. */
static int convert_sheet(const request *asked, const hl_shelf *shelf)
{
    opened from = {.sheet = NULL};
    int code = EXIT_READY;
    hl_err err;
    if (!asked->output) { /* a shell's > could empty the sheet before it is read */
        complain("name the new sheet: hammerline sheet convert %s -o FILE", asked->words[0]);
        return EXIT_WRONG_USE;
    }
    if (open_named_sheet(&from.sheet, asked->words[0], &err) != HL_OK)
        return report(&err);
    if (!put_in_order(asked, from.sheet, &code)) {
        code = read_sheet(&from, asked, shelf);
        if (code == EXIT_READY && from.bad) {
            complain("%s was not converted: mend what is bad in it first", asked->words[0]);
            code = EXIT_BAD_SHEET;
        } else if (code == EXIT_READY) {
            code = convert(asked, &from);
        }
    }
    close_sheet(&from);
    return code;
}

/* ---- history ----------------------------------------------------------------------------------- */

static int print_history(const request *asked, const opened *of)
{
    const hl_print print = {.width = WIDTH};
    const int note = find_named_note(of->sheet, asked->words[1]);
    const int step = asked->n_words == 3 && note >= 0 ? find_named_step(of->book, asked->words[2]) : -1;
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (note < 0 || (asked->n_words == 3 && step < 0))
        return EXIT_WRONG_USE;
    if (hl_history_text(&text, &size, of->sheet, note, step, &print, &err) != HL_OK)
        return report(&err);
    say_text(text, size);
    hl_free(text);
    return of->bad ? EXIT_BAD_SHEET : EXIT_READY;
}

static int show_history(const request *asked, const hl_shelf *shelf)
{
    opened of = {.sheet = NULL};
    int code = open_sheet(&of, asked, shelf);
    if (code == EXIT_READY)
        code = print_history(asked, &of);
    close_sheet(&of);
    return code;
}

/* ---- the forms --------------------------------------------------------------------------------- */

static int run_form(int (*form)(const request *, const hl_shelf *), const request *asked)
{
    bookshelf shelf;
    if (!check_output(asked))
        return EXIT_WRONG_USE;
    int code = open_bookshelf(&shelf, asked);
    if (code == EXIT_READY) {
        confine(asked, &shelf);
        code = form(asked, &shelf.shelf);
    }
    close_bookshelf(&shelf);
    return code;
}

int run_sheet_new(const request *asked)
{
    return run_form(new_sheet, asked);
}

int run_sheet_form(const request *asked)
{
    return run_form(new_form, asked);
}

int run_sheet_convert(const request *asked)
{
    return run_form(convert_sheet, asked);
}

int run_sheet_history(const request *asked)
{
    return run_form(show_history, asked);
}
