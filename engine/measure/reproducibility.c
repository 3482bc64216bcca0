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
#include "name_ranks.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PEOPLE (HL_PEOPLE_MOST + 1)

/* Two people at one step while they are compared. */
typedef struct pair {
    hl_people out;
    hl_apart *apart;        /* malloc'ed */
    hl_amount *differences; /* malloc'ed */
    int room;               /* notes in both of them */
    int last_note;          /* already compared there; -1 = nowhere */
} pair;

typedef struct search {
    const hl_table *table;
    hl_name_ranks people;
    pair *pairs; /* malloc'ed */
    size_t n, room;
    size_t of_step[PEOPLE][PEOPLE]; /* 1 + the pair of two people at the step in hand; 0: none yet */
} search;

static bool is_reading(const hl_event *event)
{
    return (event->kind == HL_EVENT_VALUE || event->kind == HL_EVENT_WORD) && !event->withdrawn &&
           event->by != 0;
}

static bool is_alike(const hl_sheet *sheet, const hl_event *a, const hl_event *b)
{
    return a->kind == b->kind && a->pass == b->pass && hl__same_text(sheet, a->method, b->method);
}

/* NULL = no memory.  Whose name first stands in the sheet comes first in the pair. */
static pair *find_pair(search *s, int step, int first, int second)
{
    size_t *known = &s->of_step[first][second];
    if (*known == 0) {
        void *items = s->pairs;
        if (!hl__grow(&items, s->n, &s->room, sizeof *s->pairs))
            return NULL;
        s->pairs = items;
        s->pairs[s->n++] =
            (pair){.out = {.step = step, .first = s->people.names[first], .second = s->people.names[second]},
                   .last_note = -1};
        *known = s->n;
    }
    return &s->pairs[*known - 1];
}

/* Room for one note more. */
static bool make_room(pair *with)
{
    if (with->out.notes < with->room)
        return true;
    const size_t room = with->room == 0 ? 4 : 2 * (size_t)with->room;
    hl_apart *apart = realloc(with->apart, room * sizeof *apart);
    with->apart = apart ? apart : with->apart;
    hl_amount *differences = realloc(with->differences, room * sizeof *differences);
    with->differences = differences ? differences : with->differences;
    with->room = apart && differences ? (int)room : with->room;
    return apart && differences;
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
    const int by_a = s->people.of[early], by_b = s->people.of[late];
    if (by_a == by_b || by_a == 0 || !is_reading(a) || !is_alike(sheet, a, b))
        return true;
    const bool in_order = by_a < by_b;
    const size_t known = in_order ? s->of_step[by_a][by_b] : s->of_step[by_b][by_a];
    if ((known > 0 && s->pairs[known - 1].last_note == a->note) ||
        hl__adjusted_between(s->table, a->step, a->note, early, late))
        return true;
    pair *with = find_pair(s, a->step, in_order ? by_a : by_b, in_order ? by_b : by_a);
    if (!with || !make_room(with))
        return false;
    compare(s, with, in_order ? a : b, in_order ? b : a);
    return true;
}

static bool compare_place(search *s, int step, int note)
{
    const hl_event *events = s->table->sheet->events;
    for (long late = hl__sheet_latest(s->table->sheet, step, note); late >= 0; late = events[late].before) {
        if (!is_reading(&events[late]) || s->people.of[late] == 0)
            continue;
        int seen = 0;
        for (long early = events[late].before; early >= 0 && seen < HL_LOOK_BACK;
             early = events[early].before) {
            seen++;
            if (!take_rows(s, late, early))
                return false;
        }
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
        const size_t apart = (size_t)from->out.n_apart;
        hl_apart *kept = hl__arena_array(s->table->arena, apart + 1, sizeof *kept);
        if (!kept)
            return false;
        if (apart > 0)
            memcpy(kept, from->apart, apart * sizeof *kept);
        from->out.apart = kept;
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
    *out = NULL;
    *n = 0;
    if (!table->sheet->again || !has_two_names(table->sheet))
        return true;
    search *s = calloc(1, sizeof *s);
    if (!s)
        return false;
    s->table = table;
    bool ok = hl__name_ranks(&s->people, table->arena, table->sheet, false);
    for (int step = 0; ok && step < table->book->n_steps; step++) {
        memset(s->of_step, 0, sizeof s->of_step);
        for (int note = 0; ok && note <= table->keys; note++)
            ok = compare_place(s, step, note);
    }
    ok = ok && keep(s, out, n);
    for (size_t i = 0; i < s->n; i++) {
        free(s->pairs[i].apart);
        free(s->pairs[i].differences);
    }
    free(s->pairs);
    free(s);
    return ok;
}
