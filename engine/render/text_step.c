/* text_step.c - one step of the printed audit: the act first, the reason after (layer: render). */
#include "page.h"

#include "notes.h"
#include "sentence.h"

#include <stdlib.h>

#define ACT    2 /* columns before an act */
#define REASON 6 /* columns before its reason */

const hl_step *hl__group_step(const hl_page *page, const hl_group *of)
{
    return &page->audit->book->steps[of->members[0]->step];
}

void hl__page_notes(const hl_page *page, hl_text *out, const hl_finding *const *members, int n)
{
    int *notes = calloc((size_t)n + 1, sizeof *notes);
    if (!notes) {
        out->failed = true;
        return;
    }
    for (int i = 0; i < n; i++)
        notes[i] = members[i]->note;
    const hl_step *step = &page->audit->book->steps[members[0]->step];
    hl__notes_fold(out, page->audit->sheet->compass, step->scope, notes, n);
    free(notes);
}

static void print_group(hl_page *page, const hl_group *of)
{
    hl_text paragraph = {0};
    hl__group_act(page, &paragraph, of);
    if (of->members[0]->note > 0) {
        hl__text_add(&paragraph, ": ");
        hl__page_notes(page, &paragraph, of->members, of->n);
    } else {
        hl__text_char(&paragraph, '.');
    }
    hl__page_add(page, &paragraph, HL_INK_PLAIN, ACT, REASON);
    hl__group_reason(page, &paragraph, of);
    hl__group_after(page, &paragraph, of);
    if (hl__text_any(&paragraph))
        hl__page_add(page, &paragraph, HL_INK_PLAIN, REASON, REASON);
    hl__text_free(&paragraph);
}

/* ---- the headline -------------------------------------------------------------------------- */

static void add_part(hl_text *out, int n, const char *words)
{
    if (n == 0)
        return;
    hl__text_add(out, out->data && out->data[out->size - 1] == ':' ? " " : ", ");
    hl__text_printf(out, "%d %s", n, words);
}

/* When all that is wrong is that readings are missing, one line says it: all of them, or which. */
static bool print_unread(hl_page *page, const hl_step *step, const hl_tally *tally, const hl_group *unread)
{
    const int *count = tally->count;
    if (unread->n == 0 || unread->n != count[HL_MISSING] ||
        count[HL_FAIL] + count[HL_DOUBTFUL] + count[HL_STALE] > 0)
        return false;
    hl_text line = {0};
    const char *words = step->kind == HL_JUDGED ? "not judged" : "not measured";
    hl__text_safe(&line, step->title);
    hl__text_add(&line, ": ");
    if (step->scope == HL_ONCE) {
        hl__text_printf(&line, "%s.", words);
    } else if (count[HL_PASS] == 0) {
        hl__text_printf(&line, "%s at all (%d %s).", words, unread->n, unread->n == 1 ? "note" : "notes");
    } else {
        hl__text_printf(&line, "%s: ", words);
        hl__page_notes(page, &line, unread->members, unread->n);
        hl__text_char(&line, '.');
    }
    hl__page_add(page, &line, HL_INK_BOLD, 0, REASON);
    hl__text_free(&line);
    return true;
}

static void print_headline(hl_page *page, const hl_step *step, const hl_tally *tally, int n_strange,
                           bool work)
{
    hl_text line = {0};
    hl__text_safe(&line, step->title);
    hl__text_char(&line, ':');
    add_part(&line, tally->count[HL_FAIL], "out");
    add_part(&line, tally->count[HL_STALE], "to read again");
    add_part(&line, tally->count[HL_DOUBTFUL], "in doubt");
    add_part(&line, n_strange, "to check");
    add_part(&line, tally->count[HL_MISSING], step->kind == HL_JUDGED ? "not judged" : "not measured");
    hl__page_add(page, &line, HL_INK_BOLD, 0, REASON);
    if (work && step->caution[0]) {
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, step->caution);
        hl__page_add(page, &line, HL_INK_PLAIN, ACT, REASON);
    }
    hl__text_free(&line);
}

/* ---- the groups ---------------------------------------------------------------------------- */

/* The findings of a step while it is printed. */
typedef struct block {
    const hl_finding *findings;
    size_t n;
    bool *told;              /* [n] */
    hl_works *works;         /* [n]: what was done since, of stale ones */
    const hl_finding **room; /* [n] */
} block;

static bool share_a_line(const block *in, size_t i, size_t j)
{
    return hl__findings_alike(&in->findings[i], &in->findings[j]) &&
           (in->findings[i].verdict != HL_STALE || hl__works_same(&in->works[i], &in->works[j]));
}

static bool is_told_of(const hl_finding *finding, hl_verdict verdict)
{
    return finding->verdict == verdict && (verdict != HL_PASS || finding->model_differs);
}

/* Prints the findings of one verdict, each group at its lowest note. */
static void print_verdict(hl_page *page, block *in, hl_verdict verdict)
{
    for (size_t i = 0; i < in->n; i++) {
        if (in->told[i] || !is_told_of(&in->findings[i], verdict))
            continue;
        hl_group group = {.members = in->room, .n = 0};
        for (size_t j = i; j < in->n; j++) {
            if (in->told[j] || !is_told_of(&in->findings[j], verdict) || !share_a_line(in, i, j))
                continue;
            in->told[j] = true;
            in->room[group.n++] = &in->findings[j];
        }
        print_group(page, &group);
    }
}

static void print_block(hl_page *page, int index, block *in)
{
    static const hl_verdict order[] = {HL_FAIL, HL_STALE, HL_DOUBTFUL, HL_PASS, HL_MISSING};
    const hl_step *step = &page->audit->book->steps[index];
    const hl_tally *tally = &page->audit->tallies[index];
    hl_group unread = {.members = in->room, .n = 0};
    bool work = false;
    int n_strange = 0;
    for (size_t i = 0; i < in->n; i++) {
        const hl_finding *finding = &in->findings[i];
        if (finding->verdict == HL_MISSING && finding->why == HL_WHY_UNREAD)
            in->room[unread.n++] = finding;
        if (finding->verdict == HL_STALE)
            hl__works_since(&in->works[i], page->audit, finding);
        work = work || finding->n_corrections > 0;
        n_strange += is_told_of(finding, HL_PASS);
    }
    if (n_strange == 0 && print_unread(page, step, tally, &unread))
        return;
    print_headline(page, step, tally, n_strange, work);
    for (size_t i = 0; i < sizeof order / sizeof *order; i++)
        print_verdict(page, in, order[i]);
}

void hl__page_step(hl_page *page, int step)
{
    const hl_audit *audit = page->audit;
    block in = {.findings = audit->findings + audit->first[step],
                .n = audit->first[step + 1] - audit->first[step]};
    in.told = calloc(in.n + 1, sizeof *in.told);
    in.works = calloc(in.n + 1, sizeof *in.works);
    in.room = calloc(in.n + 1, sizeof *in.room);
    if (in.told && in.works && in.room)
        print_block(page, step, &in);
    else
        page->out->failed = true;
    free(in.told);
    free(in.works);
    free(in.room);
}

bool hl__tally_clean(const hl_tally *tally)
{
    const int *count = tally->count;
    return count[HL_FAIL] + count[HL_DOUBTFUL] + count[HL_STALE] + count[HL_MISSING] == 0;
}

bool hl__step_silent(const hl_audit *audit, int step)
{
    if (!hl__tally_clean(&audit->tallies[step]))
        return false;
    for (size_t i = audit->first[step]; i < audit->first[step + 1]; i++)
        if (is_told_of(&audit->findings[i], HL_PASS))
            return false;
    return true;
}
