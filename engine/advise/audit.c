/* audit.c - one sheet by one book: judged, then advised (layer: advise).
 *
 * The audit owns everything it hands out; sheet and book are borrowed. */
#include "audit.h"

#include "diagnose.h"
#include "errors.h"
#include "evenness.h"
#include "evidence.h"
#include "findings.h"
#include "guard_band.h"
#include "infer_facts.h"
#include "model_compare.h"
#include "reproducibility.h"
#include "secondary_faults.h"

#include <stdlib.h>
#include <string.h>

static void count_finding(hl_tally *tally, const hl_finding *finding)
{
    tally->count[finding->verdict]++;
    if (finding->verdict == HL_PASS && finding->go)
        tally->go++;
    if (finding->verdict == HL_PASS && finding->floated)
        tally->floated++;
}

static void count_findings(hl_audit *audit)
{
    for (size_t i = 0; i < audit->findings.n; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        count_finding(&audit->total, finding);
        if (finding->step >= 0)
            count_finding(&audit->tallies[finding->step], finding);
    }
}

/* What an answer of one sheet says beside the verdicts. */
static bool look_closer(hl_audit *audit)
{
    hl_table *table = &audit->table;
    if (!hl__compare_models(table) || !hl__infer_facts(table, &audit->implied, &audit->n_implied))
        return false;
    for (int step = 0; step < audit->book->n_steps; step++)
        hl__even_tally(table, step, &audit->tallies[step]);
    return hl__diagnose(table, &audit->diagnosed, &audit->n_diagnosed) &&
           hl__gauges_find(&audit->gauges, table) &&
           hl__reproducibility_find(&audit->people, &audit->n_people, table) &&
           (audit->options.rule != HL_RULE_GUARDED || hl__guard_band_mark(table));
}

static bool judge_sheet(hl_audit *audit)
{
    hl_table *table = &audit->table;
    hl_arena *arena = &audit->arena;
    if (!hl__sample_draw(&audit->drawn, arena, audit->sheet, &audit->options.sample))
        return false;
    const hl_head *head = hl__judge_head(arena, audit->sheet, audit->drawn.sampled);
    audit->tallies = hl__arena_array(arena, (size_t)audit->book->n_steps + 1, sizeof *audit->tallies);
    if (!head || !audit->tallies || !hl__table_make(table, head, arena) ||
        !hl__judge(table, audit->sheet, &audit->found) || !look_closer(audit) ||
        !hl__findings_list(&audit->findings, arena, table, false) ||
        !hl__findings_advise(&audit->findings, table, true))
        return false;
    count_findings(audit);
    audit->n_diagnosed = hl__secondary_quiet(audit->diagnosed, audit->n_diagnosed, &audit->findings, table);
    hl__depends_mark(&audit->findings, table);
    hl__sample_conclude(&audit->drawn, audit->findings.items, audit->findings.n);
    return true;
}

hl_code hl_audit_run(hl_audit **out, const hl_sheet *sheet, const hl_book *book,
                     const hl_audit_options *options, hl_err *err)
{
    *out = NULL;
    if (!sheet->read || sheet->book != book || !sheet->complete) {
        hl__fail(err, HL_E_USAGE, "the sheet was not read against this book");
        return hl__todo(err, "call hl_sheet_read with the same book first");
    }
    if (options && hl__sample_check(&options->sample, sheet, err) != HL_OK)
        return err->code;
    hl_audit *audit = calloc(1, sizeof *audit);
    if (!audit)
        return hl__no_memory(err);
    audit->sheet = sheet;
    audit->book = book;
    if (options)
        audit->options = *options;
    if (!judge_sheet(audit)) {
        hl_audit_free(audit);
        return hl__no_memory(err);
    }
    audit->ready = audit->drawn.sample ? hl__sample_ready(&audit->drawn, &audit->table, audit->findings.items,
                                                          audit->findings.n)
                                       : hl__judge_ready(audit->total.count, sheet->n_errors);
    *out = audit;
    return HL_OK;
}

void hl_audit_free(hl_audit *audit)
{
    if (!audit)
        return;
    hl__arena_free(&audit->arena);
    free(audit);
}

/* ---- asking ----------------------------------------------------------------------------------------- */

bool hl_audit_as_found(const hl_audit *audit)
{
    const hl_sheet *sheet = audit->sheet;
    return sheet->n_passes == 2 && sheet->n_changes == 0 && hl__evidence_as_found(sheet->passes[1]);
}

bool hl_audit_ready(const hl_audit *audit)
{
    return audit->ready;
}

bool hl_audit_has_work(const hl_audit *audit)
{
    return hl__judge_has_work(audit->total.count);
}

const hl_finding *hl_audit_findings(const hl_audit *audit, size_t *n)
{
    *n = audit->findings.n;
    return audit->findings.items;
}

const hl_tally *hl_audit_tally(const hl_audit *audit, int step)
{
    return &audit->tallies[step];
}

const hl_tally *hl_audit_total(const hl_audit *audit)
{
    return &audit->total;
}

int hl_audit_float(const hl_audit *audit)
{
    return audit->book->floats.step;
}

const hl_learned *hl_audit_learned(const hl_audit *audit, size_t *n)
{
    *n = audit->found.n_learned;
    return audit->found.learned;
}

const hl_presumed *hl_audit_presumed(const hl_audit *audit, size_t *n)
{
    *n = audit->found.n_presumed;
    return audit->found.presumed;
}

const hl_implied *hl_audit_implied(const hl_audit *audit, size_t *n)
{
    *n = audit->n_implied;
    return audit->implied;
}

const hl_diagnosed *hl_audit_diagnoses(const hl_audit *audit, size_t *n)
{
    *n = audit->n_diagnosed;
    return audit->diagnosed;
}

const hl_gauge *hl_audit_gauges(const hl_audit *audit, size_t *n)
{
    *n = audit->gauges.n_gauges;
    return audit->gauges.gauges;
}

const hl_repeat *hl_audit_repeats(const hl_audit *audit, size_t *n)
{
    *n = audit->gauges.n_repeats;
    return audit->gauges.repeats;
}

const hl_people *hl_audit_people(const hl_audit *audit, size_t *n)
{
    *n = audit->n_people;
    return audit->people;
}

const hl_sample *hl_audit_sample(const hl_audit *audit)
{
    return audit->drawn.sample;
}

hl_code hl_samples_add(hl_samples *samples, const hl_audit *audit, hl_err *err)
{
    if (!audit->drawn.sample) {
        hl__fail(err, HL_E_USAGE, "this audit was not asked for a sample");
        return hl__todo(err, "run it with options that say how many notes to draw");
    }
    return hl__samples_add(samples, &audit->drawn) ? HL_OK : hl__no_memory(err);
}
