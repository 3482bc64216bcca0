/* build_step.c - steps without what refers to other items, and facts (layer: host/build). */
#include "build.h"

#include "errors.h"

#include <string.h>

static int find_choice(const hl_value *value, const char *const *names, int otherwise)
{
    for (int i = 0; value->kind == HL_IS_TEXT && names[i] != NULL; i++) {
        if (strcmp(names[i], value->text) == 0)
            return i;
    }
    return otherwise;
}

static hl_code build_words(hl_builder *b, const hl_value *faults, hl_step *step)
{
    hl_word *words = hl__arena_array(&b->book->arena, (size_t)faults->n_list + 1, sizeof *words);
    if (words == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < faults->n_list; i++) {
        const hl_value *values = faults->items[i].entry->values;
        words[i] = (hl_word){.word = values[FAULT_WORD].text,
                             .means = hl__build_text(&values[FAULT_MEANS]),
                             .todo = hl__build_text(&values[FAULT_TODO])};
    }
    step->words = words;
    step->n_words = faults->n_list;
    return HL_OK;
}

static hl_code build_sizes(hl_builder *b, const hl_value *v, hl_step *step)
{
    hl_code code =
        hl__build_size(b, &v[STEP_RESOLUTION], v[STEP_RESOLUTION].unit, "resolution", &step->resolution);
    if (code == HL_OK)
        code = hl__build_size(b, &v[STEP_GAUGE], v[STEP_GAUGE].unit, "gauge", &step->gauge);
    if (code == HL_OK)
        code = hl__build_size(b, &v[STEP_EVEN], v[STEP_EVEN].unit, "even", &step->even);
    return code;
}

static void build_texts(const hl_value *v, hl_step *step)
{
    step->title = hl__build_text(&v[STEP_TITLE]);
    step->plain = hl__build_text(&v[STEP_PLAIN]);
    step->ask = hl__build_text(&v[STEP_ASK]);
    step->why = hl__build_text(&v[STEP_WHY]);
    step->source = hl__build_text(&v[STEP_SOURCE]);
    step->caution = hl__build_text(&v[STEP_CAUTION]);
    step->method = hl__build_text(&v[STEP_METHOD]);
    step->gauge_name = hl__build_text(&v[STEP_GAUGE_NAME]);
    step->low_todo = hl__build_text(&v[STEP_LOW_TODO]);
    step->high_todo = hl__build_text(&v[STEP_HIGH_TODO]);
    step->unsourced = v[STEP_UNSOURCED].flag;
}

static hl_code build_step(hl_builder *b, const hl_draft_item *item, hl_step *step)
{
    static const char *const kinds[] = {"measured", "judged", "derived", NULL};
    static const char *const needs[] = {"every", "samples", "optional", NULL};
    static const char *const scopes[] = {"every", "naturals", "sharps", "damped", "sections", "once", NULL};
    const hl_value *v = item->values;
    *step = (hl_step){.id = item->id, .origin = item->origin};
    step->kind = (hl_kind)find_choice(&v[STEP_KIND], kinds, HL_MEASURED);
    step->need = (hl_need)find_choice(&v[STEP_NEED], needs, HL_NEED_EVERY);
    step->scope = (hl_scope)find_choice(&v[STEP_SCOPE], scopes, HL_EVERY_NOTE);
    step->unit = hl__value_unit(&v[STEP_UNIT]);
    step->breaks = v[STEP_BREAKS].kind != HL_IS_BOOLEAN || v[STEP_BREAKS].flag;
    step->across_colours = v[STEP_ACROSS].kind == HL_IS_TEXT;
    step->pair = -1;
    step->skipped = item->skip != NULL ? item->skip->values[SKIP_WHY].text : NULL;
    build_texts(v, step);
    hl_code code = hl__build_index(b, HL_P_STAGE, &v[STEP_STAGE], item->id, &step->stage);
    if (code == HL_OK)
        code = build_sizes(b, v, step);
    if (code == HL_OK && step->kind == HL_JUDGED)
        code = build_words(b, &v[STEP_FAULTS], step);
    if (code == HL_OK)
        code = hl__build_changes(b, item, &step->changes, &step->n_changes);
    return code;
}

hl_code hl__build_steps(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_STEP];
    b->book->steps = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->steps);
    if (b->book->steps == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        hl_code code = hl__build_keep(b, build_step(b, list->items[i], &b->book->steps[i]));
        if (code != HL_OK)
            return code;
        b->book->n_steps++;
    }
    if (list->n == 0)
        return hl__build_fail(b, b->draft->book_origin, "add use \"name\" for each step",
                              "the book has no step");
    return HL_OK;
}

/* ---- facts ------------------------------------------------------------------------------------- */

static hl_code build_fact(hl_builder *b, const hl_draft_item *item, hl_fact *fact)
{
    const hl_value *v = item->values;
    *fact = (hl_fact){.id = item->id,
                      .title = hl__build_text(&v[FACT_TITLE]),
                      .unit = hl__build_text(&v[FACT_UNIT]),
                      .assumed = v[FACT_ASSUMED].flag,
                      .source = hl__build_text(&v[FACT_SOURCE]),
                      .why = hl__build_text(&v[FACT_WHY]),
                      .origin = item->latest};
    hl_dims dims;
    if (!hl__dims_parse(&dims, fact->unit))
        return hl__build_fail(b, v[FACT_UNIT].origin,
                              "write mm, g, turn, deg, ratio, or one over another: mm/turn",
                              "fact '%s' has the unit '%s', which is none", item->id, fact->unit);
    const hl_value *both = &v[FACT_VALUE];
    const hl_value *natural = v[FACT_NATURALS].kind != HL_IS_NOTHING ? &v[FACT_NATURALS] : both;
    const hl_value *sharp = v[FACT_SHARPS].kind != HL_IS_NOTHING ? &v[FACT_SHARPS] : both;
    if ((natural->kind == HL_IS_NOTHING) != (sharp->kind == HL_IS_NOTHING))
        return hl__build_fail(b, item->latest, "give naturals and sharps, or value for both",
                              "fact '%s' has a value for one colour only", item->id);
    fact->has_value = natural->kind == HL_IS_NUMBER;
    if (fact->has_value) {
        fact->value[0] = natural->number;
        fact->value[1] = sharp->number;
    }
    return HL_OK;
}

hl_code hl__build_facts(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_FACT];
    b->book->facts = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->facts);
    if (b->book->facts == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        hl_code code = hl__build_keep(b, build_fact(b, list->items[i], &b->book->facts[i]));
        if (code != HL_OK)
            return code;
        b->book->n_facts++;
    }
    return HL_OK;
}
