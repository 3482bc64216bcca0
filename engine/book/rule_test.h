/* rule_test.h - the cases of a `tests "book" { ... }` file, as data (layer: book).
 *
 * host/ reads them, judge/ runs them; neither needs the other. */
#ifndef HL_RULE_TEST_H
#define HL_RULE_TEST_H

#include "arena.h"
#include "book.h"
#include "hammerline/book.h"

typedef struct hl_rule_test {
    int step;          /* index */
    int note;          /* in the book's compass; 0 = instrument */
    const char *reads; /* as typed into a sheet; NULL = nothing was read */
    const char *with;  /* other readings of the note: "blow=46 let_off=2", or "" */
    const char *facts; /* facts that the sheet states: "travel_ratio=5.2", or "" */
    const char *want;  /* verdict name */
    const char *why;   /* "low", "high", "uneven", a fault word, or "" */
    int adjuster;      /* expected first correction, -1 = not checked */
    const char *way;   /* "" = not checked */
    hl_amount amount;  /* -1 = not checked */
    const char *source;
    hl_origin origin;
} hl_rule_test;

struct hl_rule_tests {
    hl_book *book; /* owned */
    hl_arena arena;
    hl_rule_test *cases;
    int n;
};

#endif
