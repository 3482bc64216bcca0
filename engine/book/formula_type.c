/* formula_type.c - do the units of a formula fit together? (layer: book)
 *
 * A length and a weight can be multiplied, never added; a plain number takes the unit that its
 * place asks for. */
#include "formula_ops.h"

#define MOST_POWER 9 /* no formula of ours needs more, and the powers must not wrap */

static const char *say_op(hl_op op)
{
    switch (op) {
    case HL_OP_MIN:
        return "put into one min()";
    case HL_OP_MAX:
        return "put into one max()";
    case HL_OP_ADD:
        return "added";
    case HL_OP_SUBTRACT:
        return "subtracted";
    case HL_OP_MULTIPLY:
        return "multiplied";
    case HL_OP_DIVIDE:
        return "divided";
    case HL_OP_NEGATE:
        return "made negative";
    case HL_OP_ABS:
        return "put into abs()";
    default:
        return "compared";
    }
}

static bool refuse_condition(hl_op op, size_t at, hl_err *err)
{
    hl__formula_fail(err, at, "a condition (yes or no) can't be %s", say_op(op));
    hl__todo(err, "join conditions with and, or, not");
    return false;
}

static bool type_logic(hl_type *out, hl_op op, hl_type a, hl_type b, size_t at, hl_err *err)
{
    if (!a.condition || (op != HL_OP_NOT && !b.condition)) {
        hl__formula_fail(err, at, "'%s' joins conditions (yes or no), and a number is beside it",
                         op == HL_OP_AND  ? "and"
                         : op == HL_OP_OR ? "or"
                                          : "not");
        hl__todo(err, "compare the number with something: x > 1");
        return false;
    }
    *out = (hl_type){.condition = true};
    return true;
}

/* Both sides must be of one unit: sums, comparisons, min and max. */
static bool type_alike(hl_type *out, hl_op op, hl_type a, hl_type b, size_t at, hl_err *err)
{
    if (!a.literal && !b.literal && !hl__dims_equal(a.dims, b.dims)) {
        char left[48], right[48];
        hl__formula_fail(err, at, "%s and %s can't be %s", hl__dims_name(a.dims, left),
                         hl__dims_name(b.dims, right), say_op(op));
        hl__todo(err, "check the units on both sides");
        return false;
    }
    bool sum = op == HL_OP_ADD || op == HL_OP_SUBTRACT || op == HL_OP_MIN || op == HL_OP_MAX;
    *out = (hl_type){.dims = a.literal ? b.dims : a.dims, .literal = a.literal && b.literal};
    if (!sum) {
        *out = (hl_type){.condition = true};
    }
    return true;
}

static bool add_power(signed char *power, int a, int b)
{
    int sum = a + b;
    *power = (signed char)sum;
    return sum >= -MOST_POWER && sum <= MOST_POWER;
}

static bool type_product(hl_type *out, hl_op op, hl_type a, hl_type b, size_t at, hl_err *err)
{
    int sign = op == HL_OP_DIVIDE ? -1 : 1;
    *out = (hl_type){.literal = a.literal && b.literal};
    if (!add_power(&out->dims.length, a.dims.length, sign * b.dims.length) ||
        !add_power(&out->dims.mass, a.dims.mass, sign * b.dims.mass) ||
        !add_power(&out->dims.turn, a.dims.turn, sign * b.dims.turn) ||
        !add_power(&out->dims.angle, a.dims.angle, sign * b.dims.angle) ||
        !add_power(&out->dims.notch, a.dims.notch, sign * b.dims.notch)) {
        hl__formula_fail(err, at, "a unit goes beyond its 9th power here");
        hl__todo(err, "check the formula for a product too many");
        return false;
    }
    return true;
}

bool hl__formula_type(hl_type *out, hl_op op, hl_type a, hl_type b, size_t at, hl_err *err)
{
    bool single = op == HL_OP_NEGATE || op == HL_OP_ABS || op == HL_OP_NOT;
    if (op == HL_OP_AND || op == HL_OP_OR || op == HL_OP_NOT) {
        return type_logic(out, op, a, b, at, err);
    }
    if (a.condition || (!single && b.condition)) {
        return refuse_condition(op, at, err);
    }
    if (single) {
        *out = a;
        return true;
    }
    if (op == HL_OP_MULTIPLY || op == HL_OP_DIVIDE) {
        return type_product(out, op, a, b, at, err);
    }
    return type_alike(out, op, a, b, at, err);
}
