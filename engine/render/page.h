/* page.h - what the parts of the printed audit share (layer: render).
 *
 * text_audit.c owns the page; the other text_*.c files each write one part of it. */
#ifndef HL_PAGE_H
#define HL_PAGE_H

#include "audit.h"
#include "text.h"

typedef struct hl_page {
    hl_text *out;
    const hl_audit *audit;
    int width;
    bool color;
} hl_page;

/* Findings of one step that one line tells of, ascending notes. */
typedef struct hl_group {
    const hl_finding **members; /* at least one */
    int n;
} hl_group;

typedef enum hl_ink { HL_INK_PLAIN, HL_INK_BOLD, HL_INK_GOOD, HL_INK_BAD } hl_ink;

/* Wraps the paragraph onto the page and empties it for the next one. */
void hl__page_add(hl_page *page, hl_text *paragraph, hl_ink ink, int first, int hang);
/* The notes of some findings of one step, folded. */
void hl__page_notes(const hl_page *page, hl_text *out, const hl_finding *const *members, int n);

/* The parts of a group's line: what to do, why, and what follows from it. */
const hl_step *hl__group_step(const hl_page *page, const hl_group *of);
void hl__group_act(const hl_page *page, hl_text *out, const hl_group *of);
void hl__group_reason(const hl_page *page, hl_text *out, const hl_group *of);
void hl__group_after(const hl_page *page, hl_text *out, const hl_group *of);

/* Headline of one step that is not clean, and what is out in it. */
void hl__page_step(hl_page *page, int step);
bool hl__tally_clean(const hl_tally *tally);
/* Queries of the sheet that nobody closed; they count as fails of the total. */
int hl__count_queries(const hl_audit *audit);
/* One line a step: how many pass, are out, are missing. */
void hl__page_tally(hl_page *page);
/* What the mark "assumed" means here, and how to state the facts behind it. */
void hl__page_assumed(hl_page *page);

/* Findings that one line can tell of: same verdict, same fault, same correction. */
bool hl__findings_alike(const hl_finding *a, const hl_finding *b);

#endif
