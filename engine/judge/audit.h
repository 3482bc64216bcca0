/* audit.h - the verdicts of one sheet by one book (layer: judge; never sees Lua). */
#ifndef HL_AUDIT_H
#define HL_AUDIT_H

#include "arena.h"
#include "book.h"
#include "hammerline/audit.h"
#include "sheet.h"
#include "table.h"

struct hl_audit {
    hl_arena arena;
    hl_table table; /* how every step stands; the findings were written from it */
    const hl_sheet *sheet;
    const hl_book *book;
    hl_audit_options options;
    hl_finding *findings;
    size_t n_findings;
    size_t *first;     /* [n_steps + 1]: where each step's findings start */
    hl_tally *tallies; /* [n_steps] */
    hl_tally total;
    hl_gauge *gauges;
    size_t n_gauges;
    hl_repeat *repeats;
    size_t n_repeats;
    hl_people *people;
    size_t n_people;
    hl_sample *sample;         /* NULL: every note counts */
    struct hl_stratum *strata; /* that it was drawn from, [HL_STRATA_MOST] */
    hl_diagnosed *diagnosed;
    size_t n_diagnosed;
    hl_learned *learned;
    size_t n_learned;
    hl_presumed *presumed;
    size_t n_presumed;
    hl_implied *implied;
    size_t n_implied;
    bool ready;
};

/* The step that makes this one's reading mean nothing as long as it fails, or -1. */
int hl__audit_mask(const hl_table *table, int step, int note);
/* Who stands out from the neighbours, and what may give way; `tallies` has a place for each step. */
void hl__audit_neighbours(hl_table *table, hl_tally *tallies);

#endif
