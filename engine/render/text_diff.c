/* text_diff.c - what a shop's book changes against another, a line a difference (layer: render). */
#include "audit.h"
#include "fail.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

typedef struct hl_pair {
    hl_text *out;
    const hl_book *a, *b;
    int width;
} hl_pair;

static void add_line(hl_pair *pair, hl_text *line, const hl_origin *where)
{
    if (where != NULL)
        hl__text_printf(line, "  [%s:%d]", where->file, where->line);
    if (line->data != NULL && !line->failed)
        hl__wrap(pair->out, line->data, pair->width, 0, 4);
    pair->out->failed |= line->failed;
    hl__text_free(line);
}

static bool is_same(const hl_target *a, const hl_target *b)
{
    return a->low == b->low && a->aim == b->aim && a->high == b->high && a->has_low == b->has_low &&
           a->has_high == b->has_high;
}

/* The line that last set a field of the step. */
static const hl_origin *find_origin(const hl_step *step, const char *field)
{
    for (int i = step->n_changes; i-- > 0;)
        if (strcmp(step->changes[i].field, field) == 0)
            return &step->changes[i].origin;
    return &step->origin;
}

static void compare_targets(hl_pair *pair, const hl_step *old, const hl_step *new)
{
    int n = 0, first = -1;
    for (int i = 0; i <= HL_PITCHES; i++) {
        int lowest = pair->b->compass.lowest;
        bool seen = i == HL_PITCHES
                        ? new->scope == HL_ONCE
                        : i >= lowest &&i < lowest + pair->b->compass.keys &&hl__step_at_pitch(new, i) &&
                              new->scope != HL_ONCE;
        if (!seen || is_same(&old->targets[i], &new->targets[i]))
            continue;
        first = n++ == 0 ? i : first;
    }
    if (n == 0)
        return;
    hl_text line = {0};
    hl__text_printf(&line, "%s: target ", new->id);
    hl__say_target(&line, &old->targets[first], old->unit, old->resolution);
    hl__text_add(&line, " becomes ");
    hl__say_target(&line, &new->targets[first], new->unit, new->resolution);
    if (first < HL_PITCHES)
        hl__text_printf(&line, " at %s%s", hl_pitch_name(first), n > 1 ? " and other notes" : "");
    add_line(pair, &line, find_origin(new, "target"));
}

static void compare_text(hl_pair *pair, const hl_step *new, const char *field, const char *old,
                         const char *now)
{
    if (strcmp(old, now) == 0)
        return;
    hl_text line = {0};
    hl__text_printf(&line, "%s: %s \"", new->id, field);
    hl__text_safe(&line, old);
    hl__text_add(&line, "\" becomes \"");
    hl__text_safe(&line, now);
    hl__text_add(&line, "\"");
    add_line(pair, &line, find_origin(new, field));
}

static void compare_amount(hl_pair *pair, const hl_step *new, const char *field, hl_amount old, hl_amount now)
{
    if (old == now)
        return;
    hl_text line = {0};
    hl__text_printf(&line, "%s: %s ", new->id, field);
    hl__say_amount(&line, old, new->unit, new->resolution);
    hl__text_add(&line, " becomes ");
    hl__say_amount(&line, now, new->unit, new->resolution);
    add_line(pair, &line, find_origin(new, field));
}

static void compare_step(hl_pair *pair, const hl_step *old, const hl_step *new)
{
    if ((old->skipped == NULL) != (new->skipped == NULL)) {
        hl_text line = {0};
        hl__text_printf(&line, "%s: ", new->id);
        if (new->skipped != NULL)
            hl__text_add(&line, "left out: ");
        hl__text_safe(&line, new->skipped != NULL ? new->skipped : "taken in again");
        add_line(pair, &line, find_origin(new, "skip"));
    }
    compare_targets(pair, old, new);
    compare_amount(pair, new, "even", old->even, new->even);
    compare_amount(pair, new, "gauge", old->gauge, new->gauge);
    compare_amount(pair, new, "resolution", old->resolution, new->resolution);
    compare_text(pair, new, "ask", old->ask, new->ask);
    compare_text(pair, new, "method", old->method, new->method);
    compare_text(pair, new, "gauge_name", old->gauge_name, new->gauge_name);
    const char *before = old->formula != NULL ? old->formula->text : "";
    const char *after = new->formula != NULL ? new->formula->text : "";
    compare_text(pair, new, new->kind == HL_DERIVED ? "formula" : "model", before, after);
    if (old->need != new->need || old->scope != new->scope) {
        hl_text line = {0};
        hl__text_printf(&line, "%s: asked at other notes than before", new->id);
        add_line(pair, &line, find_origin(new, old->need != new->need ? "need" : "scope"));
    }
}

static void compare_facts(hl_pair *pair)
{
    for (int i = 0; i < pair->b->n_facts; i++) {
        const hl_fact *new = &pair->b->facts[i];
        int at = hl__book_find_fact(pair->a, new->id);
        const hl_fact *old = at >= 0 ? &pair->a->facts[at] : NULL;
        if (old != NULL && old->has_value == new->has_value && old->value[0] == new->value[0] &&
            old->value[1] == new->value[1])
            continue;
        hl_text line = {0};
        hl__text_printf(&line, "%s: fact is now ", new->id);
        hl__text_double(&line, new->value[0]);
        if (new->value[0] != new->value[1]) {
            hl__text_add(&line, ", sharps ");
            hl__text_double(&line, new->value[1]);
        }
        add_line(pair, &line, &new->origin);
    }
}

static void compare_adjusters(hl_pair *pair)
{
    for (int i = 0; i < pair->b->n_adjusters; i++) {
        const hl_adjuster *new = &pair->b->adjusters[i];
        int at = hl_book_find_adjuster(pair->a, new->id);
        int known = at >= 0 ? pair->a->adjusters[at].n_changes : -1;
        if (at >= 0 && known == new->n_changes)
            continue;
        hl_text line = {0};
        hl__text_printf(&line, "%s: adjuster ", new->id);
        if (at < 0) {
            hl__text_add(&line, "is new");
            add_line(pair, &line, &new->origin);
            continue;
        }
        hl__text_add(&line, "is laid over");
        const hl_change *last = &new->changes[new->n_changes - 1];
        if (last->why[0] != '\0') {
            hl__text_add(&line, ": ");
            hl__text_safe(&line, last->why);
        }
        add_line(pair, &line, &last->origin);
    }
}

hl_code hl_book_diff(char **out, size_t *size, const hl_book *a, const hl_book *b, const hl_print *print,
                     hl_err *err)
{
    hl_text page = {0};
    hl_pair pair = {&page, a, b, print->width > 0 ? print->width : 80};
    for (int s = 0; s < a->n_steps; s++) {
        if (hl_book_find_step(b, a->steps[s].id) >= 0)
            continue;
        hl_text line = {0};
        hl__text_printf(&line, "%s: not in book %s", a->steps[s].id, b->id);
        add_line(&pair, &line, &a->steps[s].origin);
    }
    for (int s = 0; s < b->n_steps; s++) {
        int old = hl_book_find_step(a, b->steps[s].id);
        if (old >= 0) {
            compare_step(&pair, &a->steps[old], &b->steps[s]);
            continue;
        }
        hl_text line = {0};
        hl__text_printf(&line, "%s: new step", b->steps[s].id);
        add_line(&pair, &line, &b->steps[s].origin);
    }
    compare_facts(&pair);
    compare_adjusters(&pair);
    return hl__text_take(&page, out, size, err);
}
