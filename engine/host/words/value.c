/* value.c - checking what a rule file said against the table of fields (layer: host/words).  Tables inside a
 * table (faults, causes, moves, cases) are taken apart too.  Everything made here lives in the arena that is
 * passed in. */
#include "ascii.h"
#include "entry.h"

#include "errors.h"
#include "nearest_name.h"
#include "source.h"

#include <math.h>
#include <string.h>

#define ID_LENGTH 48
#define LIST_MOST 256 /* names, faults, causes, moves in one field */

/* Words that mean something else in sheets and formulas. */
static const char *const reserved_readings[] = {"ok",   "void",  "skip",   "within",
                                                "over", "under", "closed", "done"};

static bool is_id(const char *text)
{
    if (!hl__is_lower(text[0]) || strlen(text) > ID_LENGTH)
        return false;
    for (const char *c = text; *c != '\0'; c++) {
        if (!hl__is_lower(*c) && !hl__is_digit(*c) && *c != '_')
            return false;
    }
    return true;
}

/* The name that a title was probably meant for: "Let-off (mm)" is let_off_mm. */
static void make_id(char out[ID_LENGTH + 1], const char *text)
{
    size_t n = 0;
    for (; *text != '\0' && n < ID_LENGTH; text++) {
        const char c = hl__lower(*text);
        if (hl__is_lower(c) || hl__is_digit(c))
            out[n++] = c;
        else if (n > 0 && out[n - 1] != '_')
            out[n++] = '_';
    }
    while (n > 0 && out[n - 1] == '_')
        n--;
    out[n] = '\0';
}

static hl_code fail_type(hl_rule_word word, const hl_field *field, const hl_value *value, const char *must,
                         hl_err *err)
{
    const char *name = hl__word_name(word);
    const char *is = value->kind != HL_IS_TABLE ? hl__value_kind_name(value)
                     : value->n_items == 0      ? "an empty table"
                                                : "a table of another shape";
    if (field->name[0] == '[')
        hl__fail(err, HL_E_RULE, "item %c of %s must be %s, not %s", field->name[1], name, must, is);
    else
        hl__fail(err, HL_E_RULE, "field '%s' of %s must be %s, not %s", field->name, name, must, is);
    return hl__at(err, value->origin.file, value->origin.line, 0);
}

static hl_code check_length(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->n_items <= LIST_MOST)
        return HL_OK;
    hl__fail(err, HL_E_RULE, "field '%s' of %s has %d items", field->name, hl__word_name(word),
             value->n_items);
    hl__todo(err, "at most %d can be given", LIST_MOST);
    return hl__at(err, value->origin.file, value->origin.line, 0);
}

static hl_code check_id(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->kind != HL_IS_TEXT)
        return fail_type(word, field, value, "a text", err);
    if (!is_id(value->text)) {
        char meant[ID_LENGTH + 1];
        hl__fail(err, HL_E_RULE, "'%s' is not a name", value->text);
        make_id(meant, value->text);
        if (is_id(meant))
            hl__todo(err, "write it as '%s': small letters, digits and _", meant);
        else
            hl__todo(err, "use small letters, digits and _, beginning with a letter, at most %d: key_dip",
                     ID_LENGTH);
        return hl__at(err, value->origin.file, value->origin.line, 0);
    }
    if (field->type != HL_F_FAULT_ID)
        return HL_OK;
    for (size_t i = 0; i < sizeof reserved_readings / sizeof *reserved_readings; i++) {
        if (strcmp(value->text, reserved_readings[i]) == 0) {
            hl__fail(err, HL_E_RULE, "'%s' cannot be a fault word: it has a meaning of its own in sheets",
                     value->text);
            hl__todo(err, "choose a word that says what is wrong");
            return hl__at(err, value->origin.file, value->origin.line, 0);
        }
    }
    return HL_OK;
}

static hl_code check_key(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->kind != HL_IS_TEXT)
        return fail_type(word, field, value, "a text", err);
    const size_t size = strlen(value->text);
    if (size <= ID_LENGTH && hl__is_source_key(value->text, size))
        return HL_OK;
    hl__fail(err, HL_E_RULE, "'%s' is not the key of a source", value->text);
    hl__todo(err,
             "use small letters, digits and single hyphens, beginning with a letter, at most %d: "
             "list-2001-let-off",
             ID_LENGTH);
    return hl__at(err, value->origin.file, value->origin.line, 0);
}

static hl_code check_text(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->kind != HL_IS_TEXT)
        return fail_type(word, field, value, "a text", err);
    if (value->text[0] != '\0' || field->type == HL_F_LINE)
        return HL_OK;
    hl__fail(err, HL_E_RULE, "field '%s' of %s is empty", field->name, hl__word_name(word));
    hl__todo(err, "fill it in, or take it out");
    return hl__at(err, value->origin.file, value->origin.line, 0);
}

static hl_code check_number(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    bool whole = field->type == HL_F_WHOLE;
    if (value->kind != HL_IS_NUMBER)
        return fail_type(word, field, value, whole ? "a whole number" : "a number", err);
    if (isfinite(value->number) && fabs(value->number) <= 1e6 &&
        (!whole || floor(value->number) == value->number))
        return HL_OK;
    hl__fail(err, HL_E_RULE, "field '%s' of %s is not a %snumber that can be used", field->name,
             hl__word_name(word), whole ? "whole " : "");
    hl__todo(err, "numbers go up to a million");
    return hl__at(err, value->origin.file, value->origin.line, 0);
}

static hl_code check_quantity(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->kind == HL_IS_TEXT)
        return check_text(word, field, value, err);
    if (value->kind == HL_IS_NUMBER)
        return check_number(word, field, value, err);
    return fail_type(word, field, value, "a number, or a text with a unit", err);
}

static hl_code check_choice(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->kind != HL_IS_TEXT)
        return fail_type(word, field, value, "a text", err);
    char best[16] = "";
    hl_suggest suggest = {value->text, NULL, 0};
    for (const char *c = field->choices; *c != '\0';) {
        char choice[16] = "";
        size_t n = strcspn(c, " ");
        memcpy(choice, c, n < sizeof choice ? n : sizeof choice - 1);
        if (strcmp(choice, value->text) == 0)
            return HL_OK;
        int before = suggest.best == NULL ? 1000 : suggest.distance;
        hl__suggest_offer(&suggest, choice);
        if (suggest.best != NULL && suggest.distance < before)
            memcpy(best, choice, sizeof best);
        suggest.best = suggest.best != NULL ? best : NULL;
        c += n;
        c += strspn(c, " ");
    }
    hl__fail(err, HL_E_RULE, "field '%s' of %s cannot be '%s'", field->name, hl__word_name(word),
             value->text);
    if (suggest.best != NULL)
        hl__todo(err, "did you mean '%s'?", best);
    else
        hl__todo(err, "it can be: %s", field->choices);
    return hl__at(err, value->origin.file, value->origin.line, 0);
}

/* A list without names, each item like `item`. */
static hl_code check_list(hl_arena *arena, hl_rule_word word, const hl_field *field, hl_value *value,
                          hl_field_type item, const char *must, hl_err *err)
{
    if (value->kind != HL_IS_TABLE || value->n_list != value->n_items)
        return fail_type(word, field, value, must, err);
    hl_field one = *field;
    one.type = item;
    for (int i = 0; i < value->n_list; i++) {
        hl_code code = hl__value_check(arena, word, &one, &value->items[i], err);
        if (code != HL_OK)
            return code;
        for (int k = 0; k < i && item == HL_F_ID; k++) {
            if (strcmp(value->items[k].text, value->items[i].text) != 0)
                continue;
            hl__fail(err, HL_E_RULE, "field '%s' of %s names '%s' twice", field->name, hl__word_name(word),
                     value->items[i].text);
            hl__todo(err, "take one of the two out");
            return hl__at(err, value->origin.file, value->origin.line, 0);
        }
    }
    return HL_OK;
}

static hl_code check_remedies(hl_rule_word word, const hl_field *field, hl_value *value, hl_err *err)
{
    static const char must[] = "a list of pairs { \"adjuster\", \"way\" }";
    if (value->kind != HL_IS_TABLE || value->n_list != value->n_items)
        return fail_type(word, field, value, must, err);
    for (int i = 0; i < value->n_list; i++) {
        const hl_value *pair = &value->items[i];
        if (pair->kind != HL_IS_TABLE || pair->n_items != 2 || pair->n_list != 2 ||
            pair->items[0].kind != HL_IS_TEXT || pair->items[1].kind != HL_IS_TEXT)
            return fail_type(word, field, pair, must, err);
    }
    return HL_OK;
}

static hl_code check_correction(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    const hl_value *items = value->items;
    bool good = value->kind == HL_IS_TABLE && value->n_items == value->n_list && value->n_list >= 2 &&
                value->n_list <= 3 && items[0].kind == HL_IS_TEXT && items[1].kind == HL_IS_TEXT &&
                (value->n_list == 2 || items[2].kind == HL_IS_NUMBER || items[2].kind == HL_IS_TEXT);
    return good ? HL_OK : fail_type(word, field, value, "{ \"adjuster\", \"way\", amount }", err);
}

/* A list of tables, each taken apart as `inner`. */
static hl_code take_entries(hl_arena *arena, hl_rule_word word, const hl_field *field, hl_value *value,
                            hl_rule_word inner, hl_err *err)
{
    if (value->kind != HL_IS_TABLE || value->n_list != value->n_items || value->n_list == 0)
        return fail_type(word, field, value, "a list of tables { \"word\", ... }", err);
    for (int i = 0; i < value->n_list; i++) {
        hl_value *item = &value->items[i];
        if (item->kind != HL_IS_TABLE)
            return fail_type(word, field, item, "a list of tables { \"word\", ... }", err);
        hl_code code = hl__entry_take(&item->entry, arena, inner, item, NULL, err);
        if (code != HL_OK)
            return code;
        const char *name = item->entry->values[0].text;
        for (int k = 0; k < i; k++) {
            if (strcmp(value->items[k].entry->values[0].text, name) == 0) {
                hl__fail(err, HL_E_RULE, "field '%s' of %s has '%s' twice", field->name, hl__word_name(word),
                         name);
                hl__todo(err, "take one of the two out");
                return hl__at(err, value->origin.file, value->origin.line, 0);
            }
        }
    }
    return HL_OK;
}

static hl_code check_faults(hl_arena *arena, hl_rule_word word, const hl_field *field, hl_value *value,
                            hl_err *err)
{
    hl_code code = take_entries(arena, word, field, value, HL_W_FAULT, err);
    for (int i = 0; code == HL_OK && i < value->n_list; i++) {
        const hl_value *fault = value->items[i].entry->values;
        if (fault[FAULT_FIX].kind == HL_IS_NOTHING && fault[FAULT_TODO].kind == HL_IS_NOTHING) {
            hl__fail(err, HL_E_RULE, "fault '%s' does not say what to do", fault[FAULT_WORD].text);
            hl__todo(err, "give it a 'fix' or a 'todo'");
            code = hl__at(err, value->origin.file, value->origin.line, 0);
        }
    }
    return code;
}

/* { step = number | "formula" | "up" | "down" | "strong" | "slight" | false | { it, assumed = true } } */
static hl_code check_moves(hl_arena *arena, hl_rule_word word, const hl_field *field, hl_value *value,
                           hl_err *err)
{
    static const char must[] = "a number, a formula, \"up\", \"down\", \"strong\", \"slight\" or false";
    if (value->kind != HL_IS_TABLE || value->n_list > 0)
        return fail_type(word, field, value, "a table { step = amount, ... }", err);
    for (int i = 0; i < value->n_items; i++) {
        hl_value *move = &value->items[i];
        hl_field named = *field;
        named.name = move->key;
        hl_code code = HL_OK;
        if (move->kind == HL_IS_TABLE)
            code = hl__entry_take(&move->entry, arena, HL_W_MOVE, move, NULL, err);
        else if (move->kind == HL_IS_NUMBER || move->kind == HL_IS_TEXT)
            code = check_quantity(word, &named, move, err);
        else if (move->kind != HL_IS_BOOLEAN || move->flag)
            code = fail_type(word, &named, move, must, err);
        if (code != HL_OK)
            return code;
    }
    return HL_OK;
}

static hl_code check_readings(hl_rule_word word, const hl_field *field, const hl_value *value, hl_err *err)
{
    if (value->kind != HL_IS_TABLE || value->n_list > 0)
        return fail_type(word, field, value, "a table { name = value, ... }", err);
    for (int i = 0; i < value->n_items; i++) {
        hl_field named = *field;
        named.name = value->items[i].key;
        hl_code code = check_quantity(word, &named, &value->items[i], err);
        if (code != HL_OK)
            return code;
    }
    return HL_OK;
}

/* { option = "text", ... }: at least two. */
static hl_code check_options(hl_rule_word word, const hl_field *field, hl_value *value, hl_err *err)
{
    if (value->kind != HL_IS_TABLE || value->n_list > 0 || value->n_items < 2)
        return fail_type(word, field, value, "a table of two or more { option = \"text\", ... }", err);
    for (int i = 0; i < value->n_items; i++) {
        hl_field named = *field;
        named.name = value->items[i].key;
        const hl_value name = {.kind = HL_IS_TEXT, .text = named.name, .origin = value->origin};
        hl_code code = check_id(word, &named, &name, err);
        if (code == HL_OK)
            code = check_text(word, &named, &value->items[i], err);
        if (code != HL_OK)
            return code;
    }
    return HL_OK;
}

/* by_choice { "choice", option = value, ... }: each value must suit the field.  Whether the choice
 * has these options is known once the book is put together. */
static hl_code check_by_choice(hl_arena *arena, hl_rule_word word, const hl_field *field,
                               const hl_value *value, hl_err *err)
{
    hl_entry *entry = value->entry;
    entry->placed = true;
    for (int i = 1; i < entry->n_values; i++) {
        hl_value *option = &entry->values[i];
        if (option->kind == HL_IS_ENTRY && option->entry->word == HL_W_BY_CHOICE)
            return fail_type(word, field, option, "one choice, not one inside another", err);
        hl_code code = hl__value_check(arena, word, field, option, err);
        if (code != HL_OK)
            return code;
    }
    return HL_OK;
}

hl_code hl__value_check(hl_arena *arena, hl_rule_word word, const hl_field *field, hl_value *value,
                        hl_err *err)
{
    if (value->kind == HL_IS_ENTRY && value->entry->word == HL_W_BY_CHOICE &&
        hl__field_by_choice(word, field))
        return check_by_choice(arena, word, field, value, err);
    hl_code code = value->kind == HL_IS_TABLE ? check_length(word, field, value, err) : HL_OK;
    if (code != HL_OK)
        return code;
    switch (field->type) {
    case HL_F_ID:
    case HL_F_FAULT_ID:
        return check_id(word, field, value, err);
    case HL_F_KEY:
        return check_key(word, field, value, err);
    case HL_F_CAUTION:
        if (value->kind == HL_IS_BOOLEAN && !value->flag)
            return HL_OK;
        return value->kind == HL_IS_TEXT ? check_text(word, field, value, err)
                                         : fail_type(word, field, value, "a text, or false", err);
    case HL_F_TEXT:
    case HL_F_LINE:
        return check_text(word, field, value, err);
    case HL_F_NUMBER:
    case HL_F_WHOLE:
        return check_number(word, field, value, err);
    case HL_F_BOOLEAN:
        return value->kind == HL_IS_BOOLEAN ? HL_OK : fail_type(word, field, value, "true or false", err);
    case HL_F_QUANTITY:
        return check_quantity(word, field, value, err);
    case HL_F_QUANTITIES:
        return check_list(arena, word, field, value, HL_F_QUANTITY, "a list of numbers or texts with a unit",
                          err);
    case HL_F_ENUM:
        return check_choice(word, field, value, err);
    case HL_F_IDS:
        return check_list(arena, word, field, value, HL_F_ID, "a list { \"name\", ... }", err);
    case HL_F_TARGET:
        if (value->kind == HL_IS_ENTRY && hl__is_target(value->entry))
            return HL_OK;
        return fail_type(word, field, value,
                         "range, at_least, at_most, about, by_colour, zones, graded or a function", err);
    case HL_F_REMEDIES:
        return check_remedies(word, field, value, err);
    case HL_F_FAULTS:
        return check_faults(arena, word, field, value, err);
    case HL_F_CAUSES:
        return take_entries(arena, word, field, value, HL_W_CAUSE, err);
    case HL_F_MOVES:
        return check_moves(arena, word, field, value, err);
    case HL_F_READINGS:
        return check_readings(word, field, value, err);
    case HL_F_CORRECTION:
        return check_correction(word, field, value, err);
    case HL_F_OPTIONS:
        return check_options(word, field, value, err);
    }
    return HL_OK;
}

/* ---- a whole table ----------------------------------------------------------------------------- */

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
        hl__todo(err, "give it a name, or take it out%s",
                 item->kind == HL_IS_NUMBER ? "; decimals are written with a point: 0.5" : "");
    } else if (word == HL_W_CHANGE && (strcmp(item->key, "id") == 0 || strcmp(item->key, "kind") == 0)) {
        hl__fail(err, HL_E_RULE, "change cannot give '%s'", item->key);
        hl__todo(err, "write a step of its own and skip this one");
    } else {
        hl__fail(err, HL_E_RULE, "unknown field '%s' in %s", item->key, name);
        hl__did_you_mean(err, nearest_field(word, item->key), "rules/meta/words.lua lists the fields");
    }
    return hl__at(err, item->origin.file, item->origin.line, 0);
}

static hl_code put_item(hl_entry *entry, hl_arena *arena, const hl_value *item, int place, hl_err *err)
{
    char name[] = "[1]";
    name[1] = (char)('1' + place);
    int at = -1;
    if (item->key != NULL && item->key[0] != '[')
        at = hl__word_find(entry->word, item->key);
    else if (item->key == NULL && place < 9)
        at = hl__word_find(entry->word, name);
    if (at < 0)
        return fail_unknown(entry->word, item, place, err);
    entry->values[at] = *item;
    return hl__value_check(arena, entry->word, hl__word_field(entry->word, at), &entry->values[at], err);
}

/* Is a misspelt item meant for this field?  Then that it lacks follows from the misspelling. */
static bool was_misspelt(hl_rule_word word, const hl_value *table, const hl_field *field)
{
    for (int i = 0; i < table->n_items; i++) {
        const char *key = table->items[i].key;
        const char *nearest = key != NULL && hl__word_find(word, key) < 0 ? nearest_field(word, key) : NULL;
        if (nearest != NULL && strcmp(nearest, field->name) == 0)
            return true;
    }
    return false;
}

/* Fields that a first declaration needs but a later one, laid over it, may leave out are checked
 * when the book is put together. */
static hl_code check_required(const hl_entry *entry, const hl_value *table, int at, hl_err *err)
{
    const hl_field *field = hl__word_field(entry->word, at);
    if (field == NULL || !field->required || entry->values[at].kind != HL_IS_NOTHING)
        return HL_OK;
    if (entry->word == HL_W_CHANGE && at != STEP_ID)
        return HL_OK;
    if (was_misspelt(entry->word, table, field))
        return HL_OK;
    const char *name = hl__word_name(entry->word);
    if (field->name[0] == '[')
        hl__fail(err, HL_E_RULE, "%s has no item %c: %s", name, field->name[1], field->help);
    else
        hl__fail(err, HL_E_RULE, "%s has no '%s'", name, field->name);
    if (field->name[0] != '[')
        hl__todo(err, "add it: %s", field->help);
    return hl__at(err, entry->origin.file, entry->origin.line, 0);
}

hl_code hl__entry_take(hl_entry **out, hl_arena *arena, hl_rule_word word, const hl_value *table,
                       hl_complaints *all, hl_err *err)
{
    *out = NULL;
    hl_entry *entry = hl__arena_take(arena, sizeof *entry);
    int n = hl__word_n_fields(word);
    hl_value *values = hl__arena_array(arena, (size_t)n + 1, sizeof *values);
    if (entry == NULL || values == NULL)
        return hl__no_memory(err);
    *entry = (hl_entry){.word = word, .origin = table->origin, .values = values, .n_values = n};
    const size_t before = all != NULL ? all->n : 0;
    hl_code code = HL_OK;
    for (int i = 0; code == HL_OK && i < table->n_items; i++) {
        /* The list items of a book are its entries. */
        if (word != HL_W_BOOK || table->items[i].key != NULL)
            code = hl__keep_error(all, put_item(entry, arena, &table->items[i], i, err), err);
    }
    for (int i = 0; code == HL_OK && i < n; i++)
        code = hl__keep_error(all, check_required(entry, table, i, err), err);
    /* Whether the fields go together can be said of right fields only. */
    if (code == HL_OK && word == HL_W_STEP && (all == NULL || all->n == before))
        code = hl__step_check(values, entry->origin, all, err);
    entry->bad = all != NULL && all->n > before;
    for (int i = 0; i < n; i++)
        entry->bad = entry->bad || (values[i].kind == HL_IS_ENTRY && values[i].entry->bad);
    if (code == HL_OK)
        *out = entry;
    return code;
}
