/* diff_steps.c - what two books say otherwise of their steps (layer: render/text). */
#include "diff.h"

#include "sentence.h"

#include <string.h>

hl_diff_thing hl__diff_step(const hl_step *step)
{
    return (hl_diff_thing){"", step->id, step->changes, step->n_changes, step->origin};
}

/* The first pitch, HL_PITCHES for the instrument, at which the two books want something else; -1 when
 * they agree wherever the new one asks.  *n: at how many. */
static int find_other(const hl_diff *of, const hl_step *old, const hl_step *new, bool aims, int *n)
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

static void compare_targets(hl_diff *of, const hl_step *old, const hl_step *new)
{
    const hl_diff_thing it = hl__diff_step(new);
    hl_text line = {0};
    int n = 0;
    if (find_other(of, old, new, false, &n) >= 0) {
        hl__diff_start(&line, &it);
        hl__text_add(&line, "target ");
        hl__say_targets(&line, of->a, old);
        hl__text_add(&line, " becomes ");
        hl__say_targets(&line, of->b, new);
        hl__diff_finish(of, &line, &it, "target");
        return;
    }
    const int pitch = find_other(of, old, new, true, &n);
    if (pitch < 0)
        return;
    hl__diff_start(&line, &it);
    hl__text_add(&line, "aim ");
    hl__say_amount(&line, old->targets[pitch].aim, old->unit, old->resolution);
    hl__text_add(&line, " becomes ");
    hl__say_amount(&line, new->targets[pitch].aim, new->unit, new->resolution);
    if (pitch < HL_PITCHES)
        hl__text_printf(&line, " at %s", hl_pitch_name(pitch));
    if (n > 1)
        hl__text_printf(&line, " and at %d more", n - 1);
    hl__diff_finish(of, &line, &it, "target");
}

static void compare_skip(hl_diff *of, const hl_step *old, const hl_step *new)
{
    const hl_diff_thing it = hl__diff_step(new);
    hl_text line = {0};
    if (strcmp(old->skipped ? old->skipped : "", new->skipped ? new->skipped : "") == 0)
        return;
    hl__diff_start(&line, &it);
    hl__text_add(&line, new->skipped ? "left out" : "asked again");
    hl__diff_why(&line, new->skipped ? new->skipped : "");
    const hl_change *change = hl__diff_change(&it, "skip");
    hl__diff_add(of, &line, change ? change->origin : new->origin);
}

static void compare_asked(hl_diff *of, const hl_step *old, const hl_step *new)
{
    const hl_diff_thing it = hl__diff_step(new);
    hl_text line = {0};
    if (old->need == new->need && old->scope == new->scope)
        return;
    hl__diff_start(&line, &it);
    hl__text_add(&line, "asked of ");
    hl__say_asked(&line, old);
    hl__text_add(&line, " becomes ");
    hl__say_asked(&line, new);
    hl__diff_finish(of, &line, &it, old->need != new->need ? "need" : "scope");
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
static void compare_faults(hl_diff *of, const hl_step *old, const hl_step *new)
{
    const hl_diff_thing step = hl__diff_step(new);
    hl_text before = {0}, after = {0};
    for (int i = 0; i < old->n_words; i++)
        hl__diff_listed(&before, old->words[i].word);
    for (int i = 0; i < new->n_words; i++)
        hl__diff_listed(&after, new->words[i].word);
    hl__diff_made(of, &step, "faults", &before, &after);
    for (int i = 0; i < new->n_words; i++) {
        for (int k = 0; k < old->n_words; k++) {
            const hl_word *a = &old->words[k], *b = &new->words[i];
            if (strcmp(a->word, b->word) != 0)
                continue;
            hl_text label = {0}, ways[2] = {{0}, {0}};
            hl__text_printf(&label, "%s, %s", new->id, b->word);
            const hl_change *change = hl__diff_change(&step, "faults");
            const hl_diff_thing it = {"", label.data ? label.data : "", NULL, 0,
                                      change ? change->origin : new->origin};
            list_ways(&ways[0], of->a, a);
            list_ways(&ways[1], of->b, b);
            hl__diff_text(of, &it, "means", a->means, b->means);
            hl__diff_text(of, &it, "todo", a->todo, b->todo);
            hl__diff_made(of, &it, "fix", &ways[0], &ways[1]);
            of->leaf.out->failed |= label.failed;
            hl__text_free(&label);
        }
    }
}

static const char *pair_of(const hl_book *book, const hl_step *step)
{
    return step->pair >= 0 ? book->steps[step->pair].id : "";
}

static void compare_links(hl_diff *of, const hl_step *old, const hl_step *new)
{
    const hl_diff_thing it = hl__diff_step(new);
    hl_text before = {0}, after = {0};
    for (int i = 0; i < old->n_fixes; i++)
        hl__diff_listed(&before, of->a->adjusters[old->fixes[i]].id);
    for (int i = 0; i < new->n_fixes; i++)
        hl__diff_listed(&after, of->b->adjusters[new->fixes[i]].id);
    hl__diff_made(of, &it, "fix", &before, &after);
    for (int i = 0; i < old->n_masks; i++)
        hl__diff_listed(&before, of->a->steps[old->masks[i]].id);
    for (int i = 0; i < new->n_masks; i++)
        hl__diff_listed(&after, of->b->steps[new->masks[i]].id);
    hl__diff_made(of, &it, "masks", &before, &after);
    hl__diff_text(of, &it, "pair", pair_of(of->a, old), pair_of(of->b, new));
}

static void compare_numbers(hl_diff *of, const hl_step *old, const hl_step *new)
{
    const hl_diff_thing it = hl__diff_step(new);
    compare_targets(of, old, new);
    hl__diff_amount(of, &it, "even", old->even, old->unit, new->even, new->unit);
    hl__diff_amount(of, &it, "gauge", old->gauge, old->unit, new->gauge, new->unit);
    hl__diff_amount(of, &it, "resolution", old->resolution, old->unit, new->resolution, new->unit);
    hl__diff_flag(of, &it, "breaks", old->breaks, new->breaks);
    hl__diff_text(of, &it, "across", old->across_colours ? "colours" : "",
                  new->across_colours ? "colours" : "");
    hl__diff_text(of, &it, new->kind == HL_DERIVED ? "formula" : "model",
                  old->formula ? old->formula->text : "", new->formula ? new->formula->text : "");
}

static void compare_step(hl_diff *of, const hl_step *old, const hl_step *new)
{
    static const char *const kinds[] = {"measured", "judged", "derived"};
    const hl_diff_thing it = hl__diff_step(new);
    compare_skip(of, old, new);
    hl__diff_text(of, &it, "title", old->title, new->title);
    hl__diff_text(of, &it, "plain", old->plain, new->plain);
    hl__diff_text(of, &it, "stage", of->a->stages[old->stage].id, of->b->stages[new->stage].id);
    hl__diff_text(of, &it, "kind", kinds[old->kind], kinds[new->kind]);
    hl__diff_text(of, &it, "unit", hl_unit_name(old->unit), hl_unit_name(new->unit));
    compare_asked(of, old, new);
    if (old->kind != HL_JUDGED && new->kind != HL_JUDGED)
        compare_numbers(of, old, new);
    compare_faults(of, old, new);
    compare_links(of, old, new);
    hl__diff_text(of, &it, "low_todo", old->low_todo, new->low_todo);
    hl__diff_text(of, &it, "high_todo", old->high_todo, new->high_todo);
    hl__diff_text(of, &it, "gauge_name", old->gauge_name, new->gauge_name);
    hl__diff_text(of, &it, "ask", old->ask, new->ask);
    hl__diff_text(of, &it, "why", old->why, new->why);
    hl__diff_text(of, &it, "method", old->method, new->method);
    hl__diff_text(of, &it, "source", old->source, new->source);
    hl__diff_flag(of, &it, "unsourced", old->unsourced, new->unsourced);
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
static void compare_order(hl_diff *of, int old, int new)
{
    const hl_diff_thing it = hl__diff_step(&of->b->steps[new]);
    bool passed = false;
    for (int i = 0; i < new; i++) {
        const int was = hl_book_find_step(of->a, of->b->steps[i].id);
        passed = passed || was > old;
    }
    const char *a = find_before(of->a, of->b, old), *b = find_before(of->b, of->a, new);
    if (passed)
        hl__diff_text(of, &it, "comes after", a ? a : "", b ? b : "");
}

void hl__diff_steps(hl_diff *of)
{
    for (int s = 0; s < of->a->n_steps; s++) {
        const hl_diff_thing it = hl__diff_step(&of->a->steps[s]);
        if (hl_book_find_step(of->b, it.id) < 0)
            hl__diff_gone(of, &it);
    }
    for (int s = 0; s < of->b->n_steps; s++) {
        const hl_diff_thing it = hl__diff_step(&of->b->steps[s]);
        const int old = hl_book_find_step(of->a, it.id);
        if (old < 0) {
            hl__diff_new(of, &it, "new step", it.origin);
            continue;
        }
        compare_order(of, old, s);
        compare_step(of, &of->a->steps[old], &of->b->steps[s]);
    }
}
