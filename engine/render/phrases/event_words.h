/* event_words.h - one row of a sheet in words (layer: render/phrases). */
#ifndef HL_EVENT_WORDS_H
#define HL_EVENT_WORDS_H

#include "sheet.h"
#include "text.h"

/* "46.0 mm", "judged tight", "within the dip block". */
void hl__say_event(hl_text *out, const hl_sheet *sheet, const hl_event *event);
bool hl__is_reading(const hl_event *event);
/* "raise the capstan 1/4 turn"; without an amount or a way, what is known of the adjustment. */
void hl__say_adjustment(hl_text *out, const hl_sheet *sheet, const hl_event *event);

#endif
