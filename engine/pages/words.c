/* words.c - reads out of the option table what can follow what, for completions (layer: pages). */
#include "pages.h"

#include <string.h>

/* What the name in capitals at the beginning of `at` means. */
static value_kind kind_of_name(const char *at)
{
    static const struct {
        const char *name;
        value_kind kind;
    } known[] = {{"DIR", VALUE_FOLDER}, {"FILE", VALUE_FILE}, {"BOOK", VALUE_BOOK}, {"SHEET", VALUE_FILE}};
    const size_t size = strspn(at, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (strlen(known[i].name) == size && strncmp(known[i].name, at, size) == 0)
            return known[i].kind;
    return VALUE_FREE;
}

value_kind kind_of_value(const option_row *row)
{
    return row->word ? VALUE_WORDS : kind_of_name(row->value);
}

void put_value_words(FILE *out, const option_row *row)
{
    for (int i = 0; row->word && row->word(i); i++)
        fprintf(out, "%s%s", i ? " " : "", row->word(i));
}

value_kind kind_of_operands(const command_form *of)
{
    return kind_of_name(of->operands);
}

static int add_rows(const option_row *out[OPTIONS_ROOM], int n, const option_row *rows)
{
    for (; rows->id != OPTION_END; rows++) {
        int i = 0;
        while (i < n && out[i]->id != rows->id)
            i++;
        if (i < n)
            continue;
        if (n == OPTIONS_ROOM)
            give_up("too many options, the first that has no room is", rows->name);
        out[n++] = rows;
    }
    return n;
}

int list_options(const option_row *out[OPTIONS_ROOM])
{
    int n = add_rows(out, 0, program_options);
    n = add_rows(out, n, common_options);
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++)
            n = add_rows(out, n, of->options);
    return n;
}
