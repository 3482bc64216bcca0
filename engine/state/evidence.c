/* evidence.c - what the rows of a sheet show together (layer: state).
 *
 * Goes through the sheet in its order and keeps, for each step and note, what its last reading should have
 * become.
 *
 * Two readings of one place differ when they are further apart than 2 * sqrt(2) * U + one resolution, U being
 * what the gauge is good to at 95 %: honest pairs differ so in fewer than one of ten thousand.  Between two
 * people the median of their differences at that step is taken off first, when enough notes show it and it is
 * small.
 *
 * - Another pass, or work recorded between: the later reading counts, and what moves with it is stale.
 * - The same pass: the place is in doubt until a later reading agrees with one of the two.  If with the new
 * one, somebody adjusted something and what was read before that is stale; if with the old one, nothing is.
 * - A reading that contradicts the work recorded above it is in doubt until it is read again and agrees. */
#include "evidence.h"

#include "ascii.h"
#include "effects_cache.h"
#include "learn.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define THOUSANDTH   25400 /* of an inch, in nanometres: then the unit was typed */
#define SHARED_LEAST 8     /* notes that two people must have read for their median to be taken off */

/* Of one step at one note.  Rows are kept + 1; 0 = none. */
typedef struct track {
    long last;    /* the last number */
    long rival;   /* the number before it, from which it differs, and nothing has settled it yet */
    double moved; /* what was done since `last` should have changed it by this */
    double doubt; /* and may as well have done this much more or less */
    bool worked;  /* work on record moves it */
    bool unknown; /* by an amount that nobody knows */
    long voided;  /* the last withdrawal with no reading behind it */
    long confirmed, accepted;
    unsigned char kind; /* hl_doubt */
} track;

/* Two people who read the same step in one pass. */
typedef struct pair {
    int step;
    const char *first, *second;
    hl_amount *differences; /* second - first */
    size_t n, room;
    double bias; /* to be taken off; 0 when it is not known or too large */
    bool apart;  /* the median itself is larger than the gauge allows: every shared place is in doubt */
} pair;

typedef struct walk {
    hl_table *table;
    track *tracks; /* place */
    bool *forced;  /* [n_events]: withdrawn by somebody else without a reason, so it still speaks */
    pair *pairs;
    size_t n_pairs, room_pairs;
    bool collecting; /* the first time through: only what people differ by */
    bool failed;
    hl_presumed *list;
    size_t n, room;
    size_t room_adjustments;
} walk;

static track *find_track(const walk *w, int step, int note)
{
    return &w->tracks[hl__place(step, note)];
}

static const char *find_hand(const walk *w, const hl_event *event)
{
    return hl__text_at(w->table->sheet, event->by);
}

/* ---- adjustments ------------------------------------------------------------------------------------------
 */

static void add_to_track(track *t, const hl_effect *effect, const hl_adjustment *adjustment,
                         const hl_adjuster *adjuster)
{
    if (t->last == 0 || effect->kind == HL_EFFECT_NONE)
        return;
    t->worked = true;
    if (effect->kind != HL_EFFECT_BY || adjustment->unknown) {
        t->unknown = true;
        return;
    }
    double shift = effect->by * adjustment->amount;
    double share = effect->assumed ? HL_ASSUMED_SHARE : HL_KNOWN_SHARE;
    t->moved += shift;
    t->doubt += share * fabs(shift) + 2 * hl__hand_doubt(adjuster) * fabs(effect->by);
}

static void carry_note(const walk *w, const hl_adjustment *adjustment, int note)
{
    hl_table *table = w->table;
    hl__table_values(table, note, table->note_values);
    hl__effects_now(table, adjustment->adjuster, note, table->note_values, table->effects);
    for (int i = 0; i < table->book->n_steps; i++)
        if (hl__table_holds(table, i, note))
            add_to_track(find_track(w, i, note), &table->effects[i], adjustment,
                         &table->book->adjusters[adjustment->adjuster]);
}

static void add_adjustment(walk *w, hl_adjustment adjustment)
{
    hl_table *table = w->table;
    if (w->collecting || (size_t)table->n_adjustments == w->room_adjustments)
        return;
    table->adjustments[table->n_adjustments++] = adjustment;
}

static void add_recorded(walk *w, long at)
{
    const hl_event *event = &w->table->sheet->events[at];
    const hl_adjustment adjustment = {.at = at,
                                      .adjuster = event->step,
                                      .note = event->note,
                                      .everywhere =
                                          event->note == 0 || w->table->book->adjusters[event->step].whole,
                                      .unknown = event->no_amount,
                                      .amount = (double)event->amount / (double)HL_ONE,
                                      .because = -1,
                                      .row = -1};
    add_adjustment(w, adjustment);
    const int from = adjustment.everywhere ? 0 : adjustment.note,
              to = adjustment.everywhere ? w->table->keys : adjustment.note;
    for (int note = from; w->tracks && note <= to; note++)
        carry_note(w, &adjustment, note);
}

/* The step's first adjuster with an effect in numbers, or -1.  One that serves every note is never presumed
 * from a single note: one touched screw must not turn the whole job red.  What can't be undone is never
 * presumed. */
static int find_fix(const hl_table *table, int step, int note, double *by)
{
    const hl_step *s = &table->book->steps[step];
    for (int i = 0; i < s->n_fixes; i++) {
        const int index = s->fixes[i];
        const hl_adjuster *adjuster = &table->book->adjusters[index];
        if ((adjuster->whole && note > 0) || adjuster->irreversible)
            continue;
        hl__table_values(table, note, table->note_values);
        hl__effects_now(table, index, note, table->note_values, table->effects);
        *by = table->effects[step].by;
        if (table->effects[step].kind == HL_EFFECT_BY && *by != 0)
            return index;
    }
    return -1;
}

/* What a guessed adjustment may have moved can be read again without a question: the guess may be wrong. */
static void carry_guess(const walk *w, const hl_adjustment *adjustment)
{
    hl_table *table = w->table;
    const int note = adjustment->note;
    hl__table_values(table, note, table->note_values);
    hl__effects_of(table, adjustment, note, table->note_values, table->effects);
    for (int i = 0; i < table->book->n_steps; i++) {
        track *t = hl__table_holds(table, i, note) ? find_track(w, i, note) : NULL;
        if (t && i != adjustment->because && t->last > 0 && t->last - 1 <= adjustment->at &&
            table->effects[i].kind != HL_EFFECT_NONE)
            t->unknown = true;
    }
}

/* Somebody adjusted something before row `at`, and nobody wrote it down.  Without an adjuster that can be
 * named the reading itself is what moved.  `pending`: it may be a slip; then it is listed, and nothing goes
 * by it. */
static void add_presumed(walk *w, long at, double difference, bool pending)
{
    const hl_event *event = &w->table->sheet->events[at];
    double by = 0;
    hl_amount amount = 0;
    const int adjuster = find_fix(w->table, event->step, event->note, &by);
    const double moved = adjuster < 0 ? difference : difference / by;
    if (w->collecting || !hl__amount_from(moved, &amount))
        return;
    if (adjuster >= 0 && w->n < w->room)
        w->list[w->n++] = (hl_presumed){adjuster, event->note, event->step, event->line, amount, pending};
    if (pending)
        return;
    const hl_adjustment adjustment = {.at = at - 1,
                                      .adjuster = adjuster,
                                      .note = event->note,
                                      .everywhere =
                                          adjuster >= 0 && w->table->book->adjusters[adjuster].whole,
                                      .amount = moved,
                                      .because = event->step,
                                      .row = at};
    add_adjustment(w, adjustment);
    carry_guess(w, &adjustment);
}

/* ---- people ------------------------------------------------------------------------------------------ */

static pair *find_pair(walk *w, int step, const char *first, const char *second)
{
    for (size_t i = 0; i < w->n_pairs; i++)
        if (w->pairs[i].step == step && strcmp(w->pairs[i].first, first) == 0 &&
            strcmp(w->pairs[i].second, second) == 0)
            return &w->pairs[i];
    return NULL;
}

static void keep_difference(walk *w, int step, const char *first, const char *second, double difference)
{
    pair *p = find_pair(w, step, first, second);
    hl_amount amount = 0;
    if (!p) {
        void *items = w->pairs;
        if (!hl__grow(&items, w->n_pairs, &w->room_pairs, sizeof *w->pairs)) {
            w->failed = true;
            return;
        }
        w->pairs = items;
        p = &w->pairs[w->n_pairs++];
        *p = (pair){.step = step, .first = first, .second = second};
    }
    void *items = p->differences;
    if (!hl__amount_from(difference, &amount))
        return;
    if (!hl__grow(&items, p->n, &p->room, sizeof *p->differences)) {
        w->failed = true;
        return;
    }
    p->differences = items;
    p->differences[p->n++] = amount;
}

static int compare_amounts(const void *left, const void *right)
{
    const hl_amount a = *(const hl_amount *)left, b = *(const hl_amount *)right;
    return (a > b) - (a < b);
}

static void settle_pairs(walk *w)
{
    for (size_t i = 0; i < w->n_pairs; i++) {
        pair *p = &w->pairs[i];
        if (p->n < SHARED_LEAST)
            continue;
        qsort(p->differences, p->n, sizeof *p->differences, compare_amounts);
        const double median = (double)p->differences[p->n / 2] / (double)HL_ONE;
        p->apart = fabs(median) > hl__reading_doubt(w->table, p->step);
        p->bias = p->apart ? 0 : median;
    }
}

static double find_bias(walk *w, int step, const hl_event *before, const hl_event *now, bool *apart)
{
    const char *first = find_hand(w, before), *second = find_hand(w, now);
    const pair *p = strcmp(first, second) == 0 ? NULL : find_pair(w, step, first, second);
    *apart = p && p->apart;
    return p ? p->bias : 0;
}

/* ---- readings ---------------------------------------------------------------------------------------- */

/* Two readings of one thing lie within this, but for one pair in ten thousand or fewer: 2 * sqrt(2) * U is
 * four standard deviations of a difference, and a resolution is what rounding adds. */
static double find_allowed(const hl_table *table, int step)
{
    return 2 * sqrt(2) * hl__reading_doubt(table, step) +
           (double)table->book->steps[step].resolution / (double)HL_ONE;
}

static double find_difference(const hl_event *now, const hl_event *before)
{
    return (double)(now->amount - before->amount) / (double)HL_ONE;
}

/* The new value holds: what was read before it was taken has been overtaken. */
static void settle_new(walk *w, track *t)
{
    const hl_event *events = w->table->sheet->events;
    if (t->rival > 0)
        add_presumed(w, t->last - 1, find_difference(&events[t->last - 1], &events[t->rival - 1]), false);
    t->rival = 0;
    t->kind = HL_DOUBT_NONE;
}

static void take_reading(walk *w, long at)
{
    const hl_table *table = w->table;
    const hl_event *events = table->sheet->events, *event = &events[at];
    track *t = find_track(w, event->step, event->note);
    const hl_event *before = t->last > 0 ? &events[t->last - 1] : NULL;
    const double allowed = find_allowed(table, event->step) + t->doubt;
    bool apart = false;
    if (before && !t->unknown) {
        const bool same_pass = before->pass == event->pass;
        double difference = find_difference(event, before) - t->moved;
        if (w->collecting && same_pass && strcmp(find_hand(w, before), find_hand(w, event)) != 0)
            keep_difference(w, event->step, find_hand(w, before), find_hand(w, event), difference);
        difference -= find_bias(w, event->step, before, event, &apart);
        const bool agrees = fabs(difference) <= allowed && !(apart && same_pass);
        const bool old = t->rival > 0 && fabs(find_difference(event, &events[t->rival - 1])) <= allowed;
        if (agrees) {
            settle_new(w, t);
        } else if (old && !t->worked) {
            t->rival = 0;
            t->kind = HL_DOUBT_NONE;
        } else if (t->worked) {
            t->rival = t->last;
            t->kind = HL_DOUBT_WORK;
            add_presumed(w, at, difference, true);
        } else if (!same_pass) {
            add_presumed(w, at, difference, false);
            t->rival = 0;
            t->kind = HL_DOUBT_NONE;
        } else {
            t->rival = t->last;
            t->kind = HL_DOUBT_DISAGREE;
            add_presumed(w, at, difference, true);
        }
    } else if (before) {
        t->rival = 0;
        t->kind = HL_DOUBT_NONE;
    }
    t->last = at + 1;
    t->moved = t->doubt = 0;
    t->worked = t->unknown = false;
    t->voided = 0;
}

/* A gauge without a number that passes a place whose last number failed, in one pass and with no work
 * between. */
static void take_gauge(walk *w, long at)
{
    const hl_event *events = w->table->sheet->events, *event = &events[at];
    track *t = find_track(w, event->step, event->note);
    const hl_event *before = t->last > 0 ? &events[t->last - 1] : NULL;
    t->voided = 0;
    if (event->kind != HL_EVENT_WITHIN || !before || before->pass != event->pass || t->worked)
        return;
    if (hl__table_by_limits(w->table, hl__place(event->step, event->note), before->amount) != HL_STATE_PASS)
        t->kind = HL_DOUBT_DISAGREE;
}

/* ---- rows that are no readings ----------------------------------------------------------------------- */

static bool is_failing(const hl_table *table, const hl_event *event)
{
    switch (event->kind) {
    case HL_EVENT_VALUE:
        return hl__table_by_limits(table, hl__place(event->step, event->note), event->amount) !=
               HL_STATE_PASS;
    case HL_EVENT_WORD:
        return event->word >= 0;
    default:
        return event->kind == HL_EVENT_OVER || event->kind == HL_EVENT_UNDER;
    }
}

/* Somebody else's reading, and nothing says why: then it still speaks. */
static bool is_forced(const walk *w, const hl_event *event)
{
    const hl_sheet *sheet = w->table->sheet;
    if (event->kind != HL_EVENT_VOID || event->step < 0 || event->before < 0 || event->remark != 0)
        return false;
    const char *by = find_hand(w, event), *was = find_hand(w, &sheet->events[event->before]);
    return strcmp(by, was) != 0;
}

static void take_row(walk *w, long at)
{
    const hl_event *event = &w->table->sheet->events[at];
    switch (event->kind) {
    case HL_EVENT_ADJUSTMENT:
        if (!event->withdrawn)
            add_recorded(w, at);
        break;
    case HL_EVENT_VALUE:
        if (w->tracks && (!event->withdrawn || w->forced[at]))
            take_reading(w, at);
        break;
    case HL_EVENT_WITHIN:
    case HL_EVENT_OVER:
    case HL_EVENT_UNDER:
    case HL_EVENT_WORD:
        if (w->tracks && !event->withdrawn)
            take_gauge(w, at);
        break;
    case HL_EVENT_VOID:
        if (w->tracks && event->step >= 0)
            find_track(w, event->step, event->note)->voided = at + 1;
        break;
    case HL_EVENT_CONFIRM:
        if (w->tracks) {
            track *t = find_track(w, event->step, event->note);
            settle_new(w, t);
            t->confirmed = at + 1;
            t->voided = 0;
        }
        break;
    case HL_EVENT_ACCEPTED:
        if (w->tracks)
            find_track(w, event->step, event->note)->accepted = at + 1;
        break;
    default:
        break;
    }
}

static void go_through(walk *w, bool collecting)
{
    const hl_table *table = w->table;
    w->collecting = collecting;
    if (w->tracks)
        memset(w->tracks, 0, (size_t)table->book->n_steps * HL_NOTES * sizeof *w->tracks);
    for (size_t i = 0; i < table->sheet->n_events; i++)
        take_row(w, (long)i);
}

/* ---- what is left in doubt --------------------------------------------------------------------------- */

/* What a withdrawal brought back: of an older pass, or a pass instead of a failing reading that nobody
 * replaced. */
static bool is_bad_void(const walk *w, const track *t, const hl_event *counts)
{
    const hl_sheet *sheet = w->table->sheet;
    if (t->voided == 0)
        return false;
    const hl_event *event = &sheet->events[t->voided - 1];
    const hl_event *was = event->before >= 0 ? &sheet->events[event->before] : NULL;
    if (is_forced(w, event) || counts->pass != event->pass)
        return true;
    return was && is_failing(w->table, was) && event->remark == 0;
}

/* A pass that was read before the work: "before", "as found". */
bool hl__evidence_as_found(const char *name)
{
    static const char *const NAMES[] = {"before", "as found", "as-found"};
    for (size_t i = 0; i < sizeof NAMES / sizeof *NAMES; i++)
        if (hl__same_word(name, NAMES[i]))
            return true;
    return false;
}

/* Of a rule that reads coarser than hundredths, three decimals below a tenth of a millimetre are an inch's.
 */
static bool is_inch(const hl_step *step, hl_amount value)
{
    const hl_amount size = value < 0 ? -value : value;
    return step->unit == HL_MM && step->resolution > HL_ONE / 100 && size > 0 && size < HL_ONE / 10 &&
           size % (HL_ONE / 100) != 0 && size % THOUSANDTH != 0;
}

static hl_doubt find_doubt(const walk *w, int step, int note, int index)
{
    const hl_table *table = w->table;
    const hl_sheet *sheet = table->sheet;
    const hl_event *event = &sheet->events[index];
    const track *t = w->tracks ? find_track(w, step, note) : NULL;
    const bool confirmed = t && t->confirmed > index;
    if (!confirmed && hl__evidence_as_found(sheet->passes[event->pass]) &&
        (sheet->n_passes - 1 > event->pass || sheet->n_changes > 0))
        return HL_DOUBT_AS_FOUND;
    if (t && t->kind != HL_DOUBT_NONE)
        return (hl_doubt)t->kind;
    if (t && !confirmed && is_bad_void(w, t, event))
        return HL_DOUBT_VOIDED;
    if (!confirmed && event->kind == HL_EVENT_VALUE && is_inch(&table->book->steps[step], event->amount))
        return HL_DOUBT_UNITS;
    return HL_DOUBT_NONE;
}

static bool keep_doubts(walk *w)
{
    hl_table *table = w->table;
    const size_t n = (size_t)table->book->n_steps * HL_NOTES;
    table->doubts = hl__arena_array(table->arena, n + 1, 1);
    table->accepted = hl__arena_array(table->arena, n + 1, 1);
    if (!table->doubts || !table->accepted)
        return false;
    for (int step = 0; step < table->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++) {
            const int index = hl__table_holds(table, step, note) ? hl__table_event(table, step, note) : -1;
            if (index < 0)
                continue;
            const track *t = w->tracks ? find_track(w, step, note) : NULL;
            table->doubts[hl__place(step, note)] = (unsigned char)find_doubt(w, step, note, index);
            table->accepted[hl__place(step, note)] = t && t->accepted > index;
        }
    return true;
}

/* Most sheets read each place once and record nothing; then there is nothing to weigh. */
static bool is_plain(const hl_sheet *sheet)
{
    return !sheet->again && !sheet->has_words && sheet->n_changes == 0 && sheet->n_passes <= 1;
}

static bool has_inches(const hl_head *head, const hl_sheet *sheet)
{
    const hl_places *places = &sheet->places;
    for (int step = 0; step < head->book->n_steps; step++)
        for (int note = 1; head->small[step] && note <= head->keys; note++)
            if (places->states[hl__place(step, note)] == HL_STATE_PASS &&
                is_inch(&head->book->steps[step], places->values[hl__place(step, note)]))
                return true;
    return false;
}

/* By their rows: what a third reading settles was done before the second one. */
static void sort_adjustments(hl_table *table)
{
    for (int i = 1; i < table->n_adjustments; i++) {
        const hl_adjustment moved = table->adjustments[i];
        int k = i;
        for (; k > 0 && table->adjustments[k - 1].at > moved.at; k--)
            table->adjustments[k] = table->adjustments[k - 1];
        table->adjustments[k] = moved;
    }
}

static bool make_room(walk *w)
{
    const hl_table *table = w->table;
    const size_t n = table->sheet->n_events, notes = (size_t)table->book->n_steps * HL_NOTES;
    w->room = 2 * n + 1;
    w->room_adjustments = 2 * n + 1;
    w->table->adjustments = hl__arena_array(table->arena, w->room_adjustments, sizeof *table->adjustments);
    w->list = hl__arena_array(table->arena, w->room, sizeof *w->list);
    w->forced = calloc(n + 1, sizeof *w->forced);
    w->tracks = calloc(notes + 1, sizeof *w->tracks);
    return table->adjustments && w->list && w->forced && w->tracks;
}

bool hl__evidence_asks(const hl_head *head, const hl_sheet *sheet)
{
    return !is_plain(sheet) || has_inches(head, sheet);
}

bool hl__evidence_find(hl_table *table, hl_presumed **out, size_t *n)
{
    walk w = {.table = table};
    const hl_sheet *sheet = table->sheet;
    table->n_adjustments = 0;
    table->doubts = table->accepted = NULL;
    *out = NULL;
    *n = 0;
    if (!hl__evidence_asks(table->head, sheet))
        return true;
    bool good = make_room(&w);
    for (size_t i = 0; good && i < sheet->n_events; i++)
        if (is_forced(&w, &sheet->events[i]))
            w.forced[sheet->events[i].before] = true;
    if (good && sheet->again) {
        go_through(&w, true);
        settle_pairs(&w);
    }
    if (good) {
        go_through(&w, false);
        sort_adjustments(table);
        good = keep_doubts(&w) && !w.failed;
    }
    for (size_t i = 0; i < w.n_pairs; i++)
        free(w.pairs[i].differences);
    free(w.pairs);
    free(w.forced);
    free(w.tracks);
    *out = w.list;
    *n = w.n;
    return good;
}

/* ---- marking
 * ----------------------------------------------------------------------------------------------------------
 */

static const hl_state DOUBT_STATES[] = {
    [HL_DOUBT_NONE] = HL_STATE_PASS,         [HL_DOUBT_DISAGREE] = HL_STATE_DOUBT_DISAGREE,
    [HL_DOUBT_WORK] = HL_STATE_DOUBT_WORK,   [HL_DOUBT_VOIDED] = HL_STATE_DOUBT_VOIDED,
    [HL_DOUBT_UNITS] = HL_STATE_DOUBT_UNITS, [HL_DOUBT_AS_FOUND] = HL_STATE_AS_FOUND,
};

void hl__evidence_mark(hl_table *table)
{
    for (int step = 0; table->doubts && step < table->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++) {
            const int place = hl__place(step, note);
            const hl_verdict verdict = hl__meanings[table->states[place]].verdict;
            if (table->doubts[place] != HL_DOUBT_NONE && verdict == HL_PASS)
                hl__table_change(table, step, place, DOUBT_STATES[table->doubts[place]]);
        }
}

void hl__evidence_accept(hl_table *table)
{
    for (int step = 0; table->accepted && step < table->book->n_steps; step++)
        for (int note = 0; note <= table->keys; note++) {
            const int place = hl__place(step, note);
            const hl_verdict verdict = hl__meanings[table->states[place]].verdict;
            if (table->accepted[place] &&
                (verdict == HL_FAIL || verdict == HL_DOUBTFUL || verdict == HL_STALE))
                hl__table_change(table, step, place, HL_STATE_ACCEPTED);
        }
}

/* The first sixteen characters of "2026-03-02T09:14", or NULL. */
static const char *find_minute(const hl_sheet *sheet, const hl_event *event)
{
    static const char FORM[] = "dddd-dd-ddTdd:dd";
    const char *time = hl__text_at(sheet, event->time);
    for (size_t i = 0; i + 1 < sizeof FORM; i++) {
        const bool digit = time[i] >= '0' && time[i] <= '9';
        if (FORM[i] == 'd' ? !digit : time[i] != FORM[i])
            return NULL;
    }
    return time;
}

bool hl__evidence_before(const hl_sheet *sheet, int reading, const hl_adjustment *adjustment)
{
    if (reading <= adjustment->at)
        return true;
    if (adjustment->because >= 0)
        return false;
    const char *read = find_minute(sheet, &sheet->events[reading]);
    const char *worked = find_minute(sheet, &sheet->events[adjustment->at]);
    return read && worked && strncmp(read, worked, 16) < 0;
}
