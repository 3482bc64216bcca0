/* leaf.c - what the printers of a book share (layer: render/text). */
#include "leaf.h"

#include "number.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

#define DEFAULT_WIDTH 80
#define LEAST_WIDTH   40
#define RUNS_MOST     4 /* more different targets than this are graded: a few notes show them */
#define SHOWN         5

hl_leaf hl__leaf_start(hl_text *out, const hl_book *book, const hl_print *print)
{
    int width = print && print->width > 0 ? print->width : DEFAULT_WIDTH;
    return (hl_leaf){out, book, width < LEAST_WIDTH ? LEAST_WIDTH : width};
}

void hl__leaf_add(hl_leaf *leaf, hl_text *paragraph, int first, int hang)
{
    if (paragraph->data && !paragraph->failed)
        hl__wrap(leaf->out, paragraph->data, leaf->width, first, hang);
    leaf->out->failed |= paragraph->failed;
    hl__text_free(paragraph);
    *paragraph = (hl_text){0};
}

void hl__leaf_column(hl_text *paragraph, int column)
{
    const int here = paragraph->data ? hl__text_width(paragraph->data) : 0;
    for (int i = here; i + 1 < column; i++)
        hl__text_char(paragraph, HL_GLUE);
    hl__text_char(paragraph, ' ');
}

void hl__say_place(hl_text *out, hl_origin origin)
{
    hl__text_add(out, " [");
    hl__text_safe(out, origin.file);
    hl__text_printf(out, ":%d]", origin.line);
}

void hl__say_asked(hl_text *out, const hl_step *step)
{
    static const char *const needs[] = {"", "samples", "if you like"};
    static const char *const scopes[] = {"every note",   "naturals", "sharps",
                                         "damped notes", "sections", "once"};
    const char *need = step->kind == HL_DERIVED ? "computed" : needs[step->need];
    if (step->skipped) {
        hl__text_add(out, "left out");
        return;
    }
    hl__text_add(out, need);
    if (need[0] && step->scope == HL_EVERY_NOTE)
        return;
    hl__text_add(out, need[0] ? ", " : "");
    hl__text_add(out, scopes[step->scope]);
}

bool hl__same_limits(const hl_target *a, const hl_target *b)
{
    return a->has_low == b->has_low && a->has_high == b->has_high && (!a->has_low || a->low == b->low) &&
           (!a->has_high || a->high == b->high);
}

void hl__say_fact(hl_text *out, const hl_fact *fact)
{
    hl__text_safe(out, fact->id);
    hl__text_add(out, ": ");
    if (!fact->has_value) {
        hl__text_add(out, "not stated");
        return;
    }
    hl__text_double(out, fact->value[0]);
    if (fact->value[0] != fact->value[1]) {
        hl__text_add(out, ", sharps ");
        hl__text_double(out, fact->value[1]);
    }
    if (fact->unit[0] && strcmp(fact->unit, "ratio") != 0) {
        hl__text_char(out, HL_GLUE);
        hl__text_safe(out, fact->unit);
    }
}

/* ---- targets along the compass ----------------------------------------------------------------- */

typedef enum colour { BOTH, NATURALS, SHARPS } colour;

/* The notes of one colour at which a step is read, and its target there. */
typedef struct row {
    const hl_book *book;
    const hl_step *step;
    int pitches[HL_PITCHES];
    int n;
} row;

static void fill_row(row *out, const hl_book *book, const hl_step *step, colour which)
{
    *out = (row){.book = book, .step = step};
    for (int note = 1; note <= book->compass.keys; note++) {
        const int pitch = hl_note_pitch(book->compass, note);
        const bool sharp = hl_pitch_is_sharp(pitch);
        if ((which == BOTH || sharp == (which == SHARPS)) && hl__step_at_pitch(step, pitch))
            out->pitches[out->n++] = pitch;
    }
}

static const hl_target *target_at(const row *of, int i)
{
    return &of->step->targets[of->pitches[i]];
}

static int end_of_run(const row *of, int i)
{
    while (i + 1 < of->n && hl__same_limits(target_at(of, i), target_at(of, i + 1)))
        i++;
    return i;
}

static int count_runs(const row *of)
{
    int n = 0;
    for (int i = 0; i < of->n; i = end_of_run(of, i) + 1)
        n++;
    return n;
}

static void say_at(hl_text *out, const row *of, int first, int last)
{
    const hl_step *step = of->step;
    hl__say_target(out, target_at(of, first), step->unit, step->resolution);
    hl__text_add(out, " at ");
    hl__text_add(out, hl_pitch_name(of->pitches[first]));
    if (last != first) {
        hl__text_char(out, '-');
        hl__text_add(out, hl_pitch_name(of->pitches[last]));
    }
}

static void say_row(hl_text *out, const row *of)
{
    const int runs = count_runs(of);
    if (runs <= 1) {
        hl__say_target(out, target_at(of, 0), of->step->unit, of->step->resolution);
    } else if (runs <= RUNS_MOST) {
        for (int i = 0, last; i < of->n; i = last + 1) {
            last = end_of_run(of, i);
            hl__text_add(out, i > 0 ? ", " : "");
            say_at(out, of, i, last);
        }
    } else {
        for (int k = 0; k < SHOWN; k++) {
            const int i = k * (of->n - 1) / (SHOWN - 1);
            hl__text_add(out, k > 0 ? ", " : "graded: ");
            say_at(out, of, i, i);
        }
    }
}

void hl__say_targets(hl_text *out, const hl_book *book, const hl_step *step)
{
    row all, naturals, sharps;
    if (step->scope == HL_ONCE) {
        hl__say_target(out, &step->targets[HL_PITCHES], step->unit, step->resolution);
        return;
    }
    fill_row(&all, book, step, BOTH);
    fill_row(&naturals, book, step, NATURALS);
    fill_row(&sharps, book, step, SHARPS);
    if (all.n == 0) {
        hl__text_add(out, "no note");
    } else if (naturals.n == 0 || sharps.n == 0 ||
               count_runs(&all) <= count_runs(&naturals) + count_runs(&sharps)) {
        say_row(out, &all);
    } else {
        hl__text_add(out, "naturals ");
        say_row(out, &naturals);
        hl__text_add(out, "; sharps ");
        say_row(out, &sharps);
    }
}
