/* event_words.c - one row of a sheet in words (layer: render/phrases). */
#include "event_words.h"

#include "hammerline/audit.h"
#include "sentence.h"

bool hl__is_reading(const hl_event *event)
{
    return event->kind == HL_EVENT_VALUE || event->kind == HL_EVENT_WORD || event->kind == HL_EVENT_WITHIN ||
           event->kind == HL_EVENT_OVER || event->kind == HL_EVENT_UNDER;
}

void hl__say_event(hl_text *out, const hl_sheet *sheet, const hl_event *event)
{
    const hl_step *step = &sheet->book->steps[event->step];
    switch ((hl_event_kind)event->kind) {
    case HL_EVENT_VALUE:
        hl__say_amount(out, event->amount, step->unit, step->resolution);
        return;
    case HL_EVENT_WORD:
        hl__text_safe(out, event->word < 0 ? "ok" : step->words[event->word].word);
        return;
    case HL_EVENT_WITHIN:
        hl__text_add(out, "within");
        break;
    case HL_EVENT_OVER:
        hl__text_add(out, "over");
        break;
    case HL_EVENT_UNDER:
        hl__text_add(out, "under");
        break;
    default:
        return;
    }
    hl__text_add(out, " the gauge");
    if (event->method != 0) {
        hl__text_char(out, ' ');
        hl__text_safe(out, hl__text_at(sheet, event->method));
    }
}

void hl__say_adjustment(hl_text *out, const hl_sheet *sheet, const hl_event *event)
{
    const hl_adjuster *adjuster = &sheet->book->adjusters[event->step];
    if (event->no_amount && event->word == 0) {
        hl__text_safe(out, adjuster->title);
        hl__text_add(out, " adjusted, not said how far");
        return;
    }
    const bool more = event->no_amount ? event->word > 0 : event->amount >= 0;
    const hl_correction done = {.more = more,
                                .has_amount = !event->no_amount,
                                .amount = event->amount < 0 ? -event->amount : event->amount};
    if (adjuster->n_sizes == 0 || event->no_amount) {
        hl__say_act(out, adjuster, &done);
        return;
    }
    /* Which pieces made it up was not written down; how thick they were was. */
    hl__text_safe(out, more ? adjuster->more : adjuster->less);
    hl__text_char(out, ' ');
    hl__say_size(out, done.amount, adjuster->unit);
    hl__text_add(out, " of ");
    hl__text_safe(out, adjuster->title);
}
