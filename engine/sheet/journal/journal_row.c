/* journal_row.c - a sheet's heads, and a row written in their order (layer: sheet/journal). */
#include "journal_parts.h"

#include "ascii.h"
#include "csv.h"
#include "number.h"

#include <string.h>

const char *const hl__journal_columns[HL_JOURNAL_HEADS] = {"note", "step",   "reading", "time",
                                                           "by",   "method", "remark",  "entry"};
enum { NOTE, STEP, READING, TIME, BY, METHOD, REMARK, ENTRY };

static void list_fields(const char *fields[HL_JOURNAL_COLUMNS], const hl_journal_row *row)
{
    const char *given[HL_JOURNAL_COLUMNS] = {row->note, row->step,   row->reading, row->time,
                                             row->by,   row->method, row->remark};
    for (int i = 0; i < HL_JOURNAL_COLUMNS; i++) {
        fields[i] = given[i] == NULL ? "" : given[i];
    }
}

static int find_column(const char *name)
{
    for (int i = 0; i < HL_JOURNAL_HEADS; i++) {
        if (hl__same_word(name, hl__journal_columns[i])) {
            return i;
        }
    }
    return hl__same_word(name, "key") ? NOTE : -1; /* the sheet reader takes both */
}

/* ---- the heads --------------------------------------------------------------------------- */

/* `#hammerline:tidy 1` counts too: spreadsheets and hands change blanks. */
static hl_code read_version(hl_journal_layout *layout, const char *fact, hl_err *err)
{
    char plain[32];
    size_t n = 0;
    for (; *fact != '\0' && n < sizeof plain - 1; fact++) {
        if (*fact != ' ' && *fact != '\t') {
            plain[n++] = hl__lower(*fact);
        }
    }
    plain[n] = '\0';
    if (strncmp(plain, "#hammerline:", 12) != 0) {
        return HL_OK;
    }
    if (strcmp(plain, "#hammerline:tidy1") != 0 && strcmp(plain, "#hammerline:tidy2") != 0) {
        hl__fail(err, HL_E_SHEET, "the version line names neither `tidy 1` nor `tidy 2`");
        return hl__todo(err, "if a newer program wrote the sheet, use that one; else mend the line");
    }
    layout->version = plain[strlen(plain) - 1] - '0';
    return HL_OK;
}

static hl_code read_head(hl_journal_layout *layout, const hl_csv *csv, int n, hl_err *err)
{
    layout->n_cells = n;
    for (int i = 0; i < n; i++) {
        int column = find_column(csv->cells[i].text);
        if (column >= 0 && layout->place[column] >= 0) {
            hl__fail(err, HL_E_SHEET, "two columns are headed `%s`", hl__journal_columns[column]);
            return hl__todo(err, "rename one of them");
        }
        if (column >= 0) {
            layout->place[column] = i;
        }
    }
    layout->head_size = (size_t)(csv->at - csv->bytes);
    layout->crlf = csv->at - csv->bytes >= 2 && csv->at[-2] == '\r' && csv->at[-1] == '\n';
    return HL_OK;
}

static hl_code check_marks(const hl_journal_layout *layout, hl_err *err)
{
    if (layout->version < 2 || layout->place[ENTRY] >= 0) {
        return HL_OK;
    }
    hl__fail(err, HL_E_SHEET, "the sheet's version is tidy 2, but it has no column `entry`");
    return hl__todo(err, "put the column back; if it is lost, write `tidy 1` in the version line");
}

bool hl__journal_marks(const hl_journal_layout *layout)
{
    return layout->version == 2;
}

/* Rows to the heads with this separator; *found tells whether they are a tidy sheet's. */
static hl_code find_head(hl_journal_layout *layout, hl_csv *csv, bool *found, hl_err *err)
{
    for (;;) {
        int n, line;
        hl_code code = hl__csv_row(csv, &n, &line, err);
        if (code == HL_E_SHEET) {
            continue; /* a bad fact line; reading the sheet tells of it */
        }
        if (code != HL_OK || n == 0) {
            return code;
        }
        const hl_cell *first = &csv->cells[0];
        if (first->text[0] == '#') {
            code = read_version(layout, first->text, err);
        } else if (n > 1 || first->size > 0) {
            bool hint = strncmp(first->text, "sep=", 4) == 0;
            code = hint ? HL_OK : read_head(layout, csv, n, err);
            *found = layout->place[NOTE] >= 0 && layout->place[STEP] >= 0 && layout->place[READING] >= 0;
            if (!hint) {
                return code == HL_OK && *found ? check_marks(layout, err) : code;
            }
        }
        if (code != HL_OK) {
            return code;
        }
    }
}

/* The number in a reading: `9.53`, but also `raise 0.25 turn`. */
static bool find_number(hl_number *number, const char *text, size_t *from, size_t *used)
{
    hl_err not_a_number;
    *from = strcspn(text, "0123456789.,");
    return hl__number_read(number, text + *from, strlen(text + *from), used, &not_a_number) == HL_OK;
}

/* The mark of the first reading that has one. */
static hl_code find_mark(hl_journal_layout *layout, hl_csv *csv, hl_err *err)
{
    layout->mark = layout->separator == ';' ? ',' : '.';
    for (;;) {
        int n, line;
        hl_number number;
        size_t from, used;
        hl_code code = hl__csv_row(csv, &n, &line, err);
        if (code == HL_E_SHEET) {
            continue;
        }
        if (code != HL_OK || n == 0) {
            return code;
        }
        int at = layout->place[READING], step = layout->place[STEP];
        if (at >= n || step >= n || hl__mark_is_text(csv->cells[step].text, csv->cells[at].text)) {
            continue;
        }
        if (find_number(&number, csv->cells[at].text, &from, &used) && number.mark != '\0') {
            layout->mark = number.mark;
            return HL_OK;
        }
    }
}

static hl_code try_separator(hl_journal_layout *layout, const char *path, const char *bytes, size_t size,
                             bool *found, hl_err *err)
{
    hl_csv csv;
    hl_code code = hl__csv_start(&csv, path, bytes, size, layout->separator, err);
    if (code != HL_OK) {
        return code;
    }
    csv.one_line = true; /* as the sheet reader has it */
    code = find_head(layout, &csv, found, err);
    if (code == HL_OK && *found) {
        code = find_mark(layout, &csv, err);
        layout->skipped = (size_t)(csv.bytes - bytes);
        layout->head_size += layout->skipped;
    }
    hl__csv_end(&csv);
    return code;
}

hl_code hl__journal_layout(hl_journal_layout *layout, const char *path, const char *bytes, size_t size,
                           hl_err *err)
{
    static const char separators[] = {',', ';', '\t'};
    bool found = false;
    for (size_t i = 0; i < sizeof separators; i++) {
        *layout = (hl_journal_layout){.separator = separators[i]};
        for (int column = 0; column < HL_JOURNAL_HEADS; column++) {
            layout->place[column] = -1;
        }
        hl_code code = try_separator(layout, path, bytes, size, &found, err);
        if (code != HL_OK || found) {
            return code == HL_OK ? code : hl__at(err, path, err->line, err->column);
        }
    }
    hl__fail(err, HL_E_SHEET, "not a tidy sheet: no finished row of heads with note, step and reading");
    hl__todo(err, "convert a wide sheet to a tidy one, or start a new sheet");
    return hl__at(err, path, 0, 0);
}

hl_code hl__journal_is_whole(bool *out, const hl_journal_layout *layout, const char *line, size_t size,
                             hl_err *err)
{
    hl_csv csv;
    int n = 0, at;
    *out = false;
    hl_code code = hl__csv_start(&csv, "", line, size, layout->separator, err);
    if (code != HL_OK) {
        return code == HL_E_MEMORY ? code : HL_OK;
    }
    code = hl__csv_row(&csv, &n, &at, err);
    bool whole = code == HL_OK && n == layout->n_cells && csv.at == csv.end;
    if (whole && !csv.cells[n - 1].quoted) {
        whole = n - 1 != layout->place[NOTE] && n - 1 != layout->place[STEP] &&
                n - 1 != layout->place[READING] && n - 1 != layout->place[METHOD];
    }
    hl__csv_end(&csv);
    *out = whole;
    return code == HL_E_MEMORY ? code : HL_OK;
}

/* ---- a row ------------------------------------------------------------------------------- */

const char *hl__journal_bad_text(const char *text, size_t size)
{
    for (size_t i = 0; i < size;) {
        uint32_t point;
        int n = hl__utf8_next(text + i, size - i, &point);
        if (n == 0) {
            return "has bytes that are no UTF-8 text";
        }
        if (point < 0x20 || (point >= 0x7F && point < 0xA0)) {
            return "has a control character or a line end";
        }
        i += (size_t)n;
    }
    return NULL;
}

/* Remarks are typed or pasted: their line ends and tabs become one blank each. */
static void add_flat(hl_text *out, const char *text)
{
    for (; *text != '\0'; text++) {
        if (text[0] == '\r' && text[1] == '\n') {
            continue;
        }
        hl__text_char(out, *text == '\n' || *text == '\r' || *text == '\t' ? ' ' : *text);
    }
}

/* The reading with the sheet's decimal mark. */
static void add_reading(hl_text *out, const hl_journal_layout *layout, const char *step, const char *text)
{
    hl_number number;
    size_t from, used;
    if (hl__mark_is_text(step, text) || !find_number(&number, text, &from, &used) || number.mark == '\0') {
        hl__text_add(out, text);
        return;
    }
    size_t mark = from + strcspn(text + from, ".,"), end = mark + 1 + (size_t)number.decimals;
    hl__text_add_n(out, text, mark);
    hl__text_char(out, layout->mark);
    hl__text_add_n(out, text + mark + 1, end - mark - 1);
    if (layout->mark == ',' && layout->separator == ',' && number.decimals == 3) {
        hl__text_char(out, '0'); /* `9,535` might be thousands and is refused; `9,5350` is not */
    }
    hl__text_add(out, text + end);
}

static void add_cell(hl_text *line, char separator, const char *text)
{
    size_t size = strlen(text);
    bool quote = size > 0 && (text[0] == ' ' || text[size - 1] == ' ' || text[0] == '#');
    quote = quote || strchr(text, separator) != NULL || strchr(text, '"') != NULL;
    if (!quote) {
        hl__text_add(line, text);
        return;
    }
    hl__text_char(line, '"');
    for (; *text != '\0'; text++) {
        hl__text_add_n(line, "\"\"", *text == '"' ? 2 : 0);
        if (*text != '"') {
            hl__text_char(line, *text);
        }
    }
    hl__text_char(line, '"');
}

static hl_code check_field(const hl_journal_layout *layout, int column, const char *text, hl_err *err)
{
    const char *name = hl__journal_columns[column];
    size_t size = strlen(text);
    if (size > 0 && layout->place[column] < 0) {
        hl__fail(err, HL_E_SAVE, "the sheet has no column `%s`", name);
        return hl__todo(err, "add the head `%s` to the sheet, or leave it out", name);
    }
    if (size == 0 && (column == STEP || column == READING)) {
        hl__fail(err, HL_E_SAVE, "the %s is empty", name);
        return hl__todo(err, "an empty line records nothing; type the reading");
    }
    if (size >= HL_CELL_MOST) {
        hl__fail(err, HL_E_SAVE, "the %s is longer than %d bytes", name, HL_CELL_MOST - 1);
        return hl__todo(err, "shorten it");
    }
    const char *bad = hl__journal_bad_text(text, size);
    if (bad != NULL) {
        hl__fail(err, HL_E_SAVE, "the %s %s", name, bad);
        return hl__todo(err, "type it again");
    }
    return HL_OK;
}

static hl_code make_field(hl_text *out, const hl_journal_layout *layout, const hl_journal_row *row,
                          int column, hl_err *err)
{
    const char *fields[HL_JOURNAL_COLUMNS];
    list_fields(fields, row);
    if (column == REMARK) {
        add_flat(out, fields[column]);
    } else if (column == READING) {
        add_reading(out, layout, fields[STEP], fields[column]);
    } else {
        hl__text_add(out, fields[column]);
    }
    if (out->failed) {
        return hl__no_memory(err);
    }
    return check_field(layout, column, out->data == NULL ? "" : out->data, err);
}

/* Made from the row's fields: how each cell is written in this sheet. */
static hl_code make_cells(hl_text made[HL_JOURNAL_HEADS], const hl_journal_layout *layout,
                          const hl_journal_row *row, const hl_mark *mark, hl_err *err)
{
    hl_code code = HL_OK;
    for (int i = 0; i < HL_JOURNAL_COLUMNS && code == HL_OK; i++) {
        code = make_field(&made[i], layout, row, i, err);
    }
    if (mark != NULL) {
        hl__mark_add(&made[ENTRY], mark);
    }
    return code == HL_OK && made[ENTRY].failed ? hl__no_memory(err) : code;
}

static void add_hashed(hl_text *hashed, const hl_text made[HL_JOURNAL_HEADS], const hl_mark *mark)
{
    const char *cells[HL_MARK_CELLS];
    for (int i = 0; i < HL_MARK_CELLS; i++) {
        cells[i] = made[i].data == NULL ? "" : made[i].data;
    }
    hl__mark_add_row(hashed, cells, mark);
}

hl_code hl__journal_line(hl_text *line, hl_text *hashed, const hl_journal_layout *layout,
                         const hl_journal_row *row, const hl_mark *mark, hl_err *err)
{
    hl_text made[HL_JOURNAL_HEADS] = {{0}};
    hl_code code = make_cells(made, layout, row, mark, err);
    for (int cell = 0; cell < layout->n_cells && code == HL_OK; cell++) {
        if (cell > 0) {
            hl__text_char(line, layout->separator);
        }
        for (int i = 0; i < HL_JOURNAL_HEADS; i++) {
            if (layout->place[i] == cell && made[i].data != NULL) {
                add_cell(line, layout->separator, made[i].data);
            }
        }
    }
    hl__text_add(line, layout->crlf ? "\r\n" : "\n");
    if (code == HL_OK && hashed != NULL && mark != NULL) {
        add_hashed(hashed, made, mark);
        line->failed = line->failed || hashed->failed;
    }
    for (int i = 0; i < HL_JOURNAL_HEADS; i++) {
        hl__text_free(&made[i]);
    }
    return code == HL_OK && line->failed ? hl__no_memory(err) : code;
}

void hl__journal_plain(hl_text *text, const hl_journal_row *row)
{
    const char *fields[HL_JOURNAL_COLUMNS];
    list_fields(fields, row);
    int last = HL_JOURNAL_COLUMNS - 1;
    while (last > READING && fields[last][0] == '\0') {
        last--;
    }
    for (int i = 0; i <= last; i++) {
        hl__text_add(text, i == 0 ? "" : ",");
        hl__text_add(text, fields[i]);
    }
}
