/* book_check.h - what the files that look a book over share (layer: check). */
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

/* Is entry a laid over entry b? */
bool hl__is_later(const hl_book *book, hl_origin a, hl_origin b);
/* book_proof.c: can the work be done by this book? */
void hl__check_workable(hl_checking *c);
/* What one unit of the adjuster does, with the book's own facts, at naturals (0) or sharps (1); NaN when no
 * number says it. */
double hl__move_effect(const hl_book *book, const hl_move *move, int colour);
/* Room for one more complaint; never NULL. */
hl_err *hl__complain(hl_checking *c);
/* Complain of every key in a `source` that the book's register does not have; `of` names who cites it. */
void hl__check_source(hl_checking *c, const char *of, const char *source, hl_origin origin);

#endif
