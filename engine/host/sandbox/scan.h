/* scan.h - looking a rule file's text over before Lua runs it (layer: host/sandbox). */
#ifndef HL_SCAN_H
#define HL_SCAN_H

#include "errors.h"
#include "hammerline/book.h"

/* The tables of a file as they are written, with the lines that Lua forgets.  Names point into the text. */
typedef struct hl_outline_item {
    const char *key; /* NULL: an item without a name */
    size_t size;
    int line;
    int table; /* the table that is its value, when it begins with '{'; else -1 */
    int next;  /* item of the same table, or -1 */
} hl_outline_item;

typedef struct hl_outline_table {
    const char *word; /* that is called with it: step in `step { ... }`; NULL: none */
    size_t size;
    int line; /* of that word */
    int first, last;
    bool taken; /* given out by hl__outline_find */
} hl_outline_table;

/* Start as {0}; one outline serves for file after file.  hl__outline_free() frees it. */
typedef struct hl_outline {
    hl_outline_table *tables;
    size_t n_tables, room_tables;
    hl_outline_item *items;
    size_t n_items, room_items;
} hl_outline;

/* Refuses what the linked Lua may compile wrongly (bitwise operators, a comparison inside [ ]), compiled
 * chunks, text that is not UTF-8, and slips of the pen that Lua would explain badly or not at all.  The error
 * has a line and no file.  Fills the outline. */
hl_code hl__scan(const char *text, size_t size, hl_outline *outline, hl_err *err);
void hl__outline_free(hl_outline *outline);
/* The table that `word` was called with in this line; the first of them that was not given out yet.  -1:
 * none, as when the table was not written at the call. */
int hl__outline_find(hl_outline *outline, const char *word, int line);
/* The item of that name in a table (its place in the outline); NULL when there is none. */
const hl_outline_item *hl__outline_item(const hl_outline *outline, int table, const char *key);

#endif
