/* tolerance_float.c - the one step that a book lets give way (layer: table). */
#include "tolerance_float.h"

bool hl__float_ties(const hl_book *book, int model, int step)
{
    const hl_formula *formula = book->steps[model].formula;
    if (book->steps[step].kind != HL_MEASURED)
        return false;
    for (int i = 0; step != model && i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP && formula->vars[i].index == step)
            return true;
    return step == model;
}

int hl__float_model(const hl_book *book)
{
    for (int i = 0; book->floats.step >= 0 && i < book->n_steps; i++)
        if (book->steps[i].kind == HL_MEASURED && book->steps[i].formula != NULL &&
            hl__float_ties(book, i, book->floats.step))
            return i;
    return -1;
}

/* Do the others of the floating step's set pass at this note?  `doubt`: those in doubt may yet pass.  A tied
 * step that nobody read, or that the book leaves out, does not count as passing. */
static bool others_pass(const hl_table *table, int note, bool doubt)
{
    const hl_book *book = table->book;
    for (int i = 0; i < book->n_steps; i++) {
        if (i == book->floats.step || !hl__float_ties(book, table->head->model, i))
            continue;
        const hl_verdict verdict = hl__table_verdict(table, i, note);
        if (verdict != HL_PASS && !(doubt && verdict == HL_DOUBTFUL))
            return false;
    }
    return true;
}

static hl_target widen(const hl_target *target, hl_amount within)
{
    hl_target wide = *target;
    wide.low -= within;
    wide.high += within;
    return wide;
}

void hl__float_mark(hl_table *table)
{
    const int step = table->book->floats.step;
    const hl_amount within = table->book->floats.within;
    if (table->head->model < 0)
        return;
    for (int note = 0; note <= table->keys; note++) {
        const int place = hl__place(step, note);
        const unsigned char state = table->states[place];
        const hl_target *target = hl__table_target(table, step, note);
        const hl_amount value = table->values[place];
        const bool beyond = (state == HL_STATE_LOW && value >= target->low - within) ||
                            (state == HL_STATE_HIGH && value <= target->high + within);
        if (beyond && hl__table_holds(table, step, note) && others_pass(table, note, false))
            hl__table_change(table, step, place, HL_STATE_FLOATED);
    }
}

hl_target hl__float_target(const hl_table *table, int step, int note)
{
    const hl_target *target = hl__table_target(table, step, note);
    if (!hl__table_floats(table, hl__table_place(table, step, note)))
        return *target;
    return widen(target, table->book->floats.within);
}

void hl__float_limits(const hl_table *table, int step, int note, hl_target *sure, hl_target *possible)
{
    const hl_amount within = table->book->floats.within;
    *sure = *possible = *hl__table_target(table, step, note);
    if (step != table->book->floats.step || table->head->model < 0)
        return;
    if (others_pass(table, note, false))
        *sure = widen(sure, within);
    if (others_pass(table, note, true))
        *possible = widen(possible, within);
}
