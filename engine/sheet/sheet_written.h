/* sheet_written.h - a sheet's rows as they stand in its bytes, beside the events that were read of
 * them (layer: sheet).
 *
 * A sheet keeps amounts.  How they were typed (".390 in", "10.20"), its remark lines, and cells that
 * mean nothing to an audit stand in its bytes only; who writes the sheet anew asks here.  All strings
 * live as long as the hl_written, except those borrowed from the sheet's events. */
#ifndef HL_SHEET_WRITTEN_H
#define HL_SHEET_WRITTEN_H

#include "hammerline/sheet.h"
#include "sheet.h"
#include "text.h"

/* The columns of a tidy sheet, in the order of its heads. */
enum {
    HL_TIDY_NOTE,
    HL_TIDY_STEP,
    HL_TIDY_READING,
    HL_TIDY_TIME,
    HL_TIDY_BY,
    HL_TIDY_METHOD,
    HL_TIDY_REMARK,
    HL_TIDY_ENTRY,
    HL_TIDY_COLUMNS
};

/* A line above the header. */
typedef struct hl_written_top {
    const char *line; /* a remark, '#' and all; NULL when it states a fact */
    long fact;        /* index into the sheet's facts, or -1 */
    const char *name; /* the fact's name as it was written, "key_front naturals" */
} hl_written_top;

/* A reading below the header, or a remark line among them. */
typedef struct hl_written_row {
    long event;                         /* index, or -1: the row says nothing that is judged */
    const char *line;                   /* a remark, '#' and all; NULL for a reading */
    const char *cells[HL_TIDY_COLUMNS]; /* "" when not given */
} hl_written_row;

typedef struct hl_written {
    hl_arena arena;
    hl_written_top *tops;
    size_t n_tops, room_tops;
    hl_written_row *rows; /* in the file's order; of a wide sheet one for each reading */
    size_t n_rows, room_rows;
} hl_written;

/* The sheet must have been read without a bad row.  HL_E_SHEET: a line is too long to be written
 * anew.  Free it in any case. */
hl_code hl__written_read(hl_written *out, const hl_sheet *sheet, hl_err *err);
void hl__written_free(hl_written *written);

/* Would the reader take this text, in a column of this unit, for the very same reading? */
bool hl__written_same(const hl_sheet *sheet, const hl_event *event, hl_unit unit, const char *text);
/* The reading for a column of `unit`, from how it was written: as it was typed wherever that still
 * says the same there, else with its unit added, or without the one that the column has. */
void hl__written_say(hl_text *out, const hl_sheet *sheet, const hl_event *event, const char *written,
                     hl_unit unit);
/* The other unit of the step's kind, in which a reading may be written; its own when there is none. */
hl_unit hl__written_other_unit(const hl_step *step);

#endif
