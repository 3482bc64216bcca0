/* step_formula.c - a step's formula at a note (layer: table). */
#include "step_formula.h"

#include <math.h>

static double find_aim(const hl_book *book, const hl_sheet *sheet, int step, int note)
{
    const hl_step *s = &book->steps[step];
    if (s->kind == HL_JUDGED || !s->targets)
        return NAN;
    int pitch = s->scope == HL_ONCE || note == 0 ? -1 : hl_note_pitch(sheet->compass, note);
    const hl_target *target = hl__book_target(book, step, pitch);
    if (!target->has_low && !target->has_high)
        return NAN;
    return (double)target->aim / (double)HL_ONE;
}

void hl__step_vars(const hl_book *book, const hl_sheet *sheet, const hl_formula *formula, int note,
                   const double *values, bool with_aims, double *vars, bool *assumed)
{
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_FACT) {
            vars[i] = hl__sheet_value(sheet, var->index, note, assumed);
        } else if (var->aspect != HL_ASPECT_VALUE) {
            vars[i] = NAN; /* aspects belong to conditions; no value follows from them */
        } else {
            vars[i] = values ? values[var->index] : (double)NAN;
            if (with_aims && isnan(vars[i]))
                vars[i] = find_aim(book, sheet, var->index, note);
        }
    }
}

double hl__step_formula_value(const hl_book *book, const hl_sheet *sheet, int step, int note,
                              const double *values, bool *assumed)
{
    const hl_formula *formula = book->steps[step].formula;
    double vars[HL_FORMULA_VARS];
    if (!formula)
        return NAN;
    hl__step_vars(book, sheet, formula, note, values, false, vars, assumed);
    return hl__formula_value(formula, vars);
}

double hl__step_formula_slopes(const hl_book *book, const hl_sheet *sheet, int step, int note,
                               const double *values, bool *assumed, double *slopes)
{
    const hl_formula *formula = book->steps[step].formula;
    double vars[HL_FORMULA_VARS];
    if (!formula)
        return NAN;
    hl__step_vars(book, sheet, formula, note, values, false, vars, assumed);
    return hl__formula_slopes(formula, vars, slopes);
}
