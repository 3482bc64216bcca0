/* sheet.c - a sheet's life: opened, read once against a book, asked, freed (layer: sheet).
 *
 * The sheet owns its bytes, one arena for all strings, and four lists that grow by themselves. */
#include "sheet.h"

#include "ascii.h"
#include "errors.h"
#include "file.h"
#include "form.h"
#include "rows.h"
#include "sheet_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void hl_sheet_free(hl_sheet *sheet)
{
    if (sheet != NULL) {
        hl__arena_free(&sheet->arena);
        hl__arena_free(&sheet->row_arena);
        free(sheet->bytes);
        hl__sheet_forget_entries(sheet);
        free(sheet->facts);
        free(sheet->events);
        free(sheet->texts);
        free(sheet->usual);
        free((void *)sheet->passes);
        free(sheet->errors);
        free(sheet);
    }
}

const char *hl_sheet_fact(const hl_sheet *sheet, const char *id)
{
    for (size_t i = sheet->n_facts; i-- > 0;) {
        if (strcmp(sheet->facts[i].id, id) == 0) {
            return sheet->facts[i].value;
        }
    }
    return "";
}

const char *hl_sheet_book_id(const hl_sheet *sheet)
{
    return hl_sheet_fact(sheet, "book");
}

const char *hl_sheet_name(const hl_sheet *sheet)
{
    return sheet->name;
}

int hl_sheet_torn(const hl_sheet *sheet)
{
    return sheet->torn;
}

hl_compass hl_sheet_compass(const hl_sheet *sheet)
{
    return sheet->compass;
}

const hl_err *hl_sheet_errors(const hl_sheet *sheet, int *n)
{
    *n = (int)sheet->n_errors;
    return sheet->errors;
}

/* A sheet names its book by id: a path would make a sheet from elsewhere open any file. */
static hl_code check_book_id(hl_sheet *sheet, hl_err *err)
{
    for (size_t i = 0; i < sheet->n_facts; i++) {
        hl_stated_fact *fact = &sheet->facts[i];
        char id[HL_ID_MOST];
        if (strcmp(fact->id, "book") != 0 || fact->value[0] == '\0') {
            continue;
        }
        bool good = hl__sheet_id(id, fact->value, strlen(fact->value)) && id[0] != '\0';
        for (const char *c = id; good && *c != '\0'; c++) {
            good = hl__is_lower(*c) || hl__is_digit(*c) || *c == '_';
        }
        if (!good) {
            hl__fail(err, HL_E_SHEET, "'%s' is not the id of a book", hl__sheet_show(fact->value).text);
            hl__todo(err, "a sheet names its book by id, as in '# book: grand', never by path");
            return hl__at(err, sheet->name, fact->line, fact->column);
        }
        fact->value = hl__arena_copy(&sheet->arena, id);
        if (fact->value == NULL) {
            return hl__no_memory(err);
        }
    }
    return HL_OK;
}

/* The version line of a sheet that `walk` writes.  What a newer program means by its rows is not guessed:
 * the whole sheet is refused. */
static hl_code read_version(hl_sheet *sheet, hl_err *err)
{
    for (size_t i = 0; i < sheet->n_facts; i++) {
        const hl_stated_fact *fact = &sheet->facts[i];
        char id[HL_ID_MOST];
        if (strcmp(fact->id, "hammerline") != 0) {
            continue;
        }
        hl__sheet_id(id, fact->value, strlen(fact->value));
        if (sheet->version == 0 && (strcmp(id, "tidy_1") == 0 || strcmp(id, "tidy_2") == 0)) {
            sheet->version = id[5] - '0';
            continue;
        }
        if (sheet->version > 0) {
            hl__fail(err, HL_E_SHEET, "a second version line");
            hl__todo(err, "keep one of the two");
        } else {
            hl__fail(err, HL_E_SHEET, "this sheet is of the version '%s', which this program can't read",
                     hl__sheet_show(fact->value).text);
            hl__todo(err, "it reads 'tidy 1' and 'tidy 2'; use the newer program that wrote the sheet");
        }
        return hl__at(err, sheet->name, fact->line, fact->column);
    }
    return HL_OK;
}

static hl_code check_bytes(const hl_sheet *sheet, hl_err *err)
{
    const char *bytes = sheet->bytes;
    size_t n = 0;
    if (sheet->size > HL_SHEET_MOST) {
        hl__fail(err, HL_E_SHEET, "the sheet is larger than %u MB", HL_SHEET_MOST >> 20);
        hl__todo(err, "one sheet holds one piano; check that it is the right file");
        return hl__at(err, sheet->name, 0, 0);
    }
    if (sheet->size >= 2 && (memcmp(bytes, "\xFF\xFE", 2) == 0 || memcmp(bytes, "\xFE\xFF", 2) == 0)) {
        hl__fail(err, HL_E_SHEET, "the sheet is saved as UTF-16");
        hl__todo(err, "save it again as CSV, UTF-8");
        return hl__at(err, sheet->name, 1, 0);
    }
    if (sheet->size >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0) {
        n = 3;
    }
    while (n < sheet->size && strchr(" \t\r\n", bytes[n]) != NULL && bytes[n] != '\0') {
        n++;
    }
    if (n == sheet->size) {
        hl__fail(err, HL_E_SHEET, "the sheet is empty");
        hl__todo(err, "fill one in that 'hammerline sheet new' prints");
        return hl__at(err, sheet->name, 1, 0);
    }
    return HL_OK;
}

/* Takes the bytes over, also when it fails. */
static hl_code open_bytes(hl_sheet **out, const char *name, char *bytes, size_t size, hl_err *err)
{
    hl_sheet *sheet = calloc(1, sizeof *sheet);
    if (sheet == NULL) {
        free(bytes);
        return hl__no_memory(err);
    }
    sheet->bytes = bytes;
    sheet->size = size;
    sheet->compass = (hl_compass){HL_A0, 88};
    sheet->title = sheet->name = hl__arena_copy(&sheet->arena, name);
    hl_code code = sheet->name == NULL ? hl__no_memory(err) : check_bytes(sheet, err);
    if (code == HL_OK) {
        code = hl__sheet_find_separator(sheet, err);
    }
    if (code == HL_OK) {
        code = hl__sheet_read_top(sheet, err);
    }
    if (code == HL_OK) {
        code = check_book_id(sheet, err);
    }
    if (code == HL_OK) {
        code = read_version(sheet, err);
    }
    if (code != HL_OK) {
        hl_sheet_free(sheet);
        return code;
    }
    *out = sheet;
    return HL_OK;
}

/* Room for that many bytes and the zero ones behind them. */
static char *take_bytes(char *bytes, size_t size)
{
    char *room = realloc(bytes, size + HL_SPARE);
    if (room == NULL) {
        free(bytes);
        return NULL;
    }
    memset(room + size, 0, HL_SPARE);
    return room;
}

hl_code hl_sheet_open(hl_sheet **out, const char *path, hl_err *err)
{
    char *bytes = NULL;
    size_t size = 0;
    *out = NULL;
    hl_code code = hl__file_read(&bytes, &size, path, HL_SHEET_MOST, HL_E_SHEET, err);
    if (code != HL_OK) {
        return code;
    }
    bytes = take_bytes(bytes, size);
    return bytes != NULL ? open_bytes(out, path, bytes, size, err) : hl__no_memory(err);
}

hl_code hl_sheet_open_text(hl_sheet **out, const char *name, const char *text, size_t size, hl_err *err)
{
    *out = NULL;
    char *bytes = take_bytes(NULL, size);
    if (bytes == NULL) {
        return hl__no_memory(err);
    }
    if (size > 0) {
        memcpy(bytes, text, size);
    }
    return open_bytes(out, name, bytes, size, err);
}

/* "fleet.csv: hall 7". */
static const char *make_title(hl_arena *arena, const char *name, const char *part)
{
    size_t first = strlen(name), second = strlen(part);
    char *title = hl__arena_take(arena, first + second + 3);
    if (title != NULL) {
        memcpy(title, name, first);
        memcpy(title + first, ": ", 2);
        memcpy(title + first + 2, part, second);
    }
    return title;
}

hl_code hl__sheet_open_part(hl_sheet **out, const char *name, const hl_part_text *text, hl_err *err)
{
    *out = NULL;
    size_t size = text->top_size + text->rows_size;
    char *bytes = take_bytes(NULL, size);
    if (bytes == NULL) {
        return hl__no_memory(err);
    }
    memcpy(bytes, text->top, text->top_size);
    memcpy(bytes + text->top_size, text->rows, text->rows_size);
    hl_sheet *sheet = NULL;
    hl_code code = open_bytes(&sheet, name, bytes, size, err);
    if (code != HL_OK) {
        return code;
    }
    sheet->part = hl__arena_copy(&sheet->arena, text->part);
    sheet->title = make_title(&sheet->arena, name, text->part);
    sheet->part_line = text->line;
    if (sheet->part == NULL || sheet->title == NULL) {
        hl_sheet_free(sheet);
        return hl__no_memory(err);
    }
    *out = sheet;
    return HL_OK;
}

static hl_code make_passes(hl_sheet *sheet, hl_err *err)
{
    void *passes = (void *)sheet->passes;
    if (!hl__grow(&passes, 0, &sheet->room_passes, sizeof *sheet->passes)) {
        return hl__no_memory(err);
    }
    sheet->passes = passes;
    sheet->passes[sheet->n_passes++] = "";
    return HL_OK;
}

static hl_code refuse_header(hl_sheet *sheet, const hl_err *why, hl_err *err)
{
    hl_err bad;
    if (why != NULL) {
        return hl__sheet_complain(sheet, why, err);
    }
    hl__fail(&bad, HL_E_SHEET, "there is no header row, so nothing to judge");
    hl__todo(&bad, "name the columns: 'note' and the steps, as 'hammerline sheet new' does");
    hl__at(&bad, sheet->name, sheet->header_end, 0);
    return hl__sheet_complain(sheet, &bad, err);
}

/* The header row; sheet->rows_at and rows_line are behind it. */
static hl_code read_header(hl_sheet *sheet, bool *none, hl_err *err)
{
    hl_csv csv;
    hl_code code = hl__csv_start(&csv, sheet->name, sheet->bytes, sheet->size, sheet->separator, err);
    if (code != HL_OK) {
        return code;
    }
    csv.one_line = true;
    csv.at = sheet->bytes + sheet->head_at;
    csv.line = sheet->header_end;
    int n = 0, line = 0;
    hl_err bad;
    *none = true;
    code = hl__csv_row(&csv, &n, &line, &bad);
    if (code == HL_E_MEMORY) {
        hl__no_memory(err);
    } else if (code != HL_OK || n == 0) {
        code = refuse_header(sheet, n == 0 && code == HL_OK ? NULL : &bad, err);
    } else {
        code = hl__form_heads(sheet, &csv, n, none, err);
    }
    sheet->rows_at = (size_t)(csv.at - sheet->bytes);
    sheet->rows_line = sheet->part_line > 0 ? sheet->part_line : csv.line;
    hl__csv_end(&csv);
    return code;
}

hl_code hl__sheet_read_head(hl_sheet *sheet, const hl_book *book, bool *none, hl_err *err)
{
    *none = true;
    if (sheet->read) {
        return hl__fail(err, HL_E_USAGE, "the sheet has been read before");
    }
    sheet->read = true;
    sheet->book = book;
    hl_code code = hl__sheet_read_facts(sheet, err);
    if (code == HL_OK) {
        code = make_passes(sheet, err);
    }
    if (code == HL_OK && !hl__places_make(sheet)) {
        code = hl__no_memory(err);
    }
    if (code == HL_OK) {
        code = hl__form_make(sheet, err);
    }
    if (code != HL_OK) {
        return code;
    }
    hl__places_clear(sheet);
    return read_header(sheet, none, err);
}

void hl__sheet_again(hl_sheet *sheet, const char *name, const char *part)
{
    sheet->name = sheet->title = name;
    sheet->part = part;
    sheet->n_events = sheet->n_texts = sheet->n_errors = sheet->unlisted = 0;
    sheet->n_passes = 1;
    sheet->n_changes = 0;
    sheet->changes = NULL;
    sheet->again = sheet->has_queries = sheet->needs_own = sheet->expanded = false;
    sheet->decimal_mark = 0;
    sheet->torn = 0;
    hl__arena_reset(&sheet->row_arena);
    hl__places_clear(sheet);
}

hl_code hl_sheet_read(hl_sheet *sheet, const hl_book *book, hl_err *err)
{
    bool none = true;
    size_t used = 0, size = sheet->size;
    hl_code code = hl__sheet_read_head(sheet, book, &none, err);
    if (code == HL_OK && !none && sheet->form->at[HL_HEAD_ENTRY] >= 0) {
        code = hl__sheet_check_entries(sheet, &size, err);
    }
    if (code == HL_OK && !none) {
        code = hl__sheet_rows(sheet, sheet->bytes + sheet->rows_at, sheet->bytes + size, NULL,
                              sheet->rows_line, &used, err);
    }
    if (code == HL_OK && !hl__sheet_expand(sheet)) {
        code = hl__no_memory(err);
    }
    sheet->complete = code == HL_OK;
    if (code == HL_OK) {
        code = hl__sheet_close_errors(sheet, err);
    }
    if (sheet->decimal_mark == 0) {
        sheet->decimal_mark = '.';
    }
    return code;
}
