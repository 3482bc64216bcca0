/* formula_token.c - a formula's text cut into tokens (layer: book). */
#include "ascii.h"
#include "formula_ops.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define MOST_DIGITS 15 /* what a double holds exactly */
#define MOST_NAME   64

bool hl__formula_fail(hl_err *err, size_t at, const char *what, ...)
{
    char text[sizeof err->what];
    va_list words;
    va_start(words, what);
    int n = vsnprintf(text, sizeof text, what, words);
    va_end(words);
    hl__fail(err, HL_E_RULE, "%s", n < 0 ? "the formula is wrong" : text);
    hl__at(err, "", 0, (int)at + 1);
    return false;
}

static bool is_name_part(char c)
{
    return hl__is_letter(c) || hl__is_digit(c) || c == '_';
}

static bool refuse_number(const char *text, size_t at, const char *what, const char *todo, hl_err *err)
{
    size_t end = at;
    while (is_name_part(text[end]) || text[end] == '.') {
        end++;
    }
    size_t size = end - at > 40 ? 40 : end - at;
    hl__formula_fail(err, at, "'%.*s' %s", (int)size, text + at, what);
    hl__todo(err, "%s", todo);
    return false;
}

static bool take_number(hl_token *out, const char *text, hl_err *err)
{
    size_t at = out->at;
    int needed = 0, decimals = 0;
    bool mark = false;
    int64_t value = 0;
    double scale = 1;
    for (; hl__is_digit(text[at]) || (text[at] == '.' && !mark); at++) {
        if (text[at] == '.') {
            mark = true;
            continue;
        }
        needed += needed > 0 || text[at] != '0' ? 1 : 0;
        decimals += mark ? 1 : 0;
        scale *= mark ? 10 : 1;
        if (needed > MOST_DIGITS || decimals > MOST_DIGITS) {
            return refuse_number(text, out->at, "has more digits than any measurement",
                                 "leave out the last digits", err);
        }
        value = value * 10 + (text[at] - '0');
    }
    if (text[at] == '.') {
        return refuse_number(text, out->at, "has two decimal points", "write one point", err);
    }
    if (mark && decimals == 0) {
        return refuse_number(text, out->at, "ends in its decimal point",
                             "add the digits, or leave out the point", err);
    }
    if (is_name_part(text[at])) {
        return refuse_number(text, out->at, "is not a number here",
                             "write plain digits without a unit; a number takes the unit of its place", err);
    }
    out->kind = HL_TOKEN_NUMBER;
    out->size = at - out->at;
    out->number = (double)value / scale; /* both exact, so rounded once */
    return true;
}

static bool equals(const char *text, size_t size, const char *word)
{
    return strlen(word) == size && memcmp(text, word, size) == 0;
}

static bool take_name(hl_token *out, const char *text, hl_err *err)
{
    size_t end = out->at;
    while (is_name_part(text[end])) {
        end++;
    }
    out->size = end - out->at;
    if (out->size > MOST_NAME) {
        hl__formula_fail(err, out->at, "'%.*s...' is too long for a name", 40, text + out->at);
        hl__todo(err, "check for a missing blank");
        return false;
    }
    const char *word = text + out->at;
    out->kind = HL_TOKEN_OP;
    if (equals(word, out->size, "and")) {
        out->op = HL_OP_AND;
    } else if (equals(word, out->size, "or")) {
        out->op = HL_OP_OR;
    } else if (equals(word, out->size, "not")) {
        out->op = HL_OP_NOT;
    } else {
        out->kind = HL_TOKEN_NAME;
    }
    return true;
}

static bool take_operator(hl_token *out, const char *text)
{
    static const struct {
        const char *sign;
        hl_op op;
    } operators[] = {
        {"<=", HL_OP_AT_MOST}, {">=", HL_OP_AT_LEAST}, {"==", HL_OP_SAME},
        {"<", HL_OP_LESS},     {">", HL_OP_MORE},      {"+", HL_OP_ADD},
        {"-", HL_OP_SUBTRACT}, {"*", HL_OP_MULTIPLY},  {"/", HL_OP_DIVIDE},
    };
    for (size_t i = 0; i < sizeof operators / sizeof operators[0]; i++) {
        size_t size = strlen(operators[i].sign);
        if (strncmp(text + out->at, operators[i].sign, size) == 0) {
            out->kind = HL_TOKEN_OP;
            out->op = operators[i].op;
            out->size = size;
            return true;
        }
    }
    return false;
}

static bool refuse_sign(const char *text, size_t at, hl_err *err)
{
    uint32_t point = 0;
    int size = hl__utf8_next(text + at, strlen(text + at), &point);
    hl__formula_fail(err, at, "'%.*s' means nothing in a formula", size > 0 ? size : 1, text + at);
    if (text[at] == '=') {
        hl__todo(err, "write == to compare");
    } else if (text[at] == '~' || text[at] == '!') {
        hl__todo(err, "write not (a == b)");
    } else if (text[at] == '^') {
        hl__todo(err, "write a product: x * x");
    } else {
        hl__todo(err, "use + - * / ( ) < <= > >= == and or not, abs, min, max");
    }
    return false;
}

bool hl__formula_token(hl_token *out, const char *text, size_t at, hl_err *err)
{
    while (text[at] == ' ' || text[at] == '\t' || text[at] == '\n' || text[at] == '\r') {
        at++;
    }
    *out = (hl_token){.kind = HL_TOKEN_END, .at = at};
    char c = text[at];
    if (c == '\0') {
        return true;
    }
    if (hl__is_digit(c) || (c == '.' && hl__is_digit(text[at + 1]))) {
        return take_number(out, text, err);
    }
    if (is_name_part(c)) {
        return take_name(out, text, err);
    }
    if (c == '(' || c == ')' || c == ',') {
        out->kind = HL_TOKEN_SIGN;
        out->sign = c;
        out->size = 1;
        return true;
    }
    return take_operator(out, text) || refuse_sign(text, at, err);
}
