/* learn.c - what the adjusters really move on this piano (layer: state).
 *
 * For each move that the book gives in numbers: every pair of readings of a note, one after the
 * other, by the same person and method, with that adjuster's work between them.  What others did
 * in between is taken off at the book's figure, and doubted; a pair is left out when nobody can
 * say how much they did.  The fit itself is learn_fit.c. */
#include "learn.h"

#include "effects.h"
#include "gauge_reading.h"
#include "learn_fit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Of one note: what was done since its last reading. */
typedef struct span {
    long last;        /* that reading's row + 1; 0 = none */
    long row;         /* of the adjuster's own last adjustment */
    double predicted; /* what the book expects of this adjuster */
    double other;     /* and of the others */
    double variance;  /* what hands and the others' figures add to the doubt */
    bool spoiled;
} span;

typedef struct search {
    const hl_table *table;
    int adjuster;
    const hl_move *move;
    span *spans;   /* [keys + 1] */
    hl_seen *seen; /* [n_events + 1] */
    int n;
} search;

bool hl__same_text(const hl_sheet *sheet, uint32_t a, uint32_t b)
{
    return a == b || strcmp(hl__text_at(sheet, a), hl__text_at(sheet, b)) == 0;
}

bool hl__comparable(const hl_sheet *sheet, const hl_event *a, const hl_event *b)
{
    return hl__same_text(sheet, a->method, b->method) && hl__same_text(sheet, a->by, b->by);
}

double hl__hand_doubt(const hl_adjuster *adjuster)
{
    return adjuster->n_sizes > 0 ? 0 : HL_HAND_SHARE * (double)adjuster->finest / (double)HL_ONE;
}

static const hl_move *find_move(const hl_adjuster *adjuster, int step)
{
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == step)
            return &adjuster->moves[i];
    return NULL;
}

static void add_adjustment(search *s, long at, const hl_move *move, int note)
{
    const hl_event *event = &s->table->sheet->events[at];
    span *here = &s->spans[note];
    if (here->last == 0 || !hl__table_holds(s->table, move->step, note))
        return;
    hl_effect effect = hl__effect_of_move(s->table->book, s->table->sheet, event->step, move, note);
    if (effect.kind == HL_EFFECT_NONE)
        return;
    if (effect.kind != HL_EFFECT_BY || event->no_amount) {
        here->spoiled = true;
        return;
    }
    double shift = effect.by * (double)event->amount / (double)HL_ONE;
    double hand = effect.by * hl__hand_doubt(&s->table->book->adjusters[event->step]);
    here->variance += hand * hand;
    if (event->step == s->adjuster) {
        here->predicted += shift;
        here->row = at;
        return;
    }
    double doubt = HL_ASSUMED_SHARE * shift;
    here->other += shift;
    here->variance += doubt * doubt;
}

double hl__reading_doubt(const hl_table *table, int step)
{
    hl_gauge_from from;
    return (double)hl__gauge_reading(table->sheet, table->book, step, &from) / (double)HL_ONE;
}

static double find_variance(const hl_table *table, int step)
{
    double gauge = HL_GAUGE_SHARE * hl__reading_doubt(table, step);
    double grain = (double)table->book->steps[step].resolution / (double)HL_ONE;
    return gauge * gauge + grain * grain / 12; /* 12: of a rounding */
}

static double find_wanted(const search *s, int note, const hl_event *before)
{
    const hl_target *target = hl__table_target(s->table, s->move->step, note);
    if (!target->has_low && !target->has_high)
        return NAN;
    return (double)(target->aim - before->amount) / (double)HL_ONE;
}

static void add_reading(search *s, long at)
{
    const hl_event *event = &s->table->sheet->events[at];
    span *here = &s->spans[event->note];
    const hl_event *before = here->last > 0 ? &s->table->sheet->events[here->last - 1] : NULL;
    double variance = here->variance + 2 * find_variance(s->table, event->step);
    if (before && !here->spoiled && here->predicted != 0 && variance > 0 &&
        hl__comparable(s->table->sheet, before, event)) {
        double change = (double)(event->amount - before->amount) / (double)HL_ONE;
        s->seen[s->n++] = (hl_seen){.predicted = here->predicted,
                                    .seen = change - here->other,
                                    .doubt = sqrt(variance),
                                    .wanted = find_wanted(s, event->note, before),
                                    .note = event->note,
                                    .row = here->row};
    }
    *here = (span){.last = at + 1};
}

static void gather(search *s)
{
    const hl_table *table = s->table;
    s->n = 0;
    memset(s->spans, 0, ((size_t)table->keys + 1) * sizeof *s->spans);
    for (size_t i = 0; i < table->sheet->n_events; i++) {
        const hl_event *event = &table->sheet->events[i];
        if (event->withdrawn)
            continue;
        if (event->kind == HL_EVENT_VALUE && event->step == s->move->step)
            add_reading(s, (long)i);
        if (event->kind != HL_EVENT_ADJUSTMENT)
            continue;
        const hl_adjuster *adjuster = &table->book->adjusters[event->step];
        const hl_move *move = find_move(adjuster, s->move->step);
        bool everywhere = event->note == 0 || adjuster->whole;
        int from = everywhere ? 0 : event->note, to = everywhere ? table->keys : event->note;
        for (int note = from; move && note <= to; note++)
            add_adjustment(s, (long)i, move, note);
    }
}

/* A screw that serves every note is one adjustment, at however many notes it was seen.  Readings
 * come in time order, so those of one adjustment stand together. */
static int count_told(const search *s)
{
    if (!s->table->book->adjusters[s->adjuster].whole)
        return s->n;
    int told = 0;
    for (int i = 0; i < s->n; i++)
        told += i == 0 || s->seen[i].row != s->seen[i - 1].row;
    return told;
}

/* The lowest natural that was seen, or else the lowest note. */
static int find_note(const search *s)
{
    int best = 0;
    bool natural = false;
    for (int i = 0; i < s->n; i++) {
        int note = s->seen[i].note;
        bool white = note == 0 || !hl_pitch_is_sharp(hl_note_pitch(s->table->sheet->compass, note));
        if (i == 0 || (white && !natural) || (white == natural && note < best)) {
            best = note;
            natural = white;
        }
    }
    return best;
}

static bool write_learned(search *s, hl_learned *out)
{
    const hl_table *table = s->table;
    *out = (hl_learned){
        .adjuster = s->adjuster, .step = s->move->step, .n = count_told(s), .note = find_note(s)};
    hl_fit fit = hl__learn_fit(s->seen, s->n, out->n, find_variance(table, out->step));
    hl_effect effect = hl__effect_of_move(table->book, table->sheet, s->adjuster, s->move, out->note);
    out->factor = fit.factor;
    out->spread = fit.spread;
    out->why = fit.why;
    out->used = fit.why == HL_LEARNED_USED;
    return isfinite(fit.factor) && hl__amount_from(effect.by, &out->assumed) &&
           hl__amount_from(effect.by * fit.factor, &out->effect);
}

static bool take_factor(hl_table *table, const hl_learned *learned)
{
    size_t steps = (size_t)table->book->n_steps;
    if (!table->factors)
        table->factors = hl__arena_array(table->arena, (size_t)table->book->n_adjusters * steps + 1,
                                         sizeof *table->factors);
    if (!table->factors)
        return false;
    table->factors[(size_t)learned->adjuster * steps + (size_t)learned->step] = learned->factor;
    return true;
}

/* Adjustments recorded, by adjuster: most sheets have none, and then nothing is to be done. */
static bool was_touched(const hl_table *table, int adjuster)
{
    for (int note = 0; note <= table->keys; note++)
        if (hl__sheet_latest_change(table->sheet, adjuster, note) >= 0)
            return true;
    return false;
}

static bool learn_move(search *s, hl_table *table, hl_learned *list, size_t *n)
{
    if (s->move->kind != HL_MOVE_BY || !s->move->formula || table->book->steps[s->move->step].formula)
        return true;
    gather(s);
    if (s->n == 0 || !write_learned(s, &list[*n]))
        return true;
    if (list[*n].used && !take_factor(table, &list[*n]))
        return false;
    (*n)++;
    return true;
}

static size_t count_moves(const hl_table *table)
{
    size_t n = 0;
    for (int i = 0; i < table->book->n_adjusters; i++)
        if (was_touched(table, i))
            n += (size_t)table->book->adjusters[i].n_moves;
    return n;
}

bool hl__learn(hl_table *table, hl_learned **out, size_t *n)
{
    size_t moves = table->sheet->n_changes > 0 ? count_moves(table) : 0;
    bool ok = true;
    *out = NULL;
    *n = 0;
    if (moves == 0)
        return true;
    search s = {.table = table,
                .spans = calloc((size_t)table->keys + 1, sizeof *s.spans),
                .seen = calloc(table->sheet->n_events + 1, sizeof *s.seen)};
    *out = hl__arena_array(table->arena, moves, sizeof **out);
    ok = s.spans && s.seen && *out;
    for (int i = 0; ok && i < table->book->n_adjusters; i++) {
        const hl_adjuster *adjuster = &table->book->adjusters[i];
        s.adjuster = i;
        for (int k = 0; ok && was_touched(table, i) && k < adjuster->n_moves; k++) {
            s.move = &adjuster->moves[k];
            ok = learn_move(&s, table, *out, n);
        }
    }
    free(s.spans);
    free(s.seen);
    return ok;
}
