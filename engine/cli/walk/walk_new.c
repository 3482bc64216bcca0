/* walk_new.c - "hammerline walk --new BOOK SHEET": a new tidy sheet, and what it must know (cli).
 *
 * Sections and dampers shape the work, and can't be stated once there are rows, so a person is asked;
 * an empty answer leaves a line out.  What is answered is tried by the sheet's own reader first. */
#include "walk.h"

#include "output.h"
#include "walk_clean.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define FACTS_ROOM 2048

typedef struct question {
    const char *id, *ask;
} question;

/* The fact lines as cells in quotes, as the journal writes those that need them. */
static void quote_lines(char *out, size_t room, const char *facts)
{
    size_t n = 0;
    bool fresh = true;
    for (; *facts && n + 4 < room; facts++) {
        if (fresh)
            out[n++] = '"';
        fresh = *facts == '\n';
        if (fresh || *facts == '"')
            out[n++] = '"';
        out[n++] = *facts;
    }
    out[n] = '\0';
}

/* Would a sheet with these facts be read? */
static bool try_facts(const walk *w, const char *facts, hl_err *err)
{
    char quoted[FACTS_ROOM + 512], text[FACTS_ROOM + 1024];
    hl_sheet *sheet = NULL;
    quote_lines(quoted, sizeof quoted, facts);
    const int size =
        snprintf(text, sizeof text, "# hammerline: tidy 1\n# book: %.200s\n%snote,step,reading\n",
                 hl_book_id(w->book), quoted);
    const bool good = hl_sheet_open_text(&sheet, "", text, (size_t)size, err) == HL_OK &&
                      hl_sheet_read(sheet, w->book, err) == HL_OK;
    hl_sheet_free(sheet);
    return good;
}

static bool add_fact(char *facts, const char *id, const char *value)
{
    const size_t size = strlen(facts);
    const int n = snprintf(facts + size, FACTS_ROOM - size, "# %s: %s\n", id, value);
    if (n >= 0 && (size_t)n < FACTS_ROOM - size)
        return true;
    facts[size] = '\0';
    return false;
}

/* False: the person went away. */
static bool ask_fact(walk *w, char *facts, const question *of)
{
    for (;;) {
        char value[ENTRY_MOST + 1];
        hl_err err = {0};
        walk_say(w, 0, 2, "%s", of->ask);
        say("%s: ", of->id);
        fflush(stdout);
        const heard got = terminal_read(&w->terminal);
        if (got == HEARD_END || got == HEARD_SIGNAL || got == HEARD_CUT)
            return false;
        if (w->terminal.tabbed)
            say("\n");
        const char *bad =
            got == HEARD_LONG ? "that line is too long" : clean_line(value, sizeof value, w->terminal.line);
        if (bad) {
            walk_say(w, 0, 2, "%s; type it again.", bad);
            continue;
        }
        const size_t size = strlen(facts);
        if (!value[0] || (add_fact(facts, of->id, value) && try_facts(w, facts, &err)))
            return true;
        facts[size] = '\0';
        walk_say(w, 0, 2, "%s; %s.", err.what, err.todo);
    }
}

static bool ask_facts(walk *w, char *facts)
{
    static const question QUESTIONS[] = {
        {"piano", "Which piano is it? (Enter leaves out any of these.)"},
        {"breaks", "The last note of each section of strings but the top one, as in: E2 C5"},
        {"dampers",
         "Which notes have dampers, as in: A0-E6? Left out, damper readings are wanted of every note."},
    };
    for (size_t i = 0; i < sizeof QUESTIONS / sizeof *QUESTIONS; i++)
        if (!ask_fact(w, facts, &QUESTIONS[i]))
            return false;
    return true;
}

int walk_make_sheet(walk *w, const char *book)
{
    char facts[FACTS_ROOM] = "", now[32];
    hl_err err = {0};
    if (access(w->path, F_OK) == 0) {
        complain("%s exists already; go on in it with: hammerline walk %s", w->path, w->path);
        return EXIT_NOT_SAVED;
    }
    if (hl_book_open(&w->book, book, &w->shelf.shelf, &err) != HL_OK)
        return report(&err);
    walk_time(now);
    now[10] = '\0'; /* the day */
    add_fact(facts, "date", now);
    if (w->terminal.typed && !ask_facts(w, facts)) {
        complain("no sheet was made");
        return terminal_signal() ? 128 + terminal_signal() : EXIT_READY;
    }
    const hl_code code = hl_journal_create(w->path, hl_book_id(w->book), facts, &err);
    hl_book_free(w->book);
    w->book = NULL;
    if (code != HL_OK) {
        if (!err.file[0])
            snprintf(err.file, sizeof err.file, "%.255s", w->path);
        return report(&err);
    }
    walk_say(w, 0, 2, "Made %s, a new sheet for the book %s.", w->path, book);
    return EXIT_READY;
}
