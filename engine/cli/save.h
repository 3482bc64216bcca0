/* save.h - a file that appears whole and on the disk, or not at all (layer: cli). */
#ifndef HL_CLI_SAVE_H
#define HL_CLI_SAVE_H

#include <stdbool.h>
#include <stddef.h>

/* Writes beside `path`, puts it on the disk, and only then gives it its name.  A file of that name is
 * left alone unless `replace`; something else than a file always is.  Returns an exit code, after a
 * complaint. */
int save_whole(const char *path, const char *text, size_t size, bool replace);

#endif
