/* journal.h - appending readings to a tidy sheet so that none is ever lost (layer: model).
 *
 * One row is one write() under a lock, then fdatasync(), and only then HL_OK.  The lock is a file
 * of its own, SHEET.lock, which is never renamed or removed; it is held only while a call works,
 * so that several sessions may keep one sheet.  A last line that was cut short (a kill, a power
 * cut) is moved to SHEET.torn and never read as a reading.
 *
 * A journal belongs to one thread at a time and must not be used on both sides of a fork().  The
 * program should ignore SIGXFSZ and SIGPIPE; a library does not touch signals. */
#ifndef HL_JOURNAL_H
#define HL_JOURNAL_H

#include "hammerline.h"

typedef struct hl_journal hl_journal;

/* One row as it will stand in the sheet.  NULL is the same as "".  `note` is empty for the whole
 * instrument; `step` and `reading` are never empty.  Decimal point or comma: the sheet's own mark
 * is put in. */
typedef struct hl_journal_row {
    const char *note, *step, *reading, *time, *by, *method, *remark;
} hl_journal_row;

/* Open an existing tidy sheet for appending.
 *
 * A last line without line end, in a sheet with the version line `# hammerline: tidy 1`, was cut
 * short by a crash: it is appended to SHEET.torn and taken off the sheet (see hl_journal_torn).
 * Without the version line somebody else's program wrote the sheet, and a missing last line end is
 * ordinary there; but `9.5` may still be the half of `9.53`.  So such a line is kept, and ended
 * by the first append, only when it has a cell for every head and the cut could not have been in
 * its note, step, reading or method: the last cell is another column's, or is in closed quotes.
 * Otherwise opening is refused and nothing is changed.
 *
 * HL_E_SHEET: not there, not a tidy sheet, or an unsure last line.  HL_E_SAVE: can't be written,
 * locked or put on disk. */
hl_code hl_journal_open(hl_journal **out, const char *path, hl_err *err);
void hl_journal_close(hl_journal *journal);

/* Append one row.  HL_OK means that its bytes are on the disk.  Every failure is HL_E_SAVE (or
 * HL_E_MEMORY) and its `what` ends with the row's text.  After a failed fdatasync(), or when the
 * file at the sheet's path is no longer the one that was opened, the journal takes no more rows:
 * close it, open the sheet again and look at its last rows. */
hl_code hl_journal_append(hl_journal *journal, const hl_journal_row *row, hl_err *err);

/* The row of the last failed append in full (an hl_err may have to cut it); "" when it was saved. */
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

#endif
