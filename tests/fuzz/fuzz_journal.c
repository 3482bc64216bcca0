/* fuzz_journal.c - appending to a sheet that holds any bytes.
 *
 * Whatever stood there in whole lines still stands there; a row that is said to be saved is the last
 * line, whole; a refusal is explained, and leaves the file as it was. */
#define _GNU_SOURCE /* memmem */
#include "fuzz.h"

#include "hammerline.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST 4096
#define ROOM (4 * MOST + 4096)

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
        PROMISE(n >= whole && memcmp(after, data, whole) == 0);
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
