/* formats.c - the table of output formats (layer: render/data).
 *
 * A new format is a file beside this one and a line here; the command line, its help, the manual pages and
 * the completions take it from this table. */
#include "format_rows.h"

#include <string.h>

static const hl_format *const table[] = {
    &hl__format_text, &hl__format_json, &hl__format_json_lines,
    &hl__format_csv,  &hl__format_tap,  &hl__format_junit,
};

const hl_format *hl_format_at(int i)
{
    return i >= 0 && i < (int)(sizeof table / sizeof *table) ? table[i] : NULL;
}

const hl_format *hl_format_named(const char *name)
{
    const hl_format *format = NULL;
    for (int i = 0; (format = hl_format_at(i)) != NULL; i++)
        if (strcmp(format->name, name) == 0)
            return format;
    return NULL;
}
