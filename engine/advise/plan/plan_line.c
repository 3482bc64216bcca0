/* plan_line.c - targets on the straight line between regulated samples (layer: advise/plan).
 *
 * The line is drawn through (reading - aim), so that a graded target or one by colour keeps its own
 * shape; where the aim is the same all along, that is the line through the readings. */
#include "plan.h"

#include "errors.h"

static size_t find_place(const hl_planner *planner, int step, int note)
{
    return (size_t)step * ((size_t)planner->table.keys + 1) + (size_t)note;
}

const hl_target *hl__plan_on_line(const hl_planner *planner, int step, int note)
{
    if (!planner->lines)
        return NULL;
    const hl_target *target = &planner->lines[find_place(planner, step, note)];
    return target->has_low ? target : NULL;
}

/* Only a note that is in range can show the others the way; its evenness is theirs to make. */
static bool is_regulated_sample(const hl_planner *planner, int step, int note)
{
    const hl_standing s = hl__table_at(&planner->table, step, note);
    return hl__sheet_is_sample(planner->sheet, note) && s.has_value && !s.go &&
           (s.verdict == HL_PASS || s.why == HL_WHY_UNEVEN);
}

static hl_amount find_offset(const hl_planner *planner, int step, int note)
{
    return hl__table_at(&planner->table, step, note).value -
           hl__table_target(&planner->table, step, note)->aim;
}

/* As far from the line as from the neighbours; where evenness is not asked, half the target's width. */
static hl_amount find_width(const hl_step *step, const hl_target *target)
{
    if (step->even > 0)
        return step->even;
    if (target->has_low && target->has_high)
        return (target->high - target->low) / 2;
    hl_amount away = target->aim - (target->has_low ? target->low : target->high);
    hl_amount width = away < 0 ? -away : away;
    return width > step->resolution ? width : step->resolution;
}

static void set_target(const hl_planner *planner, int step, int note, hl_amount offset)
{
    const hl_step *s = &planner->book->steps[step];
    const hl_target *book = hl__table_target(&planner->table, step, note);
    hl_amount width = find_width(s, book);
    hl_target line = {.aim = book->aim + offset, .has_low = true, .has_high = true};
    if (s->resolution > 0)
        line.aim = hl__round_to(line.aim, s->resolution);
    line.low = line.aim - width;
    line.high = line.aim + width;
    if (book->has_low && line.low < book->low)
        line.low = book->low;
    if (book->has_high && line.high > book->high)
        line.high = book->high;
    planner->lines[find_place(planner, step, note)] = line;
}

static void draw_line(const hl_planner *planner, int step, int from, int to)
{
    hl_amount start = find_offset(planner, step, from), end = find_offset(planner, step, to);
    for (int note = from + 1; note < to; note++) {
        hl_verdict verdict = hl__table_at(&planner->table, step, note).verdict;
        if (verdict == HL_NOT_APPLICABLE)
            continue;
        double share = (double)(note - from) / (double)(to - from);
        double offset = (double)start + (double)(end - start) * share;
        set_target(planner, step, note, (hl_amount)(offset < 0 ? offset - 0.5 : offset + 0.5));
    }
}

hl_code hl__plan_line(hl_planner *planner, int step, hl_err *err)
{
    const hl_step *s = &planner->book->steps[step];
    int from = 0, n = 0;
    if (s->kind != HL_MEASURED || s->scope == HL_ONCE) {
        hl__fail(err, HL_E_USAGE, "no line can be drawn of '%s'", s->id);
        return hl__todo(err, "a line needs a step that is measured at the notes");
    }
    for (int note = 1; note <= planner->table.keys; note++) {
        if (!is_regulated_sample(planner, step, note))
            continue;
        bool together = from > 0 && (!s->breaks || hl__sheet_section(planner->sheet, from) ==
                                                       hl__sheet_section(planner->sheet, note));
        if (together) {
            draw_line(planner, step, from, note);
            n++;
        }
        from = note;
    }
    if (n > 0)
        return HL_OK;
    hl__fail(err, HL_E_SHEET, "no section has two samples of '%s' that pass", s->id);
    hl__at(err, planner->sheet->name, 0, 0);
    return hl__todo(err,
                    "regulate the end notes of a section and read them, or name them: \"# samples: A0 E2\"");
}

bool hl__plan_list_lines(hl_planner *planner)
{
    hl_plan *plan = planner->plan;
    size_t n = (size_t)planner->book->n_steps * ((size_t)planner->table.keys + 1);
    plan->lines = hl__arena_array(&plan->arena, n + 1, sizeof *plan->lines);
    if (!plan->lines)
        return false;
    for (int step = 0; planner->lines && step < planner->book->n_steps; step++) {
        for (int note = 1; note <= planner->table.keys; note++) {
            const hl_target *target = hl__plan_on_line(planner, step, note);
            if (!target || hl__table_at(&planner->table, step, note).go)
                continue;
            bool read = hl__table_at(&planner->settled, step, note).has_value;
            plan->lines[plan->n_lines++] = (hl_on_line){step, note, *target, read};
        }
    }
    return true;
}
