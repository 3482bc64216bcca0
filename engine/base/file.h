/* file.h - whole files and folders (layer: base). */
#ifndef HL_FILE_H
#define HL_FILE_H

#include "hammerline/base.h"

/* Read a regular file (or a pipe) of at most `most` bytes into malloc'ed *out, NUL added.
 * EINTR is retried.  `code` is what a failure is called (HL_E_SHEET or HL_E_RULE). */
hl_code hl__file_read(char **out, size_t *size, const char *path, size_t most, hl_code code, hl_err *err);
/* True when path is a readable regular file. */
bool hl__file_exists(const char *path);

#endif
