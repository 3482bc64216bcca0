/* csv_cells.c - writes the cells of a table for spreadsheets (layer: render/data).
 *
 * A spreadsheet takes a text that begins with = + - @ (or their full-width twins) for a formula, with
 * blanks before it too; quoting does not help.  OWASP's advice, an apostrophe in front, changes the
 * text, so it is done here only, never in a sheet. */
#include "csv_cells.h"

#include "json.h"

#include <string.h>

static void start_cell(hl_cells *cells)
{
    if (cells->some)
        hl__text_char(cells->out, ',');
    cells->some = true;
}

static bool begins_formula(const char *text)
{
    uint32_t point = 0;
    const char *at = text + hl__text_blanks(text, strlen(text));
    if (hl__utf8_next(at, strlen(at), &point) == 0)
        return false;
    if (point == 0xFF1D || point == 0xFF0B || point == 0xFF0D || point == 0xFF20)
        return true;
    return point < 0x80 && point != 0 && strchr("=+-@\t\r\n|%", (int)point) != NULL;
}

void hl__cell_text(hl_cells *cells, const char *text)
{
    hl_text safe = {0};
    if (begins_formula(text))
        hl__text_char(&safe, '\'');
    hl__text_safe(&safe, text);
    start_cell(cells);
    const char *shown = safe.data ? safe.data : "";
    const bool quoted = strpbrk(shown, ",;\"'") || shown[0] == ' ' || begins_formula(text);
    if (quoted)
        hl__text_char(cells->out, '"');
    for (const char *c = shown; *c; c++) {
        if (*c == '"')
            hl__text_char(cells->out, '"');
        hl__text_char(cells->out, *c);
    }
    if (quoted)
        hl__text_char(cells->out, '"');
    cells->out->failed |= safe.failed;
    hl__text_free(&safe);
}

void hl__cell_number(hl_cells *cells, bool has, int value)
{
    start_cell(cells);
    if (has)
        hl__text_printf(cells->out, "%d", value);
}

void hl__cell_amount(hl_cells *cells, bool has, hl_amount value, hl_unit unit)
{
    start_cell(cells);
    if (has)
        hl__text_amount_plain(cells->out, value, unit);
}

void hl__cells_end(hl_cells *cells)
{
    hl__text_add(cells->out, "\r\n");
    cells->some = false;
}
