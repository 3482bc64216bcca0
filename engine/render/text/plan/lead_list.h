/* lead_list.h - the leads of a plan: which notes want them, and what they come to (layer: render/text). */
#ifndef HL_LEAD_LIST_H
#define HL_LEAD_LIST_H

#include "audit.h"
#include "hammerline/print.h"
#include "plan_page.h"

/* The note's leads when its mean weight is out and the weights to compute with are known. */
bool hl__lead_wanted(const hl_audit *audit, int note, hl_leads *out);
/* "== Key leads ==": which piece, where, what follows; friction first where it is high. */
void hl__plan_page_leads(hl_plan_page *at);

#endif
