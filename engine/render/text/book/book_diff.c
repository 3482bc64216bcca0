/* book_diff.c - what a shop's book changes against another, a line a difference (layer: render/text).
 *
 * Book a is the old one, b the new one; a line names where b says so. */
#include "leaf.h"
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

static void start_line(hl_text *line, const char *id, const char *what)
{
    hl__text_safe(line, id);
    hl__text_add(line, ": ");
    hl__text_add(line, what);
}

static void add_why(hl_text *line, const char *why)
{
    if (!why[0])
        return;
    hl__text_add(line, ": ");
    hl__text_safe(line, why);
}

/* The change that last set a field; NULL when the first entry's word stands. */
static const hl_change *find_change(const hl_change *changes, int n, const char *field)
{
    for (int i = n; i-- > 0;)
        if (strcmp(changes[i].field, field) == 0)
            return &changes[i];
    return NULL;
}

static void finish_field(pair *of, hl_text *line, const hl_step *step, const char *field)
{
    const hl_change *change = find_change(step->changes, step->n_changes, field);
    if (change)
        add_why(line, change->why);
    add_line(of, line, change ? change->origin : step->origin);
}

/* ---- steps ------------------------------------------------------------------------------------- */

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
    hl_text line = {0};
    int n = 0;
    if (find_other(of, old, new, false, &n) >= 0) {
        start_line(&line, new->id, "target ");
        hl__say_targets(&line, of->a, old);
        hl__text_add(&line, " becomes ");
        hl__say_targets(&line, of->b, new);
        finish_field(of, &line, new, "target");
        return;
    }
    const int pitch = find_other(of, old, new, true, &n);
    if (pitch < 0)
        return;
    start_line(&line, new->id, "aim ");
    hl__say_amount(&line, old->targets[pitch].aim, old->unit, old->resolution);
    hl__text_add(&line, " becomes ");
    hl__say_amount(&line, new->targets[pitch].aim, new->unit, new->resolution);
    if (pitch < HL_PITCHES)
        hl__text_printf(&line, " at %s", hl_pitch_name(pitch));
    if (n > 1)
        hl__text_printf(&line, " and at %d more", n - 1);
    finish_field(of, &line, new, "target");
}

static void compare_text(pair *of, const hl_step *step, const char *field, const char *old, const char *new)
{
    hl_text line = {0};
    if (strcmp(old, new) == 0)
        return;
    start_line(&line, step->id, field);
    hl__text_add(&line, old[0] ? " \"" : " (none");
    hl__text_safe(&line, old);
    hl__text_add(&line, old[0] ? "\" becomes " : ") becomes ");
    hl__text_add(&line, new[0] ? "\"" : "(none");
    hl__text_safe(&line, new);
    hl__text_add(&line, new[0] ? "\"" : ")");
    finish_field(of, &line, step, field);
}

static void say_stated(hl_text *line, hl_amount value, hl_unit unit)
{
    if (value == 0)
        hl__text_add(line, "(none)");
    else
        hl__say_amount(line, value, unit, 0);
}

static void compare_amount(pair *of, const hl_step *old, const hl_step *new, const char *field,
                           hl_amount before, hl_amount after)
{
    hl_text line = {0};
    if (before == after)
        return;
    start_line(&line, new->id, field);
    hl__text_char(&line, ' ');
    say_stated(&line, before, old->unit);
    hl__text_add(&line, " becomes ");
    say_stated(&line, after, new->unit);
    finish_field(of, &line, new, field);
}

static void compare_skip(pair *of, const hl_step *old, const hl_step *new)
{
    hl_text line = {0};
    if ((old->skipped == NULL) == (new->skipped == NULL))
        return;
    start_line(&line, new->id, new->skipped ? "left out" : "asked again");
    add_why(&line, new->skipped ? new->skipped : "");
    const hl_change *change = find_change(new->changes, new->n_changes, "skip");
    add_line(of, &line, change ? change->origin : new->origin);
}

static void compare_asked(pair *of, const hl_step *old, const hl_step *new)
{
    hl_text line = {0};
    if (old->need == new->need && old->scope == new->scope)
        return;
    start_line(&line, new->id, "asked of ");
    hl__say_asked(&line, old);
    hl__text_add(&line, " becomes ");
    hl__say_asked(&line, new);
    finish_field(of, &line, new, old->need != new->need ? "need" : "scope");
}

/* Lists of ids are told as texts. */
static void compare_fixes(pair *of, const hl_step *old, const hl_step *new)
{
    hl_text before = {0}, after = {0};
    for (int i = 0; i < old->n_fixes; i++)
        hl__text_printf(&before, "%s%s", i > 0 ? ", " : "", of->a->adjusters[old->fixes[i]].id);
    for (int i = 0; i < new->n_fixes; i++)
        hl__text_printf(&after, "%s%s", i > 0 ? ", " : "", of->b->adjusters[new->fixes[i]].id);
    of->leaf.out->failed |= before.failed || after.failed;
    compare_text(of, new, "fix", before.data ? before.data : "", after.data ? after.data : "");
    hl__text_free(&before);
    hl__text_free(&after);
}

static void compare_words(pair *of, const hl_step *old, const hl_step *new)
{
    hl_text before = {0}, after = {0};
    for (int i = 0; i < old->n_words; i++)
        hl__text_printf(&before, "%s%s", i > 0 ? ", " : "", old->words[i].word);
    for (int i = 0; i < new->n_words; i++)
        hl__text_printf(&after, "%s%s", i > 0 ? ", " : "", new->words[i].word);
    of->leaf.out->failed |= before.failed || after.failed;
    compare_text(of, new, "faults", before.data ? before.data : "", after.data ? after.data : "");
    hl__text_free(&before);
    hl__text_free(&after);
}

static void compare_numbers(pair *of, const hl_step *old, const hl_step *new)
{
    const char *before = old->formula ? old->formula->text : "";
    const char *after = new->formula ? new->formula->text : "";
    compare_targets(of, old, new);
    compare_amount(of, old, new, "even", old->even, new->even);
    compare_amount(of, old, new, "gauge", old->gauge, new->gauge);
    compare_amount(of, old, new, "resolution", old->resolution, new->resolution);
    compare_text(of, new, new->kind == HL_DERIVED ? "formula" : "model", before, after);
}

static void compare_step(pair *of, const hl_step *old, const hl_step *new)
{
    static const char *const kinds[] = {"measured", "judged", "derived"};
    compare_skip(of, old, new);
    compare_text(of, new, "title", old->title, new->title);
    compare_text(of, new, "plain", old->plain, new->plain);
    compare_text(of, new, "kind", kinds[old->kind], kinds[new->kind]);
    compare_text(of, new, "unit", hl_unit_name(old->unit), hl_unit_name(new->unit));
    compare_asked(of, old, new);
    if (old->kind != HL_JUDGED && new->kind != HL_JUDGED)
        compare_numbers(of, old, new);
    compare_words(of, old, new);
    compare_fixes(of, old, new);
    compare_text(of, new, "gauge_name", old->gauge_name, new->gauge_name);
    compare_text(of, new, "ask", old->ask, new->ask);
    compare_text(of, new, "why", old->why, new->why);
    compare_text(of, new, "method", old->method, new->method);
    compare_text(of, new, "caution", old->caution, new->caution);
    compare_text(of, new, "source", old->source, new->source);
}

static void compare_steps(pair *of)
{
    for (int s = 0; s < of->a->n_steps; s++) {
        hl_text line = {0};
        if (hl_book_find_step(of->b, of->a->steps[s].id) >= 0)
            continue;
        start_line(&line, of->a->steps[s].id, "not in book ");
        hl__text_safe(&line, of->b->id);
        add_line(of, &line, of->a->steps[s].origin);
    }
    for (int s = 0; s < of->b->n_steps; s++) {
        const int old = hl_book_find_step(of->a, of->b->steps[s].id);
        hl_text line = {0};
        if (old >= 0) {
            compare_step(of, &of->a->steps[old], &of->b->steps[s]);
            continue;
        }
        start_line(&line, of->b->steps[s].id, "new step");
        add_line(of, &line, of->b->steps[s].origin);
    }
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
        start_line(&line, "float", "");
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
        hl_text line = {0};
        if (hl__book_find_fact(of->b, of->a->facts[i].id) >= 0)
            continue;
        hl__text_add(&line, "fact ");
        start_line(&line, of->a->facts[i].id, "not in book ");
        hl__text_safe(&line, of->b->id);
        add_line(of, &line, of->a->facts[i].origin);
    }
    for (int i = 0; i < of->b->n_facts; i++) {
        const hl_fact *new = &of->b->facts[i];
        const int at = hl__book_find_fact(of->a, new->id);
        hl_text line = {0};
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
}

static void say_changed(pair *of, hl_text *line, const hl_adjuster *old, const hl_adjuster *new,
                        const char *field)
{
    static const char moves[] = "moves.";
    if (strncmp(field, moves, sizeof moves - 1) != 0) {
        hl__text_add(line, " is changed");
        return;
    }
    hl__text_char(line, ' ');
    say_move(line, of->a, old, field + sizeof moves - 1);
    hl__text_add(line, " becomes ");
    say_move(line, of->b, new, field + sizeof moves - 1);
}

/* Entries of b that a has not laid over the adjuster, each with its reason. */
static void compare_adjuster(pair *of, const hl_adjuster *old, const hl_adjuster *new)
{
    for (int i = 0; i < new->n_changes; i++) {
        const hl_change *change = &new->changes[i];
        bool known = strcmp(change->field, "why") == 0; /* it stands behind the others */
        for (int k = 0; k < old->n_changes && !known; k++)
            known = strcmp(old->changes[k].field, change->field) == 0 &&
                    strcmp(old->changes[k].origin.file, change->origin.file) == 0 &&
                    old->changes[k].origin.line == change->origin.line;
        if (known)
            continue;
        hl_text line = {0};
        start_line(&line, new->id, change->field);
        say_changed(of, &line, old, new, change->field);
        add_why(&line, change->why);
        add_line(of, &line, change->origin);
    }
    if (strcmp(old->origin.file, new->origin.file) != 0 || old->origin.line != new->origin.line) {
        hl_text line = {0};
        start_line(&line, new->id, "another adjuster of the same name");
        add_line(of, &line, new->origin);
    }
}

static void compare_adjusters(pair *of)
{
    for (int i = 0; i < of->a->n_adjusters; i++) {
        hl_text line = {0};
        if (hl_book_find_adjuster(of->b, of->a->adjusters[i].id) >= 0)
            continue;
        start_line(&line, of->a->adjusters[i].id, "not in book ");
        hl__text_safe(&line, of->b->id);
        add_line(of, &line, of->a->adjusters[i].origin);
    }
    for (int i = 0; i < of->b->n_adjusters; i++) {
        const int at = hl_book_find_adjuster(of->a, of->b->adjusters[i].id);
        hl_text line = {0};
        if (at >= 0) {
            compare_adjuster(of, &of->a->adjusters[at], &of->b->adjusters[i]);
            continue;
        }
        start_line(&line, of->b->adjusters[i].id, "new adjuster");
        add_line(of, &line, of->b->adjusters[i].origin);
    }
}

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

hl_code hl_book_diff(char **out, size_t *size, const hl_book *a, const hl_book *b, const hl_print *print,
                     hl_err *err)
{
    hl_text page = {0};
    pair of = {hl__leaf_start(&page, b, print), a, b};
    *out = NULL;
    compare_compass(&of);
    hl__leaf_choices_differ(&of.leaf, a, b);
    compare_floats(&of);
    compare_steps(&of);
    compare_facts(&of);
    compare_adjusters(&of);
    return hl__text_take(&page, out, size, err);
}
