/* table.c - fills the table with what was read and what follows from it (layer: judge). */
#include "table.h"

#include "effects_cache.h"
#include "verdict.h"

#include <math.h>

bool hl__table_start(hl_table *table, const hl_sheet *sheet, const hl_book *book, hl_arena *arena)
{
    size_t n = (size_t)book->n_steps;
    size_t notes = (size_t)sheet->compass.keys + 1;
    *table = (hl_table){.sheet = sheet, .book = book, .arena = arena, .keys = sheet->compass.keys};
    if (n > SIZE_MAX / notes)
        return false;
    table->standings = hl__arena_array(arena, n * notes + 1, sizeof *table->standings);
    table->values = hl__arena_array(arena, n + 1, sizeof *table->values);
    table->after = hl__arena_array(arena, n + 1, sizeof *table->after);
    table->elsewhere = hl__arena_array(arena, n + 1, sizeof *table->elsewhere);
    table->effects = hl__arena_array(arena, n + 1, sizeof *table->effects);
    table->effects_elsewhere = hl__arena_array(arena, n + 1, sizeof *table->effects_elsewhere);
    table->marks_again = hl__arena_array(arena, n + 1, 1);
    table->marks_spoil = hl__arena_array(arena, n + 1, 1);
    table->once = hl__arena_array(arena, n + 1, sizeof *table->once);
    table->maskers = hl__arena_array(arena, n + 1, sizeof *table->maskers);
    for (int i = 0; table->once && table->maskers && i < book->n_steps; i++) {
        if (book->steps[i].scope == HL_ONCE)
            table->once[table->n_once++] = i;
        if (book->steps[i].n_masks > 0)
            table->maskers[table->n_maskers++] = i;
    }
    return table->standings && table->values && table->after && table->elsewhere && table->effects &&
           table->effects_elsewhere && table->marks_again && table->marks_spoil && table->once &&
           table->maskers;
}

static hl_standing *find_cell(const hl_table *table, int step, int note)
{
    return &table->standings[(size_t)note * (size_t)table->book->n_steps + (size_t)step];
}

bool hl__table_holds(const hl_table *table, int step, int note)
{
    return (table->book->steps[step].scope == HL_ONCE) == (note == 0);
}

hl_standing *hl__table_at(const hl_table *table, int step, int note)
{
    return find_cell(table, step, table->book->steps[step].scope == HL_ONCE ? 0 : note);
}

const hl_target *hl__table_target(const hl_table *table, int step, int note)
{
    static const hl_target none = {0};
    const hl_step *s = &table->book->steps[step];
    if (s->kind == HL_JUDGED || !s->targets)
        return &none;
    if (s->scope == HL_ONCE || note == 0)
        return hl__book_target(table->book, step, -1);
    return hl__book_target(table->book, step, hl_note_pitch(table->sheet->compass, note));
}

void hl__effects_now(const hl_table *table, int adjuster, int note, const double *values, hl_effect *effects)
{
    const double *factors =
        table->factors ? table->factors + (size_t)adjuster * (size_t)table->book->n_steps : NULL;
    if (!table->known || table->factors ||
        !hl__known_effects(table->known, table->book, table->sheet, adjuster, note, values, effects))
        hl__effects_learned(table->book, table->sheet, factors, adjuster, note, values, effects);
}

const int *hl__table_moved(const hl_table *table, int adjuster, int note, int *n)
{
    return table->known && !table->factors ? hl__known_moved(table->known, table->sheet, adjuster, note, n)
                                           : NULL;
}

void hl__table_values(const hl_table *table, int note, double *values)
{
    const hl_standing *row = find_cell(table, 0, note);
    for (int i = 0; i < table->book->n_steps; i++)
        values[i] = row[i].exact;
    for (int i = 0; i < table->n_once; i++)
        values[table->once[i]] = find_cell(table, table->once[i], 0)->exact;
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

/* ---- what was read ----------------------------------------------------------------------- */

/* Must there be a reading at this very note?  (One for each section is asked for elsewhere.) */
static bool is_required(const hl_table *table, const hl_step *step, int note)
{
    if (step->kind == HL_DERIVED || step->need == HL_NEED_OPTIONAL || step->scope == HL_SECTIONS)
        return false;
    return step->scope == HL_ONCE || step->need == HL_NEED_EVERY || hl__sheet_is_sample(table->sheet, note);
}

/* Of a sample, only the notes that were drawn are asked for; the instrument always is. */
static bool is_drawn(const hl_table *table, int note)
{
    return note == 0 || !table->sampled || table->sampled[note];
}

static void take_event(const hl_table *table, int step, int note, hl_standing *s)
{
    const hl_event *event = &table->sheet->events[s->event];
    hl_ruling ruling =
        hl__verdict_event(&table->book->steps[step], hl__table_target(table, step, note), event);
    s->verdict = ruling.verdict;
    s->why = ruling.why;
    s->go = event->kind == HL_EVENT_WITHIN || event->kind == HL_EVENT_OVER || event->kind == HL_EVENT_UNDER;
    if (event->kind == HL_EVENT_VALUE) {
        s->has_value = true;
        s->value = event->amount;
        s->exact = (double)event->amount / (double)HL_ONE;
    } else if (event->kind == HL_EVENT_WORD) {
        s->word = event->word;
    }
}

static void read_cell(const hl_table *table, int i, int note)
{
    const hl_step *step = &table->book->steps[i];
    hl_standing *s = find_cell(table, i, note);
    bool held = hl__table_holds(table, i, note);
    bool withdrawn = held && hl__sheet_withdrawn(table->sheet, i, note);
    *s = (hl_standing){.verdict = HL_MISSING,
                       .why = withdrawn ? HL_WHY_WITHDRAWN : HL_WHY_UNREAD,
                       .withdrawn = withdrawn,
                       .word = -1,
                       .exact = NAN,
                       .event = held ? (int)hl__sheet_latest(table->sheet, i, note) : -1};
    if (s->event >= 0)
        take_event(table, i, note, s);
    if (!hl__sheet_applies(table->sheet, step, note)) {
        s->verdict = HL_NOT_APPLICABLE;
        s->why = HL_WHY_SCOPE;
        s->listed = held;
    } else {
        s->asked = is_required(table, step, note) && is_drawn(table, note);
        s->listed = s->event >= 0 || s->asked;
        if (step->skipped) {
            s->verdict = HL_NOT_APPLICABLE;
            s->why = HL_WHY_BOOK;
        }
    }
}

/* One missing reading for a section in which nothing was read, at its first note, or where a
 * reading was withdrawn. */
static void ask_section(const hl_table *table, int step, int from, int to)
{
    int place = 0;
    for (int note = from; note <= to; note++) {
        const hl_standing *s = find_cell(table, step, note);
        if (s->why == HL_WHY_SCOPE)
            continue;
        if (s->listed)
            return;
        if (place == 0 || (s->withdrawn && !find_cell(table, step, place)->withdrawn))
            place = note;
    }
    if (place)
        find_cell(table, step, place)->listed = find_cell(table, step, place)->asked = true;
}

/* Samples are naturals unless the sheet says otherwise, so a step of the sharps may have no
 * sample note at all.  It is then asked once a section: no reading, no pass. */
bool hl__table_asks_sections(const hl_table *table, int i)
{
    const hl_step *step = &table->book->steps[i];
    if (step->kind == HL_DERIVED || step->need == HL_NEED_OPTIONAL || step->scope == HL_ONCE)
        return false;
    if (step->scope == HL_SECTIONS)
        return true;
    for (int note = 1; note <= table->keys; note++)
        if (hl__sheet_applies(table->sheet, step, note) && is_required(table, step, note))
            return false;
    return true;
}

static void ask_sections(const hl_table *table, int step)
{
    int from = 1;
    for (int note = 1; note <= table->keys; note++) {
        bool last = note == table->keys ||
                    hl__sheet_section(table->sheet, note + 1) != hl__sheet_section(table->sheet, note);
        if (last) {
            ask_section(table, step, from, note);
            from = note + 1;
        }
    }
}

void hl__table_read(hl_table *table)
{
    for (int step = 0; step < table->book->n_steps; step++) {
        for (int note = 0; note <= table->keys; note++)
            read_cell(table, step, note);
        if (hl__table_asks_sections(table, step))
            ask_sections(table, step);
    }
}

/* ---- what follows from it ---------------------------------------------------------------- */

static bool uses_assumed(const hl_table *table, const hl_formula *formula, int note)
{
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP &&
            hl__table_at(table, formula->vars[i].index, note)->assumed)
            return true;
    return false;
}

static void compute_derived(const hl_table *table, int note)
{
    for (int k = 0; k < table->book->n_order; k++) {
        const int i = table->book->order[k];
        const hl_step *step = &table->book->steps[i];
        if (step->kind != HL_DERIVED || !hl__table_holds(table, i, note))
            continue;
        hl_standing *s = find_cell(table, i, note);
        bool assumed = uses_assumed(table, step->formula, note);
        double value = hl__step_formula_value(table->book, table->sheet, i, note, table->values, &assumed);
        if (isnan(value))
            continue;
        s->exact = table->values[i] = value;
        s->assumed = assumed;
    }
}

static void judge_derived(const hl_table *table, int step, int note)
{
    hl_standing *s = find_cell(table, step, note);
    if (s->verdict == HL_NOT_APPLICABLE || !hl__table_round(table, step, s->exact, &s->value))
        return;
    hl_ruling ruling = hl__verdict_value(hl__table_target(table, step, note), s->value);
    s->verdict = ruling.verdict;
    s->why = ruling.why;
    s->listed = s->has_value = s->computed = true;
}

/* A modelled step that nobody read stays missing, but its expected value is worth telling. */
static void compute_model(const hl_table *table, int step, int note)
{
    hl_standing *s = find_cell(table, step, note);
    if (s->verdict != HL_MISSING || !s->listed)
        return;
    bool assumed = uses_assumed(table, table->book->steps[step].formula, note);
    double value = hl__step_formula_value(table->book, table->sheet, step, note, table->values, &assumed);
    if (!hl__table_round(table, step, value, &s->value))
        return;
    s->has_value = s->computed = true;
    s->assumed = assumed;
}

void hl__table_compute(hl_table *table)
{
    for (int note = 0; note <= table->keys; note++) {
        hl__table_values(table, note, table->values);
        compute_derived(table, note);
        for (int i = 0; i < table->book->n_steps; i++) {
            const hl_step *step = &table->book->steps[i];
            if (!step->formula || !hl__table_holds(table, i, note))
                continue;
            if (step->kind == HL_DERIVED)
                judge_derived(table, i, note);
            else
                compute_model(table, i, note);
        }
    }
}
