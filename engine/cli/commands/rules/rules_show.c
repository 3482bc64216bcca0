/* rules_show.c - "hammerline rules show" and "diff": books in words (layer: cli/commands). */
#include "output.h"
#include "rules.h"

#include <stdlib.h>
#include <string.h>

static const hl_print page = {.width = 80};

/* What a printer of the engine made. */
typedef struct result {
    char *text;
    size_t size;
    hl_err err;
} result;

static int print_result(hl_code code, result *made)
{
    if (code != HL_OK)
        return report(&made->err);
    say_text(made->text, made->size);
    hl_free(made->text);
    return EXIT_READY;
}

static int refuse_name(const hl_book *book, const char *name)
{
    const int n_steps = hl_book_n_steps(book), n_adjusters = hl_book_n_adjusters(book);
    const char **names = calloc((size_t)n_steps + (size_t)n_adjusters + 1, sizeof *names);
    const char *nearest = NULL;
    int n = 0;
    for (int i = 0; names && i < n_steps; i++)
        names[n++] = hl_book_step(book, i)->id;
    for (int i = 0; names && i < n_adjusters; i++)
        names[n++] = hl_book_adjuster(book, i)->id;
    if (names)
        nearest = hl_nearest_name(name, names, n);
    if (nearest)
        complain("the book %s has no step or adjuster \"%s\"; did you mean %s?", hl_book_id(book), name,
                 nearest);
    else
        complain("the book %s has no step or adjuster \"%s\"; \"hammerline rules show %s\" lists them",
                 hl_book_id(book), name, hl_book_id(book));
    free(names);
    return EXIT_WRONG_USE;
}

static int show_named(const hl_book *book, const char *name, int note)
{
    result made;
    const int step = hl_book_find_step(book, name);
    if (step >= 0)
        return print_result(hl_step_text(&made.text, &made.size, book, step, note, &page, &made.err), &made);
    const int adjuster = hl_book_find_adjuster(book, name);
    if (adjuster >= 0)
        return print_result(hl_adjuster_text(&made.text, &made.size, book, adjuster, note, &page, &made.err),
                            &made);
    return refuse_name(book, name);
}

static int show_book(const request *asked, const hl_book *book)
{
    result made;
    const hl_compass compass = hl_book_compass(book);
    int note = 0;
    if (asked->note)
        note = hl_note_parse(compass, asked->note);
    if (asked->note && note == 0) {
        complain("--note %s is no note of this book; write %s to %s, or 1 to %d", asked->note,
                 hl_pitch_name(compass.lowest), hl_pitch_name(hl_note_pitch(compass, compass.keys)),
                 compass.keys);
        return EXIT_WRONG_USE;
    }
    if (asked->n_words == 2)
        return show_named(book, asked->words[1], note);
    return print_result(hl_book_text(&made.text, &made.size, book, &page, &made.err), &made);
}

int rules_show(const request *asked, const bookshelf *shelf)
{
    hl_book *book = NULL;
    hl_err err;
    if (asked->note && asked->n_words == 1) {
        complain("--note goes with a step: hammerline rules show %s let_off --note %s", asked->words[0],
                 asked->note);
        return EXIT_WRONG_USE;
    }
    if (hl_book_open(&book, asked->words[0], &shelf->shelf, &err) != HL_OK)
        return report(&err);
    const int code = show_book(asked, book);
    hl_book_free(book);
    return code;
}

int rules_diff(const request *asked, const bookshelf *shelf)
{
    hl_book *a = NULL, *b = NULL;
    result made;
    int code = EXIT_READY;
    if (hl_book_open(&a, asked->words[0], &shelf->shelf, &made.err) != HL_OK ||
        hl_book_open(&b, asked->words[1], &shelf->shelf, &made.err) != HL_OK)
        code = report(&made.err);
    else
        code = print_result(hl_book_diff(&made.text, &made.size, a, b, &page, &made.err), &made);
    hl_book_free(a);
    hl_book_free(b);
    return code;
}
