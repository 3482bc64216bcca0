/* sheet_many.c - files that hold many sheets, a run of rows each (layer: sheet).
 *
 * Finds only where one sheet ends and the next begins; that each row really names its sheet is
 * checked when the sheet is read. */
#include "sheet_many.h"

#include "sheet_parts.h"

#include <string.h>

bool hl__many_look(hl_many *out, const hl_sheet *sheet)
{
    hl_csv csv;
    hl_err err;
    int n = 0, line = 0;
    *out = (hl_many){.separator = sheet->separator, .column = -1};
    if (hl__csv_start(&csv, sheet->name, sheet->bytes, sheet->size, sheet->separator, &err) != HL_OK) {
        return false;
    }
    csv.one_line = true;
    csv.at = sheet->bytes + sheet->head_at;
    csv.line = sheet->header_end;
    hl_code code = hl__csv_row(&csv, &n, &line, &err);
    for (int i = 0; code == HL_OK && i < n && out->column < 0; i++) {
        char id[HL_ID_MOST];
        if (hl__sheet_id(id, csv.cells[i].text, csv.cells[i].size) && strcmp(id, "sheet") == 0) {
            out->column = i;
        }
    }
    out->rows_at = (size_t)(csv.at - sheet->bytes);
    out->line = csv.line;
    hl__csv_end(&csv);
    return code != HL_E_MEMORY;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

/* Past one cell, up to its separator or the row's end. */
static const char *pass_cell(const char *at, const char *end, char separator)
{
    const char *p = at;
    while (p < end && (*p == ' ' || (*p == '\t' && separator != '\t'))) {
        p++;
    }
    if (p == end || *p != '"') {
        const char *stop = memchr(p, separator, (size_t)(end - p));
        return stop != NULL ? stop : end;
    }
    for (p++; p < end; p++) {
        if (*p == '"' && p + 1 < end && p[1] == '"') {
            p++;
        } else if (*p == '"') {
            break;
        }
    }
    const char *stop = p < end ? memchr(p, separator, (size_t)(end - p)) : NULL;
    return stop != NULL ? stop : end;
}

static void take_name(hl_part_name *out, const char *at, const char *end)
{
    while (at < end && is_blank(*at)) {
        at++;
    }
    while (end > at && is_blank(end[-1])) {
        end--;
    }
    bool quoted = at < end && *at == '"';
    at += quoted;
    while (at < end && out->size < HL_CELL_MOST && !(quoted && *at == '"' && at + 1 == end)) {
        out->text[out->size++] = *at;
        at += quoted && at[0] == '"' && at + 1 < end && at[1] == '"' ? 2 : 1;
    }
    while (out->size > 0 && is_blank(out->text[out->size - 1])) {
        out->size--;
    }
    size_t lead = 0;
    while (lead < out->size && is_blank(out->text[lead])) {
        lead++;
    }
    memmove(out->text, out->text + lead, out->size - lead);
    out->size -= lead;
}

/* "# a remark", with nothing in the other cells. */
static bool is_remark(const char *row, const char *end, char separator)
{
    const char *p = row;
    while (p < end && (is_blank(*p) || *p == '"')) {
        p++;
    }
    if (p == end || *p != '#') {
        return false;
    }
    for (p = pass_cell(row, end, separator); p < end; p++) {
        if (*p != separator && !is_blank(*p)) {
            return false;
        }
    }
    return true;
}

void hl__many_name(hl_part_name *out, const hl_many *many, const char *row, size_t size)
{
    const char *end = row + size, *at = row;
    out->size = 0;
    for (int i = 0; i < many->column && at < end; i++) {
        at = pass_cell(at, end, many->separator);
        at += at < end;
    }
    const char *stop = pass_cell(at, end, many->separator);
    if (!is_remark(row, end, many->separator)) {
        take_name(out, at, stop);
    }
    out->text[out->size] = '\0';
}

size_t hl__many_row(const char *at, const char *end)
{
    const char *stop = memchr(at, '\n', (size_t)(end - at));
    return (size_t)((stop != NULL ? stop + 1 : end) - at);
}

/* The usual file has its names in front: then a row that begins with the same bytes is of the same sheet. */
static size_t find_front(const hl_many *many, const hl_part_name *name, const char *row, size_t size)
{
    bool plain = many->column == 0 && name->size > 0 && name->size < size &&
                 memcmp(row, name->text, name->size) == 0 && row[name->size] == many->separator &&
                 row[0] != '#' && row[0] != '"';
    return plain ? name->size + 1 : 0;
}

size_t hl__many_run(hl_part_name *name, const hl_many *many, const char *at, const char *end)
{
    const char *start = at, *front = NULL;
    hl_part_name other;
    size_t front_size = 0;
    name->size = 0;
    name->text[0] = '\0';
    while (at < end) {
        size_t size = hl__many_row(at, end);
        bool same = front_size > 0 && size >= front_size && memcmp(at, front, front_size) == 0;
        if (!same) {
            hl__many_name(&other, many, at, size);
            if (other.size > 0 && name->size > 0 && strcmp(other.text, name->text) != 0) {
                break;
            }
            if (other.size > 0 && name->size == 0) {
                memcpy(name->text, other.text, other.size + 1);
                name->size = other.size;
                front = at;
                front_size = find_front(many, name, at, size);
            }
        }
        at += size;
    }
    return (size_t)(at - start);
}

const char *hl__many_last_run(const hl_many *many, const char *at, const char *end)
{
    hl_part_name name = {.size = 0}, other;
    const char *begin = end;
    while (end > at) {
        const char *row = end - 1;
        while (row > at && row[-1] != '\n') {
            row--;
        }
        hl__many_name(&other, many, row, (size_t)(end - row));
        if (other.size > 0 && name.size > 0 && strcmp(other.text, name.text) != 0) {
            return begin;
        }
        if (other.size > 0) {
            begin = row;
            memcpy(name.text, other.text, other.size + 1);
            name.size = other.size;
        }
        end = row;
    }
    return at;
}

/* Counted in bytes of their own, as many as can't overflow, so that a compiler may do many at once. */
int hl__many_lines(const char *at, size_t size)
{
    int n = 0;
    for (size_t i = 0; i < size;) {
        const size_t stop = size - i > 240 ? i + 240 : size;
        unsigned char some = 0;
        for (; i < stop; i++)
            some = (unsigned char)(some + (at[i] == '\n'));
        n += some;
    }
    return n;
}
