/* host.h - the Lua side's one door: from rule files to a flattened book (layer: host). */
#ifndef HL_HOST_H
#define HL_HOST_H

#include "book.h"
#include "hammerline.h"

/* A rule test case, from a `tests "book" { ... }` file, as data. */
typedef struct hl_rule_test {
    int step;             /* index, or -1 for a case about a fact or a book */
    int note;             /* in the book's compass; 0 = instrument */
    const char *reads;    /* as typed into a sheet; NULL = nothing was read */
    const char *with;     /* other readings of the note: "blow=46 let_off=2", or "" */
    const char *want;     /* verdict name */
    const char *why;      /* "low", "high", a fault word, or "" */
    int adjuster;         /* expected first correction, -1 = not checked */
    const char *way;      /* "" = not checked */
    hl_amount amount;     /* -1 = not checked */
    const char *source;
    hl_origin origin;
} hl_rule_test;

typedef struct hl_rule_tests {
    hl_book *book; /* owned */
    hl_arena arena;
    hl_rule_test *cases;
    int n;
} hl_rule_tests;

/* Read a test file and open the book it tests. */
hl_code hl__rule_tests_open(hl_rule_tests **out, const char *path, const hl_shelf *shelf, hl_err *err);
void hl__rule_tests_free(hl_rule_tests *tests);

/* What the rule language offers, for the check against rules/meta/words.lua: the i-th word
 * ("step"), or field ("step.id"); NULL past the end. */
const char *hl__host_word(int i);
const char *hl__host_field(int i);

#endif
