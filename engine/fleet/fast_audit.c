/* fast_audit.c - the short way for plain sheets of a fleet (layer: fleet).
 *
 * Why there is one: see fast_rows.h.  What it leaves out is only what a fleet's line does not say:
 * diagnoses, gauges, how far each note stands out.  Verdicts, counts and corrections are those of
 * the careful way, which takes over at the first thing that is not plain. */
#include "fast_parts.h"

#include <stdlib.h>
#include <string.h>

#define SIZE_MOST ((size_t)4 << 20) /* bytes of rows in a plain sheet */

hl_fast *hl__fast_new(void)
{
    return calloc(1, sizeof(hl_fast));
}

static void free_room(hl_fast *fast)
{
    free(fast->flat.values);
    free(fast->flat.read);
    free(fast->flat.rows);
    free(fast->flat.reads);
    free(fast->flat.outs);
    free(fast->flat.states);
    free(fast->exact);
    free(fast->lean);
    free(fast->counts);
    free(fast->fails);
    free(fast->first);
    fast->n_steps = 0;
}

void hl__fast_free(hl_fast *fast)
{
    if (!fast)
        return;
    for (int i = 0; i < HL_FAST_PLANS; i++)
        hl__fast_plan_free(&fast->plans[i]);
    free_room(fast);
    hl__text_free(&fast->key);
    hl__arena_free(&fast->arena);
    free(fast);
}

/* Room for the steps of a book; all places are 0 at first, and whole numbers ever after. */
static bool make_room(hl_fast *fast, size_t n_steps)
{
    if (n_steps <= fast->n_steps)
        return true;
    free_room(fast);
    const size_t places = n_steps * HL_FLAT_NOTES;
    fast->flat.values = calloc(places, sizeof *fast->flat.values);
    fast->flat.read = calloc(places, 1);
    fast->flat.rows = calloc(HL_FLAT_NOTES, 1);
    fast->flat.reads = calloc(n_steps, sizeof *fast->flat.reads);
    fast->flat.outs = calloc(n_steps, sizeof *fast->flat.outs);
    fast->flat.states = calloc(places, 1);
    fast->exact = calloc(places, sizeof *fast->exact);
    fast->lean = calloc(places, sizeof *fast->lean);
    fast->counts = calloc(n_steps, sizeof *fast->counts);
    fast->fails = calloc(HL_FAST_FAILS, sizeof *fast->fails);
    fast->first = calloc(n_steps + 2, sizeof *fast->first);
    bool good = fast->flat.values && fast->flat.read && fast->flat.rows && fast->flat.reads &&
                fast->flat.outs && fast->flat.states && fast->exact && fast->lean && fast->counts &&
                fast->fails && fast->first;
    fast->n_steps = good ? n_steps : 0;
    return good;
}

/* From the head's end on; *used: bytes of them that are this sheet's. */
static bool read_rows(hl_fast *fast, const hl_fast_plan *plan, const hl_part_text *part, size_t head,
                      size_t *used)
{
    const size_t steps = (size_t)plan->book->n_steps;
    const char *at = part->rows + head, *end = part->rows + part->rows_size;
    if (at == end || end[-1] != '\n' || plan->form.many != (part->part != NULL))
        return false;
    memcpy(fast->flat.read, plan->form.blank, steps * HL_FLAT_NOTES);
    memcpy(fast->flat.states, plan->states, steps * HL_FLAT_NOTES);
    memset(fast->flat.rows, 0, HL_FLAT_NOTES);
    memset(fast->flat.reads, 0, steps * sizeof *fast->flat.reads);
    memset(fast->flat.outs, 0, steps * sizeof *fast->flat.outs);
    fast->flat.low = plan->low;
    fast->flat.high = plan->high;
    const bool plain = plan->form.tidy ? hl__fast_tidy(&plan->form, &fast->flat, &at, end, part->part)
                                       : hl__fast_wide(&plan->form, &fast->flat, &at, end, part->part);
    *used = (size_t)(at - part->rows);
    return plain && *used <= SIZE_MOST;
}

/* ---- the result ---------------------------------------------------------------------------------- */

static char *make_title(const hl_fleet_sheet_text *text)
{
    const char *part = text->part.part;
    const size_t first = strlen(text->path), second = part ? strlen(part) + 2 : 0;
    char *title = malloc(first + second + 1);
    if (!title)
        return NULL;
    memcpy(title, text->path, first + 1);
    if (part) {
        memcpy(title + first, ": ", 2);
        memcpy(title + first + 2, part, second - 1);
    }
    return title;
}

static bool fill_result(const hl_fast *fast, const hl_fast_plan *plan, hl_fleet_result *result)
{
    const size_t steps = (size_t)plan->book->n_steps;
    result->book = plan->book;
    result->judged = true;
    result->counts = malloc((steps + 1) * sizeof *result->counts);
    result->cures = calloc((size_t)plan->book->n_adjusters + 1, sizeof *result->cures);
    if (!result->counts || !result->cures)
        return false;
    memcpy(result->counts, fast->counts, steps * sizeof *result->counts);
    for (size_t i = 0; i < steps; i++)
        for (int k = 0; k < HL_VERDICTS; k++)
            result->total[k] += fast->counts[i][k];
    for (size_t i = 0; i < fast->n_fails; i++)
        if (fast->fails[i].n_corrections > 0)
            result->cures[fast->fails[i].corrections[0].adjuster]++;
    const int *total = result->total; /* the same question as in audit.c */
    result->ready = total[HL_PASS] > 0 && total[HL_FAIL] == 0 && total[HL_DOUBTFUL] == 0 &&
                    total[HL_STALE] == 0 && total[HL_MISSING] == 0;
    return true;
}

static void add_result(const hl_fast *fast, const hl_fast_plan *plan, hl_fleet_node *node,
                       const hl_fleet_sheet_text *text)
{
    hl_fleet_result *result = hl__fleet_add(node);
    if (!result)
        return;
    result->title = make_title(text);
    if (!result->title || !fill_result(fast, plan, result))
        node->no_memory = true;
}

bool hl__fast_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text,
                    size_t *used)
{
    hl_fast *fast = worker->fast;
    const hl_part_text *part = &text->part;
    const hl_audit_options *judging = worker->fleet->options->judging;
    if (judging && (judging->rule != HL_RULE_SIMPLE || judging->sample.notes != 0))
        return false;
    /* a whole file begins with its head; of a file of many it stands apart */
    const size_t head = part->part ? 0 : hl__fast_head_size(part->rows, part->rows_size);
    hl_fast_plan *plan = hl__fast_find_plan(fast, worker->fleet, part->part ? part->top : part->rows,
                                            part->part ? part->top_size : head);
    if (!plan || !make_room(fast, (size_t)plan->book->n_steps + 1) ||
        !read_rows(fast, plan, part, head, used) || !hl__fast_verdicts(fast, plan))
        return false;
    hl__fast_even(fast, plan);
    if (!hl__fast_fails(fast, plan))
        return false;
    add_result(fast, plan, node, text);
    return true;
}
