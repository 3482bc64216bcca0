/* build_formula.c - formulas of steps and diagnoses, checked for units and circles (layer: host/build). */
#include "build.h"

#include "errors.h"
#include "nearest_name.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct scope {
    const hl_builder *b;
    bool facts_only;
    hl_origin at;
    bool no_memory;
} scope;

/* Weighing every name against a wrong one takes long, so it is left for a wrong one. */
static const char *find_nearest(const scope *s, const char *name)
{
    const hl_book *book = s->b->book;
    hl_suggest suggest = {name, NULL, 0};
    for (int i = 0; i < book->n_facts; i++)
        hl__suggest_offer(&suggest, book->facts[i].id);
    for (int i = 0; i < book->n_steps && !s->facts_only; i++)
        hl__suggest_offer(&suggest, book->steps[i].id);
    return suggest.best;
}

static bool find_var(const hl_book *book, const char *name, hl_var *out)
{
    for (int i = 0; i < book->n_facts; i++) {
        if (strcmp(book->facts[i].id, name) == 0) {
            *out = (hl_var){.kind = HL_VAR_FACT, .index = i};
            return hl__dims_parse(&out->dims, book->facts[i].unit);
        }
    }
    for (int i = 0; i < book->n_steps; i++) {
        if (strcmp(book->steps[i].id, name) == 0) {
            *out = (hl_var){.kind = HL_VAR_STEP, .index = i, .dims = hl__unit_dims(book->steps[i].unit)};
            return true;
        }
    }
    return false;
}

static bool look_up(void *context, const char *name, hl_var *out, const char **nearest)
{
    scope *s = context;
    const hl_book *book = s->b->book;
    if (find_var(book, name, out))
        return true;
    hl_err err;
    const char *is = hl__book_new_name(book, name);
    if (is == NULL || !find_var(book, is, out)) {
        *nearest = find_nearest(s, name);
        return false;
    }
    const char *was = hl__arena_copy(s->b->draft->arena, name);
    if (was == NULL || hl__old_name_note(s->b->draft->old_names, was, is, s->at, &err) != HL_OK)
        s->no_memory = true;
    return true;
}

static hl_code check_vars(hl_builder *b, const hl_formula *formula, hl_origin at, bool facts_only)
{
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP)
            continue;
        const hl_step *step = &b->book->steps[var->index];
        if (facts_only)
            return hl__build_fail(b, at, "an adjuster moves by the same amount whatever was read; use facts",
                                  "formula \"%s\": '%s' is a step", formula->text, step->id);
        bool number = var->aspect == HL_ASPECT_VALUE || var->aspect == HL_ASPECT_NEIGHBOURS ||
                      var->aspect == HL_ASPECT_LOW || var->aspect == HL_ASPECT_HIGH;
        if (number && step->kind == HL_JUDGED)
            return hl__build_fail(b, at, "ask passes(), fails(), missing() or read() of it",
                                  "formula \"%s\": '%s' is judged and has no number", formula->text,
                                  step->id);
    }
    return HL_OK;
}

hl_code hl__build_formula(hl_builder *b, const char *text, hl_origin at, bool facts_only, hl_formula **out)
{
    scope s = {b, facts_only, at, false};
    hl_code code = hl__formula_parse(out, &b->book->arena, text, look_up, &s, b->err);
    if (s.no_memory)
        return hl__no_memory(b->err);
    if (code == HL_OK)
        return check_vars(b, *out, at, facts_only);
    if (code == HL_E_MEMORY)
        return code;
    hl_err inner = *b->err;
    hl__fail(b->err, HL_E_RULE, "formula \"%.120s\", at %d: %s", text, inner.column, inner.what);
    hl__todo(b->err, "%s", inner.todo);
    return hl__at(b->err, at.file, at.line, 0);
}

static hl_code build_one(hl_builder *b, const hl_value *value, hl_step *step)
{
    if (value->kind == HL_IS_NOTHING)
        return HL_OK;
    hl_formula *formula;
    hl_code code = hl__build_formula(b, value->text, value->origin, false, &formula);
    if (code != HL_OK)
        return code;
    if (formula->condition)
        return hl__build_fail(b, value->origin, "a step needs a number",
                              "the formula of '%s' comes out as yes or no", step->id);
    hl_dims dims = hl__unit_dims(step->unit);
    if (!hl__dims_equal(formula->dims, dims)) {
        char has[48], must[48];
        return hl__build_fail(b, value->origin, "check the formula for a missing factor",
                              "the formula of '%s' comes out in %s; the step is in %s", step->id,
                              hl__dims_name(formula->dims, has), hl__dims_name(dims, must));
    }
    step->formula = formula;
    return HL_OK;
}

/* A step that is left out leaves no reading: what is computed from it would never be judged. */
static hl_code check_skipped(hl_builder *b, const hl_step *step)
{
    for (int i = 0; step->formula != NULL && i < step->formula->n_vars; i++) {
        const hl_var *var = &step->formula->vars[i];
        if (step->kind != HL_DERIVED || step->skipped != NULL || var->kind != HL_VAR_STEP)
            continue;
        const hl_step *needed = &b->book->steps[var->index];
        if (needed->skipped == NULL)
            continue;
        hl_origin at = b->draft->parts[HL_P_STEP].items[var->index]->skip->origin;
        char todo[120];
        snprintf(todo, sizeof todo, "skip '%s' too, or keep this one", step->id);
        return hl__build_fail(b, at, todo, "skip of '%s': '%s' is computed from it", needed->id, step->id);
    }
    return HL_OK;
}

/* ---- circles ----------------------------------------------------------------------------------- */

static hl_code refuse_circle(hl_builder *b, const int circle[2])
{
    const hl_step *step = &b->book->steps[circle[0]];
    const hl_value *values = b->draft->parts[HL_P_STEP].items[circle[0]]->values;
    const hl_value *from = step->kind == HL_DERIVED ? &values[STEP_FORMULA] : &values[STEP_MODEL];
    return hl__build_fail(b, from->origin, "one of them must be measured without a formula",
                          "formulas go round in a circle: '%s' needs '%s', which needs '%s' itself", step->id,
                          b->book->steps[circle[1]].id, step->id);
}

static hl_code find_order(hl_builder *b)
{
    int circle[2] = {0, 0};
    switch (hl__book_find_order(b->book, circle)) {
    case HL_IN_CIRCLE:
        return refuse_circle(b, circle);
    case HL_NO_ORDER_ROOM:
        return hl__no_memory(b->err);
    case HL_ORDERED:
        break;
    }
    return HL_OK;
}

hl_code hl__build_formulas(hl_builder *b)
{
    hl_code code = HL_OK;
    for (int i = 0; code == HL_OK && i < b->book->n_steps; i++) {
        hl_step *step = &b->book->steps[i];
        const hl_value *values = b->draft->parts[HL_P_STEP].items[i]->values;
        code = hl__build_keep(
            b, build_one(b, &values[step->kind == HL_DERIVED ? STEP_FORMULA : STEP_MODEL], step));
    }
    if (code == HL_OK)
        code = hl__build_keep(b, find_order(b));
    for (int i = 0; code == HL_OK && i < b->book->n_steps; i++)
        code = hl__build_keep(b, check_skipped(b, &b->book->steps[i]));
    return code;
}

/* ---- diagnoses --------------------------------------------------------------------------------- */

static hl_code build_diagnosis(hl_builder *b, const hl_draft_item *item, hl_diagnosis *out)
{
    const hl_value *v = item->values;
    const hl_value *list = &v[DIAG_CAUSES];
    hl_cause *causes = hl__arena_array(&b->book->arena, (size_t)list->n_list + 1, sizeof *causes);
    if (causes == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < list->n_list; i++) {
        const hl_value *values = list->items[i].entry->values;
        causes[i] = (hl_cause){values[CAUSE_CAUSE].text, hl__build_text(&values[CAUSE_TEST]),
                               hl__build_text(&values[CAUSE_TODO])};
    }
    hl_formula *when;
    hl_code code = hl__build_formula(b, v[DIAG_WHEN].text, v[DIAG_WHEN].origin, false, &when);
    if (code != HL_OK)
        return code;
    if (!when->condition)
        return hl__build_fail(b, v[DIAG_WHEN].origin,
                              "compare something, or ask low(), high(), fails() of a step",
                              "diagnosis '%s': 'when' is a number, not a condition", item->id);
    int quiet_by = -1;
    if (v[DIAG_QUIET_BY].kind == HL_IS_TEXT)
        code = hl__build_index(b, HL_P_DIAGNOSIS, &v[DIAG_QUIET_BY], item->id, &quiet_by);
    if (code != HL_OK)
        return code;
    bool wide = v[DIAG_SPREAD].kind == HL_IS_TEXT && strcmp(v[DIAG_SPREAD].text, "wide") == 0;
    *out = (hl_diagnosis){.id = item->id,
                          .title = v[DIAG_TITLE].text,
                          .when = when,
                          .causes = causes,
                          .n_causes = list->n_list,
                          .spread = wide ? HL_SPREAD_WIDE : HL_SPREAD_NOTE,
                          .quiet_by = quiet_by,
                          .source = hl__build_text(&v[DIAG_SOURCE]),
                          .origin = item->latest};
    return HL_OK;
}

hl_code hl__build_diagnoses(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_DIAGNOSIS];
    b->book->diagnoses = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->diagnoses);
    if (b->book->diagnoses == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        hl_code code = hl__build_keep(b, build_diagnosis(b, list->items[i], &b->book->diagnoses[i]));
        if (code != HL_OK)
            return code;
        b->book->n_diagnoses++;
    }
    return HL_OK;
}
