/* tolerance_float.c - the one step that a book lets give way (layer: judge). */
#include "tolerance_float.h"

#include "verdict.h"

bool hl__floated_ties(const hl_book *book, int model, int step)
{
    const hl_formula *formula = book->steps[model].formula;
    if (book->steps[step].kind != HL_MEASURED)
        return false;
    for (int i = 0; step != model && i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && formula->vars[i].index == step)
            return true;
    return step == model;
}

int hl__floated_model(const hl_book *book)
{
    for (int i = 0; book->floats.step >= 0 && i < book->n_steps; i++)
        if (book->steps[i].kind == HL_MEASURED && book->steps[i].formula != NULL &&
            hl__floated_ties(book, i, book->floats.step))
            return i;
    return -1;
}

/* A tied step that nobody read, or that the book leaves out, vouches for nothing. */
static bool others_pass(const hl_table *table, int model, int note)
{
    const hl_book *book = table->book;
    for (int i = 0; i < book->n_steps; i++)
        if (i != book->floats.step && hl__floated_ties(book, model, i) &&
            hl__table_at(table, i, note)->verdict != HL_PASS)
            return false;
    return true;
}

static hl_target widen(const hl_target *target, hl_amount within)
{
    hl_target wide = *target;
    wide.low -= within;
    wide.high += within;
    return wide;
}

static void float_note(hl_table *table, int step, int note)
{
    hl_standing *s = hl__table_at(table, step, note);
    const hl_target *target = hl__table_target(table, step, note);
    const hl_target wide = widen(target, table->book->floats.within);
    bool beyond = s->verdict == HL_FAIL && (s->why == HL_WHY_LOW || s->why == HL_WHY_HIGH);
    if (!beyond || !s->has_value || s->go || hl__verdict_value(&wide, s->value).verdict != HL_PASS)
        return;
    s->shift = s->value - (s->why == HL_WHY_LOW ? target->low : target->high);
    s->verdict = HL_PASS;
    s->why = HL_WHY_NONE;
    s->floated = true;
}

void hl__floated_mark(hl_table *table)
{
    int model = hl__floated_model(table->book), step = table->book->floats.step;
    if (model < 0 || table->book->floats.within <= 0)
        return;
    for (int note = 0; note <= table->keys; note++)
        if (hl__table_holds(table, step, note) && others_pass(table, model, note))
            float_note(table, step, note);
}

hl_target hl__floated_target(const hl_table *table, int step, int note)
{
    const hl_target *target = hl__table_target(table, step, note);
    if (!hl__table_at(table, step, note)->floated)
        return *target;
    return widen(target, table->book->floats.within);
}

/* No other reading of the set fails, and none is missing; those in doubt may yet pass. */
static bool others_may_pass(const hl_table *table, int model, int note)
{
    const hl_book *book = table->book;
    for (int i = 0; i < book->n_steps; i++) {
        const hl_verdict verdict = hl__table_at(table, i, note)->verdict;
        if (i != book->floats.step && hl__floated_ties(book, model, i) && verdict != HL_PASS &&
            verdict != HL_DOUBTFUL)
            return false;
    }
    return true;
}

void hl__floated_limits(const hl_table *table, int step, int note, hl_target *sure, hl_target *possible)
{
    const hl_amount within = table->book->floats.within;
    int model = step == table->book->floats.step && within > 0 ? hl__floated_model(table->book) : -1;
    *sure = *possible = *hl__table_target(table, step, note);
    if (model >= 0 && others_pass(table, model, note))
        *sure = widen(sure, within);
    if (model >= 0 && others_may_pass(table, model, note))
        *possible = widen(possible, within);
}
