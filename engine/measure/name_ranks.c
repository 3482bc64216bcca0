/* name_ranks.c - numbers the names of a column in the order of the rows (layer: measure). */
#include "name_ranks.h"

#include <string.h>

static int find_name(const hl_name_ranks *ranks, const char *name)
{
    int i = 1;
    while (i <= ranks->n && strcmp(ranks->names[i], name) != 0)
        i++;
    return i;
}

bool hl__name_ranks(hl_name_ranks *out, hl_arena *arena, const hl_sheet *sheet, bool method)
{
    const int most = method ? HL_METHODS_MOST : HL_PEOPLE_MOST;
    uint32_t last = 0;
    unsigned short rank = 0;
    out->n = 0;
    out->of = hl__arena_array(arena, sheet->n_events + 1, sizeof *out->of);
    out->names = hl__arena_array(arena, (size_t)most + 1, sizeof *out->names);
    if (!out->of || !out->names)
        return false;
    for (size_t i = 0; i < sheet->n_events; i++) {
        const uint32_t text = method ? sheet->events[i].method : sheet->events[i].by;
        if (text != last) {
            const int found = text == 0 ? 0 : find_name(out, hl__text_at(sheet, text));
            if (found > out->n && found <= most)
                out->names[++out->n] = hl__text_at(sheet, text);
            rank = (unsigned short)(found <= out->n ? found : 0);
            last = text;
        }
        out->of[i] = rank;
    }
    return true;
}
