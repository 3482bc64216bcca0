/* judge.h - one pass over a sheet: verdicts, evenness, staleness, readiness (layer: judge).
 *
 * One sheet or a hundred thousand go the same way. */
#ifndef HL_JUDGE_H
#define HL_JUDGE_H

#include "hammerline/audit.h"
#include "table.h"

/* What was found on the way about the instrument and its keeper's notes; memory is the table's arena. */
typedef struct hl_found {
    hl_learned *learned; /* effects that this piano taught */
    size_t n_learned;
    hl_presumed *presumed; /* adjustments that nobody wrote down */
    size_t n_presumed;
} hl_found;

/* A head with its effects worked out.  NULL for want of memory. */
hl_head *hl__judge_head(hl_arena *arena, const hl_sheet *sheet, const unsigned char *sampled);
/* Judge a sheet that was read; the table was made for its head.  False = no memory. */
bool hl__judge(hl_table *table, const hl_sheet *sheet, hl_found *found);
/* The sum of all steps' counts, and `open` queries, which count as fails. */
void hl__judge_total(const hl_table *table, int open, int total[HL_VERDICTS]);
/* Every finding but a pass keeps the job open, optional steps too: a fault that was seen is a fault.  A sheet
 * on which nothing passed has shown nothing. */
bool hl__judge_ready(const int total[HL_VERDICTS], size_t n_errors);
/* Does anything of the book apply to the sheet?  Else there is nothing to judge. */
bool hl__judge_has_work(const int total[HL_VERDICTS]);
/* The queries that are still open: calls `take` with each event; returns how many.  `take` may be NULL. */
int hl__judge_queries(const hl_sheet *sheet, void (*take)(void *context, const hl_event *event),
                      void *context);
/* The step that makes this one's reading mean nothing as long as it fails, or -1. */
int hl__judge_mask(const hl_table *table, int step, int note);

#endif
