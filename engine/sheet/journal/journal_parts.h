/* journal_parts.h - what the journal's own files share (layer: sheet/journal). */
#ifndef HL_JOURNAL_PARTS_H
#define HL_JOURNAL_PARTS_H

#include "hammerline/sheet.h"
#include "journal.h"
#include "text.h"

#include <sys/stat.h>
#include <sys/types.h>

#define HL_JOURNAL_COLUMNS 7
#define HL_JOURNAL_VERSION "# hammerline: tidy 1"

/* How this sheet writes a row, read from its heads. */
typedef struct hl_journal_layout {
    char separator, mark; /* ',' ';' or tab; '.' or ',' */
    bool versioned;       /* has the version line: its rows are ours */
    bool crlf;
    int n_cells;
    int place[HL_JOURNAL_COLUMNS]; /* cell of note, step, reading ...; -1 when missing */
    size_t head_size;              /* bytes from the start to the end of the row of heads */
} hl_journal_layout;

struct hl_journal {
    char *shown;  /* the path as given */
    char *path;   /* without symbolic links, so that two names have one lock */
    char *folder; /* of path */
    char *lock_path, *torn_path;
    int fd, lock_fd;
    hl_journal_layout layout;
    char *head; /* the bytes up to the end of the heads, to see whether they were changed */
    off_t size; /* at our last look */
    struct timespec changed;
    bool grew;
    const char *ended; /* why it takes no more rows, or NULL */
    hl_text torn, unsaved;
};

/* ---- journal_row.c: heads and rows ---- */

extern const char *const hl__journal_columns[HL_JOURNAL_COLUMNS];
/* Read the layout from the whole rows of a sheet. */
hl_code hl__journal_layout(hl_journal_layout *layout, const char *path, const char *bytes, size_t size,
                           hl_err *err);
/* The row as one line of this sheet, with its line end, added to `line`. */
hl_code hl__journal_line(hl_text *line, const hl_journal_layout *layout, const hl_journal_row *row,
                         hl_err *err);
/* The row for a message: its fields, commas between. */
void hl__journal_plain(hl_text *text, const hl_journal_row *row);
/* Can the last line, which has no line end, be taken as whole? */
bool hl__journal_is_whole(const hl_journal_layout *layout, const char *line, size_t size);
/* NULL when text is UTF-8 without control characters, else what is wrong with it. */
const char *hl__journal_bad_text(const char *text, size_t size);

/* ---- journal_end.c: the end of the file ---- */

bool hl__journal_ends_row(char c);
/* Look at the end of a file of `size` bytes, under the lock.  Sets a torn line aside (*size is
 * then smaller), or says with *owed that a line end must come before the next row. */
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
