/* build_choice.c - the schools of a book and which of them holds (layer: host/build). */
#include "build.h"

#include "errors.h"

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
