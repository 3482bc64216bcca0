/* diff_adjusters.c - what gives way, the facts, the adjusters and what they may spoil, in two books (layer:
 * render/text). */
#include "diff.h"

#include "quantity.h"
#include "sentence.h"

#include <string.h>

/* ---- the school, facts, adjusters -------------------------------------------------------------- */

static void say_float(hl_text *line, const hl_book *book)
{
    if (book->floats.step < 0) {
        hl__text_add(line, "nothing");
        return;
    }
    const hl_step *step = &book->steps[book->floats.step];
    hl__text_safe(line, step->id);
    hl__text_add(line, " by ");
    hl__say_amount(line, book->floats.within, step->unit, 0);
}

void hl__diff_floats(hl_diff *of)
{
    hl_text before = {0}, after = {0};
    say_float(&before, of->a);
    say_float(&after, of->b);
    if (!before.failed && !after.failed && strcmp(before.data, after.data) != 0) {
        hl_text line = {0};
        hl__text_add(&line, "float: ");
        hl__text_add(&line, before.data);
        hl__text_add(&line, " gives way, becomes ");
        hl__text_add(&line, after.data);
        hl__diff_add(of, &line, of->b->floats.step >= 0 ? of->b->floats.origin : of->a->floats.origin);
    }
    of->leaf.out->failed |= before.failed || after.failed;
    hl__text_free(&before);
    hl__text_free(&after);
}

static bool same_fact(const hl_fact *old, const hl_fact *new)
{
    return old->has_value == new->has_value && old->assumed == new->assumed &&
           (!old->has_value || (old->value[0] == new->value[0] && old->value[1] == new->value[1]));
}

void hl__diff_facts(hl_diff *of)
{
    for (int i = 0; i < of->a->n_facts; i++) {
        const hl_diff_thing it = {"fact", of->a->facts[i].id, NULL, 0, of->a->facts[i].origin};
        if (hl__book_find_fact(of->b, it.id) < 0)
            hl__diff_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_facts; i++) {
        const hl_fact *new = &of->b->facts[i];
        const int at = hl__book_find_fact(of->a, new->id);
        const hl_diff_thing it = {"fact", new->id, NULL, 0, new->origin};
        hl_text line = {0};
        if (at >= 0) {
            const hl_fact *old = &of->a->facts[at];
            hl__diff_text(of, &it, "title", old->title, new->title);
            hl__diff_text(of, &it, "unit", old->unit, new->unit);
            hl__diff_text(of, &it, "source", old->source, new->source);
            hl__diff_text(of, &it, "why", old->why, new->why);
        }
        if (at >= 0 && same_fact(&of->a->facts[at], new))
            continue;
        hl__text_add(&line, at >= 0 ? "fact " : "new fact ");
        if (at >= 0) {
            hl__say_fact(&line, &of->a->facts[at]);
            hl__text_add(&line, of->a->facts[at].assumed ? " (assumed) becomes " : " becomes ");
        }
        hl__say_fact(&line, new);
        hl__text_add(&line, new->assumed ? " (assumed)" : "");
        hl__diff_add(of, &line, new->origin);
    }
}

/* As the rule language writes it. */
static void say_move(hl_text *line, const hl_book *book, const hl_adjuster *adjuster, const char *step)
{
    static const char *const WAYS[] = {"down", "strong", "up"};
    const hl_move *move = NULL;
    for (int i = 0; i < adjuster->n_moves && !move; i++)
        if (strcmp(book->steps[adjuster->moves[i].step].id, step) == 0)
            move = &adjuster->moves[i];
    hl__text_safe(line, !move                          ? "nothing"
                        : move->kind == HL_MOVE_BY     ? move->formula->text
                        : move->kind == HL_MOVE_STRONG ? WAYS[move->sign + 1]
                                                       : "slight");
    hl__text_add(line, move && move->assumed ? " (assumed)" : "");
    hl__text_add(line, move && move->again ? " (read again)" : "");
    if (move && move->kind == HL_MOVE_BY && move->sign != 0)
        hl__text_add(line, move->sign > 0 ? " (up)" : " (down)");
}

static hl_diff_thing about_adjuster(const hl_adjuster *adjuster)
{
    return (hl_diff_thing){"", adjuster->id, adjuster->changes, adjuster->n_changes, adjuster->origin};
}

/* What it does to a step, in both books; where b says so. */
static void compare_move(hl_diff *of, const hl_adjuster *old, const hl_adjuster *new, const char *step)
{
    const hl_diff_thing it = about_adjuster(new);
    hl_text before = {0}, after = {0}, field = {0}, line = {0};
    say_move(&before, of->a, old, step);
    say_move(&after, of->b, new, step);
    hl__text_printf(&field, "moves.%s", step);
    of->leaf.out->failed |= before.failed || after.failed || field.failed;
    if (before.data && after.data && field.data && strcmp(before.data, after.data) != 0) {
        hl__diff_start(&line, &it);
        hl__text_printf(&line, "%s %s becomes %s", field.data, before.data, after.data);
        hl__diff_finish(of, &line, &it, field.data);
    }
    hl__text_free(&before);
    hl__text_free(&after);
    hl__text_free(&field);
}

static void compare_moves(hl_diff *of, const hl_adjuster *old, const hl_adjuster *new)
{
    for (int i = 0; i < new->n_moves; i++)
        compare_move(of, old, new, of->b->steps[new->moves[i].step].id);
    for (int i = 0; i < old->n_moves; i++) {
        const char *step = of->a->steps[old->moves[i].step].id;
        const int there = hl_book_find_step(of->b, step);
        bool seen = there < 0; /* the step itself is gone, which is said */
        for (int k = 0; k < new->n_moves && !seen; k++)
            seen = new->moves[k].step == there;
        if (!seen)
            compare_move(of, old, new, step);
    }
}

static void list_sizes(hl_text *out, const hl_adjuster *adjuster)
{
    for (int i = 0; i < adjuster->n_sizes; i++) {
        hl__text_add(out, i > 0 ? ", " : "");
        hl__text_amount(out, adjuster->sizes[i], adjuster->unit, 0, true);
    }
}

static void compare_adjuster(hl_diff *of, const hl_adjuster *old, const hl_adjuster *new)
{
    const hl_diff_thing it = about_adjuster(new);
    hl_text before = {0}, after = {0};
    hl__diff_text(of, &it, "title", old->title, new->title);
    hl__diff_text(of, &it, "verb", old->verb, new->verb);
    hl__diff_text(of, &it, "more", old->more, new->more);
    hl__diff_text(of, &it, "less", old->less, new->less);
    hl__diff_text(of, &it, "unit", hl_unit_name(old->unit), hl_unit_name(new->unit));
    hl__diff_amount(of, &it, "finest", old->finest, old->unit, new->finest, new->unit);
    list_sizes(&before, old);
    list_sizes(&after, new);
    hl__diff_made(of, &it, "sizes", &before, &after);
    hl__diff_amount(of, &it, "reach", old->reach, old->unit, new->reach, new->unit);
    hl__diff_flag(of, &it, "whole", old->whole, new->whole);
    hl__diff_flag(of, &it, "irreversible", old->irreversible, new->irreversible);
    hl__diff_text(of, &it, "visit", old->visit, new->visit);
    compare_moves(of, old, new);
    hl__diff_flag(of, &it, "assumed", old->assumed, new->assumed);
    hl__diff_text(of, &it, "source", old->source, new->source);
}

void hl__diff_adjusters(hl_diff *of)
{
    for (int i = 0; i < of->a->n_adjusters; i++) {
        const hl_diff_thing it = about_adjuster(&of->a->adjusters[i]);
        if (hl_book_find_adjuster(of->b, it.id) < 0)
            hl__diff_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_adjusters; i++) {
        const hl_diff_thing it = about_adjuster(&of->b->adjusters[i]);
        const int at = hl_book_find_adjuster(of->a, it.id);
        if (at >= 0)
            compare_adjuster(of, &of->a->adjusters[at], &of->b->adjusters[i]);
        else
            hl__diff_new(of, &it, "new adjuster", it.origin);
    }
}

/* ---- acknowledged moves ---------------------------------------------------------------- */

static const hl_acknowledged *find_acknowledged(const hl_book *book, const char *adjuster, const char *step)
{
    for (int i = 0; i < book->n_acknowledged; i++) {
        const hl_acknowledged *one = &book->acknowledged[i];
        if (strcmp(book->adjusters[one->adjuster].id, adjuster) == 0 &&
            strcmp(book->steps[one->step].id, step) == 0)
            return one;
    }
    return NULL;
}

/* Those of one book that the other lacks, or gives another reason for. */
void hl__diff_acknowledged(hl_diff *of, bool gone)
{
    const hl_book *book = gone ? of->a : of->b, *other = gone ? of->b : of->a;
    for (int i = 0; i < book->n_acknowledged; i++) {
        const hl_acknowledged *one = &book->acknowledged[i];
        const char *adjuster = book->adjusters[one->adjuster].id, *step = book->steps[one->step].id;
        const hl_acknowledged *found = find_acknowledged(other, adjuster, step);
        if (found != NULL && (gone || strcmp(found->why, one->why) == 0))
            continue;
        hl_text line = {0};
        hl__text_printf(&line, "%s: that it spoils %s is %s", adjuster, step,
                        gone            ? "acknowledged no longer"
                        : found != NULL ? "acknowledged for another reason"
                                        : "acknowledged");
        hl__diff_why(&line, gone ? "" : one->why);
        hl__diff_add(of, &line, one->origin);
    }
}
