/* verdict.c - one reading against one target (layer: table). */
#include "verdict.h"

#include "ascii.h"

hl_ruling hl__verdict_value(const hl_target *target, hl_amount value)
{
    if (target->has_low && value < target->low)
        return (hl_ruling){HL_FAIL, HL_WHY_LOW};
    if (target->has_high && value > target->high)
        return (hl_ruling){HL_FAIL, HL_WHY_HIGH};
    return (hl_ruling){HL_PASS, HL_WHY_NONE};
}

/* Of a value that lies near a limit, or near both. */
static hl_why find_near_limit(const hl_target *target, hl_amount value)
{
    if (!target->has_high)
        return HL_WHY_LOW;
    if (!target->has_low)
        return HL_WHY_HIGH;
    return value - target->low <= target->high - value ? HL_WHY_LOW : HL_WHY_HIGH;
}

hl_ruling hl__verdict_guarded(const hl_target *sure, const hl_target *possible, hl_amount value,
                              hl_amount guard)
{
    hl_target shrunk = *sure, widened = *possible;
    shrunk.low += guard;
    shrunk.high -= guard;
    widened.low -= guard;
    widened.high += guard;
    hl_ruling out = hl__verdict_value(&widened, value);
    if (out.verdict == HL_FAIL || hl__verdict_value(&shrunk, value).verdict == HL_PASS)
        return out;
    return (hl_ruling){HL_DOUBTFUL, find_near_limit(sure, value)};
}

/* Named at the reading, and another than the sheet's, or else the book's. */
static bool is_other_gauge(const hl_step *step, const hl_go_gauge *gauge, const char *method)
{
    const char *own = gauge->stated ? gauge->name : step->gauge_name;
    return own[0] != '\0' && method[0] != '\0' && !hl__same_word(own, method);
}

/* A gauge says something of the target only when everything that it lets pass lies inside it. */
static bool lies_inside(const hl_go_gauge *gauge, const hl_target *target)
{
    return gauge->stated && target != NULL && (!target->has_low || gauge->low >= target->low) &&
           (!target->has_high || gauge->high <= target->high);
}

hl_state hl__verdict_other(const hl_sheet *sheet, int index, const hl_target *target, const hl_event *event)
{
    const hl_step *step = &sheet->book->steps[index];
    const hl_go_gauge *gauge = &sheet->go_gauges[index];
    const bool go =
        event->kind == HL_EVENT_WITHIN || event->kind == HL_EVENT_OVER || event->kind == HL_EVENT_UNDER;
    if (event->kind == HL_EVENT_SKIP)
        return HL_STATE_MISSING_SKIPPED;
    if (!go || step->kind == HL_JUDGED)
        return HL_STATE_OTHER; /* not a reading of this kind of step: no reading, no pass */
    if (is_other_gauge(step, gauge, hl__text_at(sheet, event->method)))
        return HL_STATE_MISSING_GAUGE;
    return event->kind == HL_EVENT_OVER    ? HL_STATE_GO_HIGH
           : event->kind == HL_EVENT_UNDER ? HL_STATE_GO_LOW
           : lies_inside(gauge, target)    ? HL_STATE_GO
                                           : HL_STATE_DOUBT_GAUGE;
}

const char *hl_verdict_name(hl_verdict verdict)
{
    switch (verdict) {
    case HL_PASS:
        return "pass";
    case HL_FAIL:
        return "fail";
    case HL_DOUBTFUL:
        return "doubtful";
    case HL_STALE:
        return "stale";
    case HL_MISSING:
        return "missing";
    case HL_ACCEPTED:
        return "accepted";
    case HL_NOT_APPLICABLE:
        break;
    }
    return "not applicable";
}
