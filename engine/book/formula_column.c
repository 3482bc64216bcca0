/* formula_column.c - one formula for all notes at once (layer: book).
 *
 * The same operations in the same order as formula_eval.c, each for a whole row of notes before the
 * next, so that each note's number is the same to the last bit.  Values only, no slopes. */
#include "formula_ops.h"

#include <math.h>
#include <string.h>

#define STACK 16 /* operands at once: a formula that needs more is not for this file */

static void negate(hl_op op, double *a, int n)
{
    for (int i = 0; i < n; i++) {
        a[i] = op == HL_OP_NEGATE || a[i] < 0 ? -a[i] : a[i];
    }
}

static void divide(double *a, const double *b, int n)
{
    for (int i = 0; i < n; i++) {
        a[i] = fabs(b[i]) > 0 ? a[i] / b[i] : (double)NAN;
    }
}

static void choose(hl_op op, double *a, const double *b, int n)
{
    for (int i = 0; i < n; i++) {
        bool first = (op == HL_OP_MIN) == (a[i] <= b[i]);
        a[i] = isnan(a[i]) || isnan(b[i]) ? (double)NAN : first ? a[i] : b[i];
    }
}

static void join(hl_op op, double *a, const double *b, int n)
{
    switch (op) {
    case HL_OP_ADD:
        for (int i = 0; i < n; i++) {
            a[i] += b[i];
        }
        break;
    case HL_OP_SUBTRACT:
        for (int i = 0; i < n; i++) {
            a[i] -= b[i];
        }
        break;
    case HL_OP_MULTIPLY:
        for (int i = 0; i < n; i++) {
            a[i] *= b[i];
        }
        break;
    case HL_OP_DIVIDE:
        divide(a, b, n);
        break;
    default:
        choose(op, a, b, n);
        break;
    }
}

bool hl__formula_is_plain(const hl_formula *formula)
{
    bool plain = !formula->condition;
    int depth = 0;
    for (int i = 0; i < formula->n_ops; i++) {
        hl_op op = (hl_op)formula->ops[i].op;
        bool operand = op == HL_OP_NUMBER || op == HL_OP_VAR;
        bool sum = op == HL_OP_ADD || op == HL_OP_SUBTRACT || op == HL_OP_MULTIPLY || op == HL_OP_DIVIDE ||
                   op == HL_OP_MIN || op == HL_OP_MAX;
        plain = plain && (operand || sum || op == HL_OP_NEGATE || op == HL_OP_ABS);
        depth += operand ? 1 : op >= HL_OP_MIN ? -1 : 0;
        plain = plain && depth <= STACK;
    }
    return plain;
}

void hl__formula_column(const hl_formula *formula, const double *const *vars, int n, double *out)
{
    double stack[STACK][HL_FORMULA_COLUMN];
    int top = 0;
    for (int k = 0; k < formula->n_ops; k++) {
        const hl_formula_op *op = &formula->ops[k];
        if (op->op == HL_OP_NUMBER) {
            for (int i = 0; i < n; i++) {
                stack[top][i] = op->number;
            }
            top++;
        } else if (op->op == HL_OP_VAR) {
            memcpy(stack[top++], vars[op->var], (size_t)n * sizeof *out);
        } else if (op->op < HL_OP_MIN) {
            negate((hl_op)op->op, stack[top - 1], n);
        } else {
            top--;
            join((hl_op)op->op, stack[top - 1], stack[top], n);
        }
    }
    for (int i = 0; i < n; i++) {
        out[i] = isfinite(stack[0][i]) ? stack[0][i] : (double)NAN;
    }
}

bool hl__formula_is_linear(const hl_formula *formula)
{
    bool holds[HL_FORMULA_STACK]; /* is there a reading in it? */
    int top = 0;
    for (int k = 0; k < formula->n_ops; k++) {
        const hl_formula_op *op = &formula->ops[k];
        if (op->op == HL_OP_NUMBER || op->op == HL_OP_VAR) {
            holds[top++] = op->op == HL_OP_VAR && formula->vars[op->var].kind == HL_VAR_STEP;
            continue;
        }
        if (op->op < HL_OP_MIN) {
            if (op->op != HL_OP_NEGATE && holds[top - 1]) {
                return false;
            }
            continue;
        }
        top--;
        bool sum = op->op == HL_OP_ADD || op->op == HL_OP_SUBTRACT;
        bool by_fact = (op->op == HL_OP_MULTIPLY && !(holds[top - 1] && holds[top])) ||
                       (op->op == HL_OP_DIVIDE && !holds[top]);
        if (!sum && !by_fact && (holds[top - 1] || holds[top])) {
            return false;
        }
        holds[top - 1] = holds[top - 1] || holds[top];
    }
    return true;
}
