/* book_sniff.h - what a rule file is, as far as its text tells without running it (layer: cli/commands). */
#ifndef HL_BOOK_SNIFF_H
#define HL_BOOK_SNIFF_H

#include <stdbool.h>
#include <stddef.h>

/* A book that can stand alone: it says `return book` and uses files or has stages of its own.  (A
 * book of adjusters or facts only is a part of others.) */
bool looks_like_book(const char *path);
/* The id in `tests "id"`, into `id`; false when the text says none. */
bool peek_tested_book(const char *path, char *id, size_t room);

#endif
