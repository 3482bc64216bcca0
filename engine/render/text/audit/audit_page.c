/* audit_page.c - the audit for people: ready or not, then what is out (layer: render/text). */
#include "groups.h"

#include "decision.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

#define DEFAULT_WIDTH 80
#define LEAST_WIDTH   40

/* ---- the answer ---------------------------------------------------------------------------- */

static void add_part(hl_text *out, int n, const char *one, const char *many)
{
    if (n == 0)
        return;
    hl__text_add(out, out->data && out->data[out->size - 1] == ':' ? " " : ", ");
    hl__say_count(out, n, one, many);
}

static int count_steps_out(const hl_audit *audit)
{
    int n = 0;
    for (int i = 0; i < audit->book->n_steps; i++)
        n += audit->tallies[i].count[HL_FAIL] > 0;
    return n;
}

static void add_out(hl_text *out, const hl_audit *audit, int n)
{
    if (n == 0)
        return;
    add_part(out, n, "reading out", "readings out");
    hl__text_add(out, " in ");
    hl__say_count(out, count_steps_out(audit), "step", "steps");
}

static int count_lines(const hl_text *text)
{
    int n = 0;
    for (size_t i = 0; i < text->size; i++)
        n += text->data[i] == '\n';
    return n;
}

/* The steps that are out, when that takes no more than two lines. */
static void print_steps_out(hl_page *page)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0}, wrapped = {0};
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (audit->tallies[i].count[HL_FAIL] == 0)
            continue;
        hl__text_add(&line, line.size == 0 ? "Out: " : ", ");
        hl__text_safe(&line, audit->book->steps[i].title);
    }
    if (line.size > 0) {
        hl__text_char(&line, '.');
        hl__wrap(&wrapped, line.data, page->width, 0, 2);
        if (count_lines(&wrapped) <= 2)
            hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    page->out->failed |= line.failed || wrapped.failed;
    hl__text_free(&line);
    hl__text_free(&wrapped);
}

static void print_bad_rows(hl_page *page, int n_errors)
{
    hl_text line = {0};
    if (n_errors > 0) {
        hl__text_add(&line,
                     "Mend those rows first: until then the sheet is not ready, whatever the rest says.");
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    if (page->audit->sheet->torn > 0) {
        hl__text_printf(&line,
                        "The last line (%d) was cut short while it was saved: delete it, and read that note "
                        "again.",
                        page->audit->sheet->torn);
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    hl__text_free(&line);
}

static void print_answer(hl_page *page, int n_errors)
{
    const hl_tally *total = &page->audit->total;
    const int n_queries = hl__count_queries(page->audit);
    hl_text line = {0};
    if (hl__page_sample_answer(page, &line))
        return;
    if (page->audit->ready) {
        hl__text_add(&line, hl_audit_as_found(page->audit) ? "As found, inside: " : "Ready: ");
        hl__say_count(&line, total->count[HL_PASS], "reading passes, none is missing",
                      "readings pass, none is missing");
        if (total->go > 0)
            hl__text_printf(&line, "; %d of them by go/no-go gauge, without a number", total->go);
        if (total->count[HL_ACCEPTED] > 0)
            hl__text_printf(&line, "; %d accepted as %s", total->count[HL_ACCEPTED],
                            total->count[HL_ACCEPTED] == 1 ? "it is" : "they are");
        hl__text_char(&line, '.');
        hl__page_add(page, &line, HL_INK_GOOD, 0, 2);
        return;
    }
    hl__text_add(&line, "Not ready:");
    add_part(&line, n_errors, "row could not be read", "rows could not be read");
    add_out(&line, page->audit, total->count[HL_FAIL] - n_queries);
    add_part(&line, total->count[HL_STALE], "to read again", "to read again");
    add_part(&line, total->count[HL_DOUBTFUL], "in doubt", "in doubt");
    add_part(&line, n_queries, "query open", "queries open");
    add_part(&line, total->count[HL_MISSING], "not measured", "not measured");
    if (hl__tally_clean(total) && n_errors == 0)
        hl__text_add(&line, " there is nothing to judge");
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_BAD, 0, 2);
    print_steps_out(page);
    print_bad_rows(page, n_errors);
    hl__text_free(&line);
}

/* Bad rows, those too that the list has no room for; its last record then only says so. */
static int count_errors(const hl_sheet *sheet)
{
    int n = 0;
    hl_sheet_errors(sheet, &n);
    return sheet->unlisted > 0 ? n - 1 + (int)sheet->unlisted : n;
}

/* ---- what was judged, by what ---------------------------------------------------------------- */

static void print_label(hl_page *page, const char *label, const char *text, const char *more)
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
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 7);
    hl__text_free(&line);
}

static void print_subject(hl_page *page)
{
    const hl_audit *audit = page->audit;
    hl__text_char(page->out, '\n');
    print_label(page, "Sheet: ", audit->sheet->name, "");
    print_label(page, "Piano: ", hl_sheet_fact(audit->sheet, "piano"), "");
    print_label(page, "Date: ", hl_sheet_fact(audit->sheet, "date"), "");
    print_label(page, "Book: ", audit->book->id, audit->book->title);
    hl__page_rule(page);
}

/* ---- the steps ----------------------------------------------------------------------------- */

static void print_stage(hl_page *page, const hl_stage *stage)
{
    hl_text line = {0};
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== ");
    hl__text_safe(&line, stage->title);
    hl__text_add(&line, " ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    if (stage->caution[0]) {
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, stage->caution);
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    hl__text_free(&line);
}

static void print_steps(hl_page *page)
{
    const hl_audit *audit = page->audit;
    int stage = -1;
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (hl__step_silent(audit, i))
            continue;
        const int here = audit->book->steps[i].stage;
        if (here != stage && here >= 0 && here < audit->book->n_stages)
            print_stage(page, &audit->book->stages[here]);
        stage = here;
        hl__page_step(page, i);
    }
}

static void print_queries(hl_page *page)
{
    const hl_audit *audit = page->audit;
    const hl_compass compass = audit->sheet->compass;
    hl_text line = {0};
    if (hl__count_queries(audit) == 0)
        return;
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== Open queries ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    for (size_t i = audit->findings.first[audit->book->n_steps]; i < audit->findings.n; i++) {
        const hl_finding *query = &audit->findings.items[i];
        hl__text_add(&line, "Settle, then close: ");
        hl__text_add(&line,
                     query->note > 0 ? hl_pitch_name(hl_note_pitch(compass, query->note)) : "the instrument");
        hl__text_add(&line, ", \"");
        hl__text_safe(&line, query->remark);
        hl__text_printf(&line, "\" (line %d)", query->line);
        hl__page_add(page, &line, HL_INK_PLAIN, 2, 6);
    }
}

hl_code hl_audit_text(char **out, size_t *size, const hl_audit *audit, const hl_print *print, hl_err *err)
{
    hl_text text = {0};
    hl_page page = {.out = &text, .audit = audit, .width = DEFAULT_WIDTH};
    if (print) {
        page.width = print->width > 0 ? print->width : DEFAULT_WIDTH;
        page.color = print->color;
    }
    page.width = page.width < LEAST_WIDTH ? LEAST_WIDTH : page.width;
    *out = NULL;
    const int n_errors = count_errors(audit->sheet);
    print_answer(&page, n_errors);
    print_subject(&page);
    hl__page_choices(&page);
    hl__page_sample(&page);
    hl__page_float(&page);
    hl__page_diagnoses(&page);
    hl__page_implied(&page);
    print_steps(&page);
    print_queries(&page);
    hl__page_people(&page);
    hl__page_gauges(&page);
    hl__page_tally(&page);
    hl__page_learned(&page);
    hl__page_assumed(&page);
    return hl__text_take(&text, out, size, err);
}
