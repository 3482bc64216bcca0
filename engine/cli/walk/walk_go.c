/* walk_go.c - going about in the book, freely, and saying what that leaves open (layer: cli/walk). */
#include "letters.h"
#include "walk.h"

#include <stdio.h>
#include <string.h>

void walk_fold(char *out, size_t room, const char *text)
{
    size_t n = 0;
    for (; *text && n + 1 < room; text++) {
        char c = lower(*text);
        if (c == ' ' || c == '-')
            c = '_';
        if (c != '_' || (n > 0 && out[n - 1] != '_'))
            out[n++] = c;
    }
    while (n > 0 && out[n - 1] == '_')
        n--;
    out[n] = '\0';
}

/* ---- which step -------------------------------------------------------------------------------- */

/* How well a step answers to a name: 4 its id or title, 3 begins so, 2 a word of it begins so, 0 not. */
static int match_step(const hl_step *step, const char *name)
{
    const size_t size = strlen(name);
    int best = 0;
    for (int i = 0; i < 2; i++) {
        char own[100];
        walk_fold(own, sizeof own, i == 0 ? step->id : step->title);
        int level = strcmp(own, name) == 0 ? 4 : strncmp(own, name, size) == 0 ? 3 : 0;
        for (const char *at = strchr(own, '_'); level == 0 && at; at = strchr(at + 1, '_'))
            level = strncmp(at + 1, name, size) == 0 ? 2 : 0;
        best = level > best ? level : best;
    }
    return best;
}

static int find_step(const walk *w, const char *text)
{
    char name[100], several[300] = "";
    int best = 0, found = -1, n = 0;
    size_t used = 0;
    walk_fold(name, sizeof name, text);
    for (int i = 0; name[0] && i < hl_book_n_steps(w->book); i++) {
        const hl_step *step = hl_book_step(w->book, i);
        const int level = match_step(step, name);
        if (level == 0 || level < best)
            continue;
        if (level > best)
            n = 0, used = 0;
        best = level;
        found = i;
        n++;
        if (used < sizeof several)
            used +=
                (size_t)snprintf(several + used, sizeof several - used, "%s%s", n > 1 ? ", " : "", step->id);
    }
    if (n == 1)
        return found;
    if (n > 1)
        walk_say(w, 0, 2, "\"%s\" could be: %s.", text, several);
    else
        walk_say(w, 0, 2, "The book has no step \"%s\". \"list\" shows what is open.", text);
    return -1;
}

/* ---- going there ------------------------------------------------------------------------------- */

static void say_passed(const walk *w, place from, place to)
{
    const int n = walk_count_open(w, from, to);
    if (n > 0)
        walk_say(w, 0, 2, "That leaves %d %s open before it; they come up again later.", n,
                 n == 1 ? "reading" : "readings");
}

static void stand_at(walk *w, place to)
{
    const place none = {-1, 0};
    if (w->here.step >= 0 && !w->again)
        say_passed(w, w->here, to);
    w->here = w->focus = to;
    w->stay = w->moved = true;
    w->linger = -1;
    w->spoken = walk_same_place(w->spoken, to) ? none : w->spoken;
}

static bool can_be_read(walk *w, int index)
{
    const hl_step *step = hl_book_step(w->book, index);
    if (step->kind == HL_DERIVED)
        walk_say(w, 0, 2, "%s is computed from other readings and never read itself.", step->title);
    else if (step->skipped)
        walk_say(w, 0, 2, "%s is left out by the book: %s.", step->title, step->skipped);
    else
        return true;
    return false;
}

static bool go_to_step(walk *w, int step, int note)
{
    if (!can_be_read(w, step))
        return false;
    if (note == 0) {
        place to = walk_begin_step(w, step);
        if (to.step < 0) { /* optional, and not read anywhere: it is asked for now */
            w->opened[step] = 1;
            if (!walk_make_order(w)) {
                walk_no_memory(w);
                return false;
            }
            to = walk_begin_step(w, step);
        }
        if (to.step >= 0) {
            stand_at(w, to);
            return true;
        }
    } else if (hl_sheet_applies(w->sheet, step, note)) {
        stand_at(w, (place){step, note});
        return true;
    }
    walk_say(w, 0, 2, "%s is not read %s%s.", hl_book_step(w->book, step)->title,
             note > 0 ? "at " : "on this piano", walk_note_name(w, note));
    return false;
}

static int take_last_note(const walk *w, char *text)
{
    char *word = strrchr(text, ' ');
    char *name = word ? word + 1 : text;
    if (*name >= '0' && *name <= '9')
        return 0;
    const int note = hl_note_parse(hl_sheet_compass(w->sheet), name);
    if (note > 0)
        *(word ? word : text) = '\0';
    return note;
}

void walk_take_note(walk *w, const entry *typed)
{
    const int step = w->here.step >= 0 ? w->here.step : w->last.step;
    if (step < 0) {
        walk_say(w, 0, 2, "Go to a step too, as in: go blow %s.", walk_note_name(w, typed->from));
        return;
    }
    if (hl_book_step(w->book, step)->scope == HL_ONCE)
        walk_say(w, 0, 2, "%s is read once for the piano. Name a step with the note, as in: go blow %s.",
                 hl_book_step(w->book, step)->title, walk_note_name(w, typed->from));
    else
        go_to_step(w, step, typed->from);
}

void walk_take_go(walk *w, const entry *typed)
{
    char text[ENTRY_MOST + 1];
    entry alone = *typed;
    snprintf(text, sizeof text, "%s", typed->text);
    alone.from = typed->select == SELECT_SPAN ? typed->from : take_last_note(w, text);
    if (!text[0] && alone.from > 0) {
        walk_take_note(w, &alone);
        return;
    }
    if (!text[0]) {
        walk_say(w, 0, 2, "Go where? As in: go blow, go let-off F3, or just F3.");
        return;
    }
    const int step = find_step(w, text);
    if (step >= 0)
        go_to_step(w, step, hl_book_step(w->book, step)->scope == HL_ONCE ? 0 : alone.from);
}

void walk_take_next(walk *w, int way)
{
    if (way < 0) {
        const place to = w->here.step < 0 && w->last.step >= 0 ? w->last : walk_neighbour(w, w->here, -1);
        if (to.step < 0 || walk_same_place(to, w->here)) {
            walk_say(w, 0, 2, "This is the first note.");
            return;
        }
        w->here = w->focus = to;
        w->stay = w->moved = true;
        w->linger = -1;
        return;
    }
    const place from = w->here;
    w->stay = false;
    w->moved = true;
    w->linger = -1;
    w->here = w->again ? walk_next_stop(w, from) : walk_next_open(w, from);
    if (from.step >= 0 && walk_same_place(from, w->here) && w->here.step >= 0)
        walk_say(w, 0, 2, "This is all that is open.");
}

void walk_take_again(walk *w, bool on)
{
    const place none = {-1, 0};
    w->again = on;
    w->stay = false;
    w->moved = true;
    w->linger = -1;
    w->here = w->spoken = none;
    w->group = (stop){.at = none};
    if (on && w->n_stops > 0)
        walk_say(w, 0, 2,
                 "Second pass: %zu to do, tool by tool. \"done\" writes down the work, \"next\" leaves it.",
                 w->n_stops);
    else if (on)
        walk_say(w, 0, 2, "Nothing is out, stale or missing.");
    w->again = on && w->n_stops > 0;
}
