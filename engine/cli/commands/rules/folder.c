/* folder.c - the files of a folder, by name (layer: cli/commands). */
#include "folder.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

bool is_same_file(const char *a, const char *b)
{
    struct stat one, other;
    return stat(a, &one) == 0 && stat(b, &other) == 0 && one.st_dev == other.st_dev &&
           one.st_ino == other.st_ino;
}

static bool make_room(path_list *in)
{
    if (in->n < in->room)
        return true;
    const size_t room = in->room > 0 ? 2 * in->room : 16;
    char **paths = realloc(in->paths, room * sizeof *paths);
    if (!paths)
        return false;
    in->paths = paths;
    in->room = room;
    return true;
}

static bool add_joined(path_list *to, const char *folder, const char *middle, const char *name)
{
    const size_t size = strlen(folder) + strlen(middle) + strlen(name) + 3;
    char *path = malloc(size);
    if (!path || !make_room(to)) {
        free(path);
        return false;
    }
    snprintf(path, size, "%s%s%s%s%s", folder, *folder ? "/" : "", middle, *middle ? "/" : "", name);
    to->paths[to->n++] = path;
    return true;
}

bool add_path(path_list *to, const char *path)
{
    return add_joined(to, "", "", path);
}

void free_paths(path_list *paths)
{
    for (size_t i = 0; i < paths->n; i++)
        free(paths->paths[i]);
    free(paths->paths);
    *paths = (path_list){0};
}

static bool ends_in(const char *name, const char *ending)
{
    const size_t n = strlen(name), m = strlen(ending);
    return n > m && name[0] != '.' && strcmp(name + n - m, ending) == 0;
}

static int compare_paths(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* Folders are no files, whatever their name; what can't be asked about is left to the reader. */
static void drop_folders(path_list *in, size_t first)
{
    size_t kept = first;
    for (size_t i = first; i < in->n; i++) {
        struct stat about;
        if (stat(in->paths[i], &about) == 0 && !S_ISREG(about.st_mode))
            free(in->paths[i]);
        else
            in->paths[kept++] = in->paths[i];
    }
    in->n = kept;
}

bool list_folder(path_list *to, const char *folder, const char *middle, const char *ending)
{
    const size_t first = to->n, size = strlen(folder) + strlen(middle) + 2;
    char *path = malloc(size);
    if (!path)
        return false;
    snprintf(path, size, "%s%s%s", folder, *middle ? "/" : "", middle);
    DIR *open = opendir(path);
    free(path);
    if (!open)
        return true;
    bool good = true;
    for (struct dirent *entry = readdir(open); good && entry; entry = readdir(open))
        if (ends_in(entry->d_name, ending))
            good = add_joined(to, folder, middle, entry->d_name);
    closedir(open);
    drop_folders(to, first);
    if (to->n > first)
        qsort(to->paths + first, to->n - first, sizeof *to->paths, compare_paths);
    return good;
}
