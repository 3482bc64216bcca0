/* book_check.c - what is wrong with a book that opens (layer: check).
 *
 * Words and sources that are missing, strong moves onto earlier work that nobody acknowledged, steps
 * that mask each other in a circle, targets that can't all be met at a note, a float that nothing
 * ties, a choice that decides nothing, diagnoses that say too little, and keys of sources that the register
 * does not have. */
#include "book_check.h"

#include "audit.h"
#include "effects.h"
#include "errors.h"
#include "nearest_name.h"
#include "quantity.h"
#include "source.h"
#include "text.h"
#include "tolerance_float.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void check_words(hl_checking *c, const hl_step *step)
{
    const char *missing = step->ask[0] == '\0' ? "ask" : step->why[0] == '\0' ? "why" : NULL;
    if (missing != NULL) {
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "%s says no `%s`", step->id, missing);
        hl__todo(err, "tell the technician %s", step->ask[0] == '\0' ? "how it is read" : "what it is for");
        hl__at(err, step->origin.file, step->origin.line, 0);
    }
    if (step->source[0] == '\0' && !step->unsourced) {
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "%s names no source", step->id);
        hl__todo(err, "give `source`, or say `unsourced = true` for common practice");
        hl__at(err, step->origin.file, step->origin.line, 0);
    }
}

void hl__check_source(hl_checking *c, const char *of, const char *source, hl_origin origin)
{
    hl_cited cited;
    while (hl__next_cited(&source, &cited)) {
        char key[64] = "";
        if (!hl__looks_like_source_key(cited.key, cited.key_size) || cited.key_size >= sizeof key ||
            hl__book_find_source(c->book, cited.key, cited.key_size) >= 0)
            continue;
        memcpy(key, cited.key, cited.key_size);
        hl_suggest suggest = {key, NULL, 0};
        for (int i = 0; i < c->book->n_sources; i++)
            hl__suggest_offer(&suggest, c->book->sources[i].key);
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "%s cites '%s', and the register has no such source", of, key);
        if (suggest.best != NULL)
            hl__todo(err, "did you mean '%s'?", suggest.best);
        else
            hl__todo(err, "add source { \"%s\", ... }, or write it in words", key);
        hl__at(err, origin.file, origin.line, 0);
    }
}

static void check_sources(hl_checking *c)
{
    const hl_book *book = c->book;
    if (book->n_sources == 0)
        return; /* a book without a register cites nothing by key */
    for (int i = 0; i < book->n_steps; i++)
        hl__check_source(c, book->steps[i].id, book->steps[i].source, book->steps[i].origin);
    for (int i = 0; i < book->n_adjusters; i++)
        hl__check_source(c, book->adjusters[i].id, book->adjusters[i].source, book->adjusters[i].origin);
    for (int i = 0; i < book->n_facts; i++)
        hl__check_source(c, book->facts[i].id, book->facts[i].source, book->facts[i].origin);
    for (int i = 0; i < book->n_choices; i++)
        hl__check_source(c, book->choices[i].id, book->choices[i].source, book->choices[i].origin);
    for (int i = 0; i < book->n_diagnoses; i++)
        hl__check_source(c, book->diagnoses[i].id, book->diagnoses[i].source, book->diagnoses[i].origin);
}

/* The first step in the book's order that the adjuster is there to cure; n_steps when none. */
static int find_home(const hl_book *book, int adjuster)
{
    for (int s = 0; s < book->n_steps; s++) {
        const hl_step *step = &book->steps[s];
        for (int i = 0; i < step->n_fixes; i++)
            if (step->fixes[i] == adjuster)
                return s;
        for (int w = 0; w < step->n_words; w++)
            for (int i = 0; i < step->words[w].n_remedies; i++)
                if (step->words[w].remedies[i].adjuster == adjuster)
                    return s;
    }
    return book->n_steps;
}

static bool is_acknowledged(const hl_book *book, int adjuster, int step)
{
    for (int i = 0; i < book->n_acknowledged; i++)
        if (book->acknowledged[i].adjuster == adjuster && book->acknowledged[i].step == step)
            return true;
    return false;
}

/* Does one smallest move shift the step by more than it can bear, at any note? */
static bool is_strong(const hl_book *book, const hl_adjuster *adjuster, const hl_move *move)
{
    if (move->kind != HL_MOVE_BY)
        return move->kind == HL_MOVE_STRONG;
    hl_amount least = adjuster->finest > 0    ? adjuster->finest
                      : adjuster->n_sizes > 0 ? adjuster->sizes[0]
                                              : 0;
    const hl_step *step = &book->steps[move->step];
    for (int pitch = 0; pitch < HL_PITCHES; pitch++) {
        const hl_target *target = &step->targets[pitch];
        if (!target->has_low || !target->has_high || !hl__step_at_pitch(step, pitch))
            continue;
        double vars[HL_FORMULA_VARS];
        for (int v = 0; v < move->formula->n_vars; v++)
            vars[v] = book->facts[move->formula->vars[v].index].value[hl_pitch_is_sharp(pitch)];
        double shift = fabs(hl__formula_value(move->formula, vars)) * (double)least;
        double bearable =
            (double)(target->high - target->low) / 2 * (double)book->stale_share / (double)HL_ONE;
        if (shift > bearable)
            return true;
    }
    return false;
}

static void check_moves(hl_checking *c, int a)
{
    const hl_book *book = c->book;
    const hl_adjuster *adjuster = &book->adjusters[a];
    int home = find_home(book, a);
    if (home == book->n_steps)
        return; /* nothing in this book calls for it */
    for (int i = 0; i < adjuster->n_moves; i++) {
        const hl_move *move = &adjuster->moves[i];
        if (move->step >= home || book->steps[move->step].skipped != NULL ||
            book->steps[home].skipped != NULL)
            continue;
        if (!is_strong(book, adjuster, move) || is_acknowledged(book, a, move->step))
            continue;
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "the %s is for %s, but it spoils %s, which comes earlier", adjuster->title,
                 book->steps[home].id, book->steps[move->step].id);
        hl__todo(err, "change the order, or acknowledge { \"%s\", \"%s\", why = ... }", adjuster->id,
                 book->steps[move->step].id);
        hl__at(err, move->origin.file, move->origin.line, 0);
    }
}

/* Can `from` be reached from itself along masks?  `seen` marks the steps already walked. */
static bool masks_reach(const hl_book *book, int from, int goal, unsigned char *seen)
{
    const hl_step *step = &book->steps[from];
    for (int i = 0; i < step->n_masks; i++) {
        int next = step->masks[i];
        if (next == goal)
            return true;
        if (seen[next])
            continue;
        seen[next] = 1;
        if (masks_reach(book, next, goal, seen))
            return true;
    }
    return false;
}

static void check_masks(hl_checking *c)
{
    const hl_book *book = c->book;
    unsigned char *seen = calloc((size_t)book->n_steps + 1, 1);
    if (seen == NULL) {
        c->no_memory = true;
        return;
    }
    for (int s = 0; s < book->n_steps; s++) {
        memset(seen, 0, (size_t)book->n_steps);
        if (!masks_reach(book, s, s, seen))
            continue;
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "%s masks itself, by way of the steps that it masks", book->steps[s].id);
        hl__todo(err, "one of them must come first; take the other's `masks` out");
        hl__at(err, book->steps[s].origin.file, book->steps[s].origin.line, 0);
    }
    free(seen);
}

/* What the step that gives way may be beyond its target by. */
static hl_amount find_room(const hl_book *book, int step)
{
    return book->floats.step == step ? book->floats.within : 0;
}

/* What the formula gives when all that it reads is at its aim; NaN when something has none.  `way`: the step
 * that gives way is at the low (-1) or high (1) end of its float instead. */
static double value_at_aims(const hl_book *book, const hl_formula *formula, int pitch, int way)
{
    double vars[HL_FORMULA_VARS];
    for (int v = 0; v < formula->n_vars; v++) {
        const hl_var *var = &formula->vars[v];
        if (var->kind == HL_VAR_FACT) {
            const hl_fact *fact = &book->facts[var->index];
            vars[v] = fact->has_value ? fact->value[hl_pitch_is_sharp(pitch)] : NAN;
            continue;
        }
        const hl_step *step = &book->steps[var->index];
        const hl_target *target = &step->targets[pitch];
        bool usable = hl__step_at_pitch(step, pitch) && (target->has_low || target->has_high);
        const hl_amount at = target->aim + way * find_room(book, var->index);
        vars[v] = usable ? (double)at / (double)HL_ONE : NAN;
    }
    return hl__formula_value(formula, vars);
}

static bool is_outside(const hl_step *step, int pitch, hl_amount value, hl_amount room)
{
    const hl_target *target = &step->targets[pitch];
    return (target->has_low && value < target->low - room) ||
           (target->has_high && value > target->high + room);
}

/* Outside, wherever within its float the step that gives way is.  *value: with everything at its aim. */
static bool contradicts(const hl_book *book, int s, int pitch, hl_amount *value)
{
    const hl_step *step = &book->steps[s];
    const hl_target *target = &step->targets[pitch];
    bool outside = true;
    if (!hl__step_at_pitch(step, pitch) || (!target->has_low && !target->has_high))
        return false;
    for (int way = 1; way >= -1; way--) {
        hl_amount here;
        if (!hl__amount_from(value_at_aims(book, step->formula, pitch, way), &here))
            return false;
        if (step->resolution > 0)
            here = hl__round_to(here, step->resolution);
        outside = outside && is_outside(step, pitch, here, find_room(book, s));
        if (way == 0)
            *value = here;
    }
    return outside;
}

/* ---- who made targets contradict each other ---------------------------------------------------- */

/* The last entry that changed what the step must be, or NULL. */
static const hl_change *find_change(const hl_step *step, bool formula)
{
    const hl_change *last = NULL;
    for (int i = 0; i < step->n_changes; i++) {
        const char *field = step->changes[i].field;
        if (strcmp(field, "target") == 0 ||
            (formula && (strcmp(field, "formula") == 0 || strcmp(field, "model") == 0)))
            last = &step->changes[i];
    }
    return last;
}

/* All the changes that a contradiction may come from are named; the last one is where it is. */
static hl_origin tell_changes(const hl_book *book, const hl_step *step, hl_text *out)
{
    hl_origin at = step->origin;
    const hl_formula *formula = step->formula;
    int n = 0;
    for (int i = -1; i < formula->n_vars; i++) {
        if (i >= 0 && formula->vars[i].kind != HL_VAR_STEP)
            continue;
        const hl_step *other = i < 0 ? step : &book->steps[formula->vars[i].index];
        const hl_change *change = find_change(other, i < 0);
        if (change == NULL)
            continue;
        if (n == 0 || hl__is_later(book, change->origin, at))
            at = change->origin;
        hl__text_add(out, n++ > 0 ? ", " : "changed: ");
        hl__text_printf(out, "%s (%s:%d)", other->id, change->origin.file, change->origin.line);
    }
    hl__text_add(out, n > 0 ? "; " : "");
    return at;
}

/* "key_dip, blow, let_off, aftertouch": whose targets may give way. */
static void list_steps(const hl_book *book, const hl_step *step, hl_text *out)
{
    const hl_formula *formula = step->formula;
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP)
            hl__text_printf(out, "%s, ", book->steps[formula->vars[i].index].id);
    hl__text_add(out, step->id);
}

static void complain_of_targets(hl_checking *c, const hl_step *step, int pitch, hl_amount value, int n)
{
    hl_err *err = hl__complain(c);
    hl_text text = {0}, changed = {0}, steps = {0};
    hl__text_amount(&text, value, step->unit, step->resolution, true);
    hl__fail(err, HL_E_RULE,
             "with all else at its aim, %s comes to %s at %s, outside its own target (%d notes)", step->id,
             text.data != NULL ? text.data : "a value", hl_pitch_name(pitch), n);
    const hl_origin at = tell_changes(c->book, step, &changed);
    list_steps(c->book, step, &steps);
    hl__todo(err, "targets contradict each other; %sgive one of these another target: %s",
             changed.data != NULL ? changed.data : "", steps.data != NULL ? steps.data : "");
    hl__at(err, at.file, at.line, 0);
    c->no_memory |= text.failed || changed.failed || steps.failed;
    hl__text_free(&text);
    hl__text_free(&changed);
    hl__text_free(&steps);
}

static void check_targets(hl_checking *c, const hl_step *step)
{
    if (step->formula == NULL || step->skipped != NULL)
        return;
    const hl_book *book = c->book;
    int first = -1, n = 0;
    hl_amount value = 0, shown = 0;
    for (int note = 1; note <= book->compass.keys; note++) {
        int pitch = hl_note_pitch(book->compass, note);
        if (!contradicts(book, (int)(step - book->steps), pitch, &value))
            continue;
        if (n++ == 0) {
            first = pitch;
            shown = value;
        }
    }
    if (n > 0)
        complain_of_targets(c, step, first, shown, n);
}

static void check_float(hl_checking *c)
{
    const hl_float *floats = &c->book->floats;
    if (floats->step < 0 || hl__float_model(c->book) >= 0)
        return;
    hl_err *err = hl__complain(c);
    hl__fail(err, HL_E_RULE, "%s can't give way: no step's model ties it to others",
             c->book->steps[floats->step].id);
    hl__todo(err, "float a step that a `model` reads, or give a step a `model` that reads this one");
    hl__at(err, floats->origin.file, floats->origin.line, 0);
}

static void check_choices(hl_checking *c)
{
    for (int i = 0; i < c->book->n_choices; i++) {
        const hl_chosen *choice = &c->book->choices[i];
        if (choice->uses > 0 || choice->n_changes == 0)
            continue;
        hl_origin at = choice->changes[choice->n_changes - 1].origin;
        hl_err *err = hl__complain(c);
        hl__fail(err, HL_E_RULE, "%s is chosen, and no step of this book goes by it", choice->id);
        hl__todo(err, "take the `choose` out, or the `change` that put another value in its place");
        hl__at(err, at.file, at.line, 0);
    }
}

static void complain_of(hl_checking *c, const hl_diagnosis *diagnosis, const char *what, const char *todo)
{
    hl_err *err = hl__complain(c);
    hl__fail(err, HL_E_RULE, "diagnosis %s %s", diagnosis->id, what);
    hl__todo(err, "%s", todo);
    hl__at(err, diagnosis->origin.file, diagnosis->origin.line, 0);
}

static void check_diagnosis(hl_checking *c, int i)
{
    const hl_diagnosis *diagnosis = &c->book->diagnoses[i];
    if (diagnosis->source[0] == '\0')
        complain_of(c, diagnosis, "names no source", "say where its causes and their order come from");
    for (int k = 0; k < diagnosis->n_causes; k++)
        if (diagnosis->causes[k].test[0] == '\0')
            complain_of(c, diagnosis, "has a cause without `test`",
                        "say what quick test tells it from the others");
    if (diagnosis->quiet_by >= 0 && hl__book_quiet_circle(c->book, i))
        complain_of(c, diagnosis, "is silenced in a circle, so nothing is", "take one `quiet_by` out");
}

hl_code hl_book_check(hl_complaints *complaints, const hl_book *book, hl_err *err)
{
    hl_checking c = {.book = book, .complaints = complaints};
    for (int s = 0; s < book->n_steps; s++) {
        check_words(&c, &book->steps[s]);
        check_targets(&c, &book->steps[s]);
    }
    for (int a = 0; a < book->n_adjusters; a++)
        check_moves(&c, a);
    check_masks(&c);
    check_float(&c);
    check_choices(&c);
    check_sources(&c);
    for (int i = 0; i < book->n_diagnoses; i++)
        check_diagnosis(&c, i);
    hl__check_workable(&c);
    return c.no_memory ? hl__no_memory(err) : HL_OK;
}
