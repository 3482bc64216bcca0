/* draft_choice.c - schools: declaring a choice, choosing, and putting the chosen option's value where
 * a step says by_choice (layer: host/build). */
#include "draft.h"

#include "errors.h"
#include "nearest_name.h"

#include <string.h>

int hl__draft_option(const hl_draft_item *choice, const char *name)
{
    const hl_value *options = &choice->values[CHOICE_OPTIONS];
    for (int i = 0; i < options->n_items; i++) {
        if (strcmp(options->items[i].key, name) == 0)
            return i;
    }
    return -1;
}

static hl_code fail_no_option(const char *word, const hl_draft_item *choice, const char *name, hl_origin at,
                              hl_err *err)
{
    const hl_value *options = &choice->values[CHOICE_OPTIONS];
    hl_suggest suggest = {name, NULL, 0};
    for (int i = 0; i < options->n_items; i++)
        hl__suggest_offer(&suggest, options->items[i].key);
    hl__fail(err, HL_E_RULE, "%s: '%s' is no option of '%s'", word, name, choice->id);
    if (suggest.best != NULL)
        hl__todo(err, "did you mean '%s'?", suggest.best);
    else
        hl__todo(err, "its options are at %s:%d: '%s' is one", choice->origin.file, choice->origin.line,
                 options->items[0].key);
    return hl__at(err, at.file, at.line, 0);
}

static hl_code fail_no_choice(const hl_draft *draft, const char *what, const char *name, const char *todo,
                              hl_origin at, hl_err *err)
{
    hl__fail(err, HL_E_RULE, what, name);
    hl__did_you_mean(err, hl__draft_nearest(draft, HL_P_CHOICE, name), todo);
    return hl__at(err, at.file, at.line, 0);
}

hl_code hl__draft_choice(hl_draft *draft, const hl_entry *choice, hl_err *err)
{
    const char *id = choice->values[CHOICE_ID].text;
    const hl_draft_item *before = hl__draft_find(draft, HL_P_CHOICE, id);
    if (before != NULL) {
        hl__fail(err, HL_E_RULE, "choice '%s' is declared twice", id);
        hl__todo(err, "the first one is at %s:%d; to take another option, write choose { \"%s\", ... }",
                 before->origin.file, before->origin.line, id);
        return hl__at(err, choice->origin.file, choice->origin.line, 0);
    }
    hl_draft_item *item;
    hl_code code = hl__draft_item(&item, draft, HL_P_CHOICE, choice, err);
    const hl_value *option = &choice->values[CHOICE_OPTION];
    if (code == HL_OK && hl__draft_option(item, option->text) < 0)
        code = fail_no_option("choice", item, option->text, choice->origin, err);
    return code;
}

hl_code hl__draft_choose(hl_draft *draft, const hl_entry *choose, hl_err *err)
{
    const char *id = choose->values[CHOOSE_ID].text;
    hl_draft_item *choice = hl__draft_find(draft, HL_P_CHOICE, id);
    if (choice == NULL && hl__draft_may_be_lost(draft, id))
        return HL_OK;
    if (choice == NULL)
        return fail_no_choice(draft, "choose: there is no choice '%s' in the book so far", id,
                              "choose comes after the use that brings the choice", choose->origin, err);
    const hl_value *option = &choose->values[CHOOSE_OPTION];
    if (hl__draft_option(choice, option->text) < 0)
        return fail_no_option("choose", choice, option->text, choose->origin, err);
    choice->values[CHOICE_OPTION] = *option;
    choice->chosen = choose;
    return hl__draft_note(draft, choice, "option", choose, &choose->values[CHOOSE_WHY], err);
}

/* ---- putting the values in ---------------------------------------------------------------------- */

/* Says by_choice a value for each option, and for nothing else? */
static hl_code check_options(const hl_draft_item *choice, const hl_entry *by, hl_err *err)
{
    for (int i = 1; i < by->n_values; i++) {
        if (hl__draft_option(choice, by->values[i].key) < 0)
            return fail_no_option("by_choice", choice, by->values[i].key, by->origin, err);
    }
    const hl_value *options = &choice->values[CHOICE_OPTIONS];
    for (int i = 0; i < options->n_items; i++) {
        bool said = false;
        for (int k = 1; k < by->n_values; k++)
            said = said || strcmp(by->values[k].key, options->items[i].key) == 0;
        if (said)
            continue;
        hl__fail(err, HL_E_RULE, "by_choice: nothing is said for the option '%s' of '%s'",
                 options->items[i].key, choice->id);
        hl__todo(err, "add %s = ...", options->items[i].key);
        return hl__at(err, by->origin.file, by->origin.line, 0);
    }
    return HL_OK;
}

static hl_code resolve(hl_draft *draft, hl_draft_item *step, int field, hl_err *err)
{
    hl_value *value = &step->values[field];
    const hl_entry *by = value->entry;
    const char *name = by->values[0].text;
    hl_draft_item *choice = hl__draft_find(draft, HL_P_CHOICE, name);
    if (choice == NULL && hl__draft_may_be_lost(draft, name))
        return HL_OK;
    if (choice == NULL)
        return fail_no_choice(draft, "by_choice: there is no choice '%s' in the book", name,
                              "declare it in the book: choice { ... }", by->origin, err);
    hl_code code = check_options(choice, by, err);
    if (code != HL_OK)
        return code;
    const hl_unit unit = value->unit;
    for (int i = 1; i < by->n_values; i++) {
        if (strcmp(by->values[i].key, choice->values[CHOICE_OPTION].text) == 0)
            *value = by->values[i];
    }
    value->unit = unit;
    value->by = by;
    choice->uses += step->skip == NULL;
    if (choice->chosen == NULL)
        return HL_OK;
    return hl__draft_note(draft, step, hl__word_field(HL_W_STEP, field)->name, choice->chosen,
                          &choice->chosen->values[CHOOSE_WHY], err);
}

hl_code hl__draft_resolve(hl_draft *draft, hl_err *err)
{
    const hl_draft_list *steps = &draft->parts[HL_P_STEP];
    hl_code code = HL_OK;
    for (size_t i = 0; code == HL_OK && i < steps->n; i++) {
        for (int field = 0; code == HL_OK && field < STEP_FIELDS; field++) {
            const hl_value *value = &steps->items[i]->values[field];
            if (value->kind == HL_IS_ENTRY && value->entry->word == HL_W_BY_CHOICE)
                code =
                    hl__keep_error(draft->loader->box.all, resolve(draft, steps->items[i], field, err), err);
        }
    }
    return code;
}
