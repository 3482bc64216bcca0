/* nearest_file.h - the rule file whose name is nearest to a misspelt one (layer: host). */
#ifndef HL_NEAREST_FILE_H
#define HL_NEAREST_FILE_H

#include "hammerline/book.h"

#include <stdbool.h>
#include <stddef.h>

/* Look in FOLDER, and for "grand/dorp" in FOLDER/grand.  False when nothing is near. */
bool hl__nearest_file(char *out, size_t room, const char *folder, const char *name);

#endif
