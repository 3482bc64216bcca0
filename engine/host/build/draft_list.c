/* draft_list.c - finding what a draft holds (layer: host/build). */
#include "draft.h"

#include "nearest_name.h"

#include <stdlib.h>
#include <string.h>

hl_draft_item *hl__draft_find(const hl_draft *draft, hl_draft_part part, const char *id)
{
    const hl_draft_list *list = &draft->parts[part];
    for (size_t i = 0; i < list->n; i++) {
        if (strcmp(list->items[i]->id, id) == 0)
            return list->items[i];
    }
    return NULL;
}

const char *hl__draft_nearest(const hl_draft *draft, hl_draft_part part, const char *id)
{
    hl_suggest suggest = {id, NULL, 0};
    for (size_t i = 0; i < draft->parts[part].n; i++)
        hl__suggest_offer(&suggest, draft->parts[part].items[i]->id);
    return suggest.best;
}

bool hl__draft_may_be_lost(const hl_draft *draft, const char *id)
{
    for (int i = 0; i < draft->n_bad_ids; i++)
        if (strcmp(draft->bad_ids[i], id) == 0)
            return true;
    return draft->lost;
}

hl_unit hl__value_unit(const hl_value *value)
{
    hl_unit unit = HL_NO_UNIT;
    if (value->kind == HL_IS_TEXT)
        (void)hl__unit_parse(&unit, value->text, strlen(value->text));
    return unit;
}

void hl__draft_free(hl_draft *draft)
{
    for (int part = 0; part < HL_PARTS; part++)
        free(draft->parts[part].items);
    free(draft->acknowledged);
    free(draft->twice);
    free(draft->renamed);
}
