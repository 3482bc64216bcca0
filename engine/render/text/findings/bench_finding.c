/* bench_finding.c - one finding at a time, and the phrases of a prompt, for the bench (layer: render/text).
 *
 * The same sentences as the printed audit's, of a group with one member.  A person reads them at
 * arm's length with a tool in the hand: the verdict, the act, what follows. */
#include "groups.h"

#include "number.h"
#include "quantity.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

/* ---- the reading and its verdict --------------------------------------------------------------- */

static bool hides_side(const hl_finding *finding)
{
    const hl_target *target = &finding->target;
    const hl_amount value = finding->value, shown = hl__round_to(value, HL_ONE / 100);
    return (target->has_low && (value < target->low) != (shown < target->low)) ||
           (target->has_high && (value > target->high) != (shown > target->high));
}

static const char *name_gauge_side(hl_why why)
{
    return why == HL_WHY_LOW ? "under the gauge" : why == HL_WHY_HIGH ? "over the gauge" : "within the gauge";
}

static bool has_reading(const hl_finding *finding)
{
    return finding->verdict != HL_MISSING || finding->why == HL_WHY_OTHER_GAUGE || finding->has_value;
}

static void say_reading(hl_text *out, const hl_step *step, const hl_finding *finding)
{
    if (!has_reading(finding)) {
        hl__text_add(out, "not read");
    } else if (finding->go) {
        hl__text_add(out, name_gauge_side(finding->why));
    } else if (finding->has_value) {
        hl__text_add(out, finding->assumed ? "about " : "");
        if (hides_side(finding))
            hl__say_exact_span(out, finding->value, finding->value, step->unit);
        else
            hl__say_amount(out, finding->value, step->unit, step->resolution);
        hl__text_add(out, finding->computed ? " (computed)" : "");
    } else if (finding->word >= 0) {
        hl__text_safe(out, step->words[finding->word].word);
    } else if (step->kind == HL_JUDGED) {
        hl__text_add(out, "ok");
    }
}

static const char *name_why(const hl_finding *finding)
{
    switch (finding->why) {
    case HL_WHY_LOW:
        return ", low";
    case HL_WHY_HIGH:
        return ", high";
    case HL_WHY_UNEVEN:
        return ", uneven";
    case HL_WHY_DISAGREE:
        return ", another reading of this round differs";
    case HL_WHY_WORK:
        return ", it does not fit the work on record";
    case HL_WHY_VOIDED:
        return ", it counts only because another one was withdrawn";
    case HL_WHY_UNITS:
        return ", inches?";
    case HL_WHY_AS_FOUND:
        return ", read before the work";
    case HL_WHY_ACCEPTED:
        return " as it is";
    case HL_WHY_WITHDRAWN:
        return ", withdrawn";
    case HL_WHY_SKIPPED:
        return ", skipped";
    case HL_WHY_OTHER_GAUGE:
        return finding->verdict == HL_DOUBTFUL ? ", its gauge's limits are not stated or too wide"
                                               : ", another gauge than the book's";
    default:
        return finding->floated ? ", beyond its target but inside the float" : "";
    }
}

static void say_verdict(hl_text *out, const hl_step *step, const hl_finding *finding)
{
    say_reading(out, step, finding);
    if (finding->verdict != HL_MISSING || has_reading(finding))
        hl__text_printf(out, ": %s", hl_verdict_name(finding->verdict));
    hl__text_add(out, name_why(finding));
}

/* ---- what to do -------------------------------------------------------------------------------- */

/* A reading beside its limits says all there is; other faults need their words. */
static bool is_plain(const hl_finding *finding)
{
    return (finding->why == HL_WHY_LOW || finding->why == HL_WHY_HIGH) && finding->n_corrections > 0 &&
           !finding->model_differs;
}

static bool wants_advice(const hl_finding *finding)
{
    return finding->verdict == HL_FAIL || finding->verdict == HL_STALE || finding->verdict == HL_DOUBTFUL ||
           (finding->verdict == HL_MISSING && finding->why != HL_WHY_UNREAD &&
            finding->why != HL_WHY_WITHDRAWN) ||
           (finding->verdict == HL_PASS && finding->model_differs);
}

static void add_advice(hl_page *page, const hl_finding *finding)
{
    hl_text line = {0};
    const hl_finding *members[1] = {finding};
    const hl_group group = {members, 1};
    hl__group_act(page, &line, &group);
    hl__text_char(&line, '.');
    if (!is_plain(finding)) {
        hl_text reason = {0};
        hl__group_reason(page, &reason, &group);
        if (reason.size > 0) {
            hl__text_char(&line, ' ');
            hl__text_add(&line, reason.data);
        }
        line.failed |= reason.failed;
        hl__text_free(&reason);
    }
    hl__group_after(page, &line, &group);
    hl__page_add(page, &line, HL_INK_PLAIN, 2, 2);
}

static void add_query(hl_page *page, const hl_finding *finding, const char *before)
{
    hl_text line = {0};
    hl__text_safe(&line, before);
    hl__text_add(&line, before[0] ? " open query: \"" : "Open query: \"");
    hl__text_safe(&line, finding->remark);
    hl__text_char(&line, '"');
    hl__page_add(page, &line, HL_INK_BAD, 0, 2);
}

static void add_head(hl_page *page, const hl_step *step, const hl_finding *finding, const char *before)
{
    hl_text line = {0};
    hl__text_safe(&line, before);
    hl__text_add(&line, before[0] ? " " : "");
    say_verdict(&line, step, finding);
    if (finding->verdict == HL_FAIL && is_plain(finding)) {
        hl__text_add(&line, "; want ");
        hl__say_target(&line, &finding->target, step->unit, step->resolution);
    }
    hl__text_char(&line, '.');
    const hl_ink ink = finding->verdict == HL_FAIL   ? HL_INK_BAD
                       : finding->verdict == HL_PASS ? HL_INK_GOOD
                                                     : HL_INK_BOLD;
    hl__page_add(page, &line, ink, 0, 2);
}

hl_code hl_finding_text(char **out, size_t *size, const hl_audit *audit, const hl_finding *finding,
                        const char *before, const hl_print *print, hl_err *err)
{
    hl_text text = {0};
    hl_page page = {&text, audit, print->width > 0 ? print->width : 80, print->color};
    if (finding->step < 0) {
        add_query(&page, finding, before);
        return hl__text_take(&text, out, size, err);
    }
    add_head(&page, &audit->book->steps[finding->step], finding, before);
    if (wants_advice(finding))
        add_advice(&page, finding);
    return hl__text_take(&text, out, size, err);
}

/* ---- phrases ----------------------------------------------------------------------------------- */

/* A phrase is put on a line of somebody else's: its glue becomes plain blanks. */
static hl_code take_phrase(hl_text *text, char **out, size_t *size, hl_err *err)
{
    for (size_t i = 0; i < text->size; i++)
        if (text->data[i] == HL_GLUE)
            text->data[i] = ' ';
    return hl__text_take(text, out, size, err);
}

hl_code hl_reading_text(char **out, size_t *size, const hl_audit *audit, const hl_finding *finding,
                        hl_err *err)
{
    hl_text text = {0};
    if (finding->step < 0)
        hl__text_add(&text, "open query");
    else
        say_verdict(&text, &audit->book->steps[finding->step], finding);
    return take_phrase(&text, out, size, err);
}

hl_code hl_amount_text(char **out, size_t *size, const hl_audit *audit, int step_index, hl_amount value,
                       hl_err *err)
{
    hl_text text = {0};
    const hl_step *step = &audit->book->steps[step_index];
    const hl_amount shown = step->resolution > 0 ? hl__round_to(value, step->resolution) : value;
    hl__say_amount(&text, shown, step->unit, step->resolution);
    return take_phrase(&text, out, size, err);
}

hl_code hl_target_text(char **out, size_t *size, const hl_audit *audit, int step_index, int note, hl_err *err)
{
    hl_text text = {0};
    const hl_step *step = &audit->book->steps[step_index];
    if (step->kind == HL_JUDGED) {
        hl__text_add(&text, "ok");
        for (int i = 0; i < step->n_words; i++) {
            hl__text_add(&text, i == 0 ? ", or " : ", ");
            hl__text_safe(&text, step->words[i].word);
        }
    } else {
        const int pitch = note > 0 ? hl_note_pitch(audit->sheet->compass, note) : -1;
        hl__say_target(&text, hl__book_target(audit->book, step_index, pitch), step->unit, step->resolution);
    }
    return take_phrase(&text, out, size, err);
}

hl_code hl_adjustment_text(char **out, size_t *size, const hl_book *book, const hl_correction *correction,
                           hl_err *err)
{
    hl_text text = {0};
    const hl_adjuster *adjuster = &book->adjusters[correction->adjuster];
    hl__text_add(&text, correction->more ? adjuster->more : adjuster->less);
    if (correction->has_amount) {
        hl__text_char(&text, ' ');
        hl__text_amount(&text, correction->amount, adjuster->unit, 0, true);
    }
    return take_phrase(&text, out, size, err);
}

hl_code hl_paragraph_text(char **out, size_t *size, const char *text, int first, int hang,
                          const hl_print *print, hl_err *err)
{
    hl_text safe = {0}, page = {0};
    hl__text_safe(&safe, text);
    hl__wrap(&page, safe.data ? safe.data : "", print->width > 0 ? print->width : 80, first, hang);
    page.failed |= safe.failed;
    hl__text_free(&safe);
    return hl__text_take(&page, out, size, err);
}
