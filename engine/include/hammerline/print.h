/* hammerline/print.h - text, JSON, CSV and HTML, printed into memory. */
#ifndef HAMMERLINE_PRINT_H
#define HAMMERLINE_PRINT_H

#include "fleet.h"
#include "plan.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- printing into memory ---------------------------------------------------------------- */

typedef struct hl_print {
    int width;  /* columns; 0 = 80 */
    bool color; /* words carry the verdict; colour only underlines it */
} hl_print;

/* Each returns malloc'ed text in *out, *size bytes, NUL-terminated; give it to hl_free(). */
hl_code hl_audit_text(char **out, size_t *size, const hl_audit *audit, const hl_print *print, hl_err *err);
/* What was learned and is used, as lines to keep: a fact line for the sheet (`# capstan_pitch: 1.12`)
 * where one fact says it all, else an adjuster line for a shop's book.  Empty when nothing is used. */
hl_code hl_learned_text(char **out, size_t *size, const hl_audit *audit, hl_err *err);
hl_code hl_audit_json(char **out, size_t *size, const hl_audit *audit, hl_err *err);
/* The findings as a table for spreadsheets (RFC 4180), passes too; the columns are described in
 * csv_audit.c.  `heads`: with the row of column heads; without an audit (NULL) that row alone. */
hl_code hl_audit_csv(char **out, size_t *size, const hl_audit *audit, bool heads, hl_err *err);
/* "hall-7.csv: not ready: 14 readings out in 5 steps, 2 not measured." and a newline. */
hl_code hl_fleet_line(char **out, size_t *size, const hl_fleet_sheet *sheet, hl_err *err);
/* The steps in which something is not right, the first cures, how many sheets are ready. */
hl_code hl_fleet_totals_text(char **out, size_t *size, const hl_fleet_totals *totals, hl_err *err);
/* JSON as hl_audit_json() prints it, made one line in place; returns its size. */
size_t hl_json_one_line(char *text, size_t size);
/* "All 4 sheets: 0 of 80 out: at 95 % at most 13 of 352 are out." and a newline. */
hl_code hl_samples_text(char **out, size_t *size, const hl_samples *samples, const hl_print *print,
                        hl_err *err);

/* ---- formats -------------------------------------------------------------------------------- */

/* One way of printing sheets with their results.  Sheets are printed by themselves, in any order and by any
 * thread; whoever puts them together prints the head, the items with `between` between them, and the tail.
 * A printer that is NULL prints nothing; that of the item of "text" is hl_audit_text() or hl_fleet_line(). */
typedef struct hl_format {
    const char *name, *about; /* as the command line names it; what it is, in a few words */
    hl_code (*head)(char **out, size_t *size, hl_err *err);
    hl_fleet_print *item; /* NULL: it is printed by hl_audit_text() and hl_fleet_line() */
    hl_code (*refused)(char **out, size_t *size, const char *title, const hl_err *errors, int n, hl_err *err);
    const char *between; /* NULL: nothing */
    hl_code (*tail)(char **out, size_t *size, long n_items, hl_err *err);
    bool bare; /* a sheet by itself is printed without head and tail, and then a line end */
} hl_format;
/* The i-th of the table, NULL past its end; the one of a name, NULL when there is none. */
const hl_format *hl_format_at(int i);
const hl_format *hl_format_named(const char *name);

/* ---- plans, books, sheets, pages ------------------------------------------------------------- */

/* The work list, the parts list and what should be read afterwards. */
hl_code hl_plan_text(char **out, size_t *size, const hl_plan *plan, const hl_print *print, hl_err *err);
hl_code hl_plan_json(char **out, size_t *size, const hl_plan *plan, hl_err *err);
/* The object that stands in for the plan of a sheet that can't be planned. */
hl_code hl_plan_error_json(char **out, size_t *size, const char *sheet, const hl_err *error, hl_err *err);
/* The object, or the rows, in place of the audit of a sheet that could not be judged at all: its title
 * (hl_fleet_sheet, or its path), and the n errors that say why. */
hl_code hl_error_json(char **out, size_t *size, const char *title, const hl_err *errors, int n, hl_err *err);
hl_code hl_error_csv(char **out, size_t *size, const char *title, const hl_err *errors, int n, hl_err *err);
/* One line of a list of books: its name and title (or what is `broken`, when book is NULL), and where
 * it stands. */
hl_code hl_book_line(char **out, size_t *size, const char *path, const hl_book *book, const hl_err *broken,
                     hl_err *err);
/* The book's steps in order, a line or two each; its adjusters, facts and diagnoses. */
hl_code hl_book_text(char **out, size_t *size, const hl_book *book, const hl_print *print, hl_err *err);
/* One step in full: target (at `note` of the book's compass, or along it for 0), how to measure,
 * why, what adjusts it, what disturbs it, source, where each was set. */
hl_code hl_step_text(char **out, size_t *size, const hl_book *book, int step, int note, const hl_print *print,
                     hl_err *err);
/* One adjuster in full: its ways, what it moves and by how much, what it is for, where each was set. */
hl_code hl_adjuster_text(char **out, size_t *size, const hl_book *book, int adjuster, int note,
                         const hl_print *print, hl_err *err);
/* What differs from book a to book b, a line each with both places; empty when nothing does. */
hl_code hl_book_diff(char **out, size_t *size, const hl_book *a, const hl_book *b, const hl_print *print,
                     hl_err *err);
/* A blank wide sheet for the book. */
hl_code hl_sheet_blank(char **out, size_t *size, const hl_book *book, hl_err *err);
/* The facts of a blank tidy sheet, as lines for hl_journal_create(). */
hl_code hl_sheet_blank_facts(char **out, size_t *size, const hl_book *book, hl_err *err);
/* A sheet that was read without a bad row, written anew: the same readings, as they were typed, with
 * its facts, remarks, separator and decimal mark.  A tidy one keeps every row; a wide one the latest
 * reading of each note and step, and *lost says what it has no place for, a sentence a line ("" when
 * nothing; give it to hl_free()).  HL_E_SHEET: the first bad row, or a line too long to be written. */
hl_code hl_sheet_as_tidy(char **out, size_t *size, const hl_sheet *sheet, hl_err *err);
hl_code hl_sheet_as_wide(char **out, size_t *size, const hl_sheet *sheet, char **lost, hl_err *err);
/* One note's readings (0: the instrument's), pass beside pass, of one step or of all (-1), and the
 * adjustments between. */
hl_code hl_history_text(char **out, size_t *size, const hl_sheet *sheet, int note, int step,
                        const hl_print *print, hl_err *err);
/* One finding for the bench: `before` ("Saved. C5"), the reading and its verdict, then what to do and
 * what follows from it.  Short lines, the act first. */
hl_code hl_finding_text(char **out, size_t *size, const hl_audit *audit, const hl_finding *finding,
                        const char *before, const hl_print *print, hl_err *err);
/* One verdict explained: what is wanted and the rule lines that say so, the rows that count, what moved
 * since, how well it is known, what would change it.  HL_E_USAGE: the step is not read at this note (0: the
 * instrument). */
hl_code hl_why_text(char **out, size_t *size, const hl_audit *audit, int step, int note,
                    const hl_print *print, hl_err *err);
/* Phrases of one line, without a line end: "49.0 mm: fail, high"; "44.0-48.0 mm", or the words of a
 * judged step; the adjustment as a tidy sheet's reading ("raise 1/4 turn"). */
hl_code hl_reading_text(char **out, size_t *size, const hl_audit *audit, const hl_finding *finding,
                        hl_err *err);
/* An amount as finely as the step is read: "46.0 mm". */
hl_code hl_amount_text(char **out, size_t *size, const hl_audit *audit, int step, hl_amount value,
                       hl_err *err);
hl_code hl_target_text(char **out, size_t *size, const hl_audit *audit, int step, int note, hl_err *err);
hl_code hl_adjustment_text(char **out, size_t *size, const hl_book *book, const hl_correction *correction,
                           hl_err *err);
/* Any text as a paragraph of the page's width, safe for a terminal; lines after the first stand
 * `hang` columns in. */
hl_code hl_paragraph_text(char **out, size_t *size, const char *text, int first, int hang,
                          const hl_print *print, hl_err *err);
/* The finished-job record as one HTML file: no script, nothing fetched, readable in grey and printed.
 * The same audit and options give the same bytes. */
typedef struct hl_report {
    const char *made; /* the day it is made, "2026-11-20"; NULL: not said */
    bool owner;       /* one page in plain words for the owner instead */
    bool numbers;     /* with the numbers of every chart as tables, an annex of some pages */
} hl_report;
/* `asked` may be NULL. */
hl_code hl_report_html(char **out, size_t *size, const hl_audit *audit, const hl_report *asked, hl_err *err);
/* One page for many pianos: which are ready, what is common, pianos by steps with the worst first.  No
 * script. */
typedef struct hl_fleet_page hl_fleet_page;
hl_code hl_fleet_page_new(hl_fleet_page **out, hl_err *err);
void hl_fleet_page_free(hl_fleet_page *page);
/* Copies what the page needs of one sheet.  `link`: the address of its record, or NULL.  The worst are found
 * by root causes when the fleet keeps its audits (hl_fleet_options.keep), else by readings that are out. */
hl_code hl_fleet_page_add(hl_fleet_page *page, const hl_fleet_sheet *sheet, const char *link, hl_err *err);
/* `asked` may be NULL; of it only `made` is used. */
hl_code hl_fleet_page_html(char **out, size_t *size, hl_fleet_page *page, const hl_report *asked,
                           hl_err *err);
/* A blank form of the book for the bench, to print: a page a stage, with targets and room to write. */
hl_code hl_form_html(char **out, size_t *size, const hl_book *book, hl_err *err);
/* "file:line:column: what; todo" and a newline, safe for a terminal. */
hl_code hl_err_text(char **out, size_t *size, const hl_err *err);

#ifdef __cplusplus
}
#endif

#endif
