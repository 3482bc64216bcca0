/* save.c - writes under another name in the same folder, then renames (layer: cli). */
#include "save.h"

#include "options.h"
#include "talk.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool write_all(int file, const char *text, size_t size)
{
    while (size > 0) {
        const ssize_t written = write(file, text, size);
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return false;
        text += written;
        size -= (size_t)written;
    }
    return fsync(file) == 0;
}

/* A new name is on the disk only when its folder is.  Some file systems can't, and say so. */
static bool sync_folder(const char *path)
{
    char *copy = strdup(path);
    if (!copy)
        return false;
    const int folder = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    free(copy);
    if (folder < 0)
        return errno == EACCES; /* may be written into, but not read */
    const bool synced = fsync(folder) == 0 || errno == EINVAL || errno == EROFS;
    close(folder);
    return synced;
}

/* link() refuses a name that is taken; where there are no links, a look has to do. */
static bool give_name(const char *draft, const char *path, bool replace)
{
    if (replace)
        return rename(draft, path) == 0;
    if (link(draft, path) == 0) {
        unlink(draft);
        return true;
    }
    if (errno != EPERM && errno != ENOSYS && errno != EOPNOTSUPP && errno != EMLINK)
        return false;
    if (access(path, F_OK) == 0) {
        errno = EEXIST;
        return false;
    }
    return rename(draft, path) == 0;
}

static int refuse(const char *path, int cause)
{
    if (cause == EEXIST)
        complain("%s exists already; name another file, or say --replace", path);
    else if (cause == ENOENT)
        complain("%s: not saved: there is no such folder; make it first", path);
    else
        complain("%s: not saved: %s; make room, or name another place", path, strerror(cause));
    return EXIT_NOT_SAVED;
}

/* Before anything is written: is the name free, or may it be taken? */
static int check_name(const char *path, bool replace)
{
    struct stat there;
    if (lstat(path, &there) != 0)
        return EXIT_READY; /* free, or the folder can't be reached: opening will say which */
    if (!replace)
        return refuse(path, EEXIST);
    if (S_ISREG(there.st_mode))
        return EXIT_READY;
    complain("%s is no ordinary file; name another one", path);
    return EXIT_NOT_SAVED;
}

/* mkstemp makes files for the owner only; this one is for whom the umask says. */
static void open_to_all(int file)
{
    const mode_t mask = umask(0);
    umask(mask);
    if (fchmod(file, 0666 & ~mask) != 0)
        return; /* kept for the owner only: no reason to lose the file */
}

int save_whole(const char *path, const char *text, size_t size, bool replace)
{
    static const char ending[] = ".XXXXXX";
    const size_t length = strlen(path);
    const int code = check_name(path, replace);
    if (code != EXIT_READY)
        return code;
    char *draft = malloc(length + sizeof ending);
    if (!draft)
        return refuse(path, ENOMEM);
    memcpy(draft, path, length);
    memcpy(draft + length, ending, sizeof ending);
    const int file = mkstemp(draft);
    int cause = file < 0 ? errno : 0;
    if (file >= 0) {
        open_to_all(file);
        if (!write_all(file, text, size))
            cause = errno ? errno : EIO;
        if (close(file) != 0 && cause == 0)
            cause = errno;
        if (cause == 0 && !give_name(draft, path, replace))
            cause = errno;
        if (cause != 0)
            unlink(draft);
        else if (!sync_folder(path))
            cause = errno;
    }
    free(draft);
    return cause == 0 ? EXIT_READY : refuse(path, cause);
}
