/* sheet_out.h - what every sheet that we write is made of: cells, '#' lines, columns (layer: render/data).
 *
 * These are canonical sheets, so a text stays what it is: no apostrophe is put before one that a
 * spreadsheet might take for a formula. */
#ifndef HL_SHEET_OUT_H
#define HL_SHEET_OUT_H

#include "hammerline/print.h"
#include "sheet_written.h"

/* A cell; in quotes when the separator, a quote, or blanks at its ends would change it. */
void hl__out_cell(hl_text *out, char separator, const char *text);
/* A line of one cell that begins with '#', and its line end. */
void hl__out_line(hl_text *out, char separator, const char *text);
/* The same of a line that was put together; frees it and leaves it empty for the next one. */
void hl__out_take_line(hl_text *out, char separator, hl_text *line);
/* Do two names of a method or gauge mean the same?  Case does not matter. */
bool hl__same_method(const char *a, const char *b);
/* Is the step a column of a blank sheet: required, and read by a person? */
bool hl__out_column(const hl_step *step);
/* What is above the header of a sheet that is written again.  A wide one has no rows for facts that
 * changed on the way, so the last value is above; a tidy one keeps them where they are. */
void hl__out_top(hl_text *out, const hl_sheet *sheet, const hl_written *written, bool tidy);
/* Was the fact stated again below the header, so that this value no longer holds? */
bool hl__out_outdated(const hl_sheet *sheet, size_t fact);
/* HL_OK for a sheet that was read without a bad row; `err` says what else it is. */
hl_code hl__out_check(const hl_sheet *sheet, hl_err *err);

/* What a fact of one colour ends with, by hl_stated_fact.colour. */
extern const char *const hl__out_colours[3];

#endif
