/* press_book.c - an opened book as C constants (layer: press).
 *
 * The types of a book are described member by member, in tables; one writer goes through them.  Each list
 * is written in place, as a compound literal of its type, so no name need be made up.  A member that a
 * table forgets leaves a hole in its type, and the writer refuses; only a flag may hide in padding. */
#include "press.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

typedef enum kind {
    TEXT,   /* const char *, or NULL */
    WHOLE,  /* int or an enumeration */
    SMALL,  /* signed char */
    FLAG,   /* bool */
    AMOUNT, /* hl_amount */
    NUMBER, /* double */
    NAME,   /* an array of char */
    ARENA,  /* left empty */
    PART,   /* a struct, in place */
    ONE,    /* a pointer to a struct, or NULL */
    LIST,   /* a pointer to as many as another member says */
} kind;

typedef struct shape shape;

typedef struct member {
    const char *name;
    kind kind;
    size_t at, size;
    const shape *of; /* PART, ONE, LIST */
    size_t count_at; /* LIST: where its number stands; 0: all pitches and the instrument */
} member;

/* A struct has members; anything else is one of a kind. */
struct shape {
    const char *type;
    size_t size;
    const member *members;
    int n;
    kind kind;
};

#define PLACE(type, name) #name, offsetof(type, name), sizeof(((type *)0)->name)
#define MEMBER_(a, b, c, ...)                                                                                \
    {                                                                                                        \
        .name = (a), .at = (b), .size = (c), __VA_ARGS__                                                     \
    }
#define MEMBER(...)            MEMBER_(__VA_ARGS__)
#define IS(what, type, name)   MEMBER(PLACE(type, name), .kind = (what))
#define HAS(type, name, shape) MEMBER(PLACE(type, name), .kind = PART, .of = &(shape))
#define TO(type, name, shape)  MEMBER(PLACE(type, name), .kind = ONE, .of = &(shape))
#define MANY(type, name, shape)                                                                              \
    MEMBER(PLACE(type, name), .kind = LIST, .of = &(shape), .count_at = offsetof(type, n_##name))
#define SHAPE(type, table)                                                                                   \
    {                                                                                                        \
#type, sizeof(type), table, (int)(sizeof(table) / sizeof *(table)), PART                             \
    }

static const shape int_shape = {"int", sizeof(int), NULL, 0, WHOLE};
static const shape amount_shape = {"hl_amount", sizeof(hl_amount), NULL, 0, AMOUNT};

/* ---- the types of a book ---------------------------------------------------------------------- */

static const member origin_members[] = {IS(TEXT, hl_origin, file), IS(WHOLE, hl_origin, line)};
static const shape origin_shape = SHAPE(hl_origin, origin_members);

static const member change_members[] = {IS(TEXT, hl_change, field), IS(TEXT, hl_change, why),
                                        HAS(hl_change, origin, origin_shape)};
static const shape change_shape = SHAPE(hl_change, change_members);

static const member dims_members[] = {IS(SMALL, hl_dims, length), IS(SMALL, hl_dims, mass),
                                      IS(SMALL, hl_dims, turn), IS(SMALL, hl_dims, angle),
                                      IS(SMALL, hl_dims, notch)};
static const shape dims_shape = SHAPE(hl_dims, dims_members);

static const member var_members[] = {IS(WHOLE, hl_var, kind), IS(WHOLE, hl_var, index),
                                     IS(WHOLE, hl_var, aspect), HAS(hl_var, dims, dims_shape)};
static const shape var_shape = SHAPE(hl_var, var_members);

static const member op_members[] = {IS(WHOLE, hl_formula_op, op), IS(NUMBER, hl_formula_op, number),
                                    IS(WHOLE, hl_formula_op, var)};
static const shape op_shape = SHAPE(hl_formula_op, op_members);

static const member formula_members[] = {IS(TEXT, hl_formula, text),    MANY(hl_formula, ops, op_shape),
                                         IS(WHOLE, hl_formula, n_ops),  MANY(hl_formula, vars, var_shape),
                                         IS(WHOLE, hl_formula, n_vars), HAS(hl_formula, dims, dims_shape),
                                         IS(FLAG, hl_formula, literal), IS(FLAG, hl_formula, condition)};
static const shape formula_shape = SHAPE(hl_formula, formula_members);

static const member target_members[] = {IS(AMOUNT, hl_target, low), IS(AMOUNT, hl_target, aim),
                                        IS(AMOUNT, hl_target, high), IS(FLAG, hl_target, has_low),
                                        IS(FLAG, hl_target, has_high)};
static const shape target_shape = SHAPE(hl_target, target_members);

static const member remedy_members[] = {IS(WHOLE, hl_remedy, adjuster), IS(FLAG, hl_remedy, more)};
static const shape remedy_shape = SHAPE(hl_remedy, remedy_members);

static const member word_members[] = {IS(TEXT, hl_word, word), IS(TEXT, hl_word, means),
                                      IS(TEXT, hl_word, todo), MANY(hl_word, remedies, remedy_shape),
                                      IS(WHOLE, hl_word, n_remedies)};
static const shape word_shape = SHAPE(hl_word, word_members);

static const member step_members[] = {
    IS(TEXT, hl_step, id),
    IS(TEXT, hl_step, title),
    IS(TEXT, hl_step, plain),
    IS(WHOLE, hl_step, stage),
    IS(WHOLE, hl_step, unit),
    IS(WHOLE, hl_step, kind),
    IS(WHOLE, hl_step, need),
    IS(WHOLE, hl_step, scope),
    IS(AMOUNT, hl_step, resolution),
    IS(AMOUNT, hl_step, gauge),
    IS(AMOUNT, hl_step, even),
    IS(FLAG, hl_step, breaks),
    IS(TEXT, hl_step, ask),
    IS(TEXT, hl_step, why),
    IS(TEXT, hl_step, source),
    IS(TEXT, hl_step, caution),
    IS(TEXT, hl_step, method),
    IS(FLAG, hl_step, unsourced),
    IS(TEXT, hl_step, gauge_name),
    MANY(hl_step, words, word_shape),
    IS(WHOLE, hl_step, n_words),
    TO(hl_step, formula, formula_shape),
    MANY(hl_step, fixes, int_shape),
    IS(WHOLE, hl_step, n_fixes),
    MANY(hl_step, masks, int_shape),
    IS(WHOLE, hl_step, n_masks),
    IS(TEXT, hl_step, skipped),
    MEMBER(PLACE(hl_step, targets), .kind = LIST, .of = &target_shape),
    MANY(hl_step, changes, change_shape),
    IS(WHOLE, hl_step, n_changes),
    HAS(hl_step, origin, origin_shape),
};
static const shape step_shape = SHAPE(hl_step, step_members);

static const member move_members[] = {IS(WHOLE, hl_move, step),   IS(WHOLE, hl_move, kind),
                                      IS(WHOLE, hl_move, sign),   TO(hl_move, formula, formula_shape),
                                      IS(FLAG, hl_move, assumed), HAS(hl_move, origin, origin_shape)};
static const shape move_shape = SHAPE(hl_move, move_members);

static const member adjuster_members[] = {
    IS(TEXT, hl_adjuster, id),
    IS(TEXT, hl_adjuster, title),
    IS(TEXT, hl_adjuster, verb),
    IS(TEXT, hl_adjuster, more),
    IS(TEXT, hl_adjuster, less),
    IS(WHOLE, hl_adjuster, unit),
    IS(AMOUNT, hl_adjuster, finest),
    MANY(hl_adjuster, sizes, amount_shape),
    IS(WHOLE, hl_adjuster, n_sizes),
    IS(AMOUNT, hl_adjuster, reach),
    IS(FLAG, hl_adjuster, whole),
    IS(FLAG, hl_adjuster, irreversible),
    IS(TEXT, hl_adjuster, visit),
    MANY(hl_adjuster, moves, move_shape),
    IS(WHOLE, hl_adjuster, n_moves),
    IS(FLAG, hl_adjuster, assumed),
    IS(TEXT, hl_adjuster, source),
    IS(TEXT, hl_adjuster, why),
    MANY(hl_adjuster, changes, change_shape),
    IS(WHOLE, hl_adjuster, n_changes),
    HAS(hl_adjuster, origin, origin_shape),
};
static const shape adjuster_shape = SHAPE(hl_adjuster, adjuster_members);

static const member fact_members[] = {
    IS(TEXT, hl_fact, id),        IS(TEXT, hl_fact, title),   IS(TEXT, hl_fact, unit),
    IS(FLAG, hl_fact, has_value), IS(NUMBER, hl_fact, value), IS(FLAG, hl_fact, assumed),
    IS(TEXT, hl_fact, source),    IS(TEXT, hl_fact, why),     HAS(hl_fact, origin, origin_shape)};
static const shape fact_shape = SHAPE(hl_fact, fact_members);

static const member stage_members[] = {IS(TEXT, hl_stage, id), IS(TEXT, hl_stage, title),
                                       IS(TEXT, hl_stage, caution), HAS(hl_stage, origin, origin_shape)};
static const shape stage_shape = SHAPE(hl_stage, stage_members);

static const member cause_members[] = {IS(TEXT, hl_cause, cause), IS(TEXT, hl_cause, test),
                                       IS(TEXT, hl_cause, todo)};
static const shape cause_shape = SHAPE(hl_cause, cause_members);

static const member diagnosis_members[] = {IS(TEXT, hl_diagnosis, id),
                                           IS(TEXT, hl_diagnosis, title),
                                           TO(hl_diagnosis, when, formula_shape),
                                           MANY(hl_diagnosis, causes, cause_shape),
                                           IS(WHOLE, hl_diagnosis, n_causes),
                                           IS(WHOLE, hl_diagnosis, spread),
                                           IS(WHOLE, hl_diagnosis, quiet_by),
                                           IS(TEXT, hl_diagnosis, source),
                                           HAS(hl_diagnosis, origin, origin_shape)};
static const shape diagnosis_shape = SHAPE(hl_diagnosis, diagnosis_members);

static const member option_members[] = {IS(TEXT, hl_option, name), IS(TEXT, hl_option, text)};
static const shape option_shape = SHAPE(hl_option, option_members);

static const member chosen_members[] = {IS(TEXT, hl_chosen, id),
                                        IS(TEXT, hl_chosen, title),
                                        MANY(hl_chosen, options, option_shape),
                                        IS(WHOLE, hl_chosen, n_options),
                                        IS(WHOLE, hl_chosen, option),
                                        IS(WHOLE, hl_chosen, uses),
                                        IS(TEXT, hl_chosen, source),
                                        MANY(hl_chosen, changes, change_shape),
                                        IS(WHOLE, hl_chosen, n_changes),
                                        HAS(hl_chosen, origin, origin_shape)};
static const shape chosen_shape = SHAPE(hl_chosen, chosen_members);

static const member acknowledged_members[] = {
    IS(WHOLE, hl_acknowledged, adjuster), IS(WHOLE, hl_acknowledged, step), IS(TEXT, hl_acknowledged, why),
    HAS(hl_acknowledged, origin, origin_shape)};
static const shape acknowledged_shape = SHAPE(hl_acknowledged, acknowledged_members);

static const member overlaid_members[] = {IS(WHOLE, hl_overlaid, adjuster),
                                          HAS(hl_overlaid, was, move_shape)};
static const shape overlaid_shape = SHAPE(hl_overlaid, overlaid_members);

static const member float_members[] = {IS(WHOLE, hl_float, step), IS(AMOUNT, hl_float, within),
                                       HAS(hl_float, origin, origin_shape)};
static const shape float_shape = SHAPE(hl_float, float_members);

static const member compass_members[] = {IS(WHOLE, hl_compass, lowest), IS(WHOLE, hl_compass, keys)};
static const shape compass_shape = SHAPE(hl_compass, compass_members);

static const member book_members[] = {
    IS(ARENA, hl_book, arena),
    IS(TEXT, hl_book, id),
    IS(TEXT, hl_book, title),
    IS(TEXT, hl_book, about),
    HAS(hl_book, compass, compass_shape),
    IS(NAME, hl_book, hash),
    MANY(hl_book, stages, stage_shape),
    IS(WHOLE, hl_book, n_stages),
    MANY(hl_book, steps, step_shape),
    IS(WHOLE, hl_book, n_steps),
    MANY(hl_book, adjusters, adjuster_shape),
    IS(WHOLE, hl_book, n_adjusters),
    MANY(hl_book, facts, fact_shape),
    IS(WHOLE, hl_book, n_facts),
    HAS(hl_book, floats, float_shape),
    MANY(hl_book, acknowledged, acknowledged_shape),
    IS(WHOLE, hl_book, n_acknowledged),
    MANY(hl_book, overlaid, overlaid_shape),
    IS(WHOLE, hl_book, n_overlaid),
    MANY(hl_book, diagnoses, diagnosis_shape),
    IS(WHOLE, hl_book, n_diagnoses),
    MANY(hl_book, choices, chosen_shape),
    IS(WHOLE, hl_book, n_choices),
    IS(AMOUNT, hl_book, stale_share),
    MANY(hl_book, files, origin_shape),
    IS(WHOLE, hl_book, n_files),
};
static const shape book_shape = SHAPE(hl_book, book_members);

/* ---- the writer ------------------------------------------------------------------------------- */

void press_text(FILE *out, const char *text)
{
    if (text == NULL) {
        fputs("NULL", out);
        return;
    }
    fputc('"', out);
    for (const unsigned char *c = (const unsigned char *)text; *c != '\0'; c++) {
        const bool plain = *c >= ' ' && *c <= '~' && *c != '"' && *c != '\\' && *c != '?';
        if (plain)
            fputc(*c, out);
        else
            fprintf(out, "\\%03o", *c);
    }
    fputc('"', out);
}

/* Between members stands nothing but what alignment asks for. */
static void refuse_holes(const shape *of)
{
    size_t at = 0;
    for (int i = 0; i < of->n; i++) {
        const member *m = &of->members[i];
        const size_t align = m->size < sizeof(void *) ? m->size : sizeof(void *);
        if (m->at < at || m->at - at >= (align > 0 ? align : 1))
            at = SIZE_MAX;
        else
            at = m->at + m->size;
        if (at == SIZE_MAX || (i == of->n - 1 && of->size - at >= sizeof(void *))) {
            fprintf(stderr, "press: %s has a member near '%s' that press_book.c does not know\n", of->type,
                    m->name);
            exit(1);
        }
    }
}

static void put(FILE *out, const shape *of, const char *at);

static void put_list(FILE *out, const member *m, const char *base, const char *first)
{
    int n = HL_PITCHES + 1;
    if (m->count_at > 0)
        memcpy(&n, base + m->count_at, sizeof n);
    if (n == 0 || first == NULL) {
        fputs("NULL", out);
        return;
    }
    /* a book's own lists are not typed const, but nobody writes to a book */
    fprintf(out, "(%s *)(const %s[]){\n", m->of->type, m->of->type);
    for (int i = 0; i < n; i++) {
        put(out, m->of, first + (size_t)i * m->of->size);
        fputs(",\n", out);
    }
    fputs("}", out);
}

/* Numbers in decimal, but doubles to the last bit. */
static void put_plain(FILE *out, kind what, const char *at, size_t size)
{
    int whole;
    hl_amount amount;
    double number;
    switch (what) {
    case WHOLE:
        memcpy(&whole, at, sizeof whole);
        fprintf(out, "%d", whole);
        break;
    case SMALL:
    case FLAG:
        fprintf(out, "%d", *(const signed char *)at);
        break;
    case AMOUNT:
        memcpy(&amount, at, sizeof amount);
        fprintf(out, "INT64_C(%" PRId64 ")", amount);
        break;
    case NUMBER:
        fputs(size > sizeof number ? "{" : "", out);
        for (size_t i = 0; i < size / sizeof number; i++) {
            memcpy(&number, at + i * sizeof number, sizeof number);
            fprintf(out, "%s%a", i > 0 ? ", " : "", number);
        }
        fputs(size > sizeof number ? "}" : "", out);
        break;
    default:
        press_text(out, at); /* NAME */
    }
}

static void put_member(FILE *out, const member *m, const char *base)
{
    const char *at = base + m->at, *to = NULL;
    if (m->kind == ARENA)
        return;
    if (m->kind == TEXT || m->kind == ONE || m->kind == LIST)
        memcpy(&to, at, sizeof to);
    fprintf(out, ".%s = ", m->name);
    if (m->kind == TEXT) {
        press_text(out, to);
    } else if (m->kind == LIST) {
        put_list(out, m, base, to);
    } else if (m->kind == PART) {
        put(out, m->of, at);
    } else if (m->kind == ONE && to != NULL) {
        fprintf(out, "&(const %s)", m->of->type);
        put(out, m->of, to);
    } else if (m->kind == ONE) {
        fputs("NULL", out);
    } else {
        put_plain(out, m->kind, at, m->size);
    }
    fputs(", ", out);
}

static void put(FILE *out, const shape *of, const char *at)
{
    if (of->members == NULL) {
        put_plain(out, of->kind, at, of->size);
        return;
    }
    refuse_holes(of);
    fputs("{", out);
    for (int i = 0; i < of->n; i++)
        put_member(out, &of->members[i], at);
    fputs("}", out);
}

void press_book(FILE *out, const hl_book *book)
{
    put(out, &book_shape, (const char *)book);
}
