/* plan_page_rest.c - what follows the work list: parts, what can't be met, what to expect
 * (layer: render/text). */
#include "plan_page.h"

#include "groups.h"
#include "notes.h"
#include "number.h"
#include "sentence.h"
#include "wrap.h"

static void add_list(hl_text *out, int i, int n)
{
    if (i > 0)
        hl__text_add(out, i + 1 == n ? " and " : ", ");
}

static void add_adjusters(hl_text *out, const hl_book *book, const int *adjusters, int n)
{
    for (int i = 0; i < n; i++) {
        add_list(out, i, n);
        hl__text_add(out, "the ");
        hl__text_safe(out, book->adjusters[adjusters[i]].title);
    }
}

/* ---- parts ------------------------------------------------------------------------------- */

void hl__plan_page_parts(hl_plan_page *at)
{
    const hl_plan *plan = at->plan;
    const hl_book *book = at->page.audit->book;
    hl_text line = {0};
    if (plan->n_parts == 0)
        return;
    hl__plan_heading(at, "parts");
    for (int i = 0; i < plan->n_parts; i++) {
        const hl_part *part = &plan->parts[i], *before = i > 0 ? part - 1 : NULL;
        if (!before || before->adjuster != part->adjuster || before->sharps != part->sharps) {
            if (before)
                hl__page_add(&at->page, &line, HL_INK_PLAIN, 0, 6);
            hl_text title = {0};
            hl__text_safe(&title, book->adjusters[part->adjuster].title);
            hl__say_capital(&line, title.data ? title.data : "");
            line.failed |= title.failed;
            hl__text_free(&title);
            hl__text_add(&line, part->sharps ? ", sharps: " : ", naturals: ");
        } else {
            hl__text_add(&line, ", ");
        }
        hl__text_printf(&line, "%d%cof%c", part->count, HL_GLUE, HL_GLUE);
        hl__say_size(&line, part->size, book->adjusters[part->adjuster].unit);
    }
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 0, 6);
}

/* ---- the line between samples ------------------------------------------------------------ */

static bool same_target(const hl_target *a, const hl_target *b)
{
    return a->low == b->low && a->aim == b->aim && a->high == b->high;
}

static void print_line_run(hl_plan_page *at, const hl_on_line *first, int n)
{
    const hl_step *step = &at->page.audit->book->steps[first->step];
    hl_text line = {0};
    int unread = 0;
    for (int i = 0; i < n; i++)
        at->notes[i] = first[i].note;
    hl__say_amount(&line, first->target.aim, step->unit, step->resolution);
    hl__text_add(&line, " (");
    hl__say_target(&line, &first->target, step->unit, step->resolution);
    hl__text_add(&line, "): ");
    hl__notes_fold(&line, at->page.audit->sheet->compass, step->scope, at->notes, n);
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
    for (int i = 0; i < n; i++)
        if (!first[i].read)
            at->notes[unread++] = first[i].note;
    if (unread == 0)
        return;
    hl__text_add(&line, "Not read yet; set and read:");
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 4, 6);
    hl__plan_boxes(at, at->notes, unread);
}

void hl__plan_page_lines(hl_plan_page *at)
{
    const hl_plan *plan = at->plan;
    hl_text title = {0};
    for (int i = 0; i < plan->n_lines;) {
        const hl_on_line *first = &plan->lines[i];
        int end = i + 1;
        if (i == 0 || first[-1].step != first->step) {
            hl__text_add(&title, "on the line between samples: ");
            hl__text_add(&title, at->page.audit->book->steps[first->step].title);
            hl__plan_heading(at, title.data ? title.data : "");
            at->page.out->failed |= title.failed;
            hl__text_free(&title);
            title = (hl_text){0};
        }
        while (end < plan->n_lines && plan->lines[end].step == first->step &&
               same_target(&plan->lines[end].target, &first->target))
            end++;
        print_line_run(at, first, end - i);
        i = end;
    }
}

/* ---- what can't be met ------------------------------------------------------------------- */

static bool same_unmet(const hl_unmet_reading *a, const hl_unmet_reading *b)
{
    return a->step == b->step && a->above == b->above && a->uneven == b->uneven && a->why == b->why &&
           hl__same_ints(a->against, a->n_against, b->against, b->n_against) &&
           hl__same_ints(a->adjusters, a->n_adjusters, b->adjusters, b->n_adjusters);
}

static void add_why(hl_text *out, const hl_book *book, const hl_unmet_reading *unmet)
{
    switch (unmet->why) {
    case HL_LACK_UNMOVED:
        hl__text_add(out, "Nothing at this note moves it by an amount that is known.");
        return;
    case HL_LACK_LEFT_OUT:
        hl__text_add(out, "It needs ");
        add_adjusters(out, book, unmet->adjusters, unmet->n_adjusters);
        hl__text_add(out, ", left out today.");
        return;
    case HL_LACK_REACH:
        if (unmet->n_adjusters > 0)
            add_adjusters(out, book, unmet->adjusters, unmet->n_adjusters);
        else
            hl__text_add(out, "what moves it");
        hl__text_add(out, " can't reach that far.");
        return;
    case HL_LACK_CONFLICT:
        hl__text_add(out, "It can be met only at the cost of ");
        hl__say_titles(out, book, unmet->against, unmet->n_against);
        hl__text_add(out, ".");
        return;
    case HL_LACK_GRAIN:
        hl__text_add(out, unmet->uneven ? "No move that a hand can do puts it between its neighbours."
                                        : "The right place lies between two moves that a hand can do.");
        return;
    case HL_LACK_GEOMETRY:
        hl__text_add(out, "Geometry: this note's own ratio is in the way. Read again first; then level, "
                          "cushion, jack and lost motion. What is left no screw cures.");
        return;
    case HL_LACK_REFUSED:
        hl__text_add(out, "The numbers are too large to compute with. Read again, and mind the unit.");
        return;
    }
}

/* What is too small for two places after the point keeps them all, and never reads as nothing. */
static hl_amount shorten(hl_amount by)
{
    const hl_amount hundredth = HL_ONE / 100;
    return by >= hundredth ? hl__round_to(by, hundredth) : by;
}

static void add_how_far(hl_text *out, const hl_step *step, const hl_unmet_reading *unmet, hl_amount least,
                        hl_amount most)
{
    hl__say_span(out, shorten(least), shorten(most), step->unit, step->resolution);
    if (unmet->uneven)
        hl__text_add(out,
                     unmet->above ? " too far above its neighbours. " : " too far below its neighbours. ");
    else
        hl__text_add(out, unmet->above ? " above its target. " : " below its target. ");
}

/* All notes of which the same is to be said, once. */
static void print_unmet(hl_plan_page *at, const hl_unmet_reading *of)
{
    const hl_book *book = at->page.audit->book;
    const hl_step *step = &book->steps[of->step];
    hl_amount least = of->by, most = of->by;
    hl_text line = {0}, why = {0};
    int n = 0;
    for (int i = 0; i < at->plan->n_notes; i++) {
        const hl_plan_note *note = &at->plan->notes[i];
        for (int k = 0; k < note->n_unmet; k++) {
            const hl_unmet_reading *one = &note->unmet[k];
            if (!same_unmet(one, of))
                continue;
            if (n == 0 && one != of)
                return; /* it was said with an earlier note */
            at->notes[n++] = note->note;
            least = one->by < least ? one->by : least;
            most = one->by > most ? one->by : most;
        }
    }
    hl__text_safe(&line, step->title);
    hl__text_add(&line, ", ");
    hl__notes_fold(&line, at->page.audit->sheet->compass, step->scope, at->notes, n);
    hl__text_add(&line, ": ");
    add_how_far(&line, step, of, least, most);
    add_why(&why, book, of);
    hl__say_capital(&line, why.data ? why.data : "");
    line.failed |= why.failed;
    hl__text_free(&why);
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
}

void hl__plan_page_unmet(hl_plan_page *at)
{
    bool headed = false;
    for (int i = 0; i < at->plan->n_notes; i++) {
        const hl_plan_note *note = &at->plan->notes[i];
        for (int k = 0; k < note->n_unmet; k++) {
            if (!headed)
                hl__plan_heading(at, "still outside after that");
            headed = true;
            print_unmet(at, &note->unmet[k]);
        }
    }
}

/* ---- what must be read ------------------------------------------------------------------- */

static int collect_waiting(hl_plan_page *at, const hl_waiting *of)
{
    int n = 0;
    for (int i = 0; i < at->plan->n_notes; i++) {
        const hl_plan_note *note = &at->plan->notes[i];
        for (int k = 0; k < note->n_waiting; k++) {
            const hl_waiting *one = &note->waiting[k];
            if (one->step != of->step || one->first != of->first || one->adjuster != of->adjuster)
                continue;
            if (n == 0 && one != of)
                return 0; /* said with an earlier note */
            at->notes[n++] = note->note;
        }
    }
    return n;
}

static void print_waiting(hl_plan_page *at, const hl_waiting *of)
{
    const hl_book *book = at->page.audit->book;
    const hl_step *step = &book->steps[of->step];
    const int n = collect_waiting(at, of);
    hl_text line = {0};
    if (n == 0)
        return;
    hl__text_safe(&line, step->title);
    hl__text_add(&line, ", ");
    hl__notes_fold(&line, at->page.audit->sheet->compass, step->scope, at->notes, n);
    hl__text_add(&line, ": ");
    if (of->first >= 0) {
        hl__text_safe(&line, book->steps[of->first].title);
        hl__text_add(&line, " first; until that is right, this reading means nothing.");
    } else if (of->adjuster >= 0) {
        hl__text_add(&line, "work on the ");
        hl__text_safe(&line, book->adjusters[of->adjuster].title);
        hl__text_add(&line, " moves it, nobody knows how far.");
    } else {
        hl__text_add(&line, "work since it was read has moved it, nobody knows how far.");
    }
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
}

void hl__plan_page_waiting(hl_plan_page *at)
{
    bool headed = false;
    for (int i = 0; i < at->plan->n_notes; i++) {
        const hl_plan_note *note = &at->plan->notes[i];
        for (int k = 0; k < note->n_waiting; k++) {
            if (!headed)
                hl__plan_heading(at, "read these again, then plan again");
            headed = true;
            print_waiting(at, &note->waiting[k]);
        }
    }
}

void hl__plan_page_again(hl_plan_page *at)
{
    const hl_book *book = at->page.audit->book;
    bool headed = false;
    for (int step = 0; step < book->n_steps; step++) {
        hl_text line = {0};
        int n = 0;
        for (int i = 0; i < at->plan->n_notes; i++)
            for (int k = 0; k < at->plan->notes[i].n_again; k++)
                if (at->plan->notes[i].again[k] == step)
                    at->notes[n++] = at->plan->notes[i].note;
        if (n == 0)
            continue;
        if (!headed)
            hl__plan_heading(at, "afterwards, read again");
        headed = true;
        hl__text_safe(&line, book->steps[step].title);
        hl__text_add(&line, ": ");
        hl__notes_fold(&line, at->page.audit->sheet->compass, book->steps[step].scope, at->notes, n);
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
    }
}

/* ---- what to expect ---------------------------------------------------------------------- */

static void print_foreseen(hl_plan_page *at, const hl_plan_note *note)
{
    const hl_book *book = at->page.audit->book;
    hl_text line = {0};
    int n = 0;
    hl__text_printf(&line, "%d%c%s: ", note->note, HL_GLUE,
                    hl_pitch_name(hl_note_pitch(at->page.audit->sheet->compass, note->note)));
    for (int i = 0; i < note->n_foreseen; i++) {
        const hl_foreseen *one = &note->foreseen[i];
        const hl_step *step = &book->steps[one->step];
        if (!one->moved)
            continue;
        if (n++ > 0)
            hl__text_add(&line, ", ");
        hl__text_safe(&line, step->title);
        hl__text_char(&line, HL_GLUE);
        hl__say_amount(&line, one->after, step->unit, step->resolution);
        if (one->floated)
            hl__text_add(&line, " (floated)");
    }
    if (n > 0)
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
    hl__text_free(&line);
}

void hl__plan_page_foreseen(hl_plan_page *at)
{
    if (hl__plan_count_adjustments(at->plan) == 0)
        return;
    hl__plan_heading(at, "expect then");
    for (int i = 0; i < at->plan->n_notes; i++)
        print_foreseen(at, &at->plan->notes[i]);
}
