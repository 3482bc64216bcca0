/* press.h - writing an opened book down as C constants (layer: press, above host; not installed). */
#ifndef HL_PRESS_H
#define HL_PRESS_H

#include "book.h"

#include <stdio.h>

/* The initialiser of an hl_book: everything that it holds, with an empty arena. */
void press_book(FILE *out, const hl_book *book);
/* A text as a C literal, or NULL. */
void press_text(FILE *out, const char *text);

#endif
