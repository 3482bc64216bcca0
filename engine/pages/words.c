/* words.c - reads out of the option table what can stand where, for completions (layer: pages). */
#include "pages.h"

#include <string.h>

value_kind kind_of_value(const char *value, const char **words)
{
    static const struct {
        const char *value, *words;
        value_kind kind;
    } known[] = {
        {"DIR", NULL, VALUE_FOLDER},
        {"FILE", NULL, VALUE_FILE},
        {"BOOK", NULL, VALUE_BOOK},
        {"SHEET", NULL, VALUE_FILE},
        {"WHEN", "auto always never", VALUE_WORDS},
        {"RULE", "simple guarded", VALUE_WORDS},
        {"FORM", "wide tidy", VALUE_WORDS},
        {"READER", "owner", VALUE_WORDS},
    };
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        if (strcmp(known[i].value, value) == 0) {
            *words = known[i].words;
            return known[i].kind;
        }
    }
    *words = NULL;
    return VALUE_FREE;
}

bool has_forms(const command *of)
{
    return strchr(of->usage, '|') != NULL;
}

bool nth_form(const command *of, int i, char *out, size_t room)
{
    const char *at = strchr(of->usage, ' ');
    if (!at || !has_forms(of))
        return false;
    for (at++; i > 0; i--) {
        at += strcspn(at, "| ");
        if (*at != '|')
            return false;
        at++;
    }
    const size_t size = strcspn(at, "| ");
    if (size == 0 || size >= room)
        return false;
    memcpy(out, at, size);
    out[size] = '\0';
    return true;
}

const char *next_form_line(const char *from, const char *form, size_t *size)
{
    const size_t length = strlen(form);
    for (const char *line = from; *line; line += strcspn(line, "\n"), line += *line == '\n') {
        if (strncmp(line, "  ", 2) != 0 || strncmp(line + 2, form, length) != 0 || line[2 + length] != ' ')
            continue;
        const char *end = strstr(line + 2, "  ");
        *size = end ? (size_t)(end - line - 2) : strcspn(line + 2, "\n");
        return line + 2;
    }
    return NULL;
}

/* The name in capitals that `at` begins with. */
static value_kind kind_of_name(const char *at)
{
    char name[16];
    const char *words;
    const size_t size = strspn(at, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    if (size == 0 || size >= sizeof name)
        return VALUE_FREE;
    memcpy(name, at, size);
    name[size] = '\0';
    return kind_of_value(name, &words);
}

value_kind kind_of_words(const command *of, const char *form)
{
    size_t size;
    if (form) {
        const char *line = next_form_line(of->more, form, &size);
        if (!line)
            give_up("the help does not tell how it is used:", form);
        line += strlen(form);
        return kind_of_name(line + (*line == ' '));
    }
    const char *last = strrchr(of->usage, ' ');
    if (strstr(of->usage, " SHEET"))
        return VALUE_FILE;
    return last ? kind_of_name(last + 1) : VALUE_FREE;
}
