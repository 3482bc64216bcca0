/* sheet_parts.h - what the files of the sheet reader say to each other (layer: sheet).
 *
 * A function that reads one row returns HL_E_SHEET with `bad` filled for a bad row; the row loop
 * keeps it and goes on.  Anything else but HL_OK ends the reading. */
#ifndef HL_SHEET_PARTS_H
#define HL_SHEET_PARTS_H

#include "csv.h"
#include "hammerline/sheet.h"
#include "quantity.h"
#include "sheet.h"

/* The id as rules write it: lower case, runs of blanks and '-' as one '_'.  False when it is
 * longer than an id can be. */
bool hl__sheet_id(char out[HL_ID_MOST], const char *text, size_t size);
/* A text from the sheet for a message: cut short at a whole character. */
typedef struct hl_shown {
    char text[48];
} hl_shown;
hl_shown hl__sheet_show(const char *text);
bool hl__sheet_row_blank(const hl_cell *cells, int n);

/* sheet_top.c: what stands above the header. */
hl_code hl__sheet_reader(hl_csv *csv, const hl_sheet *sheet, char separator, hl_err *err);
hl_code hl__sheet_find_separator(hl_sheet *sheet, hl_err *err);
hl_code hl__sheet_read_top(hl_sheet *sheet, hl_err *err);
/* Keep a fact under its id, colour taken off.  False = no memory. */
bool hl__sheet_keep_fact(hl_sheet *sheet, const char *id, const char *value, int line, int column);

/* sheet_errors.c, places.c: what all rows share. */
/* Keep a bad row's error.  Fails only for want of memory. */
hl_code hl__sheet_complain(hl_sheet *sheet, const hl_err *bad, hl_err *err);
/* Errors into the file's order; `err` is the first. */
hl_code hl__sheet_close_errors(hl_sheet *sheet, hl_err *err);
hl_code hl__sheet_add(hl_sheet *sheet, const hl_event *event, hl_err *err);
/* Take back the adjustment `index`, one of the event's adjuster at its note. */
void hl__sheet_withdraw_change(hl_sheet *sheet, const hl_event *event, int index);
/* The row's cell of the column `sheet`: all rows of a sheet name the same one. */
hl_code hl__sheet_check_part(hl_sheet *sheet, const char *text, hl_err *bad);

/* sheet_facts.c, sheet_lists.c: facts against the book. */
hl_code hl__sheet_read_facts(hl_sheet *sheet, hl_err *err);
/* One fact; `late` when it stands in a row.  The place is the caller's. */
hl_code hl__sheet_state(hl_sheet *sheet, const hl_stated_fact *fact, bool late, hl_err *bad);
/* A fact "gauge STEP": *known is false when it is no such fact. */
hl_code hl__sheet_state_gauge(hl_sheet *sheet, const hl_stated_fact *fact, bool *known, hl_err *bad);
/* A fact "go gauge STEP: name, 1.6-2.8 mm": *known is false when it is no such fact. */
hl_code hl__sheet_state_go_gauge(hl_sheet *sheet, const hl_stated_fact *fact, bool *known, hl_err *bad);
/* The step that a fact "gauge STEP" speaks of, or -1. */
int hl__sheet_gauge_step(const hl_sheet *sheet, const hl_stated_fact *fact);
/* Facts that are kept for the record: no verdict hangs on them. */
const char *const *hl__sheet_records(size_t *n);
hl_code hl__sheet_read_compass(hl_compass *out, const char *text, hl_err *bad);
hl_code hl__sheet_read_breaks(hl_sheet *sheet, const char *text, hl_err *bad);
hl_code hl__sheet_read_dampers(hl_sheet *sheet, const char *text, hl_err *bad);
hl_code hl__sheet_read_samples(hl_sheet *sheet, const char *text, hl_err *bad);

/* places.c: what counts at each place. */
/* Room for the readings of the sheet's book; and as before the first row. */
bool hl__places_make(hl_sheet *sheet);
void hl__places_clear(hl_sheet *sheet);
/* The reading `index` of the events counts at its place from now on. */
void hl__places_put(hl_sheet *sheet, int index);
/* As if a place had never been read. */
void hl__places_forget(hl_sheet *sheet, int place);
/* Events of n usual readings.  False = no memory. */
bool hl__sheet_add_usual(hl_sheet *sheet, const hl_usual *usual, int n);

/* sheet.c: all but the rows: facts, the header, and room for the readings.  The sheet counts as read then.
 * *none: the header is no header, and there are no rows to read. */
hl_code hl__sheet_read_head(hl_sheet *sheet, const hl_book *book, bool *none, hl_err *err);
/* As after its head: rows of another sheet, with the same head, can be read.  name and part are borrowed. */
void hl__sheet_again(hl_sheet *sheet, const char *name, const char *part);

/* sheet_entries.c: rows with marks. */
/* What was changed since it was saved is among the sheet's errors.  *size: bytes up to an entry that was not
 * saved to its end.  Fails only for want of memory. */
hl_code hl__sheet_check_entries(hl_sheet *sheet, size_t *size, hl_err *err);
void hl__sheet_forget_entries(hl_sheet *sheet);
/* Is the last line whole although it has no line end? */
bool hl__sheet_ends_saved(const hl_sheet *sheet);
/* "void", or "void 31.2", which names a row: *line is that row's, 0 for the latest.  *is: it is a void at
 * all. */
hl_code hl__sheet_read_void(const hl_sheet *sheet, const char *text, bool *is, int *line, hl_err *bad);
/* The event on that line, among those that count or once counted at the place of the event `latest`; -1:
 * it is none of them, or it was withdrawn. */
int hl__sheet_find_line(const hl_sheet *sheet, int latest, int line);

/* sheet_cells.c: single cells. */
/* A note's name or number; an empty text is 0, the instrument. */
hl_code hl__cell_note(int *out, const hl_sheet *sheet, const char *text, hl_err *bad);
/* Is the step read at this place at all: a derived one never, once only for the instrument, a
 * sharp's only on sharps? */
hl_code hl__cell_fits(const hl_sheet *sheet, int step, int note, hl_err *bad);
/* Fills kind, amount and word of an event whose step and note are set. */
hl_code hl__cell_reading(hl_sheet *sheet, hl_event *event, hl_unit unit, const char *text, hl_err *bad);
/* May this number, without a unit of its own in a column of `unit`, be one of millimetres among inches or
 * the reverse?  *times: it is so many times off; 0: it would fit in the other unit. */
bool hl__cell_asks_unit(const hl_target *target, hl_amount value, hl_unit unit, int *times);
/* Holds the sheet to one decimal mark: `seen` is where the first one is remembered. */
hl_code hl__cell_mark(const hl_sheet *sheet, char *seen, const hl_number *number, hl_err *bad);

/* sheet_change.c: an adjustment made, in the words of its adjuster. */
hl_code hl__cell_adjustment(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad);

/* hl_book_find_step() and its like for a name that a line of the sheet uses: a name of before is noted. */
int hl__sheet_find_step(hl_sheet *sheet, const char *id, int line);
int hl__sheet_find_adjuster(hl_sheet *sheet, const char *id, int line);
/* Give a fact whose name is of before, or that is about the gauge of such a step, its new name; false: no
 * memory. */
bool hl__sheet_rename_fact(hl_sheet *sheet, hl_stated_fact *fact);

#endif
