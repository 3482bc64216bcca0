/* journal_new.c - the top of a new tidy sheet (layer: sheet/journal). */
#include "journal_parts.h"

#include <string.h>

#define NEW_VERSION 2 /* of the sheets that are made */

/* One fact line.  A comma or a quote in it would split it into cells, so it is quoted. */
static hl_code add_fact(hl_text *text, const char *line, size_t size, hl_err *err)
{
    const char *bad = hl__journal_bad_text(line, size);
    if (bad != NULL || line[0] != '#') {
        hl__fail(err, HL_E_USAGE, "a fact line %s: %.*s", bad != NULL ? bad : "does not begin with #",
                 (int)(size < 120 ? size : 120), line);
        return hl__todo(err, "write it as `# piano: ...`");
    }
    bool quote = memchr(line, ',', size) != NULL || memchr(line, '"', size) != NULL;
    hl__text_add(text, quote ? "\"" : "");
    for (size_t i = 0; i < size; i++) {
        hl__text_add_n(text, "\"\"", line[i] == '"' ? 2 : 0);
        hl__text_add_n(text, line + i, line[i] == '"' ? 0 : 1);
    }
    hl__text_add(text, quote ? "\"\n" : "\n");
    return HL_OK;
}

static hl_code write_top(hl_text *text, const char *book, const char *facts, hl_err *err)
{
    if (book[0] == '\0' || hl__journal_bad_text(book, strlen(book)) != NULL) {
        hl__fail(err, HL_E_USAGE, "a new sheet needs the id of a book");
        return hl__todo(err, "name one, such as grand");
    }
    hl_text named = {0};
    hl__text_add(&named, "# book: ");
    hl__text_add(&named, book);
    hl__text_printf(text, "# hammerline: tidy %d\n", NEW_VERSION);
    hl_code code = named.failed ? hl__no_memory(err) : add_fact(text, named.data, named.size, err);
    hl__text_free(&named);
    for (const char *at = facts == NULL ? "" : facts; code == HL_OK && *at != '\0';) {
        size_t size = strcspn(at, "\n");
        code = size == 0 ? HL_OK : add_fact(text, at, size, err);
        at += size + (at[size] == '\n');
    }
    for (int i = 0; i < (NEW_VERSION == 1 ? HL_JOURNAL_COLUMNS : HL_JOURNAL_HEADS); i++) {
        hl__text_add(text, i == 0 ? "" : ",");
        hl__text_add(text, hl__journal_columns[i]);
    }
    hl__text_char(text, '\n');
    return code == HL_OK && text->failed ? hl__no_memory(err) : code;
}

hl_code hl_journal_create(const char *path, const char *book, const char *facts, hl_err *err)
{
    hl_text text = {0};
    hl_code code = write_top(&text, book, facts, err);
    if (code == HL_OK) {
        code = hl_file_save(path, text.data, text.size, false, err);
    } else if (code != HL_E_MEMORY) {
        hl__at(err, path, 0, 0);
    }
    hl__text_free(&text);
    return code;
}
