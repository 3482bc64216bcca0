/* group_act.c - what to do about a group of findings: the first words of its line (layer: render/text). */
#include "groups.h"

#include "sentence.h"

static void add_correcting_act(const hl_page *page, hl_text *out, const hl_finding *finding)
{
    const hl_correction *correction = &finding->corrections[0];
    hl_text act = {0};
    hl__say_act(&act, &page->audit->book->adjusters[correction->adjuster], correction);
    if (correction->learned)
        hl__text_add(&act, " (learned here)");
    out->failed |= act.failed;
    hl__say_capital(out, act.data ? act.data : "");
    hl__text_free(&act);
}

const hl_step *hl__group_mask(const hl_page *page, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    const hl_audit *audit = page->audit;
    const int mask = finding->step < 0 ? -1 : hl__judge_mask(&audit->table, finding->step, finding->note);
    return mask < 0 ? NULL : &audit->book->steps[mask];
}

/* What has to be right first; a computed one that can't be computed yet wants its own readings. */
static void add_mask_first(const hl_page *page, hl_text *out, const hl_group *of, const hl_step *mask)
{
    const hl_table *table = &page->audit->table;
    int lacking[HL_FORMULA_VARS], n = 0;
    for (int i = 0; mask->kind == HL_DERIVED && mask->formula && i < mask->formula->n_vars; i++) {
        const hl_var *var = &mask->formula->vars[i];
        if (var->kind == HL_VAR_STEP && !hl__table_at(table, var->index, of->members[0]->note).has_value)
            lacking[n++] = var->index;
    }
    hl__text_add(out, n > 0 ? "Read " : "");
    if (n > 0)
        hl__say_titles(out, page->audit->book, lacking, n);
    else
        hl__text_safe(out, mask->title);
    hl__text_add(out, " first");
}

static void add_words_own_act(hl_text *out, const char *todo)
{
    hl_text act = {0};
    hl__text_safe(&act, todo);
    while (act.size > 0 && act.data[act.size - 1] == '.')
        act.data[--act.size] = '\0';
    out->failed |= act.failed;
    hl__say_capital(out, act.data ? act.data : "");
    hl__text_free(&act);
}

/* What cures the step moves all notes, and most of them are right: it is not for this one. */
static bool is_not_for_one(const hl_book *book, const hl_step *step, const hl_finding *finding)
{
    for (int i = 0; i < step->n_fixes; i++)
        if (!book->adjusters[step->fixes[i]].whole)
            return false;
    return step->n_fixes > 0 && finding->note > 0;
}

static void add_failing_act(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    const hl_step *step = hl__group_step(page, of);
    if (finding->n_corrections > 0 && finding->corrections[0].beyond_reach) {
        hl__text_add(out, "Read again, then look for another cause");
        return;
    }
    if (finding->n_corrections > 0) {
        add_correcting_act(page, out, finding);
        return;
    }
    const hl_step *mask = hl__group_mask(page, of);
    if (mask) {
        add_mask_first(page, out, of, mask);
    } else if (finding->follows || finding->hangs) {
        hl__text_safe(out, page->audit->book->steps[finding->follows_step].title);
        hl__text_add(out, " first");
    } else if (hl_finding_todo(page->audit->book, finding)[0]) {
        add_words_own_act(out, hl_finding_todo(page->audit->book, finding));
    } else if (is_not_for_one(page->audit->book, step, finding)) {
        hl__text_add(out, "Find this note's own cause (the ");
        hl__text_safe(out, page->audit->book->adjusters[step->fixes[0]].title);
        hl__text_add(out, " moves all notes)");
    } else if (step->n_fixes > 0) {
        hl__text_add(out, "Adjust the ");
        hl__text_safe(out, page->audit->book->adjusters[step->fixes[0]].title);
        hl__text_add(out, " by feel and read again");
    } else {
        hl__text_add(out, "Out, and the book names nothing to adjust");
    }
}

static const char *act_of_missing(const hl_step *step, hl_why why)
{
    switch (why) {
    case HL_WHY_WITHDRAWN:
        return "Read again, the reading was withdrawn";
    case HL_WHY_SKIPPED:
        return "Skipped at the bench";
    case HL_WHY_OTHER_GAUGE:
        return "Read again with this step's own gauge";
    default:
        return step->kind == HL_JUDGED ? "Not judged" : "Not measured";
    }
}

/* What answers a doubt that no gauge makes; NULL for the others. */
static const char *act_of_doubt(hl_why why)
{
    switch (why) {
    case HL_WHY_DISAGREE:
        return "Read a third time: two readings of one round differ";
    case HL_WHY_WORK:
        return "Read again: it does not fit the work on record";
    case HL_WHY_VOIDED:
        return "Read again: it counts only because another reading was withdrawn";
    case HL_WHY_UNITS:
        return "Say the unit: it looks like inches, and the step is in millimetres";
    default:
        return NULL;
    }
}

/* A derived step is read by what it is computed from. */
static void add_gauge_act(hl_text *out, const hl_step *step)
{
    if (step->kind == HL_DERIVED)
        hl__text_add(out, "Read what it is computed from by number: the gauges leave it open");
    else
        hl__text_printf(
            out,
            "Read by number, or write above the heads which gauge says so: # go gauge %s: NAME, LOW-HIGH %s",
            step->id, hl_unit_name(step->unit));
}

void hl__group_act(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    if (finding->verdict == HL_PASS)
        hl__text_add(out, "Passes, but read again"); /* it does not fit its model */
    else if (finding->verdict == HL_FAIL)
        add_failing_act(page, out, of);
    else if (finding->verdict == HL_STALE)
        hl__text_add(out, "Read again");
    else if (finding->verdict == HL_ACCEPTED)
        hl__text_add(out, "Accepted as it is");
    else if (finding->verdict == HL_DOUBTFUL && act_of_doubt(finding->why))
        hl__text_add(out, act_of_doubt(finding->why));
    else if (finding->verdict == HL_DOUBTFUL && (finding->go || !finding->has_value))
        add_gauge_act(out, hl__group_step(page, of));
    else if (finding->verdict == HL_DOUBTFUL)
        hl__text_add(out, finding->computed ? "Read what it is computed from with finer gauges"
                                            : "Read again with a finer gauge, or bring it well inside");
    else
        hl__text_add(out, act_of_missing(hl__group_step(page, of), finding->why));
}
