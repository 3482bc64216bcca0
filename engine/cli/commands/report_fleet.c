/* report_fleet.c - "hammerline report" of many pianos: one page for all, or a folder with a record each
 * (layer: cli/commands). */
#include "report_fleet.h"

#include "audit_fleet.h"
#include "confine.h"
#include "output.h"
#include "output_file.h"
#include "rule_paths.h"
#include "sheet_paths.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define INDEX "fleet.html"

typedef struct desk {
    const request *asked;
    const hl_report *wanted;
    const char *folder; /* where the records go, with its '/'; NULL: one page and no record */
    hl_fleet_page *page;
    char **names; /* of the records */
    size_t n_names, room_names;
    int code;
} desk;

static void worsen(desk *at, int code)
{
    at->code = code > at->code ? code : at->code;
}

static bool has_name(const desk *at, const char *name)
{
    for (size_t i = 0; i < at->n_names; i++)
        if (strcmp(at->names[i], name) == 0)
            return true;
    return false;
}

/* A file's name of the sheet's title: its path without folders and ending, and its part of a file of many.
 * Letters, digits, '-' and '_' stay; a name that is taken gets a number. */
static char *make_name(desk *at, const char *title)
{
    const char *from = strrchr(title, '/');
    const char *part = strstr(title, ": ");
    char stem[160];
    size_t n = 0;
    for (const char *c = from && (!part || from < part) ? from + 1 : title; *c && n + 40 < sizeof stem; c++) {
        if (strncmp(c, ".csv", 4) == 0 || strncmp(c, ".tsv", 4) == 0) {
            c += 3;
            continue;
        }
        const bool kept = (*c >= 'a' && *c <= 'z') || (*c >= 'A' && *c <= 'Z') || (*c >= '0' && *c <= '9') ||
                          *c == '-' || *c == '_';
        if (kept || (n > 0 && stem[n - 1] != '-'))
            stem[n++] = kept ? *c : '-';
    }
    while (n > 0 && stem[n - 1] == '-')
        n--;
    stem[n] = '\0';
    char name[200];
    snprintf(name, sizeof name, "%s.html", n > 0 ? stem : "piano");
    for (int k = 2; has_name(at, name) || strcmp(name, INDEX) == 0; k++)
        snprintf(name, sizeof name, "%s-%d.html", n > 0 ? stem : "piano", k);
    if (at->n_names == at->room_names) {
        const size_t room = at->room_names ? 2 * at->room_names : 64;
        char **more = realloc(at->names, room * sizeof *more);
        if (!more)
            return NULL;
        at->names = more;
        at->room_names = room;
    }
    char *copy = strdup(name);
    if (copy)
        at->names[at->n_names++] = copy;
    return copy;
}

static bool save(desk *at, const char *name, const char *text, size_t size)
{
    char path[4096];
    if ((size_t)snprintf(path, sizeof path, "%s%s", at->folder, name) >= sizeof path) {
        complain("the path of %s is too long; choose a folder nearer to the root", name);
        worsen(at, EXIT_NOT_SAVED);
        return false;
    }
    const int code = save_result(at->asked, path, text, size);
    worsen(at, code);
    return code == EXIT_READY;
}

static const char *write_record(desk *at, const hl_fleet_sheet *sheet)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (!at->folder || !sheet->audit)
        return NULL;
    const char *name = make_name(at, sheet->title);
    if (!name || hl_report_html(&text, &size, sheet->audit, at->wanted, &err) != HL_OK) {
        worsen(at, EXIT_NOT_SAVED);
        return NULL;
    }
    const bool saved = save(at, name, text, size);
    hl_free(text);
    return saved ? name : NULL;
}

static bool take_sheet(void *context, const hl_fleet_sheet *sheet)
{
    desk *at = context;
    hl_err err;
    for (int i = 0; i < sheet->n_errors; i++)
        report(&sheet->errors[i]);
    worsen(at, fleet_code(sheet));
    if (hl_fleet_page_add(at->page, sheet, write_record(at, sheet), &err) != HL_OK)
        worsen(at, report(&err));
    return at->code < EXIT_NOT_SAVED;
}

static void give_page(desk *at)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_fleet_page_html(&text, &size, at->page, at->wanted, &err) != HL_OK) {
        worsen(at, report(&err));
        return;
    }
    if (at->folder) {
        char line[4200];
        snprintf(line, sizeof line, "saved: %zu records and %s%s", at->n_names, at->folder, INDEX);
        if (save(at, INDEX, text, size))
            note(line);
    } else {
        worsen(at, give_out(at->asked, text, size));
    }
    hl_free(text);
}

static void judge_all(desk *at, const hl_shelf *shelf)
{
    const request *asked = at->asked;
    sheet_paths paths = {.asked = asked};
    const hl_fleet_options options = {
        .shelf = shelf, .book = asked->book, .judging = &asked->judging, .keep = true};
    hl_err err;
    if (hl_fleet_run(&options, next_sheet_path, &paths, take_sheet, at, &err) != HL_OK)
        worsen(at, report(&err));
    worsen(at, report_troubles(&paths));
    const bool over_input = asked->output && paths.met_output;
    close_sheet_paths(&paths);
    if (at->code < EXIT_NOT_SAVED && !over_input)
        give_page(at);
}

static bool is_record_folder(const char *path)
{
    struct stat is;
    const size_t n = path ? strlen(path) : 0;
    return n > 0 && (path[n - 1] == '/' || (stat(path, &is) == 0 && S_ISDIR(is.st_mode)));
}

/* Makes the folder when it is not there; its path with a '/' at the end is malloc'ed. */
static char *open_folder(const char *path)
{
    const size_t n = strlen(path);
    char *made = malloc(n + 2);
    struct stat is;
    if (!made)
        return NULL;
    snprintf(made, n + 2, "%s%s", path, path[n - 1] == '/' ? "" : "/");
    if (mkdir(made, 0777) == 0 || (stat(made, &is) == 0 && S_ISDIR(is.st_mode)))
        return made;
    complain("the folder %s can't be made; name one below a folder that is there", path);
    free(made);
    return NULL;
}

bool is_fleet_report(const request *asked)
{
    return asked->n_words != 1 || is_folder_path(asked->words[0]) || hl_fleet_is_many(asked->words[0]) ||
           is_record_folder(asked->output);
}

int run_report_fleet(const request *asked, const bookshelf *shelf, const hl_report *wanted)
{
    desk at = {.asked = asked, .wanted = wanted, .code = EXIT_READY};
    request walled = *asked;
    char *folder = NULL, index[4096];
    hl_err err;
    if (!check_paths(asked))
        return EXIT_WRONG_USE;
    if (is_record_folder(asked->output)) {
        folder = open_folder(asked->output);
        if (!folder)
            return EXIT_NOT_SAVED;
        snprintf(index, sizeof index, "%s%s", folder, INDEX);
        at.folder = folder;
        walled.output = index; /* the walls let new files appear beside it */
    }
    if (hl_fleet_page_new(&at.page, &err) != HL_OK) {
        free(folder);
        return report(&err);
    }
    confine(&walled, shelf);
    judge_all(&at, &shelf->shelf);
    hl_fleet_page_free(at.page);
    for (size_t i = 0; i < at.n_names; i++)
        free(at.names[i]);
    free(at.names);
    free(folder);
    return at.code;
}
