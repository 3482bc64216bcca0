/* rows.h - reading the rows of a sheet: what the row readers share (layer: sheet/rows, private).
 *
 * A usual row is read in place (quick.h): digits become whole numbers where they stand.  A row that holds
 * anything else is left as it was and goes the general way, cell by cell (csv.h, sheet_cells.c). */
#ifndef HL_ROWS_H
#define HL_ROWS_H

#include "csv.h"
#include "form.h"
#include "sheet.h"

typedef struct hl_rows {
    hl_sheet *sheet;
    hl_form *form;
    const char *at, *end;         /* the next row; HL_SPARE bytes behind the end may be looked at */
    int line;                     /* of the next row */
    long count;                   /* rows so far */
    hl_key part;                  /* the sheet's name in a file of many; size 0: not known */
    bool any;                     /* a row was seen that is no remark */
    char guess;                   /* the decimal mark, as long as no number had one */
    int note, step;               /* of the row before: what comes next is guessed from them */
    unsigned char seen[HL_NOTES]; /* wide: 1 = the note has its row */
    uint32_t last[HL_HEADS];      /* the last text of each column */
    size_t last_size[HL_HEADS];
    hl_csv csv; /* of the general way; opened when it is first needed */
    bool has_csv;
} hl_rows;

/* Keep a text; the one that the column held last is kept once.  *out = 0 for "".  False = no memory. */
bool hl__rows_text(hl_rows *rows, int head, const char *text, size_t size, uint32_t *out);

/* The row that was split into csv.cells.  HL_E_SHEET: `bad` says what is wrong with it. */
hl_code hl__wide_row(hl_rows *rows, int line, hl_err *bad);
hl_code hl__tidy_row(hl_rows *rows, int line, hl_err *bad);

/* All rows from `at` to `end`; with `part`, in a file of many, only up to the first row of another sheet.
 * *used: how many bytes they were.  Bad rows are among the sheet's errors.  False only with `err`. */
hl_code hl__sheet_rows(hl_sheet *sheet, const char *at, const char *end, const char *part, int line,
                       size_t *used, hl_err *err);

#endif
