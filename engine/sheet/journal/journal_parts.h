/* journal_parts.h - what the journal's own files share (layer: sheet/journal). */
#ifndef HL_JOURNAL_PARTS_H
#define HL_JOURNAL_PARTS_H

#include "entry_mark.h"
#include "hammerline/sheet.h"
#include "journal.h"
#include "text.h"

#include <sys/stat.h>
#include <sys/types.h>

#define HL_JOURNAL_COLUMNS 7 /* of a row that is given: see hl_journal_row */
#define HL_JOURNAL_ENTRY   7 /* the column of marks, after them */
#define HL_JOURNAL_HEADS   8
#define HL_JOURNAL_LOOK    64 /* bytes of a sheet's end that are remembered */

/* How this sheet writes a row, read from its heads. */
typedef struct hl_journal_layout {
    char separator, mark; /* ',' ';' or tab; '.' or ',' */
    int version;          /* of the version line: its rows are ours; 0: there is none */
    bool crlf;
    int n_cells;
    int place[HL_JOURNAL_HEADS]; /* cell of note, step, reading ...; -1 when missing */
    size_t head_size;            /* bytes from the start to the end of the row of heads */
    size_t skipped;              /* of them, a byte order mark */
} hl_journal_layout;

/* What the next entry must know of those before it. */
typedef struct hl_journal_tail {
    uint32_t order;              /* the highest in the sheet; 0: no entry yet */
    char link[HL_MARK_HASH + 1]; /* to the entry of that order */
    bool open;                   /* the last row's entry lacks its last row, ... */
    off_t open_at;               /* ... and begins here */
    hl_mark mark;                /* of the last row, when it is open */
} hl_journal_tail;

/* How the file was when it was looked at. */
typedef struct hl_journal_look {
    off_t size;
    struct timespec changed;
    char last[HL_JOURNAL_LOOK]; /* the bytes before `size`, so many as there are */
    bool blind;                 /* they could not be read: whatever comes is a change */
} hl_journal_look;

struct hl_journal {
    char *shown;  /* the path as given */
    char *path;   /* without symbolic links, so that two names have one lock */
    char *folder; /* of path */
    char *lock_path, *torn_path;
    int fd, lock_fd;
    hl_journal_layout layout;
    char *head;            /* the bytes up to the end of the heads, to see whether they were changed */
    hl_journal_look seen;  /* by the caller: see hl_journal_grew() */
    hl_journal_look known; /* by us: `tail` is of this */
    hl_journal_tail tail;
    char session[HL_MARK_SESSION + 1];
    uint32_t counter; /* entries of this session */
    hl_text facts;    /* print of the facts above the heads */
    bool grew;
    hl_journal_wait wait;
    const char *ended; /* why it takes no more rows, or NULL */
    hl_text torn, unsaved;
};

/* ---- journal_row.c: heads and rows ---- */

extern const char *const hl__journal_columns[HL_JOURNAL_HEADS];
/* Read the layout from the whole rows of a sheet. */
hl_code hl__journal_layout(hl_journal_layout *layout, const char *path, const char *bytes, size_t size,
                           hl_err *err);
/* Has every row of this sheet that we write a mark? */
bool hl__journal_marks(const hl_journal_layout *layout);
/* The row as one line of this sheet, with its line end, added to `line`; without a mark, NULL.  The row as
 * it is hashed is added to `hashed`, when that is not NULL. */
hl_code hl__journal_line(hl_text *line, hl_text *hashed, const hl_journal_layout *layout,
                         const hl_journal_row *row, const hl_mark *mark, hl_err *err);
/* The row for a message: its fields, commas between. */
void hl__journal_plain(hl_text *text, const hl_journal_row *row);
/* Can the last line, which has no line end, be taken as whole?  Fails only for want of memory: then nobody
 * knows, and the line must stay as it is. */
hl_code hl__journal_is_whole(bool *out, const hl_journal_layout *layout, const char *line, size_t size,
                             hl_err *err);
/* NULL when text is UTF-8 without control characters, else what is wrong with it. */
const char *hl__journal_bad_text(const char *text, size_t size);

/* ---- journal_entry.c: the entries of a sheet that is open ---- */

/* Learn what the rows in these bytes say; they begin at `at` in the sheet, and end with a line end. */
hl_code hl__journal_scan(hl_journal_tail *tail, const hl_journal_layout *layout, const char *bytes,
                         size_t size, off_t at, hl_err *err);
/* Is the last line, which has no line end, the last row of its entry with a check that fits?  `before` are
 * the whole lines of that entry.  Fails only for want of memory. */
hl_code hl__journal_is_saved(bool *out, const hl_journal_layout *layout, const char *before,
                             size_t before_size, const char *line, size_t size, hl_err *err);
/* A name for this session that is not in these bytes. */
void hl__journal_begin_session(hl_journal *journal, const char *bytes, size_t size);
/* The entry's lines; with marks where the sheet has them, and then `link` becomes that to this entry. */
hl_code hl__journal_lines(hl_text *lines, char link[HL_MARK_HASH + 1], const hl_journal *journal,
                          const hl_journal_entry *entry, hl_err *err);

/* ---- journal_end.c: the end of the file ---- */

bool hl__journal_ends_row(char c);
/* Look at the end of a file of `size` bytes, under the lock.  Sets what was not saved to its end aside: a
 * torn line, an entry without its last row (*size is then smaller).  Or says with *owed that a line end must
 * come before the next row.  The tail must be that of the file's whole lines. */
hl_code hl__journal_mend(hl_journal *journal, off_t *size, bool *owed, hl_err *err);

/* ---- journal_disk.c: system calls with EINTR retried, and their failures in plain words ---- */

/* One write(); how many bytes went, or -1. */
ssize_t hl__disk_write(int fd, const char *bytes, size_t size);
/* Exactly `size` bytes from `at`; false on an error or when the file is shorter. */
bool hl__disk_read(int fd, char *bytes, size_t size, off_t at);
bool hl__disk_sync(int fd, bool data_only);
bool hl__disk_cut(int fd, off_t size);
/* Put the folder's entries on disk.  A folder that can't be opened or synced by its kind of file
 * system counts as done. */
bool hl__disk_sync_folder(const char *folder);
/* malloc'ed folder part of path ("." when it has none), or NULL. */
char *hl__disk_folder(const char *path);
/* "doing failed: the disk is full", and what to do about it; `number` is errno. */
hl_code hl__disk_fail(hl_err *err, hl_code code, const char *doing, int number);
/* Same file (device and number)? */
bool hl__disk_same(const struct stat *a, const struct stat *b);

hl_code hl__journal_lock(hl_journal *journal, mode_t mode, hl_err *err);
void hl__journal_unlock(hl_journal *journal);

#endif
