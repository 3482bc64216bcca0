/* files.c - finding rule files by name (layer: host).
 *
 * A name is turned into a real path first and compared with the real folders, so that neither
 * "..", nor a symbolic link, nor an absolute path leads out of them. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "files.h"

#include "ascii.h"
#include "file.h"
#include "nearest_name.h"

#include <dirent.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#ifndef PATH_MAX
#define PATH_MAX 4096
#endif

#define MOST_FILES     1000
#define NAME_LENGTH    200
#define MOST_LOOKED_AT 2000 /* a folder of rules holds some dozens */

static bool is_inside(const char *root, const char *real)
{
    size_t n = strlen(root);
    return strncmp(root, real, n) == 0 && (real[n] == '/' || (n > 0 && root[n - 1] == '/'));
}

/* The folder part of a path, copied; "." when there is none. */
static char *copy_folder(hl_arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    if (slash == NULL)
        return hl__arena_copy(arena, ".");
    return hl__arena_copy_n(arena, path, slash == path ? 1 : (size_t)(slash - path));
}

static hl_code add_root(hl_files *files, const char *folder, hl_err *err)
{
    char real[PATH_MAX];
    if (realpath(folder, real) == NULL)
        return HL_OK; /* a folder that does not exist holds no files */
    const char *copy = hl__arena_copy(files->arena, real);
    if (copy == NULL)
        return hl__no_memory(err);
    files->roots[files->n_roots++] = copy;
    return HL_OK;
}

hl_code hl__files_start(hl_files *files, hl_arena *arena, const hl_shelf *shelf, hl_err *err)
{
    *files = (hl_files){.arena = arena};
    int n = shelf != NULL ? shelf->n_folders : 0;
    files->roots = hl__arena_array(arena, (size_t)n + 1, sizeof *files->roots);
    if (files->roots == NULL)
        return hl__no_memory(err);
    for (int i = 0; i < n; i++) {
        hl_code code = add_root(files, shelf->folders[i], err);
        if (code != HL_OK)
            return code;
    }
    files->n_shelf = files->n_roots;
    return HL_OK;
}

void hl__files_end(hl_files *files)
{
    free(files->found);
    files->found = NULL;
}

/* ---- from a path to a file ------------------------------------------------------------------- */

static const char *shown_name(const hl_files *files, const char *real, const char *given)
{
    for (int i = 0; i < files->n_roots; i++) {
        if (is_inside(files->roots[i], real)) {
            const char *rest = real + strlen(files->roots[i]);
            return *rest == '/' ? rest + 1 : rest;
        }
    }
    return given;
}

static hl_code add_file(hl_rule_file **out, hl_files *files, const char *real, const char *given,
                        hl_origin at, hl_err *err)
{
    if (files->n >= MOST_FILES) {
        hl__fail(err, HL_E_RULE, "the book uses more than %d files", MOST_FILES);
        return hl__at(err, at.file, at.line, 0);
    }
    if (!hl__grow((void **)&files->found, files->n, &files->room, sizeof *files->found))
        return hl__no_memory(err);
    hl_rule_file *file = hl__arena_take(files->arena, sizeof *file);
    char *copy = hl__arena_copy(files->arena, real);
    char *folder = copy_folder(files->arena, real);
    char *shown = hl__arena_copy(files->arena, shown_name(files, real, given));
    const char *slash = strrchr(given, '/');
    const char *base = slash != NULL ? slash + 1 : given;
    size_t n = strlen(base);
    if (n > 4 && strcmp(base + n - 4, ".lua") == 0)
        n -= 4;
    char *id = hl__arena_copy_n(files->arena, base, n);
    if (file == NULL || copy == NULL || folder == NULL || shown == NULL || id == NULL)
        return hl__no_memory(err);
    *file = (hl_rule_file){.shown = shown, .real = copy, .folder = folder, .id = id, .used = at};
    files->found[files->n++] = file;
    *out = file;
    return HL_OK;
}

typedef enum result { ABSENT, FOUND, OUTSIDE, NOT_A_FILE } result;

/* Is there a file FOLDER/MIDDLE/NAME.lua, and is it really in one of the folders? */
static result try_path(const hl_files *files, const char *folder, const char *middle, const char *name,
                       char real[PATH_MAX])
{
    char path[PATH_MAX];
    int n = snprintf(path, sizeof path, "%s/%s%s.lua", folder, middle, name);
    if (n < 0 || (size_t)n >= sizeof path)
        return ABSENT;
    if (!hl__file_exists(path))
        return access(path, F_OK) == 0 ? NOT_A_FILE : ABSENT;
    if (realpath(path, real) == NULL)
        return ABSENT;
    for (int i = 0; i < files->n_roots; i++) {
        if (is_inside(files->roots[i], real))
            return FOUND;
    }
    return OUTSIDE;
}

static result search(const hl_files *files, const char *beside, const char *name, char real[PATH_MAX])
{
    result worst = ABSENT;
    if (beside != NULL) {
        result one = try_path(files, beside, "", name, real);
        if (one == FOUND)
            return one;
        worst = one;
    }
    for (int i = 0; i < files->n_shelf; i++) {
        result one = try_path(files, files->roots[i], "", name, real);
        if (one == ABSENT)
            one = try_path(files, files->roots[i], "shops/", name, real);
        if (one == FOUND)
            return one;
        worst = one != ABSENT ? one : worst;
    }
    return worst;
}

/* The rule file of FOLDER (for "grand/dorp" of FOLDER/grand) whose name is nearest to a misspelt one. */
static bool find_nearest(char *out, size_t room, const char *folder, const char *name)
{
    char path[1024], best[256] = "";
    const char *slash = strrchr(name, '/');
    const char *base = slash != NULL ? slash + 1 : name;
    int before = (int)(base - name);
    int n = snprintf(path, sizeof path, "%s/%.*s", folder, before, name);
    DIR *listing = n > 0 && (size_t)n < sizeof path ? opendir(path) : NULL;
    if (listing == NULL)
        return false;
    hl_suggest suggest = {base, NULL, 0};
    int nearest = 1000;
    struct dirent *entry;
    for (int i = 0; i < MOST_LOOKED_AT && (entry = readdir(listing)) != NULL; i++) {
        char file[256];
        size_t size = strlen(entry->d_name);
        if (size < 5 || size >= sizeof file || strcmp(entry->d_name + size - 4, ".lua") != 0)
            continue;
        memcpy(file, entry->d_name, size - 4);
        file[size - 4] = '\0';
        suggest.best = NULL;
        hl__suggest_offer(&suggest, file);
        /* Of two equally near the first in the alphabet, so that the message never changes. */
        bool better = suggest.best != NULL &&
                      (suggest.distance < nearest || (suggest.distance == nearest && strcmp(file, best) < 0));
        if (better) {
            nearest = suggest.distance;
            memcpy(best, file, size - 3);
        }
    }
    closedir(listing);
    n = best[0] != '\0' ? snprintf(out, room, "%.*s%s", before, name, best) : -1;
    return n > 0 && (size_t)n < room;
}

static hl_code fail_absent(const hl_files *files, const char *beside, const char *name, result why,
                           hl_code code, hl_err *err)
{
    if (why == OUTSIDE) {
        hl__fail(err, code, "rule file '%s' is a link that leads out of the rule folders", name);
        return hl__todo(err, "put the file itself there");
    }
    if (why == NOT_A_FILE) {
        hl__fail(err, code, "%s.lua is a folder, a pipe or a device, not a rule file", name);
        return hl__todo(err, "put a plain file there");
    }
    char nearest[NAME_LENGTH + 1], here[NAME_LENGTH + 16];
    hl__fail(err, code, "there is no rule file '%s'", name);
    if (beside == NULL && snprintf(here, sizeof here, "./%s.lua", name) > 0 && hl__file_exists(here))
        return hl__todo(err, "to open the file that is here, write %s", here);
    for (int i = beside != NULL ? -1 : 0; i < files->n_shelf; i++) {
        if (find_nearest(nearest, sizeof nearest, i < 0 ? beside : files->roots[i], name))
            return hl__todo(err, "did you mean '%s'?", nearest);
    }
    if (files->n_shelf == 0 && beside == NULL)
        return hl__todo(err, "no rule folder was named, or none of them exists");
    return hl__todo(err, "it is looked for as %s.lua beside the asking file and in the rule folders", name);
}

/* ---- the two ways to ask --------------------------------------------------------------------- */

static hl_code check_name(const char *name, hl_err *err)
{
    const char *todo = NULL;
    if (name[0] == '/')
        todo = "an absolute path is refused; files are looked for beside the asking file and in the rule "
               "folders";
    else if (strstr(name, "..") != NULL)
        todo = "'..' is refused; files are looked for beside the asking file and in the rule folders";
    else if (strlen(name) > 4 && strcmp(name + strlen(name) - 4, ".lua") == 0)
        todo = "leave out .lua";
    else if (name[0] == '\0' || strlen(name) > NAME_LENGTH || name[strlen(name) - 1] == '/' ||
             strstr(name, "//") != NULL)
        todo = "write \"drop\" or \"grand/drop\"";
    for (const char *c = name; *c != '\0' && todo == NULL; c++) {
        bool good = hl__is_letter(*c) || hl__is_digit(*c) || *c == '_' || *c == '-' || *c == '/';
        if (!good)
            todo = "letters, digits, _, - and / make a name";
    }
    if (todo == NULL)
        return HL_OK;
    hl__fail(err, HL_E_RULE, "\"%s\" is not the name of a rule file", name);
    return hl__todo(err, "%s", todo);
}

hl_code hl__files_open(hl_rule_file **out, hl_files *files, const char *name, hl_err *err)
{
    *out = NULL;
    char real[PATH_MAX];
    const hl_origin nowhere = {"", 0};
    size_t n = strlen(name);
    bool path = strchr(name, '/') != NULL || (n > 4 && strcmp(name + n - 4, ".lua") == 0);
    if (path) {
        if (!hl__file_exists(name) && access(name, F_OK) == 0) {
            hl__fail(err, HL_E_USAGE, "'%s' is a folder, a pipe or a device, not a rule file", name);
            return hl__todo(err, "name a plain file that ends in .lua");
        }
        if (!hl__file_exists(name) || realpath(name, real) == NULL) {
            hl__fail(err, HL_E_USAGE, "there is no rule file '%s'", name);
            return hl__todo(err, "give the id of a book, or the path of its file");
        }
        const char *folder = copy_folder(files->arena, real);
        if (folder == NULL)
            return hl__no_memory(err);
        hl_code code = add_root(files, folder, err);
        return code != HL_OK ? code : add_file(out, files, real, name, nowhere, err);
    }
    hl_code code = check_name(name, err);
    if (code != HL_OK) {
        err->code = HL_E_USAGE;
        return err->code;
    }
    result found = search(files, NULL, name, real);
    if (found != FOUND)
        return fail_absent(files, NULL, name, found, HL_E_USAGE, err);
    return add_file(out, files, real, name, nowhere, err);
}

static hl_code fail_again(const hl_rule_file *file, const hl_rule_file *asking, const char *name, hl_err *err)
{
    if (file->loading) {
        hl__fail(err, HL_E_RULE, "use \"%s\" makes a loop: %s is being put together already", name,
                 file->shown);
        if (file == asking)
            return hl__todo(
                err,
                "this file is itself named %s; to build on the book of that name, give yours another "
                "name and id",
                name);
        if (file->used.file[0] != '\0')
            return hl__todo(err, "it was asked for at %s:%d; take one of the two out", file->used.file,
                            file->used.line);
        return hl__todo(err, "it is the book that was opened; take this line out");
    }
    hl__fail(err, HL_E_RULE, "use \"%s\": %s is in the book already", name, file->shown);
    return hl__todo(err, "it was used at %s:%d; take one of the two out", file->used.file, file->used.line);
}

hl_code hl__files_use(hl_rule_file **out, hl_files *files, const hl_rule_file *asking, const char *name,
                      hl_origin at, hl_err *err)
{
    *out = NULL;
    char real[PATH_MAX];
    hl_code code = check_name(name, err);
    if (code == HL_OK) {
        result found = search(files, asking->folder, name, real);
        if (found != FOUND)
            code = fail_absent(files, asking->folder, name, found, HL_E_RULE, err);
    }
    for (size_t i = 0; code == HL_OK && i < files->n; i++) {
        if (strcmp(files->found[i]->real, real) == 0)
            code = fail_again(files->found[i], asking, name, err);
    }
    if (code != HL_OK)
        return hl__at(err, at.file, at.line, 0);
    return add_file(out, files, real, name, at, err);
}
