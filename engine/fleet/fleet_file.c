/* fleet_file.c - the files of a fleet: small ones whole, large ones of many sheets in pieces
 * (layer: fleet).
 *
 * A piece ends where a sheet ends, so that a thread always has whole sheets. */
#include "fleet.h"

#include "errors.h"
#include "shared_head.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SMALL_BLOCK ((size_t)1 << 16) /* when each sheet is a piece of its own */

/* Fills bytes[*n ... room); *at_end when the file has no more.  False: it can't be read. */
static bool fill(int fd, char *bytes, size_t *n, size_t room, bool *at_end)
{
    while (*n < room) {
        ssize_t got = read(fd, bytes + *n, room - *n);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return false;
        if (got == 0) {
            *at_end = true;
            break;
        }
        *n += (size_t)got;
    }
    return true;
}

void hl__fleet_close(hl_fleet_file *file)
{
    if (!file)
        return;
    if (file->fd >= 0)
        close(file->fd);
    free(file->path);
    free(file->top);
    free(file->carry);
    free(file);
}

/* ---- the sheets of a piece ------------------------------------------------------------------- */

void hl__fleet_rows(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_file *file, const char *rows,
                    size_t size, int line)
{
    hl_part_name name;
    for (size_t at = 0; at < size;) {
        size_t rest = size - at, run = 0;
        hl__many_name(&name, &file->many, rows + at, hl__many_row(rows + at, rows + size));
        hl_fleet_sheet_text text = {
            file->path, {file->top, rows + at, file->top_size, rest, name.text, line}, rows};
        if (name.size == 0 || !(worker->shared && hl__shared_judge(worker, node, &text, &run))) {
            text.part.rows_size = run = hl__many_run(&name, &file->many, rows + at, rows + size);
            if (name.size > 0)
                hl__fleet_judge(worker, node, &text);
        }
        at += run;
    }
}

/* ---- pieces of a large file ------------------------------------------------------------------ */

static bool is_one_by_one(const hl_fleet_worker *worker)
{
    return worker->fleet->options->print != NULL || worker->fleet->options->keep;
}

/* Where the piece ends: 0 when its only sheet may go on behind what was read. */
static size_t find_cut(const hl_fleet_worker *worker, const hl_fleet_file *file, size_t n)
{
    const char *bytes = worker->bytes;
    hl_part_name name;
    size_t end = n;
    while (!file->at_end && end > 0 && bytes[end - 1] != '\n')
        end--;
    if (is_one_by_one(worker)) {
        size_t run = hl__many_run(&name, &file->many, bytes, bytes + end);
        return run < end || file->at_end ? run : 0;
    }
    return file->at_end ? n : (size_t)(hl__many_last_run(&file->many, bytes, bytes + end) - bytes);
}

static bool widen(hl_fleet_worker *worker, hl_err *err)
{
    char *bytes =
        worker->room <= HL_SHEET_MOST ? realloc(worker->bytes, 2 * worker->room + HL_FLEET_SPARE) : NULL;
    if (bytes) {
        worker->bytes = bytes;
        worker->room *= 2;
        return true;
    }
    if (worker->room <= HL_SHEET_MOST) {
        hl__no_memory(err);
        return false;
    }
    hl__fail(err, HL_E_SHEET, "a sheet in it is larger than %u MB", HL_SHEET_MOST >> 20);
    hl__todo(err, "one sheet holds one piano; check the column 'sheet'");
    return false;
}

/* What was read into the worker's bytes: up to the end of a sheet, and how much there is. */
static bool read_piece(hl_fleet_worker *worker, hl_fleet_file *file, size_t *cut, size_t *n, hl_err *err)
{
    const bool one = is_one_by_one(worker);
    memset(worker->bytes + *n, 0, HL_FLEET_SPARE);
    size_t room = one ? SMALL_BLOCK : worker->room;
    *cut = one && *n > 0 ? find_cut(worker, file, *n) : 0;
    while (*cut == 0) {
        while (worker->room < room || worker->room <= *n)
            if (!widen(worker, err))
                return false;
        room = room > *n ? room : worker->room;
        if (!fill(file->fd, worker->bytes, n, room, &file->at_end)) {
            hl__fail(err, HL_E_SHEET, "the file can't be read to its end (system error %d)", errno);
            hl__todo(err, "copy it to another disk and try again");
            return false;
        }
        if (*n == 0)
            return false;
        memset(worker->bytes + *n, 0, HL_FLEET_SPARE); /* a last row without line end ends here */
        *cut = find_cut(worker, file, *n);
        room *= 2;
    }
    /* A large part of it is handed on, to be looked at twice: the sheets are large for the block. */
    if (!one && *n - *cut > worker->room / 4 && worker->room < HL_FLEET_WIDEST)
        return widen(worker, err);
    return true;
}

bool hl__fleet_piece(hl_fleet_worker *worker, hl_fleet_file *file, size_t *size, int *line, hl_err *err)
{
    size_t n = file->n_carry, cut = 0;
    if (n == 0 && file->at_end)
        return false;
    while (worker->room < n)
        if (!widen(worker, err))
            return false;
    if (n > 0)
        memcpy(worker->bytes, file->carry, n);
    file->n_carry = 0;
    bool good = read_piece(worker, file, &cut, &n, err);
    char *carry = good && n > cut ? realloc(file->carry, n - cut) : file->carry;
    if (good && n > cut && !carry) {
        hl__no_memory(err);
        good = false;
    }
    if (!good) {
        file->at_end = true; /* what follows has no known place any more */
        if (err->code != HL_OK)
            hl__at(err, file->path, file->line, 0);
        return false;
    }
    file->carry = carry;
    file->n_carry = n - cut;
    if (n > cut)
        memcpy(file->carry, worker->bytes + cut, n - cut);
    *size = cut;
    *line = file->line;
    file->line += hl__many_lines(worker->bytes, cut);
    return true;
}

/* ---- paths ------------------------------------------------------------------------------------ */

static hl_fleet_file *open_many(const char *path, int fd, const hl_many *many, const char *bytes, size_t n)
{
    hl_fleet_file *file = calloc(1, sizeof *file);
    if (!file)
        return NULL;
    *file = (hl_fleet_file){
        .fd = fd, .many = *many, .top_size = many->rows_at, .n_carry = n - many->rows_at, .line = many->line};
    file->path = malloc(strlen(path) + 1);
    file->top = malloc(file->top_size + 1);
    file->carry = malloc(file->n_carry + 1);
    if (!file->path || !file->top || !file->carry) {
        file->fd = -1; /* stays the caller's */
        hl__fleet_close(file);
        return NULL;
    }
    strcpy(file->path, path);
    memcpy(file->top, bytes, file->top_size);
    memcpy(file->carry, bytes + file->top_size, file->n_carry);
    return file;
}

static void refuse_nothing(hl_fleet_node *node, const char *path)
{
    hl_err err;
    hl__fail(&err, HL_E_SHEET, "there is a header but no row below it, so nothing to judge");
    hl__todo(&err, "write a row for each note");
    hl__at(&err, path, 0, 0);
    hl__fleet_refuse(node, path, &err);
}

/* The whole file is in the worker's bytes. */
static void judge_bytes(hl_fleet_worker *worker, hl_fleet_node *node, const char *path, size_t n)
{
    hl_sheet *sheet = NULL;
    hl_many many;
    hl_err err;
    const hl_fleet_sheet_text text = {.path = path, .part = {.rows = worker->bytes, .rows_size = n}};
    size_t used = 0;
    if (worker->shared && hl__shared_judge(worker, node, &text, &used))
        return;
    if (hl_sheet_open_text(&sheet, path, worker->bytes, n, &err) != HL_OK) {
        node->no_memory |= err.code == HL_E_MEMORY;
        hl__fleet_refuse(node, path, &err);
        return;
    }
    if (!hl__many_look(&many, sheet)) {
        node->no_memory = true;
    } else if (many.column < 0) {
        hl__fleet_judge_sheet(worker, node, sheet);
        return;
    } else {
        const hl_fleet_file file = {
            .path = (char *)path, .many = many, .top = worker->bytes, .top_size = many.rows_at};
        hl__fleet_rows(worker, node, &file, worker->bytes + many.rows_at, n - many.rows_at, many.line);
        if (node->n == 0)
            refuse_nothing(node, path);
    }
    hl_sheet_free(sheet);
}

/* Is the block the beginning of a file of many? */
static bool looks_many(hl_many *many, const char *path, const char *bytes, size_t n)
{
    hl_sheet *sheet = NULL;
    hl_err err;
    if (hl_sheet_open_text(&sheet, path, bytes, n, &err) != HL_OK)
        return false;
    bool many_sheets = hl__many_look(many, sheet) && many->column >= 0;
    hl_sheet_free(sheet);
    return many_sheets;
}

static int open_regular(const char *path)
{
    struct stat about;
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK); /* no waiting for a pipe's writer */
    if (fd >= 0 && (fstat(fd, &about) != 0 || !S_ISREG(about.st_mode))) {
        close(fd);
        fd = -1;
    }
    return fd;
}

void hl__fleet_path(hl_fleet_worker *worker, hl_fleet_node *node, const char *path, hl_fleet_file **file)
{
    size_t n = 0;
    bool at_end = false;
    hl_many many;
    int fd = open_regular(path);
    bool good = fd >= 0 && fill(fd, worker->bytes, &n, HL_FLEET_BLOCK, &at_end);
    if (good && at_end) {
        close(fd);
        memset(worker->bytes + n, 0, HL_FLEET_SPARE);
        judge_bytes(worker, node, path, n);
        return;
    }
    if (good && looks_many(&many, path, worker->bytes, n)) {
        *file = open_many(path, fd, &many, worker->bytes, n);
        if (*file)
            return;
        node->no_memory = true;
    } else {
        hl__fleet_judge_path(worker, node, path); /* large, or it says why it can't be read */
    }
    if (fd >= 0)
        close(fd);
}

bool hl_fleet_is_many(const char *path)
{
    char *bytes = malloc(SMALL_BLOCK);
    size_t n = 0;
    bool at_end = false;
    hl_many many;
    int fd = bytes ? open_regular(path) : -1;
    bool yes = fd >= 0 && fill(fd, bytes, &n, SMALL_BLOCK, &at_end) && looks_many(&many, path, bytes, n);
    if (fd >= 0)
        close(fd);
    free(bytes);
    return yes;
}
