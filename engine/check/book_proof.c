/* book_proof.c - can the work be done by this book? (layer: check)
 *
 * A book may open, and be free of contradictions, and nobody could get a piano through it: no value that can
 * be read passes, the smallest move jumps over the target, the adjuster that is named does nothing.  Each is
 * looked for at every note of the compass. */
#include "book_check.h"

#include "errors.h"
#include "quantity.h"
#include "text.h"

#include <math.h>
#include <string.h>

/* Where it was said last what the field of a step is. */
static hl_origin find_place(const hl_step *step, const char *field)
{
    hl_origin at = step->origin;
    for (int i = 0; i < step->n_changes; i++)
        if (strcmp(step->changes[i].field, field) == 0)
            at = step->changes[i].origin;
    return at;
}

static hl_origin later_of(const hl_book *book, hl_origin a, hl_origin b)
{
    return hl__is_later(book, a, b) ? a : b;
}

static bool is_asked(const hl_book *book, const hl_step *step, int note)
{
    return hl__step_at_pitch(step, hl_note_pitch(book->compass, note));
}

static const hl_target *target_at(const hl_book *book, const hl_step *step, int note)
{
    return &step->targets[step->scope == HL_ONCE ? HL_PITCHES : hl_note_pitch(book->compass, note)];
}

/* The notes at which something is wrong: the first, and how many. */
typedef struct places {
    int first, n;
} places;

static void add_place(places *of, int note)
{
    of->first = of->n++ == 0 ? note : of->first;
}

static void say_places(hl_text *out, const hl_book *book, const hl_step *step, places of)
{
    if (step->scope == HL_ONCE)
        return;
    hl__text_printf(out, " at %s", hl_pitch_name(hl_note_pitch(book->compass, of.first)));
    if (of.n > 1)
        hl__text_printf(out, " (%d notes)", of.n);
}

static void complain_at(hl_checking *c, hl_text *text, const char *todo, hl_origin at)
{
    hl_err *err = hl__complain(c);
    c->no_memory |= text->failed;
    hl__fail(err, HL_E_RULE, "%s", text->data != NULL ? text->data : "");
    hl__todo(err, "%s", todo);
    hl__at(err, at.file, at.line, 0);
    hl__text_free(text);
}

/* ---- a reading that passes --------------------------------------------------------------------- */

/* Is there a whole number of resolutions from low to high? */
static bool can_pass(const hl_step *step, const hl_target *target)
{
    if (!target->has_low || !target->has_high || step->resolution <= 0)
        return true;
    const hl_amount low = target->low, grain = step->resolution;
    hl_amount up = low / grain * grain;
    up += up < low ? grain : 0;
    return up <= target->high;
}

static void check_readable(hl_checking *c, const hl_step *step)
{
    const hl_book *book = c->book;
    places of = {0, 0};
    for (int note = 1; note <= book->compass.keys; note++)
        if (is_asked(book, step, note) && !can_pass(step, target_at(book, step, note)))
            add_place(&of, note);
    if (of.n == 0)
        return;
    hl_text text = {0};
    const hl_target *target = target_at(book, step, of.first);
    hl__text_printf(&text, "%s: nothing that is read to ", step->id);
    hl__text_amount(&text, step->resolution, step->unit, 0, true);
    hl__text_add(&text, " lies from ");
    hl__text_amount(&text, target->low, step->unit, 0, false);
    hl__text_add(&text, " to ");
    hl__text_amount(&text, target->high, step->unit, 0, true);
    say_places(&text, book, step, of);
    complain_at(c, &text, "give a finer resolution, or a wider target",
                later_of(book, find_place(step, "target"), find_place(step, "resolution")));
}

static void check_even(hl_checking *c, const hl_step *step)
{
    if (step->even == 0 || step->even >= step->resolution)
        return;
    hl_text text = {0};
    hl__text_printf(&text, "%s: even ", step->id);
    hl__text_amount(&text, step->even, step->unit, 0, true);
    hl__text_add(&text, " is finer than what is read, ");
    hl__text_amount(&text, step->resolution, step->unit, 0, true);
    hl__text_add(&text, ": any two readings that differ are uneven");
    complain_at(c, &text, "give a finer resolution, or a larger `even`",
                later_of(c->book, find_place(step, "even"), find_place(step, "resolution")));
}

/* ---- the ways out ------------------------------------------------------------------------------ */

static const hl_move *find_move(const hl_adjuster *adjuster, int step)
{
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == step)
            return &adjuster->moves[i];
    return NULL;
}

/* By itself, or through what the step is computed from. */
static bool moves_step(const hl_book *book, const hl_adjuster *adjuster, int step, int depth)
{
    const hl_formula *formula = book->steps[step].formula;
    if (find_move(adjuster, step) != NULL)
        return true;
    for (int i = 0; formula != NULL && depth < book->n_steps && i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP &&
            moves_step(book, adjuster, formula->vars[i].index, depth + 1))
            return true;
    return false;
}

static hl_amount least_move(const hl_adjuster *adjuster)
{
    return adjuster->n_sizes > 0 ? adjuster->sizes[0] : adjuster->finest;
}

/* Does the smallest move jump over the whole target? */
static void check_landing(hl_checking *c, const hl_step *step, const hl_adjuster *adjuster,
                          const hl_move *move)
{
    const hl_book *book = c->book;
    places of = {0, 0};
    double shift = 0;
    for (int note = 1; note <= book->compass.keys; note++) {
        const hl_target *target = target_at(book, step, note);
        const int colour = hl_pitch_is_sharp(hl_note_pitch(book->compass, note));
        if (!is_asked(book, step, note) || !target->has_low || !target->has_high)
            continue;
        const double here = fabs(hl__move_effect(book, move, colour)) * (double)least_move(adjuster);
        if (here > (double)(target->high - target->low) + (double)step->resolution) {
            shift = of.n == 0 ? here : shift;
            add_place(&of, note);
        }
    }
    hl_amount amount;
    if (of.n == 0 || !hl__amount_from(shift / (double)HL_ONE, &amount))
        return;
    hl_text text = {0};
    hl__text_printf(&text, "%s: the smallest move of %s, ", step->id, adjuster->id);
    hl__text_amount(&text, least_move(adjuster), adjuster->unit, 0, true);
    hl__text_add(&text, ", shifts it by ");
    hl__text_amount(&text, hl__round_to(amount, HL_ONE / 1000), step->unit, 0, true);
    hl__text_add(&text, ", and its target is ");
    const hl_target *target = target_at(book, step, of.first);
    hl__text_amount(&text, target->high - target->low, step->unit, 0, true);
    hl__text_add(&text, " wide");
    say_places(&text, book, step, of);
    complain_at(c, &text, "give the adjuster a finer move, or the step a wider target; check the units",
                later_of(book, find_place(step, "target"), move->origin));
}

static void check_fixes(hl_checking *c, int s)
{
    const hl_book *book = c->book;
    const hl_step *step = &book->steps[s];
    for (int i = 0; i < step->n_fixes; i++) {
        const hl_adjuster *adjuster = &book->adjusters[step->fixes[i]];
        const hl_move *move = find_move(adjuster, s);
        if (move != NULL && move->kind == HL_MOVE_BY)
            check_landing(c, step, adjuster, move);
        if (moves_step(book, adjuster, s, 0))
            continue;
        hl_text text = {0};
        hl__text_printf(&text, "%s is to be corrected by %s, which does not move it", step->id, adjuster->id);
        complain_at(c, &text,
                    "say in the adjuster's `moves` what it does to the step, or take it out of `fix`",
                    find_place(step, "fix"));
    }
}

static void check_acknowledged(hl_checking *c)
{
    const hl_book *book = c->book;
    for (int i = 0; i < book->n_acknowledged; i++) {
        const hl_acknowledged *one = &book->acknowledged[i];
        if (moves_step(book, &book->adjusters[one->adjuster], one->step, 0))
            continue;
        hl_text text = {0};
        hl__text_printf(&text, "%s does not move %s, so there is nothing to acknowledge",
                        book->adjusters[one->adjuster].id, book->steps[one->step].id);
        complain_at(c, &text, "take the `acknowledge` out, or name what it moves", one->origin);
    }
}

/* ---- diagnoses that never speak ---------------------------------------------------------------- */

/* What a step can be at a note, as far as a condition of yes and no asks. */
typedef enum state { IS_MISSING, IS_PASSING, IS_LOW, IS_HIGH, IS_WRONG, STATES } state;

#define MOST_ASKED 6 /* steps in one condition that are gone through in all their states */

static bool can_be(const hl_step *step, state now)
{
    bool low = false, high = false;
    for (int pitch = 0; pitch <= HL_PITCHES; pitch++) {
        low = low || step->targets[pitch].has_low;
        high = high || step->targets[pitch].has_high;
    }
    return now == IS_LOW     ? low && step->kind != HL_JUDGED
           : now == IS_HIGH  ? high && step->kind != HL_JUDGED
           : now == IS_WRONG ? step->kind == HL_JUDGED || step->even > 0
                             : true;
}

static double answer(hl_aspect aspect, state now)
{
    switch (aspect) {
    case HL_ASPECT_LOW:
        return now == IS_LOW;
    case HL_ASPECT_HIGH:
        return now == IS_HIGH;
    case HL_ASPECT_PASSES:
        return now == IS_PASSING;
    case HL_ASPECT_FAILS:
        return now == IS_LOW || now == IS_HIGH || now == IS_WRONG;
    case HL_ASPECT_MISSING:
        return now == IS_MISSING;
    default:
        return now != IS_MISSING;
    }
}

/* True also when the condition asks for numbers, which are not gone through, and when it asks about a step
 * that the book leaves out: a shop need not take out every diagnosis of the book it builds on. */
static bool can_speak(const hl_book *book, const hl_formula *when)
{
    int asked[MOST_ASKED], n = 0, states[MOST_ASKED] = {0};
    for (int i = 0; i < when->n_vars; i++) {
        const hl_var *var = &when->vars[i];
        int k = 0;
        if (var->kind != HL_VAR_STEP || var->aspect == HL_ASPECT_VALUE ||
            var->aspect == HL_ASPECT_NEIGHBOURS || book->steps[var->index].skipped != NULL)
            return true;
        while (k < n && asked[k] != var->index)
            k++;
        if (k == MOST_ASKED)
            return true;
        asked[k] = var->index;
        n = k == n ? n + 1 : n;
    }
    for (;;) {
        double vars[HL_FORMULA_VARS];
        bool possible = true;
        for (int k = 0; k < n; k++)
            possible = possible && can_be(&book->steps[asked[k]], (state)states[k]);
        for (int i = 0; i < when->n_vars; i++)
            for (int k = 0; k < n; k++)
                if (asked[k] == when->vars[i].index)
                    vars[i] = answer(when->vars[i].aspect, (state)states[k]);
        if (possible && hl__formula_value(when, vars) > 0)
            return true;
        int k = 0;
        while (k < n && ++states[k] == STATES)
            states[k++] = 0;
        if (k == n)
            return false;
    }
}

static void check_diagnoses(hl_checking *c)
{
    for (int i = 0; i < c->book->n_diagnoses; i++) {
        const hl_diagnosis *diagnosis = &c->book->diagnoses[i];
        if (can_speak(c->book, diagnosis->when))
            continue;
        hl_text text = {0};
        hl__text_printf(&text, "diagnosis %s can never hold: \"%.120s\"", diagnosis->id,
                        diagnosis->when->text);
        complain_at(c, &text,
                    "look for a step that is left out, one that cannot be low or high, or words that exclude "
                    "each other",
                    diagnosis->origin);
    }
}

void hl__check_workable(hl_checking *c)
{
    for (int s = 0; s < c->book->n_steps; s++) {
        const hl_step *step = &c->book->steps[s];
        if (step->skipped != NULL)
            continue;
        if (step->kind == HL_MEASURED)
            check_readable(c, step);
        check_even(c, step);
        check_fixes(c, s);
    }
    check_acknowledged(c);
    check_diagnoses(c);
}
