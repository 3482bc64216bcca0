/* csv.c - one row at a time, every fault with its line and cell (layer: sheet/rows).
 *
 * The reader owns its row buffer and cell table; the bytes are the caller's. */
#include "csv.h"

#include "text.h"

#include <stdlib.h>
#include <string.h>

static bool is_blank(const hl_csv *csv, char c)
{
    return c == ' ' || (c == '\t' && csv->separator != '\t');
}

static bool is_line_end(char c)
{
    return c == '\n' || c == '\r';
}

hl_code hl__csv_start(hl_csv *csv, const char *name, const char *bytes, size_t size, char separator,
                      hl_err *err)
{
    memset(csv, 0, sizeof *csv);
    if (size > HL_SHEET_MOST) {
        hl__fail(err, HL_E_SHEET, "the sheet is larger than %u MB", HL_SHEET_MOST >> 20);
        hl__todo(err, "one sheet holds one piano; split it");
        return hl__at(err, name, 0, 0);
    }
    if (size >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0) {
        bytes += 3;
        size -= 3;
    }
    csv->bytes = csv->at = bytes;
    csv->end = bytes + size;
    csv->name = name;
    csv->separator = separator;
    csv->line = 1;
    csv->room = 4096;
    csv->buffer = malloc(csv->room);
    csv->cells = calloc(HL_CELLS_MOST, sizeof *csv->cells);
    if (csv->buffer == NULL || csv->cells == NULL) {
        hl__csv_end(csv);
        return hl__no_memory(err);
    }
    return HL_OK;
}

void hl__csv_end(hl_csv *csv)
{
    free(csv->buffer);
    free(csv->cells);
    csv->buffer = NULL;
    csv->cells = NULL;
}

static bool put_bytes(hl_csv *csv, const char *bytes, size_t size)
{
    if (csv->room - csv->used < size + 1) {
        size_t room = csv->room * 2 + size;
        char *buffer = realloc(csv->buffer, room);
        if (buffer == NULL) {
            return false;
        }
        csv->buffer = buffer;
        csv->room = room;
    }
    memcpy(csv->buffer + csv->used, bytes, size);
    csv->used += size;
    return true;
}

/* Size of the character at csv->at, or 0 with an error: what can't be shown can't be trusted. */
static int take_character(const hl_csv *csv, hl_err *err)
{
    unsigned char c = (unsigned char)*csv->at;
    if ((c >= 0x20 && c < 0x7F) || c == '\t') {
        return 1;
    }
    if (c == 0) {
        hl__fail(err, HL_E_SHEET, "a NUL byte");
        hl__todo(err, "save the sheet again as CSV, UTF-8");
        return 0;
    }
    if (c < 0x80) {
        hl__fail(err, HL_E_SHEET, "a control character (byte 0x%02X)", c);
        hl__todo(err, "delete it");
        return 0;
    }
    uint32_t point = 0;
    int length = hl__utf8_next(csv->at, (size_t)(csv->end - csv->at), &point);
    if (length == 0) {
        hl__fail(err, HL_E_SHEET, "text that is not UTF-8 (byte 0x%02X)", c);
        hl__todo(err, "save the sheet again as CSV, UTF-8");
    }
    return length;
}

static hl_code fail_too_long(hl_err *err, bool quoted)
{
    hl__fail(err, HL_E_SHEET, "a cell longer than %d bytes", HL_CELL_MOST);
    return hl__todo(err, quoted ? "shorten it, or close its quote" : "shorten it");
}

/* Bytes of the one blank that the text ends with, 0 when it ends with something else. */
static size_t last_blank(const char *text, size_t size)
{
    if (size >= 1 && (text[size - 1] == ' ' || text[size - 1] == '\t' || text[size - 1] == '\n')) {
        return 1;
    }
    if (size >= 2 && memcmp(text + size - 2, "\xC2\xA0", 2) == 0) {
        return 2;
    }
    return size >= 3 && memcmp(text + size - 3, "\xE2\x80\xAF", 3) == 0 ? 3 : 0;
}

/* Blanks around a cell mean nothing; spreadsheets add no-break ones too. */
static void trim_cell(hl_csv *csv, hl_cell *cell)
{
    const char *text = csv->buffer + cell->place;
    size_t size = csv->used - cell->place, lead = 0, more = 0;
    do {
        more = hl__text_blanks(text + lead, size - lead);
        if (more == 0 && lead < size && text[lead] == '\n') {
            more = 1;
        }
        lead += more;
    } while (more > 0);
    while (size > lead && (more = last_blank(text + lead, size - lead)) > 0) {
        size -= more;
    }
    cell->place += lead;
    cell->size = size - lead;
    csv->buffer[cell->place + cell->size] = '\0'; /* put_bytes keeps room for it */
    csv->used = cell->place + cell->size + 1;
}

static hl_code read_plain(hl_csv *csv, hl_cell *cell, hl_err *err)
{
    const char *start = csv->at;
    while (csv->at < csv->end && *csv->at != csv->separator && !is_line_end(*csv->at)) {
        int length = take_character(csv, err);
        if (length == 0) {
            return HL_E_SHEET;
        }
        csv->at += length;
        if (csv->at - start > HL_CELL_MOST) {
            return fail_too_long(err, false);
        }
    }
    if (!put_bytes(csv, start, (size_t)(csv->at - start))) {
        return hl__no_memory(err);
    }
    trim_cell(csv, cell);
    return HL_OK;
}

/* Past one line end of any kind; counts it. */
static void pass_line_end(hl_csv *csv)
{
    if (csv->at < csv->end && *csv->at == '\r') {
        csv->at++;
        if (csv->at < csv->end && *csv->at == '\n') {
            csv->at++;
        }
    } else {
        csv->at++;
    }
    csv->line++;
}

/* What follows a closing quote: blanks, then the cell's end. */
static hl_code close_quote(hl_csv *csv, hl_err *err)
{
    while (csv->at < csv->end && is_blank(csv, *csv->at)) {
        csv->at++;
    }
    if (csv->at == csv->end || *csv->at == csv->separator || is_line_end(*csv->at)) {
        return HL_OK;
    }
    hl__fail(err, HL_E_SHEET, "text after a closing quote");
    return hl__todo(err, "write a quote inside a quoted cell twice, as in \"3/8\"\"\"");
}

static hl_code read_quoted(hl_csv *csv, hl_cell *cell, hl_err *err)
{
    cell->quoted = true;
    csv->at++;
    for (;;) {
        if (csv->at == csv->end) {
            hl__fail(err, HL_E_SHEET, "a quote that is never closed");
            return hl__todo(err, "close it with \", or delete it");
        }
        if (csv->used - cell->place >= HL_CELL_MOST) {
            return fail_too_long(err, true);
        }
        const char *piece = csv->at;
        int length = 1;
        if (*piece == '"') {
            csv->at++;
            if (csv->at == csv->end || *csv->at != '"') {
                break;
            }
            csv->at++;
        } else if (is_line_end(*piece) && csv->one_line) {
            hl__fail(err, HL_E_SHEET, "a quote that is not closed on its line");
            return hl__todo(err, "close it with \", or delete it; a cell can't hold a line break here");
        } else if (is_line_end(*piece)) {
            pass_line_end(csv);
            piece = "\n";
        } else {
            length = take_character(csv, err);
            if (length == 0) {
                return HL_E_SHEET;
            }
            csv->at += length;
        }
        if (!put_bytes(csv, piece, (size_t)length)) {
            return hl__no_memory(err);
        }
    }
    if (!put_bytes(csv, "", 0)) { /* room for the NUL of an empty cell */
        return hl__no_memory(err);
    }
    trim_cell(csv, cell);
    return close_quote(csv, err);
}

static hl_code read_cell(hl_csv *csv, hl_cell *cell, hl_err *err)
{
    cell->place = csv->used;
    cell->quoted = false;
    while (csv->at < csv->end && is_blank(csv, *csv->at)) {
        csv->at++;
    }
    if (csv->at < csv->end && *csv->at == '"') {
        return read_quoted(csv, cell, err);
    }
    return read_plain(csv, cell, err);
}

/* After a bad cell the next row is taken to start on the line below the cell's first line. */
static void resume_below(hl_csv *csv, const char *cell, int line)
{
    csv->at = cell;
    csv->line = line;
    while (csv->at < csv->end && !is_line_end(*csv->at)) {
        csv->at++;
    }
    csv->torn = csv->at == csv->end;
    if (!csv->torn) {
        pass_line_end(csv);
    }
}

static hl_code read_cells(hl_csv *csv, int *n, hl_err *err)
{
    int first = csv->line;
    for (;;) {
        const char *start = csv->at;
        int line = csv->line;
        hl_code code = HL_OK;
        if (*n == HL_CELLS_MOST) {
            hl__fail(err, HL_E_SHEET, "a row of more than %d cells", HL_CELLS_MOST);
            code = hl__todo(err, "delete the columns that hold nothing");
        } else {
            csv->cells[*n].column = *n + 1;
            code = read_cell(csv, &csv->cells[*n], err);
        }
        if (code != HL_OK) {
            hl__at(err, csv->name, first, *n + 1);
            resume_below(csv, start, line);
            return code;
        }
        ++*n;
        if (csv->at == csv->end || *csv->at != csv->separator) {
            return HL_OK;
        }
        csv->at++;
    }
}

hl_code hl__csv_row(hl_csv *csv, int *n, int *line, hl_err *err)
{
    *n = 0;
    *line = csv->line;
    csv->used = 0;
    csv->torn = false;
    if (csv->at == csv->end) {
        return HL_OK;
    }
    if (csv->rows == HL_ROWS_MOST) {
        csv->at = csv->end;
        hl__fail(err, HL_E_SHEET, "more than %d rows", HL_ROWS_MOST);
        hl__todo(err, "one sheet holds one piano; split it");
        return hl__at(err, csv->name, *line, 0);
    }
    csv->rows++;
    hl_code code = read_cells(csv, n, err);
    if (code != HL_OK) {
        *n = 0;
        return code;
    }
    for (int i = 0; i < *n; i++) {
        csv->cells[i].text = csv->buffer + csv->cells[i].place;
    }
    csv->torn = csv->at == csv->end;
    if (!csv->torn) {
        pass_line_end(csv);
    }
    return HL_OK;
}
