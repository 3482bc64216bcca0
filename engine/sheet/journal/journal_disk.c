/* journal_disk.c - system calls with EINTR retried, the lock, failures in plain words (layer: sheet/journal).
 *
 * A failed sync is never tried again: the kernel may have forgotten the pages that it could not
 * write and would then call the second try a success.  Only EINTR, which tells nothing about the
 * pages, is. */
#include "journal_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#define LOCK_PATIENCE 10  /* seconds; an entry holds the lock for milliseconds */
#define LOCK_WORD     200 /* milliseconds, then it is said */
#define NAP           2   /* milliseconds */

ssize_t hl__disk_write(int fd, const char *bytes, size_t size)
{
    ssize_t n;
    do {
        n = write(fd, bytes, size);
    } while (n < 0 && errno == EINTR);
    return n;
}

bool hl__disk_read(int fd, char *bytes, size_t size, off_t at)
{
    while (size > 0) {
        ssize_t n = pread(fd, bytes, size, at);
        if (n < 0 && errno == EINTR) {
            continue;
        }
        if (n <= 0) {
            errno = n == 0 ? EIO : errno;
            return false;
        }
        bytes += n;
        size -= (size_t)n;
        at += n;
    }
    return true;
}

bool hl__disk_sync(int fd, bool data_only)
{
    int failed;
    do {
        failed = data_only ? fdatasync(fd) : fsync(fd);
    } while (failed != 0 && errno == EINTR);
    return failed == 0;
}

bool hl__disk_cut(int fd, off_t size)
{
    int failed;
    do {
        failed = ftruncate(fd, size);
    } while (failed != 0 && errno == EINTR);
    return failed == 0;
}

bool hl__disk_sync_folder(const char *folder)
{
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) {
        return errno == EACCES || errno == EPERM;
    }
    bool done = hl__disk_sync(fd, false) || errno == EINVAL || errno == EROFS || errno == ENOTSUP;
    int number = errno;
    close(fd);
    errno = number;
    return done;
}

char *hl__disk_folder(const char *path)
{
    const char *slash = strrchr(path, '/');
    if (slash == NULL) {
        return strdup(".");
    }
    return slash == path ? strdup("/") : strndup(path, (size_t)(slash - path));
}

bool hl__disk_same(const struct stat *a, const struct stat *b)
{
    return a->st_dev == b->st_dev && a->st_ino == b->st_ino;
}

hl_code hl__disk_fail(hl_err *err, hl_code code, const char *doing, int number)
{
    static const struct {
        int number;
        const char *what, *todo;
    } known[] = {
        {ENOSPC, "the disk is full", "make room on it, then go on"},
        {EDQUOT, "your share of the disk is full", "make room on it, then go on"},
        {EFBIG, "the file would be larger than is allowed here", "start a new sheet, or lift the limit"},
        {EIO, "the disk reports a fault", "copy the sheet to another disk before anything else"},
        {EROFS, "the disk can only be read", "copy the sheet to a disk that can be written"},
        {EACCES, "you may not write there", "give yourself the right to write, or copy the sheet elsewhere"},
        {EPERM, "you may not write there", "give yourself the right to write, or copy the sheet elsewhere"},
        {ENOENT, "there is no such file or folder", "look at the name, and whether the folder was moved"},
        {ENOTDIR, "a part of the path is not a folder", "look at the name"},
        {EISDIR, "it is a folder", "name the sheet in it"},
        {ENAMETOOLONG, "the name is too long", "choose a shorter name"},
        {ELOOP, "it is a link where a file must be", "remove that link"},
        {EMFILE, "too many files are open", "close something, then try again"},
        {ENFILE, "too many files are open", "close something, then try again"},
        {ESTALE, "the network folder has gone away", "connect it again, or copy the sheet to this computer"},
        {ENOMEM, "the machine has no memory left", "close other programs, then try again"},
    };
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (known[i].number == number) {
            hl__fail(err, code, "%s: %s", doing, known[i].what);
            return hl__todo(err, "%s", known[i].todo);
        }
    }
    hl__fail(err, code, "%s: the system's error number %d", doing, number);
    return hl__todo(err, "try again on another disk");
}

static hl_code fail_lock(hl_err *err, int number)
{
    if (number == EWOULDBLOCK) {
        hl__fail(err, HL_E_SAVE, "another program has held the sheet's lock for %d seconds", LOCK_PATIENCE);
        return hl__todo(err, "close the other session of this sheet, then try again");
    }
    if (number == ENOLCK || number == ENOSYS || number == ENOTSUP || number == EOPNOTSUPP ||
        number == EINVAL || number == EBADF) {
        hl__fail(err, HL_E_SAVE, "this folder does not support locks, as some network folders do not");
        return hl__todo(err, "copy the sheet to a disk of this computer and work there");
    }
    return hl__disk_fail(err, HL_E_SAVE, "the sheet's lock failed", number);
}

/* Milliseconds since some moment. */
static long read_clock(void)
{
    struct timespec now = {0};
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* Waits in small steps, not in the call itself: a stopped session must not hang this one.  Another entry
 * that is being saved is no news; what takes longer than a person blinks is said. */
static hl_code wait_lock(const hl_journal *journal, hl_err *err)
{
    const struct timespec nap = {.tv_nsec = NAP * 1000000L};
    const long since = read_clock();
    bool said = false;
    for (long naps = 0;; naps++) {
        if (flock(journal->lock_fd, LOCK_EX | LOCK_NB) == 0) {
            return HL_OK;
        }
        const int number = errno;
        if (number == EINTR) {
            continue;
        }
        const long waited = read_clock() - since, at_least = naps * NAP;
        const long ms = waited > at_least ? waited : at_least; /* a busy machine oversleeps */
        if (number != EWOULDBLOCK || ms >= LOCK_PATIENCE * 1000L) {
            return fail_lock(err, number);
        }
        if (!said && ms >= LOCK_WORD && journal->wait.held != NULL) {
            journal->wait.held(journal->wait.context, LOCK_PATIENCE);
            said = true;
        }
        nanosleep(&nap, NULL);
    }
}

static hl_code open_lock(hl_journal *journal, mode_t mode, hl_err *err)
{
    /* Read and write, since network file systems ask that for a lock; whoever may write the sheet
     * may lock it. */
    journal->lock_fd = open(journal->lock_path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK,
                            (mode & 0666) | 0600);
    if (journal->lock_fd >= 0) {
        return HL_OK;
    }
    int number = errno;
    hl_err why;
    hl__disk_fail(&why, HL_E_SAVE, "the sheet's lock file (its name and .lock) can't be made beside it",
                  number);
    if (number == EACCES || number == EPERM || number == EROFS) {
        hl__todo(&why, "make the sheet's folder writable, or copy the sheet to one that is");
    }
    *err = why;
    return HL_E_SAVE;
}

hl_code hl__journal_lock(hl_journal *journal, mode_t mode, hl_err *err)
{
    /* Somebody may clear the lock file away: then two sessions would hold two locks.  So the lock
     * counts only while its file is the one at that path. */
    for (int tries = 0; tries < 100; tries++) {
        hl_code code = journal->lock_fd < 0 ? open_lock(journal, mode, err) : HL_OK;
        if (code == HL_OK) {
            code = wait_lock(journal, err);
        }
        if (code != HL_OK) {
            return code;
        }
        struct stat held, named;
        if (fstat(journal->lock_fd, &held) == 0 && lstat(journal->lock_path, &named) == 0 &&
            hl__disk_same(&held, &named)) {
            return HL_OK;
        }
        close(journal->lock_fd);
        journal->lock_fd = -1;
    }
    hl__fail(err, HL_E_SAVE, "the sheet's lock file keeps being removed");
    return hl__todo(err, "stop what clears away files that end in .lock");
}

void hl__journal_unlock(hl_journal *journal)
{
    if (journal->lock_fd >= 0 && flock(journal->lock_fd, LOCK_UN) != 0) {
        close(journal->lock_fd);
        journal->lock_fd = -1;
    }
}
