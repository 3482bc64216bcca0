/* book_merge.c - laying one entry over what the book has so far (layer: host/build).  Later wins; every
 * replaced field leaves a line of history. */
#include "draft.h"

#include "errors.h"

#include <string.h>

/* Names that mean something else where ids are written. */
static const char *const reserved[] = {"pass",   "fact",  "query",   "note",   "low",        "high",
                                       "passes", "fails", "missing", "read",   "neighbours", "abs",
                                       "min",    "max",   "and",     "or",     "not",        "once",
                                       "time",   "by",    "method",  "remark", "step",       "reading"};

static const hl_rule_word word_of[HL_PARTS] = {HL_W_STAGE,     HL_W_STEP,   HL_W_ADJUSTER, HL_W_FACT,
                                               HL_W_DIAGNOSIS, HL_W_CHOICE, HL_W_SOURCE};

static hl_code fail_twice(const hl_entry *entry, const char *id, const char *what, const hl_draft_item *other,
                          hl_err *err)
{
    hl__fail(err, HL_E_RULE, "%s '%s' has the name of a %s", hl__word_name(entry->word), id, what);
    hl__todo(err, "that one is at %s:%d; rename one of the two", other->origin.file, other->origin.line);
    return hl__at(err, entry->origin.file, entry->origin.line, 0);
}

/* Steps, adjusters and facts share one space of names: sheets and formulas write them alike. */
static hl_code check_name(const hl_draft *draft, hl_draft_part part, const hl_entry *entry, const char *id,
                          hl_err *err)
{
    if (part != HL_P_STEP && part != HL_P_ADJUSTER && part != HL_P_FACT)
        return HL_OK;
    for (size_t i = 0; i < sizeof reserved / sizeof *reserved; i++) {
        if (strcmp(reserved[i], id) == 0) {
            hl__fail(err, HL_E_RULE, "'%s' has a meaning of its own in sheets and formulas", id);
            hl__todo(err, "choose another name");
            return hl__at(err, entry->origin.file, entry->origin.line, 0);
        }
    }
    for (hl_draft_part other = HL_P_STEP; other <= HL_P_FACT; other++) {
        const hl_draft_item *item = other != part ? hl__draft_find(draft, other, id) : NULL;
        if (item != NULL)
            return fail_twice(entry, id, hl__word_name(word_of[other]), item, err);
    }
    return HL_OK;
}

/* Bind bare numbers to the unit that holds now, so that a later change of unit leaves them be. */
static void bind_units(hl_value *values, int n, hl_unit unit)
{
    for (int i = 0; i < n; i++)
        values[i].unit = unit;
}

hl_code hl__draft_item(hl_draft_item **out, hl_draft *draft, hl_draft_part part, const hl_entry *entry,
                       hl_err *err)
{
    const char *id = entry->values[0].text;
    hl_code code = check_name(draft, part, entry, id, err);
    if (code != HL_OK)
        return code;
    hl_draft_list *list = &draft->parts[part];
    if (!hl__grow((void **)&list->items, list->n, &list->room, sizeof *list->items))
        return hl__no_memory(err);
    hl_draft_item *item = hl__arena_take(draft->arena, sizeof *item);
    hl_value *values = hl__arena_array(draft->arena, (size_t)entry->n_values, sizeof *values);
    if (item == NULL || values == NULL)
        return hl__no_memory(err);
    memcpy(values, entry->values, (size_t)entry->n_values * sizeof *values);
    *item = (hl_draft_item){.id = id, .origin = entry->origin, .latest = entry->origin, .values = values};
    item->end = &item->first;
    list->items[list->n++] = item;
    *out = item;
    return HL_OK;
}

hl_code hl__draft_note(hl_draft *draft, hl_draft_item *item, const char *field, const hl_entry *by,
                       const hl_value *why, hl_err *err)
{
    hl_history *line = hl__arena_take(draft->arena, sizeof *line);
    if (line == NULL)
        return hl__no_memory(err);
    line->change =
        (hl_change){field, why->kind == HL_IS_TEXT ? why->text : "", by->origin, by->word == HL_W_CHOOSE};
    *item->end = line;
    item->end = &line->next;
    item->n_changes++;
    item->latest = by->origin;
    return HL_OK;
}

/* ---- cautions ---------------------------------------------------------------------------------- */

static char *join(hl_draft *draft, const char *a, const char *between, const char *b)
{
    const size_t na = strlen(a), nb = strlen(between), nc = strlen(b);
    char *text = hl__arena_array(draft->arena, na + nb + nc + 1, 1);
    if (text == NULL)
        return NULL;
    memcpy(text, a, na);
    memcpy(text + na, between, nb);
    memcpy(text + na + nb, b, nc);
    return text;
}

/* A caution keeps hands and pianos from harm: a later entry adds to it.  One that takes it away says why, and
 * the reason is printed wherever the caution was. */
static hl_code lay_caution(hl_draft *draft, hl_value *caution, const hl_value *over, const hl_value *why,
                           const hl_entry *entry, hl_err *err)
{
    const char *before = caution->kind == HL_IS_TEXT ? caution->text : "";
    const char *id = entry->values[0].text, *reason = why->kind == HL_IS_TEXT ? why->text : "";
    hl_value now = *over;
    if (over->kind == HL_IS_BOOLEAN && before[0] == '\0') {
        hl__fail(err, HL_E_RULE, "'%s' has no caution, so there is nothing to take away", id);
        hl__todo(err, "take out caution = false");
        return hl__at(err, over->origin.file, over->origin.line, 0);
    }
    if (over->kind == HL_IS_BOOLEAN && reason[0] == '\0') {
        hl__fail(err, HL_E_RULE, "the caution of '%s' is taken away without a reason: %s", id, before);
        hl__todo(err, "give why = ...; it is printed where the caution was");
        return hl__at(err, over->origin.file, over->origin.line, 0);
    }
    if (over->kind == HL_IS_BOOLEAN)
        now.text = join(draft, "none by this book", ": ", reason);
    else if (before[0] != '\0' && strstr(over->text, before) == NULL)
        now.text = join(draft, before, " ", over->text);
    if (now.text == NULL)
        return hl__no_memory(err);
    now.kind = HL_IS_TEXT;
    *caution = now;
    return HL_OK;
}

/* ---- steps ----------------------------------------------------------------------------------- */

hl_code hl__draft_step(hl_draft *draft, const hl_entry *step, hl_err *err)
{
    const char *id = step->values[STEP_ID].text;
    const hl_draft_item *before = hl__draft_find(draft, HL_P_STEP, id);
    if (before != NULL) {
        hl__fail(err, HL_E_RULE, "step '%s' is defined twice", id);
        hl__todo(err, "the first one is at %s:%d; rename this one, or use change { \"%s\", ... }",
                 before->origin.file, before->origin.line, id);
        return hl__at(err, step->origin.file, step->origin.line, 0);
    }
    hl_draft_item *item;
    hl_code code = hl__draft_item(&item, draft, HL_P_STEP, step, err);
    if (code == HL_OK)
        bind_units(item->values, STEP_FIELDS, hl__value_unit(&item->values[STEP_UNIT]));
    return code;
}

static hl_code check_unit(const hl_draft_item *step, const hl_entry *change, hl_unit *unit, hl_err *err)
{
    *unit = hl__value_unit(&step->values[STEP_UNIT]);
    const hl_value *given = &change->values[STEP_UNIT];
    if (given->kind == HL_IS_NOTHING)
        return HL_OK;
    hl_unit before = *unit;
    *unit = hl__value_unit(given);
    if (before == HL_NO_UNIT || hl__dims_equal(hl__unit_dims(before), hl__unit_dims(*unit)))
        return HL_OK;
    hl__fail(err, HL_E_RULE, "change of '%s' changes a unit, from %s to %s", step->id, hl_unit_name(before),
             hl_unit_name(*unit));
    hl__todo(err, "formulas and adjusters count on %s; write a step of its own", hl_unit_name(before));
    return hl__at(err, change->origin.file, change->origin.line, 0);
}

hl_code hl__draft_change(hl_draft *draft, const hl_entry *change, hl_err *err)
{
    const char *id = change->values[STEP_ID].text;
    hl_draft_item *step = hl__draft_find(draft, HL_P_STEP, id);
    if (step == NULL && hl__draft_may_be_lost(draft, id))
        return HL_OK;
    if (step == NULL) {
        hl__fail(err, HL_E_RULE, "change: there is no step '%s' in the book so far", id);
        hl__did_you_mean(err, hl__draft_nearest(draft, HL_P_STEP, id),
                         "change comes after the use that brings the step");
        return hl__at(err, change->origin.file, change->origin.line, 0);
    }
    hl_unit unit;
    hl_code code = check_unit(step, change, &unit, err);
    int n = 0;
    for (int i = 0; code == HL_OK && i < STEP_FIELDS; i++) {
        const hl_field *field = hl__word_field(HL_W_CHANGE, i);
        if (field == NULL || i == STEP_ID || i == STEP_WHY || change->values[i].kind == HL_IS_NOTHING)
            continue;
        if (i == STEP_CAUTION) {
            code = lay_caution(draft, &step->values[i], &change->values[i], &change->values[STEP_WHY], change,
                               err);
        } else {
            step->values[i] = change->values[i];
            step->values[i].unit = unit;
        }
        if (code == HL_OK)
            code = hl__draft_note(draft, step, field->name, change, &change->values[STEP_WHY], err);
        n++;
    }
    if (code == HL_OK && n == 0) {
        hl__fail(err, HL_E_RULE, "change of '%s' changes nothing", id);
        hl__todo(err, "name the field and its new value: target = range(1, 2)");
        return hl__at(err, change->origin.file, change->origin.line, 0);
    }
    return code != HL_OK ? code : hl__step_check(step->values, change->origin, draft->loader->box.all, err);
}

hl_code hl__draft_note_skip(hl_draft *draft, hl_draft_item *step, const hl_entry *skip, hl_err *err)
{
    return hl__draft_note(draft, step, "skip", skip, &skip->values[SKIP_WHY], err);
}

/* ---- adjusters, facts, stages, diagnoses ------------------------------------------------------- */

static const hl_value *find_key(const hl_value *table, const char *key)
{
    for (int i = 0; i < table->n_items; i++) {
        if (strcmp(table->items[i].key, key) == 0)
            return &table->items[i];
    }
    return NULL;
}

static hl_code fail_not_moved(const hl_entry *entry, const hl_value *move, hl_err *err)
{
    hl__fail(err, HL_E_RULE, "adjuster '%s' does not move '%s', so there is nothing to take out",
             entry->values[ADJ_ID].text, move->key);
    hl__todo(err, "take out %s = false", move->key);
    return hl__at(err, entry->origin.file, entry->origin.line, 0);
}

/* moves = { ... } over the moves that are there: merges, and false takes one out. */
static hl_code merge_moves(hl_draft *draft, hl_draft_item *item, const hl_entry *entry, bool fresh,
                           hl_err *err)
{
    static const hl_value none = {.kind = HL_IS_TABLE};
    const hl_value *over = &entry->values[ADJ_MOVES];
    const hl_value *under =
        fresh || item->values[ADJ_MOVES].kind != HL_IS_TABLE ? &none : &item->values[ADJ_MOVES];
    hl_value merged = *over;
    merged.items =
        hl__arena_array(draft->arena, (size_t)(under->n_items + over->n_items) + 1, sizeof *merged.items);
    if (merged.items == NULL)
        return hl__no_memory(err);
    merged.n_items = 0;
    for (int i = 0; i < under->n_items; i++) {
        if (find_key(over, under->items[i].key) == NULL)
            merged.items[merged.n_items++] = under->items[i];
    }
    for (int i = 0; i < over->n_items; i++) {
        const hl_value *move = &over->items[i];
        const hl_value *was = find_key(under, move->key);
        bool out = move->kind == HL_IS_BOOLEAN;
        if (out && was == NULL && !hl__draft_may_be_lost(draft, item->id))
            return fail_not_moved(entry, move, err);
        if (!out) {
            merged.items[merged.n_items] = *move;
            merged.items[merged.n_items++].under = was;
        }
        if (fresh)
            continue;
        char *field = hl__arena_array(draft->arena, strlen(move->key) + sizeof "moves.", 1);
        if (field == NULL)
            return hl__no_memory(err);
        memcpy(field, "moves.", sizeof "moves." - 1);
        memcpy(field + sizeof "moves." - 1, move->key, strlen(move->key));
        hl_code code = hl__draft_note(draft, item, field, entry, &entry->values[ADJ_WHY], err);
        if (code != HL_OK)
            return code;
    }
    item->values[ADJ_MOVES] = merged;
    return HL_OK;
}

/* What the first declaration must say and a later one may leave out. */
static hl_code check_first(const hl_draft *draft, hl_draft_part part, const hl_entry *entry, hl_err *err)
{
    static const int stage[] = {STAGE_TITLE, -1}, fact[] = {FACT_TITLE, FACT_UNIT, -1};
    static const int adjuster[] = {ADJ_TITLE, ADJ_MORE, ADJ_LESS, -1}, none[] = {-1};
    const int *needed = part == HL_P_STAGE      ? stage
                        : part == HL_P_FACT     ? fact
                        : part == HL_P_ADJUSTER ? adjuster
                                                : none;
    for (; *needed >= 0; needed++) {
        if (entry->values[*needed].kind != HL_IS_NOTHING ||
            hl__draft_may_be_lost(draft, entry->values[0].text))
            continue;
        const char *id = entry->values[0].text, *word = hl__word_name(entry->word);
        const hl_field *field = hl__word_field(entry->word, *needed);
        const char *nearest = hl__draft_nearest(draft, part, id);
        hl__fail(err, HL_E_RULE, "%s '%s' is not in the book so far, and a new one must have '%s'", word, id,
                 field->name);
        hl__did_you_mean(err, nearest, field->help);
        return hl__at(err, entry->origin.file, entry->origin.line, 0);
    }
    return HL_OK;
}

static hl_code check_same_unit(hl_draft_part part, const hl_draft_item *item, const hl_entry *entry,
                               hl_err *err)
{
    int at = part == HL_P_ADJUSTER ? ADJ_UNIT : part == HL_P_FACT ? FACT_UNIT : -1;
    if (at < 0 || entry->values[at].kind == HL_IS_NOTHING)
        return HL_OK;
    const hl_value *before = &item->values[at];
    if (before->kind == HL_IS_TEXT && strcmp(before->text, entry->values[at].text) == 0)
        return HL_OK;
    hl__fail(err, HL_E_RULE, "%s '%s' changes a unit, from %s to %s", hl__word_name(entry->word), item->id,
             before->kind == HL_IS_TEXT ? before->text : "none", entry->values[at].text);
    hl__todo(err, "formulas count on the unit it had at %s:%d", item->origin.file, item->origin.line);
    return hl__at(err, entry->origin.file, entry->origin.line, 0);
}

/* Two books may say different things of one adjuster in turn; a file that does so twice has forgotten the
 * first. */
static hl_code note_twice(hl_draft *draft, const char *id, const hl_entry *entry, hl_origin before,
                          hl_err *err)
{
    if (strcmp(before.file, entry->origin.file) != 0)
        return HL_OK;
    if (!hl__grow((void **)&draft->twice, draft->n_twice, &draft->room_twice, sizeof *draft->twice))
        return hl__no_memory(err);
    draft->twice[draft->n_twice++] = (hl_twice){hl__word_name(entry->word), id, before, entry->origin};
    return HL_OK;
}

hl_code hl__draft_float(hl_draft *draft, const hl_entry *floats, hl_err *err)
{
    const hl_entry *before = draft->floats;
    draft->floats = floats;
    return before == NULL ? HL_OK
                          : note_twice(draft, floats->values[FLOAT_ID].text, floats, before->origin, err);
}

hl_code hl__draft_lay(hl_draft *draft, hl_draft_part part, const hl_entry *entry, hl_err *err)
{
    hl_draft_item *item = hl__draft_find(draft, part, entry->values[0].text);
    bool fresh = item == NULL;
    hl_code code = fresh ? check_first(draft, part, entry, err) : check_same_unit(part, item, entry, err);
    if (code == HL_OK && fresh)
        code = hl__draft_item(&item, draft, part, entry, err);
    else if (code == HL_OK)
        code = note_twice(draft, item->id, entry, item->latest, err);
    static const hl_value no_reason = {.kind = HL_IS_NOTHING};
    const hl_value *why = part == HL_P_ADJUSTER ? &entry->values[ADJ_WHY]
                          : part == HL_P_FACT   ? &entry->values[FACT_WHY]
                                                : &no_reason;
    bool both = part == HL_P_FACT && entry->values[FACT_VALUE].kind != HL_IS_NOTHING;
    if (code == HL_OK && both && !fresh)
        item->values[FACT_NATURALS].kind = item->values[FACT_SHARPS].kind = HL_IS_NOTHING;
    for (int i = 1; code == HL_OK && i < entry->n_values; i++) {
        if (entry->values[i].kind == HL_IS_NOTHING)
            continue;
        if (part == HL_P_ADJUSTER && i == ADJ_MOVES) {
            code = merge_moves(draft, item, entry, fresh, err);
            continue;
        }
        if (part == HL_P_STAGE && i == STAGE_CAUTION && (!fresh || entry->values[i].kind == HL_IS_BOOLEAN)) {
            if (fresh)
                item->values[i] = no_reason;
            code = lay_caution(draft, &item->values[i], &entry->values[i], &entry->values[STAGE_WHY], entry,
                               err);
        } else {
            item->values[i] = entry->values[i];
        }
        if (code == HL_OK && !fresh)
            code = hl__draft_note(draft, item, hl__word_field(entry->word, i)->name, entry, why, err);
    }
    if (code == HL_OK)
        item->latest = entry->origin;
    return code;
}
