/* journal.c - opening a sheet for appending, and one entry at a time onto the disk (layer: sheet/journal).
 *
 * The journal owns two file descriptors, the sheet's and its lock's, and remembers what the sheet
 * looked like after its last look. */
#define _XOPEN_SOURCE 700 /* realpath() */
#include "journal_parts.h"

#include "csv.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* ---- looking ------------------------------------------------------------------------------ */

static size_t count_last(off_t size)
{
    return size < HL_JOURNAL_LOOK ? (size_t)size : HL_JOURNAL_LOOK;
}

static void look_at(hl_journal_look *look, int fd, const struct stat *now)
{
    const size_t n = count_last(now->st_size);
    look->size = now->st_size;
    look->changed = now->st_mtim;
    look->blind = !hl__disk_read(fd, look->last, n, now->st_size - (off_t)n);
}

/* Are the bytes before the end of that look as they were? */
static bool same_end(const hl_journal_look *look, int fd)
{
    char last[HL_JOURNAL_LOOK];
    const size_t n = count_last(look->size);
    return !look->blind && hl__disk_read(fd, last, n, look->size - (off_t)n) &&
           memcmp(last, look->last, n) == 0;
}

/* The clock of a file system may be too coarse to show a second change. */
static bool differs(const hl_journal_look *look, int fd, const struct stat *now)
{
    return now->st_size != look->size || now->st_mtim.tv_sec != look->changed.tv_sec ||
           now->st_mtim.tv_nsec != look->changed.tv_nsec || !same_end(look, fd);
}

static void note_state(hl_journal *journal, const struct stat *now)
{
    look_at(&journal->seen, journal->fd, now);
    journal->known = journal->seen;
}

/* ---- opening ----------------------------------------------------------------------------- */

static char *join(const char *path, const char *end)
{
    size_t size = strlen(path), more = strlen(end) + 1;
    char *both = malloc(size + more);
    if (both != NULL) {
        memcpy(both, path, size);
        memcpy(both + size, end, more);
    }
    return both;
}

static hl_code open_sheet(hl_journal *journal, const char *path, hl_err *err)
{
    const char *doing = "the sheet can't be opened for appending";
    journal->shown = strdup(path);
    if (journal->shown == NULL) {
        return hl__no_memory(err);
    }
    journal->path = realpath(path, NULL);
    if (journal->path == NULL) {
        return hl__disk_fail(err, errno == ENOENT ? HL_E_SHEET : HL_E_SAVE, doing, errno);
    }
    journal->folder = hl__disk_folder(journal->path);
    journal->lock_path = join(journal->path, ".lock");
    journal->torn_path = join(journal->path, ".torn");
    if (journal->folder == NULL || journal->lock_path == NULL || journal->torn_path == NULL) {
        return hl__no_memory(err);
    }
    journal->fd = open(journal->path, O_RDWR | O_APPEND | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (journal->fd < 0 && errno == EACCES) {
        hl__fail(err, HL_E_SAVE, "the sheet is read-only for you");
        return hl__todo(err, "give yourself the right to write it, or work on a copy");
    }
    return journal->fd < 0 ? hl__disk_fail(err, HL_E_SAVE, doing, errno) : HL_OK;
}

static hl_code check_kind(const struct stat *now, hl_err *err)
{
    if (!S_ISREG(now->st_mode)) {
        hl__fail(err, HL_E_SHEET, "not an ordinary file, so nothing can be kept in it");
        return hl__todo(err, "name a sheet");
    }
    if (now->st_size > (off_t)HL_SHEET_MOST) {
        hl__fail(err, HL_E_SHEET, "the sheet is larger than %u MB", HL_SHEET_MOST >> 20);
        return hl__todo(err, "one sheet holds one piano; split it");
    }
    return HL_OK;
}

/* Is the file at the sheet's path still the one that is open?  Fills `now` from the open one. */
static hl_code check_place(const hl_journal *journal, struct stat *now, hl_err *err)
{
    struct stat named;
    if (fstat(journal->fd, now) != 0) {
        return hl__disk_fail(err, HL_E_SAVE, "the sheet can't be looked at", errno);
    }
    if (stat(journal->path, &named) != 0) {
        if (errno != ENOENT && errno != ENOTDIR) {
            return hl__disk_fail(err, HL_E_SAVE, "the sheet can't be found any more", errno);
        }
        hl__fail(err, HL_E_SAVE, "the sheet or its folder was removed or moved away");
        return hl__todo(err, "put it back, or find where it went, and open it again");
    }
    if (!hl__disk_same(now, &named)) {
        hl__fail(err, HL_E_SAVE, "another program put a new file in the sheet's place");
        return hl__todo(err, "close the sheet in the other program, and open it again here");
    }
    return HL_OK;
}

static hl_code read_bytes(char **out, const hl_journal *journal, size_t size, off_t at, hl_err *err)
{
    *out = malloc(size + 1);
    if (*out == NULL) {
        return hl__no_memory(err);
    }
    if (hl__disk_read(journal->fd, *out, size, at)) {
        return HL_OK;
    }
    const int number = errno;
    free(*out);
    *out = NULL;
    return hl__disk_fail(err, HL_E_SHEET, "the sheet can't be read", number);
}

static size_t count_whole(const char *bytes, size_t size)
{
    while (size > 0 && !hl__journal_ends_row(bytes[size - 1])) {
        size--;
    }
    return size;
}

static hl_code read_facts(hl_journal *journal, const char *bytes, hl_err *err)
{
    hl_csv csv;
    hl_fact_prints facts = {.n = 0};
    hl_code code = hl__csv_start(&csv, "", bytes, journal->layout.head_size, journal->layout.separator, err);
    if (code != HL_OK) {
        return code;
    }
    csv.one_line = true;
    for (int n = 1, line; code == HL_OK;) {
        code = hl__csv_row(&csv, &n, &line, err);
        if (code == HL_OK && n == 0) {
            break;
        }
        if (code == HL_OK) {
            hl__fact_add(&facts, csv.cells, n, csv.separator);
        }
        code = code == HL_E_SHEET ? HL_OK : code; /* reading the sheet tells of a bad line */
    }
    hl__fact_print(&journal->facts, &facts);
    code = code == HL_OK && journal->facts.failed ? hl__no_memory(err) : code;
    hl__fact_free(&facts);
    hl__csv_end(&csv);
    return code;
}

static hl_code read_all(hl_journal *journal, size_t size, hl_err *err)
{
    char *bytes = NULL;
    hl_code code = read_bytes(&bytes, journal, size, 0, err);
    const size_t whole = code == HL_OK ? count_whole(bytes, size) : 0;
    if (code == HL_OK) {
        code = hl__journal_layout(&journal->layout, journal->shown, bytes, whole, err);
    }
    const size_t head = journal->layout.head_size;
    if (code == HL_OK) {
        journal->head = malloc(head + 1);
        code = journal->head == NULL ? hl__no_memory(err) : HL_OK;
    }
    if (code == HL_OK) {
        memcpy(journal->head, bytes, head);
        hl__mark_link(journal->tail.link, "");
    }
    if (code == HL_OK && hl__journal_marks(&journal->layout)) {
        hl__journal_begin_session(journal, bytes, size);
        code = read_facts(journal, bytes, err);
        if (code == HL_OK) {
            code = hl__journal_scan(&journal->tail, &journal->layout, bytes + head, whole - head, (off_t)head,
                                    err);
        }
    }
    free(bytes);
    return code;
}

/* Somebody changed the sheet since we knew its entries: learn those that came, or all. */
static hl_code learn_entries(hl_journal *journal, const struct stat *now, hl_err *err)
{
    const hl_journal_look *known = &journal->known;
    const bool grown = now->st_size >= known->size && known->size > 0 && same_end(known, journal->fd) &&
                       hl__journal_ends_row(known->last[count_last(known->size) - 1]);
    off_t from = known->size;
    if (!grown) {
        from = (off_t)journal->layout.head_size;
        journal->tail = (hl_journal_tail){.order = 0};
        hl__mark_link(journal->tail.link, "");
    }
    char *bytes = NULL;
    const size_t size = (size_t)(now->st_size - from);
    hl_code code = read_bytes(&bytes, journal, size, from, err);
    if (code == HL_OK) {
        code = hl__journal_scan(&journal->tail, &journal->layout, bytes, count_whole(bytes, size), from, err);
    }
    free(bytes);
    return code;
}

/* Under the lock: learn the heads, mend the end, and see that what is there is on disk. */
static hl_code prepare(hl_journal *journal, hl_err *err)
{
    struct stat now;
    bool owed;
    hl_code code = check_place(journal, &now, err);
    if (code == HL_OK) {
        code = read_all(journal, (size_t)now.st_size, err);
    }
    const hl_journal_tail lines = journal->tail;
    if (code == HL_OK) {
        code = hl__journal_mend(journal, &now.st_size, &owed, err);
    }
    if (code != HL_OK) {
        return code;
    }
    if (owed) {
        journal->tail = lines; /* the first append looks at the last line again */
    }
    /* A sheet that a spreadsheet made a moment ago may not be on disk; our rows would go with it. */
    if (!hl__disk_sync(journal->fd, false) || !hl__disk_sync_folder(journal->folder) ||
        fstat(journal->fd, &now) != 0) {
        return hl__disk_fail(err, HL_E_SAVE, "the sheet can't be put on disk", errno);
    }
    note_state(journal, &now);
    return HL_OK;
}

hl_code hl_journal_open(hl_journal **out, const char *path, hl_err *err)
{
    return hl_journal_open_waiting(out, path, NULL, err);
}

hl_code hl_journal_open_waiting(hl_journal **out, const char *path, const hl_journal_wait *wait, hl_err *err)
{
    struct stat now;
    *out = NULL;
    hl_journal *journal = calloc(1, sizeof *journal);
    if (journal == NULL) {
        return hl__no_memory(err);
    }
    journal->fd = journal->lock_fd = -1;
    journal->wait = wait == NULL ? (hl_journal_wait){.held = NULL} : *wait;
    hl_code code = open_sheet(journal, path, err);
    if (code == HL_OK) {
        code = fstat(journal->fd, &now) != 0
                   ? hl__disk_fail(err, HL_E_SHEET, "the sheet can't be looked at", errno)
                   : check_kind(&now, err);
    }
    if (code == HL_OK) {
        code = hl__journal_lock(journal, now.st_mode, err);
    }
    if (code == HL_OK) {
        code = prepare(journal, err);
        hl__journal_unlock(journal);
    }
    if (code == HL_OK && journal->torn.failed) {
        code = hl__no_memory(err);
    }
    if (code != HL_OK) {
        hl_journal_close(journal);
        return code == HL_E_MEMORY ? code : hl__at(err, path, err->line, err->column);
    }
    *out = journal;
    return HL_OK;
}

void hl_journal_close(hl_journal *journal)
{
    if (journal == NULL) {
        return;
    }
    if (journal->fd >= 0) {
        close(journal->fd);
    }
    if (journal->lock_fd >= 0) {
        close(journal->lock_fd);
    }
    free(journal->shown);
    free(journal->path);
    free(journal->folder);
    free(journal->lock_path);
    free(journal->torn_path);
    free(journal->head);
    hl__text_free(&journal->facts);
    hl__text_free(&journal->torn);
    hl__text_free(&journal->unsaved);
    free(journal);
}

/* ---- appending --------------------------------------------------------------------------- */

/* Somebody changed the sheet: more rows are fine, other heads are not, since our row would be
 * written in the old order. */
static hl_code check_head(hl_journal *journal, const struct stat *now, hl_err *err)
{
    size_t size = journal->layout.head_size;
    char *head = malloc(size + 1);
    if (head == NULL) {
        return hl__no_memory(err);
    }
    bool same = now->st_size >= (off_t)size && hl__disk_read(journal->fd, head, size, 0) &&
                memcmp(head, journal->head, size) == 0;
    free(head);
    if (same) {
        return HL_OK;
    }
    journal->ended = "another program changed the top of the sheet";
    hl__fail(err, HL_E_SAVE, "%s", journal->ended);
    return hl__todo(err, "open the sheet again, then type this row again");
}

/* A write that did not take everything: take back what it took, and nothing else. */
static hl_code take_back(hl_journal *journal, off_t before, ssize_t wrote, int number, hl_err *err)
{
    struct stat now;
    bool looked = fstat(journal->fd, &now) == 0;
    bool clean = wrote <= 0 || (looked && now.st_size == before);
    if (!clean && looked && now.st_size == before + (off_t)wrote && hl__disk_cut(journal->fd, before)) {
        clean = true;
        looked = fstat(journal->fd, &now) == 0;
    }
    if (clean && looked) {
        note_state(journal, &now);
    }
    hl__disk_fail(err, HL_E_SAVE, "the row could not be written", wrote >= 0 ? ENOSPC : number);
    if (!clean) {
        journal->ended = "a row was cut short and its half could not be taken back";
        hl__todo(err, "make room on the disk and open the sheet again, which sets the half row aside");
    }
    return HL_E_SAVE;
}

static hl_code put_on_disk(hl_journal *journal, const hl_text *line, off_t before, hl_err *err)
{
    struct stat now;
    ssize_t n = hl__disk_write(journal->fd, line->data, line->size);
    if (n < 0 || (size_t)n != line->size) {
        return take_back(journal, before, n, errno, err);
    }
    if (!hl__disk_sync(journal->fd, true)) {
        journal->ended = "the disk failed to keep a row";
        hl__disk_fail(err, HL_E_SAVE, "the row may or may not be on the disk", errno);
        return hl__todo(err, "open the sheet again and look whether its last row is this one");
    }
    if (fstat(journal->fd, &now) == 0) {
        note_state(journal, &now);
    }
    return HL_OK;
}

static hl_code refuse_changed(bool *changed, hl_err *err)
{
    *changed = true;
    hl__fail(err, HL_E_SAVE, "somebody else wrote to the sheet since it was last looked at");
    return hl__todo(err, "look at it again, and decide whether this is still to be written");
}

/* What another session did since: learnt before anything is written. */
static hl_code look_again(hl_journal *journal, const struct stat *now, hl_err *err)
{
    journal->grew = journal->grew || differs(&journal->seen, journal->fd, now);
    if (!differs(&journal->known, journal->fd, now)) {
        return HL_OK;
    }
    hl_code code = check_head(journal, now, err);
    if (code == HL_OK && hl__journal_marks(&journal->layout)) {
        code = learn_entries(journal, now, err);
    }
    if (code == HL_OK) {
        look_at(&journal->known, journal->fd, now);
    }
    return code;
}

/* The sheet under the lock. */
static hl_code append_locked(hl_journal *journal, const hl_journal_entry *entry, bool *changed, hl_err *err)
{
    struct stat now;
    bool owed = false;
    hl_text lines = {0};
    char link[HL_MARK_HASH + 1] = "";
    hl_code code = check_place(journal, &now, err);
    if (code != HL_OK) {
        journal->ended = "the sheet is no longer in its place";
        return code;
    }
    code = look_again(journal, &now, err);
    if (code == HL_OK && entry->unless_changed && journal->grew) {
        return refuse_changed(changed, err);
    }
    off_t end = now.st_size;
    if (code == HL_OK) {
        code = hl__journal_mend(journal, &end, &owed, err);
    }
    if (code == HL_OK && owed) {
        hl__text_add(&lines, journal->layout.crlf ? "\r\n" : "\n");
    }
    if (code == HL_OK) {
        code = hl__journal_lines(&lines, link, journal, entry, err);
    }
    if (code == HL_OK && end + (off_t)lines.size > (off_t)HL_SHEET_MOST) {
        hl__fail(err, HL_E_SAVE, "the sheet would be larger than %u MB", HL_SHEET_MOST >> 20);
        code = hl__todo(err, "start a new sheet");
    }
    if (code == HL_OK) {
        code = put_on_disk(journal, &lines, end, err);
    }
    if (code == HL_OK && hl__journal_marks(&journal->layout)) {
        journal->tail.order++;
        journal->counter++;
        memcpy(journal->tail.link, link, sizeof link);
    }
    hl__text_free(&lines);
    return code;
}

/* Can these rows be written at all?  Asked before the lock. */
static hl_code check_entry(const hl_journal *journal, const hl_journal_entry *entry, hl_err *err)
{
    hl_code code = HL_OK;
    if (entry->n == 0 || entry->n > HL_JOURNAL_ROWS) {
        hl__fail(err, HL_E_SAVE, entry->n == 0 ? "an entry without a row" : "an entry of more than %d rows",
                 HL_JOURNAL_ROWS);
        return hl__todo(err, entry->n == 0 ? "give it one" : "write it in parts");
    }
    for (size_t i = 0; i < entry->n && code == HL_OK; i++) {
        hl_text line = {0};
        code = hl__journal_line(&line, NULL, &journal->layout, &entry->rows[i], NULL, err);
        hl__text_free(&line);
    }
    return code;
}

static hl_code append_entry(hl_journal *journal, const hl_journal_entry *entry, bool *changed, hl_err *err)
{
    struct stat now;
    if (journal->ended != NULL) {
        hl__fail(err, HL_E_SAVE, "no more rows are taken, because %s", journal->ended);
        return hl__todo(err, "open the sheet again, look at its last rows, and go on from there");
    }
    hl_code code = check_entry(journal, entry, err);
    if (code == HL_OK) {
        code = check_place(journal, &now, err); /* no lock can be made in a folder that is gone */
        journal->ended = code == HL_OK ? NULL : "the sheet is no longer in its place";
    }
    if (code == HL_OK) {
        code = hl__journal_lock(journal, now.st_mode, err);
    }
    if (code == HL_OK) {
        code = append_locked(journal, entry, changed, err);
        hl__journal_unlock(journal);
    }
    return code;
}

/* All rows of an entry that was not saved, so that they can be typed again. */
static void keep_unsaved(hl_journal *journal, const hl_journal_entry *entry)
{
    for (size_t i = 0; i < entry->n; i++) {
        hl__text_add(&journal->unsaved, i == 0 ? "" : "\n");
        hl__journal_plain(&journal->unsaved, &entry->rows[i]);
    }
}

hl_code hl_journal_append_entry(hl_journal *journal, const hl_journal_entry *entry, bool *changed,
                                hl_err *err)
{
    hl_err why = {0};
    bool other = false;
    hl__text_free(&journal->unsaved);
    journal->unsaved = (hl_text){0};
    hl_code code = append_entry(journal, entry, &other, &why);
    if (changed != NULL) {
        *changed = other;
    }
    if (code == HL_OK) {
        return HL_OK;
    }
    keep_unsaved(journal, entry);
    const char *unsaved = hl_journal_unsaved(journal);
    if (entry->n < 2) {
        hl__fail(err, code == HL_E_MEMORY ? code : HL_E_SAVE, "%s; not saved: %s", why.what, unsaved);
    } else {
        hl__fail(err, code == HL_E_MEMORY ? code : HL_E_SAVE, "%s; not saved: %zu rows, the first is %.*s",
                 why.what, entry->n, (int)strcspn(unsaved, "\n"), unsaved);
    }
    hl__todo(err, "%s", why.todo);
    return hl__at(err, journal->shown, 0, 0);
}

hl_code hl_journal_append(hl_journal *journal, const hl_journal_row *row, hl_err *err)
{
    const hl_journal_entry entry = {.rows = row, .n = 1};
    return hl_journal_append_entry(journal, &entry, NULL, err);
}

/* ---- questions --------------------------------------------------------------------------- */

const char *hl_journal_unsaved(const hl_journal *journal)
{
    return journal->unsaved.data == NULL ? "" : journal->unsaved.data;
}

const char *hl_journal_torn(const hl_journal *journal)
{
    return journal->torn.data == NULL ? "" : journal->torn.data;
}

bool hl_journal_grew(hl_journal *journal)
{
    struct stat now, named;
    bool grew = journal->grew;
    journal->grew = false;
    if (fstat(journal->fd, &now) != 0 || stat(journal->path, &named) != 0 || !hl__disk_same(&now, &named)) {
        return true;
    }
    if (differs(&journal->seen, journal->fd, &now)) {
        look_at(&journal->seen, journal->fd, &now);
        grew = true;
    }
    return grew;
}

long hl_journal_order(const hl_journal *journal)
{
    return hl__journal_marks(&journal->layout) && journal->counter > 0 ? (long)journal->tail.order : 0;
}

bool hl_journal_has(const hl_journal *journal, const char *column)
{
    for (int i = 0; i < HL_JOURNAL_COLUMNS; i++) {
        if (strcmp(column, hl__journal_columns[i]) == 0) {
            return journal->layout.place[i] >= 0;
        }
    }
    return false;
}
