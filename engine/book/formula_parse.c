/* formula_parse.c - from a formula's text to postfix operations (layer: book).
 *
 * Precedence climbing; nesting is counted, so that no text can exhaust the stack.  What comes out
 * belongs to the arena. */
#include "formula_ops.h"

#include <string.h>

enum { LEVEL_OR = 1, LEVEL_AND, LEVEL_COMPARE, LEVEL_SUM, LEVEL_PRODUCT, LEVEL_NONE };

typedef struct parser {
    const char *text;
    hl_token token;
    hl_formula *formula;
    hl_formula_op *ops;
    hl_var vars[HL_FORMULA_VARS];
    int height; /* of the evaluation stack after the last operation */
    int depth;
    hl_arena *arena;
    hl_formula_lookup *lookup;
    void *context;
    hl_err *err;
} parser;

static bool parse_level(parser *p, hl_type *out, int least);

static bool advance(parser *p)
{
    return hl__formula_token(&p->token, p->text, p->token.at + p->token.size, p->err);
}

static int level_of(const hl_token *token)
{
    if (token->kind != HL_TOKEN_OP) {
        return 0;
    }
    switch (token->op) {
    case HL_OP_OR:
        return LEVEL_OR;
    case HL_OP_AND:
        return LEVEL_AND;
    case HL_OP_LESS:
    case HL_OP_AT_MOST:
    case HL_OP_MORE:
    case HL_OP_AT_LEAST:
    case HL_OP_SAME:
        return LEVEL_COMPARE;
    case HL_OP_ADD:
    case HL_OP_SUBTRACT:
        return LEVEL_SUM;
    case HL_OP_MULTIPLY:
    case HL_OP_DIVIDE:
        return LEVEL_PRODUCT;
    default:
        return 0;
    }
}

static bool refuse_depth(parser *p)
{
    hl__formula_fail(p->err, p->token.at, "the formula is nested deeper than %d levels", HL_FORMULA_DEPTH);
    hl__todo(p->err, "take out parentheses, or split it into two steps");
    return false;
}

/* `grows`: what the operation adds to the evaluation stack.  There is room for all operations,
 * because each takes at least one byte of text. */
static bool emit(parser *p, hl_formula_op op, int grows)
{
    p->height += grows;
    if (p->height > HL_FORMULA_STACK) {
        return refuse_depth(p);
    }
    p->ops[p->formula->n_ops++] = op;
    return true;
}

static bool emit_op(parser *p, hl_op op, int grows)
{
    return emit(p, (hl_formula_op){.op = (int)op}, grows);
}

static bool is_sign(const parser *p, char sign)
{
    return p->token.kind == HL_TOKEN_SIGN && p->token.sign == sign;
}

static bool refuse_token(parser *p, const char *wanted)
{
    if (p->token.kind == HL_TOKEN_END) {
        hl__formula_fail(p->err, p->token.at, "the formula ends where %s should be", wanted);
    } else {
        hl__formula_fail(p->err, p->token.at, "'%.*s' is where %s should be", (int)p->token.size,
                         p->text + p->token.at, wanted);
    }
    hl__todo(p->err, "an example of a formula: (blow - let_off) / key_dip");
    return false;
}

static bool expect_sign(parser *p, char sign, const char *wanted)
{
    return is_sign(p, sign) ? advance(p) : refuse_token(p, wanted);
}

static bool refuse_name(parser *p, const char *name, size_t at, const char *nearest)
{
    hl__formula_fail(p->err, at, "'%s' is not known here", name);
    if (nearest != NULL) {
        hl__todo(p->err, "'%s' was perhaps meant", nearest);
    } else {
        hl__todo(p->err, "name a step or a fact of the book");
    }
    return false;
}

static bool add_var(parser *p, hl_var var, size_t at)
{
    hl_formula *f = p->formula;
    int i = 0;
    while (i < f->n_vars && (p->vars[i].kind != var.kind || p->vars[i].index != var.index ||
                             p->vars[i].aspect != var.aspect)) {
        i++;
    }
    if (i == HL_FORMULA_VARS) {
        hl__formula_fail(p->err, at, "the formula uses more than %d names", HL_FORMULA_VARS);
        hl__todo(p->err, "split it into two steps");
        return false;
    }
    if (i == f->n_vars) {
        p->vars[f->n_vars++] = var;
    }
    return emit(p, (hl_formula_op){.op = HL_OP_VAR, .var = i}, 1);
}

/* A step or a fact, at `name`; `say` is the aspect as written. */
static bool parse_var(parser *p, hl_type *out, hl_token name, hl_aspect aspect, const char *say)
{
    char *text = hl__arena_copy_n(p->arena, p->text + name.at, name.size);
    if (text == NULL) {
        hl__no_memory(p->err);
        return false;
    }
    hl_var var = {.aspect = aspect};
    const char *nearest = NULL;
    if (!p->lookup(p->context, text, &var, &nearest)) {
        return refuse_name(p, text, name.at, nearest);
    }
    var.aspect = aspect;
    if (aspect != HL_ASPECT_VALUE && var.kind != HL_VAR_STEP) {
        hl__formula_fail(p->err, name.at, "%s() asks about a step, and '%s' is a fact", say, text);
        hl__todo(p->err, "name a step of the book");
        return false;
    }
    bool number = aspect == HL_ASPECT_VALUE || aspect == HL_ASPECT_NEIGHBOURS;
    var.dims = number ? var.dims : (hl_dims){0};
    *out = (hl_type){.dims = var.dims, .condition = !number};
    return add_var(p, var, name.at);
}

static bool is_word(const parser *p, hl_token token, const char *word)
{
    return strlen(word) == token.size && memcmp(p->text + token.at, word, token.size) == 0;
}

/* low(x) and the like; the parser is behind the parenthesis. */
static bool parse_aspect(parser *p, hl_type *out, hl_aspect aspect, const char *say)
{
    hl_token name = p->token;
    if (name.kind != HL_TOKEN_NAME) {
        return refuse_token(p, "the name of a step");
    }
    return advance(p) && parse_var(p, out, name, aspect, say) && expect_sign(p, ')', "')'");
}

static bool parse_call(parser *p, hl_type *out, hl_token name)
{
    static const struct {
        const char *word;
        hl_aspect aspect;
    } aspects[] = {
        {"low", HL_ASPECT_LOW},         {"high", HL_ASPECT_HIGH}, {"passes", HL_ASPECT_PASSES},
        {"fails", HL_ASPECT_FAILS},     {"read", HL_ASPECT_READ}, {"neighbours", HL_ASPECT_NEIGHBOURS},
        {"missing", HL_ASPECT_MISSING},
    };
    for (size_t i = 0; i < sizeof aspects / sizeof aspects[0]; i++) {
        if (is_word(p, name, aspects[i].word)) {
            return parse_aspect(p, out, aspects[i].aspect, aspects[i].word);
        }
    }
    hl_op op = is_word(p, name, "abs")   ? HL_OP_ABS
               : is_word(p, name, "min") ? HL_OP_MIN
               : is_word(p, name, "max") ? HL_OP_MAX
                                         : HL_OP_NUMBER;
    if (op == HL_OP_NUMBER) {
        hl__formula_fail(p->err, name.at, "'%.*s' is not a function", (int)name.size, p->text + name.at);
        hl__todo(p->err, "there are abs, min, max, low, high, passes, fails, missing, read and neighbours");
        return false;
    }
    hl_type a = {0}, b = {0};
    if (!parse_level(p, &a, LEVEL_OR)) {
        return false;
    }
    bool two = op != HL_OP_ABS;
    if (two && (!expect_sign(p, ',', "',' and a second value") || !parse_level(p, &b, LEVEL_OR))) {
        return false;
    }
    return expect_sign(p, ')', "')'") && hl__formula_type(out, op, a, b, name.at, p->err) &&
           emit_op(p, op, two ? -1 : 0);
}

static bool parse_primary(parser *p, hl_type *out)
{
    hl_token token = p->token;
    if (token.kind == HL_TOKEN_NUMBER) {
        *out = (hl_type){.literal = true};
        return advance(p) && emit(p, (hl_formula_op){.op = HL_OP_NUMBER, .number = token.number}, 1);
    }
    if (token.kind == HL_TOKEN_NAME) {
        if (!advance(p)) {
            return false;
        }
        if (!is_sign(p, '(')) {
            return parse_var(p, out, token, HL_ASPECT_VALUE, "");
        }
        return advance(p) && parse_call(p, out, token);
    }
    if (is_sign(p, '(')) {
        return advance(p) && parse_level(p, out, LEVEL_OR) && expect_sign(p, ')', "')'");
    }
    return refuse_token(p, "a number, a name or '('");
}

/* Everything that nests comes through here once a level. */
static bool parse_unary(parser *p, hl_type *out)
{
    if (p->depth >= HL_FORMULA_DEPTH) {
        return refuse_depth(p);
    }
    hl_token token = p->token;
    bool minus = token.kind == HL_TOKEN_OP && token.op == HL_OP_SUBTRACT;
    bool negation = token.kind == HL_TOKEN_OP && token.op == HL_OP_NOT;
    bool done;
    p->depth++;
    if (!minus && !negation) {
        done = parse_primary(p, out);
    } else {
        hl_op op = minus ? HL_OP_NEGATE : HL_OP_NOT;
        hl_type a = {0};
        /* `not a < b` is not (a < b): the other reading has no meaning. */
        done = advance(p) && (minus ? parse_unary(p, &a) : parse_level(p, &a, LEVEL_COMPARE)) &&
               hl__formula_type(out, op, a, a, token.at, p->err) && emit_op(p, op, 0);
    }
    p->depth--;
    return done;
}

static bool parse_level(parser *p, hl_type *out, int least)
{
    hl_type a = {0};
    if (!parse_unary(p, &a)) {
        return false;
    }
    bool compared = false;
    for (int level = level_of(&p->token); level != 0 && level >= least; level = level_of(&p->token)) {
        hl_token token = p->token;
        if (level == LEVEL_COMPARE && compared) {
            hl__formula_fail(p->err, token.at, "there are two comparisons in a row");
            hl__todo(p->err, "join them with 'and': a < b and b < c");
            return false;
        }
        compared = level == LEVEL_COMPARE;
        hl_type b = {0}, joined = {0};
        if (!advance(p) || !parse_level(p, &b, level + 1) ||
            !hl__formula_type(&joined, token.op, a, b, token.at, p->err) || !emit_op(p, token.op, -1)) {
            return false;
        }
        a = joined;
    }
    *out = a;
    return true;
}

static bool parse_all(parser *p)
{
    hl_type type = {0};
    if (!advance(p)) {
        return false;
    }
    if (p->token.kind == HL_TOKEN_END) {
        hl__formula_fail(p->err, 0, "the formula is empty");
        hl__todo(p->err, "write one, such as (blow - let_off) / key_dip");
        return false;
    }
    if (!parse_level(p, &type, LEVEL_OR)) {
        return false;
    }
    if (p->token.kind != HL_TOKEN_END) {
        return refuse_token(p, "an operator or the end");
    }
    p->formula->dims = type.dims;
    p->formula->literal = type.literal;
    p->formula->condition = type.condition;
    return true;
}

hl_code hl__formula_parse(hl_formula **out, hl_arena *arena, const char *text, hl_formula_lookup *lookup,
                          void *context, hl_err *err)
{
    *out = NULL;
    size_t size = strlen(text);
    if (size > HL_FORMULA_TEXT) {
        hl__formula_fail(err, HL_FORMULA_TEXT, "the formula is longer than %d characters", HL_FORMULA_TEXT);
        return hl__todo(err, "split it into two steps");
    }
    parser p = {.text = text, .arena = arena, .lookup = lookup, .context = context, .err = err};
    p.formula = hl__arena_take(arena, sizeof *p.formula);
    p.ops = hl__arena_array(arena, size + 1, sizeof *p.ops);
    char *copy = hl__arena_copy_n(arena, text, size);
    if (p.formula == NULL || p.ops == NULL || copy == NULL) {
        return hl__no_memory(err);
    }
    p.formula->text = copy;
    p.formula->ops = p.ops;
    if (!parse_all(&p)) {
        return err->code;
    }
    const size_t n_vars = (size_t)p.formula->n_vars;
    hl_var *vars = hl__arena_array(arena, n_vars + 1, sizeof *vars);
    if (vars == NULL) {
        return hl__no_memory(err);
    }
    memcpy(vars, p.vars, n_vars * sizeof *vars);
    p.formula->vars = vars;
    *out = p.formula;
    return HL_OK;
}
