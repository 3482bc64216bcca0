/* rule_page.c - one step or one adjuster of a book in full, each thing with the place that set it
 * (layer: render/text). */
#include "errors.h"
#include "leaf.h"
#include "quantity.h"
#include "sentence.h"
#include "source.h"
#include "wrap.h"

#include <math.h>
#include <string.h>

#define COLUMN 14 /* where the text begins, behind its label */

static void start_label(hl_text *line, const char *label)
{
    hl__text_add(line, label);
    hl__leaf_column(line, COLUMN);
}

static void add_line(hl_leaf *leaf, hl_text *line)
{
    hl__leaf_add(leaf, line, 0, COLUMN);
}

static void add_labelled(hl_leaf *leaf, const char *label, const char *text)
{
    hl_text line = {0};
    if (!text[0])
        return;
    start_label(&line, label);
    hl__text_safe(&line, text);
    add_line(leaf, &line);
}

/* ---- what a step asks -------------------------------------------------------------------------- */

static void say_target_at(hl_text *line, const hl_book *book, const hl_step *step, int note)
{
    const int pitch = hl_note_pitch(book->compass, note);
    const hl_target *target = &step->targets[pitch];
    hl__text_add(line, hl_pitch_name(pitch));
    hl__text_add(line, ": ");
    if (step->scope == HL_ONCE) {
        hl__text_add(line, "read once for the instrument, not at a note");
        return;
    }
    if (!hl__step_at_pitch(step, pitch)) {
        hl__text_add(line, "does not apply to this note");
        return;
    }
    hl__say_target(line, target, step->unit, step->resolution);
    if (target->has_low || target->has_high) {
        hl__text_add(line, ", aim ");
        hl__say_amount(line, target->aim, step->unit, step->resolution);
    }
}

static void add_target(hl_leaf *leaf, const hl_step *step, int note)
{
    hl_text line = {0};
    if (step->kind == HL_JUDGED)
        return;
    start_label(&line, "Target");
    if (note > 0)
        say_target_at(&line, leaf->book, step, note);
    else
        hl__say_targets(&line, leaf->book, step);
    if (step->even > 0) {
        hl__text_add(&line, "; within ");
        hl__say_amount(&line, step->even, step->unit, 0);
        hl__text_add(&line,
                     step->across_colours ? " of its neighbours of both colours" : " of its neighbours");
    }
    add_line(leaf, &line);
}

static void add_reading(hl_leaf *leaf, const hl_step *step)
{
    hl_text line = {0};
    add_labelled(leaf, "Measure", step->ask);
    if (step->pair >= 0)
        add_labelled(leaf, "Together with", leaf->book->steps[step->pair].title);
    add_labelled(leaf, "With", step->method);
    add_labelled(leaf, "Go/no-go", step->gauge_name);
    if (step->kind != HL_JUDGED && step->resolution > 0) {
        start_label(&line, step->kind == HL_DERIVED ? "Rounded to" : "Read to");
        hl__say_amount(&line, step->resolution, step->unit, 0);
        if (step->gauge > 0) {
            hl__text_add(&line, "; the gauge is good to ");
            hl__say_amount(&line, step->gauge, step->unit, 0);
        }
        add_line(leaf, &line);
    }
    add_labelled(leaf, "Why", step->why);
    add_labelled(leaf, "Careful", step->caution);
    add_labelled(leaf, "For owners", step->plain);
}

static void add_faults(hl_leaf *leaf, const hl_step *step)
{
    hl_text line = {0};
    add_labelled(leaf, "If low", step->low_todo);
    add_labelled(leaf, "If high", step->high_todo);
    for (int i = 0; i < step->n_words; i++) {
        const hl_word *word = &step->words[i];
        start_label(&line, i == 0 ? "Faults" : "");
        hl__text_safe(&line, word->word);
        if (word->means[0]) {
            hl__text_add(&line, ": ");
            hl__text_safe(&line, word->means);
        }
        for (int k = 0; k < word->n_remedies; k++) {
            const hl_remedy *remedy = &word->remedies[k];
            hl__text_add(&line, k == 0 ? "; " : " or ");
            hl__say_way(&line, &leaf->book->adjusters[remedy->adjuster], remedy->more);
        }
        if (word->todo[0]) {
            hl__text_add(&line, "; ");
            hl__text_safe(&line, word->todo);
        }
        add_line(leaf, &line);
    }
}

/* ---- what moves what --------------------------------------------------------------------------- */

/* The formula with the book's own facts; NaN when it names none for one of them. */
static double find_effect(const hl_book *book, const hl_formula *formula, bool sharp)
{
    double vars[HL_FORMULA_VARS];
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        const bool known = var->kind == HL_VAR_FACT && book->facts[var->index].has_value;
        vars[i] = known ? book->facts[var->index].value[sharp] : (double)NAN;
    }
    return hl__formula_value(formula, vars);
}

/* "blow by -10 mm a turn (-capstan_pitch * travel_ratio / capstan_ratio)". */
static void say_move(hl_text *line, const hl_book *book, const hl_adjuster *adjuster, const hl_move *move,
                     bool sharp)
{
    const hl_step *step = &book->steps[move->step];
    hl__text_safe(line, step->id);
    if (move->kind != HL_MOVE_BY) {
        hl__text_add(line, move->sign > 0 ? " up" : move->sign < 0 ? " down" : "");
        hl__text_add(line, move->kind == HL_MOVE_STRONG ? " (read it again)" : " (slightly)");
        return;
    }
    hl_amount effect = 0;
    const bool known = hl__amount_from(find_effect(book, move->formula, sharp), &effect);
    hl__text_add(line, known || move->sign == 0 ? " by " : move->sign > 0 ? " up, by " : " down, by ");
    if (known) {
        hl__say_amount(line, effect, step->unit == HL_IN ? HL_MM : step->unit, 0);
        hl__text_printf(line, " a%c", HL_GLUE);
        hl__text_add(line, adjuster->unit == HL_NO_UNIT ? "move" : hl_unit_name(adjuster->unit));
    }
    if (!known || !move->formula->literal) {
        hl__text_add(line, known ? " (" : "");
        hl__text_safe(line, move->formula->text);
        hl__text_add(line, known ? ")" : "");
    }
    hl__text_add(line, move->again ? " (a guess, read it again)" : "");
}

static void add_moves(hl_leaf *leaf, const hl_adjuster *adjuster, const char *label, int note)
{
    const bool sharp = note > 0 && hl_pitch_is_sharp(hl_note_pitch(leaf->book->compass, note));
    hl_text line = {0};
    for (int k = 0; k < adjuster->n_moves; k++) {
        if (k == 0)
            start_label(&line, label);
        else
            hl__text_add(&line, ", ");
        say_move(&line, leaf->book, adjuster, &adjuster->moves[k], sharp);
    }
    add_line(leaf, &line);
}

/* Each adjuster that cures the step, and all else that it moves. */
static void add_cures(hl_leaf *leaf, const hl_step *step, int note)
{
    hl_text line = {0};
    for (int i = 0; i < step->n_fixes; i++) {
        const hl_adjuster *adjuster = &leaf->book->adjusters[step->fixes[i]];
        start_label(&line, i == 0 ? "Adjusted by" : "or by");
        hl__text_safe(&line, adjuster->title);
        hl__text_add(&line, ": ");
        hl__text_safe(&line, adjuster->more);
        hl__text_add(&line, " or ");
        hl__text_safe(&line, adjuster->less);
        hl__text_add(&line, adjuster->assumed ? "; how far is assumed" : "");
        hl__say_place(&line, adjuster->origin);
        add_line(leaf, &line);
        add_moves(leaf, adjuster, "and moves", note);
    }
}

static bool is_cure(const hl_step *step, int adjuster)
{
    for (int i = 0; i < step->n_fixes; i++)
        if (step->fixes[i] == adjuster)
            return true;
    for (int w = 0; w < step->n_words; w++)
        for (int i = 0; i < step->words[w].n_remedies; i++)
            if (step->words[w].remedies[i].adjuster == adjuster)
                return true;
    return false;
}

/* Adjusters that are there for something else. */
static void add_disturbers(hl_leaf *leaf, int index)
{
    static const char *const marks[] = {"", " (read it again)", " (slightly)"};
    const hl_book *book = leaf->book;
    hl_text line = {0};
    for (int a = 0; a < book->n_adjusters; a++) {
        const hl_adjuster *adjuster = &book->adjusters[a];
        for (int k = 0; k < adjuster->n_moves; k++) {
            if (adjuster->moves[k].step != index || is_cure(&book->steps[index], a))
                continue;
            if (line.size == 0)
                start_label(&line, "Disturbed by");
            else
                hl__text_add(&line, ", ");
            hl__text_safe(&line, adjuster->title);
            hl__text_add(&line, marks[adjuster->moves[k].kind]);
        }
    }
    add_line(leaf, &line);
}

static void add_masks(hl_leaf *leaf, int index)
{
    const hl_book *book = leaf->book;
    const hl_step *step = &book->steps[index];
    hl_text line = {0};
    for (int i = 0; i < step->n_masks; i++) {
        if (i == 0)
            start_label(&line, "Comes before");
        hl__text_add(&line, i > 0 ? ", " : "");
        hl__text_safe(&line, book->steps[step->masks[i]].id);
    }
    if (step->n_masks > 0)
        hl__text_add(&line, ", which mean nothing while this is wrong");
    add_line(leaf, &line);
    for (int s = 0; s < book->n_steps; s++) {
        for (int i = 0; i < book->steps[s].n_masks; i++) {
            if (book->steps[s].masks[i] != index)
                continue;
            if (line.size == 0)
                start_label(&line, "Comes after");
            else
                hl__text_add(&line, ", ");
            hl__text_safe(&line, book->steps[s].id);
        }
    }
    add_line(leaf, &line);
}

/* ---- where it was set -------------------------------------------------------------------------- */

static void add_origins(hl_leaf *leaf, hl_origin origin, const hl_change *changes, int n)
{
    hl_text line = {0};
    start_label(&line, "Set at");
    hl__text_safe(&line, origin.file);
    hl__text_printf(&line, ":%d", origin.line);
    add_line(leaf, &line);
    for (int i = 0; i < n; i++) {
        start_label(&line, i == 0 ? "Changed at" : "");
        hl__text_safe(&line, changes[i].origin.file);
        hl__text_printf(&line, ":%d: ", changes[i].origin.line);
        hl__text_safe(&line, changes[i].field);
        if (changes[i].why[0]) {
            hl__text_add(&line, " (");
            hl__text_safe(&line, changes[i].why);
            hl__text_char(&line, ')');
        }
        add_line(leaf, &line);
    }
}

static void add_cited(hl_text *line, const hl_book *book, const hl_cited *cited)
{
    const int found = hl__book_find_source(book, cited->key, cited->key_size);
    if (found < 0) {
        hl__text_safe_n(line, cited->key, cited->key_size);
    } else {
        const hl_source *source = &book->sources[found];
        const char *const parts[] = {source->archive, source->subject, source->date};
        const char *between = "";
        for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
            if (!parts[i][0])
                continue;
            hl__text_add(line, between);
            hl__text_safe(line, parts[i]);
            between = ", ";
        }
    }
    if (cited->remark_size > 0) {
        hl__text_add(line, ": ");
        hl__text_safe_n(line, cited->remark, cited->remark_size);
    }
}

/* Each source on a line of its own: a key as its entry in the register, free text as it is. */
static void add_sources(hl_leaf *leaf, const char *sources, bool unsourced)
{
    const char *label = "Source";
    hl_text line = {0};
    hl_cited cited;
    while (hl__next_cited(&sources, &cited)) {
        start_label(&line, label);
        add_cited(&line, leaf->book, &cited);
        add_line(leaf, &line);
        label = "";
    }
    if (unsourced)
        add_labelled(leaf, label, "common practice, no published figure");
}

static void add_title(hl_leaf *leaf, const char *title, const char *id)
{
    hl_text line = {0};
    hl__text_safe(&line, title);
    hl__text_printf(&line, " (%s)", id);
    hl__leaf_add(leaf, &line, 0, 2);
}

hl_code hl_step_text(char **out, size_t *size, const hl_book *book, int index, int note,
                     const hl_print *print, hl_err *err)
{
    const hl_step *step = &book->steps[index];
    hl_text page = {0}, line = {0};
    hl_leaf leaf = hl__leaf_start(&page, book, print);
    *out = NULL;
    add_title(&leaf, step->title, step->id);
    start_label(&line, "Asked");
    hl__say_asked(&line, step);
    if (step->skipped) {
        hl__text_add(&line, ": ");
        hl__text_safe(&line, step->skipped);
    } else if (step->stage >= 0 && step->stage < book->n_stages) {
        hl__text_add(&line, ", in ");
        hl__text_safe(&line, book->stages[step->stage].title);
    }
    add_line(&leaf, &line);
    add_target(&leaf, step, note);
    if (step->formula)
        add_labelled(&leaf, step->kind == HL_DERIVED ? "Computed as" : "Follows from", step->formula->text);
    add_reading(&leaf, step);
    add_faults(&leaf, step);
    add_cures(&leaf, step, note);
    add_disturbers(&leaf, index);
    add_masks(&leaf, index);
    add_sources(&leaf, step->source, step->unsourced);
    add_origins(&leaf, step->origin, step->changes, step->n_changes);
    return hl__text_take(&page, out, size, err);
}

/* ---- an adjuster ------------------------------------------------------------------------------- */

static void add_extent(hl_leaf *leaf, const hl_adjuster *adjuster)
{
    hl_text line = {0};
    start_label(&line, "Ways");
    hl__say_way(&line, adjuster, true);
    hl__text_add(&line, ", or ");
    hl__say_way(&line, adjuster, false);
    add_line(leaf, &line);
    for (int i = 0; i < adjuster->n_sizes; i++) {
        if (i == 0)
            start_label(&line, "In the box");
        else
            hl__text_add(&line, ", ");
        hl__say_size(&line, adjuster->sizes[i], adjuster->unit);
    }
    add_line(leaf, &line);
    if (adjuster->finest > 0) {
        start_label(&line, "Finest");
        hl__say_amount(&line, adjuster->finest, adjuster->unit, 0);
        add_line(leaf, &line);
    }
    if (adjuster->reach > 0) {
        start_label(&line, "Reach");
        hl__say_amount(&line, adjuster->reach, adjuster->unit, 0);
        add_line(leaf, &line);
    }
    add_labelled(leaf, "Visit", adjuster->visit);
    if (adjuster->whole || adjuster->irreversible)
        add_labelled(leaf, "Careful",
                     !adjuster->irreversible ? "it moves every note"
                     : adjuster->whole       ? "it moves every note, and can't be undone"
                                             : "it can't be undone");
}

static void add_cured(hl_leaf *leaf, int index)
{
    const hl_book *book = leaf->book;
    hl_text line = {0};
    for (int s = 0; s < book->n_steps; s++) {
        if (!is_cure(&book->steps[s], index))
            continue;
        if (line.size == 0)
            start_label(&line, "Cures");
        else
            hl__text_add(&line, ", ");
        hl__text_safe(&line, book->steps[s].id);
    }
    add_line(leaf, &line);
}

hl_code hl_adjuster_text(char **out, size_t *size, const hl_book *book, int index, int note,
                         const hl_print *print, hl_err *err)
{
    const hl_adjuster *adjuster = &book->adjusters[index];
    hl_text page = {0};
    hl_leaf leaf = hl__leaf_start(&page, book, print);
    *out = NULL;
    add_title(&leaf, adjuster->title, adjuster->id);
    add_extent(&leaf, adjuster);
    add_cured(&leaf, index);
    add_moves(&leaf, adjuster, adjuster->assumed ? "Moves, about" : "Moves", note);
    add_labelled(&leaf, "Why", adjuster->why);
    add_sources(&leaf, adjuster->source, false);
    add_origins(&leaf, adjuster->origin, adjuster->changes, adjuster->n_changes);
    return hl__text_take(&page, out, size, err);
}
