/* report_record.c - the finished-job record, one file that needs nothing outside it (layer: render/html).
 *
 * The order is a reader's: the answer, what it rests on, who signs; what is to be done, causes before cures;
 * the piano at a glance; the charts; then gauges, history, hashes and figures for who wants to check. */
#include "report.h"

/* For the foot of every printed sheet: which piano, which day, which bytes of the sheet. */
static void say_foot(hl_text *out, const hl_audit *audit)
{
    const char *piano = hl_sheet_fact(audit->sheet, "piano"), *date = hl_sheet_fact(audit->sheet, "date");
    char hex[65];
    hl__sheet_hash(audit->sheet, hex);
    hl__text_safe(out, piano[0] ? piano : hl__base_name(hl_sheet_name(audit->sheet)));
    if (date[0]) {
        hl__text_add(out, ", ");
        hl__text_safe(out, date);
    }
    hl__text_printf(out, ". Sheet %.12s. %s", hex, audit->ready ? "Ready." : "Not ready.");
}

static void write_record(hl_record *record)
{
    hl__record_answer(record);
    hl__record_sign(record);
    hl__record_subject(record);
    hl__record_diagnoses(record);
    hl__record_faults(record);
    hl__record_missing(record);
    hl__record_remarks(record);
    hl__record_board(record);
    hl__record_charts(record);
    hl__record_results(record);
    hl__record_rounds(record);
    hl__record_edits(record);
    hl__record_basis(record);
    hl__record_figures(record);
    hl__record_numbers(record);
}

hl_code hl_report_html(char **out, size_t *size, const hl_audit *audit, const hl_report *asked, hl_err *err)
{
    static const hl_report plain = {0};
    hl_text text = {0}, title = {0}, foot = {0};
    hl_record record = {.html = {.out = &text}, .audit = audit, .asked = asked ? asked : &plain};
    const char *piano = hl_sheet_fact(audit->sheet, "piano");
    *out = NULL;
    hl__text_add(&title, record.asked->owner ? "For the owner: " : "Regulation record: ");
    hl__text_safe(&title, piano[0] ? piano : hl__base_name(hl_sheet_name(audit->sheet)));
    say_foot(&foot, audit);
    hl__page_start(&record.html, title.data ? title.data : "", record.asked->owner ? "owner" : "record",
                   foot.data ? foot.data : "");
    text.failed |= title.failed || foot.failed;
    hl__text_free(&title);
    hl__text_free(&foot);
    if (record.asked->owner)
        hl__owner_page(&record);
    else
        write_record(&record);
    hl__page_end(&record.html);
    return hl__text_take(&text, out, size, err);
}
