/* formula_names.h - a little book in which the formulas of the tests find their names. */
#ifndef FORMULA_NAMES_H
#define FORMULA_NAMES_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "formula.h"
#include "nearest_name.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* A little book to find names in. */
static const struct {
    const char *name;
    hl_var_kind kind;
    hl_dims dims;
    bool judged;
} NAMES[] = {
    {"blow", HL_VAR_STEP, {.length = 1}, false},
    {"let_off", HL_VAR_STEP, {.length = 1}, false},
    {"key_dip", HL_VAR_STEP, {.length = 1}, false},
    {"aftertouch", HL_VAR_STEP, {.length = 1}, false},
    {"downweight", HL_VAR_STEP, {.mass = 1}, false},
    {"upweight", HL_VAR_STEP, {.mass = 1}, false},
    {"repetition", HL_VAR_STEP, {0}, true},
    {"travel_ratio", HL_VAR_FACT, {0}, false},
    {"capstan_pitch", HL_VAR_FACT, {.length = 1, .turn = -1}, false},
    {"front_load", HL_VAR_FACT, {.mass = 1}, false},
    {"hammer_weight", HL_VAR_FACT, {.mass = 1}, false},
    {"whippen_weight", HL_VAR_FACT, {.mass = 1}, false},
    {"capstan_ratio", HL_VAR_FACT, {0}, false},
    {"mean", HL_VAR_FACT, {.mass = 1}, false},
};

static bool look_up(void *context, const char *name, hl_var *out, const char **nearest)
{
    (void)context;
    hl_suggest suggest = {name, NULL, 0};
    for (size_t i = 0; i < COUNT(NAMES); i++) {
        if (strcmp(NAMES[i].name, name) == 0) {
            out->kind = NAMES[i].kind;
            out->index = (int)i;
            out->dims = NAMES[i].dims;
            return !NAMES[i].judged || out->aspect != HL_ASPECT_VALUE;
        }
        hl__suggest_offer(&suggest, NAMES[i].name);
    }
    *nearest = suggest.best;
    return false;
}

static hl_formula *parse(hl_arena *arena, const char *text)
{
    hl_formula *formula = NULL;
    hl_err err = {0};
    if (hl__formula_parse(&formula, arena, text, look_up, NULL, &err) != HL_OK) {
        fail_msg("%s: column %d: %s", text, err.column, err.what);
    }
    return formula;
}

#endif
