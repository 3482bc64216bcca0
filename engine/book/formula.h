/* formula.h - plain arithmetic over steps and facts, unit-checked, with slopes (layer: book).
 *
 *   (blow - let_off) / (key_dip - aftertouch)
 *
 * Grammar: + - * / unary minus, parentheses, decimal numbers, names, abs(x) min(a,b) max(a,b);
 * in conditions also < <= > >= == and or not, and the aspects of a step:
 * low(x) high(x) passes(x) fails(x) missing(x) read(x) neighbours(x)   (x a step id).
 * A number literal takes the dimension that its place asks for when added to or compared with a
 * quantity (`key_dip - 1` is 1 mm). */
#ifndef HL_FORMULA_H
#define HL_FORMULA_H

#include "arena.h"
#include "quantity.h"

typedef enum hl_var_kind { HL_VAR_STEP, HL_VAR_FACT } hl_var_kind;
typedef enum hl_aspect {
    HL_ASPECT_VALUE,
    HL_ASPECT_LOW, /* 1 when the step's reading at the note fails low */
    HL_ASPECT_HIGH,
    HL_ASPECT_PASSES,
    HL_ASPECT_FAILS,
    HL_ASPECT_MISSING,
    HL_ASPECT_READ,
    HL_ASPECT_NEIGHBOURS, /* median of the nearest neighbours of the same colour */
} hl_aspect;

typedef struct hl_var {
    hl_var_kind kind;
    int index;
    hl_aspect aspect;
    hl_dims dims;
} hl_var;

#define HL_FORMULA_VARS  16
#define HL_FORMULA_DEPTH 32

typedef struct hl_formula_op {
    int op; /* private to formula_ops.h */
    double number;
    int var;
} hl_formula_op;

struct hl_formula {
    const char *text;         /* as written */
    const hl_formula_op *ops; /* postfix */
    int n_ops;
    const hl_var *vars;
    int n_vars;     /* at most HL_FORMULA_VARS */
    hl_dims dims;   /* of the result */
    bool literal;   /* numbers only ("9.9"): takes the dimension that its place asks for */
    bool condition; /* the result is yes or no */
};

/* Finds a name: fills kind, index and dims of *out and returns true.  out->aspect is the aspect
 * asked for, so that a judged step can be refused as a value.  On false it may offer the
 * nearest right name through *nearest (borrowed, or left NULL). */
typedef bool hl_formula_lookup(void *context, const char *name, hl_var *out, const char **nearest);

/* Parse into the arena.  Errors: HL_E_RULE, err->column = place in the text, no file. */
hl_code hl__formula_parse(hl_formula **out, hl_arena *arena, const char *text, hl_formula_lookup *lookup,
                          void *context, hl_err *err);

/* Value with the variables' values in the order of formula->vars (base units: mm, g, turns;
 * aspects 1 or 0).  NaN anywhere it is used makes the result NaN; a condition is 1 or 0, and
 * comparisons with NaN are 0.  Division by zero is NaN.  Inside a condition a comparison with NaN
 * is neither yes nor no, so `not (x < 3)` is 0 too when x was not read, while
 * `missing(x) or x > 3` is 1. */
double hl__formula_value(const hl_formula *formula, const double *vars);
/* The same for n notes at once (at most HL_FORMULA_COLUMN); vars[i] is variable i, note by note.  Only
 * of a plain formula: arithmetic, no conditions.  formula_column.c. */
#define HL_FORMULA_COLUMN (HL_PITCHES + 1)
bool hl__formula_is_plain(const hl_formula *formula);
void hl__formula_column(const hl_formula *formula, const double *const *vars, int n, double *out);
/* Do its slopes by the readings depend on facts alone? */
bool hl__formula_is_linear(const hl_formula *formula);
/* A condition: 1 yes, 0 no, NaN when what is known does not settle it. */
double hl__formula_truth(const hl_formula *formula, const double *vars);
/* Value, and its slope by each variable (forward differentiation, exact).  slopes has
 * formula->n_vars places.  abs, min, max take the slope of the branch they are on. */
double hl__formula_slopes(const hl_formula *formula, const double *vars, double *slopes);
/* The slope by one of them, formula->vars[by]. */
double hl__formula_slope(const hl_formula *formula, const double *vars, int by);

#endif
