/* group_reason.c - why a group of findings is out: what was read, and what was wanted (layer: render/text).
 */
#include "groups.h"

#include "leaf.h"
#include "number.h"
#include "sentence.h"

static void add_quoted(hl_text *out, const char *before, const char *text)
{
    if (!text[0])
        return;
    hl__text_add(out, before);
    hl__text_add(out, " \"");
    hl__text_safe(out, text);
    hl__text_add(out, "\".");
}

/* ---- what the numbers of a group run from and to ----------------------------------------------- */

static hl_amount take_value(const hl_finding *finding)
{
    return finding->value;
}

static hl_amount take_expected(const hl_finding *finding)
{
    return finding->value + finding->shift;
}

static hl_amount take_model(const hl_finding *finding)
{
    return finding->model;
}

static hl_amount take_following(const hl_finding *finding)
{
    return finding->follows_predicted;
}

/* Two decimals tell a reading, unless they would put it on the other side of a limit. */
static bool misleads(const hl_finding *finding)
{
    const hl_target *target = &finding->target;
    const hl_amount value = finding->value, shown = hl__round_to(value, HL_ONE / 100);
    return (target->has_low && (value < target->low) != (shown < target->low)) ||
           (target->has_high && (value > target->high) != (shown > target->high));
}

static void add_values(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    hl_amount low, high;
    bool misleading = false;
    hl__group_span(of, take_value, &low, &high);
    for (int i = 0; i < of->n; i++)
        misleading = misleading || misleads(of->members[i]);
    hl__text_add(out, of->members[0]->computed ? "Comes to " : "Reads ");
    hl__text_add(out, of->members[0]->assumed ? "about " : "");
    if (misleading)
        hl__say_exact_span(out, low, high, step->unit);
    else
        hl__say_span(out, low, high, step->unit, step->resolution);
}

static void add_target_at(const hl_page *page, hl_text *out, const hl_step *step, const hl_finding *finding)
{
    hl__say_target(out, &finding->target, step->unit, step->resolution);
    hl__text_add(out, " at ");
    hl__page_notes(page, out, &finding, 1);
}

/* One target when they all share it, else those of the outermost notes. */
static void add_target(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    const hl_finding *first = of->members[0], *last = of->members[of->n - 1];
    bool same = true;
    for (int i = 1; i < of->n; i++)
        same = same && hl__same_limits(&first->target, &of->members[i]->target);
    hl__text_add(out, "; want ");
    if (same) {
        hl__say_target(out, &first->target, step->unit, step->resolution);
    } else {
        add_target_at(page, out, step, first);
        hl__text_add(out, " to ");
        add_target_at(page, out, step, last);
    }
    hl__text_char(out, '.');
}

static void add_uneven(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    hl_amount most = 0;
    for (int i = 0; i < of->n; i++) {
        const hl_amount shift = of->members[i]->shift;
        const hl_amount size = shift < 0 ? -shift : shift;
        most = size > most ? size : most;
    }
    hl__text_add(out, ", in range but ");
    hl__text_add(out, of->n > 1 ? "up to " : "");
    hl__say_amount(out, most, step->unit, step->resolution);
    hl__text_add(out, of->members[0]->shift < 0 ? " below" : " above");
    hl__text_add(out, " the neighbours; want within ");
    hl__say_amount(out, step->even, step->unit, step->resolution);
    hl__text_add(out, " of them.");
}

static void add_gauge_reason(hl_text *out, const hl_step *step, hl_why why)
{
    hl__text_add(out, why == HL_WHY_LOW ? "Under" : why == HL_WHY_HIGH ? "Over" : "Outside");
    hl__text_add(out, " the gauge");
    if (step->gauge_name[0]) {
        hl__text_char(out, ' ');
        hl__text_safe(out, step->gauge_name);
    }
}

static void add_failing_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    const hl_finding *finding = of->members[0];
    if (finding->word >= 0) {
        if (finding->n_corrections > 0)
            hl__say_instruction(out, hl_finding_todo(page->audit->book, finding));
        hl__text_add(out, "Judged \"");
        hl__text_safe(out, step->words[finding->word].word);
        hl__text_add(out, step->words[finding->word].means[0] ? "\": " : "\"");
        hl__text_safe(out, step->words[finding->word].means);
        hl__text_char(out, '.');
        return;
    }
    if (finding->go)
        add_gauge_reason(out, step, finding->why);
    else if (finding->has_value)
        add_values(page, out, of);
    if (finding->computed)
        hl__text_add(out, " (computed)");
    if (finding->why == HL_WHY_UNEVEN) {
        add_uneven(page, out, of);
        return;
    }
    hl__text_add(out, finding->go ? "" : finding->why == HL_WHY_LOW ? ", low" : ", high");
    add_target(page, out, of);
}

/* What the readings should be by now, where that is known. */
static void add_expected(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    hl_amount low, high;
    hl__group_span(of, take_expected, &low, &high);
    const hl_amount grain = step->resolution;
    hl__text_add(out, ": expect ");
    hl__say_span(out, hl__round_to(low, grain), hl__round_to(high, grain), step->unit, grain);
}

/* Nothing is on record, so it is said what gave the adjustment away. */
static void add_presumed_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    const hl_book *book = page->audit->book;
    if (finding->has_value) {
        add_values(page, out, of);
        hl__text_add(out, ", but ");
    }
    hl__text_safe(out, book->steps[finding->presumed_step].title);
    hl__text_add(out, " has changed since with no work on record: presumed that somebody adjusted the ");
    hl__text_safe(out, book->adjusters[finding->presumed_adjuster].title);
    if (finding->has_value && finding->shift != 0)
        add_expected(page, out, of);
    hl__text_char(out, '.');
}

static void add_stale_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    hl_works works;
    if (finding->presumed) {
        add_presumed_reason(page, out, of);
        return;
    }
    hl__works_since(&works, page->audit, finding);
    if (finding->has_value) {
        add_values(page, out, of);
        hl__text_add(out, finding->computed ? ", from readings before " : ", but that was before ");
    } else {
        hl__text_add(out, "That was before ");
    }
    hl__say_works(out, page->audit->book, &works);
    if (finding->has_value && works.known && finding->shift != 0)
        add_expected(page, out, of);
    hl__text_char(out, '.');
}

/* Two ways to the same number that don't agree: the reading is the one to repeat. */
static void add_model_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    hl_amount low, high;
    hl__group_span(of, take_model, &low, &high);
    if (of->members[0]->verdict == HL_PASS) {
        add_values(page, out, of);
        hl__text_add(out, ", but ");
    } else {
        hl__text_add(out, " But ");
    }
    hl__say_inputs(out, page->audit->book, step);
    hl__text_add(out, of->members[0]->model_assumed ? " give about " : " give ");
    hl__say_span(out, low, high, step->unit, step->resolution);
    hl__text_add(out, of->members[0]->verdict == HL_PASS ? "." : ": read it again first.");
}

/* A fault that comes from another: the other cured, this one should be gone. */
static void add_following(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    hl_amount low, high;
    hl__group_span(of, take_following, &low, &high);
    hl__text_add(out, " That brings this to ");
    hl__say_span(out, low, high, step->unit, step->resolution);
    hl__text_add(out, ". Then read it again.");
}

/* A fault in name only, as long as what it is computed from is wrong. */
static void add_hanging(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_book *book = page->audit->book;
    hl__text_add(out, " It is computed from ");
    hl__text_safe(out, book->steps[of->members[0]->follows_step].title);
    hl__text_add(out, ", which is out: no fault of its own yet.");
}

static hl_amount take_guard(const hl_finding *finding)
{
    return finding->guard;
}

static void add_guards(hl_text *out, const hl_group *of, const hl_step *step)
{
    hl_amount low, high;
    hl__group_span(of, take_guard, &low, &high);
    if (of->members[0]->computed)
        hl__say_span(out, low, high, step->unit, 0);
    else /* a gauge stated in inches has more digits, and a reading may lie just past the first ones */
        hl__say_exact_span(out, low, high, step->unit);
}

static bool is_answered_by_confirm(hl_why why)
{
    return why == HL_WHY_DISAGREE || why == HL_WHY_WORK || why == HL_WHY_VOIDED || why == HL_WHY_UNITS;
}

void hl__group_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    const hl_step *step = hl__group_step(page, of);
    if (finding->verdict == HL_PASS) {
        add_model_reason(page, out, of);
    } else if (finding->verdict == HL_FAIL) {
        add_failing_reason(page, out, of);
        if (finding->n_corrections == 0 && hl__group_mask(page, of))
            hl__text_add(out, " Then read it again.");
        else if (finding->follows)
            add_following(page, out, of);
        else if (finding->hangs)
            add_hanging(page, out, of);
        if (finding->model_differs)
            add_model_reason(page, out, of);
    } else if (finding->why == HL_WHY_AS_FOUND) {
        hl__text_add(out, "It was read before the work began.");
    } else if (finding->verdict == HL_STALE) {
        add_stale_reason(page, out, of);
    } else if (finding->verdict == HL_ACCEPTED) {
        add_quoted(out, "The remark says", finding->remark);
    } else if (is_answered_by_confirm(finding->why)) {
        add_values(page, out, of);
        hl__text_add(out, ". If it is right as it is, say so in a row: ");
        hl__text_printf(
            out, "%s,confirm,%s, with who and why",
            finding->note > 0 ? hl_pitch_name(hl_note_pitch(page->audit->sheet->compass, finding->note)) : "",
            step->id);
        hl__text_char(out, '.');
    } else if (finding->verdict == HL_DOUBTFUL && finding->has_value) {
        add_values(page, out, of);
        hl__text_add(out, ", too near a limit to tell when it is known to ");
        add_guards(out, of, step);
        add_target(page, out, of);
    } else if (finding->why == HL_WHY_SKIPPED) {
        add_quoted(out, "The remark says", finding->remark);
    } else if (finding->verdict == HL_MISSING && finding->why == HL_WHY_OTHER_GAUGE && step->gauge_name[0]) {
        add_quoted(out, "The book asks for", step->gauge_name);
    }
}
