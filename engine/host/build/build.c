/* build.c - from a draft to the flattened book: what all parts share, and the small parts
 * (layer: host/build). */
#include "build.h"

#include "errors.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

hl_code hl__build_fail(hl_builder *b, hl_origin at, const char *todo, const char *what, ...)
{
    char text[sizeof b->err->what];
    va_list arguments;
    va_start(arguments, what);
    vsnprintf(text, sizeof text, what, arguments); /* names and whole numbers only: no locale */
    va_end(arguments);
    hl__fail(b->err, HL_E_RULE, "%s", text);
    hl__todo(b->err, "%s", todo);
    return hl__at(b->err, at.file, at.line, 0);
}

hl_code hl__build_keep(hl_builder *b, hl_code code)
{
    return hl__keep_error(b->draft->loader->box.all, code, b->err);
}

hl_code hl__build_unknown(hl_builder *b, hl_origin at, hl_draft_part part, const char *in, const char *id)
{
    static const char *const names[HL_PARTS] = {"stage",     "step",   "adjuster", "fact",
                                                "diagnosis", "choice", "source"};
    hl__fail(b->err, HL_E_RULE, "%s: there is no %s '%s' in the book", in, names[part], id);
    hl__did_you_mean(b->err, hl__draft_nearest(b->draft, part, id),
                     "add it to the book, or take the name out");
    return hl__at(b->err, at.file, at.line, 0);
}

hl_code hl__build_index(hl_builder *b, hl_draft_part part, const hl_value *name, const char *in, int *out)
{
    const hl_draft_list *list = &b->draft->parts[part];
    for (size_t i = 0; i < list->n; i++) {
        if (strcmp(list->items[i]->id, name->text) == 0) {
            *out = (int)i;
            return HL_OK;
        }
    }
    return hl__build_unknown(b, name->origin, part, in, name->text);
}

hl_code hl__build_amount(hl_builder *b, const hl_value *value, hl_unit unit, hl_amount *out)
{
    if (value->kind == HL_IS_TEXT) {
        if (hl__quantity_read(out, value->text, unit, HL_E_RULE, NULL, b->err) == HL_OK)
            return HL_OK;
        return hl__at(b->err, value->origin.file, value->origin.line, 0);
    }
    double base = value->number * ((double)hl__unit_scale(unit) / (double)HL_ONE);
    if (hl__amount_from(base, out))
        return HL_OK;
    return hl__build_fail(b, value->origin, "numbers go up to a million", "a number here is too large");
}

hl_code hl__build_size(hl_builder *b, const hl_value *value, hl_unit unit, const char *name, hl_amount *out)
{
    if (value->kind == HL_IS_NOTHING)
        return HL_OK;
    hl_code code = hl__build_amount(b, value, unit, out);
    if (code == HL_OK && *out <= 0)
        return hl__build_fail(b, value->origin, "write how much, such as 0.1",
                              "field '%s' must be above zero", name);
    return code;
}

const char *hl__build_text(const hl_value *value)
{
    return value->kind == HL_IS_TEXT ? value->text : "";
}

hl_code hl__build_changes(hl_builder *b, const hl_draft_item *item, const hl_change **out, int *n)
{
    hl_change *changes = hl__arena_array(&b->book->arena, (size_t)item->n_changes + 1, sizeof *changes);
    if (changes == NULL)
        return hl__no_memory(b->err);
    int count = 0;
    for (const hl_history *line = item->first; line != NULL; line = line->next)
        changes[count++] = line->change;
    *out = changes;
    *n = count;
    return HL_OK;
}

/* ---- the small parts --------------------------------------------------------------------------- */

hl_code hl__build_stages(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_STAGE];
    b->book->stages = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->stages);
    if (b->book->stages == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        const hl_draft_item *item = list->items[i];
        b->book->stages[i] = (hl_stage){item->id, hl__build_text(&item->values[STAGE_TITLE]),
                                        hl__build_text(&item->values[STAGE_CAUTION]), item->origin};
    }
    b->book->n_stages = (int)list->n;
    return HL_OK;
}

hl_code hl__build_renamed(hl_builder *b)
{
    const hl_draft *draft = b->draft;
    b->book->renamed = hl__arena_array(&b->book->arena, draft->n_renamed + 1, sizeof *b->book->renamed);
    if (b->book->renamed == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < draft->n_renamed; i++)
        b->book->renamed[i] = draft->renamed[i];
    b->book->n_renamed = (int)draft->n_renamed;
    return HL_OK;
}

hl_code hl__build_old_names(hl_builder *b)
{
    const hl_old_names *names = b->draft->old_names;
    b->book->old_names = hl__arena_array(&b->book->arena, names->n + 1, sizeof *b->book->old_names);
    if (b->book->old_names == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < names->n; i++)
        b->book->old_names[i] = names->items[i];
    b->book->n_old_names = (int)names->n;
    return HL_OK;
}

hl_code hl__build_sources(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_SOURCE];
    b->book->sources = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->sources);
    if (b->book->sources == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        const hl_value *v = list->items[i]->values;
        b->book->sources[i] = (hl_source){.key = list->items[i]->id,
                                          .kind = v[SOURCE_KIND].text,
                                          .archive = hl__build_text(&v[SOURCE_ARCHIVE]),
                                          .subject = v[SOURCE_SUBJECT].text,
                                          .date = hl__build_text(&v[SOURCE_DATE]),
                                          .differs = hl__build_text(&v[SOURCE_DIFFERS]),
                                          .origin = list->items[i]->origin};
    }
    b->book->n_sources = (int)list->n;
    return HL_OK;
}

static hl_code read_compass(hl_builder *b, const hl_value *value, hl_compass *out)
{
    static const hl_compass every_pitch = {0, HL_PITCHES};
    *out = (hl_compass){HL_A0, 88};
    if (value->kind == HL_IS_NOTHING)
        return HL_OK;
    char low[8] = "";
    const char *dash = strchr(value->text, '-');
    size_t n = dash != NULL ? (size_t)(dash - value->text) : 0;
    if (n > 0 && n < sizeof low)
        memcpy(low, value->text, n);
    bool names = low[0] > '9' && dash[1] > '9';
    int from = names ? hl_note_parse(every_pitch, low) : 0;
    int to = names ? hl_note_parse(every_pitch, dash + 1) : 0;
    if (from == 0 || to <= from)
        return hl__build_fail(b, value->origin, "write the lowest and the highest note: \"A0-C8\"",
                              "'%s' is no compass", value->text);
    *out = (hl_compass){from - 1, to - from + 1};
    return HL_OK;
}

hl_code hl__build_head(hl_builder *b)
{
    hl_book *book = b->book;
    const hl_value *values = b->draft->book;
    book->id = values[BOOK_ID].text;
    book->title = values[BOOK_TITLE].text;
    book->about = hl__build_text(&values[BOOK_ABOUT]);
    hl_code code = read_compass(b, &values[BOOK_COMPASS], &book->compass);
    if (code != HL_OK)
        return code;
    const hl_value *share = &values[BOOK_STALE_SHARE];
    double part = share->kind == HL_IS_NUMBER ? share->number : 0.25;
    if (!(part > 0 && part <= 1) || !hl__amount_from(part, &book->stale_share))
        return hl__build_fail(b, share->origin, "write a part of one: 0.25",
                              "field 'stale_share' must be above 0, up to 1");
    return HL_OK;
}

static hl_code build_twice(hl_builder *b)
{
    const hl_draft *draft = b->draft;
    hl_twice *twice = hl__arena_array(&b->book->arena, draft->n_twice + 1, sizeof *twice);
    if (twice == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < draft->n_twice; i++)
        twice[i] = draft->twice[i];
    b->book->twice = twice;
    b->book->n_twice = (int)draft->n_twice;
    return HL_OK;
}

hl_code hl__build_files(hl_builder *b)
{
    const hl_files *files = &b->draft->loader->files;
    hl_origin *list = hl__arena_array(&b->book->arena, files->n + 1, sizeof *list);
    if (list == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < files->n; i++)
        list[i] = (hl_origin){files->found[i]->shown, 1};
    b->book->files = list;
    b->book->n_files = (int)files->n;
    hl__hash_end(&b->draft->loader->hash, b->book->hash);
    return build_twice(b);
}

hl_code hl__build_float(hl_builder *b)
{
    hl_float *floats = &b->book->floats;
    *floats = (hl_float){.step = -1};
    const hl_entry *entry = b->draft->floats;
    if (entry == NULL)
        return HL_OK;
    floats->origin = entry->origin;
    hl_code code = hl__build_index(b, HL_P_STEP, &entry->values[FLOAT_ID], "float", &floats->step);
    if (code != HL_OK)
        return code;
    const hl_step *step = &b->book->steps[floats->step];
    if (step->kind != HL_MEASURED)
        return hl__build_fail(b, entry->origin, "name a measured step", "float: '%s' is not measured",
                              step->id);
    return hl__build_size(b, &entry->values[FLOAT_WITHIN], step->unit, "within", &floats->within);
}

hl_code hl__build_acknowledged(hl_builder *b)
{
    size_t n = b->draft->n_acknowledged;
    hl_acknowledged *list = hl__arena_array(&b->book->arena, n + 1, sizeof *list);
    if (list == NULL)
        return hl__no_memory(b->err);
    b->book->acknowledged = list;
    for (size_t i = 0; i < n; i++) {
        const hl_entry *entry = b->draft->acknowledged[i];
        hl_code code =
            hl__build_index(b, HL_P_ADJUSTER, &entry->values[ACK_ADJUSTER], "acknowledge", &list[i].adjuster);
        if (code == HL_OK)
            code = hl__build_index(b, HL_P_STEP, &entry->values[ACK_STEP], "acknowledge", &list[i].step);
        code = hl__build_keep(b, code);
        if (code != HL_OK)
            return code;
        list[i].why = entry->values[ACK_WHY].text;
        list[i].origin = entry->origin;
        b->book->n_acknowledged++;
    }
    return HL_OK;
}

static hl_code build_choice(hl_builder *b, const hl_draft_item *item, hl_chosen *choice)
{
    const hl_value *v = item->values, *list = &v[CHOICE_OPTIONS];
    hl_option *options = hl__arena_array(&b->book->arena, (size_t)list->n_items, sizeof *options);
    if (options == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < list->n_items; i++)
        options[i] = (hl_option){list->items[i].key, list->items[i].text};
    *choice = (hl_chosen){.id = item->id,
                          .title = v[CHOICE_TITLE].text,
                          .options = options,
                          .n_options = list->n_items,
                          .option = hl__draft_option(item, v[CHOICE_OPTION].text),
                          .uses = item->uses,
                          .source = hl__build_text(&v[CHOICE_SOURCE]),
                          .origin = item->origin};
    return hl__build_changes(b, item, &choice->changes, &choice->n_changes);
}

hl_code hl__build_choices(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_CHOICE];
    b->book->choices = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->choices);
    if (b->book->choices == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        hl_code code = build_choice(b, list->items[i], &b->book->choices[i]);
        if (code != HL_OK)
            return code;
        b->book->n_choices++;
    }
    return HL_OK;
}
