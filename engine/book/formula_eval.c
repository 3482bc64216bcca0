/* formula_eval.c - values and slopes of formulas (layer: book).
 *
 * Forward differentiation: each number on the stack carries its slope by one variable.  A formula
 * has at most 16 variables, so one run a variable is cheap and keeps the stack small. */
#include "formula_ops.h"

#include <assert.h>
#include <math.h>

typedef struct dual {
    double value, slope;
} dual;

/* NaN is "not known": it stays so unless the other side settles the matter. */
static double both(double a, double b)
{
    if (a == 0 || b == 0) {
        return 0;
    }
    return isnan(a) || isnan(b) ? (double)NAN : 1;
}

static double either(double a, double b)
{
    if (a == 1 || b == 1) {
        return 1;
    }
    return isnan(a) || isnan(b) ? (double)NAN : 0;
}

static dual join_condition(hl_op op, double a, double b)
{
    double yes = 0;
    if (op == HL_OP_AND || op == HL_OP_OR) {
        return (dual){op == HL_OP_AND ? both(a, b) : either(a, b), 0};
    }
    if (isnan(a) || isnan(b)) {
        return (dual){(double)NAN, 0};
    }
    if (op == HL_OP_LESS) {
        yes = a < b;
    } else if (op == HL_OP_AT_MOST) {
        yes = a <= b;
    } else if (op == HL_OP_MORE) {
        yes = a > b;
    } else if (op == HL_OP_AT_LEAST) {
        yes = a >= b;
    } else {
        yes = a >= b && a <= b;
    }
    return (dual){yes, 0};
}

static dual join(hl_op op, dual a, dual b)
{
    const dual unknown = {(double)NAN, (double)NAN};
    switch (op) {
    case HL_OP_ADD:
        return (dual){a.value + b.value, a.slope + b.slope};
    case HL_OP_SUBTRACT:
        return (dual){a.value - b.value, a.slope - b.slope};
    case HL_OP_MULTIPLY:
        return (dual){a.value * b.value, a.slope * b.value + a.value * b.slope};
    case HL_OP_DIVIDE:
        if (!(fabs(b.value) > 0)) {
            return unknown;
        }
        return (dual){a.value / b.value, (a.slope - a.value / b.value * b.slope) / b.value};
    case HL_OP_MIN:
    case HL_OP_MAX:
        if (isnan(a.value) || isnan(b.value)) {
            return unknown;
        }
        return (op == HL_OP_MIN) == (a.value <= b.value) ? a : b;
    default:
        return join_condition(op, a.value, b.value);
    }
}

static dual change(hl_op op, dual a)
{
    if (op == HL_OP_NOT) {
        return (dual){1 - a.value, 0}; /* not of unknown stays unknown */
    }
    bool turn = op == HL_OP_NEGATE || a.value < 0;
    return turn ? (dual){-a.value, -a.slope} : a;
}

/* `by`: the variable whose slope is carried, or -1. */
static dual run_ops(const hl_formula *formula, const double *vars, int by)
{
    dual stack[HL_FORMULA_STACK];
    int n = 0;
    for (int i = 0; i < formula->n_ops; i++) {
        const hl_formula_op *op = &formula->ops[i];
        if (op->op == HL_OP_NUMBER) {
            stack[n++] = (dual){op->number, 0};
        } else if (op->op == HL_OP_VAR) {
            stack[n++] = (dual){vars[op->var], op->var == by ? 1 : 0};
        } else if (op->op < HL_OP_MIN) {
            stack[n - 1] = change((hl_op)op->op, stack[n - 1]);
        } else {
            n--;
            stack[n - 1] = join((hl_op)op->op, stack[n - 1], stack[n]);
        }
    }
    assert(n == 1);
    return stack[0];
}

static dual run(const hl_formula *formula, const double *vars, int by)
{
    dual result = run_ops(formula, vars, by);
    if (formula->condition) {
        return (dual){result.value > 0 ? 1 : 0, 0};
    }
    /* An overflow is no measurement either. */
    if (!isfinite(result.value)) {
        return (dual){(double)NAN, (double)NAN};
    }
    return (dual){result.value, isfinite(result.slope) ? result.slope : (double)NAN};
}

double hl__formula_value(const hl_formula *formula, const double *vars)
{
    return run(formula, vars, -1).value;
}

double hl__formula_truth(const hl_formula *formula, const double *vars)
{
    return run_ops(formula, vars, -1).value;
}

double hl__formula_slope(const hl_formula *formula, const double *vars, int by)
{
    return run(formula, vars, by).slope;
}

double hl__formula_slopes(const hl_formula *formula, const double *vars, double *slopes)
{
    for (int i = 0; i < formula->n_vars; i++) {
        slopes[i] = run(formula, vars, i).slope;
    }
    return hl__formula_value(formula, vars);
}
