/* plan_text.c - the plan for people: the work list, the parts, what to expect (layer: render/text). */
#include "plan_page.h"

#include "errors.h"
#include "lead_list.h"
#include "sentence.h"
#include "wrap.h"

#include <stdlib.h>

#define DEFAULT_WIDTH 80
#define LEAST_WIDTH   40

/* ---- the answer -------------------------------------------------------------------------- */

static int count_unmet(const hl_plan *plan)
{
    int n = 0;
    for (int i = 0; i < plan->n_notes; i++)
        n += plan->notes[i].n_unmet;
    return n;
}

static int count_moved_notes(const hl_plan *plan)
{
    int n = 0;
    for (int i = 0; i < plan->n_notes; i++)
        n += plan->notes[i].n_adjustments > 0;
    return n;
}

static void add_rest(hl_text *line, const hl_plan *plan)
{
    const hl_tally *total = &plan->audit->total;
    if (plan->n_chores > 0) {
        hl__text_add(line, " ");
        hl__say_count(line, plan->n_chores, "more thing is to do by feel or judgement.",
                      "more things are to do by feel or judgement.");
    }
    if (count_unmet(plan) > 0) {
        hl__text_add(line, " ");
        hl__say_count(line, count_unmet(plan), "reading can't be met.", "readings can't be met.");
    }
    if (total->count[HL_MISSING] > 0) {
        hl__text_add(line, " ");
        hl__say_count(line, total->count[HL_MISSING], "reading is missing: no plan without it.",
                      "readings are missing: no plan without them.");
    }
}

static void add_answer(hl_text *line, const hl_plan *plan)
{
    const int n = hl__plan_count_adjustments(plan);
    if (plan->inspect_only) {
        hl__text_add(line, "Inspect only: the sheet says so, and nothing is proposed. "
                           "\"hammerline audit\" says what is out.");
        return;
    }
    if (plan->idle) {
        hl__text_add(line, "Nothing to do: every reading passes, none is missing.");
        return;
    }
    if (n > 0) {
        hl__text_add(line, "To do: ");
        hl__say_count(line, n, "adjustment", "adjustments");
        hl__text_add(line, " at ");
        hl__say_count(line, count_moved_notes(plan), "note.", "notes.");
    } else {
        hl__text_add(line, "Not ready, and no screw or paper to move for it.");
    }
    add_rest(line, plan);
}

static void print_answer(hl_plan_page *at)
{
    hl_text line = {0};
    add_answer(&line, at->plan);
    hl__page_add(&at->page, &line, at->plan->idle ? HL_INK_GOOD : HL_INK_BOLD, 0, 2);
}

static void print_label(hl_plan_page *at, const char *label, const char *text, const char *more)
{
    hl_text line = {0};
    if (!text[0])
        return;
    hl__text_add(&line, label);
    hl__text_safe(&line, text);
    if (more[0]) {
        hl__text_add(&line, ": ");
        hl__text_safe(&line, more);
    }
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 0, 7);
}

static void print_left_out(hl_plan_page *at)
{
    const hl_book *book = at->page.audit->book;
    hl_text line = {0};
    int n = 0;
    for (int a = 0; a < book->n_adjusters; a++) {
        if (!at->plan->left_out[a] || (at->plan->reversible && book->adjusters[a].irreversible))
            continue;
        hl__text_add(&line, n++ == 0 ? "Left out today: " : ", ");
        hl__text_safe(&line, book->adjusters[a].title);
    }
    if (at->plan->reversible) {
        hl__text_add(&line, n++ == 0 ? "Left out today: " : ", and ");
        hl__text_add(&line, "whatever can't be undone");
    }
    hl__text_char(&line, '.');
    if (n > 0)
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 0, 2);
    hl__text_free(&line);
}

static void print_subject(hl_plan_page *at)
{
    const hl_audit *audit = at->page.audit;
    hl__text_char(at->page.out, '\n');
    print_label(at, "Sheet: ", audit->sheet->name, "");
    print_label(at, "Piano: ", hl_sheet_fact(audit->sheet, "piano"), "");
    print_label(at, "Date: ", hl_sheet_fact(audit->sheet, "date"), "");
    print_label(at, "Book: ", audit->book->id, audit->book->title);
    print_left_out(at);
}

/* ---- the end ----------------------------------------------------------------------------- */

static bool is_assumed(const hl_plan *plan)
{
    for (int i = 0; i < plan->n_notes; i++)
        for (int k = 0; k < plan->notes[i].n_adjustments; k++)
            if (plan->notes[i].adjustments[k].assumed)
                return true;
    return false;
}

static bool is_unproven(const hl_plan *plan)
{
    for (int i = 0; i < plan->n_notes; i++)
        if (!plan->notes[i].proven)
            return true;
    return false;
}

static void print_end(hl_plan_page *at)
{
    hl_text line = {0};
    const bool assumed = is_assumed(at->plan), unproven = is_unproven(at->plan);
    if (assumed || unproven)
        hl__text_char(at->page.out, '\n');
    if (assumed) {
        hl__text_add(&line,
                     "\"About\" and \"assumed\" rest on figures of the book that nobody has stated for "
                     "this piano. Try one note, read it again, and write down what you did: the "
                     "next plan goes by that.");
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 0, 2);
    }
    if (unproven) {
        hl__text_add(&line,
                     "At some notes the search was cut short: there the plan is good, but a better one "
                     "may exist.");
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 0, 2);
    }
}

static bool print_plan(hl_plan_page *at)
{
    print_answer(at);
    print_subject(at);
    if (!hl__plan_page_work(at))
        return false;
    hl__plan_page_lines(at);
    hl__plan_page_parts(at);
    hl__plan_page_leads(at);
    hl__plan_page_unmet(at);
    hl__plan_page_waiting(at);
    hl__plan_page_again(at);
    hl__plan_page_foreseen(at);
    print_end(at);
    return true;
}

hl_code hl_plan_text(char **out, size_t *size, const hl_plan *plan, const hl_print *print, hl_err *err)
{
    hl_text text = {0};
    hl_plan_page at = {.page = {.out = &text, .audit = plan->audit, .width = DEFAULT_WIDTH}, .plan = plan};
    if (print) {
        at.page.width = print->width > 0 ? print->width : DEFAULT_WIDTH;
        at.page.color = print->color;
    }
    at.page.width = at.page.width < LEAST_WIDTH ? LEAST_WIDTH : at.page.width;
    *out = NULL;
    at.notes = calloc((size_t)plan->audit->sheet->compass.keys + 1, sizeof *at.notes);
    const bool good = at.notes && print_plan(&at);
    free(at.notes);
    if (!good) {
        hl__text_free(&text);
        return hl__no_memory(err);
    }
    return hl__text_take(&text, out, size, err);
}
