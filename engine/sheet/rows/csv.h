/* csv.h - cells with line and column, RFC 4180 and what spreadsheets make of it (layer: sheet/rows). */
#ifndef HL_CSV_H
#define HL_CSV_H

#include "arena.h"
#include "hammerline/sheet.h"

#define HL_CELL_MOST  4096        /* bytes in one field */
#define HL_CELLS_MOST 512         /* cells in a row */
#define HL_SHEET_MOST (64u << 20) /* bytes in a sheet */
#define HL_ROWS_MOST  2000000

typedef struct hl_cell {
    char *text; /* NUL-terminated in the reader's row buffer, quotes undone; trimmed of blanks */
    size_t size;
    size_t place; /* where text starts in the row buffer; private to csv.c */
    int column;   /* 1-based cell number: what a spreadsheet user counts */
    bool quoted;
} hl_cell;

typedef struct hl_csv {
    const char *bytes, *end, *at;
    const char *name;
    char separator;
    bool one_line; /* set after the start: a cell with a line break is an open quote */
    int line;      /* line on which the next row starts */
    long rows;     /* rows read so far */
    bool torn;     /* the row just read was ended by the end of the file, not by a line end */
    char *buffer;  /* the current row's text */
    size_t used, room;
    hl_cell *cells; /* HL_CELLS_MOST */
} hl_csv;

/* Start over bytes (which must outlive the reader).  A UTF-8 BOM is passed over; CR, LF and CRLF
 * end a row. */
hl_code hl__csv_start(hl_csv *csv, const char *name, const char *bytes, size_t size, char separator,
                      hl_err *err);
/* Next row: *n cells, *line its first line; *n = 0 at the end.  A row of one empty cell is a blank
 * line and has *n = 1.  A bad row (open quote, text after a quote, too long, bad UTF-8, control
 * characters) is HL_E_SHEET with line and column, and reading may go on after it: an open quote
 * is taken to end with its own line, so that it can't swallow the rest. */
hl_code hl__csv_row(hl_csv *csv, int *n, int *line, hl_err *err);
void hl__csv_end(hl_csv *csv);

#endif
