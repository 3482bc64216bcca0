/* plan_page_work.c - the work list: by visit, by tool, by amount, with boxes to tick (layer: render/text). */
#include "plan_page.h"

#include "book.h"
#include "notes.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

/* One thing to do at one note. */
typedef struct job {
    int order; /* place of its visit; -1 before anything else */
    int rank, adjuster;
    hl_amount amount;                /* signed */
    const hl_correction *correction; /* NULL: by feel */
    const hl_chore *chore;           /* NULL: computed */
    int note;
} job;

/* By the order of hl__visits: what is done first is not undone later. */
static int find_order(const hl_book *book, int adjuster)
{
    if (adjuster < 0)
        return HL_VISITS + book->n_adjusters;
    for (int i = 0; i < HL_VISITS; i++)
        if (strcmp(book->adjusters[adjuster].visit, hl__visits[i]) == 0)
            return i;
    /* a visit of the shop's own: after ours, with the first adjuster that has it */
    for (int a = 0; a < adjuster; a++)
        if (strcmp(book->adjusters[a].visit, book->adjusters[adjuster].visit) == 0)
            return HL_VISITS + a;
    return HL_VISITS + adjuster;
}

/* ---- gathering --------------------------------------------------------------------------- */

int hl__plan_count_adjustments(const hl_plan *plan)
{
    int n = 0;
    for (int i = 0; i < plan->n_notes; i++)
        n += plan->notes[i].n_adjustments;
    return n;
}

static job make_job(const hl_plan_page *at, const hl_correction *correction, int adjuster, int note)
{
    const hl_book *book = at->page.audit->book;
    job one = {.adjuster = adjuster, .correction = correction, .note = note};
    one.order = find_order(book, adjuster);
    one.rank = adjuster >= 0 ? hl__plan_rank(book, adjuster) : 0;
    if (correction && correction->has_amount)
        one.amount = correction->more ? correction->amount : -correction->amount;
    return one;
}

static int gather(const hl_plan_page *at, job *jobs)
{
    const hl_plan *plan = at->plan;
    int n = 0;
    for (int i = 0; i < plan->n_notes; i++) {
        const hl_plan_note *note = &plan->notes[i];
        for (int k = 0; k < note->n_adjustments; k++)
            jobs[n++] = make_job(at, &note->adjustments[k], note->adjustments[k].adjuster, note->note);
    }
    for (int i = 0; i < plan->n_chores; i++) {
        const hl_chore *chore = &plan->chores[i];
        jobs[n] = make_job(at, chore->correction, chore->adjuster, chore->note);
        jobs[n].chore = chore;
        if (chore->first)
            jobs[n].order = -1;
        if (chore->adjuster < 0)
            jobs[n].rank = chore->step;
        n++;
    }
    return n;
}

/* ---- order and groups -------------------------------------------------------------------- */

static int compare_amounts(hl_amount a, hl_amount b)
{
    return (a > b) - (a < b);
}

static int compare_chores(const hl_chore *a, const hl_chore *b)
{
    if (!a || !b)
        return (a != NULL) - (b != NULL);
    if (a->step != b->step)
        return a->step - b->step;
    return a->word != b->word ? a->word - b->word : strcmp(a->todo, b->todo);
}

/* How jobs differ that can't stand on one line. */
static int compare_kinds(const job *a, const job *b)
{
    if (a->order != b->order)
        return a->order - b->order;
    if (a->rank != b->rank)
        return a->rank - b->rank;
    if (a->adjuster != b->adjuster)
        return a->adjuster - b->adjuster;
    const int chores = compare_chores(a->chore, b->chore);
    if (chores)
        return chores;
    if (!a->correction || !b->correction)
        return (a->correction != NULL) - (b->correction != NULL);
    if (a->correction->more != b->correction->more)
        return a->correction->more - b->correction->more;
    if (a->amount != b->amount)
        return compare_amounts(a->amount, b->amount);
    return a->correction->assumed - b->correction->assumed;
}

static int compare_jobs(const void *one, const void *two)
{
    const job *a = one, *b = two;
    const int kind = compare_kinds(a, b);
    return kind ? kind : a->note - b->note;
}

/* ---- printing ---------------------------------------------------------------------------- */

static const char *name_visit(const hl_book *book, const job *of)
{
    if (of->order < 0)
        return "before anything else";
    if (of->adjuster < 0 || !book->adjusters[of->adjuster].visit[0])
        return "besides";
    return book->adjusters[of->adjuster].visit;
}

static void add_act(hl_text *out, const hl_book *book, const job *of)
{
    const hl_adjuster *adjuster = of->adjuster >= 0 ? &book->adjusters[of->adjuster] : NULL;
    const hl_correction *correction = of->correction;
    hl_text act = {0};
    if (correction && adjuster) {
        hl__say_act(&act, adjuster, correction);
        if (correction->learned)
            hl__text_add(&act, " (learned here)");
        else if (correction->has_amount && correction->assumed && !hl__is_about(adjuster, correction))
            hl__text_add(&act, " (assumed)");
    } else if (adjuster) {
        hl__text_add(&act, "adjust the ");
        hl__text_safe(&act, adjuster->title);
        hl__text_add(&act, " by feel");
    } else {
        hl__text_safe(&act, of->chore->todo);
        while (act.size > 0 && act.data[act.size - 1] == '.')
            act.data[--act.size] = '\0';
    }
    out->failed |= act.failed;
    hl__say_capital(out, act.data ? act.data : "");
    hl__text_free(&act);
}

/* What the work is for, where no number says it. */
static void add_purpose(hl_text *out, const hl_book *book, const hl_chore *chore)
{
    const hl_step *step = &book->steps[chore->step];
    if (chore->adjuster >= 0 && chore->word >= 0)
        hl__say_instruction(out, step->words[chore->word].todo);
    hl__text_add(out, "For: ");
    hl__text_safe(out, step->title);
    if (chore->word >= 0) {
        hl__text_add(out, " \"");
        hl__text_safe(out, step->words[chore->word].word);
        hl__text_char(out, '"');
    }
    if (chore->adjuster >= 0 && book->adjusters[chore->adjuster].whole)
        hl__text_add(out, ". It moves the whole instrument: do it before the rest, and read again");
    hl__text_char(out, '.');
}

static void print_group(hl_plan_page *at, const job *jobs, int n)
{
    const hl_book *book = at->page.audit->book;
    hl_text line = {0};
    add_act(&line, book, jobs);
    for (int i = 0; i < n; i++)
        at->notes[i] = jobs[i].note;
    hl__text_char(&line, ':');
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 4);
    hl__plan_boxes(at, at->notes, n);
    if (jobs->chore) {
        add_purpose(&line, book, jobs->chore);
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 6, 6);
    }
}

static void print_jobs(hl_plan_page *at, const job *jobs, int n)
{
    const hl_book *book = at->page.audit->book;
    int adjuster = -2;
    for (int i = 0; i < n;) {
        int end = i + 1;
        if (i == 0 || jobs[i].order != jobs[i - 1].order) {
            hl__plan_heading(at, name_visit(book, &jobs[i]));
            adjuster = -2;
        }
        if (jobs[i].adjuster != adjuster && jobs[i].adjuster >= 0) {
            hl_text title = {0}, line = {0};
            hl__text_safe(&title, book->adjusters[jobs[i].adjuster].title);
            hl__say_capital(&line, title.data ? title.data : "");
            line.failed |= title.failed;
            hl__text_free(&title);
            hl__page_add(&at->page, &line, HL_INK_BOLD, 0, 2);
        }
        adjuster = jobs[i].adjuster;
        while (end < n && compare_kinds(&jobs[i], &jobs[end]) == 0)
            end++;
        print_group(at, &jobs[i], end - i);
        i = end;
    }
}

bool hl__plan_page_work(hl_plan_page *at)
{
    const size_t room = (size_t)hl__plan_count_adjustments(at->plan) + (size_t)at->plan->n_chores + 1;
    job *jobs = calloc(room, sizeof *jobs);
    if (!jobs)
        return false;
    const int n = gather(at, jobs);
    qsort(jobs, (size_t)n, sizeof *jobs, compare_jobs);
    print_jobs(at, jobs, n);
    free(jobs);
    return true;
}
