/* page.h - the printed audit: a page of text, and the parts that are put on it (layer: render/text).
 *
 * audit_page.c prints them in their order; each page_*.c file writes one part. */
#ifndef HL_PAGE_H
#define HL_PAGE_H

#include "audit.h"
#include "hammerline/print.h"
#include "text.h"

typedef struct hl_page {
    hl_text *out;
    const hl_audit *audit;
    int width;
    bool color;
} hl_page;

typedef enum hl_ink { HL_INK_PLAIN, HL_INK_BOLD, HL_INK_GOOD, HL_INK_BAD } hl_ink;

/* Wraps the paragraph onto the page and empties it for the next one. */
void hl__page_add(hl_page *page, hl_text *paragraph, hl_ink ink, int first, int hang);
/* ---- the page's parts -------------------------------------------------------------------------- */

/* Headline of one step that is not clean, and what is out in it. */
void hl__page_step(hl_page *page, int step);
/* What several readings together point to: ranked causes, each with its quick test. */
void hl__page_diagnoses(hl_page *page);
/* Which schools this book follows. */
void hl__page_choices(hl_page *page);
/* Which step this book lets give way, and how far it was needed. */
void hl__page_float(hl_page *page);
/* One line a step: how many pass, are out, are missing. */
void hl__page_tally(hl_page *page);
/* What this piano taught about its adjusters, and what it could not. */
void hl__page_learned(hl_page *page);
/* Which assumed fact the readings contradict, and what to write instead. */
void hl__page_implied(hl_page *page);
/* What "about" means here, and how to state the facts behind it. */
void hl__page_assumed(hl_page *page);

#endif
