/* journal_end.c - what to do with a last line that has no line end (layer: sheet/journal).
 *
 * Such a line is either the half of a row that a crash cut, or the work of a program that leaves
 * the last line end out.  `9.5` may be the half of `9.53`, so nothing here ever makes a reading of
 * it by guessing: see hl_journal_open(). */
#include "journal_parts.h"

#include "csv.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

bool hl__journal_ends_row(char c)
{
    return c == '\n' || c == '\r';
}

/* The bytes after the last line end, malloc'ed; *size is 0 when there are none. */
static hl_code read_tail(char **out, size_t *size, const hl_journal *journal, off_t end, hl_err *err)
{
    *out = NULL;
    *size = 0;
    for (size_t look = 1;; look *= 4) { /* 1 first: nearly always the line end is there */
        size_t most = (uintmax_t)end < look ? (size_t)end : look;
        free(*out);
        *out = malloc(most + 1);
        if (*out == NULL) {
            return hl__no_memory(err);
        }
        if (!hl__disk_read(journal->fd, *out, most, end - (off_t)most)) {
            int number = errno;
            free(*out);
            *out = NULL;
            return hl__disk_fail(err, HL_E_SAVE, "the sheet can't be read back", number);
        }
        size_t from = most;
        while (from > 0 && !hl__journal_ends_row((*out)[from - 1])) {
            from--;
        }
        if (from > 0 || most == (size_t)end) {
            *size = most - from;
            memmove(*out, *out + from, *size);
            return HL_OK;
        }
    }
}

/* A line of its own, also after a session that was killed while it wrote one here. */
static bool write_torn(int fd, const char *tail, size_t size)
{
    struct stat now;
    char last = '\n';
    hl_text line = {0};
    if (fstat(fd, &now) != 0 || (now.st_size > 0 && !hl__disk_read(fd, &last, 1, now.st_size - 1))) {
        return false;
    }
    hl__text_add(&line, last == '\n' ? "" : "\n");
    hl__text_add_n(&line, tail, size);
    hl__text_add(&line, size > 0 && hl__journal_ends_row(tail[size - 1]) ? "" : "\n");
    ssize_t n = line.failed ? -1 : hl__disk_write(fd, line.data, line.size);
    int number = line.failed ? ENOMEM : n < 0 ? errno : ENOSPC;
    bool all = n >= 0 && (size_t)n == line.size;
    hl__text_free(&line);
    errno = number;
    return all;
}

/* Keep the torn line beside the sheet, on disk, before it is taken off the sheet. */
static hl_code keep_torn(const hl_journal *journal, const char *tail, size_t size, mode_t mode, hl_err *err)
{
    const char *doing = "the torn last line can't be kept beside the sheet (its name and .torn)";
    int fd = open(journal->torn_path, O_RDWR | O_APPEND | O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK,
                  (mode & 0666) | 0600);
    if (fd < 0) {
        return hl__disk_fail(err, HL_E_SAVE, doing, errno);
    }
    bool kept = write_torn(fd, tail, size) && hl__disk_sync(fd, false);
    int number = errno;
    close(fd);
    if (kept && !hl__disk_sync_folder(journal->folder)) {
        kept = false;
        number = errno;
    }
    return kept ? HL_OK : hl__disk_fail(err, HL_E_SAVE, doing, number);
}

/* For the caller to show: a crash can leave any bytes. */
static void tell_torn(hl_journal *journal, const char *tail, size_t size)
{
    if (journal->torn.size > 0) {
        hl__text_char(&journal->torn, '\n');
    }
    for (size_t i = 0; i < size && i < HL_CELL_MOST;) {
        uint32_t point;
        int n = hl__utf8_next(tail + i, size - i, &point);
        if (n > 0 && hl__journal_ends_row(tail[i])) {
            if (i + 1 < size && (tail[i] == '\n' || tail[i + 1] != '\n')) {
                hl__text_char(&journal->torn, '\n');
            }
        } else if (n == 0 || point < 0x20 || (point >= 0x7F && point < 0xA0)) {
            hl__text_char(&journal->torn, '?');
            n = n == 0 ? 1 : n;
        } else {
            hl__text_add_n(&journal->torn, tail + i, (size_t)n);
        }
        i += (size_t)n;
    }
}

static hl_code set_aside(hl_journal *journal, const char *tail, size_t tail_size, off_t *size, hl_err *err)
{
    struct stat now;
    if (fstat(journal->fd, &now) != 0) {
        return hl__disk_fail(err, HL_E_SAVE, "the sheet can't be looked at", errno);
    }
    hl_code code = keep_torn(journal, tail, tail_size, now.st_mode, err);
    if (code != HL_OK) {
        return code;
    }
    off_t whole = *size - (off_t)tail_size;
    if (!hl__disk_cut(journal->fd, whole) || !hl__disk_sync(journal->fd, false)) {
        journal->ended = "its torn last line could not be taken off";
        return hl__disk_fail(err, HL_E_SAVE, "the torn last line can't be taken off the sheet", errno);
    }
    *size = whole;
    tell_torn(journal, tail, tail_size);
    return HL_OK;
}

/* Rows with marks: what is not saved to its end is not a torn line but a torn entry, and goes whole. */
static hl_code mend_entry(hl_journal *journal, const char *line, size_t line_size, off_t *size, bool *owed,
                          hl_err *err)
{
    const off_t lines_end = *size - (off_t)line_size;
    const off_t from = journal->tail.open ? journal->tail.open_at : lines_end;
    const size_t before = (size_t)(lines_end - from), all = before + line_size;
    if (all == 0) {
        return HL_OK;
    }
    char *bytes = malloc(all + 1);
    if (bytes == NULL) {
        return hl__no_memory(err);
    }
    memcpy(bytes + before, line, line_size);
    hl_code code = HL_OK;
    bool saved = false;
    if (!hl__disk_read(journal->fd, bytes, before, from)) {
        code = hl__disk_fail(err, HL_E_SAVE, "the sheet can't be read back", errno);
    } else if (line_size > 0) {
        code = hl__journal_is_saved(&saved, &journal->layout, bytes, before, bytes + before, line_size, err);
    }
    if (code != HL_OK) {
        free(bytes);
        return code;
    }
    if (saved) {
        *owed = true; /* a text editor took the last line end off */
        code = hl__journal_scan(&journal->tail, &journal->layout, bytes + before, line_size, lines_end, err);
    } else {
        code = set_aside(journal, bytes, all, size, err);
        journal->tail.open = false;
    }
    free(bytes);
    return code;
}

hl_code hl__journal_mend(hl_journal *journal, off_t *size, bool *owed, hl_err *err)
{
    char *tail;
    size_t tail_size;
    *owed = false;
    if (*size == 0) {
        return HL_OK;
    }
    hl_code code = read_tail(&tail, &tail_size, journal, *size, err);
    if (code == HL_OK && hl__journal_marks(&journal->layout)) {
        code = mend_entry(journal, tail, tail_size, size, owed, err);
        free(tail);
        return code;
    }
    if (code != HL_OK || tail_size == 0) {
        free(tail);
        return code;
    }
    if (journal->layout.version > 0) {
        code = set_aside(journal, tail, tail_size, size, err);
        free(tail);
        return code;
    }
    code = hl__journal_is_whole(owed, &journal->layout, tail, tail_size, err);
    if (code == HL_OK && !*owed) {
        code =
            hl__fail(err, HL_E_SHEET, "the last line has no line end, so its reading may be cut short: %.*s",
                     (int)(tail_size < 120 ? tail_size : 120), tail);
        hl__todo(err, "compare it with what was read, press Enter at its end in a text editor, and save");
    }
    free(tail);
    return code;
}
