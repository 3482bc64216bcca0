/* table.c - fills the table with what was read and what follows from it, and answers what it knows
 * (layer: table). */
#include "table.h"

#include "quantity.h"
#include "step_formula.h"
#include "verdict.h"

#include <math.h>
#include <string.h>

const hl_meaning hl__meanings[HL_STATES] = {
    [HL_STATE_UNREAD] = {HL_MISSING, HL_WHY_UNREAD, false},
    [HL_STATE_PASS] = {HL_PASS, HL_WHY_NONE, true},
    [HL_STATE_LOW] = {HL_FAIL, HL_WHY_LOW, true},
    [HL_STATE_HIGH] = {HL_FAIL, HL_WHY_HIGH, true},
    [HL_STATE_WORD] = {HL_FAIL, HL_WHY_WORD, true},
    [HL_STATE_UNEVEN] = {HL_FAIL, HL_WHY_UNEVEN, true},
    [HL_STATE_GO_LOW] = {HL_FAIL, HL_WHY_LOW, true},
    [HL_STATE_GO_HIGH] = {HL_FAIL, HL_WHY_HIGH, true},
    [HL_STATE_OTHER] = {HL_MISSING, HL_WHY_UNREAD, true},
    [HL_STATE_WITHDRAWN] = {HL_MISSING, HL_WHY_WITHDRAWN, false},
    [HL_STATE_CLOSED] = {HL_MISSING, HL_WHY_UNREAD, false},
    [HL_STATE_GO] = {HL_PASS, HL_WHY_NONE, true},
    [HL_STATE_FLOATED] = {HL_PASS, HL_WHY_NONE, true},
    [HL_STATE_STALE] = {HL_STALE, HL_WHY_ADJUSTED, true},
    [HL_STATE_LOST] = {HL_STALE, HL_WHY_ADJUSTED, true},
    [HL_STATE_DOUBT_LOW] = {HL_DOUBTFUL, HL_WHY_LOW, true},
    [HL_STATE_DOUBT_HIGH] = {HL_DOUBTFUL, HL_WHY_HIGH, true},
    [HL_STATE_DOUBT_GAUGE] = {HL_DOUBTFUL, HL_WHY_OTHER_GAUGE, true},
    [HL_STATE_DOUBT_DISAGREE] = {HL_DOUBTFUL, HL_WHY_DISAGREE, true},
    [HL_STATE_DOUBT_WORK] = {HL_DOUBTFUL, HL_WHY_WORK, true},
    [HL_STATE_DOUBT_VOIDED] = {HL_DOUBTFUL, HL_WHY_VOIDED, true},
    [HL_STATE_DOUBT_UNITS] = {HL_DOUBTFUL, HL_WHY_UNITS, true},
    [HL_STATE_AS_FOUND] = {HL_STALE, HL_WHY_AS_FOUND, true},
    [HL_STATE_ACCEPTED] = {HL_ACCEPTED, HL_WHY_ACCEPTED, true},
    [HL_STATE_MISSING] = {HL_MISSING, HL_WHY_UNREAD, true},
    [HL_STATE_MISSING_WITHDRAWN] = {HL_MISSING, HL_WHY_WITHDRAWN, true},
    [HL_STATE_MISSING_SKIPPED] = {HL_MISSING, HL_WHY_SKIPPED, true},
    [HL_STATE_MISSING_GAUGE] = {HL_MISSING, HL_WHY_OTHER_GAUGE, true},
    [HL_STATE_OUT_OF_SCOPE] = {HL_NOT_APPLICABLE, HL_WHY_SCOPE, true},
    [HL_STATE_LEFT_OUT] = {HL_NOT_APPLICABLE, HL_WHY_BOOK, true},
    [HL_STATE_SILENT] = {HL_MISSING, HL_WHY_UNREAD, false},
    [HL_STATE_SILENT_LEFT_OUT] = {HL_NOT_APPLICABLE, HL_WHY_BOOK, false},
};

/* ---- memory ----------------------------------------------------------------------------------------- */

bool hl__table_make(hl_table *table, const hl_head *head, hl_arena *arena)
{
    const size_t n = (size_t)head->book->n_steps + 1, places = n * HL_NOTES;
    *table = (hl_table){
        .sheet = head->sheet, .book = head->book, .head = head, .arena = arena, .keys = head->keys};
    table->values = hl__arena_array(arena, places, sizeof *table->values);
    table->states = hl__arena_array(arena, places, 1);
    table->exact = hl__arena_array(arena, places, sizeof *table->exact);
    table->lean = hl__arena_array(arena, places, sizeof *table->lean);
    table->counts = hl__arena_array(arena, n, sizeof *table->counts);
    table->note_values = hl__arena_array(arena, n, sizeof *table->note_values);
    table->after = hl__arena_array(arena, n, sizeof *table->after);
    table->elsewhere = hl__arena_array(arena, n, sizeof *table->elsewhere);
    table->effects = hl__arena_array(arena, n, sizeof *table->effects);
    table->effects_elsewhere = hl__arena_array(arena, n, sizeof *table->effects_elsewhere);
    table->marks_again = hl__arena_array(arena, n, 1);
    table->marks_spoil = hl__arena_array(arena, n, 1);
    return table->values && table->states && table->exact && table->lean && table->counts &&
           table->note_values && table->after && table->elsewhere && table->effects &&
           table->effects_elsewhere && table->marks_again && table->marks_spoil;
}

void hl__table_copy(hl_table *to, const hl_table *from)
{
    const size_t n = (size_t)from->book->n_steps, places = n * HL_NOTES;
    to->sheet = from->sheet;
    to->factors = from->factors;
    to->all_exact = from->all_exact;
    memcpy(to->values, from->values, places * sizeof *to->values);
    memcpy(to->states, from->states, places);
    memcpy(to->exact, from->exact, places * sizeof *to->exact);
    memcpy(to->lean, from->lean, places * sizeof *to->lean);
    memcpy(to->counts, from->counts, n * sizeof *to->counts);
}

/* ---- what was read ---------------------------------------------------------------------------------- */

static bool has_reading(unsigned char state)
{
    return state >= HL_STATE_PASS && state <= HL_STATE_OTHER;
}

/* How a place is judged where more is to be asked than the limits. */
static hl_state find_state(const hl_table *table, int step, int place)
{
    const unsigned char blank = table->head->states[place], read = table->sheet->places.states[place];
    if (blank == HL_STATE_OUT_OF_SCOPE)
        return HL_STATE_OUT_OF_SCOPE;
    if (table->book->steps[step].skipped)
        return has_reading(read) ? HL_STATE_LEFT_OUT : (hl_state)blank;
    if (read == HL_STATE_WITHDRAWN)
        return table->head->asked[place] ? HL_STATE_MISSING_WITHDRAWN : HL_STATE_SILENT;
    if (read == HL_STATE_OTHER)
        return hl__verdict_other(table->sheet, step, table->head->sheet->form->targets[place],
                                 &table->sheet->events[table->sheet->places.latest[place]]);
    return has_reading(read) ? (hl_state)read : (hl_state)blank;
}

/* One missing reading for a section in which nothing was read, at its first note, or where a reading was
 * withdrawn. */
static void ask_section(hl_table *table, int step, int from, int to)
{
    unsigned char *states = table->states + hl__place(step, 0);
    const unsigned char *read = table->sheet->places.states + hl__place(step, 0);
    int chosen = 0;
    for (int note = from; note <= to; note++) {
        if (states[note] == HL_STATE_OUT_OF_SCOPE)
            continue;
        if (hl__meanings[states[note]].listed)
            return;
        if (chosen == 0 || (read[note] == HL_STATE_WITHDRAWN && read[chosen] != HL_STATE_WITHDRAWN))
            chosen = note;
    }
    if (chosen > 0)
        states[chosen] = states[chosen] == HL_STATE_SILENT_LEFT_OUT ? HL_STATE_LEFT_OUT
                         : read[chosen] == HL_STATE_WITHDRAWN       ? HL_STATE_MISSING_WITHDRAWN
                                                                    : HL_STATE_MISSING;
}

static void count_step(hl_table *table, int step)
{
    int seen[HL_STATES] = {0}, *counts = table->counts[step];
    const unsigned char *states = table->states + hl__place(step, 0);
    for (int note = 0; note <= table->keys; note++)
        seen[states[note]]++;
    memset(counts, 0, sizeof table->counts[step]);
    for (int state = 0; state < HL_STATES; state++)
        if (hl__meanings[state].listed)
            counts[hl__meanings[state].verdict] += seen[state];
}

void hl__table_count(hl_table *table)
{
    for (int step = 0; step < table->book->n_steps; step++)
        count_step(table, step);
}

static void read_places(hl_table *table, int step)
{
    for (int note = 0; note <= table->keys; note++)
        table->states[hl__place(step, note)] = (unsigned char)find_state(table, step, hl__place(step, note));
    for (int i = 0; table->head->by_section[step] && i < table->head->n_sections; i++)
        ask_section(table, step, i == 0 ? 1 : table->head->section_ends[i - 1] + 1,
                    table->head->section_ends[i]);
    count_step(table, step);
}

/* The usual step: wherever it can be read its reading is judged, so what the reader says is final, and it is
 * asked for all along or not at all. */
static void read_simple(hl_table *table, int step, int reads, int outs)
{
    const int first = hl__place(step, 0);
    const unsigned char *read = table->sheet->places.states + first, *blank = table->head->states + first;
    unsigned char *states = table->states + first;
    for (int note = 0; note < HL_NOTES; note++) {
        /* both are loaded, so that a compiler may do many at once */
        const unsigned char was_read = read[note], was_blank = blank[note];
        states[note] =
            (unsigned char)(was_read - HL_STATE_PASS) <= HL_STATE_WORD - HL_STATE_PASS ? was_read : was_blank;
    }
    if (table->head->all_asked[step])
        table->counts[step][HL_MISSING] -= reads;
    table->counts[step][HL_FAIL] += outs;
    table->counts[step][HL_PASS] += reads - outs;
}

/* Numbers and words among the places of a step, and how many of them fail.  Counted in bytes, which can't run
 * over, so that a compiler may look at many at once. */
static int count_reads(const unsigned char *states, int *outs)
{
    unsigned char reads = 0, fails = 0;
    for (int note = 0; note < HL_NOTES; note++) {
        reads = (unsigned char)(reads + ((unsigned char)(states[note] - HL_STATE_PASS) <=
                                         HL_STATE_WORD - HL_STATE_PASS));
        fails = (unsigned char)(fails + ((unsigned char)(states[note] - HL_STATE_LOW) <=
                                         HL_STATE_WORD - HL_STATE_LOW));
    }
    *outs = fails;
    return reads;
}

static void fill_exact(hl_table *table, int step)
{
    const hl_places *places = &table->sheet->places;
    const bool measured = table->book->steps[step].kind == HL_MEASURED;
    const int first = hl__place(step, 0);
    for (int at = first; at <= first + table->keys; at++)
        table->exact[at] =
            measured && places->states[at] >= HL_STATE_PASS && places->states[at] <= HL_STATE_HIGH
                ? (double)places->values[at] / (double)HL_ONE
                : (double)NAN;
}

void hl__table_read(hl_table *table, const hl_sheet *sheet)
{
    const hl_head *head = table->head;
    const size_t n = (size_t)table->book->n_steps;
    table->sheet = sheet;
    memcpy(table->states, head->states, n * HL_NOTES);
    memcpy(table->counts, head->counts, n * sizeof *table->counts);
    for (int step = 0; step < table->book->n_steps; step++) {
        const bool odd = sheet->places.odd[step];
        const size_t first = (size_t)hl__place(step, 0);
        int outs = 0;
        const int reads = count_reads(sheet->places.states + first, &outs);
        if (head->in_formula[step] && table->book->steps[step].kind != HL_DERIVED)
            fill_exact(table, step);
        if (reads > 0 || odd)
            memcpy(table->values + first, sheet->places.values + first, HL_NOTES * sizeof *table->values);
        if (odd || head->by_section[step] || (reads > 0 && !head->simple[step]))
            read_places(table, step);
        else if (reads > 0)
            read_simple(table, step, reads, outs);
    }
}

/* ---- what follows from it --------------------------------------------------------------------------- */

/* What a reader of the sheet sees of it. */
static void round_value(hl_table *table, const hl_step *step, int place)
{
    const double scaled = table->exact[place] * 1e6; /* within HL_EXACT_FAR: whole part and rest are exact */
    const hl_amount whole = (hl_amount)scaled;
    const double rest = scaled - (double)whole;
    const hl_amount value = whole + (rest >= 0.5) - (rest <= -0.5); /* as llround() does */
    table->values[place] = step->resolution > 0 ? hl__round_to(value, step->resolution) : value;
}

/* The limits are those of the double, so only what fails, is compared with its neighbours, or is to be shown
 * is rounded. */
static void judge_derived(hl_table *table, int index, int from, int to)
{
    const hl_step *step = &table->book->steps[index];
    const hl_head *head = table->head;
    const int row = hl__place(index, 0);
    const double *exact = table->exact + row, *least = head->least + row, *most = head->most + row;
    const unsigned char *blank = head->states + row;
    unsigned char *states = table->states + row;
    int passes = 0, fails = 0;
    for (int note = from; note <= to; note++) {
        const bool known = blank[note] != HL_STATE_OUT_OF_SCOPE && fabs(exact[note]) <= HL_EXACT_FAR;
        const int is_low = exact[note]<least[note], is_high = exact[note]> most[note];
        const int state = HL_STATE_PASS + is_low * (HL_STATE_LOW - HL_STATE_PASS) +
                          is_high * (HL_STATE_HIGH - HL_STATE_PASS);
        states[note] = (unsigned char)(known ? state : blank[note]);
        passes += known & !(is_low | is_high);
        fails += known & (is_low | is_high);
    }
    table->counts[index][HL_PASS] += passes;
    table->counts[index][HL_FAIL] += fails;
    for (int note = hl__next_fail(states, 0); note <= to; note = hl__next_fail(states, note + 1))
        round_value(table, step, row + note);
    for (int note = from; (step->even > 0 || !table->brief) && note <= to; note++)
        if (states[note] == HL_STATE_PASS)
            round_value(table, step, row + note);
}

static void compute_column(hl_table *table, int index)
{
    const hl_formula *formula = table->book->steps[index].formula;
    const double *vars[HL_FORMULA_VARS];
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        vars[i] = (var->kind == HL_VAR_STEP ? table->exact : table->head->facts) + hl__place(var->index, 0);
    }
    hl__formula_column(formula, vars, table->keys + 1, table->exact + hl__place(index, 0));
}

static void compute_notes(hl_table *table, int index, int from, int to)
{
    for (int note = from; note <= to; note++) {
        bool assumed = false;
        hl__table_values(table, note, table->note_values);
        table->exact[hl__place(index, note)] =
            hl__step_formula_value(table->book, table->sheet, index, note, table->note_values, &assumed);
    }
}

/* ---- what follows from gauges without a number ------------------------------------------------------- */

enum { SPANS_MOST = 5 }; /* readings without a number in one formula */

/* Both ends of what a go/no-go reading may be; false when it has none. */
static bool find_span(const hl_table *table, int step, int note, double *low, double *high)
{
    const hl_go_gauge *gauge = &table->sheet->go_gauges[step];
    if (hl__table_state(table, step, note) != HL_STATE_GO || !gauge->stated)
        return false;
    *low = (double)gauge->low / (double)HL_ONE;
    *high = (double)gauge->high / (double)HL_ONE;
    return true;
}

/* The step computed from every corner of what its readings may be: it passes when all of them do, else it is
 * in doubt and is to be read by number.  Nothing changes where a reading is missing. */
static void judge_span(hl_table *table, int index, int note)
{
    const hl_formula *formula = table->book->steps[index].formula;
    const int place = hl__table_place(table, index, note);
    double low[SPANS_MOST], high[SPANS_MOST];
    int steps[SPANS_MOST], n = 0;
    hl__table_values(table, note, table->note_values);
    for (int i = 0; i < formula->n_vars; i++) {
        const int step = formula->vars[i].index;
        if (formula->vars[i].kind != HL_VAR_STEP || !isnan(table->note_values[step]))
            continue;
        if (n == SPANS_MOST || !find_span(table, step, note, &low[n], &high[n]))
            return;
        steps[n++] = step;
    }
    bool passes = n > 0;
    for (int corner = 0; n > 0 && corner < 1 << n; corner++) {
        bool assumed = false;
        hl_amount value = 0;
        for (int k = 0; k < n; k++)
            table->note_values[steps[k]] = corner >> k & 1 ? high[k] : low[k];
        const double exact =
            hl__step_formula_value(table->book, table->sheet, index, note, table->note_values, &assumed);
        if (!hl__table_round(table, index, exact, &value))
            return;
        passes = passes && hl__table_by_limits(table, place, value) == HL_STATE_PASS;
    }
    if (n > 0)
        hl__table_change(table, index, place, passes ? HL_STATE_GO : HL_STATE_DOUBT_GAUGE);
}

static void judge_spans(hl_table *table, int index, int from, int to)
{
    const hl_formula *formula = table->book->steps[index].formula;
    bool any = false;
    for (int i = 0; i < formula->n_vars; i++)
        any =
            any || (formula->vars[i].kind == HL_VAR_STEP && table->sheet->places.odd[formula->vars[i].index]);
    for (int note = from; any && note <= to; note++) {
        const int place = hl__place(index, note);
        if (isnan(table->exact[place]) && table->head->states[place] != HL_STATE_OUT_OF_SCOPE)
            judge_span(table, index, note);
    }
}

void hl__table_derive(hl_table *table)
{
    for (int k = 0; k < table->book->n_order; k++) {
        const int index = table->book->order[k];
        const hl_step *step = &table->book->steps[index];
        const int from = step->scope == HL_ONCE ? 0 : 1, to = step->scope == HL_ONCE ? 0 : table->keys;
        if (step->kind != HL_DERIVED)
            continue;
        if (table->head->by_column[index])
            compute_column(table, index);
        else
            compute_notes(table, index, from, to);
        if (!step->skipped) {
            judge_derived(table, index, from, to);
            judge_spans(table, index, from, to);
        }
    }
}

bool hl__table_floats(const hl_table *table, int place)
{
    const unsigned char state = table->states[place];
    return state == HL_STATE_FLOATED ||
           (state == HL_STATE_UNEVEN &&
            hl__table_by_limits(table, place, table->values[place]) != HL_STATE_PASS);
}

/* ---- asking ----------------------------------------------------------------------------------------- */

static bool was_read(const hl_table *table, int place)
{
    return has_reading(table->sheet->places.states[place]);
}

int hl__table_event(const hl_table *table, int step, int note)
{
    const int place = hl__table_place(table, step, note);
    const unsigned char read = table->sheet->places.states[place];
    return has_reading(read) && table->sheet->expanded ? table->sheet->places.latest[place] : -1;
}

const hl_target *hl__table_target(const hl_table *table, int step, int note)
{
    static const hl_target none = {0};
    const hl_target *target = table->head->sheet->form->targets[hl__table_place(table, step, note)];
    return target ? target : &none;
}

double hl__table_exact(const hl_table *table, int step, int note)
{
    const int place = hl__table_place(table, step, note);
    const hl_kind kind = table->book->steps[step].kind;
    if (kind == HL_JUDGED)
        return NAN;
    if (kind == HL_DERIVED || table->head->in_formula[step] || table->all_exact)
        return table->exact[place];
    const unsigned char read = table->sheet->places.states[place];
    return read >= HL_STATE_PASS && read <= HL_STATE_HIGH ? (double)table->values[place] / (double)HL_ONE
                                                          : (double)NAN;
}

void hl__table_values(const hl_table *table, int note, double *values)
{
    const unsigned char *read = table->sheet->places.states;
    for (int i = 0; i < table->book->n_steps; i++) {
        const hl_value_source source = (hl_value_source)table->head->sources[i];
        const int place = hl__place(i, note & table->head->note_masks[i]);
        if (source == HL_FROM_READING && !table->all_exact)
            values[i] = read[place] >= HL_STATE_PASS && read[place] <= HL_STATE_HIGH
                            ? (double)table->values[place] / (double)HL_ONE
                            : (double)NAN;
        else
            values[i] = source == HL_FROM_NOTHING ? (double)NAN : table->exact[place];
    }
}

bool hl__table_round(const hl_table *table, int step, double exact, hl_amount *out)
{
    hl_amount grain = table->book->steps[step].resolution;
    if (!hl__amount_from(exact, out))
        return false;
    if (grain > 0)
        *out = hl__round_to(*out, grain);
    return true;
}

const hl_moved *hl__table_moved(const hl_table *table, int step, int note)
{
    static const hl_moved none = {0};
    return table->moved ? &table->moved[hl__table_place(table, step, note)] : &none;
}

bool hl__table_overtaken(const hl_table *table, int step, int note)
{
    const hl_state state = hl__table_state(table, step, note);
    return state == HL_STATE_STALE || state == HL_STATE_LOST || hl__table_moved(table, step, note)->overtaken;
}

static bool rests_on_overtaken(const hl_table *table, const hl_formula *formula, int note)
{
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && hl__table_overtaken(table, formula->vars[i].index, note))
            return true;
    return false;
}

/* A modelled step that nobody read stays missing, but its expected value is worth telling, as long as the
 * readings it rests on hold. */
static void expect(const hl_table *table, int step, int note, hl_standing *s)
{
    const hl_formula *formula = table->book->steps[step].formula;
    bool assumed = false;
    if (!formula || rests_on_overtaken(table, formula, note))
        return;
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP &&
            table->book->steps[formula->vars[i].index].kind == HL_DERIVED)
            assumed |= table->head->assumed[hl__table_place(table, formula->vars[i].index, note)];
    hl__table_values(table, note, table->after);
    double value = hl__step_formula_value(table->book, table->sheet, step, note, table->after, &assumed);
    if (!hl__table_round(table, step, value, &s->value))
        return;
    s->has_value = s->computed = true;
    s->assumed = assumed;
}

static bool is_asked(const hl_table *table, int place, hl_state state)
{
    return table->head->asked[place] || state == HL_STATE_MISSING || state == HL_STATE_MISSING_WITHDRAWN;
}

hl_standing hl__table_at(const hl_table *table, int step, int note)
{
    const int place = hl__table_place(table, step, note);
    const hl_state state = (hl_state)table->states[place];
    const hl_meaning *meaning = &hl__meanings[state];
    const bool derived = table->book->steps[step].kind == HL_DERIVED;
    hl_standing s = {.verdict = meaning->verdict,
                     .why = meaning->why,
                     .listed = meaning->listed,
                     .word = -1,
                     .event = hl__table_event(table, step, note),
                     .asked = is_asked(table, place, state),
                     .floated = hl__table_floats(table, place),
                     .exact = hl__table_exact(table, step, note)};
    if (derived) {
        s.go = state == HL_STATE_GO;
        s.computed = hl__state_is_number(state) || state == HL_STATE_STALE || state == HL_STATE_LOST ||
                     state == HL_STATE_DOUBT_LOW || state == HL_STATE_DOUBT_HIGH;
        s.has_value = s.computed && state != HL_STATE_LOST;
        s.value = s.has_value ? table->values[place] : 0;
        s.assumed = s.computed && table->head->assumed[place];
    } else if (s.event >= 0) {
        const hl_event *event = &table->sheet->events[s.event];
        s.has_value = event->kind == HL_EVENT_VALUE && state != HL_STATE_LOST;
        s.value = s.has_value ? table->values[place] : 0;
        s.word = event->kind == HL_EVENT_WORD ? event->word : -1;
        s.go =
            event->kind == HL_EVENT_WITHIN || event->kind == HL_EVENT_OVER || event->kind == HL_EVENT_UNDER;
    }
    if (!derived && !table->sheet->expanded && was_read(table, place)) {
        const bool judged = table->book->steps[step].kind == HL_JUDGED;
        s.has_value = !judged;
        s.value = judged ? 0 : table->values[place];
        s.word = judged ? (int)table->values[place] : -1;
    }
    if (s.verdict == HL_MISSING && s.listed && !derived)
        expect(table, step, note, &s);
    return s;
}

hl_amount hl__table_shift(const hl_table *table, int step, int note)
{
    const int place = hl__place(step, note);
    const hl_target *target = hl__table_target(table, step, note);
    const hl_amount value = table->values[place];
    hl_amount shift = 0;
    switch (table->states[place]) {
    case HL_STATE_STALE:
        /* nobody knows how far an unknown move went */
        if (!hl__table_moved(table, step, note)->strong &&
            hl__amount_from(hl__table_moved(table, step, note)->by, &shift))
            return shift;
        return 0;
    case HL_STATE_UNEVEN: {
        const hl_amount out = 2 * (value - target->aim) - table->lean[place], size = out < 0 ? -out : out;
        return out < 0 ? -(size / 2 + size % 2) : size / 2 + size % 2;
    }
    case HL_STATE_FLOATED:
        return value < target->low ? value - target->low : value - target->high;
    default:
        return 0;
    }
}

/* ---- changing --------------------------------------------------------------------------------------- */

hl_state hl__table_by_limits(const hl_table *table, int place, hl_amount value)
{
    const hl_form *form = table->head->sheet->form;
    return value < form->low[place]    ? HL_STATE_LOW
           : value > form->high[place] ? HL_STATE_HIGH
                                       : HL_STATE_PASS;
}

int hl__next_fail(const unsigned char *states, int note)
{
    const uint64_t ones = UINT64_C(0x0101010101010101);
    for (; note % 8 != 0; note++)
        if (hl__is_fail(states[note]))
            return note;
    for (; note < HL_NOTES; note += 8) {
        uint64_t eight;
        memcpy(&eight, states + note, sizeof eight);
        if (((eight + ones * (0x80 - HL_STATE_FIRST_FAIL)) & ~(eight + ones * (0x7f - HL_STATE_LAST_FAIL)) &
             ones * 0x80) != 0)
            break;
    }
    while (note < HL_NOTES && !hl__is_fail(states[note]))
        note++;
    return note;
}
