/* source.h - what a `source` cites: "list-2001-let-off; arithmetic: 1.6 + 1.6" (layer: book). */
#ifndef HL_SOURCE_H
#define HL_SOURCE_H

#include "book.h"

/* One item of a list of citations, as parts of the text that holds it. */
typedef struct hl_cited {
    const char *key; /* what comes before ": ", or the whole item: a key, or free text */
    size_t key_size;
    const char *remark; /* what comes after it; size 0 when nothing does */
    size_t remark_size;
} hl_cited;

/* Take the next item from *at and move *at past it; false at the end. */
bool hl__next_cited(const char **at, hl_cited *out);
/* May this be a key of the register: small letters, digits and single hyphens, beginning with a letter? */
bool hl__is_source_key(const char *text, size_t size);
/* Was it meant as one: does it have a hyphen too?  Other words are free text. */
bool hl__looks_like_source_key(const char *text, size_t size);
/* Place in the register, or -1. */
int hl__book_find_source(const hl_book *book, const char *key, size_t size);

#endif
