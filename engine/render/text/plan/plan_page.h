/* plan_page.h - what the parts of the printed plan share (layer: render/text).
 *
 * text_plan.c owns the page; text_plan_work.c writes the work list, text_plan_rest.c what follows. */
#ifndef HL_PLAN_PAGE_H
#define HL_PLAN_PAGE_H

#include "hammerline/print.h"
#include "page.h"
#include "plan.h"

typedef struct hl_plan_page {
    hl_page page;
    const hl_plan *plan;
    int *notes; /* [keys + 1]: room for one list of notes */
} hl_plan_page;

/* "== Bench ==", with a blank line before it. */
void hl__plan_heading(hl_plan_page *at, const char *title);
/* Boxes to tick: "[ ] 40 C4  [ ] 42 D4". */
void hl__plan_boxes(hl_plan_page *at, const int *notes, int n);

/* The work in working order: by visit, by tool, by amount.  False = no memory. */
bool hl__plan_page_work(hl_plan_page *at);
int hl__plan_count_adjustments(const hl_plan *plan);
/* Targets on the line between samples. */
void hl__plan_page_lines(hl_plan_page *at);

void hl__plan_page_parts(hl_plan_page *at);
void hl__plan_page_unmet(hl_plan_page *at);
void hl__plan_page_waiting(hl_plan_page *at);
void hl__plan_page_again(hl_plan_page *at);
void hl__plan_page_foreseen(hl_plan_page *at);

#endif
