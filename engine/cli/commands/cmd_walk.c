/* cmd_walk.c - "hammerline walk": guided entry at the bench, one line a note (layer: cli/commands). */
#define _XOPEN_SOURCE 700 /* realpath() */
#include "commands.h"
#include "confine.h"
#include "output.h"
#include "sheet_book.h"
#include "walk.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static bool may_color(const walk *w)
{
    const char *no = getenv("NO_COLOR"), *term = getenv("TERM");
    if (w->asked->color != COLOR_AUTO)
        return w->asked->color == COLOR_ALWAYS;
    return !(no && no[0]) && w->terminal.shown && !(term && strcmp(term, "dumb") == 0);
}

static void obey(walk *w, const entry *typed)
{
    switch (typed->command) {
    case COMMAND_HOW:
        walk_show_how(w);
        return;
    case COMMAND_NEAR:
        walk_show_near(w);
        return;
    case COMMAND_LIST:
        walk_show_list(w);
        return;
    case COMMAND_NEXT:
        walk_take_next(w, 1);
        return;
    case COMMAND_BACK:
        walk_take_next(w, -1);
        return;
    case COMMAND_GO:
        walk_take_go(w, typed);
        return;
    case COMMAND_AGAIN:
        walk_take_again(w, true);
        return;
    case COMMAND_ONWARD:
        walk_take_again(w, false);
        return;
    case COMMAND_QUIT:
        w->over = true;
        return;
    case COMMAND_NONE:
    case COMMAND_HELP:
        walk_show_help(w, typed);
        return;
    default:
        break;
    }
}

/* Commands that write a row; the others are looked at by obey(). */
static bool obey_writing(walk *w, const entry *typed)
{
    switch (typed->command) {
    case COMMAND_SKIP:
        walk_take_skip(w, typed);
        return true;
    case COMMAND_UNDO:
        walk_take_undo(w);
        return true;
    case COMMAND_WITHDRAW:
        walk_take_withdraw(w, typed);
        return true;
    case COMMAND_REMARK:
        walk_take_remark(w, typed);
        return true;
    case COMMAND_QUERY:
        walk_take_query(w, typed, false);
        return true;
    case COMMAND_CLOSED:
        walk_take_query(w, typed, true);
        return true;
    case COMMAND_DONE:
        walk_take_done(w, typed);
        return true;
    case COMMAND_BETWEEN:
        walk_take_between(w, typed);
        return true;
    case COMMAND_WITH:
        walk_take_with(w, typed);
        return true;
    case COMMAND_PASS:
        walk_take_pass(w, typed);
        return true;
    default:
        return false;
    }
}

static void take_line(walk *w)
{
    entry typed;
    const hl_step *step = w->here.step >= 0   ? hl_book_step(w->book, w->here.step)
                          : w->last.step >= 0 ? hl_book_step(w->book, w->last.step)
                                              : NULL;
    entry_read(&typed, w->terminal.line, hl_sheet_compass(w->sheet), step);
    switch (typed.kind) {
    case ENTRY_EMPTY:
        break;
    case ENTRY_BAD:
        walk_say(w, 0, 2, "%s; %s.", typed.what, typed.todo);
        break;
    case ENTRY_READING:
        walk_take_reading(w, &typed);
        break;
    case ENTRY_NOTE:
        walk_take_note(w, &typed);
        break;
    case ENTRY_COMMAND:
        if (!obey_writing(w, &typed))
            obey(w, &typed);
        break;
    }
}

/* What others wrote is seen before the next line is asked for. */
static void look_round(walk *w)
{
    if (!hl_journal_grew(w->journal))
        return;
    walk_say(w, 0, 2, "Somebody else wrote to this sheet. It was read again.");
    walk_reload(w);
}

static void say_all_read(walk *w)
{
    const place none = {-1, 0};
    if (w->here.step >= 0 || w->said_all)
        return;
    w->said_all = true;
    w->spoken = none;
    walk_say(w, 0, 2, "Nothing is left to read.");
    walk_say_end(w);
    if (w->n_stops > 0)
        walk_say(w, 0, 2, "\"again\" goes through what is out, tool by tool. \"quit\" stops.");
}

static void hear(walk *w)
{
    const heard got = terminal_read(&w->terminal);
    if (w->terminal.typed && (got == HEARD_END || got == HEARD_SIGNAL || w->terminal.tabbed))
        say("\n");
    switch (got) {
    case HEARD_LINE:
        take_line(w);
        break;
    case HEARD_LONG:
        walk_say(w, 0, 2, "That line is longer than %d bytes. Nothing was recorded.", LINE_MOST);
        break;
    case HEARD_CUT:
        walk_say(w, 0, 2,
                 "The input ended inside a line, which may be half a number. It was not recorded: %s",
                 w->terminal.line);
        w->over = true;
        break;
    case HEARD_END:
        w->over = true;
        break;
    case HEARD_SIGNAL:
        w->over = true;
        w->code = 128 + terminal_signal();
        break;
    }
}

static void go_on(walk *w)
{
    const place none = {-1, 0};
    w->here = w->spoken = w->last = w->focus = none;
    w->group = (stop){.at = none};
    w->linger = -1;
    if (w->asked->given[OPTION_AGAIN])
        walk_take_again(w, true);
    while (!w->over) {
        w->print.width = terminal_width(&w->terminal);
        look_round(w);
        if (w->over)
            break;
        if (w->again && w->n_stops == 0)
            w->again = false;
        walk_settle(w);
        w->said_all = w->said_all && w->here.step < 0;
        say_all_read(w);
        walk_announce(w);
        walk_prompt(w);
        if (!flush_output()) { /* nobody is there to read the answers */
            w->code = is_reader_gone() ? 128 + SIGPIPE : EXIT_NOT_SAVED;
            break;
        }
        hear(w);
    }
}

static int judge_end(walk *w)
{
    if (w->code == EXIT_NOT_SAVED || w->code == EXIT_BAD_SHEET || w->code == EXIT_BAD_RULE)
        return w->code;
    walk_say(w, 0, 2, "%d %s saved in %s.", w->n_saved, w->n_saved == 1 ? "row" : "rows", w->path);
    if (!w->said_all)
        walk_say_end(w);
    if (w->code != EXIT_READY)
        return w->code;
    return hl_audit_ready(w->audit) ? EXIT_READY : EXIT_NOT_READY;
}

static int run_on_sheet(walk *w)
{
    int code = EXIT_READY;
    if (w->asked->create)
        code = walk_make_sheet(w, w->asked->create);
    if (code == EXIT_READY && w->asked->create && w->asked->book == w->asked->create)
        walk_say(w, 0, 2, "Next time: hammerline walk %s --book %s", w->path, w->asked->book);
    hl_err err;
    if (code == EXIT_READY && !is_one_piano(w->path, &err))
        return report(&err);
    if (code == EXIT_READY && !terminal_signal())
        code = walk_open(w);
    if (code != EXIT_READY || !w->audit)
        return code;
    const char *piano = hl_sheet_fact(w->sheet, "piano");
    walk_say(w, 0, 2, "%s%s%s. ? lists what can be typed.", w->path, piano[0] ? ": " : "", piano);
    go_on(w);
    return judge_end(w);
}

/* A new sheet names its book by the id; whoever gave its path may go on by that. */
static bool is_path(const char *book)
{
    const size_t n = strlen(book);
    return strchr(book, '/') != NULL || (n > 4 && strcmp(book + n - 4, ".lua") == 0);
}

/* A pipe would make it wait for ever, and keeps nothing. */
static bool can_keep(const char *path)
{
    struct stat about;
    if (stat(path, &about) != 0 || S_ISREG(about.st_mode) || S_ISDIR(about.st_mode))
        return true;
    complain("%s is a pipe or a device, so nothing can be kept in it; name a sheet", path);
    return false;
}

/* The same walls as around the commands that write a file: the sheet's folder stays open for the sheet, its
 * lock and what a crash left. */
static void put_up_walls(const request *asked, const char *path, const bookshelf *shelf)
{
    request walled = *asked;
    char *real = realpath(path, NULL);
    walled.output = real ? real : path; /* a new sheet is not there yet */
    confine(&walled, shelf);
    free(real);
}

int run_walk(const request *asked)
{
    request own = *asked;
    walk w = {.asked = &own};
    if (own.create && !own.book && is_path(own.create))
        own.book = own.create;
    w.path = asked->words[0];
    if (!can_keep(w.path))
        return EXIT_BAD_SHEET;
    signal(SIGPIPE, SIG_IGN);
    int code = open_bookshelf(&w.shelf, asked);
    if (code == EXIT_READY)
        put_up_walls(&own, w.path, &w.shelf);
    terminal_open(&w.terminal);
    w.print = (hl_print){.width = terminal_width(&w.terminal), .color = may_color(&w)};
    if (code == EXIT_READY)
        code = run_on_sheet(&w);
    flush_output();
    terminal_close(&w.terminal);
    walk_close(&w);
    return code;
}
