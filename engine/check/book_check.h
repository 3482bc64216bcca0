/* book_check.h - what the two files that look a book over share (layer: check). */
#ifndef HL_BOOK_CHECK_H
#define HL_BOOK_CHECK_H

#include "book.h"
#include "hammerline/audit.h"

typedef struct hl_checking {
    const hl_book *book;
    hl_complaints *complaints;
    hl_err spare; /* filled when there is no room for one more */
    bool no_memory;
} hl_checking;

/* Room for one more complaint; never NULL. */
hl_err *hl__complain(hl_checking *c);
/* Complain of every key in a `source` that the book's register does not have; `of` names who cites it. */
void hl__check_source(hl_checking *c, const char *of, const char *source, hl_origin origin);

#endif
