/* rename.c - names of before in a book's entries become the new ones (layer: host/build).
 *
 * The table may come after entries that use an old name, so it is applied to what is there when it comes, and
 * to every entry from then on.  Names in formulas are looked up when the book is built. */
#include "draft.h"

#include "errors.h"

#include <string.h>

static const char *find_new(const hl_draft *draft, const char *name)
{
    for (size_t i = 0; i < draft->n_renamed; i++)
        if (strcmp(draft->renamed[i].was, name) == 0)
            return draft->renamed[i].is;
    return NULL;
}

hl_code hl__old_name_note(hl_old_names *names, const char *was, const char *is, hl_origin at, hl_err *err)
{
    for (size_t i = 0; i < names->n; i++) {
        hl_old_name *seen = &names->items[i];
        if (strcmp(seen->at.file, at.file) != 0)
            continue;
        seen->more = seen->more || strcmp(seen->was, was) != 0;
        if (at.line < seen->at.line)
            *seen = (hl_old_name){was, is, at, seen->more};
        return HL_OK;
    }
    if (!hl__grow((void **)&names->items, names->n, &names->room, sizeof *names->items))
        return hl__no_memory(err);
    names->items[names->n++] = (hl_old_name){.was = was, .is = is, .at = at};
    return HL_OK;
}

static hl_code rename_name(hl_draft *draft, const char **name, hl_origin at, hl_err *err)
{
    const char *is = *name != NULL ? find_new(draft, *name) : NULL;
    if (is == NULL)
        return HL_OK;
    hl_code code = hl__old_name_note(draft->old_names, *name, is, at, err);
    *name = is;
    return code;
}

static hl_code rename_entry(hl_draft *draft, hl_rule_word word, hl_value *values, int n, hl_err *err);

static hl_code rename_item(hl_draft *draft, const hl_field *field, hl_value *item, hl_err *err)
{
    switch (field->type) {
    case HL_F_IDS:
        return item->kind == HL_IS_TEXT ? rename_name(draft, &item->text, item->origin, err) : HL_OK;
    case HL_F_MOVES:
        return rename_name(draft, &item->key, item->origin, err);
    case HL_F_REMEDIES:
        return rename_name(draft, &item->items[0].text, item->origin, err);
    case HL_F_FAULTS:
        return rename_entry(draft, HL_W_FAULT, item->entry->values, item->entry->n_values, err);
    default:
        return HL_OK;
    }
}

static hl_code rename_value(hl_draft *draft, const hl_field *field, hl_value *value, hl_err *err)
{
    hl_code code = HL_OK;
    if (value->kind == HL_IS_ENTRY && value->entry->word == HL_W_BY_CHOICE) {
        for (int i = 1; code == HL_OK && i < value->entry->n_values; i++)
            code = rename_value(draft, field, &value->entry->values[i], err);
        return code;
    }
    if (field->type == HL_F_ID && value->kind == HL_IS_TEXT)
        return rename_name(draft, &value->text, value->origin, err);
    for (int i = 0; code == HL_OK && value->kind == HL_IS_TABLE && i < value->n_items; i++)
        code = rename_item(draft, field, &value->items[i], err);
    return code;
}

/* Stages, choices and diagnoses have names of their own, which no sheet and no formula writes. */
static bool names_steps(hl_rule_word word, int field)
{
    switch (word) {
    case HL_W_STEP:
    case HL_W_CHANGE:
        return field != STEP_STAGE;
    case HL_W_ADJUSTER:
    case HL_W_SKIP:
    case HL_W_FACT:
    case HL_W_FLOAT:
    case HL_W_ACKNOWLEDGE:
    case HL_W_FAULT:
        return true;
    default:
        return false;
    }
}

static hl_code rename_entry(hl_draft *draft, hl_rule_word word, hl_value *values, int n, hl_err *err)
{
    hl_code code = HL_OK;
    for (int i = 0; code == HL_OK && i < n; i++) {
        const hl_field *field = hl__word_field(word, i);
        if (field != NULL && names_steps(word, i))
            code = rename_value(draft, field, &values[i], err);
    }
    return code;
}

hl_code hl__rename_entry(hl_draft *draft, hl_entry *entry, hl_err *err)
{
    return draft->n_renamed == 0 ? HL_OK
                                 : rename_entry(draft, entry->word, entry->values, entry->n_values, err);
}

const char *hl__rename_file(const hl_draft *draft, const char *use, hl_err *err)
{
    const char *slash = strrchr(use, '/'), *base = slash != NULL ? slash + 1 : use;
    const char *is = find_new(draft, base);
    const size_t folder = (size_t)(base - use);
    char *name = is != NULL ? hl__arena_array(draft->arena, folder + strlen(is) + 1, 1) : NULL;
    if (is != NULL && name == NULL)
        hl__no_memory(err);
    if (name == NULL)
        return NULL;
    memcpy(name, use, folder);
    memcpy(name + folder, is, strlen(is));
    return name;
}

/* What was laid before the table was known. */
static hl_code rename_items(hl_draft *draft, hl_draft_part part, hl_rule_word word, int n, hl_err *err)
{
    hl_code code = HL_OK;
    for (size_t i = 0; code == HL_OK && i < draft->parts[part].n; i++) {
        hl_draft_item *item = draft->parts[part].items[i];
        code = rename_entry(draft, word, item->values, n, err);
        item->id = item->values[0].text;
    }
    return code;
}

hl_code hl__draft_renamed(hl_draft *draft, const hl_entry *entry, hl_err *err)
{
    const char *was = entry->values[RENAMED_WAS].text, *is = entry->values[RENAMED_IS].text;
    if (!hl__grow((void **)&draft->renamed, draft->n_renamed, &draft->room_renamed, sizeof *draft->renamed))
        return hl__no_memory(err);
    draft->renamed[draft->n_renamed++] = (hl_renamed){was, is};
    hl_code code = rename_items(draft, HL_P_STEP, HL_W_STEP, STEP_FIELDS, err);
    if (code == HL_OK)
        code = rename_items(draft, HL_P_ADJUSTER, HL_W_ADJUSTER, ADJ_FIELDS, err);
    if (code == HL_OK)
        code = rename_items(draft, HL_P_FACT, HL_W_FACT, FACT_FIELDS, err);
    for (size_t i = 0; code == HL_OK && i < draft->n_acknowledged; i++)
        code = rename_entry(draft, HL_W_ACKNOWLEDGE, draft->acknowledged[i]->values,
                            draft->acknowledged[i]->n_values, err);
    if (code == HL_OK && draft->floats != NULL)
        code = rename_entry(draft, HL_W_FLOAT, draft->floats->values, draft->floats->n_values, err);
    return code;
}
