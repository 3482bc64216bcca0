/* text_book.c - a book for people: its steps in order, and one step in full (layer: render). */
#include "audit.h"
#include "fail.h"
#include "quantity.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

typedef struct hl_leaf {
    hl_text *out;
    const hl_book *book;
    int width;
} hl_leaf;

static void add_paragraph(hl_leaf *leaf, hl_text *line, int first, int hang)
{
    if (line->data != NULL && !line->failed)
        hl__wrap(leaf->out, line->data, leaf->width, first, hang);
    leaf->out->failed |= line->failed;
    hl__text_free(line);
}

static bool is_same_target(const hl_target *a, const hl_target *b)
{
    return a->low == b->low && a->aim == b->aim && a->high == b->high && a->has_low == b->has_low &&
           a->has_high == b->has_high;
}

static void say_end(hl_text *line, const hl_book *book, const hl_step *step, int note)
{
    int pitch = hl_note_pitch(book->compass, note);
    hl__say_target(line, &step->targets[pitch], step->unit, step->resolution);
    hl__text_printf(line, " (%s)", hl_pitch_name(pitch));
}

/* One target for all notes, or the ones at the first and last note where they differ, by colour. */
static void say_targets(hl_text *line, const hl_book *book, const hl_step *step)
{
    if (step->scope == HL_ONCE) {
        hl__say_target(line, &step->targets[HL_PITCHES], step->unit, step->resolution);
        return;
    }
    bool begun = false;
    for (int sharp = 0; sharp < 2; sharp++) {
        int first = 0, last = 0;
        for (int note = 1; note <= book->compass.keys; note++) {
            int pitch = hl_note_pitch(book->compass, note);
            if (hl_pitch_is_sharp(pitch) != (sharp == 1) || !hl__step_at_pitch(step, pitch))
                continue;
            first = first == 0 ? note : first;
            last = note;
        }
        if (first == 0)
            continue;
        hl__text_add(line, begun ? "; " : "");
        hl__text_add(line, sharp ? "sharps " : "naturals ");
        begun = true;
        const hl_target *low = &step->targets[hl_note_pitch(book->compass, first)];
        const hl_target *high = &step->targets[hl_note_pitch(book->compass, last)];
        if (is_same_target(low, high)) {
            hl__say_target(line, low, step->unit, step->resolution);
            continue;
        }
        say_end(line, book, step, first);
        hl__text_add(line, " to ");
        say_end(line, book, step, last);
    }
}

static const char *name_need(const hl_step *step)
{
    if (step->skipped != NULL)
        return "left out";
    if (step->kind == HL_DERIVED)
        return "computed";
    static const char *const NEEDS[] = {"every note", "samples", "if you like"};
    static const char *const SCOPES[] = {"every note",   "naturals", "sharps",
                                         "damped notes", "sections", "once"};
    return step->need == HL_NEED_EVERY ? SCOPES[step->scope] : NEEDS[step->need];
}

static void add_step_line(hl_leaf *leaf, const hl_step *step)
{
    hl_text line = {0};
    hl__text_printf(&line, "%s ", step->id);
    hl__text_spaces(&line, 22 - (int)line.size);
    hl__text_printf(&line, "%s: ", name_need(step));
    if (step->skipped != NULL)
        hl__text_safe(&line, step->skipped);
    else if (step->kind == HL_JUDGED)
        hl__text_add(&line, "judged");
    else
        say_targets(&line, leaf->book, step);
    add_paragraph(leaf, &line, 2, 24);
}

hl_code hl_book_text(char **out, size_t *size, const hl_book *book, const hl_print *print, hl_err *err)
{
    hl_text page = {0};
    hl_leaf leaf = {&page, book, print->width > 0 ? print->width : 80};
    hl_text line = {0};
    hl__text_safe(&line, book->title);
    hl__text_printf(&line, " (book %s, api %d)", book->id, HL_RULE_API);
    add_paragraph(&leaf, &line, 0, 0);
    for (int stage = 0; stage < book->n_stages; stage++) {
        hl__text_char(&page, '\n');
        hl__text_safe(&line, book->stages[stage].title);
        add_paragraph(&leaf, &line, 0, 0);
        if (book->stages[stage].caution[0] != '\0') {
            hl__text_add(&line, "Caution: ");
            hl__text_safe(&line, book->stages[stage].caution);
            add_paragraph(&leaf, &line, 2, 2);
        }
        for (int s = 0; s < book->n_steps; s++)
            if (book->steps[s].stage == stage)
                add_step_line(&leaf, &book->steps[s]);
    }
    return hl__text_take(&page, out, size, err);
}

/* ---- one step ---- */

static void add_named(hl_leaf *leaf, const char *name, const char *text)
{
    if (text[0] == '\0')
        return;
    hl_text line = {0};
    hl__text_printf(&line, "%s ", name);
    hl__text_spaces(&line, 12 - (int)line.size);
    hl__text_safe(&line, text);
    add_paragraph(leaf, &line, 0, 12);
}

static void add_target(hl_leaf *leaf, const hl_step *step, int note)
{
    if (step->kind == HL_JUDGED)
        return;
    hl_text line = {0};
    hl__text_add(&line, "Target      ");
    if (note > 0) {
        int pitch = hl_note_pitch(leaf->book->compass, note);
        const hl_target *target = &step->targets[pitch];
        hl__text_printf(&line, "%s: ", hl_pitch_name(pitch));
        if (!hl__step_at_pitch(step, pitch)) {
            hl__text_add(&line, "does not apply to this note");
        } else {
            hl__say_target(&line, target, step->unit, step->resolution);
            if (target->has_low || target->has_high) {
                hl__text_add(&line, ", aim ");
                hl__say_amount(&line, target->aim, step->unit, step->resolution);
            }
        }
    } else {
        say_targets(&line, leaf->book, step);
    }
    add_paragraph(leaf, &line, 0, 12);
}

static void add_faults(hl_leaf *leaf, const hl_step *step)
{
    for (int i = 0; i < step->n_words; i++) {
        const hl_word *word = &step->words[i];
        hl_text line = {0};
        hl__text_add(&line, i == 0 ? "Faults      " : "            ");
        hl__text_safe(&line, word->word);
        hl__text_add(&line, ": ");
        hl__text_safe(&line, word->means);
        for (int k = 0; k < word->n_remedies; k++) {
            const hl_remedy *remedy = &word->remedies[k];
            hl__text_add(&line, k == 0 ? "; " : " or ");
            hl__say_way(&line, &leaf->book->adjusters[remedy->adjuster], remedy->more);
        }
        if (word->todo[0] != '\0') {
            hl__text_add(&line, "; ");
            hl__text_safe(&line, word->todo);
        }
        add_paragraph(leaf, &line, 0, 12);
    }
}

static void say_move(hl_text *line, const hl_book *book, const hl_adjuster *adjuster, const hl_move *move)
{
    hl__text_safe(line, book->steps[move->step].id);
    if (move->kind != HL_MOVE_BY) {
        hl__text_add(line, move->kind == HL_MOVE_STRONG ? " (amount unknown)" : " (slightly)");
        return;
    }
    hl__text_printf(line, " by %s %s a %s", move->formula->text, hl_unit_name(book->steps[move->step].unit),
                    hl_unit_name(adjuster->unit));
}

/* Each adjuster that cures the step, and all else that it moves. */
static void add_adjusters(hl_leaf *leaf, const hl_step *step)
{
    const hl_book *book = leaf->book;
    for (int i = 0; i < step->n_fixes; i++) {
        const hl_adjuster *adjuster = &book->adjusters[step->fixes[i]];
        hl_text line = {0};
        hl__text_add(&line, i == 0 ? "Adjusted by " : "or by       ");
        hl__text_printf(&line, "%s (%s or %s%s)", adjuster->title, adjuster->more, adjuster->less,
                        adjuster->assumed ? ", effect assumed" : "");
        add_paragraph(leaf, &line, 0, 12);
        hl__text_add(&line, "which moves ");
        for (int k = 0; k < adjuster->n_moves; k++) {
            hl__text_add(&line, k == 0 ? "" : ", ");
            say_move(&line, book, adjuster, &adjuster->moves[k]);
        }
        if (adjuster->n_moves == 0)
            hl__text_add(&line, "nothing else");
        add_paragraph(leaf, &line, 0, 12);
    }
}

static void add_moved_by(hl_leaf *leaf, int index)
{
    const hl_book *book = leaf->book;
    hl_text line = {0};
    for (int a = 0; a < book->n_adjusters; a++) {
        const hl_adjuster *adjuster = &book->adjusters[a];
        for (int k = 0; k < adjuster->n_moves; k++) {
            if (adjuster->moves[k].step != index)
                continue;
            hl__text_add(&line, line.size == 0 ? "Disturbed by " : ", ");
            hl__text_safe(&line, adjuster->title);
        }
    }
    if (line.size > 0)
        add_paragraph(leaf, &line, 0, 12);
}

static void add_origins(hl_leaf *leaf, const hl_step *step)
{
    hl_text line = {0};
    hl__text_printf(&line, "Set at      %s:%d", step->origin.file, step->origin.line);
    for (int i = 0; i < step->n_changes; i++) {
        const hl_change *change = &step->changes[i];
        hl__text_printf(&line, "; %s at %s:%d", change->field, change->origin.file, change->origin.line);
        if (change->why[0] != '\0') {
            hl__text_add(&line, " (");
            hl__text_safe(&line, change->why);
            hl__text_char(&line, ')');
        }
    }
    add_paragraph(leaf, &line, 0, 12);
}

hl_code hl_step_text(char **out, size_t *size, const hl_book *book, int index, int note,
                     const hl_print *print, hl_err *err)
{
    const hl_step *step = &book->steps[index];
    hl_text page = {0};
    hl_leaf leaf = {&page, book, print->width > 0 ? print->width : 80};
    hl_text line = {0};
    hl__text_safe(&line, step->title);
    hl__text_printf(&line, " (%s): %s", step->id, name_need(step));
    add_paragraph(&leaf, &line, 0, 0);
    if (step->skipped != NULL)
        add_named(&leaf, "Left out", step->skipped);
    add_target(&leaf, step, note);
    if (step->formula != NULL)
        add_named(&leaf, step->kind == HL_DERIVED ? "Computed" : "Model", step->formula->text);
    add_named(&leaf, "Measure", step->ask);
    add_named(&leaf, "Why", step->why);
    add_named(&leaf, "With", step->method);
    add_named(&leaf, "Gauge", step->gauge_name);
    add_named(&leaf, "Caution", step->caution);
    add_faults(&leaf, step);
    add_adjusters(&leaf, step);
    add_moved_by(&leaf, index);
    add_named(&leaf, "Source", step->unsourced ? "common practice; no published figure found" : step->source);
    add_origins(&leaf, step);
    return hl__text_take(&page, out, size, err);
}
