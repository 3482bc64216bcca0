/* fuzz_journal.c - appending to a sheet that holds any bytes, and recovery after a cut.
 *
 * Whatever stood there in whole lines still stands there, but for an entry without its last row, which is set
 * aside whole; a row that is said to be saved is the last line, whole; a refusal is explained, and leaves the
 * file as it was.  A sheet of entries that was cut anywhere keeps every entry before the cut, and its marks
 * show no change; one whose bytes were changed never makes the marks say more than there is. */
#define _GNU_SOURCE /* memmem */
#include "fuzz.h"

#include "hammerline.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST 4096
#define ROOM (4 * MOST + 4096)
#define TOP2 "# hammerline: tidy 2\n# book: grand\nnote,step,reading,entry\n"

static char folder[200], path[240], torn[250], lock[250];

static void take_away(void)
{
    remove(path);
    remove(torn);
    remove(lock);
    rmdir(folder);
}

static void make_folder(void)
{
    snprintf(folder, sizeof folder, "%s/fuzz-journal-XXXXXX",
             access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp");
    PROMISE(mkdtemp(folder) != NULL);
    snprintf(path, sizeof path, "%s/sheet.csv", folder);
    snprintf(torn, sizeof torn, "%s.torn", path);
    snprintf(lock, sizeof lock, "%s.lock", path);
    atexit(take_away);
}

static void write_sheet(const uint8_t *data, size_t size)
{
    const int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    PROMISE(fd >= 0 && write(fd, data, size) == (ssize_t)size && close(fd) == 0);
}

static size_t read_file(const char *from, char *bytes)
{
    const int fd = open(from, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return 0;
    const ssize_t n = read(fd, bytes, ROOM);
    PROMISE(n >= 0 && n < ROOM && close(fd) == 0);
    return (size_t)n;
}

/* Entries of one to four rows, whose readings the bytes choose; *ends: where each entry ends. */
static size_t write_entries(const uint8_t *data, size_t size, size_t ends[16])
{
    static char bytes[ROOM];
    hl_journal *journal = NULL;
    hl_err err = {0};
    size_t n = 0;
    write_sheet((const uint8_t *)TOP2, sizeof TOP2 - 1);
    PROMISE(hl_journal_open(&journal, path, &err) == HL_OK);
    for (size_t i = 0; i + 4 <= size && n < 15; i += 4) {
        char readings[4][16];
        hl_journal_row rows[4];
        const size_t count = data[i] % 4 + 1u;
        for (size_t k = 0; k < count; k++) {
            snprintf(readings[k], sizeof readings[k], "%d.%d", data[i + k] % 90, data[i + 3 - k] % 100);
            rows[k] = (hl_journal_row){.note = "C4", .step = "blow", .reading = readings[k]};
        }
        const hl_journal_entry entry = {.rows = rows, .n = count, .range = data[i] & 64};
        PROMISE(hl_journal_append_entry(journal, &entry, NULL, &err) == HL_OK);
        ends[n++] = read_file(path, bytes);
    }
    hl_journal_close(journal);
    return n;
}

static size_t count_entries(bool *changed)
{
    hl_sheet *sheet = NULL;
    hl_verified found;
    hl_err err = {0};
    PROMISE(hl_sheet_open(&sheet, path, &err) == HL_OK && hl_sheet_verify(&found, sheet, &err) == HL_OK);
    const size_t n = found.entries;
    *changed = found.n_changes > 0;
    hl_verified_free(&found);
    hl_sheet_free(sheet);
    return n;
}

/* Entries are written, the file is cut, the next session goes on. */
static void cut_and_recover(const uint8_t *data, size_t size)
{
    static char before[ROOM], after[ROOM];
    static const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46.5"};
    size_t ends[16];
    hl_journal *journal = NULL;
    hl_err err = {0};
    bool changed = false;
    const size_t n = write_entries(data + 2, size - 2, ends), all = read_file(path, before);
    const size_t cut = sizeof TOP2 - 1 + (data[0] * 256u + data[1]) % (all - (sizeof TOP2 - 1) + 1);
    size_t kept = 0;
    while (kept < n && ends[kept] <= cut + 1) /* the line end alone may be gone */
        kept++;
    PROMISE(truncate(path, (off_t)cut) == 0 && hl_journal_open(&journal, path, &err) == HL_OK);
    PROMISE(hl_journal_append(journal, &row, &err) == HL_OK);
    hl_journal_close(journal);
    const size_t safe = kept == 0 ? sizeof TOP2 - 1 : ends[kept - 1];
    PROMISE(read_file(path, after) > safe && memcmp(before, after, safe) == 0);
    PROMISE(count_entries(&changed) == kept + 1 && !changed);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char after[ROOM], aside[ROOM];
    static const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46.5"};
    hl_journal *journal = NULL;
    hl_err err = {0};
    if (size > MOST)
        return 0;
    if (folder[0] == '\0')
        make_folder();
    if (size > 6 && data[0] == 'E') { /* no sheet begins so */
        cut_and_recover(data + 1, size - 1);
        remove(torn);
        remove(lock);
        return 0;
    }
    write_sheet(data, size);
    size_t whole = size; /* bytes up to the end of the last whole line */
    while (whole > 0 && data[whole - 1] != '\n' && data[whole - 1] != '\r')
        whole--;
    if (hl_journal_open(&journal, path, &err) != HL_OK) {
        PROMISE(err.what[0] != '\0' && (err.code == HL_E_SHEET || err.code == HL_E_SAVE));
        PROMISE(read_file(path, after) == size && memcmp(after, data, size) == 0);
    } else {
        const bool saved = hl_journal_append(journal, &row, &err) == HL_OK;
        const size_t n = read_file(path, after);
        const size_t least = n < whole ? n : whole;
        size_t same = 0; /* bytes that are as they were */
        while (same < least && after[same] == (char)data[same])
            same++;
        /* Whole lines go only with an entry that lacks its last row, and then to the .torn file. */
        const bool torn_entry = same < whole && memmem(data, size, "tidy", 4) != NULL;
        PROMISE(same == whole || torn_entry);
        whole = same;
        while (torn_entry && whole > 0 && data[whole - 1] != '\n' && data[whole - 1] != '\r')
            whole--;
        if (saved) {
            PROMISE(n > whole && after[n - 1] == '\n' && memmem(after + whole, n - whole, "blow", 4) != NULL);
        } else {
            PROMISE(err.what[0] != '\0' && hl_journal_unsaved(journal)[0] != '\0');
            PROMISE(n <= size + 2);
        }
        /* What is no longer in the sheet was set aside. */
        if (n < size || memcmp(after, data, size) != 0) {
            const size_t kept = read_file(torn, aside);
            PROMISE(kept >= size - whole && memmem(aside, kept, data + whole, size - whole) != NULL);
        }
    }
    hl_journal_close(journal);
    remove(torn);
    remove(lock);
    return 0;
}
