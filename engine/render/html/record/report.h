/* report.h - what the parts of the finished-job record share (layer: render/html).
 *
 * report_record.c owns the record, report_owner.c the owner's page; the other report_*.c files each
 * write one part.  A part opens what it needs and leaves nothing open. */
#ifndef HL_REPORT_H
#define HL_REPORT_H

#include "audit.h"
#include "event_words.h"
#include "hammerline/print.h"
#include "page_frame.h"

typedef struct hl_record {
    hl_html html;
    const hl_audit *audit;
    const hl_report *asked;
} hl_record;

/* ---- sayings (report_say.c) ------------------------------------------------------------------ */

/* The file's name without its folders, which are nobody's business. */
const char *hl__base_name(const char *path);
/* "C4", or "the instrument". */
void hl__say_note(hl_text *out, const hl_sheet *sheet, int note);
/* Everybody that the sheet names in `by`, its fact first. */
void hl__say_hands(hl_text *out, const hl_sheet *sheet, int pass); /* pass -1: all */
/* Adds the text unless the list, ended by commas, has it. */
void hl__say_once(hl_text *list, const char *text);
/* "ready", or the parts of what is not: "46 readings out in 16 steps, 10 not measured". */
void hl__say_state(hl_text *out, const hl_audit *audit);
int hl__count_bad_rows(const hl_sheet *sheet);
/* SHA-256 of the sheet's bytes. */
void hl__sheet_hash(const hl_sheet *sheet, char hex[65]);
/* "2027-05-21" weeks after an ISO date; false when the date or the number is none. */
bool hl__say_weeks_later(hl_text *out, const char *date, const char *weeks);
/* Is it a whole number of at most four digits? */
bool hl__is_count(const char *text);
/* Notes of the step with this verdict, folded. */
void hl__say_verdict_notes(hl_text *out, const hl_audit *audit, int step, hl_verdict verdict);

/* ---- parts of the record --------------------------------------------------------------------- */

void hl__record_answer(hl_record *record);
void hl__record_subject(hl_record *record);
void hl__record_basis(hl_record *record);
/* Inside the basis: gauges, readings repeated, two people. */
void hl__record_gauges(hl_record *record);
void hl__record_results(hl_record *record);
void hl__record_board(hl_record *record);
void hl__record_charts(hl_record *record);
void hl__record_diagnoses(hl_record *record);
void hl__record_faults(hl_record *record);
void hl__record_missing(hl_record *record);
void hl__record_rounds(hl_record *record);
void hl__record_edits(hl_record *record);
void hl__record_remarks(hl_record *record);
void hl__record_sign(hl_record *record);
void hl__record_numbers(hl_record *record);
void hl__record_figures(hl_record *record);
/* When to come back, as far as the sheet says. */
void hl__record_return(hl_record *record);

/* The whole page for the owner, inside <main>. */
void hl__owner_page(hl_record *record);

#endif
