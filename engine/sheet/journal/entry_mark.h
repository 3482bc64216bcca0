/* entry_mark.h - the mark of a row: which entry it is of, and hashes that show a change (layer:
 * sheet/journal).
 *
 * The cell `entry` of a row that the program saved:
 *
 *   entry = order "." row "/" rows ["r"] " " session "-" counter [" " check " <" link [" #" facts]]
 *
 * An entry is what was saved by one write: one row or several.  `order` counts the entries of the sheet,
 * `row` the rows of one entry; `r` marks the rows of a range.  `session` and its own `counter` name the
 * entry whatever its order.  Only the last row has the hashes, so it is the one that makes the entry count:
 * `check` is of the entry's cells and places, `link` of the last cell of the entry before.  The first entry
 * of a session also has a print of the facts above the heads.
 *
 * What is hashed is the meaning of the cells, as far as the sheet alone can say: no blanks around a cell, no
 * quotes, numbers with a point and without trailing zeros.  The hashes show accidents and careless edits.
 * They are no signature: who changes a row on purpose can make them fit. */
#ifndef HL_ENTRY_MARK_H
#define HL_ENTRY_MARK_H

#include "csv.h"
#include "text.h"

#define HL_MARK_HASH    12 /* hexadecimal digits of a hash */
#define HL_MARK_SESSION 8  /* letters and digits of a session's name, at most */
#define HL_MARK_CELLS   7  /* note, step, reading, time, by, method, remark */

typedef struct hl_mark {
    uint32_t order;     /* of the entry in its sheet, from 1 */
    uint32_t row, rows; /* 1 of 2 */
    bool range;         /* one of the rows of a range of notes */
    char session[HL_MARK_SESSION + 1];
    uint32_t counter;             /* of the entry in its session, from 1 */
    char check[HL_MARK_HASH + 1]; /* "" but in the last row */
    char link[HL_MARK_HASH + 1];  /* the same */
    const char *facts;            /* digits of the facts' print, inside the text that was read; NULL: none */
} hl_mark;

/* Read a mark; false when the text is none.  A mark is written in one way only. */
bool hl__mark_read(hl_mark *out, const char *text);
/* Is the mark the last row's, which makes its entry count? */
bool hl__mark_is_last(const hl_mark *mark);
/* "31.1/2r q4tz-17", the part that every row has. */
void hl__mark_add_place(hl_text *out, const hl_mark *mark);
/* The whole mark. */
void hl__mark_add(hl_text *out, const hl_mark *mark);

/* One row of an entry as it is hashed: its cells by meaning, then its place, and the facts' print where the
 * mark has one.  The rows of an entry are hashed one after another. */
void hl__mark_add_row(hl_text *out, const char *const cells[HL_MARK_CELLS], const hl_mark *mark);
/* The check of the rows that hl__mark_add_row() wrote. */
void hl__mark_check(char out[HL_MARK_HASH + 1], const char *rows, size_t size);
/* The link of the entry after the one whose last mark is `text`; "" begins a sheet. */
void hl__mark_link(char out[HL_MARK_HASH + 1], const char *text);
/* Is the reading of this step a text, in which a number is no quantity? */
bool hl__mark_is_text(const char *step, const char *reading);

/* ---- facts ---- */

#define HL_FACT_PRINT 4 /* digits of one fact in a print */

/* The print of all facts above the heads: 12 digits of all together, then 4 of each, so that the one that
 * changed can be named.  Facts are added in the sheet's order. */
typedef struct hl_fact_prints {
    hl_text all;    /* canonical texts */
    hl_text prints; /* 4 digits each */
    hl_text names;  /* each ended by a NUL */
    size_t n;
} hl_fact_prints; /* start as {0} */

/* A row above the heads; what is no fact, and the version line, add nothing. */
void hl__fact_add(hl_fact_prints *to, const hl_cell *cells, int n, char separator);
/* The whole print, added to `out`. */
void hl__fact_print(hl_text *out, const hl_fact_prints *of);
const char *hl__fact_name(const hl_fact_prints *of, size_t i);
void hl__fact_free(hl_fact_prints *of);

#endif
