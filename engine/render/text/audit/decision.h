/* decision.h - by which rule was judged, with which gauges, by whom, of how many notes (layer: render/text).
 */
#ifndef HL_DECISION_H
#define HL_DECISION_H

#include "hammerline/print.h"
#include "page.h"

/* The decision rule in one sentence, without a capital or a full stop. */
const char *hl__rule_sentence(hl_rule rule);
/* "95 %" */
void hl__say_percent(hl_text *out, hl_amount share);
/* "0 of 20 out: at 95 % at most 10 of 88 are out" */
void hl__say_sample(hl_text *out, const hl_sample *sample);

/* The answer of an audit by sample, where it is other than that of a whole one; false: it is not. */
bool hl__page_sample_answer(hl_page *page, hl_text *line);
/* The rule, a line; which notes to measure and what they show. */
void hl__page_rule(hl_page *page);
void hl__page_sample(hl_page *page);
/* Gauges and repeats, where the rule or the sheet asks for them; two people's readings. */
void hl__page_gauges(hl_page *page);
void hl__page_people(hl_page *page);

#endif
