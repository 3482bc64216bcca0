/* reproducibility.c - two people's readings of the same notes (layer: measure).
 *
 * Compared are the latest readings of one step and note by two people (`by`) with the same method in
 * the same pass, nothing that moves it having been adjusted between.  So a check belongs to the pass
 * that it checks.  Their gauges' slips are independent: two readings may differ by the root of the sum
 * of the squares of their uncertainties. */
#include "reproducibility.h"

#include "comparable.h"
#include "gauge_reading.h"
#include "learn.h"
#include "median.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Two people at one step while they are compared. */
typedef struct pair {
    hl_people out;
    hl_apart *apart;
    hl_amount *differences; /* [keys + 1] */
    int last_note;          /* already compared there; -1 = nowhere */
} pair;

typedef struct search {
    const hl_table *table;
    pair *pairs; /* malloc'ed */
    size_t n, room;
} search;

static bool is_reading(const hl_event *event)
{
    return (event->kind == HL_EVENT_VALUE || event->kind == HL_EVENT_WORD) && !event->withdrawn &&
           event->by != 0;
}

static bool is_alike(const hl_sheet *sheet, const hl_event *a, const hl_event *b)
{
    return a->kind == b->kind && a->pass == b->pass && hl__same_text(sheet, a->method, b->method) &&
           !hl__same_text(sheet, a->by, b->by);
}

/* Whose name stands first in the sheet? */
static bool comes_first(const hl_sheet *sheet, const char *name, const char *other)
{
    for (size_t i = 0; i < sheet->n_events; i++) {
        const char *by = hl__text_at(sheet, sheet->events[i].by);
        if (strcmp(by, name) == 0)
            return true;
        if (strcmp(by, other) == 0)
            return false;
    }
    return true;
}

static pair *add_pair(search *s, int step, const char *first, const char *second)
{
    const size_t notes = (size_t)s->table->sheet->compass.keys + 1;
    void *items = s->pairs;
    if (!hl__grow(&items, s->n, &s->room, sizeof *s->pairs))
        return NULL;
    s->pairs = items;
    pair *added = &s->pairs[s->n];
    *added = (pair){.out = {.step = step, .first = first, .second = second}, .last_note = -1};
    added->apart = hl__arena_array(s->table->arena, notes, sizeof *added->apart);
    added->differences = hl__arena_array(s->table->arena, notes, sizeof *added->differences);
    if (!added->apart || !added->differences)
        return NULL;
    s->n++;
    return added;
}

/* NULL = no memory. */
static pair *find_pair(search *s, int step, const char *first, const char *second)
{
    for (size_t i = 0; i < s->n; i++) {
        const hl_people *known = &s->pairs[i].out;
        if (known->step == step && strcmp(known->first, first) == 0 && strcmp(known->second, second) == 0)
            return &s->pairs[i];
    }
    return add_pair(s, step, first, second);
}

static void compare(search *s, pair *with, const hl_event *first, const hl_event *second)
{
    hl_gauge_from from;
    hl_people *out = &with->out;
    double gauge = (double)hl__gauge_reading(s->table->sheet, s->table->book, out->step, &from);
    hl_amount difference = second->amount - first->amount;
    bool judged = first->kind == HL_EVENT_WORD;
    bool apart = judged ? first->word != second->word : fabs((double)difference) > sqrt(2) * gauge;
    with->last_note = first->note;
    with->differences[out->notes++] = judged ? 0 : difference;
    if (!judged)
        out->allowed = (hl_amount)(sqrt(2) * gauge + .5);
    if (apart)
        with->apart[out->n_apart++] = (hl_apart){.note = first->note,
                                                 .first = judged ? 0 : first->amount,
                                                 .second = judged ? 0 : second->amount,
                                                 .first_word = judged ? first->word : -1,
                                                 .second_word = judged ? second->word : -1};
}

/* Two rows of one step and note, the later one first. */
static bool take_rows(search *s, long late, long early)
{
    const hl_sheet *sheet = s->table->sheet;
    const hl_event *a = &sheet->events[early], *b = &sheet->events[late];
    if (!is_reading(a) || !is_alike(sheet, a, b) ||
        hl__adjusted_between(s->table, a->step, a->note, early, late))
        return true;
    const char *by_a = hl__text_at(sheet, a->by), *by_b = hl__text_at(sheet, b->by);
    bool in_order = comes_first(sheet, by_a, by_b);
    pair *with = find_pair(s, a->step, in_order ? by_a : by_b, in_order ? by_b : by_a);
    if (!with)
        return false;
    if (with->last_note != a->note)
        compare(s, with, in_order ? a : b, in_order ? b : a);
    return true;
}

static bool compare_place(search *s, int step, int note)
{
    const hl_event *events = s->table->sheet->events;
    for (long late = hl__sheet_latest(s->table->sheet, step, note); late >= 0; late = events[late].before) {
        if (!is_reading(&events[late]))
            continue;
        for (long early = events[late].before; early >= 0; early = events[early].before)
            if (!take_rows(s, late, early))
                return false;
    }
    return true;
}

static int compare_amounts(const void *a, const void *b)
{
    hl_amount left = *(const hl_amount *)a, right = *(const hl_amount *)b;
    return (left > right) - (left < right);
}

static bool keep(search *s, hl_people **out, size_t *n)
{
    *out = hl__arena_array(s->table->arena, s->n + 1, sizeof **out);
    for (size_t i = 0; *out && i < s->n; i++) {
        pair *from = &s->pairs[i];
        qsort(from->differences, (size_t)from->out.notes, sizeof *from->differences, compare_amounts);
        from->out.bias = hl__median_double(from->differences, from->out.notes) / 2;
        from->out.apart = from->apart;
        (*out)[(*n)++] = from->out;
    }
    return *out != NULL;
}

static bool has_two_names(const hl_sheet *sheet)
{
    uint32_t name = 0;
    for (size_t i = 0; i < sheet->n_events; i++) {
        const uint32_t by = sheet->events[i].by;
        if (by == 0)
            continue;
        if (name != 0 && !hl__same_text(sheet, by, name))
            return true;
        name = by;
    }
    return false;
}

bool hl__reproducibility_find(hl_people **out, size_t *n, const hl_table *table)
{
    search s = {.table = table};
    bool ok = true;
    *out = NULL;
    *n = 0;
    if (!table->sheet->again || !has_two_names(table->sheet))
        return true;
    for (int step = 0; ok && step < table->book->n_steps; step++)
        for (int note = 0; ok && note <= table->keys; note++)
            ok = compare_place(&s, step, note);
    ok = ok && keep(&s, out, n);
    free(s.pairs);
    return ok;
}
