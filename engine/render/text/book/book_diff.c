/* book_diff.c - what a shop's book changes against another, a line a difference (layer: render/text).
 *
 * Book a is the old one, b the new one; a line names where b says so.  Every field that a rule file can give
 * is compared, with its value: a test goes through them all.  Cautions come first: they keep a piano from
 * harm. */
#include "leaf.h"
#include "number.h"
#include "quantity.h"
#include "sentence.h"

#include <string.h>

#define HANG 4

typedef struct pair {
    hl_leaf leaf;
    const hl_book *a, *b;
} pair;

static void add_line(pair *of, hl_text *line, hl_origin where)
{
    hl__say_place(line, where);
    hl__leaf_add(&of->leaf, line, 0, HANG);
}

static void add_why(hl_text *line, const char *why)
{
    if (!why[0])
        return;
    hl__text_add(line, ": ");
    hl__text_safe(line, why);
}

/* What a field belongs to: how a line names it, and where b says it. */
typedef struct thing {
    const char *word, *id; /* word "": a step or an adjuster, which are known by their ids */
    const hl_change *changes;
    int n_changes;
    hl_origin origin;
} thing;

static void start_thing(hl_text *line, const thing *of)
{
    hl__text_add(line, of->word);
    hl__text_add(line, of->word[0] ? " " : "");
    hl__text_safe(line, of->id);
    hl__text_add(line, ": ");
}

/* The change that last set a field; NULL when the first entry's word holds. */
static const hl_change *find_change(const thing *of, const char *field)
{
    for (int i = of->n_changes; i-- > 0;)
        if (strcmp(of->changes[i].field, field) == 0)
            return &of->changes[i];
    return NULL;
}

static void finish_field(pair *of, hl_text *line, const thing *it, const char *field)
{
    const hl_change *change = find_change(it, field);
    if (change)
        add_why(line, change->why);
    add_line(of, line, change ? change->origin : it->origin);
}

static void add_quoted(hl_text *line, const char *text)
{
    hl__text_add(line, text[0] ? "\"" : "(none)");
    hl__text_safe(line, text);
    hl__text_add(line, text[0] ? "\"" : "");
}

static void compare_text(pair *of, const thing *it, const char *field, const char *old, const char *new)
{
    hl_text line = {0};
    if (strcmp(old, new) == 0)
        return;
    start_thing(&line, it);
    hl__text_add(&line, field);
    hl__text_char(&line, ' ');
    add_quoted(&line, old);
    hl__text_add(&line, " becomes ");
    add_quoted(&line, new);
    finish_field(of, &line, it, field);
}

/* Two texts that were put together for this; empties them. */
static void compare_made(pair *of, const thing *it, const char *field, hl_text *old, hl_text *new)
{
    of->leaf.out->failed |= old->failed || new->failed;
    compare_text(of, it, field, old->data ? old->data : "", new->data ? new->data : "");
    hl__text_free(old);
    hl__text_free(new);
}

static void compare_flag(pair *of, const thing *it, const char *field, bool old, bool new)
{
    compare_text(of, it, field, old ? "yes" : "no", new ? "yes" : "no");
}

static void say_stated(hl_text *line, hl_amount value, hl_unit unit)
{
    if (value == 0)
        hl__text_add(line, "(none)");
    else
        hl__say_amount(line, value, unit, 0);
}

static void compare_amount(pair *of, const thing *it, const char *field, hl_amount old, hl_unit old_unit,
                           hl_amount new, hl_unit new_unit)
{
    hl_text line = {0};
    if (old == new)
        return;
    start_thing(&line, it);
    hl__text_add(&line, field);
    hl__text_char(&line, ' ');
    say_stated(&line, old, old_unit);
    hl__text_add(&line, " becomes ");
    say_stated(&line, new, new_unit);
    finish_field(of, &line, it, field);
}

static void say_thing(pair *of, const thing *it, const char *what, hl_origin where)
{
    hl_text line = {0};
    start_thing(&line, it);
    hl__text_add(&line, what);
    add_line(of, &line, where);
}

static void say_gone(pair *of, const thing *it)
{
    hl_text line = {0};
    start_thing(&line, it);
    hl__text_add(&line, "not in book ");
    hl__text_safe(&line, of->b->id);
    add_line(of, &line, it->origin);
}

/* "a, b" of the ids of a list. */
static void add_listed(hl_text *out, const char *id)
{
    hl__text_add(out, out->size > 0 ? ", " : "");
    hl__text_add(out, id);
}

/* ---- steps ------------------------------------------------------------------------------------- */

static thing about_step(const hl_step *step)
{
    return (thing){"", step->id, step->changes, step->n_changes, step->origin};
}

/* The first pitch, HL_PITCHES for the instrument, at which the two books want something else; -1 when
 * they agree wherever the new one asks.  *n: at how many. */
static int find_other(const pair *of, const hl_step *old, const hl_step *new, bool aims, int *n)
{
    int first = -1;
    *n = 0;
    for (int pitch = 0; pitch <= HL_PITCHES; pitch++) {
        const hl_target *a = &old->targets[pitch], *b = &new->targets[pitch];
        const int note = pitch - of->b->compass.lowest + 1;
        const bool asked = new->scope == HL_ONCE
                               ? pitch == HL_PITCHES
                               : pitch < HL_PITCHES &&note >= 1 &&
                                     note <= of->b->compass.keys &&hl__step_at_pitch(new, pitch);
        if (!asked || (aims ? a->aim == b->aim : hl__same_limits(a, b)))
            continue;
        first = *n == 0 ? pitch : first;
        ++*n;
    }
    return first;
}

static void compare_targets(pair *of, const hl_step *old, const hl_step *new)
{
    const thing it = about_step(new);
    hl_text line = {0};
    int n = 0;
    if (find_other(of, old, new, false, &n) >= 0) {
        start_thing(&line, &it);
        hl__text_add(&line, "target ");
        hl__say_targets(&line, of->a, old);
        hl__text_add(&line, " becomes ");
        hl__say_targets(&line, of->b, new);
        finish_field(of, &line, &it, "target");
        return;
    }
    const int pitch = find_other(of, old, new, true, &n);
    if (pitch < 0)
        return;
    start_thing(&line, &it);
    hl__text_add(&line, "aim ");
    hl__say_amount(&line, old->targets[pitch].aim, old->unit, old->resolution);
    hl__text_add(&line, " becomes ");
    hl__say_amount(&line, new->targets[pitch].aim, new->unit, new->resolution);
    if (pitch < HL_PITCHES)
        hl__text_printf(&line, " at %s", hl_pitch_name(pitch));
    if (n > 1)
        hl__text_printf(&line, " and at %d more", n - 1);
    finish_field(of, &line, &it, "target");
}

static void compare_skip(pair *of, const hl_step *old, const hl_step *new)
{
    const thing it = about_step(new);
    hl_text line = {0};
    if (strcmp(old->skipped ? old->skipped : "", new->skipped ? new->skipped : "") == 0)
        return;
    start_thing(&line, &it);
    hl__text_add(&line, new->skipped ? "left out" : "asked again");
    add_why(&line, new->skipped ? new->skipped : "");
    const hl_change *change = find_change(&it, "skip");
    add_line(of, &line, change ? change->origin : new->origin);
}

static void compare_asked(pair *of, const hl_step *old, const hl_step *new)
{
    const thing it = about_step(new);
    hl_text line = {0};
    if (old->need == new->need && old->scope == new->scope)
        return;
    start_thing(&line, &it);
    hl__text_add(&line, "asked of ");
    hl__say_asked(&line, old);
    hl__text_add(&line, " becomes ");
    hl__say_asked(&line, new);
    finish_field(of, &line, &it, old->need != new->need ? "need" : "scope");
}

static void list_ways(hl_text *out, const hl_book *book, const hl_word *word)
{
    for (int i = 0; i < word->n_remedies; i++) {
        const hl_adjuster *adjuster = &book->adjusters[word->remedies[i].adjuster];
        hl__text_printf(out, "%s%s %s", out->size > 0 ? ", " : "",
                        word->remedies[i].more ? adjuster->more : adjuster->less, adjuster->id);
    }
}

/* The words of a judged step: which there are, and what each of them says. */
static void compare_faults(pair *of, const hl_step *old, const hl_step *new)
{
    const thing step = about_step(new);
    hl_text before = {0}, after = {0};
    for (int i = 0; i < old->n_words; i++)
        add_listed(&before, old->words[i].word);
    for (int i = 0; i < new->n_words; i++)
        add_listed(&after, new->words[i].word);
    compare_made(of, &step, "faults", &before, &after);
    for (int i = 0; i < new->n_words; i++) {
        for (int k = 0; k < old->n_words; k++) {
            const hl_word *a = &old->words[k], *b = &new->words[i];
            if (strcmp(a->word, b->word) != 0)
                continue;
            hl_text label = {0}, ways[2] = {{0}, {0}};
            hl__text_printf(&label, "%s, %s", new->id, b->word);
            const hl_change *change = find_change(&step, "faults");
            const thing it = {"", label.data ? label.data : "", NULL, 0,
                              change ? change->origin : new->origin};
            list_ways(&ways[0], of->a, a);
            list_ways(&ways[1], of->b, b);
            compare_text(of, &it, "means", a->means, b->means);
            compare_text(of, &it, "todo", a->todo, b->todo);
            compare_made(of, &it, "fix", &ways[0], &ways[1]);
            of->leaf.out->failed |= label.failed;
            hl__text_free(&label);
        }
    }
}

static const char *pair_of(const hl_book *book, const hl_step *step)
{
    return step->pair >= 0 ? book->steps[step->pair].id : "";
}

static void compare_links(pair *of, const hl_step *old, const hl_step *new)
{
    const thing it = about_step(new);
    hl_text before = {0}, after = {0};
    for (int i = 0; i < old->n_fixes; i++)
        add_listed(&before, of->a->adjusters[old->fixes[i]].id);
    for (int i = 0; i < new->n_fixes; i++)
        add_listed(&after, of->b->adjusters[new->fixes[i]].id);
    compare_made(of, &it, "fix", &before, &after);
    for (int i = 0; i < old->n_masks; i++)
        add_listed(&before, of->a->steps[old->masks[i]].id);
    for (int i = 0; i < new->n_masks; i++)
        add_listed(&after, of->b->steps[new->masks[i]].id);
    compare_made(of, &it, "masks", &before, &after);
    compare_text(of, &it, "pair", pair_of(of->a, old), pair_of(of->b, new));
}

static void compare_numbers(pair *of, const hl_step *old, const hl_step *new)
{
    const thing it = about_step(new);
    compare_targets(of, old, new);
    compare_amount(of, &it, "even", old->even, old->unit, new->even, new->unit);
    compare_amount(of, &it, "gauge", old->gauge, old->unit, new->gauge, new->unit);
    compare_amount(of, &it, "resolution", old->resolution, old->unit, new->resolution, new->unit);
    compare_flag(of, &it, "breaks", old->breaks, new->breaks);
    compare_text(of, &it, "across", old->across_colours ? "colours" : "",
                 new->across_colours ? "colours" : "");
    compare_text(of, &it, new->kind == HL_DERIVED ? "formula" : "model",
                 old->formula ? old->formula->text : "", new->formula ? new->formula->text : "");
}

static void compare_step(pair *of, const hl_step *old, const hl_step *new)
{
    static const char *const kinds[] = {"measured", "judged", "derived"};
    const thing it = about_step(new);
    compare_skip(of, old, new);
    compare_text(of, &it, "title", old->title, new->title);
    compare_text(of, &it, "plain", old->plain, new->plain);
    compare_text(of, &it, "stage", of->a->stages[old->stage].id, of->b->stages[new->stage].id);
    compare_text(of, &it, "kind", kinds[old->kind], kinds[new->kind]);
    compare_text(of, &it, "unit", hl_unit_name(old->unit), hl_unit_name(new->unit));
    compare_asked(of, old, new);
    if (old->kind != HL_JUDGED && new->kind != HL_JUDGED)
        compare_numbers(of, old, new);
    compare_faults(of, old, new);
    compare_links(of, old, new);
    compare_text(of, &it, "low_todo", old->low_todo, new->low_todo);
    compare_text(of, &it, "high_todo", old->high_todo, new->high_todo);
    compare_text(of, &it, "gauge_name", old->gauge_name, new->gauge_name);
    compare_text(of, &it, "ask", old->ask, new->ask);
    compare_text(of, &it, "why", old->why, new->why);
    compare_text(of, &it, "method", old->method, new->method);
    compare_text(of, &it, "source", old->source, new->source);
    compare_flag(of, &it, "unsourced", old->unsourced, new->unsourced);
}

/* The step of b that comes before this one among those that both books have; NULL: none. */
static const char *find_before(const hl_book *book, const hl_book *other, int step)
{
    while (step-- > 0)
        if (hl_book_find_step(other, book->steps[step].id) >= 0)
            return book->steps[step].id;
    return NULL;
}

/* Only a step that was moved past another: what merely has a new neighbour has not moved. */
static void compare_order(pair *of, int old, int new)
{
    const thing it = about_step(&of->b->steps[new]);
    bool passed = false;
    for (int i = 0; i < new; i++) {
        const int was = hl_book_find_step(of->a, of->b->steps[i].id);
        passed = passed || was > old;
    }
    const char *a = find_before(of->a, of->b, old), *b = find_before(of->b, of->a, new);
    if (passed)
        compare_text(of, &it, "comes after", a ? a : "", b ? b : "");
}

static void compare_steps(pair *of)
{
    for (int s = 0; s < of->a->n_steps; s++) {
        const thing it = about_step(&of->a->steps[s]);
        if (hl_book_find_step(of->b, it.id) < 0)
            say_gone(of, &it);
    }
    for (int s = 0; s < of->b->n_steps; s++) {
        const thing it = about_step(&of->b->steps[s]);
        const int old = hl_book_find_step(of->a, it.id);
        if (old < 0) {
            say_thing(of, &it, "new step", it.origin);
            continue;
        }
        compare_order(of, old, s);
        compare_step(of, &of->a->steps[old], &of->b->steps[s]);
    }
}

/* ---- cautions and stages ----------------------------------------------------------------------- */

static int find_stage(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_stages; i++)
        if (strcmp(book->stages[i].id, id) == 0)
            return i;
    return -1;
}

static thing about_stage(const hl_stage *stage)
{
    return (thing){"stage", stage->id, NULL, 0, stage->origin};
}

static void compare_cautions(pair *of)
{
    for (int i = 0; i < of->b->n_stages; i++) {
        const thing it = about_stage(&of->b->stages[i]);
        const int old = find_stage(of->a, it.id);
        compare_text(of, &it, "caution", old >= 0 ? of->a->stages[old].caution : "",
                     of->b->stages[i].caution);
    }
    for (int i = 0; i < of->a->n_stages; i++) {
        const thing it = about_stage(&of->a->stages[i]);
        if (find_stage(of->b, it.id) < 0)
            compare_text(of, &it, "caution", of->a->stages[i].caution, "");
    }
    for (int s = 0; s < of->b->n_steps; s++) {
        const thing it = about_step(&of->b->steps[s]);
        const int old = hl_book_find_step(of->a, it.id);
        compare_text(of, &it, "caution", old >= 0 ? of->a->steps[old].caution : "", of->b->steps[s].caution);
    }
    for (int s = 0; s < of->a->n_steps; s++) {
        const thing it = about_step(&of->a->steps[s]);
        if (hl_book_find_step(of->b, it.id) < 0)
            compare_text(of, &it, "caution", of->a->steps[s].caution, "");
    }
}

static void compare_stages(pair *of)
{
    hl_text before = {0}, after = {0};
    for (int i = 0; i < of->a->n_stages; i++) {
        const thing it = about_stage(&of->a->stages[i]);
        if (find_stage(of->b, it.id) < 0)
            say_gone(of, &it);
        else
            add_listed(&before, it.id);
    }
    for (int i = 0; i < of->b->n_stages; i++) {
        const thing it = about_stage(&of->b->stages[i]);
        const int old = find_stage(of->a, it.id);
        if (old < 0) {
            say_thing(of, &it, "new stage", it.origin);
            continue;
        }
        add_listed(&after, it.id);
        compare_text(of, &it, "title", of->a->stages[old].title, of->b->stages[i].title);
    }
    const thing book = {"book", of->b->id, NULL, 0, of->b->files[0]};
    compare_made(of, &book, "order of the stages", &before, &after);
}

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

static void compare_floats(pair *of)
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
        add_line(of, &line, of->b->floats.step >= 0 ? of->b->floats.origin : of->a->floats.origin);
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

static void compare_facts(pair *of)
{
    for (int i = 0; i < of->a->n_facts; i++) {
        const thing it = {"fact", of->a->facts[i].id, NULL, 0, of->a->facts[i].origin};
        if (hl__book_find_fact(of->b, it.id) < 0)
            say_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_facts; i++) {
        const hl_fact *new = &of->b->facts[i];
        const int at = hl__book_find_fact(of->a, new->id);
        const thing it = {"fact", new->id, NULL, 0, new->origin};
        hl_text line = {0};
        if (at >= 0) {
            const hl_fact *old = &of->a->facts[at];
            compare_text(of, &it, "title", old->title, new->title);
            compare_text(of, &it, "unit", old->unit, new->unit);
            compare_text(of, &it, "source", old->source, new->source);
            compare_text(of, &it, "why", old->why, new->why);
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
        add_line(of, &line, new->origin);
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

static thing about_adjuster(const hl_adjuster *adjuster)
{
    return (thing){"", adjuster->id, adjuster->changes, adjuster->n_changes, adjuster->origin};
}

/* What it does to a step, in both books; where b says so. */
static void compare_move(pair *of, const hl_adjuster *old, const hl_adjuster *new, const char *step)
{
    const thing it = about_adjuster(new);
    hl_text before = {0}, after = {0}, field = {0}, line = {0};
    say_move(&before, of->a, old, step);
    say_move(&after, of->b, new, step);
    hl__text_printf(&field, "moves.%s", step);
    of->leaf.out->failed |= before.failed || after.failed || field.failed;
    if (before.data && after.data && field.data && strcmp(before.data, after.data) != 0) {
        start_thing(&line, &it);
        hl__text_printf(&line, "%s %s becomes %s", field.data, before.data, after.data);
        finish_field(of, &line, &it, field.data);
    }
    hl__text_free(&before);
    hl__text_free(&after);
    hl__text_free(&field);
}

static void compare_moves(pair *of, const hl_adjuster *old, const hl_adjuster *new)
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

static void compare_adjuster(pair *of, const hl_adjuster *old, const hl_adjuster *new)
{
    const thing it = about_adjuster(new);
    hl_text before = {0}, after = {0};
    compare_text(of, &it, "title", old->title, new->title);
    compare_text(of, &it, "verb", old->verb, new->verb);
    compare_text(of, &it, "more", old->more, new->more);
    compare_text(of, &it, "less", old->less, new->less);
    compare_text(of, &it, "unit", hl_unit_name(old->unit), hl_unit_name(new->unit));
    compare_amount(of, &it, "finest", old->finest, old->unit, new->finest, new->unit);
    list_sizes(&before, old);
    list_sizes(&after, new);
    compare_made(of, &it, "sizes", &before, &after);
    compare_amount(of, &it, "reach", old->reach, old->unit, new->reach, new->unit);
    compare_flag(of, &it, "whole", old->whole, new->whole);
    compare_flag(of, &it, "irreversible", old->irreversible, new->irreversible);
    compare_text(of, &it, "visit", old->visit, new->visit);
    compare_moves(of, old, new);
    compare_flag(of, &it, "assumed", old->assumed, new->assumed);
    compare_text(of, &it, "source", old->source, new->source);
}

static void compare_adjusters(pair *of)
{
    for (int i = 0; i < of->a->n_adjusters; i++) {
        const thing it = about_adjuster(&of->a->adjusters[i]);
        if (hl_book_find_adjuster(of->b, it.id) < 0)
            say_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_adjusters; i++) {
        const thing it = about_adjuster(&of->b->adjusters[i]);
        const int at = hl_book_find_adjuster(of->a, it.id);
        if (at >= 0)
            compare_adjuster(of, &of->a->adjusters[at], &of->b->adjusters[i]);
        else
            say_thing(of, &it, "new adjuster", it.origin);
    }
}

/* ---- acknowledged moves, choices, diagnoses, sources ------------------------------------------- */

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
static void compare_acknowledged(pair *of, bool gone)
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
        add_why(&line, gone ? "" : one->why);
        add_line(of, &line, one->origin);
    }
}

static const hl_chosen *find_chosen(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_choices; i++)
        if (strcmp(book->choices[i].id, id) == 0)
            return &book->choices[i];
    return NULL;
}

static void list_options(hl_text *out, const hl_chosen *choice)
{
    for (int i = 0; i < choice->n_options; i++)
        hl__text_printf(out, "%s%s: %s", i > 0 ? "; " : "", choice->options[i].name, choice->options[i].text);
}

static void compare_choices(pair *of)
{
    hl__leaf_choices_differ(&of->leaf, of->a, of->b);
    for (int i = 0; i < of->a->n_choices; i++) {
        const thing it = {"choice", of->a->choices[i].id, NULL, 0, of->a->choices[i].origin};
        if (find_chosen(of->b, it.id) == NULL)
            say_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_choices; i++) {
        const hl_chosen *new = &of->b->choices[i], *old = find_chosen(of->a, new->id);
        const thing it = {"choice", new->id, NULL, 0, new->origin};
        hl_text before = {0}, after = {0};
        if (old == NULL) {
            say_thing(of, &it, "new choice", it.origin);
            continue;
        }
        list_options(&before, old);
        list_options(&after, new);
        compare_text(of, &it, "title", old->title, new->title);
        compare_made(of, &it, "options", &before, &after);
        compare_text(of, &it, "source", old->source, new->source);
    }
}

static int find_diagnosis(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_diagnoses; i++)
        if (strcmp(book->diagnoses[i].id, id) == 0)
            return i;
    return -1;
}

static const char *quiet_by(const hl_book *book, const hl_diagnosis *diagnosis)
{
    return diagnosis->quiet_by >= 0 ? book->diagnoses[diagnosis->quiet_by].id : "";
}

static void compare_causes(pair *of, const thing *it, const hl_diagnosis *old, const hl_diagnosis *new)
{
    static const hl_cause none = {"", "", ""};
    const int n = old->n_causes > new->n_causes ? old->n_causes : new->n_causes;
    for (int i = 0; i < n; i++) {
        const hl_cause *a = i < old->n_causes ? &old->causes[i] : &none;
        const hl_cause *b = i < new->n_causes ? &new->causes[i] : &none;
        hl_text names[3] = {{0}, {0}, {0}};
        static const char *const parts[] = {"cause", "test of cause", "todo of cause"};
        for (int k = 0; k < 3; k++) {
            hl__text_printf(&names[k], "%s %d", parts[k], i + 1);
            of->leaf.out->failed |= names[k].failed;
        }
        if (names[0].data && names[1].data && names[2].data) {
            compare_text(of, it, names[0].data, a->cause, b->cause);
            compare_text(of, it, names[1].data, a->test, b->test);
            compare_text(of, it, names[2].data, a->todo, b->todo);
        }
        for (int k = 0; k < 3; k++)
            hl__text_free(&names[k]);
    }
}

static void compare_diagnoses(pair *of)
{
    static const char *const spreads[] = {"note", "wide"};
    for (int i = 0; i < of->a->n_diagnoses; i++) {
        const thing it = {"diagnosis", of->a->diagnoses[i].id, NULL, 0, of->a->diagnoses[i].origin};
        if (find_diagnosis(of->b, it.id) < 0)
            say_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_diagnoses; i++) {
        const hl_diagnosis *new = &of->b->diagnoses[i];
        const thing it = {"diagnosis", new->id, NULL, 0, new->origin};
        const int at = find_diagnosis(of->a, new->id);
        if (at < 0) {
            say_thing(of, &it, "new diagnosis", it.origin);
            continue;
        }
        const hl_diagnosis *old = &of->a->diagnoses[at];
        compare_text(of, &it, "title", old->title, new->title);
        compare_text(of, &it, "when", old->when->text, new->when->text);
        compare_text(of, &it, "spread", spreads[old->spread], spreads[new->spread]);
        compare_text(of, &it, "quiet_by", quiet_by(of->a, old), quiet_by(of->b, new));
        compare_causes(of, &it, old, new);
        compare_text(of, &it, "source", old->source, new->source);
    }
}

static const hl_source *find_source(const hl_book *book, const char *key)
{
    for (int i = 0; i < book->n_sources; i++)
        if (strcmp(book->sources[i].key, key) == 0)
            return &book->sources[i];
    return NULL;
}

static void compare_sources(pair *of)
{
    for (int i = 0; i < of->a->n_sources; i++) {
        const thing it = {"source", of->a->sources[i].key, NULL, 0, of->a->sources[i].origin};
        if (find_source(of->b, it.id) == NULL)
            say_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_sources; i++) {
        const hl_source *new = &of->b->sources[i], *old = find_source(of->a, new->key);
        const thing it = {"source", new->key, NULL, 0, new->origin};
        if (old == NULL) {
            say_thing(of, &it, "new source", it.origin);
            continue;
        }
        compare_text(of, &it, "kind", old->kind, new->kind);
        compare_text(of, &it, "archive", old->archive, new->archive);
        compare_text(of, &it, "subject", old->subject, new->subject);
        compare_text(of, &it, "date", old->date, new->date);
        compare_text(of, &it, "differs", old->differs, new->differs);
    }
}

static const char *find_renamed(const hl_book *book, const char *was)
{
    for (int i = 0; i < book->n_renamed; i++)
        if (strcmp(book->renamed[i].was, was) == 0)
            return book->renamed[i].is;
    return "";
}

/* Names of before, under which older sheets and books are read. */
static void compare_renamed(pair *of)
{
    const hl_book *const books[] = {of->b, of->a};
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < books[k]->n_renamed; i++) {
            const char *was = books[k]->renamed[i].was;
            const thing it = {"name of before", was, NULL, 0, of->b->files[0]};
            if (k == 0 || find_renamed(of->b, was)[0] == '\0')
                compare_text(of, &it, "now", find_renamed(of->a, was), find_renamed(of->b, was));
        }
}

/* ---- the book itself --------------------------------------------------------------------------- */

static void compare_compass(pair *of)
{
    const hl_compass old = of->a->compass, new = of->b->compass;
    hl_text line = {0};
    if (old.lowest == new.lowest && old.keys == new.keys)
        return;
    hl__text_add(&line, "compass ");
    hl__text_add(&line, hl_pitch_name(old.lowest));
    hl__text_printf(&line, "-%s becomes ", hl_pitch_name(hl_note_pitch(old, old.keys)));
    hl__text_add(&line, hl_pitch_name(new.lowest));
    hl__text_printf(&line, "-%s", hl_pitch_name(hl_note_pitch(new, new.keys)));
    hl__leaf_add(&of->leaf, &line, 0, HANG);
}

static void compare_head(pair *of)
{
    const thing it = {"book", of->b->id, NULL, 0, of->b->files[0]};
    hl_text before = {0}, after = {0};
    compare_compass(of);
    compare_text(of, &it, "title", of->a->title, of->b->title);
    compare_text(of, &it, "about", of->a->about, of->b->about);
    hl__text_exact(&before, of->a->stale_share);
    hl__text_exact(&after, of->b->stale_share);
    compare_made(of, &it, "stale_share", &before, &after);
}

hl_code hl_book_diff(char **out, size_t *size, const hl_book *a, const hl_book *b, const hl_print *print,
                     hl_err *err)
{
    hl_text page = {0};
    pair of = {hl__leaf_start(&page, b, print), a, b};
    *out = NULL;
    compare_cautions(&of);
    compare_head(&of);
    compare_stages(&of);
    compare_choices(&of);
    compare_floats(&of);
    compare_steps(&of);
    compare_facts(&of);
    compare_adjusters(&of);
    compare_acknowledged(&of, true);
    compare_acknowledged(&of, false);
    compare_diagnoses(&of);
    compare_sources(&of);
    compare_renamed(&of);
    return hl__text_take(&page, out, size, err);
}
