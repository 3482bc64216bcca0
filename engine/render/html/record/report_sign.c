/* report_sign.c - when to come back, and the lines to sign (layer: render/html).
 *
 * No figure is invented: a return that the sheet does not state is a line to fill in. */
#include "report.h"

/* "in 26 weeks, about 2027-05-21"; a line when nothing is stated. */
static void add_weeks(hl_record *record, const char *weeks)
{
    const hl_sheet *sheet = record->audit->sheet;
    hl_text line = {0}, day = {0};
    if (!weeks[0]) {
        hl__html_leaf(&record->html, "dd", "fill", "");
        return;
    }
    hl__text_safe(&line, weeks);
    if (hl__is_count(weeks))
        hl__text_add(&line, " weeks after the date of this record");
    if (hl__say_weeks_later(&day, hl_sheet_fact(sheet, "date"), weeks)) {
        hl__text_add(&line, ": about ");
        hl__text_add(&line, day.data ? day.data : "");
    }
    line.failed |= day.failed;
    hl__text_free(&day);
    hl__html_leaf_take(&record->html, "dd", NULL, &line);
}

static void add_hours(hl_record *record, const char *hours)
{
    hl_text line = {0};
    if (!hours[0]) {
        hl__html_leaf(&record->html, "dd", "fill", "");
        return;
    }
    hl__text_add(&line, hl__is_count(hours) ? "after " : "");
    hl__text_safe(&line, hours);
    hl__text_add(&line, hl__is_count(hours) ? " hours played" : "");
    hl__html_leaf_take(&record->html, "dd", NULL, &line);
}

void hl__record_return(hl_record *record)
{
    hl_html *html = &record->html;
    const hl_sheet *sheet = record->audit->sheet;
    hl__html_open(html, "dl", "class", "return", NULL);
    hl__html_open(html, "div", NULL);
    hl__html_leaf(html, "dt", NULL, "Come back by");
    add_weeks(record, hl_sheet_fact(sheet, "return_weeks"));
    hl__html_close(html);
    hl__html_open(html, "div", NULL);
    hl__html_leaf(html, "dt", NULL, "Or by hours played");
    add_hours(record, hl_sheet_fact(sheet, "return_hours"));
    hl__html_close(html);
    hl__html_close(html);
    hl__html_line(html);
}

static void add_line(hl_html *html, const char *who)
{
    hl__row_start(html, who);
    for (int i = 0; i < 3; i++)
        hl__html_leaf(html, "td", NULL, "");
    hl__row_end(html);
}

void hl__record_sign(hl_record *record)
{
    static const char *const heads[] = {"For", "Name", "Date", "Signature", NULL};
    hl_html *html = &record->html;
    hl__section_open(html, "sign", "Coming back, and signing off");
    hl__html_leaf(
        html, "p", NULL,
        "New cloth and felt settle. Whichever comes first; a blank line is for the technician to fill in.");
    hl__record_return(record);
    hl__grid_start(html, "sign", "Signed", heads);
    add_line(html, "Measured");
    add_line(html, "Checked, by somebody else");
    add_line(html, "Received, for the owner");
    hl__grid_end(html);
    hl__html_close(html);
}
