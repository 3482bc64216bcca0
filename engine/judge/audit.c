/* audit.c - the verdicts of one sheet by one book (layer: judge).
 *
 * Reads, computes, then asks what has moved since and who stands out, and writes the findings in
 * the book's order.  The audit owns everything it hands out; sheet and book are borrowed. */
#include "audit.h"

#include "correct.h"
#include "diagnose.h"
#include "errors.h"
#include "evenness.h"
#include "gauges.h"
#include "guard_band.h"
#include "infer_facts.h"
#include "learn.h"
#include "model_compare.h"
#include "reproducibility.h"
#include "sampling.h"
#include "secondary_faults.h"
#include "stale.h"
#include "table.h"
#include "tolerance_float.h"
#include "unrecorded_adjustments.h"

#include <stdlib.h>
#include <string.h>

/* ---- findings ---------------------------------------------------------------------------- */

static void place_finding(hl_finding *finding, const hl_event *event)
{
    finding->line = event->line;
    finding->column = event->column;
    finding->remark = event->remark ? event->remark : "";
}

/* What adjustments since then did to a fresh reading, and whose work nobody wrote down. */
static void fill_moved(const hl_table *table, hl_finding *finding, const hl_standing *s)
{
    hl_amount grain = table->book->steps[finding->step].resolution;
    bool fresh = s->verdict == HL_PASS || s->verdict == HL_FAIL || s->verdict == HL_DOUBTFUL;
    finding->presumed_adjuster = finding->presumed_step = -1;
    if (s->verdict == HL_STALE && s->presumed) {
        finding->presumed = true;
        finding->presumed_adjuster = table->deeds[s->guess - 1].adjuster;
        finding->presumed_step = table->deeds[s->guess - 1].because;
    }
    if (s->verdict == HL_STALE || !hl__amount_from(s->moved, &finding->moved))
        finding->moved = 0;
    hl_amount seen = grain > 0 ? hl__round_to(finding->moved, grain) : finding->moved;
    finding->shifted = fresh && (seen != 0 || s->slight);
}

static hl_finding make_finding(const hl_table *table, int step, int note)
{
    const hl_standing *s = hl__table_at(table, step, note);
    hl_finding finding = {.step = step,
                          .note = note,
                          .verdict = s->verdict,
                          .why = s->why,
                          .has_value = s->has_value,
                          .value = s->value,
                          .shift = s->shift,
                          .go = s->go,
                          .word = s->word,
                          .computed = s->computed,
                          .assumed = s->assumed,
                          .floated = s->floated,
                          .guarded = s->guarded,
                          .guard = s->guard,
                          .has_model = s->has_model,
                          .model_differs = s->model_differs,
                          .model_assumed = s->model_assumed,
                          .model = s->model,
                          .target = *hl__table_target(table, step, note),
                          .remark = ""};
    fill_moved(table, &finding, s);
    if (s->event >= 0)
        place_finding(&finding, &table->sheet->events[s->event]);
    if (s->why == HL_WHY_BOOK)
        finding.remark = table->book->steps[step].skipped;
    return finding;
}

/* Wrong, or not to be known yet: friction can't be told from the downweight alone. */
static bool is_masking(const hl_table *table, int mask, int note)
{
    const hl_standing *s = hl__table_at(table, mask, note);
    const hl_step *step = &table->book->steps[mask];
    bool unknown = step->kind == HL_DERIVED && step->skipped == NULL && !s->has_value &&
                   hl__sheet_applies(table->sheet, step, note);
    return s->verdict == HL_FAIL || unknown;
}

int hl__audit_mask(const hl_table *table, int step, int note)
{
    for (int i = 0; i < table->n_maskers; i++) {
        const int at = table->maskers[i];
        const hl_step *mask = &table->book->steps[at];
        for (int k = 0; at != step && k < mask->n_masks; k++)
            if (mask->masks[k] == step && is_masking(table, at, note))
                return at;
    }
    return -1;
}

static bool put_mask_remark(const hl_table *table, hl_finding *finding, int mask)
{
    static const char tail[] = " first: until it is right, this reading means nothing";
    const char *title = table->book->steps[mask].title;
    const char *mark = *finding->remark ? "; " : "";
    size_t lengths[4] = {strlen(title), sizeof tail - 1, strlen(mark), strlen(finding->remark)};
    const char *parts[4] = {title, tail, mark, finding->remark};
    char *text = hl__arena_take(table->arena, lengths[0] + lengths[1] + lengths[2] + lengths[3] + 1);
    if (!text)
        return false;
    size_t at = 0;
    for (int i = 0; i < 4; i++) {
        memcpy(text + at, parts[i], lengths[i]);
        at += lengths[i];
    }
    finding->remark = text; /* the arena's bytes are zero, so it ends */
    return true;
}

static bool advise(const hl_table *table, hl_finding *finding)
{
    if (finding->verdict != HL_FAIL)
        return true;
    int mask = hl__audit_mask(table, finding->step, finding->note);
    return mask < 0 ? hl__correct(table, finding) : put_mask_remark(table, finding, mask);
}

/* ---- queries ----------------------------------------------------------------------------- */

static bool is_query(const hl_event *event)
{
    return event->kind == HL_EVENT_QUERY && !event->withdrawn;
}

/* Where `closed` last stands for each note: it closes what was asked of the note before it. */
static size_t *find_closed(const hl_table *table)
{
    const hl_sheet *sheet = table->sheet;
    size_t *closed = hl__arena_array(table->arena, (size_t)table->keys + 1, sizeof *closed);
    for (size_t i = 0; closed && i < sheet->n_events; i++)
        if (is_query(&sheet->events[i]) && sheet->events[i].word == 1)
            closed[sheet->events[i].note] = i + 1;
    return closed;
}

static hl_finding make_query(const hl_event *event)
{
    hl_finding finding = {.step = -1,
                          .note = event->note,
                          .verdict = HL_FAIL,
                          .why = HL_WHY_QUERY,
                          .word = -1,
                          .remark = "",
                          .presumed_adjuster = -1,
                          .presumed_step = -1};
    place_finding(&finding, event);
    return finding;
}

/* ---- counting ---------------------------------------------------------------------------- */

static void count_finding(hl_tally *tally, const hl_finding *finding)
{
    tally->count[finding->verdict]++;
    if (finding->verdict == HL_PASS && finding->go)
        tally->go++;
    if (finding->verdict == HL_PASS && finding->floated)
        tally->floated++;
}

/* Every finding but a pass keeps the job open, optional steps too: a fault that was seen is a
 * fault.  A sheet on which nothing passed has shown nothing. */
static bool is_ready(const hl_audit *audit)
{
    const int *count = audit->total.count;
    if (audit->sample)
        return hl__sample_ready(audit);
    return audit->sheet->n_errors == 0 && count[HL_PASS] > 0 && count[HL_FAIL] == 0 &&
           count[HL_DOUBTFUL] == 0 && count[HL_STALE] == 0 && count[HL_MISSING] == 0;
}

/* ---- the run ----------------------------------------------------------------------------- */

static size_t count_listed(const hl_table *table)
{
    size_t n = 0;
    for (int step = 0; step < table->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++)
            if (hl__table_holds(table, step, note) && hl__table_at(table, step, note)->listed)
                n++;
    for (size_t i = 0; i < table->sheet->n_events; i++)
        if (table->sheet->events[i].kind == HL_EVENT_QUERY)
            n++;
    return n;
}

static void add_finding(hl_audit *audit, const hl_finding *finding)
{
    audit->findings[audit->n_findings++] = *finding;
    count_finding(&audit->total, finding);
    if (finding->step >= 0)
        count_finding(&audit->tallies[finding->step], finding);
}

static bool write_findings(hl_audit *audit, const hl_table *table)
{
    for (int step = 0; step < table->book->n_steps; step++) {
        audit->first[step] = audit->n_findings;
        for (int note = 0; note <= table->keys; note++) {
            if (!hl__table_holds(table, step, note) || !hl__table_at(table, step, note)->listed)
                continue;
            hl_finding finding = make_finding(table, step, note);
            if (!advise(table, &finding))
                return false;
            add_finding(audit, &finding);
        }
    }
    audit->first[table->book->n_steps] = audit->n_findings;
    const size_t *closed = find_closed(table);
    for (size_t i = 0; closed && i < table->sheet->n_events; i++) {
        const hl_event *event = &table->sheet->events[i];
        if (!is_query(event) || i < closed[event->note])
            continue;
        hl_finding finding = make_query(event);
        add_finding(audit, &finding);
    }
    audit->first[table->book->n_steps + 1] = audit->n_findings;
    return closed != NULL;
}

/* What floats gives way to the others, so their evenness is judged before it, and its own after:
 * a step that gives way is still to do so evenly. */
void hl__audit_neighbours(hl_table *table, hl_tally *tallies)
{
    int floating = table->book->floats.step;
    for (int step = 0; step < table->book->n_steps; step++)
        if (step != floating)
            hl__even_mark(table, step, &tallies[step]);
    hl__floated_mark(table);
    if (floating >= 0)
        hl__even_mark(table, floating, &tallies[floating]);
}

static bool judge_sheet(hl_audit *audit)
{
    hl_table *table = &audit->table;
    size_t n = (size_t)audit->book->n_steps;
    audit->first = hl__arena_array(&audit->arena, n + 2, sizeof *audit->first);
    audit->tallies = hl__arena_array(&audit->arena, n + 1, sizeof *audit->tallies);
    if (!audit->first || !audit->tallies ||
        !hl__table_start(table, audit->sheet, audit->book, &audit->arena) || !hl__sample_draw(audit))
        return false;
    hl__table_read(table);
    hl__table_compute(table);
    if (!hl__learn(table, &audit->learned, &audit->n_learned) ||
        !hl__presume(table, &audit->presumed, &audit->n_presumed))
        return false;
    hl__stale_mark(table);
    hl__compare_models(table);
    if (!hl__imply(table, &audit->implied, &audit->n_implied))
        return false;
    hl__audit_neighbours(table, audit->tallies);
    if (!hl__diagnose(table, &audit->diagnosed, &audit->n_diagnosed))
        return false;
    if (!hl__gauges_find(audit) || !hl__people_find(audit) ||
        (audit->options.rule == HL_RULE_GUARDED && !hl__guarded_mark(table)))
        return false;
    audit->findings = hl__arena_array(&audit->arena, count_listed(table) + 1, sizeof *audit->findings);
    if (!audit->findings || !write_findings(audit, table))
        return false;
    hl__follow(audit, table);
    hl__hang(audit, table);
    hl__sample_conclude(audit);
    return true;
}

hl_code hl_audit_run(hl_audit **out, const hl_sheet *sheet, const hl_book *book,
                     const hl_audit_options *options, hl_err *err)
{
    *out = NULL;
    if (!sheet->read || sheet->book != book || !sheet->latest) {
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
    audit->ready = is_ready(audit);
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

bool hl_audit_ready(const hl_audit *audit)
{
    return audit->ready;
}

const hl_finding *hl_audit_findings(const hl_audit *audit, size_t *n)
{
    *n = audit->n_findings;
    return audit->findings;
}

const char *hl_finding_todo(const hl_book *book, const hl_finding *finding)
{
    if (finding->step < 0)
        return "";
    const hl_step *step = &book->steps[finding->step];
    if (finding->word >= 0)
        return step->words[finding->word].todo;
    return finding->why == HL_WHY_LOW ? step->low_todo : finding->why == HL_WHY_HIGH ? step->high_todo : "";
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
    *n = audit->n_learned;
    return audit->learned;
}

const hl_presumed *hl_audit_presumed(const hl_audit *audit, size_t *n)
{
    *n = audit->n_presumed;
    return audit->presumed;
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
