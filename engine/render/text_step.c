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
    if (paragraph.size > 0)
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

static void print_headline(hl_page *page, const hl_step *step, const hl_tally *tally, bool work)
{
    hl_text line = {0};
    hl__text_safe(&line, step->title);
    hl__text_char(&line, ':');
    add_part(&line, tally->count[HL_FAIL], "out");
    add_part(&line, tally->count[HL_STALE], "to read again");
    add_part(&line, tally->count[HL_DOUBTFUL], "in doubt");
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

/* Prints the findings of one verdict, each group at its lowest note.  `told` marks what was said. */
static void print_verdict(hl_page *page, const hl_finding *findings, size_t n, hl_verdict verdict, bool *told,
                          const hl_finding **room)
{
    for (size_t i = 0; i < n; i++) {
        if (told[i] || findings[i].verdict != verdict)
            continue;
        hl_group group = {.members = room, .n = 0};
        for (size_t j = i; j < n; j++) {
            if (told[j] || !hl__findings_alike(&findings[i], &findings[j]))
                continue;
            told[j] = true;
            room[group.n++] = &findings[j];
        }
        print_group(page, &group);
    }
}

/* `told` and `room` have a place for each of the n findings. */
static void print_block(hl_page *page, int index, const hl_finding *findings, size_t n, bool *told,
                        const hl_finding **room)
{
    static const hl_verdict order[] = {HL_FAIL, HL_STALE, HL_DOUBTFUL, HL_MISSING};
    const hl_step *step = &page->audit->book->steps[index];
    const hl_tally *tally = &page->audit->tallies[index];
    hl_group unread = {.members = room, .n = 0};
    bool work = false;
    for (size_t i = 0; i < n; i++) {
        if (findings[i].verdict == HL_MISSING && findings[i].why == HL_WHY_UNREAD)
            room[unread.n++] = &findings[i];
        work = work || findings[i].n_corrections > 0;
    }
    if (print_unread(page, step, tally, &unread))
        return;
    print_headline(page, step, tally, work);
    for (size_t i = 0; i < sizeof order / sizeof *order; i++)
        print_verdict(page, findings, n, order[i], told, room);
}

void hl__page_step(hl_page *page, int step)
{
    const hl_audit *audit = page->audit;
    const size_t n = audit->first[step + 1] - audit->first[step];
    bool *told = calloc(n + 1, sizeof *told);
    const hl_finding **room = calloc(n + 1, sizeof *room);
    if (told && room)
        print_block(page, step, audit->findings + audit->first[step], n, told, room);
    else
        page->out->failed = true;
    free(told);
    free(room);
}

bool hl__tally_clean(const hl_tally *tally)
{
    const int *count = tally->count;
    return count[HL_FAIL] + count[HL_DOUBTFUL] + count[HL_STALE] + count[HL_MISSING] == 0;
}
