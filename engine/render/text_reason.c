/* text_reason.c - why a group of findings is out: what was read, and what was wanted (layer: render). */
#include "page.h"

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

static void add_values(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    hl_amount low = of->members[0]->value, high = low;
    for (int i = 1; i < of->n; i++) {
        const hl_amount value = of->members[i]->value;
        low = value < low ? value : low;
        high = value > high ? value : high;
    }
    hl__text_add(out, of->members[0]->computed ? "Comes to " : "Reads ");
    hl__say_span(out, low, high, step->unit, step->resolution);
}

static bool same_limits(const hl_target *a, const hl_target *b)
{
    return a->has_low == b->has_low && a->has_high == b->has_high && (!a->has_low || a->low == b->low) &&
           (!a->has_high || a->high == b->high);
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
        same = same && same_limits(&first->target, &of->members[i]->target);
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
        hl__text_add(out, finding->assumed ? " (computed, assumed)" : " (computed)");
    if (finding->why == HL_WHY_UNEVEN) {
        add_uneven(page, out, of);
        return;
    }
    hl__text_add(out, finding->go ? "" : finding->why == HL_WHY_LOW ? ", low" : ", high");
    add_target(page, out, of);
}

static void add_stale_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_step *step = hl__group_step(page, of);
    const hl_finding *finding = of->members[0];
    if (finding->has_value) {
        add_values(page, out, of);
        hl__text_add(out, ", but that was ");
    } else {
        hl__text_add(out, "That was ");
    }
    hl__text_add(out, "before an adjustment that moves it");
    if (of->n == 1 && finding->shift != 0) {
        hl__text_add(out, finding->shift < 0 ? ", down by about " : ", up by about ");
        hl__say_amount(out, finding->shift < 0 ? -finding->shift : finding->shift, step->unit,
                       step->resolution);
    }
    hl__text_char(out, '.');
}

void hl__group_reason(const hl_page *page, hl_text *out, const hl_group *of)
{
    const hl_finding *finding = of->members[0];
    const hl_step *step = hl__group_step(page, of);
    if (finding->verdict == HL_FAIL) {
        add_failing_reason(page, out, of);
    } else if (finding->verdict == HL_STALE) {
        add_stale_reason(page, out, of);
    } else if (finding->verdict == HL_DOUBTFUL && finding->has_value) {
        add_values(page, out, of);
        hl__text_add(out, ", too near a limit for a gauge that is good to ");
        hl__say_amount(out, step->gauge, step->unit, 0);
        add_target(page, out, of);
    } else if (finding->why == HL_WHY_SKIPPED) {
        add_quoted(out, "The remark says", finding->remark);
    } else if (finding->why == HL_WHY_OTHER_GAUGE && step->gauge_name[0]) {
        add_quoted(out, "The book asks for", step->gauge_name);
    }
}
