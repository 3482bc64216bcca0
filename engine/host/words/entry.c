/* entry.c - checking what a rule file said against the table of fields (layer: host/words).  Everything
 * made here lives in the arena that is passed in. */
#include "entry.h"

#include "errors.h"
#include "nearest_name.h"

#include <math.h>
#include <string.h>

const char *hl__value_kind_name(const hl_value *value)
{
    static const char *const names[] = {
        [HL_IS_NOTHING] = "nothing",       [HL_IS_TEXT] = "a text",   [HL_IS_NUMBER] = "a number",
        [HL_IS_BOOLEAN] = "true or false", [HL_IS_TABLE] = "a table", [HL_IS_ENTRY] = "an entry",
        [HL_IS_OTHER] = "a function",
    };
    if (value->kind == HL_IS_ENTRY)
        return hl__word_name(value->entry->word);
    return names[value->kind];
}

bool hl__is_simple_target(const hl_entry *entry)
{
    return entry->word == HL_W_RANGE || entry->word == HL_W_AT_LEAST || entry->word == HL_W_AT_MOST ||
           entry->word == HL_W_ABOUT;
}

bool hl__is_target(const hl_entry *entry)
{
    return hl__is_simple_target(entry) || entry->word == HL_W_BY_COLOUR || entry->word == HL_W_ZONES ||
           entry->word == HL_W_GRADED || entry->word == HL_W_FUNCTION;
}

bool hl__is_book_item(const hl_entry *entry)
{
    return entry->word >= HL_W_USE && entry->word <= HL_W_DIAGNOSIS;
}

hl_code hl__did_you_mean(hl_err *err, const char *nearest, const char *otherwise)
{
    if (nearest != NULL)
        return hl__todo(err, "did you mean '%s'?", nearest);
    return hl__todo(err, "%s", otherwise);
}

static const char *nearest_field(hl_rule_word word, const char *asked)
{
    hl_suggest suggest = {asked, NULL, 0};
    for (int i = 0; i < hl__word_n_fields(word); i++) {
        const hl_field *field = hl__word_field(word, i);
        if (field != NULL && field->name[0] != '[')
            hl__suggest_offer(&suggest, field->name);
    }
    return suggest.best;
}

static hl_code fail_unknown(hl_rule_word word, const hl_value *item, int place, hl_err *err)
{
    const char *name = hl__word_name(word);
    if (item->key == NULL) {
        hl__fail(err, HL_E_RULE, "item %d of %s has no name and no meaning", place + 1, name);
        hl__todo(err, "give it a name, or take it out");
    } else if (word == HL_W_CHANGE && (strcmp(item->key, "id") == 0 || strcmp(item->key, "kind") == 0)) {
        hl__fail(err, HL_E_RULE, "change cannot give '%s'", item->key);
        hl__todo(err, "write a step of its own and skip this one");
    } else {
        hl__fail(err, HL_E_RULE, "unknown field '%s' in %s", item->key, name);
        hl__did_you_mean(err, nearest_field(word, item->key), "rules/meta/words.lua lists the fields");
    }
    return hl__at(err, item->origin.file, item->origin.line, 0);
}

/* The list items of a book are entries, those of tests are cases; all others must be fields. */
static hl_code put_items(hl_entry *entry, hl_arena *arena, const hl_value *table, hl_err *err)
{
    bool own_list = entry->word == HL_W_BOOK;
    for (int i = 0; i < table->n_items; i++) {
        const hl_value *item = &table->items[i];
        if (own_list && item->key == NULL)
            continue;
        char place[] = "[1]";
        place[1] = (char)('1' + i);
        int at = -1;
        if (item->key != NULL && item->key[0] != '[')
            at = hl__word_find(entry->word, item->key);
        else if (item->key == NULL && i < 9)
            at = hl__word_find(entry->word, place);
        if (at < 0)
            return fail_unknown(entry->word, item, i, err);
        entry->values[at] = *item;
        const hl_field *field = hl__word_field(entry->word, at);
        hl_code code = hl__value_check(arena, entry->word, field, &entry->values[at], err);
        if (code != HL_OK)
            return code;
    }
    return HL_OK;
}

/* Fields that a first declaration needs but a later one, laid over it, may leave out are checked
 * when the book is put together. */
static hl_code check_required(const hl_entry *entry, hl_err *err)
{
    for (int i = 0; i < entry->n_values; i++) {
        const hl_field *field = hl__word_field(entry->word, i);
        if (field == NULL || !field->required || entry->values[i].kind != HL_IS_NOTHING)
            continue;
        if (entry->word == HL_W_CHANGE && i != STEP_ID)
            continue;
        const char *name = hl__word_name(entry->word);
        if (field->name[0] == '[')
            hl__fail(err, HL_E_RULE, "%s has no item %c: %s", name, field->name[1], field->help);
        else
            hl__fail(err, HL_E_RULE, "%s has no '%s'", name, field->name);
        if (field->name[0] != '[')
            hl__todo(err, "add it: %s", field->help);
        return hl__at(err, entry->origin.file, entry->origin.line, 0);
    }
    return HL_OK;
}

hl_code hl__entry_take(hl_entry **out, hl_arena *arena, hl_rule_word word, const hl_value *table, hl_err *err)
{
    *out = NULL;
    hl_entry *entry = hl__arena_take(arena, sizeof *entry);
    int n = hl__word_n_fields(word);
    hl_value *values = hl__arena_array(arena, (size_t)n + 1, sizeof *values);
    if (entry == NULL || values == NULL)
        return hl__no_memory(err);
    *entry = (hl_entry){.word = word, .origin = table->origin, .values = values, .n_values = n};
    hl_code code = put_items(entry, arena, table, err);
    if (code == HL_OK)
        code = check_required(entry, err);
    if (code == HL_OK && word == HL_W_STEP)
        code = hl__step_check(values, entry->origin, err);
    if (code == HL_OK)
        *out = entry;
    return code;
}

/* ---- whether a step's fields go with its kind ------------------------------------------------ */

static const struct {
    int field;
    char measured, judged, derived; /* '+' must, '-' must not, ' ' may */
} kinds[] = {
    {STEP_UNIT, '+', '-', '+'},   {STEP_RESOLUTION, '+', '-', '+'}, {STEP_TARGET, '+', '-', ' '},
    {STEP_FAULTS, '-', '+', '-'}, {STEP_FORMULA, '-', '-', '+'},    {STEP_MODEL, ' ', '-', '-'},
    {STEP_GAUGE, ' ', '-', ' '},  {STEP_EVEN, ' ', '-', ' '},       {STEP_BREAKS, ' ', '-', ' '},
    {STEP_FIX, ' ', '-', ' '},    {STEP_GAUGE_NAME, ' ', '-', '-'}, {STEP_ACROSS, ' ', '-', ' '},
    {STEP_PAIR, ' ', '-', '-'},   {STEP_LOW_TODO, ' ', '-', ' '},   {STEP_HIGH_TODO, ' ', '-', ' '},
};

hl_code hl__step_check(const hl_value *values, hl_origin origin, hl_err *err)
{
    const char *kind = values[STEP_KIND].kind == HL_IS_TEXT ? values[STEP_KIND].text : "measured";
    const char *id = values[STEP_ID].text;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        char rule = kind[0] == 'm' ? kinds[i].measured : kind[0] == 'j' ? kinds[i].judged : kinds[i].derived;
        const hl_value *value = &values[kinds[i].field];
        const hl_field *field = hl__word_field(HL_W_STEP, kinds[i].field);
        if (rule == '+' && value->kind == HL_IS_NOTHING) {
            hl__fail(err, HL_E_RULE, "step '%s' is %s and has no '%s'", id, kind, field->name);
            hl__todo(err, "add it: %s", field->help);
            return hl__at(err, origin.file, origin.line, 0);
        }
        if (rule == '-' && value->kind != HL_IS_NOTHING) {
            hl__fail(err, HL_E_RULE, "step '%s' is %s and takes no '%s'", id, kind, field->name);
            hl__todo(err, "take the field out%s",
                     kinds[i].field == STEP_FIX ? "; a judged step's ways out stand with its fault words"
                                                : "");
            return hl__at(err, value->origin.file, value->origin.line, 0);
        }
    }
    return HL_OK;
}
