/* report_missing.c - what was not measured, and why; it never shows as passing (layer: render/html). */
#include "report.h"

#include "notes.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

static const char *say_why(const hl_step *step, hl_why why)
{
    switch (why) {
    case HL_WHY_WITHDRAWN:
        return "the reading was withdrawn";
    case HL_WHY_SKIPPED:
        return "skipped at the bench";
    case HL_WHY_OTHER_GAUGE:
        return "read by a gauge that is not this step's";
    default:
        return step->kind == HL_JUDGED ? "not judged" : "not measured";
    }
}

static bool is_same(const hl_finding *a, const hl_finding *b)
{
    return b->verdict == HL_MISSING && a->why == b->why && strcmp(a->remark, b->remark) == 0;
}

/* One row for all findings of the step that are missing for the same reason as number `first`. */
static void add_reason(hl_record *record, int index, size_t first)
{
    const hl_audit *audit = record->audit;
    const hl_step *step = &audit->book->steps[index];
    const hl_finding *one = &audit->findings.items[first];
    int *notes = calloc(audit->findings.first[index + 1] - first + 1, sizeof *notes);
    int n = 0;
    if (!notes) {
        record->html.out->failed = true;
        return;
    }
    for (size_t i = first; i < audit->findings.first[index + 1]; i++)
        if (is_same(one, &audit->findings.items[i]))
            notes[n++] = audit->findings.items[i].note;
    hl_text cell = {0};
    hl__row_start(&record->html, step->title);
    if (n > 1)
        hl__text_printf(&cell, "%d: ", n);
    hl__notes_fold(&cell, audit->sheet->compass, step->scope, notes, n);
    free(notes);
    hl__html_leaf_take(&record->html, "td", NULL, &cell);
    hl__text_add(&cell, say_why(step, one->why));
    if (one->remark[0]) {
        hl__text_add(&cell, ": ");
        hl__text_safe(&cell, one->remark);
    }
    hl__html_leaf_take(&record->html, "td", NULL, &cell);
    hl__row_end(&record->html);
}

static bool is_first_of_kind(const hl_audit *audit, int step, size_t at)
{
    for (size_t i = audit->findings.first[step]; i < at; i++)
        if (audit->findings.items[i].verdict == HL_MISSING &&
            is_same(&audit->findings.items[at], &audit->findings.items[i]))
            return false;
    return true;
}

static void add_required(hl_record *record)
{
    static const char *const heads[] = {"Step", "Where", "Why", NULL};
    const hl_audit *audit = record->audit;
    if (audit->total.count[HL_MISSING] == 0) {
        hl__html_leaf(&record->html, "p", NULL, "Everything that the book asks for was read.");
        return;
    }
    hl__grid_start(&record->html, "missing", "Asked for, and not read", heads);
    for (int i = 0; i < audit->book->n_steps; i++)
        for (size_t k = audit->findings.first[i]; k < audit->findings.first[i + 1]; k++)
            if (audit->findings.items[k].verdict == HL_MISSING && is_first_of_kind(audit, i, k))
                add_reason(record, i, k);
    hl__grid_end(&record->html);
}

static void add_left_out(hl_record *record)
{
    const hl_book *book = record->audit->book;
    bool any = false;
    for (int i = 0; i < book->n_steps; i++) {
        hl_text line = {0};
        if (!book->steps[i].skipped)
            continue;
        if (!any)
            hl__html_open(&record->html, "ul", NULL);
        any = true;
        hl__text_safe(&line, book->steps[i].title);
        hl__text_add(&line, ": left out by the book. ");
        hl__text_safe(&line, book->steps[i].skipped);
        hl__html_leaf_take(&record->html, "li", NULL, &line);
    }
    if (any)
        hl__html_close(&record->html);
}

static bool is_untouched(const hl_audit *audit, int step)
{
    const hl_tally *tally = &audit->tallies[step];
    int n = 0;
    for (int i = 0; i < HL_VERDICTS; i++)
        n += i == HL_NOT_APPLICABLE ? 0 : tally->count[i];
    return n == 0 && !audit->book->steps[step].skipped;
}

/* Optional steps, or computed ones that lacked a reading. */
static void add_untouched(hl_record *record, bool derived, const char *words)
{
    const hl_audit *audit = record->audit;
    hl_text line = {0};
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (!is_untouched(audit, i) || (audit->book->steps[i].kind == HL_DERIVED) != derived)
            continue;
        hl__text_add(&line, line.size == 0 ? words : ", ");
        hl__text_safe(&line, audit->book->steps[i].title);
    }
    if (hl__text_any(&line)) {
        hl__text_char(&line, '.');
        hl__paragraph(&record->html, NULL, &line);
    }
    hl__text_free(&line);
}

void hl__record_missing(hl_record *record)
{
    hl__section_open(&record->html, "missing", "What was not measured");
    add_required(record);
    add_left_out(record);
    add_untouched(record, false, "Not asked for on this piano, and not read: ");
    add_untouched(record, true, "Not computed, for want of readings: ");
    hl__html_close(&record->html);
}
