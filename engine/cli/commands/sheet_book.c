/* sheet_book.c - opens a sheet as the command line names it, and finds its book (layer: cli/commands). */
#include "sheet_book.h"

#include "output.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define INPUT_NAME "standard input"
#define INPUT_MOST                                                                                           \
    ((size_t)1 << 30) /* the engine's own limit is far below; this one stops what never ends                 \
                       */

/* ---- the sheet ---------------------------------------------------------------------------------- */

static hl_code fail_input(hl_err *err, hl_code code, const char *what, const char *todo)
{
    *err = (hl_err){.code = code};
    snprintf(err->file, sizeof err->file, INPUT_NAME);
    snprintf(err->what, sizeof err->what, "%s", what);
    snprintf(err->todo, sizeof err->todo, "%s", todo);
    return code;
}

/* All of standard input, into malloc'ed *out. */
static hl_code read_input(char **out, size_t *size, hl_err *err)
{
    size_t room = 1 << 16, n = 0;
    char *bytes = malloc(room);
    for (ssize_t got = 1; bytes && got != 0;) {
        if (n == room) {
            char *wider = room < INPUT_MOST ? realloc(bytes, 2 * room) : NULL;
            if (!wider) {
                free(bytes);
                return room < INPUT_MOST
                           ? fail_input(err, HL_E_MEMORY, "the machine has no memory left",
                                        "close other programs and run it again")
                           : fail_input(err, HL_E_SHEET, "it does not end", "check where it comes from");
            }
            bytes = wider;
            room *= 2;
        }
        got = read(STDIN_FILENO, bytes + n, room - n);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0) {
            free(bytes);
            return fail_input(err, HL_E_SHEET, "it can't be read", "name a file, or send one in with <");
        }
        n += (size_t)got;
    }
    *out = bytes;
    *size = n;
    return bytes ? HL_OK
                 : fail_input(err, HL_E_MEMORY, "the machine has no memory left",
                              "close other programs and run it again");
}

hl_code open_named_sheet(hl_sheet **out, const char *name, hl_err *err)
{
    char *bytes = NULL;
    size_t size = 0;
    *out = NULL;
    if (strcmp(name, "-") != 0) {
        if (!is_one_piano(name, err))
            return err->code;
        return hl_sheet_open(out, name, err);
    }
    hl_code code = read_input(&bytes, &size, err);
    if (code == HL_OK)
        code = hl_sheet_open_text(out, INPUT_NAME, bytes, size, err);
    free(bytes);
    return code;
}

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

/* ---- its book ------------------------------------------------------------------------------------ */

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

/* ---- its notes and steps ------------------------------------------------------------------------- */

int find_named_step(const hl_book *book, const char *id)
{
    const int n = hl_book_n_steps(book), step = hl_book_find_step(book, id);
    if (step >= 0)
        return step;
    const char **names = calloc((size_t)n + 1, sizeof *names);
    for (int i = 0; names && i < n; i++)
        names[i] = hl_book_step(book, i)->id;
    const char *nearest = names ? hl_nearest_name(id, names, n) : NULL;
    free(names);
    if (nearest)
        complain("the book %s has no step \"%s\"; did you mean %s?", hl_book_id(book), id, nearest);
    else
        complain("the book %s has no step \"%s\"; \"hammerline rules show %s\" lists them", hl_book_id(book),
                 id, hl_book_id(book));
    return -1;
}

int find_named_note(const hl_sheet *sheet, const char *word)
{
    const hl_compass compass = hl_sheet_compass(sheet);
    if (strcmp(word, "piano") == 0)
        return 0;
    const int found = hl_note_parse(compass, word);
    if (found > 0)
        return found;
    complain("%s is no note of this piano, which goes from %s to %s; for what is read once say piano", word,
             hl_pitch_name(hl_note_pitch(compass, 1)), hl_pitch_name(hl_note_pitch(compass, compass.keys)));
    return -1;
}
