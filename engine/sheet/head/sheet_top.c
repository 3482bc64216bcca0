/* sheet_top.c - opening a sheet: its bytes, its separator, the fact lines above its header
 * (layer: sheet/head).
 *
 * The separator is decided once, by the header row: the one that makes a cell `note` of it. */
#include "ascii.h"
#include "errors.h"
#include "file.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

bool hl__sheet_id(char out[HL_ID_MOST], const char *text, size_t size)
{
    size_t n = 0;
    for (size_t i = 0; i < size; i++) {
        char c = text[i] == ' ' || text[i] == '\t' || text[i] == '-' ? '_' : hl__lower(text[i]);
        if (c == '_' && n > 0 && out[n - 1] == '_') {
            continue;
        }
        if (n == HL_ID_MOST - 1) {
            out[n] = '\0';
            return false;
        }
        out[n++] = c;
    }
    while (n > 0 && out[n - 1] == '_') {
        n--;
    }
    out[n] = '\0';
    memmove(out, out + (out[0] == '_'), n + 1 - (out[0] == '_'));
    return true;
}

bool hl__sheet_row_blank(const hl_cell *cells, int n)
{
    for (int i = 0; i < n; i++) {
        if (cells[i].size > 0) {
            return false;
        }
    }
    return true;
}

/* The separator that a first line `sep=;` names, 0 without such a line.  *at goes below it. */
static char read_sep_line(const char **at, const char *end)
{
    const char *p = *at;
    static const char WORD[] = "sep=";
    bool quoted = p < end && *p == '"';
    p += quoted;
    for (int i = 0; WORD[i] != '\0'; i++, p++) {
        if (p == end || hl__lower(*p) != WORD[i]) {
            return 0;
        }
    }
    if (p == end || *p == '\r' || *p == '\n') {
        return 0;
    }
    char separator = *p++;
    if (quoted && p < end && *p == '"') {
        p++;
    }
    if (p < end && *p != '\r' && *p != '\n') {
        return 0;
    }
    if (p < end && *p == '\r') {
        p++;
    }
    if (p < end && *p == '\n') {
        p++;
    }
    *at = p;
    return separator;
}

hl_code hl__sheet_reader(hl_csv *csv, const hl_sheet *sheet, char separator, hl_err *err)
{
    hl_code code = hl__csv_start(csv, sheet->name, sheet->bytes, sheet->size, separator, err);
    csv->one_line = true; /* else an open quote could hide a later, worse reading in a remark */
    if (code == HL_OK && read_sep_line(&csv->at, csv->end) != 0) {
        csv->line = 2;
    }
    return code;
}

/* Does the row that starts here state a fact?  Asked of bytes, so that a bad row answers too. */
static bool starts_fact(const hl_csv *csv, const char *at)
{
    while (at < csv->end && (*at == ' ' || *at == '\t' || *at == '"')) {
        at++;
    }
    return at < csv->end && *at == '#';
}

/* On to the header row.  *n is its cells; 0 when there is none, or it is bad (*bad_header). */
static hl_code find_header(hl_csv *csv, int *n, const char **at, int *line, bool *bad_header, hl_err *err)
{
    *bad_header = false;
    for (;;) {
        *at = csv->at;
        hl_code code = hl__csv_row(csv, n, line, err);
        if (code == HL_E_MEMORY) {
            return code;
        }
        if (starts_fact(csv, *at)) {
            continue;
        }
        *bad_header = code != HL_OK;
        if (*bad_header || *n == 0 || !hl__sheet_row_blank(csv->cells, *n)) {
            return HL_OK;
        }
    }
}

static int score_header(const hl_cell *cells, int n)
{
    int score = 0;
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        if (hl__sheet_id(id, cells[i].text, cells[i].size)) {
            score += strcmp(id, "note") == 0 || strcmp(id, "key") == 0 ? 2 * HL_CELLS_MOST : id[0] != '\0';
        }
    }
    return score;
}

hl_code hl__sheet_find_separator(hl_sheet *sheet, hl_err *err)
{
    static const char CANDIDATES[] = ",;\t";
    const char *start = sheet->bytes;
    if (sheet->size >= 3 && memcmp(start, "\xEF\xBB\xBF", 3) == 0) {
        start += 3;
    }
    char named = read_sep_line(&start, sheet->bytes + sheet->size);
    if (named != 0) {
        if (strchr(CANDIDATES, named) == NULL) {
            hl__fail(err, HL_E_SHEET, "the first line, 'sep=', names none of comma, semicolon and tab");
            hl__todo(err, "save the sheet with commas, semicolons or tabs");
            return hl__at(err, sheet->name, 1, 1);
        }
        sheet->separator = named;
        return HL_OK;
    }
    int best = -1;
    for (const char *c = CANDIDATES; *c != '\0'; c++) {
        hl_csv csv;
        int n = 0, line = 0;
        const char *at = NULL;
        bool bad = false;
        hl_code code = hl__sheet_reader(&csv, sheet, *c, err);
        if (code != HL_OK) {
            return code;
        }
        code = find_header(&csv, &n, &at, &line, &bad, err);
        /* A bad header splits, which says more than one that stays a single cell. */
        int score = code != HL_OK ? 0 : bad ? 2 : score_header(csv.cells, n);
        hl__csv_end(&csv);
        if (code != HL_OK) {
            return code;
        }
        if (score > best) {
            best = score;
            sheet->separator = *c;
        }
    }
    return HL_OK;
}

/* "key_front_sharps" is the fact key_front of the sharps. */
static int take_colour(char *id)
{
    static const struct {
        const char *end;
        int colour;
    } ENDS[] = {{"_naturals", 1}, {"_natural", 1}, {"_sharps", 2}, {"_sharp", 2}};
    size_t n = strlen(id);
    for (size_t i = 0; i < sizeof ENDS / sizeof *ENDS; i++) {
        size_t m = strlen(ENDS[i].end);
        if (n > m && strcmp(id + n - m, ENDS[i].end) == 0) {
            id[n - m] = '\0';
            return ENDS[i].colour;
        }
    }
    return 0;
}

bool hl__sheet_keep_fact(hl_sheet *sheet, const char *id, const char *value, int line, int column)
{
    hl_stated_fact fact = {.line = line, .column = column};
    char bare[HL_ID_MOST];
    memcpy(bare, id, strlen(id) + 1);
    fact.colour = take_colour(bare);
    fact.id = hl__arena_copy(&sheet->arena, bare);
    fact.value = hl__arena_copy(&sheet->arena, value);
    void *items = sheet->facts;
    if (fact.id == NULL || fact.value == NULL ||
        !hl__grow(&items, sheet->n_facts, &sheet->room_facts, sizeof fact)) {
        return false;
    }
    sheet->facts = items;
    sheet->facts[sheet->n_facts++] = fact;
    return true;
}

/* A value without quotes, as it stood: a hand that wrote "a, b" or "5,1" meant no cells. */
static void take_value(hl_text *value, const char *at, const char *end, char separator)
{
    const char *start = memchr(at, ':', (size_t)(end - at));
    if (start == NULL) {
        return; /* not so: the first cell has a colon */
    }
    start++;
    while (start < end && (*start == ' ' || *start == '\t' || *start == separator)) {
        start++;
    }
    while (end > start && (strchr(" \t\r\n", end[-1]) != NULL || end[-1] == separator)) {
        end--;
    }
    hl__text_add_n(value, start, (size_t)(end - start));
}

/* A quoted value that is spread over cells is put together again. */
static void join_value(hl_text *value, const hl_cell *cells, int n, const char *first, char separator)
{
    while (*first == ' ' || *first == '\t') {
        first++;
    }
    hl__text_add(value, first);
    while (n > 1 && cells[n - 1].size == 0) {
        n--;
    }
    for (int i = 1; i < n; i++) {
        if (value->size > 0) {
            hl__text_char(value, separator);
            hl__text_char(value, ' ');
        }
        hl__text_add(value, cells[i].text);
    }
}

/* "# book,grand": meant as a fact, but it would be taken for a remark. */
static bool lacks_colon(const hl_cell *cells, int n)
{
    static const char *const IDS[] = {"book", "compass", "breaks", "dampers", "samples"};
    char id[HL_ID_MOST];
    if (n < 2 || cells[1].size == 0 || !hl__sheet_id(id, cells[0].text + 1, cells[0].size - 1)) {
        return false;
    }
    for (size_t i = 0; i < sizeof IDS / sizeof *IDS; i++) {
        if (strcmp(id, IDS[i]) == 0) {
            return true;
        }
    }
    return false;
}

/* The row of n cells from byte `at` on. */
static hl_code read_fact(hl_sheet *sheet, const hl_csv *csv, const char *at, int n, int line, hl_err *err)
{
    const hl_cell *cells = csv->cells;
    const char *colon = strchr(cells[0].text, ':');
    char id[HL_ID_MOST];
    if (colon == NULL && lacks_colon(cells, n)) {
        hl_err bad;
        hl__fail(&bad, HL_E_SHEET, "'%s' has no colon, so it states nothing",
                 hl__sheet_show(cells[0].text).text);
        hl__todo(&bad, "write '%s: %s' in one cell", hl__sheet_show(cells[0].text).text,
                 hl__sheet_show(cells[1].text).text);
        hl__at(&bad, sheet->name, line, 1);
        return hl__sheet_complain(sheet, &bad, err);
    }
    if (colon == NULL || cells[0].text[1] == '#' ||
        !hl__sheet_id(id, cells[0].text + 1, (size_t)(colon - cells[0].text - 1)) || id[0] == '\0') {
        return HL_OK; /* a remark */
    }
    if (sheet->n_facts == HL_FACTS_MOST) {
        hl__fail(err, HL_E_SHEET, "more than %d fact lines above the header", HL_FACTS_MOST);
        hl__todo(err, "keep the facts of one piano; write remarks with '##'");
        return hl__at(err, sheet->name, line, 1);
    }
    hl_text value = {0};
    if (memchr(at, '"', (size_t)(csv->at - at)) == NULL) {
        take_value(&value, at, csv->at, csv->separator);
    } else {
        join_value(&value, cells, n, colon + 1, csv->separator);
    }
    bool kept =
        !value.failed && hl__sheet_keep_fact(sheet, id, value.data == NULL ? "" : value.data, line, 1);
    hl__text_free(&value);
    return kept ? HL_OK : hl__no_memory(err);
}

hl_code hl__sheet_read_top(hl_sheet *sheet, hl_err *err)
{
    hl_csv csv;
    hl_code code = hl__sheet_reader(&csv, sheet, sheet->separator, err);
    while (code == HL_OK) {
        const char *at = csv.at;
        int n = 0, line = 0;
        hl_err bad;
        code = hl__csv_row(&csv, &n, &line, &bad);
        sheet->head_at = (size_t)(at - sheet->bytes);
        sheet->header_end = line;
        if (!starts_fact(&csv, at)) {
            if (code == HL_OK && n > 0 && hl__sheet_row_blank(csv.cells, n)) {
                continue;
            }
            code = code == HL_E_MEMORY ? hl__no_memory(err) : HL_OK;
            break; /* the header, good or bad, or the end */
        }
        if (code == HL_OK) {
            code = read_fact(sheet, &csv, at, n, line, err);
        } else {
            code = code == HL_E_MEMORY ? hl__no_memory(err) : hl__sheet_complain(sheet, &bad, err);
        }
    }
    hl__csv_end(&csv);
    return code;
}
