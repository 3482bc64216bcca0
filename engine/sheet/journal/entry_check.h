/* entry_check.h - what became of a sheet's entries since they were saved, from its bytes alone
 * (layer: sheet/journal). */
#ifndef HL_ENTRY_CHECK_H
#define HL_ENTRY_CHECK_H

#include "entry_mark.h"
#include "hammerline/sheet.h"

typedef enum hl_entry_fault {
    /* In doubt: what stands there is not what was saved. */
    HL_ENTRY_EDITED,     /* cells of an entry's rows are not those that were saved */
    HL_ENTRY_MARK,       /* a cell `entry` can't be read, or the row has too few cells or too many */
    HL_ENTRY_ROW_GONE,   /* rows of an entry are missing */
    HL_ENTRY_ENTRY_GONE, /* whole entries are missing before `order`; `from` is the first */
    HL_ENTRY_REPLACED,   /* the entry before this one is another than when this one was saved */
    HL_ENTRY_TWICE,      /* a row stands twice, or two entries have one number */
    HL_ENTRY_SORTED,     /* rows are not in the order in which they were saved */
    HL_ENTRY_UNFINISHED, /* the last entry was not saved to its end: it does not count */
    /* Said, and not in doubt. */
    HL_ENTRY_BY_HAND, /* where rows of an entry, or whole entries, are missing, rows without a mark stand */
    HL_ENTRY_VERSION, /* rows have marks, but the version line is not that of `tidy 2` */
    HL_ENTRY_FACT,    /* a fact is another than when entry `order` was saved; no `fact`: one was removed */
} hl_entry_fault;

typedef struct hl_entry_change {
    hl_entry_fault kind;
    int line, last;     /* the rows it is about; of what is missing, the row after it; 0: none */
    uint32_t order;     /* of the entry; 0: of none */
    uint32_t from;      /* the first entry that is missing */
    uint32_t row, rows; /* the first row that is missing or doubtful, of so many */
    const char *fact;   /* its name, or NULL */
} hl_entry_change;

/* A row with a mark. */
typedef struct hl_entry_row {
    uint32_t order, row;
    int line;
} hl_entry_row;

typedef struct hl_entries {
    hl_entry_row *rows;       /* in the order of saving */
    hl_entry_change *changes; /* in the order of lines, those of the whole sheet first */
    size_t n_changes, room_changes;
    size_t n_entries, n_marked; /* whole entries; rows with a mark */
    size_t n_unmarked;          /* rows without: written by hand, and not protected */
    bool marked;                /* the sheet has a column `entry` */
    size_t unfinished_at;       /* where an entry without its last row begins, in bytes */
    bool ends_saved;            /* the last line has no line end, but its entry is whole */
    hl_fact_prints facts;
} hl_entries;

/* `name` stands in messages.  HL_E_SHEET: not a tidy sheet, or of an unknown version.  Rows that are no CSV
 * are passed over: reading the sheet tells of them.  Free it in any case. */
hl_code hl__entries_check(hl_entries *out, const char *name, const char *bytes, size_t size, hl_err *err);
void hl__entries_free(hl_entries *entries);
/* The line of the row "31.2"; 0: there is none. */
int hl__entries_line(const hl_entries *entries, unsigned long order, unsigned long row);
/* The row on a line; false: it has no mark. */
bool hl__entries_find(const hl_entries *entries, int line, uint32_t *order, uint32_t *row);
/* Does this kind of change put rows in doubt? */
bool hl__entry_is_doubt(hl_entry_fault kind);

#endif
