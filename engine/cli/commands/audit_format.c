/* audit_format.c - the format that an audit is printed in (layer: cli/commands). */
#include "audit_format.h"

#include "output.h"

#include <string.h>

const hl_format *choose_format(const request *asked)
{
    static const struct {
        option_id id;
        const char *name;
    } shorts[] = {{OPTION_JSON, "json"}, {OPTION_JSON_LINES, "json-lines"}, {OPTION_CSV, "csv"}};
    const char *name = asked->format;
    int n = name != NULL;
    for (size_t i = 0; i < sizeof shorts / sizeof *shorts; i++) {
        if (!asked->given[shorts[i].id])
            continue;
        name = shorts[i].name;
        n++;
    }
    if (n > 1) {
        complain("--format, --json, --json-lines and --csv at once; choose one");
        return NULL;
    }
    const hl_format *format = hl_format_named(name ? name : "text");
    if (format && !is_text(format) && asked->given[OPTION_COLOR]) {
        complain("--color belongs to text; leave it out with --format %s", format->name);
        return NULL;
    }
    return format;
}

bool is_text(const hl_format *format)
{
    return format->item == NULL;
}

static int give(hl_code code, char *text, size_t size, const hl_err *err)
{
    if (code != HL_OK)
        return report(err);
    say_text(text, size);
    hl_free(text);
    return EXIT_READY;
}

int begin_item(printing *to)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_format *format = to->format;
    const bool bare = to->alone && format->bare;
    to->n++;
    if (to->n > 1 && format->between)
        say("%s", format->between);
    if (to->n > 1 || bare || !format->head)
        return EXIT_READY;
    const hl_code made = format->head(&text, &size, &err);
    return give(made, text, size, &err);
}

int print_refused(printing *to, const char *title, const hl_err *errors, int n)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (!to->format->refused)
        return EXIT_READY;
    const hl_code made = to->format->refused(&text, &size, title, errors, n, &err);
    return give(made, text, size, &err);
}

int end_items(printing *to)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_format *format = to->format;
    if (to->alone && format->bare) {
        say("\n");
        return EXIT_READY;
    }
    if (to->n == 0 && format->head) {
        const hl_code made = format->head(&text, &size, &err);
        const int code = give(made, text, size, &err);
        if (code != EXIT_READY)
            return code;
    }
    if (!format->tail)
        return EXIT_READY;
    const hl_code made = format->tail(&text, &size, to->n, &err);
    return give(made, text, size, &err);
}
