/* build_reference.c - fixes, masks and the ways out of faults, by index (layer: host/build). */
#include "build.h"

#include "errors.h"
#include "quantity.h"

#include <stdio.h>
#include <string.h>

static hl_code build_list(hl_builder *b, hl_draft_part part, const hl_value *list, const char *id,
                          const int **out, int *n)
{
    int *indexes = hl__arena_array(&b->book->arena, (size_t)list->n_list + 1, sizeof *indexes);
    if (indexes == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < list->n_list; i++) {
        hl_code code = hl__build_index(b, part, &list->items[i], id, &indexes[i]);
        if (code != HL_OK)
            return code;
    }
    *out = indexes;
    *n = list->n_list;
    return HL_OK;
}

static hl_code build_remedies(hl_builder *b, const char *id, const hl_value *list, hl_word *word)
{
    hl_remedy *remedies = hl__arena_array(&b->book->arena, (size_t)list->n_list + 1, sizeof *remedies);
    if (remedies == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < list->n_list; i++) {
        const hl_value *pair = list->items[i].items;
        hl_code code = hl__build_index(b, HL_P_ADJUSTER, &pair[0], id, &remedies[i].adjuster);
        if (code != HL_OK)
            return code;
        const hl_adjuster *adjuster = &b->book->adjusters[remedies[i].adjuster];
        remedies[i].more = strcmp(pair[1].text, adjuster->more) == 0;
        if (remedies[i].more || strcmp(pair[1].text, adjuster->less) == 0)
            continue;
        hl__fail(b->err, HL_E_RULE, "%s: '%s' is no way of '%s'", id, pair[1].text, adjuster->id);
        hl__todo(b->err, "its ways are '%s' and '%s'", adjuster->more, adjuster->less);
        return hl__at(b->err, pair[1].origin.file, pair[1].origin.line, 0);
    }
    word->remedies = remedies;
    word->n_remedies = list->n_list;
    return HL_OK;
}

static hl_code build_ways_out(hl_builder *b, const hl_value *faults, hl_step *step)
{
    if (step->kind != HL_JUDGED)
        return HL_OK;
    hl_word *words = hl__arena_array(&b->book->arena, (size_t)step->n_words + 1, sizeof *words);
    if (words == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < step->n_words; i++) {
        words[i] = step->words[i];
        hl_code code = build_remedies(b, step->id, &faults->items[i].entry->values[FAULT_FIX], &words[i]);
        if (code != HL_OK)
            return code;
    }
    step->words = words;
    return HL_OK;
}

static hl_code refuse_pair(hl_builder *b, const hl_value *pair, const char *todo, const hl_step *step,
                           const hl_step *other, const char *what)
{
    return hl__build_fail(b, pair->origin, todo, "step '%s' is a pair with '%s', %s", step->id, other->id,
                          what);
}

/* One of the two says it, and both then name each other. */
static hl_code build_pair(hl_builder *b, int at)
{
    const hl_value *pair = &b->draft->parts[HL_P_STEP].items[at]->values[STEP_PAIR];
    if (pair->kind != HL_IS_TEXT)
        return HL_OK;
    hl_step *step = &b->book->steps[at];
    int found = -1;
    hl_code code = hl__build_index(b, HL_P_STEP, pair, step->id, &found);
    if (code != HL_OK)
        return code;
    hl_step *other = &b->book->steps[found];
    if (found == at)
        return refuse_pair(b, pair, "name the step that is read with it", step, other, "which is itself");
    if (step->kind != HL_MEASURED || other->kind != HL_MEASURED ||
        !hl__dims_equal(hl__unit_dims(step->unit), hl__unit_dims(other->unit)))
        return refuse_pair(b, pair, "both must be measured, in mm or in g", step, other,
                           "and they differ in kind");
    if ((step->pair >= 0 && step->pair != found) || (other->pair >= 0 && other->pair != at))
        return refuse_pair(b, pair, "a step has one partner; take the other `pair` out", step, other,
                           "and one of them has another partner");
    step->pair = found;
    other->pair = at;
    return HL_OK;
}

static hl_code build_links(hl_builder *b, int i)
{
    hl_step *step = &b->book->steps[i];
    const hl_value *v = b->draft->parts[HL_P_STEP].items[i]->values;
    hl_code code = build_list(b, HL_P_ADJUSTER, &v[STEP_FIX], step->id, &step->fixes, &step->n_fixes);
    if (code == HL_OK)
        code = build_list(b, HL_P_STEP, &v[STEP_MASKS], step->id, &step->masks, &step->n_masks);
    for (int k = 0; code == HL_OK && k < step->n_masks; k++) {
        if (step->masks[k] == i)
            code = hl__build_fail(b, v[STEP_MASKS].origin, "take it out of masks", "step '%s' masks itself",
                                  step->id);
    }
    if (code == HL_OK)
        code = build_ways_out(b, &v[STEP_FAULTS], step);
    return code == HL_OK ? build_pair(b, i) : code;
}

hl_code hl__build_references(hl_builder *b)
{
    hl_code code = HL_OK;
    for (int i = 0; code == HL_OK && i < b->book->n_steps; i++)
        code = hl__build_keep(b, build_links(b, i));
    return code;
}
