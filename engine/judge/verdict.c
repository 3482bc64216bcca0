/* verdict.c - one reading against one target (layer: judge). */
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

/* A gauge that is not this step's says nothing of its target, either way. */
static hl_ruling judge_gauge(const hl_step *step, const hl_event *event)
{
    if (*step->gauge_name && *event->method && !hl__same_word(step->gauge_name, event->method))
        return (hl_ruling){HL_MISSING, HL_WHY_OTHER_GAUGE};
    if (event->kind == HL_EVENT_OVER)
        return (hl_ruling){HL_FAIL, HL_WHY_HIGH};
    if (event->kind == HL_EVENT_UNDER)
        return (hl_ruling){HL_FAIL, HL_WHY_LOW};
    return (hl_ruling){HL_PASS, HL_WHY_NONE};
}

hl_ruling hl__verdict_event(const hl_step *step, const hl_target *target, const hl_event *event)
{
    bool judged = step->kind == HL_JUDGED;
    switch (event->kind) {
    case HL_EVENT_VALUE:
        if (!judged)
            return hl__verdict_value(target, event->amount);
        break;
    case HL_EVENT_WORD:
        if (judged && event->word < 0)
            return (hl_ruling){HL_PASS, HL_WHY_NONE};
        if (judged && event->word < step->n_words)
            return (hl_ruling){HL_FAIL, HL_WHY_WORD};
        break;
    case HL_EVENT_WITHIN:
    case HL_EVENT_OVER:
    case HL_EVENT_UNDER:
        if (!judged)
            return judge_gauge(step, event);
        break;
    case HL_EVENT_SKIP:
        return (hl_ruling){HL_MISSING, HL_WHY_SKIPPED};
    case HL_EVENT_VOID:
        return (hl_ruling){HL_MISSING, HL_WHY_WITHDRAWN};
    case HL_EVENT_ADJUSTMENT:
    case HL_EVENT_QUERY:
    case HL_EVENT_PASS:
    case HL_EVENT_FACT:
        break;
    }
    /* Not a reading of this kind of step: no reading, no pass. */
    return (hl_ruling){HL_MISSING, HL_WHY_UNREAD};
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
    case HL_NOT_APPLICABLE:
        break;
    }
    return "not applicable";
}
