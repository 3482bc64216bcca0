/* page_diagnosis.c - what several readings together point to, and what gives way (layer: render/text).
 *
 * Causes come before any correction: a screw that hides a fault is turned in vain. */
#include "page.h"

#include "notes.h"
#include "sentence.h"

#include <stdlib.h>

#define CAUSE 2 /* columns before a cause */
#define HANG  5

static void print_cause(hl_page *page, const hl_cause *cause, int place)
{
    hl_text line = {0};
    hl_text name = {0};
    hl__text_safe(&name, cause->cause);
    hl__text_printf(&line, "%d. ", place);
    hl__say_capital(&line, name.data ? name.data : "");
    hl__text_char(&line, '?');
    if (cause->test[0]) {
        hl__text_char(&line, ' ');
        hl__text_safe(&line, cause->test);
    }
    if (cause->todo[0]) {
        hl__text_add(&line, " If so: ");
        hl__text_safe(&line, cause->todo);
    }
    hl__page_add(page, &line, HL_INK_PLAIN, CAUSE, HANG);
    page->out->failed |= name.failed;
    hl__text_free(&name);
}

/* All notes of one diagnosis, from `first` on; they stand together. */
static size_t print_diagnosis(hl_page *page, size_t first)
{
    const hl_audit *audit = page->audit;
    const hl_diagnosed *found = &audit->diagnosed[first];
    const hl_diagnosis *diagnosis = &audit->book->diagnoses[found->diagnosis];
    size_t end = first;
    int n = 0;
    int *notes = calloc(audit->n_diagnosed - first + 1, sizeof *notes);
    for (; notes && end < audit->n_diagnosed && audit->diagnosed[end].diagnosis == found->diagnosis; end++)
        notes[n++] = audit->diagnosed[end].note;
    if (!notes) {
        page->out->failed = true;
        return audit->n_diagnosed;
    }
    hl_text line = {0};
    hl__text_safe(&line, diagnosis->title);
    if (found->note > 0) {
        hl__text_add(&line, " (");
        hl__notes_fold(&line, audit->sheet->compass, HL_EVERY_NOTE, notes, n);
        hl__text_char(&line, ')');
    } else if (diagnosis->spread == HL_SPREAD_WIDE) {
        hl__text_printf(&line, " (%d of %d notes)", found->holds, found->known);
    }
    free(notes);
    hl__page_add(page, &line, HL_INK_BOLD, 0, HANG);
    for (int i = 0; i < diagnosis->n_causes; i++)
        print_cause(page, &diagnosis->causes[i], i + 1);
    return end;
}

void hl__page_diagnoses(hl_page *page)
{
    hl_text line = {0};
    if (page->audit->n_diagnosed == 0)
        return;
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== What it may be ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    hl__text_add(&line,
                 "Several readings together point to these. Check the causes in this order, before you "
                 "adjust.");
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    hl__text_free(&line);
    for (size_t i = 0; i < page->audit->n_diagnosed;)
        i = print_diagnosis(page, i);
}

static hl_amount find_furthest(const hl_audit *audit, int step)
{
    hl_amount most = 0;
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++) {
        const hl_amount shift = audit->findings.items[i].shift;
        const hl_amount size = shift < 0 ? -shift : shift;
        if (audit->findings.items[i].verdict == HL_PASS && audit->findings.items[i].floated && size > most)
            most = size;
    }
    return most;
}

void hl__page_float(hl_page *page)
{
    const hl_audit *audit = page->audit;
    const int step = hl_audit_float(audit);
    if (step < 0 || audit->book->floats.within <= 0)
        return;
    const hl_step *gives = &audit->book->steps[step];
    const int n = audit->tallies[step].floated;
    hl_text line = {0};
    hl__text_safe(&line, gives->title);
    hl__text_add(&line, " may give way in this book, by ");
    hl__say_amount(&line, audit->book->floats.within, gives->unit, 0);
    if (n > 0) {
        hl__text_add(&line, ": ");
        hl__say_count(&line, n, "note uses it, by ", "notes use it, by up to ");
        hl__say_amount(&line, find_furthest(audit, step), gives->unit, gives->resolution);
    }
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    hl__text_free(&line);
}
