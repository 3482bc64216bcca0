/* step_page.c - one step of the printed audit: the act first, the reason after (layer: render/text). */
#include "groups.h"

#include "notes.h"
#include "sentence.h"

#include <stdlib.h>

#define ACT    2 /* columns before an act */
#define REASON 6 /* columns before its reason */

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

static void print_headline(hl_page *page, int index, const hl_block *in)
{
    const hl_step *step = &page->audit->book->steps[index];
    hl_text line = {0};
    hl__say_headline(&line, page->audit, index, in);
    hl__say_part(&line, page->audit->tallies[index].count[HL_MISSING],
                 step->kind == HL_JUDGED ? "not judged" : "not measured");
    hl__page_add(page, &line, HL_INK_BOLD, 0, REASON);
    if (in->work && step->caution[0]) {
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, step->caution);
        hl__page_add(page, &line, HL_INK_PLAIN, ACT, REASON);
    }
    hl__text_free(&line);
}

/* ---- the groups ---------------------------------------------------------------------------- */

static void print_block(hl_page *page, int index, hl_block *in)
{
    static const hl_verdict order[] = {HL_FAIL, HL_STALE, HL_DOUBTFUL, HL_PASS, HL_MISSING};
    const hl_step *step = &page->audit->book->steps[index];
    hl_group group = {.members = in->room};
    for (size_t i = 0; i < in->n; i++)
        if (in->findings[i].verdict == HL_MISSING && in->findings[i].why == HL_WHY_UNREAD)
            in->room[group.n++] = &in->findings[i];
    if (in->n_strange == 0 && print_unread(page, step, &page->audit->tallies[index], &group))
        return;
    print_headline(page, index, in);
    for (size_t i = 0; i < sizeof order / sizeof *order; i++)
        while (hl__block_next(in, order[i], &group))
            print_group(page, &group);
}

void hl__page_step(hl_page *page, int step)
{
    hl_block in;
    if (hl__block_start(&in, page->audit, step))
        print_block(page, step, &in);
    else
        page->out->failed = true;
    hl__block_free(&in);
}
