/* entry_mark.c - marks read and written, and what is hashed (layer: sheet/journal). */
#include "entry_mark.h"

#include "ascii.h"
#include "hash.h"

#include <string.h>

#define CELL_END "\x1F" /* between cells: unit separator */
#define ROW_END  "\x1E" /* after a row: record separator */

static void hash_text(char *out, size_t digits, const char *text, size_t size)
{
    hl_hash hash;
    char all[65];
    hl__hash_start(&hash);
    hl__hash_add(&hash, text, size);
    hl__hash_end(&hash, all);
    memcpy(out, all, digits);
    out[digits] = '\0';
}

/* ---- reading a mark ---------------------------------------------------------------------------- */

/* A number from 1 without leading zeros. */
static bool take_number(const char **at, uint32_t *out)
{
    uint64_t value = 0;
    const char *p = *at;
    if (*p < '1' || *p > '9') {
        return false;
    }
    while (hl__is_digit(*p)) {
        value = value * 10 + (uint64_t)(*p++ - '0');
        if (value > 999999999) {
            return false;
        }
    }
    *out = (uint32_t)value;
    *at = p;
    return true;
}

static bool take_char(const char **at, char c)
{
    if (**at != c) {
        return false;
    }
    ++*at;
    return true;
}

static bool take_session(const char **at, char out[HL_MARK_SESSION + 1])
{
    size_t n = 0;
    while (n < HL_MARK_SESSION && (hl__is_lower(**at) || hl__is_digit(**at))) {
        out[n++] = *(*at)++;
    }
    out[n] = '\0';
    return n > 0;
}

static bool is_hex(char c)
{
    return hl__is_digit(c) || (c >= 'a' && c <= 'f');
}

static bool take_hash(const char **at, char out[HL_MARK_HASH + 1])
{
    size_t n = 0;
    while (n < HL_MARK_HASH && is_hex(**at)) {
        out[n++] = *(*at)++;
    }
    out[n] = '\0';
    return n == HL_MARK_HASH;
}

static bool take_hashes(const char **at, hl_mark *out)
{
    if (!take_char(at, ' ') || !take_hash(at, out->check) || !take_char(at, ' ') || !take_char(at, '<') ||
        !take_hash(at, out->link)) {
        return false;
    }
    if (**at == '\0') {
        return true;
    }
    if (!take_char(at, ' ') || !take_char(at, '#')) {
        return false;
    }
    out->facts = *at;
    while (is_hex(**at)) {
        ++*at;
    }
    const size_t size = (size_t)(*at - out->facts);
    return size >= HL_MARK_HASH && (size - HL_MARK_HASH) % HL_FACT_PRINT == 0;
}

bool hl__mark_is_last(const hl_mark *mark)
{
    return mark->row == mark->rows;
}

bool hl__mark_read(hl_mark *out, const char *text)
{
    *out = (hl_mark){.facts = NULL};
    const char *at = text;
    if (!take_number(&at, &out->order) || !take_char(&at, '.') || !take_number(&at, &out->row) ||
        !take_char(&at, '/') || !take_number(&at, &out->rows) || out->row > out->rows) {
        return false;
    }
    out->range = take_char(&at, 'r');
    if (!take_char(&at, ' ') || !take_session(&at, out->session) || !take_char(&at, '-') ||
        !take_number(&at, &out->counter)) {
        return false;
    }
    return (!hl__mark_is_last(out) || take_hashes(&at, out)) && *at == '\0';
}

/* ---- writing one ------------------------------------------------------------------------------- */

void hl__mark_add_place(hl_text *out, const hl_mark *mark)
{
    hl__text_printf(out, "%lu.%lu/%lu%s %s-%lu", (unsigned long)mark->order, (unsigned long)mark->row,
                    (unsigned long)mark->rows, mark->range ? "r" : "", mark->session,
                    (unsigned long)mark->counter);
}

void hl__mark_add(hl_text *out, const hl_mark *mark)
{
    hl__mark_add_place(out, mark);
    if (!hl__mark_is_last(mark)) {
        return;
    }
    hl__text_printf(out, " %s <%s", mark->check, mark->link);
    if (mark->facts != NULL) {
        hl__text_add(out, " #");
        hl__text_add(out, mark->facts);
    }
}

/* ---- what is hashed ---------------------------------------------------------------------------- */

bool hl__mark_is_text(const char *step, const char *reading)
{
    static const char *const TEXTS[] = {"query", "pass", "fact", "confirm", "accepted"};
    for (size_t i = 0; i < sizeof TEXTS / sizeof *TEXTS; i++) {
        if (hl__same_word(step, TEXTS[i])) {
            return true;
        }
    }
    return strncmp(reading, "void", 4) == 0; /* `void 31.10` names a row */
}

/* One decimal mark among digits: "9,50" and ".5" become "9.5" and "0.5". */
static void add_number(hl_text *out, const char *text, size_t size, size_t mark)
{
    size_t end = size;
    while (end > mark + 1 && text[end - 1] == '0') {
        end--;
    }
    hl__text_add(out, mark == 0 ? "0" : "");
    hl__text_add_n(out, text, mark);
    if (end > mark + 1) {
        hl__text_char(out, '.');
        hl__text_add_n(out, text + mark + 1, end - mark - 1);
    }
}

/* Runs of digits and marks with exactly one mark are numbers; a date or "1.234,5" stays as it is. */
static void add_reading(hl_text *out, const char *text)
{
    while (*text != '\0') {
        const size_t size = strspn(text, "0123456789.,"), mark = strcspn(text, ".,");
        if (size == 0) {
            const size_t other = strcspn(text, "0123456789.,");
            hl__text_add_n(out, text, other);
            text += other;
            continue;
        }
        const bool one = size > 1 && mark < size && mark + 1 + strcspn(text + mark + 1, ".,") >= size;
        if (one) {
            add_number(out, text, size, mark);
        } else {
            hl__text_add_n(out, text, size);
        }
        text += size;
    }
}

/* The cell without blanks at its ends, as the reader of CSV has it; in `out`. */
static void trim(hl_text *out, const char *text)
{
    static const char *const BLANKS[] = {" ", "\t", "\xC2\xA0", "\xE2\x80\xAF"};
    size_t size, more = 0;
    do {
        text += more;
        more = hl__text_blanks(text, strlen(text));
    } while (more > 0);
    for (size = strlen(text); size > 0; size -= more) {
        more = 0;
        for (size_t i = 0; i < sizeof BLANKS / sizeof *BLANKS && more == 0; i++) {
            const size_t n = strlen(BLANKS[i]);
            more = size >= n && memcmp(text + size - n, BLANKS[i], n) == 0 ? n : 0;
        }
        if (more == 0) {
            break;
        }
    }
    hl__text_add_n(out, text, size);
}

void hl__mark_add_row(hl_text *out, const char *const cells[HL_MARK_CELLS], const hl_mark *mark)
{
    enum { STEP = 1, READING = 2 };
    for (int i = 0; i < HL_MARK_CELLS; i++) {
        hl_text cell = {0};
        trim(&cell, cells[i]);
        if (cell.failed) {
            out->failed = true;
        } else if (i == READING && !hl__mark_is_text(cells[STEP], cells[i])) {
            add_reading(out, cell.data);
        } else {
            hl__text_add(out, cell.data);
        }
        hl__text_free(&cell);
        hl__text_add(out, CELL_END);
    }
    hl__mark_add_place(out, mark);
    if (mark->facts != NULL) {
        hl__text_add(out, " #");
        hl__text_add(out, mark->facts);
    }
    hl__text_add(out, ROW_END);
}

void hl__mark_check(char out[HL_MARK_HASH + 1], const char *rows, size_t size)
{
    hash_text(out, HL_MARK_HASH, rows, size);
}

void hl__mark_link(char out[HL_MARK_HASH + 1], const char *text)
{
    /* Never the check of a row: its text ends with a row's end, this one does not. */
    static const char BEFORE[] = "after ";
    hl_hash hash;
    char all[65];
    hl__hash_start(&hash);
    hl__hash_add(&hash, BEFORE, sizeof BEFORE - 1);
    hl__hash_add(&hash, text, strlen(text));
    hl__hash_end(&hash, all);
    memcpy(out, all, HL_MARK_HASH);
    out[HL_MARK_HASH] = '\0';
}

/* ---- facts ------------------------------------------------------------------------------------- */

/* "Distance ratio" -> "distance_ratio". */
static void add_name(hl_text *out, const char *text, size_t size)
{
    size_t begin = out->size;
    for (size_t i = 0; i < size; i++) {
        const char c = text[i] == ' ' || text[i] == '\t' || text[i] == '-' ? '_' : hl__lower(text[i]);
        if (c != '_' || (out->size > begin && out->data[out->size - 1] != '_')) {
            hl__text_char(out, c);
        }
    }
    if (out->size > begin && out->data[out->size - 1] == '_') {
        out->data[--out->size] = '\0';
    }
}

/* A value that was split into cells and one in quotes are the same: blanks beside a separator don't count. */
static void add_value(hl_text *out, const char *text)
{
    for (; *text != '\0'; text++) {
        const char before = out->size > 0 ? out->data[out->size - 1] : ',';
        const bool blank = *text == ' ' || *text == '\t';
        const size_t ahead = strspn(text, " \t");
        const bool beside =
            before == ',' || before == ';' || text[ahead] == ',' || text[ahead] == ';' || text[ahead] == '\0';
        if (!blank || !beside) {
            hl__text_char(out, *text);
        }
    }
}

void hl__fact_add(hl_fact_prints *to, const hl_cell *cells, int n, char separator)
{
    const char *colon = strchr(cells[0].text, ':');
    char print[HL_MARK_HASH + 1];
    hl_text name = {0}, value = {0};
    if (cells[0].text[0] != '#' || cells[0].text[1] == '#' || colon == NULL) {
        return;
    }
    add_name(&name, cells[0].text + 1, (size_t)(colon - cells[0].text - 1));
    if (name.size > 0 && strcmp(name.data, "hammerline") != 0) {
        while (n > 1 && cells[n - 1].size == 0) {
            n--;
        }
        add_value(&value, colon + 1);
        for (int i = 1; i < n; i++) {
            hl__text_char(&value, separator == '\t' ? ',' : separator);
            add_value(&value, cells[i].text);
        }
        const size_t begin = to->all.size;
        hl__text_add_n(&to->all, name.data, name.size);
        hl__text_add(&to->all, CELL_END);
        hl__text_add_n(&to->all, value.data == NULL ? "" : value.data, value.size);
        hl__text_add(&to->all, ROW_END);
        hash_text(print, HL_FACT_PRINT, to->all.failed ? "" : to->all.data + begin,
                  to->all.failed ? 0 : to->all.size - begin);
        hl__text_add(&to->prints, print);
        hl__text_add_n(&to->names, name.data, name.size + 1);
        to->n++;
    }
    to->all.failed = to->all.failed || name.failed || value.failed;
    hl__text_free(&name);
    hl__text_free(&value);
}

void hl__fact_print(hl_text *out, const hl_fact_prints *of)
{
    char all[HL_MARK_HASH + 1];
    hash_text(all, HL_MARK_HASH, of->all.size == 0 ? "" : of->all.data, of->all.size);
    hl__text_add(out, all);
    /* With more facts than fit in a cell none can be named, but that one changed can still be seen. */
    if (of->prints.size + 100 < HL_CELL_MOST) {
        hl__text_add_n(out, of->prints.size == 0 ? "" : of->prints.data, of->prints.size);
    }
    out->failed = out->failed || of->all.failed || of->prints.failed || of->names.failed;
}

const char *hl__fact_name(const hl_fact_prints *of, size_t i)
{
    const char *name = of->names.data;
    while (i-- > 0) {
        name += strlen(name) + 1;
    }
    return name;
}

void hl__fact_free(hl_fact_prints *of)
{
    hl__text_free(&of->all);
    hl__text_free(&of->prints);
    hl__text_free(&of->names);
}
