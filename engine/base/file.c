/* file.c - whole files (layer: base).
 *
 * The bytes read belong to the caller.  Reasons are in our own words: strerror is not safe among
 * threads, and speaks the language of the machine. */
#include "file.h"

#include "errors.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

static hl_code refuse_open(const char *path, int reason, hl_code code, hl_err *err)
{
    if (reason == ENOENT || reason == ENOTDIR) {
        hl__fail(err, code, "there is no such file");
        hl__todo(err, "check the spelling and the folder");
    } else if (reason == EACCES || reason == EPERM) {
        hl__fail(err, code, "this file may not be read");
        hl__todo(err, "ask its owner for leave to read it");
    } else if (reason == ENAMETOOLONG) {
        hl__fail(err, code, "this file name is too long");
        hl__todo(err, "check what was given as the file name");
    } else if (reason == ELOOP) {
        hl__fail(err, code, "this name is a link that leads back to itself");
        hl__todo(err, "name the file itself");
    } else if (reason == EMFILE || reason == ENFILE) {
        hl__fail(err, code, "too many files are open");
        hl__todo(err, "close other programs and try again");
    } else {
        hl__fail(err, code, "the file can't be read (system error %d)", reason);
        hl__todo(err, "copy it to another disk and try again");
    }
    return hl__at(err, path, 0, 0);
}

static hl_code refuse_size(const char *path, size_t most, hl_code code, hl_err *err)
{
    hl__fail(err, code, "the file is longer than the %zu bytes that are allowed", most);
    hl__todo(err, "check that it is the right file");
    return hl__at(err, path, 0, 0);
}

static int open_file(const char *path, int *reason)
{
    int fd;
    do {
        fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    } while (fd < 0 && errno == EINTR);
    *reason = errno;
    return fd;
}

/* Make room for at least one more byte and the NUL, without going beyond most + 1. */
static char *widen(char *bytes, size_t *room, size_t most)
{
    size_t more = *room == 0 ? 65536 : *room < most / 2 ? *room * 2 : most + 2;
    if (more > most + 2) {
        more = most + 2;
    }
    char *wider = realloc(bytes, more);
    if (wider == NULL) {
        free(bytes);
        return NULL;
    }
    *room = more;
    return wider;
}

static hl_code read_all(char **out, size_t *size, int fd, const char *path, size_t most, hl_code code,
                        hl_err *err)
{
    size_t room = 0, n = 0;
    char *bytes = NULL;
    for (;;) {
        if (n + 1 >= room && n <= most) {
            bytes = widen(bytes, &room, most);
            if (bytes == NULL) {
                return hl__no_memory(err);
            }
        }
        ssize_t got = read(fd, bytes + n, room - n - 1);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            int reason = errno;
            free(bytes);
            return refuse_open(path, reason, code, err);
        }
        n += (size_t)got;
        if (n > most) {
            free(bytes);
            return refuse_size(path, most, code, err);
        }
        if (got == 0) {
            break;
        }
    }
    bytes[n] = '\0';
    *out = bytes;
    *size = n;
    return HL_OK;
}

hl_code hl__file_read(char **out, size_t *size, const char *path, size_t most, hl_code code, hl_err *err)
{
    *out = NULL;
    *size = 0;
    int reason = 0;
    int fd = open_file(path, &reason);
    if (fd < 0) {
        return refuse_open(path, reason, code, err);
    }
    struct stat about;
    hl_code done;
    if (fstat(fd, &about) != 0) {
        done = refuse_open(path, errno, code, err);
    } else if (S_ISDIR(about.st_mode)) {
        hl__fail(err, code, "this is a folder, not a file");
        hl__todo(err, "name a file in it");
        done = hl__at(err, path, 0, 0);
    } else if (!S_ISREG(about.st_mode) && !S_ISFIFO(about.st_mode)) {
        hl__fail(err, code, "this is a device, not a file");
        hl__todo(err, "name a file");
        done = hl__at(err, path, 0, 0);
    } else if (S_ISREG(about.st_mode) && (uintmax_t)about.st_size > most) {
        done = refuse_size(path, most, code, err);
    } else {
        done = read_all(out, size, fd, path, most, code, err);
    }
    close(fd);
    return done;
}

bool hl__file_exists(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode) && access(path, R_OK) == 0;
}
