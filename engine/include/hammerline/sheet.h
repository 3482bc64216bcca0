/* hammerline/sheet.h - sheets of readings, and the journal that appends to them. */
#ifndef HAMMERLINE_SHEET_H
#define HAMMERLINE_SHEET_H

#include "book.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct hl_sheet hl_sheet;

/* ---- sheets ------------------------------------------------------------------------------ */

/* Read a file's bytes and its fact lines, so that the book it names can be opened. */
hl_code hl_sheet_open(hl_sheet **out, const char *path, hl_err *err);
/* The same from memory; `name` stands in messages.  The bytes are copied. */
hl_code hl_sheet_open_text(hl_sheet **out, const char *name, const char *text, size_t size, hl_err *err);
void hl_sheet_free(hl_sheet *sheet);
/* The value of the fact `book`; "" when the sheet names none. */
const char *hl_sheet_book_id(const hl_sheet *sheet);
/* Read all rows against the book, once.  HL_E_SHEET when any row is bad: the good rows are read
 * all the same, every bad one is in hl_sheet_errors(), and `err` is the first. */
hl_code hl_sheet_read(hl_sheet *sheet, const hl_book *book, hl_err *err);
/* After reading: does the sheet use a name of before?  *notice says which, where, and what it is called now.
 */
bool hl_sheet_notice(const hl_sheet *sheet, hl_err *notice);
const hl_err *hl_sheet_errors(const hl_sheet *sheet, int *n);
const char *hl_sheet_name(const hl_sheet *sheet); /* the path it was opened by */
hl_compass hl_sheet_compass(const hl_sheet *sheet);
/* The line of a last row that was cut short while it was saved (a bad row, too); 0 when none is. */
int hl_sheet_torn(const hl_sheet *sheet);
/* Is it a tidy sheet, a row a reading?  Known once it has been read. */
bool hl_sheet_is_tidy(const hl_sheet *sheet);
/* A fact as the sheet wrote it ("piano", "date", "place" ...), or "" . */
const char *hl_sheet_fact(const hl_sheet *sheet, const char *id);

/* ---- the journal -------------------------------------------------------------------------- */

/* Appending to a tidy sheet so that no reading is ever lost: one entry, of one row or several, is one
 * write() under a lock (SHEET.lock, never renamed or removed), then fdatasync(), and only then HL_OK.  A
 * journal belongs to one thread at a time.  The program should ignore SIGXFSZ and SIGPIPE.
 *
 * In a sheet of version `tidy 2` every row that is saved gets a mark in the column `entry`, by which a later
 * change can be seen and an entry without its last row is known.  Rows without a mark are written by hand. */
typedef struct hl_journal hl_journal;

/* One row as it will stand in the sheet.  NULL is the same as "".  `note` is empty for the whole
 * instrument; `step` and `reading` are never empty.  Decimal point or comma: the sheet's own mark
 * is put in. */
typedef struct hl_journal_row {
    const char *note, *step, *reading, *time, *by, *method, *remark;
} hl_journal_row;

#define HL_JOURNAL_ROWS 10000 /* rows of one entry, at most */

/* Rows that are saved together or not at all. */
typedef struct hl_journal_entry {
    const hl_journal_row *rows;
    size_t n;            /* 1 ... HL_JOURNAL_ROWS */
    bool range;          /* the rows of a range of notes: marked so */
    bool unless_changed; /* write nothing when somebody else changed the sheet since the last look */
} hl_journal_entry;

/* Another program holds the lock: called once, after a fifth of a second, before up to `seconds` are
 * waited.  It must not use the journal. */
typedef struct hl_journal_wait {
    void (*held)(void *context, int seconds);
    void *context;
} hl_journal_wait;

/* Open an existing tidy sheet for appending.
 *
 * In a sheet of version `tidy 2` an entry without its last row was cut short by a crash: all of it is
 * appended to SHEET.torn and taken off the sheet (see hl_journal_torn).  A last row that is whole, by its
 * check, is kept although its line end is missing.  In a sheet of version `tidy 1` a last line without line
 * end is set aside in the same way.
 * Without the version line somebody else's program wrote the sheet, and a missing last line end is
 * ordinary there; but `9.5` may still be the half of `9.53`.  So such a line is kept, and ended
 * by the first append, only when it has a cell for every head and the cut could not have been in
 * its note, step, reading or method: the last cell is another column's, or is in closed quotes.
 * Otherwise opening is refused and nothing is changed.
 *
 * HL_E_SHEET: not there, not a tidy sheet, or an unsure last line.  HL_E_SAVE: can't be written,
 * locked or put on disk. */
hl_code hl_journal_open(hl_journal **out, const char *path, hl_err *err);
/* The same; `wait` may be NULL, and also serves later appends. */
hl_code hl_journal_open_waiting(hl_journal **out, const char *path, const hl_journal_wait *wait, hl_err *err);
void hl_journal_close(hl_journal *journal);

/* Append one row.  HL_OK means that its bytes are on the disk.  Every failure is HL_E_SAVE (or
 * HL_E_MEMORY) and its `what` ends with the row's text.  After a failed fdatasync(), or when the
 * file at the sheet's path is no longer the one that was opened, the journal takes no more rows:
 * close it, open the sheet again and look at its last rows. */
hl_code hl_journal_append(hl_journal *journal, const hl_journal_row *row, hl_err *err);
/* Append all rows of an entry, or none.  *changed (may be NULL): it was refused only because somebody else
 * changed the sheet, and entry->unless_changed is set; the last look is then still the old one, so that
 * hl_journal_grew() tells of the change. */
hl_code hl_journal_append_entry(hl_journal *journal, const hl_journal_entry *entry, bool *changed,
                                hl_err *err);
/* The order number of the entry that this journal appended last: its rows are "31.1", "31.2" ..., and a row
 * whose reading is "void 31.2" withdraws the second.  0: none, or the sheet has no marks, and `void`
 * withdraws the latest row of its step and note. */
long hl_journal_order(const hl_journal *journal);

/* The rows of the last failed append in full, a line each (an hl_err may have to cut them); "" when it was
 * saved. */
const char *hl_journal_unsaved(const hl_journal *journal);
/* Lines set aside so far, shown without control characters; "" when none.  Appending may set one
 * aside too, when another session was killed meanwhile. */
const char *hl_journal_torn(const hl_journal *journal);
/* True, once, when somebody else changed the sheet since our last look: read it anew.  Stays true
 * while another file stands at its path. */
bool hl_journal_grew(hl_journal *journal);
/* Does the sheet have this column ("time", "remark" ...)?  A row that needs a missing one is
 * refused, so leave that field empty. */
bool hl_journal_has(const hl_journal *journal, const char *column);

/* Make a new tidy sheet: version line, `# book: ID`, the fact lines (each begins with '#'; may be
 * NULL), then the heads.  Appears whole and on disk, or not at all; never replaces a file. */
hl_code hl_journal_create(const char *path, const char *book, const char *facts, hl_err *err);

/* Put a text into a file: it appears whole and on disk, or not at all.  A file of that name is left
 * alone, unless `replace`; what is no ordinary file always is.  A file that is replaced keeps its mode. */
hl_code hl_file_save(const char *path, const char *text, size_t size, bool replace, hl_err *err);

/* ---- at the bench ------------------------------------------------------------------------ */

/* Would the sheet's reader take this row below the others?  HL_E_SHEET with what is wrong and what
 * to write instead; so nothing need be appended that would have to be mended.  A row of a step, an
 * adjuster, `query` or `pass`; its time, by, method and remark may be anything.  The sheet must have
 * been read, and is not changed. */
hl_code hl_sheet_check_row(const hl_sheet *sheet, const hl_journal_row *row, hl_err *err);
/* Is the step read at this note of this piano?  Note 0: once for the instrument. */
bool hl_sheet_applies(const hl_sheet *sheet, int step, int note);
bool hl_sheet_is_sample(const hl_sheet *sheet, int note);
int hl_sheet_section(const hl_sheet *sheet, int note); /* from 0 */
/* The line of the row that counts for a step or an adjuster (by id) at a note; 0: there is none. */
int hl_sheet_line(const hl_sheet *sheet, const char *id, int note);

/* What became of a sheet's rows since the program saved them, from its bytes alone. */
typedef struct hl_verified {
    size_t entries, marked; /* entries that are whole; rows with a mark */
    size_t unmarked;        /* rows without: written by hand, and not protected */
    hl_err *changes;        /* what was changed, in the order of lines; a fact's stands on line 0 */
    size_t n_changes;
} hl_verified;
/* The sheet need not have been read, and no book is asked.  HL_E_SHEET: it is no tidy sheet, so its rows
 * can't have marks.  A sheet whose last entries were cut off, or that was rewritten with marks that fit, is
 * only shown by a copy, a record or a signature kept elsewhere.  Give *out to hl_verified_free() in any case.
 */
hl_code hl_sheet_verify(hl_verified *out, const hl_sheet *sheet, hl_err *err);
void hl_verified_free(hl_verified *verified);

/* Of a sheet that was sorted, its bytes with the rows back in the order in which they were saved; rows
 * without a mark come last.  *out is NULL, and HL_OK, when nothing is out of order. */
hl_code hl_sheet_in_order(char **out, size_t *size, const hl_sheet *sheet, hl_err *err);

#define HL_ROW_NAME 24 /* bytes of "31.2", with its NUL */
/* The name of that row, "31.2", by which `void 31.2` withdraws it and no other; false and "": there is no
 * such row, or it has no mark. */
bool hl_sheet_mark(const hl_sheet *sheet, const char *id, int note, char out[HL_ROW_NAME]);

#ifdef __cplusplus
}
#endif

#endif
