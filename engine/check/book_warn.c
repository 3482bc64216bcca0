/* book_warn.c - what may be a slip in a book, and may be meant (layer: check).
 *
 * A move that a later entry turned round, or made three times as large or as small: the sign and the
 * unit are what is written wrong most easily, and every correction would go the wrong way by it.  And a
 * field that one file changes twice. */
#include "book_check.h"

#include "errors.h"
#include "nearest_name.h"
#include "number.h"
#include "quantity.h"
#include "text.h"

#include <math.h>
#include <string.h>

#define FAR 3.0 /* as learning takes it: more is a slip (HL_LEARNED_FAR) */

/* 0: not known, or not the same for naturals and sharps. */
static int find_way(const hl_book *book, const hl_move *move)
{
    if (move->kind != HL_MOVE_BY)
        return move->sign;
    const double naturals = hl__move_effect(book, move, 0), sharps = hl__move_effect(book, move, 1);
    return naturals > 0 && sharps > 0 ? 1 : naturals < 0 && sharps < 0 ? -1 : 0;
}

/* Then the same figure means the other way. */
static bool has_other_ways(const hl_adjuster *adjuster)
{
    for (int i = 0; i < adjuster->n_changes; i++)
        if (strcmp(adjuster->changes[i].field, "more") == 0 ||
            strcmp(adjuster->changes[i].field, "less") == 0)
            return true;
    return false;
}

/* "-10 mm a turn", "up" */
static void put_move(hl_text *out, const hl_book *book, const hl_adjuster *adjuster, const hl_move *move)
{
    hl_amount effect = 0;
    const hl_unit unit = book->steps[move->step].unit;
    if (!hl__amount_from(hl__move_effect(book, move, 0), &effect)) {
        hl__text_add(out, move->sign > 0 ? "up" : "down");
        return;
    }
    hl__text_exact(out, hl__round_to(effect, HL_ONE / 1000));
    hl__text_printf(out, " %s a %s", hl_unit_name(unit == HL_IN ? HL_MM : unit),
                    hl_unit_name(adjuster->unit));
}

static const hl_move *find_move(const hl_adjuster *adjuster, int step)
{
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == step)
            return &adjuster->moves[i];
    return NULL;
}

static void warn(hl_checking *c, const hl_overlaid *over, const hl_move *now, const char *how,
                 const char *check)
{
    const hl_adjuster *adjuster = &c->book->adjusters[over->adjuster];
    hl_text is = {0}, was = {0};
    put_move(&is, c->book, adjuster, now);
    put_move(&was, c->book, adjuster, &over->was);
    c->no_memory |= is.failed || was.failed;
    hl_err *err = hl__complain(c);
    hl__fail(err, HL_E_RULE, "%s moves %s %s%s, %s %s:%d, where it is %s", adjuster->id,
             c->book->steps[now->step].id, now->kind == HL_MOVE_BY ? "by " : "",
             is.data != NULL ? is.data : "", how, over->was.origin.file, over->was.origin.line,
             was.data != NULL ? was.data : "");
    hl__todo(err, "check the %s: the figure is for one unit of \"%s\"", check, adjuster->more);
    hl__at(err, now->origin.file, now->origin.line, 0);
    hl__text_free(&is);
    hl__text_free(&was);
}

static void look_at(hl_checking *c, const hl_overlaid *over)
{
    const hl_book *book = c->book;
    const hl_adjuster *adjuster = &book->adjusters[over->adjuster];
    const hl_move *now = find_move(adjuster, over->was.step);
    if (now == NULL)
        return;
    if (find_way(book, now) * find_way(book, &over->was) < 0 && !has_other_ways(adjuster)) {
        warn(c, over, now, "the other way than in", "sign");
        return;
    }
    const double share = fabs(hl__move_effect(book, now, 0) / hl__move_effect(book, &over->was, 0));
    if (share > FAR)
        warn(c, over, now, "more than three times as far as in", "unit");
    else if (share * FAR < 1)
        warn(c, over, now, "less than a third as far as in", "unit");
}

/* Two books may differ in turn; one file that says two things about one field has forgotten the first. */
static void look_for_twice(hl_checking *c, const hl_step *step)
{
    for (int i = 1; i < step->n_changes; i++) {
        const hl_change *later = &step->changes[i], *first = NULL;
        for (int k = 0; k < i && first == NULL; k++)
            if (strcmp(step->changes[k].field, later->field) == 0 && !later->chosen &&
                strcmp(step->changes[k].origin.file, later->origin.file) == 0)
                first = &step->changes[k];
        if (first == NULL)
            continue;
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "%s of %s is changed twice in this file, first in line %d", later->field,
                 step->id, first->origin.line);
        hl__todo(err, "this one counts; take one of the two out");
        hl__at(err, later->origin.file, later->origin.line, 0);
    }
}

static void warn_of_twice(hl_checking *c, const hl_twice *twice)
{
    hl_err *err = hl__complain(c);
    hl__fail(err, HL_E_RULE, "%s %s is given twice in this file, first in line %d", twice->word, twice->id,
             twice->first.line);
    hl__todo(err, "the later one is laid over the first; write both as one");
    hl__at(err, twice->again.file, twice->again.line, 0);
}

/* Work is listed by visit: a misspelt one would come alone at the end of the list. */
static void look_at_visit(hl_checking *c, int adjuster)
{
    const hl_book *book = c->book;
    const char *visit = book->adjusters[adjuster].visit;
    hl_suggest suggest = {visit, NULL, 0};
    if (visit[0] == '\0')
        return;
    for (int i = 0; i < HL_VISITS; i++) {
        if (strcmp(visit, hl__visits[i]) == 0)
            return;
        hl__suggest_offer(&suggest, hl__visits[i]);
    }
    for (int a = 0; a < book->n_adjusters; a++) {
        if (a != adjuster && strcmp(book->adjusters[a].visit, visit) == 0)
            return; /* a visit of the book's own */
        hl__suggest_offer(&suggest, a != adjuster ? book->adjusters[a].visit : "");
    }
    hl_err *err = hl__complain(c);
    hl__fail(err, HL_E_RULE, "adjuster %s is used at the visit \"%s\", and no other is",
             book->adjusters[adjuster].id, visit);
    if (suggest.best != NULL)
        hl__todo(err, "did you mean \"%s\"?", suggest.best);
    else
        hl__todo(
            err,
            "the visits are \"%s\", \"%s\", \"%s\", \"%s\" and \"%s\"; one of your own is listed after them",
            hl__visits[0], hl__visits[1], hl__visits[2], hl__visits[3], hl__visits[4]);
    hl_origin at = book->adjusters[adjuster].origin;
    for (int i = 0; i < book->adjusters[adjuster].n_changes; i++)
        if (strcmp(book->adjusters[adjuster].changes[i].field, "visit") == 0)
            at = book->adjusters[adjuster].changes[i].origin;
    hl__at(err, at.file, at.line, 0);
}

hl_code hl_book_warn(hl_complaints *warnings, const hl_book *book, hl_err *err)
{
    hl_checking c = {.book = book, .complaints = warnings};
    for (int i = 0; i < book->n_overlaid; i++)
        look_at(&c, &book->overlaid[i]);
    for (int i = 0; i < book->n_steps; i++)
        look_for_twice(&c, &book->steps[i]);
    for (int i = 0; i < book->n_twice; i++)
        warn_of_twice(&c, &book->twice[i]);
    for (int i = 0; i < book->n_adjusters; i++)
        look_at_visit(&c, i);
    return c.no_memory ? hl__no_memory(err) : HL_OK;
}

hl_code hl_book_notices(hl_complaints *notices, const hl_book *book, hl_err *err)
{
    hl_checking c = {.book = book, .complaints = notices};
    for (int i = 0; i < book->n_old_names; i++) {
        const hl_old_name *name = &book->old_names[i];
        hl_err *notice = hl__complain(&c);
        hl__fail(notice, HL_E_RULE, "%s is called %s now%s", name->was, name->is,
                 name->more ? ", and other names in this file have changed too" : "");
        hl__todo(notice, "it is read as before; write the new name when you next change the file");
        hl__at(notice, name->at.file, name->at.line, 0);
    }
    return c.no_memory ? hl__no_memory(err) : HL_OK;
}
