/* folder.h - the files of a folder, by name (layer: cli/commands). */
#ifndef HL_FOLDER_H
#define HL_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

typedef struct path_list {
    char **paths; /* freed by free_paths */
    size_t n, room;
} path_list; /* start as {0} */

/* Adds "folder/middle/name" of each file whose name ends in `ending`, in the order of their names.
 * A folder that is not there has none.  False: no memory. */
bool list_folder(path_list *to, const char *folder, const char *middle, const char *ending);
/* Adds a copy of one path. */
bool add_path(path_list *to, const char *path);
void free_paths(path_list *paths);
/* Do both paths lead to one file? */
bool is_same_file(const char *a, const char *b);
/* The path behind its last '/'. */
const char *base_name(const char *path);

#endif
