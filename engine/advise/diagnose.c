/* diagnose.c - what several readings of a note, taken together, point to (layer: advise).
 *
 * A condition is asked at every note; an answer that hangs on something unread or overtaken is
 * neither yes nor no, and counts for nothing. */
#include "diagnose.h"

#include "evenness.h"

#include <math.h>

#define UNTOLD (-1)

typedef struct diagnosing {
    const hl_table *table;
    signed char *truth;    /* [n_diagnoses][keys + 1]: 1 holds, 0 does not, UNTOLD */
    hl_diagnosed *summary; /* [n_diagnoses]: counts along the compass */
} diagnosing;

/* ---- one note ---------------------------------------------------------------------------- */

static bool is_fresh(hl_verdict verdict)
{
    return verdict == HL_PASS || verdict == HL_FAIL;
}

static bool was_read(const hl_table *table, int step, const hl_standing *s)
{
    if (table->book->steps[step].kind == HL_DERIVED)
        return s->has_value;
    return s->event >= 0 && s->verdict != HL_MISSING;
}

/* A model's guess at what nobody read is no reading. */
static double find_value(const hl_table *table, int step, int note)
{
    const hl_standing s = hl__table_at(table, step, note);
    if (!s.has_value || !was_read(table, step, &s) || hl__table_overtaken(table, step, note))
        return NAN;
    return (double)s.value / (double)HL_ONE;
}

/* In the reading's own unit: where the note would stand if it leaned as its neighbours do. */
static double find_neighbours(const hl_table *table, int step, int note)
{
    hl_amount lean_double = 0;
    if (!hl__even_lean(table, step, note, &lean_double))
        return NAN;
    return ((double)hl__table_target(table, step, note)->aim + (double)lean_double / 2) / (double)HL_ONE;
}

static double find_aspect(const hl_table *table, const hl_var *var, int note)
{
    const hl_standing s = hl__table_at(table, var->index, note);
    const bool fresh = is_fresh(s.verdict);
    bool judged = table->book->steps[var->index].kind == HL_JUDGED;
    switch (var->aspect) {
    case HL_ASPECT_VALUE:
        return find_value(table, var->index, note);
    case HL_ASPECT_NEIGHBOURS:
        return judged ? (double)NAN : find_neighbours(table, var->index, note);
    case HL_ASPECT_LOW:
        return fresh && !judged ? s.why == HL_WHY_LOW : (double)NAN;
    case HL_ASPECT_HIGH:
        return fresh && !judged ? s.why == HL_WHY_HIGH : (double)NAN;
    case HL_ASPECT_PASSES:
        return fresh ? s.verdict == HL_PASS : (double)NAN;
    case HL_ASPECT_FAILS:
        return fresh ? s.verdict == HL_FAIL : (double)NAN;
    case HL_ASPECT_MISSING:
        return s.verdict == HL_MISSING;
    case HL_ASPECT_READ:
        return was_read(table, var->index, &s);
    }
    return NAN;
}

static signed char find_truth(const hl_table *table, const hl_formula *when, int note)
{
    double vars[HL_FORMULA_VARS];
    bool assumed = false;
    for (int i = 0; i < when->n_vars; i++) {
        const hl_var *var = &when->vars[i];
        vars[i] = var->kind == HL_VAR_FACT ? hl__sheet_value(table->sheet, var->index, note, &assumed)
                                           : find_aspect(table, var, note);
    }
    double truth = hl__formula_truth(when, vars);
    return isnan(truth) ? UNTOLD : truth > 0;
}

/* ---- along the compass ------------------------------------------------------------------- */

/* A condition over steps that are read once is asked of the instrument, once. */
static bool is_of_notes(const hl_book *book, const hl_formula *when)
{
    for (int i = 0; i < when->n_vars; i++)
        if (when->vars[i].kind == HL_VAR_STEP && book->steps[when->vars[i].index].scope != HL_ONCE)
            return true;
    return false;
}

static signed char *truth_at(const diagnosing *d, int diagnosis, int note)
{
    return &d->truth[(size_t)diagnosis * ((size_t)d->table->keys + 1) + (size_t)note];
}

static void ask_everywhere(diagnosing *d, int i)
{
    const hl_formula *when = d->table->book->diagnoses[i].when;
    bool of_notes = is_of_notes(d->table->book, when);
    d->summary[i] = (hl_diagnosed){.diagnosis = i};
    for (int note = 0; note <= d->table->keys; note++) {
        signed char *truth = truth_at(d, i, note);
        *truth = of_notes == (note > 0) ? find_truth(d->table, when, note) : UNTOLD;
        d->summary[i].holds += *truth == 1;
        d->summary[i].known += *truth != UNTOLD;
    }
}

static bool holds_widely(const hl_diagnosed *summary)
{
    return summary->known >= HL_WIDE_FEWEST && 2 * summary->holds > summary->known;
}

static bool holds(const diagnosing *d, int i, int note)
{
    if (d->table->book->diagnoses[i].spread == HL_SPREAD_WIDE)
        return note == 0 && holds_widely(&d->summary[i]);
    return *truth_at(d, i, note) == 1;
}

/* What is told of the instrument speaks for all its notes; what is told of a note, for that note. */
static bool is_told(const diagnosing *d, int i, int note)
{
    int by = d->table->book->diagnoses[i].quiet_by;
    if (!holds(d, i, note))
        return false;
    if (by < 0 || by >= d->table->book->n_diagnoses || hl__book_quiet_circle(d->table->book, i))
        return true;
    return !is_told(d, by, note) && !(note > 0 && is_told(d, by, 0));
}

static size_t list_told(const diagnosing *d, hl_diagnosed *out)
{
    size_t n = 0;
    for (int i = 0; i < d->table->book->n_diagnoses; i++)
        for (int note = 0; note <= d->table->keys; note++) {
            if (!is_told(d, i, note))
                continue;
            if (out != NULL) {
                out[n] = d->summary[i];
                out[n].note = note;
            }
            n++;
        }
    return n;
}

bool hl__diagnose(const hl_table *table, hl_diagnosed **out, size_t *n)
{
    size_t diagnoses = (size_t)table->book->n_diagnoses, notes = (size_t)table->keys + 1;
    diagnosing d = {.table = table};
    if (diagnoses > SIZE_MAX / notes - 1)
        return false;
    d.truth = hl__arena_array(table->arena, diagnoses * notes + 1, 1);
    d.summary = hl__arena_array(table->arena, diagnoses + 1, sizeof *d.summary);
    if (d.truth == NULL || d.summary == NULL)
        return false;
    for (int i = 0; i < table->book->n_diagnoses; i++)
        ask_everywhere(&d, i);
    *n = list_told(&d, NULL);
    *out = hl__arena_array(table->arena, *n + 1, sizeof **out);
    return *out != NULL && list_told(&d, *out) == *n;
}
