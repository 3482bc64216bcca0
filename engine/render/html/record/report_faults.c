/* report_faults.c - what is out and what puts it right; what several readings point to (layer: render/html).
 *
 * The sentences are those of the printed audit: the act first, the reason after. */
#include "report.h"

#include "groups.h"
#include "notes.h"
#include "sentence.h"

#include <stdlib.h>

/* ---- one step ----------------------------------------------------------------------------------- */

static void add_group(hl_record *record, const hl_page *page, const hl_group *of)
{
    hl_html *html = &record->html;
    hl_text line = {0};
    hl__html_open(html, "li", NULL);
    hl__group_act(page, &line, of);
    if (of->members[0]->note > 0) {
        hl__text_add(&line, ": ");
        hl__page_notes(page, &line, of->members, of->n);
    }
    hl__text_char(&line, '.');
    hl__html_leaf_take(html, "strong", NULL, &line);
    hl__group_reason(page, &line, of);
    hl__group_after(page, &line, of);
    if (line.size > 0)
        hl__html_text(html, line.data[0] == ' ' ? "" : " ");
    hl__html_take(html, &line);
    hl__html_close(html);
    hl__html_line(html);
}

static void add_groups(hl_record *record, hl_block *in)
{
    static const hl_verdict order[] = {HL_FAIL, HL_STALE, HL_DOUBTFUL, HL_PASS};
    hl_text scratch = {0};
    const hl_page page = {.out = &scratch, .audit = record->audit, .width = 80};
    hl_group group;
    for (size_t k = 0; k < sizeof order / sizeof *order; k++)
        while (hl__block_next(in, order[k], &group))
            add_group(record, &page, &group);
    record->html.out->failed |= scratch.failed;
    hl__text_free(&scratch);
}

static void add_block(hl_record *record, int index, hl_block *in)
{
    hl_html *html = &record->html;
    const hl_step *step = &record->audit->book->steps[index];
    hl_text line = {0};
    hl__html_open(html, "div", "class", "fault", NULL);
    hl__say_headline(&line, record->audit, index, in);
    hl__html_leaf_take(html, "h4", NULL, &line);
    if (in->work && step->caution[0]) {
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, step->caution);
        hl__paragraph(html, "careful", &line);
    }
    hl__html_open(html, "ul", NULL);
    add_groups(record, in);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_line(html);
}

static void add_step(hl_record *record, int index)
{
    hl_block in;
    if (hl__block_start(&in, record->audit, index))
        add_block(record, index, &in);
    else
        record->html.out->failed = true;
    hl__block_free(&in);
}

/* ---- all of them -------------------------------------------------------------------------------- */

/* Something other than a missing reading. */
static bool has_fault(const hl_audit *audit, int step)
{
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        if (finding->verdict != HL_MISSING && finding->verdict != HL_NOT_APPLICABLE &&
            hl__is_worth_saying(finding, finding->verdict))
            return true;
    }
    return false;
}

static void start_stage(hl_record *record, int index)
{
    const hl_book *book = record->audit->book;
    if (index < 0 || index >= book->n_stages)
        return;
    hl__html_leaf(&record->html, "h3", NULL, book->stages[index].title);
    if (book->stages[index].caution[0]) {
        hl_text line = {0};
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, book->stages[index].caution);
        hl__paragraph(&record->html, "careful", &line);
    }
}

void hl__record_faults(hl_record *record)
{
    const hl_book *book = record->audit->book;
    int stage = -1;
    bool any = false;
    hl__section_open(&record->html, "out", "What is out, and what puts it right");
    for (int i = 0; i < book->n_steps; i++) {
        if (!has_fault(record->audit, i))
            continue;
        if (book->steps[i].stage != stage)
            start_stage(record, book->steps[i].stage);
        stage = book->steps[i].stage;
        any = true;
        add_step(record, i);
    }
    if (!any)
        hl__html_leaf(&record->html, "p", NULL, "Nothing that was read is out.");
    hl__html_close(&record->html);
}

/* ---- diagnoses ---------------------------------------------------------------------------------- */

static void add_causes(hl_record *record, const hl_diagnosis *diagnosis)
{
    hl_html *html = &record->html;
    hl__html_open(html, "ol", NULL);
    for (int i = 0; i < diagnosis->n_causes; i++) {
        const hl_cause *cause = &diagnosis->causes[i];
        hl_text line = {0}, name = {0};
        hl__html_open(html, "li", NULL);
        hl__text_safe(&name, cause->cause);
        hl__say_capital(&line, name.data ? name.data : "");
        hl__text_add(&line, "? ");
        hl__text_safe(&line, cause->test);
        if (cause->todo[0]) {
            hl__text_add(&line, " If so: ");
            hl__text_safe(&line, cause->todo);
        }
        line.failed |= name.failed;
        hl__text_free(&name);
        hl__html_take(html, &line);
        hl__html_close(html);
    }
    hl__html_close(html);
}

static size_t add_diagnosis(hl_record *record, size_t first)
{
    const hl_audit *audit = record->audit;
    const hl_diagnosed *found = &audit->diagnosed[first];
    const hl_diagnosis *diagnosis = &audit->book->diagnoses[found->diagnosis];
    int *notes = calloc(audit->n_diagnosed - first + 1, sizeof *notes);
    size_t end = first;
    int n = 0;
    if (!notes) {
        record->html.out->failed = true;
        return audit->n_diagnosed;
    }
    for (; end < audit->n_diagnosed && audit->diagnosed[end].diagnosis == found->diagnosis; end++)
        notes[n++] = audit->diagnosed[end].note;
    hl_text line = {0};
    hl__text_safe(&line, diagnosis->title);
    if (found->note > 0) {
        hl__text_add(&line, ": ");
        hl__notes_fold(&line, audit->sheet->compass, HL_EVERY_NOTE, notes, n);
    } else if (diagnosis->spread == HL_SPREAD_WIDE) {
        hl__text_printf(&line, ": %d of %d notes", found->holds, found->known);
    }
    free(notes);
    hl__html_open(&record->html, "div", "class", "fault", NULL);
    hl__html_leaf_take(&record->html, "h3", NULL, &line);
    add_causes(record, diagnosis);
    hl__html_close(&record->html);
    hl__html_line(&record->html);
    return end;
}

void hl__record_diagnoses(hl_record *record)
{
    if (record->audit->n_diagnosed == 0)
        return;
    hl__section_open(&record->html, "diagnoses", "What it may be");
    hl__html_leaf(&record->html, "p", NULL,
                  "Several readings together point to these. The causes are in the order to check, before "
                  "anything is adjusted.");
    for (size_t i = 0; i < record->audit->n_diagnosed;)
        i = add_diagnosis(record, i);
    hl__html_close(&record->html);
}
