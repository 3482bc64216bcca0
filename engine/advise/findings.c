/* findings.c - what is said of each step at each note (layer: advise). */
#include "findings.h"

#include "correct.h"
#include "evenness.h"
#include "secondary_faults.h"

#include <string.h>

/* ---- one finding ------------------------------------------------------------------------------------ */

/* What adjustments since then did to a fresh reading, and whose work nobody wrote down. */
static void fill_moved(const hl_table *table, hl_finding *finding)
{
    const hl_moved *moved = hl__table_moved(table, finding->step, finding->note);
    const hl_amount grain = table->book->steps[finding->step].resolution;
    const bool fresh =
        finding->verdict == HL_PASS || finding->verdict == HL_FAIL || finding->verdict == HL_DOUBTFUL;
    finding->presumed_adjuster = finding->presumed_step = -1;
    if (!table->moved)
        return;
    if (finding->verdict == HL_STALE && moved->presumed && moved->guess > 0 &&
        table->adjustments[moved->guess - 1].adjuster >= 0) {
        finding->presumed = true;
        finding->presumed_adjuster = table->adjustments[moved->guess - 1].adjuster;
        finding->presumed_step = table->adjustments[moved->guess - 1].because;
    }
    if (finding->verdict == HL_STALE || !hl__amount_from(moved->by, &finding->moved))
        finding->moved = 0;
    const hl_amount seen = grain > 0 ? hl__round_to(finding->moved, grain) : finding->moved;
    finding->shifted = fresh && (seen != 0 || moved->slight);
}

static void place_finding(hl_finding *finding, const hl_sheet *sheet, const hl_event *event)
{
    finding->line = event->line;
    finding->column = hl__event_column(sheet, event);
    finding->remark = hl__text_at(sheet, event->remark);
}

static hl_finding make_finding(const hl_table *table, int step, int note)
{
    const hl_standing s = hl__table_at(table, step, note);
    const int place = hl__place(step, note);
    hl_finding finding = {.step = step,
                          .note = note,
                          .verdict = s.verdict,
                          .why = s.why,
                          .has_value = s.has_value,
                          .value = s.value,
                          .shift = hl__table_shift(table, step, note),
                          .go = s.go,
                          .word = s.word,
                          .computed = s.computed,
                          .assumed = s.assumed,
                          .floated = s.floated,
                          .target = *hl__table_target(table, step, note),
                          .remark = ""};
    if (table->guards && table->guards[place] > 0) {
        finding.guarded = true;
        finding.guard = table->guards[place];
    }
    if (table->modelled) {
        const hl_modelled *modelled = &table->modelled[place];
        finding.has_model = modelled->has_model;
        finding.model_differs = modelled->differs;
        finding.model_assumed = modelled->assumed;
        finding.model = modelled->model;
    }
    fill_moved(table, &finding);
    if (s.event >= 0)
        place_finding(&finding, table->sheet, &table->sheet->events[s.event]);
    if (s.why == HL_WHY_BOOK)
        finding.remark = table->book->steps[step].skipped;
    return finding;
}

/* ---- the list --------------------------------------------------------------------------------------- */

static size_t count_listed(const hl_table *table, bool fails_only)
{
    size_t n = 0;
    for (int step = 0; step < table->book->n_steps; step++)
        for (int k = 0; k < HL_VERDICTS; k++)
            if (k == HL_FAIL || !fails_only)
                n += (size_t)table->counts[step][k];
    return n;
}

typedef struct query_list {
    hl_findings *out;
    const hl_sheet *sheet;
} query_list;

static void add_query(void *context, const hl_event *event)
{
    const query_list *list = context;
    hl_finding finding = {.step = -1,
                          .note = event->note,
                          .verdict = HL_FAIL,
                          .why = HL_WHY_QUERY,
                          .word = -1,
                          .remark = "",
                          .presumed_adjuster = -1,
                          .presumed_step = -1};
    place_finding(&finding, list->sheet, event);
    list->out->items[list->out->n++] = finding;
}

static bool make_room(hl_findings *out, hl_arena *arena, size_t steps, size_t wanted)
{
    out->n = 0;
    if (!out->first)
        out->first = hl__arena_array(arena, steps + 2, sizeof *out->first);
    if (wanted > out->room) {
        out->items = hl__arena_array(arena, wanted, sizeof *out->items);
        out->room = out->items ? wanted : 0;
    }
    return out->first && out->room >= wanted;
}

bool hl__findings_list(hl_findings *out, hl_arena *arena, const hl_table *table, bool fails_only)
{
    const size_t steps = (size_t)table->book->n_steps;
    const int queries = hl__judge_queries(table->sheet, NULL, NULL);
    const size_t wanted = count_listed(table, fails_only) + (size_t)queries + 1;
    /* a fleet's lists grow by the sheet, so they take more than they need */
    if (!make_room(out, arena, steps, fails_only && wanted > out->room ? 2 * wanted : wanted))
        return false;
    for (int step = 0; step < table->book->n_steps; step++) {
        const unsigned char *states = table->states + hl__place(step, 0);
        out->first[step] = out->n;
        if (fails_only && table->counts[step][HL_FAIL] == 0)
            continue;
        for (int note = fails_only ? hl__next_fail(states, 0) : 0; note <= table->keys;
             note = fails_only ? hl__next_fail(states, note + 1) : note + 1)
            if (hl__meanings[states[note]].listed)
                out->items[out->n++] = make_finding(table, step, note);
    }
    out->first[steps] = out->n;
    query_list list = {out, table->sheet};
    hl__judge_queries(table->sheet, add_query, &list);
    out->first[steps + 1] = out->n;
    return true;
}

/* ---- what to do about it ---------------------------------------------------------------------------- */

static bool put_mask_remark(const hl_table *table, hl_finding *finding, int mask)
{
    static const char tail[] = " first: until it is right, this reading means nothing";
    const char *title = table->book->steps[mask].title;
    const char *mark = *finding->remark ? "; " : "";
    const char *parts[4] = {title, tail, mark, finding->remark};
    size_t size = 1, at = 0;
    for (int i = 0; i < 4; i++)
        size += strlen(parts[i]);
    char *text = hl__arena_take(table->arena, size);
    if (!text)
        return false;
    for (int i = 0; i < 4; i++) {
        memcpy(text + at, parts[i], strlen(parts[i]));
        at += strlen(parts[i]);
    }
    finding->remark = text; /* the arena's bytes are zero, so it ends */
    return true;
}

bool hl__findings_advise(hl_findings *findings, const hl_table *table, bool remarks)
{
    for (size_t i = 0; i < findings->n; i++) {
        hl_finding *finding = &findings->items[i];
        if (finding->verdict != HL_FAIL || finding->step < 0)
            continue;
        const int mask = hl__judge_mask(table, finding->step, finding->note);
        if (mask < 0 ? !hl__correct(table, finding) : remarks && !put_mask_remark(table, finding, mask))
            return false;
    }
    hl__secondary_mark(findings, table);
    return true;
}
