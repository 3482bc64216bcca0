/* journal_new.c - a new tidy sheet, whole and on disk or not there at all (layer: model). */
#include "journal_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char making[] = "the new sheet can't be made";

/* One fact line.  A comma or a quote in it would split it into cells, so it is quoted. */
static hl_code add_fact(hl_text *text, const char *line, size_t size, hl_err *err)
{
    const char *bad = hl__journal_bad_text(line, size);
    if (bad != NULL || line[0] != '#') {
        hl__fail(err, HL_E_USAGE, "a fact line %s: %.*s", bad != NULL ? bad : "does not begin with #",
                 (int)(size < 120 ? size : 120), line);
        return hl__todo(err, "write it as `# piano: ...`");
    }
    bool quote = memchr(line, ',', size) != NULL || memchr(line, '"', size) != NULL;
    hl__text_add(text, quote ? "\"" : "");
    for (size_t i = 0; i < size; i++) {
        hl__text_add_n(text, "\"\"", line[i] == '"' ? 2 : 0);
        hl__text_add_n(text, line + i, line[i] == '"' ? 0 : 1);
    }
    hl__text_add(text, quote ? "\"\n" : "\n");
    return HL_OK;
}

static hl_code write_top(hl_text *text, const char *book, const char *facts, hl_err *err)
{
    if (book[0] == '\0' || hl__journal_bad_text(book, strlen(book)) != NULL) {
        hl__fail(err, HL_E_USAGE, "a new sheet needs the id of a book");
        return hl__todo(err, "name one, such as grand");
    }
    hl_text named = {0};
    hl__text_add(&named, "# book: ");
    hl__text_add(&named, book);
    hl__text_add(text, HL_JOURNAL_VERSION "\n");
    hl_code code = named.failed ? hl__no_memory(err) : add_fact(text, named.data, named.size, err);
    hl__text_free(&named);
    for (const char *at = facts == NULL ? "" : facts; code == HL_OK && *at != '\0';) {
        size_t size = strcspn(at, "\n");
        code = size == 0 ? HL_OK : add_fact(text, at, size, err);
        at += size + (at[size] == '\n');
    }
    for (int i = 0; i < HL_JOURNAL_COLUMNS; i++) {
        hl__text_add(text, i == 0 ? "" : ",");
        hl__text_add(text, hl__journal_columns[i]);
    }
    hl__text_char(text, '\n');
    return code == HL_OK && text->failed ? hl__no_memory(err) : code;
}

/* A file of a name that nobody has, beside the sheet; *temp is malloc'ed. */
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

static hl_code fail_exists(hl_err *err)
{
    hl__fail(err, HL_E_SAVE, "there is already a file of that name; it was left as it is");
    return hl__todo(err, "choose another name for the new sheet");
}

/* Give the finished file its name without taking it from another.  Where the file system has no
 * links, an empty file of our own holds the name until ours is moved over it. */
static hl_code give_name(const char *temp, const char *path, hl_err *err)
{
    if (link(temp, path) == 0) {
        unlink(temp); /* a second name is all that is left when this fails */
        return HL_OK;
    }
    if (errno == EEXIST) {
        return fail_exists(err);
    }
    if (errno != EPERM && errno != ENOTSUP && errno != EOPNOTSUPP && errno != ENOSYS && errno != EMLINK) {
        return hl__disk_fail(err, HL_E_SAVE, making, errno);
    }
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0) {
        return errno == EEXIST ? fail_exists(err) : hl__disk_fail(err, HL_E_SAVE, making, errno);
    }
    close(fd);
    if (rename(temp, path) != 0) {
        int number = errno;
        unlink(path);
        return hl__disk_fail(err, HL_E_SAVE, making, number);
    }
    return HL_OK;
}

static hl_code fill_temp(int fd, const char *text, size_t size, hl_err *err)
{
    errno = 0;
    ssize_t n = hl__disk_write(fd, text, size);
    if (n < 0 || (size_t)n != size) {
        return hl__disk_fail(err, HL_E_SAVE, making, n < 0 ? errno : ENOSPC);
    }
    return hl__disk_sync(fd, false) ? HL_OK : hl__disk_fail(err, HL_E_SAVE, making, errno);
}

static hl_code make_file(const char *path, const char *text, size_t size, hl_err *err)
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
        code = hl__disk_fail(err, HL_E_SAVE, making, errno);
    } else {
        code = fill_temp(fd, text, size, err);
        if (close(fd) != 0 && errno != EINTR && code == HL_OK) {
            code = hl__disk_fail(err, HL_E_SAVE, making, errno);
        }
        if (code == HL_OK) {
            code = give_name(temp, path, err);
        }
        if (code != HL_OK) {
            unlink(temp);
        } else if (!hl__disk_sync_folder(folder)) {
            code = hl__disk_fail(err, HL_E_SAVE, making, errno);
            unlink(path); /* ours, and nobody was told of it */
        }
    }
    free(folder);
    free(temp);
    return code;
}

hl_code hl_sheet_save(const char *path, const char *text, size_t size, hl_err *err)
{
    struct stat there;
    /* Sooner, and without a file made for nothing; link() decides. */
    hl_code code = lstat(path, &there) == 0 ? fail_exists(err) : make_file(path, text, size, err);
    return code == HL_OK || code == HL_E_MEMORY ? code : hl__at(err, path, 0, 0);
}

hl_code hl_journal_create(const char *path, const char *book, const char *facts, hl_err *err)
{
    hl_text text = {0};
    hl_code code = write_top(&text, book, facts, err);
    if (code == HL_OK) {
        code = hl_sheet_save(path, text.data, text.size, err);
    } else if (code != HL_E_MEMORY) {
        hl__at(err, path, 0, 0);
    }
    hl__text_free(&text);
    return code;
}
