/* judge.c - one pass over a sheet (layer: judge). */
#include "judge.h"

#include "effects_cache.h"
#include "evenness.h"
#include "evidence.h"
#include "learn.h"
#include "stale.h"

#include <string.h>

hl_head *hl__judge_head(hl_arena *arena, const hl_sheet *sheet, const unsigned char *sampled)
{
    hl_head *head = hl__head_new(arena, sheet, sampled);
    if (head)
        head->effects = hl__effects_cache_new(arena, head->book, sheet);
    return head;
}

bool hl__judge(hl_table *table, const hl_sheet *sheet, hl_found *found)
{
    *found = (hl_found){0};
    table->moved = NULL;
    table->modelled = NULL;
    table->guards = NULL;
    table->factors = NULL;
    hl__table_read(table, sheet);
    hl__table_derive(table);
    if (!hl__learn(table, &found->learned, &found->n_learned) ||
        !hl__evidence_find(table, &found->presumed, &found->n_presumed) || !hl__stale_mark(table))
        return false;
    hl__evidence_mark(table);
    hl__even_mark(table);
    hl__evidence_accept(table);
    return true;
}

void hl__judge_total(const hl_table *table, int open, int total[HL_VERDICTS])
{
    for (int k = 0; k < HL_VERDICTS; k++) {
        total[k] = 0;
        for (int step = 0; step < table->book->n_steps; step++)
            total[k] += table->counts[step][k];
    }
    total[HL_FAIL] += open;
}

bool hl__judge_ready(const int total[HL_VERDICTS], size_t n_errors)
{
    return n_errors == 0 && total[HL_PASS] > 0 && total[HL_FAIL] == 0 && total[HL_DOUBTFUL] == 0 &&
           total[HL_STALE] == 0 && total[HL_MISSING] == 0;
}

bool hl__judge_has_work(const int total[HL_VERDICTS])
{
    for (int k = 0; k < HL_VERDICTS; k++)
        if (k != HL_NOT_APPLICABLE && total[k] > 0)
            return true;
    return false;
}

static bool is_query(const hl_event *event)
{
    return event->kind == HL_EVENT_QUERY && !event->withdrawn;
}

int hl__judge_queries(const hl_sheet *sheet, void (*take)(void *context, const hl_event *event),
                      void *context)
{
    int closed[HL_NOTES] = {0}, asked[HL_NOTES] = {0},
        n = 0; /* by note: one `closed` answers the oldest question */
    if (!sheet->has_queries)
        return 0;
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (!is_query(event))
            continue;
        if (event->word != 1)
            asked[event->note]++;
        else if (closed[event->note] < asked[event->note])
            closed[event->note]++;
    }
    memset(asked, 0, sizeof asked);
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (!is_query(event) || event->word == 1 || asked[event->note]++ < closed[event->note])
            continue;
        n++;
        if (take)
            take(context, event);
    }
    return n;
}

/* Wrong, or not to be known yet: friction can't be told from the downweight alone.  What is in range and
 * only unlike its neighbours hides nothing. */
static bool is_masking(const hl_table *table, int mask, int note)
{
    const hl_state state = hl__table_state(table, mask, note);
    if (hl__is_fail((unsigned char)state))
        return state != HL_STATE_UNEVEN;
    const hl_step *step = &table->book->steps[mask];
    return step->kind == HL_DERIVED && step->skipped == NULL && hl__sheet_applies(table->sheet, step, note) &&
           !hl__table_at(table, mask, note).has_value;
}

int hl__judge_mask(const hl_table *table, int step, int note)
{
    for (int i = 0; table->head->masked[step] && i < table->head->n_maskers; i++) {
        const int at = table->head->maskers[i];
        const hl_step *mask = &table->book->steps[at];
        for (int k = 0; at != step && k < mask->n_masks; k++)
            if (mask->masks[k] == step && is_masking(table, at, note))
                return at;
    }
    return -1;
}
