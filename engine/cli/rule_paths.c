/* rule_paths.c - finds the folders with rule files (layer: cli). */
#include "rule_paths.h"

#include "output.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#ifndef HAMMERLINE_RULES_FROM_BIN
#define HAMMERLINE_RULES_FROM_BIN "../share/hammerline/rules"
#endif

#define PATH_ROOM 4096

static bool is_folder(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

/* Adds "front/back" when there is such a folder.  False: no memory. */
static bool add_folder(bookshelf *to, const char *front, const char *back)
{
    const size_t room = strlen(front) + strlen(back) + 2;
    char *path = malloc(room);
    if (!path)
        return false;
    snprintf(path, room, "%s%s%s", front, *back ? "/" : "", back);
    if (!is_folder(path)) {
        free(path);
        return true;
    }
    to->own[to->n_own++] = path;
    to->folders[to->shelf.n_folders++] = path;
    return true;
}

static bool add_users(bookshelf *to)
{
    const char *config = getenv("XDG_CONFIG_HOME");
    const char *home = getenv("HOME");
    if (config && config[0] == '/') /* the base directory rules: a relative one is to be ignored */
        return add_folder(to, config, "hammerline/rules");
    if (home && home[0] == '/')
        return add_folder(to, home, ".config/hammerline/rules");
    return true;
}

/* The folder of the running program, or false when the system does not tell. */
static bool find_own_folder(char *out, size_t room)
{
    const ssize_t size = readlink("/proc/self/exe", out, room - 1);
    if (size <= 0 || (size_t)size >= room - 1)
        return false;
    out[size] = '\0';
    char *slash = strrchr(out, '/');
    if (!slash)
        return false;
    *slash = '\0';
    return true;
}

/* The system tells a real path, so each "../" of `back` takes a folder off its end.  Returns what is
 * left of `back`. */
static const char *go_up(char *folder, const char *back)
{
    while (strncmp(back, "../", 3) == 0) {
        char *slash = strrchr(folder, '/');
        if (!slash || slash == folder)
            break;
        *slash = '\0';
        back += 3;
    }
    return back;
}

static bool add_shipped(bookshelf *to)
{
    char folder[PATH_ROOM];
    if (!find_own_folder(folder, sizeof folder))
        return true;
    const char *back = go_up(folder, HAMMERLINE_RULES_FROM_BIN);
    return add_folder(to, folder, back);
}

int open_bookshelf(bookshelf *out, const request *asked)
{
    *out = (bookshelf){.n_own = 0};
    out->shelf.folders = out->folders;
    for (int i = 0; i < asked->n_rule_folders; i++) {
        if (!is_folder(asked->rule_folders[i])) {
            complain("--rules %s is not a folder; name the folder that holds the books",
                     asked->rule_folders[i]);
            return EXIT_WRONG_USE;
        }
        out->folders[out->shelf.n_folders++] = asked->rule_folders[i];
    }
    if (add_users(out) && add_shipped(out))
        return EXIT_READY;
    complain("the machine has no memory left; close other programs and run it again");
    return EXIT_NOT_SAVED;
}

void close_bookshelf(bookshelf *shelf)
{
    for (int i = 0; i < shelf->n_own; i++)
        free(shelf->own[i]);
    shelf->n_own = 0;
}
