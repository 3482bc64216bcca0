/* group_after.c - what follows from a correction: the reading to expect, what it spoils, what to read
 * again, and the other ways out (layer: render/text). */
#include "groups.h"

#include "sentence.h"

#include <stdlib.h>

void hl__say_titles(hl_text *out, const hl_book *book, const int *steps, int n)
{
    for (int i = 0; i < n; i++) {
        if (i > 0)
            hl__text_add(out, i == n - 1 ? " and " : ", ");
        hl__text_safe(out, book->steps[steps[i]].title);
    }
}

void hl__say_inputs(hl_text *out, const hl_book *book, const hl_step *step)
{
    int inputs[HL_FORMULA_VARS], n = 0;
    for (int i = 0; i < step->formula->n_vars; i++)
        if (step->formula->vars[i].kind == HL_VAR_STEP)
            inputs[n++] = step->formula->vars[i].index;
    hl__say_titles(out, book, inputs, n);
}

static hl_amount take_predicted(const hl_finding *finding)
{
    return finding->corrections[0].predicted;
}

static void add_prediction(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    const hl_correction *correction = &of->members[0]->corrections[0];
    hl_amount low, high;
    hl__group_span(of, take_predicted, &low, &high);
    hl__text_add(out, correction->lands ? " Expect " : " This alone will not land: expect ");
    hl__say_span(out, low, high, step->unit, step->resolution);
    hl__text_char(out, '.');
}

/* Steps to read again at any note of the group, each once, in the book's order. */
static void add_again(const hl_page *page, hl_text *out, const hl_group *of)
{
    const int n_steps = page->audit->book->n_steps;
    int *again = calloc((size_t)n_steps + 1, sizeof *again);
    if (!again) {
        out->failed = true;
        return;
    }
    int n = 0;
    for (int step = 0; step < n_steps; step++) {
        bool asked = false;
        for (int i = 0; i < of->n && !asked; i++) {
            const hl_correction *correction = &of->members[i]->corrections[0];
            for (int j = 0; j < correction->n_again && !asked; j++)
                asked = correction->again[j] == step;
        }
        if (asked)
            again[n++] = step;
    }
    if (n > 0) {
        hl__text_add(out, " Then read again: ");
        hl__say_titles(out, page->audit->book, again, n);
        hl__text_char(out, '.');
    }
    free(again);
}

static void add_other_ways(const hl_page *page, hl_text *out, const hl_finding *finding)
{
    for (int i = 1; i < finding->n_corrections; i++) {
        const hl_correction *other = &finding->corrections[i];
        hl__text_add(out, i == 1 ? " Or " : ", or ");
        hl__say_way(out, &page->audit->book->adjusters[other->adjuster], other->more);
    }
    if (finding->n_corrections > 1)
        hl__text_char(out, '.');
}

/* Nobody turns a screw by more than it has: what would be needed is only said. */
static void add_beyond(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    hl_text act = {0};
    hl__say_act(&act, adjuster, correction);
    hl__text_printf(out, " It would take more than the ");
    hl__text_safe(out, adjuster->title);
    hl__text_printf(out, " can do: %s.", act.data ? act.data : "");
    out->failed |= act.failed;
    hl__text_free(&act);
}

void hl__group_after(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    if (finding->n_corrections == 0)
        return;
    const hl_correction *correction = &finding->corrections[0];
    const hl_adjuster *adjuster = &page->audit->book->adjusters[correction->adjuster];
    if (correction->beyond_reach) {
        add_beyond(out, adjuster, correction);
        return;
    }
    if (correction->has_predicted)
        add_prediction(page, out, of);
    else if (correction->has_amount && adjuster->unit != HL_NOTCH)
        hl__text_add(out, " Whether this lands can't be known: try, and read.");
    if (correction->n_spoils > 0) {
        hl__text_add(out, " It would put ");
        hl__say_titles(out, page->audit->book, correction->spoils, correction->n_spoils);
        hl__text_add(out, " out of range.");
    }
    if (adjuster->whole)
        hl__text_add(out, " It moves every note.");
    if (adjuster->irreversible)
        hl__text_add(out, " It can't be undone: read twice first.");
    add_again(page, out, of);
    add_other_ways(page, out, finding);
}
