/* entry.c - what an entry is, and whether a step's fields go with its kind (layer: host/words). */
#include "entry.h"

#include "complaints.h"
#include "errors.h"

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
    return entry->word >= HL_W_USE && entry->word <= HL_W_RENAMED;
}

hl_code hl__did_you_mean(hl_err *err, const char *nearest, const char *otherwise)
{
    if (nearest != NULL)
        return hl__todo(err, "did you mean '%s'?", nearest);
    return hl__todo(err, "%s", otherwise);
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

hl_code hl__keep_error(hl_complaints *all, hl_code code, hl_err *err)
{
    if (code != HL_E_RULE || all == NULL || all->n >= HL_BOOK_ERRORS_MOST)
        return code;
    return hl__complaints_add(all, err) == HL_OK ? HL_OK : hl__no_memory(err);
}

static hl_code check_field(const hl_value *values, const char *kind, char rule, int at, hl_origin origin,
                           hl_err *err)
{
    const hl_value *value = &values[at];
    const hl_field *field = hl__word_field(HL_W_STEP, at);
    const char *id = values[STEP_ID].kind == HL_IS_TEXT ? values[STEP_ID].text : "";
    if (rule == '+' && value->kind == HL_IS_NOTHING) {
        hl__fail(err, HL_E_RULE, "step '%s' is %s and has no '%s'", id, kind, field->name);
        hl__todo(err, "add it: %s", field->help);
        return hl__at(err, origin.file, origin.line, 0);
    }
    if (rule == '-' && value->kind != HL_IS_NOTHING) {
        hl__fail(err, HL_E_RULE, "step '%s' is %s and takes no '%s'", id, kind, field->name);
        hl__todo(err, "take the field out%s",
                 at == STEP_FIX ? "; a judged step names its ways out with its fault words" : "");
        return hl__at(err, value->origin.file, value->origin.line, 0);
    }
    return HL_OK;
}

hl_code hl__step_check(const hl_value *values, hl_origin origin, hl_complaints *all, hl_err *err)
{
    const char *kind = values[STEP_KIND].kind == HL_IS_TEXT ? values[STEP_KIND].text : "measured";
    hl_code code = HL_OK;
    for (size_t i = 0; code == HL_OK && i < sizeof kinds / sizeof *kinds; i++) {
        char rule = kind[0] == 'm' ? kinds[i].measured : kind[0] == 'j' ? kinds[i].judged : kinds[i].derived;
        code = hl__keep_error(all, check_field(values, kind, rule, kinds[i].field, origin, err), err);
    }
    return code;
}
