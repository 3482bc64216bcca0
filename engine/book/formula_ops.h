/* formula_ops.h - what the parts of the formula reader share (layer: book, private). */
#ifndef HL_FORMULA_OPS_H
#define HL_FORMULA_OPS_H

#include "errors.h"
#include "formula.h"

#define HL_FORMULA_TEXT  1000 /* bytes of text: more is not a formula a person can check */
#define HL_FORMULA_STACK 200  /* more than HL_FORMULA_DEPTH levels of six operands can hold */

typedef enum hl_op {
    HL_OP_NUMBER,
    HL_OP_VAR,
    HL_OP_NEGATE,
    HL_OP_NOT,
    HL_OP_ABS,
    HL_OP_MIN, /* from here on: two operands */
    HL_OP_MAX,
    HL_OP_ADD,
    HL_OP_SUBTRACT,
    HL_OP_MULTIPLY,
    HL_OP_DIVIDE,
    HL_OP_LESS,
    HL_OP_AT_MOST,
    HL_OP_MORE,
    HL_OP_AT_LEAST,
    HL_OP_SAME,
    HL_OP_AND,
    HL_OP_OR,
} hl_op;

typedef enum hl_token_kind {
    HL_TOKEN_END,
    HL_TOKEN_NUMBER,
    HL_TOKEN_NAME,
    HL_TOKEN_OP,
    HL_TOKEN_SIGN
} hl_token_kind;

typedef struct hl_token {
    hl_token_kind kind;
    size_t at, size; /* place in the text */
    hl_op op;        /* HL_TOKEN_OP: a binary operator, or HL_OP_NOT */
    char sign;       /* HL_TOKEN_SIGN: '(' ')' ',' */
    double number;
} hl_token;

/* What a part of a formula is. */
typedef struct hl_type {
    hl_dims dims;
    bool literal;   /* numbers only: takes the dimension its place asks for */
    bool condition; /* yes or no */
} hl_type;

/* An error at a place of the text (from 0).  Use like hl__fail; always false. */
bool hl__formula_fail(hl_err *err, size_t at, const char *what, ...) HL_PRINTF(3, 4);
/* The token that starts at or after `at`. */
bool hl__formula_token(hl_token *out, const char *text, size_t at, hl_err *err);
/* The type of `a op b`, or of `op a` (b is not looked at then). */
bool hl__formula_type(hl_type *out, hl_op op, hl_type a, hl_type b, size_t at, hl_err *err);

#endif
