/* report_record.c - the finished-job record, one file that needs nothing outside it (layer: render/html).
 *
 * The order: the answer; what was judged and how; the charts; what is out and what was not
 * measured; what was changed; signatures; then the numbers, for who wants to check them. */
#include "report.h"

static void write_record(hl_record *record)
{
    hl__record_answer(record);
    hl__record_subject(record);
    hl__record_basis(record);
    hl__record_results(record);
    hl__record_charts(record);
    hl__record_faults(record);
    hl__record_missing(record);
    hl__record_diagnoses(record);
    hl__record_rounds(record);
    hl__record_edits(record);
    hl__record_remarks(record);
    hl__record_sign(record);
    hl__record_numbers(record);
    hl__record_figures(record);
}

hl_code hl_report_html(char **out, size_t *size, const hl_audit *audit, const hl_report *asked, hl_err *err)
{
    static const hl_report plain = {0};
    hl_text text = {0}, title = {0};
    hl_record record = {.html = {.out = &text}, .audit = audit, .asked = asked ? asked : &plain};
    const char *piano = hl_sheet_fact(audit->sheet, "piano");
    *out = NULL;
    hl__text_add(&title, record.asked->owner ? "For the owner: " : "Regulation record: ");
    hl__text_safe(&title, piano[0] ? piano : hl__base_name(hl_sheet_name(audit->sheet)));
    hl__page_start(&record.html, title.data ? title.data : "", record.asked->owner ? "owner" : "record");
    text.failed |= title.failed;
    hl__text_free(&title);
    if (record.asked->owner)
        hl__owner_page(&record);
    else
        write_record(&record);
    hl__page_end(&record.html);
    return hl__text_take(&text, out, size, err);
}
