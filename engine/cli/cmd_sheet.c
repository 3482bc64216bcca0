/* cmd_sheet.c - "hammerline sheet new": a blank sheet for a book (layer: cli). */
#include "commands.h"
#include "hammerline.h"
#include "shelf.h"
#include "talk.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
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
    return fsync(file) == 0 || errno == EINVAL || errno == EROFS; /* a pipe has no disk behind it */
}

/* A new file or none: a sheet that somebody filled in is never written over. */
static int save(const char *path, const char *text, size_t size)
{
    const int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) {
        if (errno == EEXIST)
            complain("%s exists already; name another file, or move it away first", path);
        else
            complain("%s: could not be made: %s", path, strerror(errno));
        return EXIT_NOT_SAVED;
    }
    bool saved = write_all(file, text, size);
    int cause = errno;
    if (close(file) != 0 && saved) {
        cause = errno;
        saved = false;
    }
    if (saved) {
        fprintf(stderr, "saved\n");
        return EXIT_READY;
    }
    unlink(path);
    complain("%s: not saved: %s; make room, or name another place", path, strerror(cause));
    return EXIT_NOT_SAVED;
}

static int make_blank(const request *asked, const hl_shelf *shelf, const char *name)
{
    hl_book *book = NULL;
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_book_open(&book, name, shelf, &err) != HL_OK)
        return report(&err);
    int code = EXIT_READY;
    if (hl_sheet_blank(&text, &size, book, &err) != HL_OK)
        code = report(&err);
    else if (asked->output)
        code = save(asked->output, text, size);
    else
        say_text(text, size);
    hl_free(text);
    hl_book_free(book);
    return code;
}

int run_sheet(const request *asked)
{
    if (asked->n_words == 0 || strcmp(asked->words[0], "new") != 0) {
        complain("sheet is used so: hammerline sheet new BOOK [-o FILE]");
        return EXIT_WRONG_USE;
    }
    if (asked->n_words != 2) {
        complain("sheet new needs one book: hammerline sheet new grand");
        return EXIT_WRONG_USE;
    }
    bookshelf shelf;
    int code = open_bookshelf(&shelf, asked);
    if (code == EXIT_READY)
        code = make_blank(asked, &shelf.shelf, asked->words[1]);
    close_bookshelf(&shelf);
    return code;
}
