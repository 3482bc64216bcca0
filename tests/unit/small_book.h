/* small_book.h - a hand-made book for tests of the model and the judge, without Lua.
 *
 * Targets are round figures near the trade's usual ones (from memory); they are there to be
 * reckoned with, not to be regulated by.  Facts: travel_ratio 5, capstan_ratio 1/2, capstan_pitch
 * 1 mm a turn, key_front 250, key_pin 230, key_back 220, key_capstan 125 (naturals), all assumed. */
#ifndef SMALL_BOOK_H
#define SMALL_BOOK_H

#include "book.h"

/* Never NULL: a failure to build it ends the test program. */
hl_book *small_book(void);
void small_book_free(hl_book *book);

/* A step's or adjuster's index by id; ends the test program when there is none. */
int small_step(const hl_book *book, const char *id);
int small_adjuster(const hl_book *book, const char *id);
/* A formula or condition over the book's steps and facts, in the book's arena. */
const hl_formula *small_formula(hl_book *book, const char *text);
/* Find the order of computation again, after a formula was changed. */
void small_order(hl_book *book);

#endif
