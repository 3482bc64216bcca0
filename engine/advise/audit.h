/* audit.h - one sheet by one book: the verdicts, and what to do about them (layer: advise). */
#ifndef HL_AUDIT_H
#define HL_AUDIT_H

#include "arena.h"
#include "book.h"
#include "gauges.h"
#include "hammerline/audit.h"
#include "judge.h"
#include "sampling.h"
#include "sheet.h"
#include "table.h"

/* Findings in the book's order, then along the compass; open queries behind them. */
typedef struct hl_findings {
    hl_finding *items;
    size_t n, room;
    size_t *first; /* [n_steps + 2]: where each step's findings start, and the queries */
} hl_findings;

struct hl_audit {
    hl_arena arena;
    hl_table table; /* how every step is; the findings were written from it */
    const hl_sheet *sheet;
    const hl_book *book;
    hl_audit_options options;
    hl_findings findings;
    hl_tally *tallies; /* [n_steps] */
    hl_tally total;
    hl_found found;
    hl_gauge_report gauges;
    hl_people *people;
    size_t n_people;
    hl_drawn drawn;
    hl_diagnosed *diagnosed;
    size_t n_diagnosed;
    hl_implied *implied;
    size_t n_implied;
    bool ready;
};

#endif
