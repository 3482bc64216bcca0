/* document.c - a document of docs/ as the Markdown that cmark makes a manual page of (layer: pages).
 *
 * cmark knows CommonMark alone, which has no tables, and a manual page has no links; the rest passes
 * through as it is. */
#include "pages.h"

#include <string.h>

#define CELLS 8

void put_plain(FILE *out, const char *text)
{
    for (; *text; text++) {
        if (strchr("\\*_[]<>`#", *text))
            fputc('\\', out);
        fputc(*text, out);
    }
}

/* A line of the document; of a link only its words. */
static void put_line(FILE *out, const char *line, size_t size)
{
    bool code = false;
    for (size_t i = 0; i < size; i++) {
        code ^= line[i] == '`';
        const char *middle = line[i] == '[' && !code ? memchr(line + i, ']', size - i) : NULL;
        const char *end =
            middle && middle[1] == '(' ? memchr(middle, ')', size - (size_t)(middle - line)) : NULL;
        if (!end) {
            fputc(line[i], out);
            continue;
        }
        fwrite(line + i + 1, 1, (size_t)(middle - line) - i - 1, out);
        i = (size_t)(end - line);
    }
}

/* Cuts "| a | b |" into cells; a '|' after a backslash belongs to its cell.  Returns how many. */
static int cut_row(const char *line, size_t size, const char *cells[CELLS], size_t sizes[CELLS])
{
    int n = 0;
    for (size_t at = 1; at < size && n < CELLS;) {
        size_t end = at;
        while (end < size && (line[end] != '|' || line[end - 1] == '\\'))
            end++;
        size_t from = at, to = end;
        while (from < to && line[from] == ' ')
            from++;
        while (to > from && line[to - 1] == ' ')
            to--;
        cells[n] = line + from;
        sizes[n++] = to - from;
        at = end + 1;
    }
    return n;
}

/* "- `book`: the rule book, by its id": the first cell, and what the others say of it. */
static void put_row(FILE *out, const char *line, size_t size)
{
    const char *cells[CELLS];
    size_t sizes[CELLS];
    const int n = cut_row(line, size, cells, sizes);
    fputs("- ", out);
    for (int i = 0; i < n; i++) {
        if (i > 0)
            fputs(i == 1 ? ": " : "; ", out);
        put_line(out, cells[i], sizes[i]);
    }
    fputs("\n\n", out);
}

const char *put_document(FILE *out, const char *from, const char *until)
{
    bool example = false;
    int row = 0; /* of a table: its head, the line below it, then the rows */
    size_t size;
    for (; *from; from += size + (from[size] == '\n')) {
        size = strcspn(from, "\n");
        if (!example && until && strncmp(from, until, strlen(until)) == 0)
            return from;
        if (strncmp(from, "```", 3) == 0)
            example = !example;
        row = !example && *from == '|' ? row + 1 : 0;
        if (row > 2)
            put_row(out, from, size);
        if (row > 0 || (!example && strncmp(from, "# ", 2) == 0))
            continue;
        if (!example && *from == '#')
            fprintf(out, "%.*s", (int)size - 1, from + 1);
        else if (example)
            fprintf(out, "%.*s", (int)size, from);
        else
            put_line(out, from, size);
        fputc('\n', out);
    }
    return from;
}
