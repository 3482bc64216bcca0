/* page_sample.c - the decision rule, and what a sample shows of all the notes (layer: render/text). */
#include "decision.h"

#include "groups.h"
#include "notes.h"
#include "number.h"
#include "wrap.h"

const char *hl__rule_sentence(hl_rule rule)
{
    return rule == HL_RULE_GUARDED
               ? "guarded: a value passes only inside its limits shrunk by its uncertainty, fails only "
                 "outside them widened by it, and is doubtful between"
               : "simple: on a limit or inside it passes; gauges are left out of account";
}

void hl__page_rule(hl_page *page)
{
    hl_text line = {0};
    hl__text_add(&line, "Rule: ");
    hl__text_add(&line, hl__rule_sentence(page->audit->options.rule));
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 7);
}

void hl__say_percent(hl_text *out, hl_amount share)
{
    hl__text_exact(out, share * 100);
    hl__text_add(out, " %");
}

void hl__say_sample(hl_text *out, const hl_sample *sample)
{
    hl__text_printf(out, "%d of %d out: at ", sample->out, sample->n);
    hl__say_percent(out, sample->confidence);
    hl__text_printf(out, " at most %d of %d are out", sample->at_most, sample->population);
}

/* ---- the answer ------------------------------------------------------------------------------ */

bool hl__page_sample_answer(hl_page *page, hl_text *line)
{
    const hl_audit *audit = page->audit;
    const hl_sample *sample = audit->drawn.sample;
    if (!sample)
        return false;
    if (audit->ready) {
        hl__text_add(line, "Ready by sample: ");
        hl__say_sample(line, sample);
        hl__text_char(line, '.');
        hl__page_add(page, line, HL_INK_GOOD, 0, 2);
        return true;
    }
    if (!hl__tally_clean(&audit->total) || audit->sheet->n_errors > 0 || !sample->concluded ||
        audit->total.count[HL_PASS] == 0)
        return false;
    if (!sample->has_asked) {
        hl__text_add(line, "Not decided: ");
        hl__say_sample(line, sample);
        hl__text_add(line, "; say --at-most K if so many would do.");
        hl__page_add(page, line, HL_INK_BAD, 0, 2);
        return true;
    }
    hl__text_printf(
        line, "Not ready: by this sample as many as %d of %d notes may be out; asked was for at most %d.",
        sample->at_most, sample->population, sample->asked);
    hl__page_add(page, line, HL_INK_BAD, 0, 2);
    return true;
}

hl_code hl_samples_text(char **out, size_t *size, const hl_samples *samples, const hl_print *print,
                        hl_err *err)
{
    hl_sample total = samples->total;
    hl_text text = {0}, line = {0};
    *out = NULL;
    total.at_most = hl_samples_at_most(samples);
    hl__text_printf(&line, "All %d sheets together: ", samples->n_audits);
    if (total.concluded)
        hl__say_sample(&line, &total);
    else
        hl__text_printf(&line, "%d of %d sample notes are open, so nothing is concluded", total.open,
                        total.n);
    hl__text_char(&line, '.');
    hl__wrap(&text, line.data ? line.data : "", print && print->width > 0 ? print->width : 80, 0, 2);
    text.failed |= line.failed;
    hl__text_free(&line);
    return hl__text_take(&text, out, size, err);
}

/* ---- the section ----------------------------------------------------------------------------- */

static void print_notes(hl_page *page)
{
    const hl_sample *sample = page->audit->drawn.sample;
    hl_text line = {0};
    hl__text_printf(&line, "Measure these %d of the %d notes, spread over sections and colours, drawn by ",
                    sample->n, sample->population);
    hl__text_printf(&line, "seed %llu: ", (unsigned long long)sample->seed);
    for (int i = 0; i < sample->n; i++) {
        hl__text_add(&line, i > 0 ? " " : "");
        hl__text_add(&line, hl_pitch_name(hl_note_pitch(page->audit->sheet->compass, sample->notes[i])));
    }
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
}

static void print_open(hl_page *page)
{
    const hl_sample *sample = page->audit->drawn.sample;
    hl_text line = {0};
    hl__text_printf(&line,
                    "%d of them %s still open, so nothing can be said of the others yet. Take none out "
                    "because it looks bad, and put none in: then it is no sample.",
                    sample->open, sample->open == 1 ? "is" : "are");
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
}

static void print_conclusion(hl_page *page)
{
    const hl_sample *sample = page->audit->drawn.sample;
    hl_text line = {0};
    hl__say_sample(&line, sample);
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_BOLD, 0, 2);
    if (sample->known_out > sample->out) {
        hl__text_printf(&line, "%d more %s out among the notes beside the sample.",
                        sample->known_out - sample->out, sample->known_out - sample->out == 1 ? "is" : "are");
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    if (sample->has_asked) {
        hl__text_printf(&line, "Asked was for at most %d: %s.", sample->asked,
                        sample->at_most <= sample->asked
                            ? "that is shown"
                            : "that is not shown; mend what is out, or measure a larger sample");
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
}

void hl__page_sample(hl_page *page)
{
    const hl_sample *sample = page->audit->drawn.sample;
    hl_text line = {0};
    if (!sample)
        return;
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== Sample ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    print_notes(page);
    if (sample->concluded)
        print_conclusion(page);
    else
        print_open(page);
    if (sample->n < sample->population) {
        hl__text_add(&line, "The other notes were not asked for: a missing reading there is not counted, and "
                            "no single one of them is shown to be good.");
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
}
