/* plan_look.c - looking at a finished plan (layer: advise/plan). */
#include "plan.h"

const char *hl_lack_name(hl_lack lack)
{
    static const char *const names[] = {
        [HL_LACK_UNMOVED] = "unmoved",   [HL_LACK_LEFT_OUT] = "left out", [HL_LACK_REACH] = "reach",
        [HL_LACK_CONFLICT] = "conflict", [HL_LACK_GRAIN] = "grain",       [HL_LACK_GEOMETRY] = "geometry",
        [HL_LACK_REFUSED] = "refused",
    };
    return names[lack];
}

bool hl_plan_idle(const hl_plan *plan)
{
    return plan->idle;
}

bool hl_plan_inspect_only(const hl_plan *plan)
{
    return plan->inspect_only;
}

const hl_plan_note *hl_plan_notes(const hl_plan *plan, int *n)
{
    *n = plan->n_notes;
    return plan->notes;
}

const hl_chore *hl_plan_chores(const hl_plan *plan, int *n)
{
    *n = plan->n_chores;
    return plan->chores;
}

const hl_part *hl_plan_parts(const hl_plan *plan, int *n)
{
    *n = plan->n_parts;
    return plan->parts;
}

const hl_on_line *hl_plan_lines(const hl_plan *plan, int *n)
{
    *n = plan->n_lines;
    return plan->lines;
}
