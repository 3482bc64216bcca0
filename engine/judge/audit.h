/* audit.h - the verdicts of one sheet by one book (layer: judge; never sees Lua). */
#ifndef HL_AUDIT_H
#define HL_AUDIT_H

#include "arena.h"
#include "book.h"
#include "sheet.h"

struct hl_audit {
    hl_arena arena;
    const hl_sheet *sheet;
    const hl_book *book;
    hl_finding *findings;
    size_t n_findings;
    size_t *first;     /* [n_steps + 1]: where each step's findings start */
    hl_tally *tallies; /* [n_steps] */
    hl_tally total;
    hl_diagnosed *diagnosed;
    size_t n_diagnosed;
    bool ready;
};

#endif
