/* walk_stops.c - the second pass: what is out, stale or missing, tool by tool (layer: cli/walk).
 *
 * Faults that a tool cures come first, those of one visit together; then what is only to be looked
 * at or read again, in the book's order. */
#include "walk.h"

#include <stdlib.h>
#include <string.h>

bool walk_same_place(place a, place b)
{
    return a.step == b.step && a.note == b.note;
}

/* The first adjuster of the book that is used at the same visit names the visit. */
static int find_visit(const walk *w, int adjuster)
{
    const char *visit = hl_book_adjuster(w->book, adjuster)->visit;
    for (int i = 0; i < adjuster; i++)
        if (strcmp(hl_book_adjuster(w->book, i)->visit, visit) == 0)
            return i;
    return adjuster;
}

static bool wants_stop(const hl_finding *finding)
{
    return finding->step >= 0 && (finding->verdict == HL_FAIL || finding->verdict == HL_DOUBTFUL ||
                                  finding->verdict == HL_STALE || finding->verdict == HL_MISSING);
}

static int compare_ints(int a, int b)
{
    return (a > b) - (a < b);
}

static int compare_stops(const void *left, const void *right)
{
    const stop *a = left, *b = right;
    int order = compare_ints(a->rank, b->rank);
    if (order == 0)
        order = compare_ints(a->adjuster, b->adjuster);
    if (order == 0)
        order = compare_ints(a->at.step, b->at.step);
    return order != 0 ? order : compare_ints(a->at.note, b->at.note);
}

static stop make_stop(const walk *w, const hl_finding *finding)
{
    stop made = {{finding->step, finding->note}, -1, hl_book_n_adjusters(w->book)};
    if (finding->verdict == HL_FAIL && finding->n_corrections > 0) {
        made.adjuster = finding->corrections[0].adjuster;
        made.rank = find_visit(w, made.adjuster);
    }
    return made;
}

bool walk_make_stops(walk *w)
{
    size_t n = 0;
    const hl_finding *findings = hl_audit_findings(w->audit, &n);
    stop *stops = realloc(w->stops, (n + 1) * sizeof *stops);
    if (!stops)
        return false;
    w->stops = stops;
    w->n_stops = 0;
    for (size_t i = 0; i < n; i++)
        if (wants_stop(&findings[i]))
            w->stops[w->n_stops++] = make_stop(w, &findings[i]);
    qsort(w->stops, w->n_stops, sizeof *w->stops, compare_stops);
    return true;
}

/* `after` need not be a stop any more: where it was is remembered in w->group. */
place walk_next_stop(const walk *w, place after)
{
    stop from = w->group;
    from.at = after;
    for (size_t i = 0; after.step >= 0 && i < w->n_stops; i++)
        if (walk_same_place(w->stops[i].at, after))
            from = w->stops[i];
    for (size_t i = 0; after.step >= 0 && i < w->n_stops; i++)
        if (compare_stops(&w->stops[i], &from) > 0)
            return w->stops[i].at;
    return w->n_stops > 0 ? w->stops[0].at : (place){-1, 0};
}
