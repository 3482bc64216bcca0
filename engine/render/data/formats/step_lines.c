/* step_lines.c - an audit as a list of steps that are right or not, for formats of tests (layer:
 * render/data). */
#include "step_lines.h"

#include "groups.h"
#include "hammerline/print.h"
#include "subject.h"

static bool is_wrong(hl_verdict verdict)
{
    return verdict != HL_PASS && verdict != HL_NOT_APPLICABLE;
}

bool hl__step_asked(const hl_audit *audit, int step)
{
    const int *count = audit->tallies[step].count;
    return count[HL_PASS] > 0 || !hl__tally_clean(&audit->tallies[step]);
}

bool hl__step_right(const hl_audit *audit, int step)
{
    return hl__tally_clean(&audit->tallies[step]);
}

void hl__step_counts(hl_text *out, const int count[HL_VERDICTS])
{
    const char *between = "";
    for (int i = 0; i < HL_VERDICTS; i++) {
        if (!is_wrong((hl_verdict)i) || count[i] == 0)
            continue;
        hl__text_printf(out, "%s%d %s", between, count[i], hl_verdict_name((hl_verdict)i));
        between = ", ";
    }
}

int hl__open_queries(const hl_audit *audit)
{
    return hl__count_queries(audit);
}

/* "C4: 49.0 mm: fail, high (sheet.csv:12)" */
static void add_line(hl_text *out, const hl_audit *audit, const hl_finding *finding)
{
    char *reading = NULL;
    size_t size = 0;
    hl_err err;
    const int note = finding->note;
    hl__text_add(out,
                 note > 0 ? hl_pitch_name(hl_note_pitch(audit->sheet->compass, note)) : "the instrument");
    hl__text_add(out, ": ");
    if (finding->step < 0) {
        hl__text_add(out, "query: ");
        hl__text_safe(out, finding->remark);
    } else if (hl_reading_text(&reading, &size, audit, finding, &err) == HL_OK) {
        hl__text_add(out, reading);
    } else {
        out->failed = true;
    }
    hl_free(reading);
    if (finding->line == 0)
        return;
    hl__text_add(out, " (");
    hl__text_safe(out, audit->sheet->name);
    hl__text_printf(out, ":%d)", finding->line);
}

void hl__step_lines(hl_text *out, const hl_audit *audit, int step, hl_line_taker *take, void *context)
{
    const int at = step < 0 ? audit->book->n_steps : step;
    const size_t end = step < 0 ? audit->findings.n : audit->findings.first[at + 1];
    for (size_t i = audit->findings.first[at]; i < end; i++) {
        hl_text line = {0};
        if (!is_wrong(audit->findings.items[i].verdict))
            continue;
        add_line(&line, audit, &audit->findings.items[i]);
        take(context, line.data ? line.data : "");
        out->failed |= line.failed;
        hl__text_free(&line);
    }
}

/* ---- the sheet in pairs --------------------------------------------------------------------------- */

static void take_text(hl_text *out, hl_pair_taker *take, void *context, const char *name, hl_text *value)
{
    out->failed |= value->failed;
    if (value->data && value->data[0])
        take(context, name, value->data);
    hl__text_free(value);
    *value = (hl_text){0};
}

void hl__subject_pairs(hl_text *out, const hl_audit *audit, hl_pair_taker *take, void *context)
{
    static const char *const facts[] = {"piano", "date"};
    const hl_sheet *sheet = audit->sheet;
    hl_text value = {0};
    take(context, "path", sheet->name);
    take(context, "sheet", hl__subject_sheet(sheet));
    for (int i = 0; i < 2; i++)
        if (hl_sheet_fact(sheet, facts[i])[0])
            take(context, facts[i], hl_sheet_fact(sheet, facts[i]));
    hl__subject_persons(&value, sheet, ", ");
    take_text(out, take, context, "persons", &value);
    hl__subject_passes(&value, sheet, ", ");
    take_text(out, take, context, "passes", &value);
    hl__subject_compass(&value, sheet->compass);
    take_text(out, take, context, "compass", &value);
    take(context, "book", audit->book->id);
    take(context, "book_hash", audit->book->hash);
    take(context, "answer", hl__subject_answer(audit));
    for (int i = 0; i < HL_VERDICTS; i++) {
        hl__text_printf(&value, "%d", audit->total.count[i]);
        take_text(out, take, context, hl_verdict_name((hl_verdict)i), &value);
    }
    hl__text_printf(&value, "%d", audit->total.go);
    take_text(out, take, context, "go", &value);
    if (hl_audit_sample(audit)) {
        hl__text_printf(&value, "%d", hl_audit_sample(audit)->n);
        take_text(out, take, context, "sampled", &value);
    }
}
