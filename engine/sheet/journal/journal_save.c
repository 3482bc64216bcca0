/* journal_save.c - a file that appears whole and on the disk, or not at all (layer: sheet/journal).
 *
 * It is written under another name in the same folder, put on the disk, and only then named. */
#include "journal_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static hl_code fail_making(hl_err *err, int number)
{
    hl__disk_fail(err, HL_E_SAVE, "the new file can't be made", number);
    if (number == ENOSPC || number == EDQUOT) {
        return HL_E_SAVE;
    }
    return number == ENOENT ? hl__todo(err, "make the folder first, or name another place")
                            : hl__todo(err, "name another place for it");
}

static hl_code fail_exists(hl_err *err)
{
    hl__fail(err, HL_E_SAVE, "there is already a file of that name; it was left as it is");
    return hl__todo(err, "choose another name for the new one");
}

/* A file of a name that nobody has, beside `path`; *temp is malloc'ed. */
static int open_temp(char **temp, const char *path)
{
    size_t room = strlen(path) + 64;
    *temp = malloc(room);
    for (int i = 0; *temp != NULL && i < 1000; i++) {
        snprintf(*temp, room, "%s.new-%ld-%d", path, (long)getpid(), i);
        int fd = open(*temp, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
        if (fd >= 0 || errno != EEXIST) {
            return fd;
        }
    }
    return -1;
}

/* Give the finished file a name without taking it from another.  Where the file system has no links,
 * an empty file of our own holds the name until ours is moved over it. */
static hl_code give_free_name(const char *temp, const char *path, hl_err *err)
{
    if (link(temp, path) == 0) {
        unlink(temp); /* a second name is all that is left when this fails */
        return HL_OK;
    }
    if (errno == EEXIST) {
        return fail_exists(err);
    }
    if (errno != EPERM && errno != ENOTSUP && errno != EOPNOTSUPP && errno != ENOSYS && errno != EMLINK) {
        return fail_making(err, errno);
    }
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0) {
        return errno == EEXIST ? fail_exists(err) : fail_making(err, errno);
    }
    close(fd);
    if (rename(temp, path) != 0) {
        int number = errno;
        unlink(path);
        return fail_making(err, number);
    }
    return HL_OK;
}

static hl_code give_name(const char *temp, const char *path, bool replace, hl_err *err)
{
    if (!replace) {
        return give_free_name(temp, path, err);
    }
    return rename(temp, path) == 0 ? HL_OK : fail_making(err, errno);
}

/* A file that takes the place of another may be read by nobody else than the old one. */
static hl_code keep_mode(int fd, const char *path, hl_err *err)
{
    struct stat there;
    if (stat(path, &there) != 0 || fchmod(fd, there.st_mode & 07777) == 0)
        return HL_OK;
    return fail_making(err, errno);
}

static hl_code fill_temp(int fd, const char *text, size_t size, hl_err *err)
{
    while (size > 0) {
        ssize_t n = hl__disk_write(fd, text, size);
        if (n <= 0) {
            return fail_making(err, n < 0 ? errno : ENOSPC);
        }
        text += n;
        size -= (size_t)n;
    }
    return hl__disk_sync(fd, false) ? HL_OK : fail_making(err, errno);
}

static hl_code make_file(const char *path, const char *text, size_t size, bool replace, hl_err *err)
{
    char *temp = NULL, *folder = hl__disk_folder(path);
    int fd = folder == NULL ? -1 : open_temp(&temp, path);
    if (folder == NULL || temp == NULL) {
        free(folder);
        free(temp);
        return hl__no_memory(err);
    }
    hl_code code = HL_OK;
    if (fd < 0) {
        code = fail_making(err, errno);
    } else {
        code = replace ? keep_mode(fd, path, err) : HL_OK;
        if (code == HL_OK) {
            code = fill_temp(fd, text, size, err);
        }
        if (close(fd) != 0 && errno != EINTR && code == HL_OK) {
            code = fail_making(err, errno);
        }
        if (code == HL_OK) {
            code = give_name(temp, path, replace, err);
        }
        if (code != HL_OK) {
            unlink(temp);
        } else if (!hl__disk_sync_folder(folder)) {
            code = fail_making(err, errno);
            if (!replace) {
                unlink(path); /* ours, and nobody was told of it */
            }
        }
    }
    free(folder);
    free(temp);
    return code;
}

/* Sooner, and without a file made for nothing; link() decides. */
static hl_code check_name(const char *path, bool replace, hl_err *err)
{
    struct stat there;
    if (lstat(path, &there) != 0) {
        return HL_OK; /* free, or the folder can't be reached: opening will say which */
    }
    if (!replace) {
        return fail_exists(err);
    }
    if (S_ISREG(there.st_mode)) {
        return HL_OK;
    }
    hl__fail(err, HL_E_SAVE, "this is no ordinary file; it was left as it is");
    return hl__todo(err, "choose another name for the new one");
}

hl_code hl_file_save(const char *path, const char *text, size_t size, bool replace, hl_err *err)
{
    hl_code code = check_name(path, replace, err);
    if (code == HL_OK) {
        code = make_file(path, text, size, replace, err);
    }
    return code == HL_OK || code == HL_E_MEMORY ? code : hl__at(err, path, 0, 0);
}
