/* fuzz_fleet.c - sheets of a fleet judged by a head that they share, beside one for each.
 *
 * They must come to the same: a note that one of them passes and the other does not is the worst that
 * can happen. */
#include "fuzz.h"

#include "hammerline.h"

#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#define MOST   4096
#define SHEETS 8
#define STEPS  64
#define CURES  64
#define FACTS  "# book: tiny\n"

/* What is told of a sheet, kept beyond the call that tells it. */
typedef struct told {
    bool judged, ready, has_work, has_book;
    hl_code code;
    int counts[STEPS][HL_VERDICTS], total[HL_VERDICTS], cures[CURES];
    int n_errors, line, column;
    size_t unlisted;
    char title[300], what[400];
} told;

typedef struct run {
    const char *path; /* NULL once it was given */
    told sheets[SHEETS];
    int n;
} run;

static char folder[200], path[240];

static void take_away(void)
{
    remove(path);
    rmdir(folder);
}

static void make_folder(void)
{
    snprintf(folder, sizeof folder, "%s/fuzz-fleet-XXXXXX",
             access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp");
    PROMISE(mkdtemp(folder) != NULL);
    snprintf(path, sizeof path, "%s/sheet.csv", folder);
    atexit(take_away);
}

static const char *next_path(void *context)
{
    run *at = context;
    const char *given = at->path;
    at->path = NULL;
    return given;
}

static bool take(void *context, const hl_fleet_sheet *sheet)
{
    run *at = context;
    told *t = &at->sheets[at->n < SHEETS ? at->n : SHEETS - 1];
    memset(t, 0, sizeof *t);
    t->judged = sheet->judged;
    t->ready = sheet->ready;
    t->has_work = sheet->has_work;
    t->has_book = sheet->book != NULL;
    t->code = sheet->code;
    snprintf(t->title, sizeof t->title, "%s", sheet->title);
    if (sheet->judged) {
        memcpy(t->counts, sheet->counts, sizeof(int[HL_VERDICTS]) * (size_t)hl_book_n_steps(sheet->book));
        memcpy(t->cures, sheet->cures, sizeof(int) * (size_t)hl_book_n_adjusters(sheet->book));
        memcpy(t->total, sheet->total, sizeof t->total);
    }
    t->n_errors = sheet->n_errors;
    t->unlisted = sheet->unlisted;
    if (sheet->n_errors > 0) {
        t->line = sheet->errors[0].line;
        t->column = sheet->errors[0].column;
        snprintf(t->what, sizeof t->what, "%s", sheet->errors[0].what);
    }
    at->n++;
    return true;
}

static void judge(run *at, bool keep)
{
    static const char *const folders[] = {TINY_FOLDER};
    static const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    const hl_fleet_options options = {.shelf = &shelf, .threads = 1, .keep = keep};
    hl_err err;
    *at = (run){.path = path};
    PROMISE(hl_fleet_run(&options, next_path, at, take, at, &err) == HL_OK);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static run shared, own;
    if (size > MOST)
        return 0;
    if (folder[0] == '\0')
        make_folder();
    const int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    PROMISE(fd >= 0);
    if (size < 2 || memchr(data, ':', size) == NULL) /* most inputs would name no book */
        PROMISE(write(fd, FACTS, sizeof FACTS - 1) == sizeof FACTS - 1);
    PROMISE(write(fd, data, size) == (ssize_t)size && close(fd) == 0);
    judge(&shared, false);
    judge(&own, true);
    PROMISE(shared.n == own.n);
    for (int i = 0; i < shared.n && i < SHEETS; i++)
        PROMISE(memcmp(&shared.sheets[i], &own.sheets[i], sizeof(told)) == 0);
    return 0;
}
