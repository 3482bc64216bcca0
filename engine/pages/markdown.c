/* markdown.c - turns a document of docs/ into a manual page (layer: pages).
 *
 * It knows what our documents use: headings, paragraphs, lists, tables, fenced examples. */
#include "pages.h"

#include <string.h>

typedef enum block { BLOCK_NONE, BLOCK_TEXT, BLOCK_ITEM, BLOCK_TABLE, BLOCK_EXAMPLE } block;

typedef struct reader {
    roff *page;
    block in;
    int row; /* of a table, its head being 0 */
} reader;

static bool starts(const char *line, size_t size, const char *with)
{
    const size_t length = strlen(with);
    return size >= length && memcmp(line, with, length) == 0;
}

static void end_block(reader *r)
{
    if (r->in == BLOCK_EXAMPLE)
        end_example(r->page);
    end_words(r->page);
    r->in = BLOCK_NONE;
}

static void read_heading(reader *r, const char *line, size_t size)
{
    char text[160];
    const size_t marks = strspn(line, "#");
    end_block(r);
    if (marks == 1) /* the document's own title; the page has one */
        return;
    if (size - marks - 1 >= sizeof text)
        give_up("a heading is too long:", line);
    memcpy(text, line + marks + 1, size - marks - 1);
    text[size - marks - 1] = '\0';
    if (marks == 2)
        for (char *at = text; *at; at++)
            if (*at >= 'a' && *at <= 'z')
                *at = (char)(*at - 'a' + 'A');
    put_heading(r->page, marks == 2 ? ".SH" : ".SS", text);
}

/* The next cell of a row; false after the last. */
static bool next_cell(const char **at, const char *end, const char **cell, size_t *size)
{
    const char *from = *at;
    while (from < end && *from == ' ')
        from++;
    if (from >= end)
        return false;
    const char *to = from;
    while (to < end && (*to != '|' || to[-1] == '\\'))
        to++;
    *at = to < end ? to + 1 : end;
    while (to > from && to[-1] == ' ')
        to--;
    *cell = from;
    *size = (size_t)(to - from);
    return true;
}

/* A row is a term and what it means: the first cell, and the others. */
static void read_row(reader *r, const char *line, size_t size)
{
    const char *at = line + 1, *cell;
    size_t length;
    if (r->in != BLOCK_TABLE) {
        end_block(r);
        r->in = BLOCK_TABLE;
        r->row = 0;
    }
    if (r->row++ < 2) /* its head, and the line below */
        return;
    put_request(r->page, ".TP");
    bool first = true, some = false;
    while (next_cell(&at, line + size, &cell, &length)) {
        if (some && length > 0)
            add_words(r->page, "; ", 2);
        add_words(r->page, cell, length);
        some = !first && (some || length > 0);
        if (first)
            end_words(r->page);
        first = false;
    }
    if (!some)
        put_request(r->page, "\\&");
    end_words(r->page);
}

static void read_item(reader *r, const char *line, size_t size)
{
    end_block(r);
    r->in = BLOCK_ITEM;
    put_request(r->page, ".IP \\(bu 2");
    add_words(r->page, line, size);
}

static void read_text(reader *r, const char *line, size_t size)
{
    if (r->in == BLOCK_NONE || r->in == BLOCK_TABLE) {
        end_block(r);
        put_paragraph(r->page);
        r->in = BLOCK_TEXT;
    } else {
        add_words(r->page, " ", 1);
    }
    add_words(r->page, line, size);
}

static void read_line(reader *r, const char *line, size_t size)
{
    const bool fence = starts(line, size, "```");
    if (r->in == BLOCK_EXAMPLE && !fence) {
        put_example_line(r->page, line, size);
    } else if (fence) {
        const bool opens = r->in != BLOCK_EXAMPLE;
        end_block(r);
        if (opens) {
            begin_example(r->page);
            r->in = BLOCK_EXAMPLE;
        }
    } else if (size == 0) {
        end_block(r);
    } else if (*line == '#') {
        read_heading(r, line, size);
    } else if (*line == '|') {
        read_row(r, line, size);
    } else if (starts(line, size, "- ")) {
        read_item(r, line + 2, size - 2);
    } else {
        const size_t spaces = strspn(line, " ");
        read_text(r, line + spaces, size - spaces);
    }
}

/* The document's own list of contents is of no use on paper. */
static bool is_contents(const char *text)
{
    return strncmp(text, "- [", 3) == 0 && strncmp(text + strcspn(text, "]\n"), "](#", 3) == 0;
}

const char *put_document(roff *page, const char *from, const char *until)
{
    reader r = {.page = page};
    bool skipping = false;
    while (*from) {
        const size_t size = strcspn(from, "\n");
        if (r.in != BLOCK_EXAMPLE) {
            if (until && starts(from, size, until))
                break;
            if (r.in == BLOCK_NONE && is_contents(from))
                skipping = true;
            if (size == 0)
                skipping = false;
        }
        if (!skipping && !starts(from, size, "<!--") && !starts(from, size, "!["))
            read_line(&r, from, size);
        from += size + (from[size] == '\n');
    }
    end_block(&r);
    return from;
}
