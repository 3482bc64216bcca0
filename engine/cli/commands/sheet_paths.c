/* sheet_paths.c - the sheets that a command line names, folders searched, one at a time (layer:
 * cli/commands).
 *
 * Only the names of the folders that are open are held, never all paths of a fleet. */
#define _DEFAULT_SOURCE /* d_type: most systems tell folders from files without a further question */
#include "sheet_paths.h"

#include "output.h"
#include "output_file.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

bool is_folder_path(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

static void add_trouble(sheet_paths *paths, const char *path, const char *what, const char *todo)
{
    if (paths->n_troubles < TROUBLES) {
        hl_err *trouble = &paths->troubles[paths->n_troubles];
        *trouble = (hl_err){.code = HL_E_SHEET};
        snprintf(trouble->file, sizeof trouble->file, "%s", path);
        snprintf(trouble->what, sizeof trouble->what, "%s", what);
        snprintf(trouble->todo, sizeof trouble->todo, "%s", todo);
    }
    paths->n_troubles++;
}

/* ---- one folder ---------------------------------------------------------------------------- */

static bool grow(void **items, size_t wanted, size_t *room, size_t size)
{
    if (wanted <= *room)
        return true;
    size_t more = 2 * *room > wanted ? 2 * *room : wanted < 64 ? 64 : wanted;
    void *wider = realloc(*items, more * size);
    if (!wider)
        return false;
    *items = wider;
    *room = more;
    return true;
}

static bool add_name(folder_frame *frame, const char *name)
{
    const size_t size = strlen(name) + 1;
    void *names = frame->names, *starts = frame->starts;
    const bool good = grow(&names, frame->size + size, &frame->room, 1) &&
                      grow(&starts, frame->n + 1, &frame->room_starts, sizeof *frame->starts);
    frame->names = names;
    frame->starts = starts;
    if (!good)
        return false;
    memcpy(frame->names + frame->size, name, size);
    frame->starts[frame->n++] = frame->size;
    frame->size += size;
    return true;
}

static char small_letter(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Does it end in ".csv", in any case, with something before? */
static bool ends_in(const char *name, size_t size, const char *ending)
{
    const size_t n = strlen(ending);
    if (size <= n)
        return false;
    for (size_t i = 0; i < n; i++)
        if (small_letter(name[size - n + i]) != ending[i])
            return false;
    return true;
}

static bool is_sheet_name(const char *name, size_t size)
{
    return ends_in(name, size, ".csv") || ends_in(name, size, ".tsv");
}

/* The walk leaves "hall.csv.lock" beside a sheet. */
static bool is_lock(const char *name)
{
    const size_t size = strlen(name);
    return ends_in(name, size, ".lock") && is_sheet_name(name, size - strlen(".lock"));
}

static bool put_path(sheet_paths *paths, size_t front, const char *name)
{
    const size_t size = strlen(name);
    void *path = paths->path;
    const bool good = grow(&path, front + size + 2, &paths->room, 1);
    paths->path = path;
    if (!good)
        return false;
    if (front > 0 && paths->path[front - 1] != '/')
        paths->path[front++] = '/';
    memcpy(paths->path + front, name, size + 1);
    return true;
}

/* Keeps the path that put_path() made, if it is one of the first by name: a folder gives its entries in
 * no order, and the message is to be the same on every machine. */
static bool pass_over(sheet_paths *paths, passed_over *list)
{
    const int n = list->n < PASSED_MOST ? list->n : PASSED_MOST;
    int at = n;
    list->n++;
    while (at > 0 && strcmp(list->names[at - 1], paths->path) > 0)
        at--;
    if (at == PASSED_MOST)
        return true;
    const size_t size = strlen(paths->path) + 1;
    char *name = malloc(size);
    if (!name)
        return false;
    memcpy(name, paths->path, size);
    if (n == PASSED_MOST)
        free(list->names[n - 1]);
    for (int i = n < PASSED_MOST ? n : n - 1; i > at; i--)
        list->names[i] = list->names[i - 1];
    list->names[at] = name;
    return true;
}

typedef enum entry_kind { ENTRY_FOLDER, ENTRY_FILE, ENTRY_SPECIAL } entry_kind;

/* What the path leads to; where nothing is (a link to nowhere), opening it will say so. */
static entry_kind find_kind(const char *path)
{
    struct stat about;
    if (stat(path, &about) != 0 || S_ISREG(about.st_mode))
        return ENTRY_FILE;
    return S_ISDIR(about.st_mode) ? ENTRY_FOLDER : ENTRY_SPECIAL;
}

/* Folders are kept under their name with a '/' behind: so they are known, and sorted, by it. */
static bool take_entry(sheet_paths *paths, folder_frame *frame, const struct dirent *entry)
{
    char name[sizeof entry->d_name + 2];
    entry_kind kind = ENTRY_FILE;
    bool sure = false;
    if (entry->d_name[0] == '.')
        return true;
#ifdef DT_DIR
    sure = entry->d_type == DT_DIR || entry->d_type == DT_REG;
    kind = entry->d_type == DT_DIR ? ENTRY_FOLDER : ENTRY_FILE;
#endif
    const bool sheet = is_sheet_name(entry->d_name, strlen(entry->d_name));
    if (sure && (sheet || kind == ENTRY_FOLDER)) {
        snprintf(name, sizeof name, "%s%s", entry->d_name, kind == ENTRY_FOLDER ? "/" : "");
        return add_name(frame, name);
    }
    if (!put_path(paths, frame->path_size, entry->d_name))
        return false;
    if (!sure)
        kind = find_kind(paths->path);
    if (kind == ENTRY_SPECIAL)
        return pass_over(paths, &paths->specials);
    if (kind == ENTRY_FILE && !sheet)
        return is_lock(entry->d_name) || pass_over(paths, &paths->others);
    snprintf(name, sizeof name, "%s%s", entry->d_name, kind == ENTRY_FOLDER ? "/" : "");
    return add_name(frame, name);
}

/* qsort has no context: the names go into an array of pointers and back into places. */
static int compare_names(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static bool sort_names(folder_frame *frame)
{
    const char **names = malloc((frame->n + 1) * sizeof *names);
    if (!names)
        return false;
    for (size_t i = 0; i < frame->n; i++)
        names[i] = frame->names + frame->starts[i];
    if (frame->n > 0)
        qsort(names, frame->n, sizeof *names, compare_names);
    for (size_t i = 0; i < frame->n; i++)
        frame->starts[i] = (size_t)(names[i] - frame->names);
    free(names);
    return true;
}

/* A link may lead back to a folder that we are in. */
static bool is_open(const sheet_paths *paths, const struct stat *about)
{
    for (int i = 0; i < paths->depth; i++)
        if (paths->frames[i].device == about->st_dev && paths->frames[i].number == about->st_ino)
            return true;
    return false;
}

/* The folder at paths->path. */
static void open_folder(sheet_paths *paths)
{
    struct stat about;
    DIR *open = stat(paths->path, &about) == 0 && !is_open(paths, &about) ? opendir(paths->path) : NULL;
    if (!open || paths->depth == FOLDERS_DEEP) {
        if (open)
            closedir(open);
        add_trouble(paths, paths->path, "this folder can't be searched",
                    paths->depth == FOLDERS_DEEP ? "it lies too deep; name it itself"
                                                 : "check that it may be read, and leads not back to itself");
        return;
    }
    folder_frame *frame = &paths->frames[paths->depth++];
    *frame = (folder_frame){.path_size = strlen(paths->path), .device = about.st_dev, .number = about.st_ino};
    bool good = true;
    for (struct dirent *entry = readdir(open); good && entry; entry = readdir(open))
        good = take_entry(paths, frame, entry);
    closedir(open);
    if (!good || !sort_names(frame))
        paths->no_memory = true;
}

static void close_folder(sheet_paths *paths)
{
    folder_frame *frame = &paths->frames[--paths->depth];
    free(frame->names);
    free(frame->starts);
}

/* ---- all of them ---------------------------------------------------------------------------- */

/* The next word: true when it is no folder, and so the path itself. */
static bool take_word(sheet_paths *paths)
{
    const char *word = paths->asked->words[paths->at_word++];
    paths->n_found = 0;
    if (!put_path(paths, 0, word)) {
        paths->no_memory = true;
        return false;
    }
    if (!is_folder_path(word))
        return true;
    open_folder(paths);
    return false;
}

const char *next_sheet_path(void *context)
{
    sheet_paths *paths = context;
    while (!paths->no_memory) {
        folder_frame *frame = paths->depth > 0 ? &paths->frames[paths->depth - 1] : NULL;
        if (!frame) {
            if (paths->at_word == paths->asked->n_words)
                return NULL;
            if (take_word(paths))
                return paths->path;
        } else if (frame->at < frame->n) {
            if (!put_path(paths, frame->path_size, frame->names + frame->starts[frame->at++])) {
                paths->no_memory = true;
                return NULL;
            }
            const size_t size = strlen(paths->path);
            if (paths->path[size - 1] != '/') {
                if (is_output(paths->asked, paths->path)) {
                    paths->met_output = true;
                    add_trouble(paths, paths->path, "this is where the output goes, so it was not read",
                                "send the output to another folder");
                    continue;
                }
                paths->n_found++;
                return paths->path;
            }
            paths->path[size - 1] = '\0';
            open_folder(paths);
        } else {
            const bool last = paths->depth == 1;
            close_folder(paths);
            if (last && paths->n_found == 0)
                add_trouble(paths, paths->asked->words[paths->at_word - 1],
                            "there is no sheet (*.csv, *.tsv) in this folder",
                            "check that it is the right one");
        }
    }
    return NULL;
}

/* ---- what to say of them --------------------------------------------------------------------- */

bool check_paths(const request *asked)
{
    for (int i = 0; i < asked->n_words; i++) {
        if (strcmp(asked->words[i], "-") != 0)
            continue;
        complain("\"-\" (standard input) is one sheet, and goes by itself: hammerline %s -",
                 asked->command->name);
        return false;
    }
    return true;
}

/* "2 files are no sheets (*.csv, *.tsv) and were passed over: hall/notes.txt, hall/x.pdf" */
static void report_passed(const passed_over *list, const char *one, const char *many)
{
    char names[300] = "";
    int shown = 0;
    for (; shown < list->n && shown < PASSED_MOST; shown++) {
        const size_t end = strlen(names);
        if (end + strlen(list->names[shown]) + 3 > sizeof names)
            break;
        snprintf(names + end, sizeof names - end, "%s%s", end ? ", " : "", list->names[shown]);
    }
    if (list->n == 0)
        return;
    if (shown == list->n)
        complain("%d %s: %s", list->n, list->n == 1 ? one : many, names);
    else
        complain("%d %s: %s%sand %d more", list->n, many, names, shown ? " " : "", list->n - shown);
}

int report_troubles(const sheet_paths *paths)
{
    int worst = EXIT_READY;
    report_passed(&paths->others, "file is no sheet (*.csv, *.tsv) and was passed over",
                  "files are no sheets (*.csv, *.tsv) and were passed over");
    report_passed(&paths->specials, "pipe, socket or device was passed over",
                  "pipes, sockets or devices were passed over");
    for (int i = 0; i < paths->n_troubles && i < TROUBLES; i++) {
        const int code = report(&paths->troubles[i]);
        worst = code > worst ? code : worst;
    }
    if (paths->n_troubles > TROUBLES)
        complain("and %d more folders; mend those above first", paths->n_troubles - TROUBLES);
    return paths->no_memory ? report_no_memory() : worst;
}

void close_sheet_paths(sheet_paths *paths)
{
    while (paths->depth > 0)
        close_folder(paths);
    free(paths->path);
    for (int i = 0; i < PASSED_MOST; i++) {
        free(paths->others.names[i]);
        free(paths->specials.names[i]);
    }
    *paths = (sheet_paths){0};
}
