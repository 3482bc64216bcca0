/* walk_expect.c - work is on record, and the reading after it is the one from before (layer: cli/walk).
 *
 * What was expected and which work it was are the sheet's own, so this holds for work of yesterday,
 * too.  Nothing is asked when the gauges can't tell the expected reading from the one before. */
#include "walk.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define FIGURE_SHARE 0.15 /* so far an assumed figure may be off (judge/learn.h) */

static double size_of(double value)
{
    return value < 0 ? -value : value;
}

/* ---- before the reading ------------------------------------------------------------------------ */

/* Steps with a model are moved through what it reads, and so by adjusters that don't list them. */
static bool is_meant_for(const hl_step *step, const hl_adjuster *adjuster, int index, int step_index)
{
    for (int i = 0; i < step->n_fixes; i++)
        if (step->fixes[i] == index)
            return true;
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == step_index && adjuster->moves[i].kind == HL_MOVE_BY)
            return true;
    return false;
}

/* The latest work since the reading; what is meant for the step goes before what is not.  -1: none. */
static int find_work(const walk *w, place at)
{
    const hl_step *step = hl_book_step(w->book, at.step);
    const int since = hl_sheet_line(w->sheet, step->id, at.note);
    int found = -1, latest = 0;
    bool meant = false;
    for (int i = 0; i < hl_book_n_adjusters(w->book); i++) {
        const hl_adjuster *adjuster = hl_book_adjuster(w->book, i);
        const int line = hl_sheet_line(w->sheet, adjuster->id, adjuster->whole ? 0 : at.note);
        const bool is_meant = is_meant_for(step, adjuster, i, at.step);
        if (line <= since || (meant && !is_meant) || (meant == is_meant && line < latest))
            continue;
        found = i;
        latest = line;
        meant = is_meant;
    }
    return found;
}

expectation walk_expect(const walk *w, place at)
{
    expectation e = {.adjuster = -1};
    const hl_finding *finding = walk_cell(w, at);
    if (!finding || finding->computed)
        return e;
    if (!finding->has_value) {
        e.adjuster = finding->go ? find_work(w, at) : -1;
        return e;
    }
    const hl_amount shift = finding->verdict == HL_STALE ? finding->shift : finding->moved;
    e.adjuster = shift != 0 ? find_work(w, at) : -1;
    e.known = e.adjuster >= 0;
    e.before = finding->value;
    e.after = finding->value + shift;
    return e;
}

/* ---- after it ---------------------------------------------------------------------------------- */

/* What two readings may differ by for their gauges alone: slips are independent, so as the root of
 * their squares. */
static double find_doubt(const walk *w, int step)
{
    size_t n = 0;
    const hl_gauge *gauges = hl_audit_gauges(w->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (gauges[i].step == step && gauges[i].from != HL_GAUGE_NONE)
            return sqrt(2) * (double)gauges[i].uncertainty;
    return sqrt(2) * (double)hl_book_step(w->book, step)->resolution;
}

/* 1 more, -1 less, 0 not known: what this session wrote for the adjuster. */
static int find_way(const walk *w, place at, const hl_adjuster *adjuster)
{
    const int note = adjuster->whole ? 0 : at.note;
    const int line = hl_sheet_line(w->sheet, adjuster->id, note);
    for (size_t i = w->n_kept; i-- > 0;) {
        const kept_row *kept = &w->kept[i];
        if (!kept->adjustment || kept->line != line || strcmp(kept->id, adjuster->id) != 0)
            continue;
        return kept->text[0] == '-' || strncmp(kept->text, adjuster->less, strlen(adjuster->less)) == 0 ? -1
                                                                                                        : 1;
    }
    return 0;
}

/* Verbs that can be said of the thing itself: the shank twists.  "make" and "set" can't. */
static bool says_itself(const char *verb)
{
    static const char *const VERBS[] = {"turn", "bend", "twist", "shift"};
    for (size_t i = 0; i < sizeof VERBS / sizeof *VERBS; i++)
        if (strcmp(verb, VERBS[i]) == 0)
            return true;
    return false;
}

/* "did the capstan turn?", "did the front punching go in?", "did the work on the key front take?" */
static void put_question(const walk *w, place at, int index, char *out, size_t room)
{
    const hl_adjuster *adjuster = hl_book_adjuster(w->book, index);
    const int way = find_way(w, at, adjuster);
    const char *said = way < 0 ? adjuster->less : way > 0 ? adjuster->more : "";
    const bool in = strcmp(said, "add") == 0 || strcmp(said, "put in") == 0 || strcmp(said, "in") == 0;
    const bool back =
        strcmp(said, "remove") == 0 || strcmp(said, "take out") == 0 || strcmp(said, "out") == 0;
    const char *does = says_itself(adjuster->verb)     ? adjuster->verb
                       : adjuster->unit == HL_TURN     ? "turn"
                       : adjuster->n_sizes > 0 && in   ? "go in"
                       : adjuster->n_sizes > 0 && back ? "come out"
                                                       : NULL;
    if (does)
        snprintf(out, room, "did the %.80s %s?", adjuster->title, does);
    else
        snprintf(out, room, "did the work on the %.80s take?", adjuster->title);
}

void walk_amount(const walk *w, int step, hl_amount value, char *out, size_t room)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_code code = hl_amount_text(&text, &size, w->audit, step, value, &err);
    snprintf(out, room, "%s", code == HL_OK ? text : "something else");
    hl_free(text);
}

/* Can the gauges tell the new reading from the expected one, and the expected from the one before?
 * The audit's own answer goes before ours; of what moves all notes it presumes nothing. */
static bool is_missed(const walk *w, place at, const expectation *e, hl_amount now, bool presumed)
{
    const double doubt = find_doubt(w, at.step), change = size_of((double)(e->after - e->before));
    if (change <= doubt)
        return false;
    const bool whole = hl_book_adjuster(w->book, e->adjuster)->whole;
    return presumed || (whole && size_of((double)(now - e->after)) > doubt + FIGURE_SHARE * change);
}

/* Asked again and again, the same question sends nobody on to another cause. */
static void count_unmoved(walk *w, place at, const hl_adjuster *adjuster)
{
    w->n_unmoved = walk_same_place(w->unmoved, at) ? w->n_unmoved + 1 : 1;
    w->unmoved = at;
    if (w->n_unmoved < 2)
        return;
    const bool turns = adjuster->unit == HL_TURN;
    walk_say(w, 2, 2,
             "That is %d times now with nothing changed: stop%s. Look for another cause (%s, the gauge).",
             w->n_unmoved, turns ? " turning" : "",
             turns ? "the wrong screw, a slipping thread" : "the wrong note, a part that slips or binds");
}

bool walk_says_unmoved(walk *w, place at, const expectation *e, bool presumed)
{
    char amount[64], question[160];
    const hl_finding *finding = walk_cell(w, at);
    const bool read = finding && finding->has_value;
    const bool moved = read && size_of((double)(finding->value - e->before)) > find_doubt(w, at.step);
    if (moved && walk_same_place(w->unmoved, at))
        w->n_unmoved = 0;
    if (!e->known || !read || moved)
        return false;
    if (!is_missed(w, at, e, finding->value, presumed))
        return true;
    walk_amount(w, at.step, e->after, amount, sizeof amount);
    put_question(w, at, e->adjuster, question, sizeof question);
    walk_say(w, 2, 2, "Expected %s: %s", amount, question);
    count_unmoved(w, at, hl_book_adjuster(w->book, e->adjuster));
    return true;
}
