/* journal_entry.c - the entries of a sheet that is open: which was the last, and the lines of the next
 * (layer: sheet/journal). */
#define _DEFAULT_SOURCE /* CLOCK_MONOTONIC with strict C */
#include "journal_parts.h"

#include "hash.h"

#include <string.h>
#include <time.h>
#include <unistd.h>

/* ---- what the rows say ------------------------------------------------------------------------- */

static bool continues(const hl_mark *before, const hl_mark *mark)
{
    return mark->order == before->order && mark->counter == before->counter && mark->rows == before->rows &&
           mark->row == before->row + 1 && strcmp(mark->session, before->session) == 0;
}

/* An entry that something else follows is no torn one, whatever it lacks. */
static void close_entry(hl_journal_tail *tail)
{
    if (tail->open && tail->mark.order > tail->order) {
        tail->order = tail->mark.order;
    }
    tail->open = false;
}

static void take_mark(hl_journal_tail *tail, const hl_mark *mark, const char *text, off_t at)
{
    const bool next = tail->open && continues(&tail->mark, mark);
    if (!next) {
        close_entry(tail);
        tail->open_at = at;
    }
    tail->mark = *mark;
    tail->mark.facts = NULL; /* it points into a row that goes */
    tail->open = !hl__mark_is_last(mark) && (next || mark->row == 1);
    if (hl__mark_is_last(mark) && mark->order >= tail->order) {
        tail->order = mark->order;
        hl__mark_link(tail->link, text);
    }
}

hl_code hl__journal_scan(hl_journal_tail *tail, const hl_journal_layout *layout, const char *bytes,
                         size_t size, off_t at, hl_err *err)
{
    hl_csv csv;
    const int column = layout->place[HL_JOURNAL_ENTRY];
    hl_code code = hl__csv_start(&csv, "", bytes, size, layout->separator, err);
    if (code != HL_OK) {
        return code;
    }
    csv.one_line = true;
    for (;;) {
        const off_t from = at + (off_t)(csv.at - bytes);
        int n, line;
        hl_mark mark;
        code = hl__csv_row(&csv, &n, &line, err);
        if (code == HL_E_SHEET) {
            continue; /* no row of ours; what a crash left behind one of ours goes with it */
        }
        if (code != HL_OK || n == 0) {
            break;
        }
        const char *text = column < 0 || column >= n ? "" : csv.cells[column].text;
        if (hl__mark_read(&mark, text)) {
            take_mark(tail, &mark, text, from);
        } else if (n > 1 || csv.cells[0].size > 0) {
            close_entry(tail);
        }
    }
    hl__csv_end(&csv);
    return code;
}

/* The rows of one entry, each after the one before it; hashed as they were when they were saved. */
static hl_code read_entry(bool *whole, hl_text *hashed, hl_mark *last, const hl_journal_layout *layout,
                          hl_csv *csv, hl_err *err)
{
    *whole = true;
    *last = (hl_mark){.row = 0};
    while (*whole) {
        const char *cells[HL_MARK_CELLS];
        int n, at;
        hl_mark mark = {.row = 0};
        const hl_code code = hl__csv_row(csv, &n, &at, err);
        *whole = code == HL_OK;
        if (code == HL_E_MEMORY || (code == HL_OK && n == 0)) {
            return code;
        }
        while (*whole && n > layout->n_cells && csv->cells[n - 1].size == 0) {
            n--; /* spreadsheets fill rows up */
        }
        *whole = *whole && n == layout->n_cells &&
                 hl__mark_read(&mark, csv->cells[layout->place[HL_JOURNAL_ENTRY]].text) &&
                 (last->row == 0 ? mark.row == 1 : continues(last, &mark));
        for (int i = 0; *whole && i < HL_MARK_CELLS; i++) {
            cells[i] = layout->place[i] < 0 ? "" : csv->cells[layout->place[i]].text;
        }
        if (*whole) {
            hl__mark_add_row(hashed, cells, &mark);
            *last = mark;
        }
    }
    return HL_OK;
}

hl_code hl__journal_is_saved(bool *out, const hl_journal_layout *layout, const char *before,
                             size_t before_size, const char *line, size_t size, hl_err *err)
{
    hl_text all = {0}, hashed = {0};
    hl_csv csv;
    hl_mark last = {.row = 0};
    char check[HL_MARK_HASH + 1];
    *out = false;
    hl__text_add_n(&all, before, before_size);
    hl__text_add_n(&all, line, size);
    hl_code code =
        all.failed ? hl__no_memory(err) : hl__csv_start(&csv, "", all.data, all.size, layout->separator, err);
    if (code == HL_OK) {
        csv.one_line = true;
        code = read_entry(out, &hashed, &last, layout, &csv, err);
        code = hashed.failed ? hl__no_memory(err) : code;
        *out = code == HL_OK && *out && last.row > 0 && hl__mark_is_last(&last);
        if (*out) {
            hl__mark_check(check, hashed.data, hashed.size);
            *out = strcmp(check, last.check) == 0;
        }
        hl__csv_end(&csv);
    }
    hl__text_free(&hashed);
    hl__text_free(&all);
    return code == HL_E_MEMORY ? code : HL_OK;
}

/* ---- a session --------------------------------------------------------------------------------- */

static bool holds(const char *bytes, size_t size, const char *word)
{
    const size_t n = strlen(word);
    for (const char *at = bytes; size >= n;) {
        const char *found = memchr(at, word[0], size - n + 1);
        if (found == NULL) {
            return false;
        }
        if (memcmp(found, word, n) == 0) {
            return true;
        }
        size -= (size_t)(found + 1 - at);
        at = found + 1;
    }
    return false;
}

/* The clock and the process make the name, no secret is needed: it only tells sessions of one sheet apart. */
void hl__journal_begin_session(hl_journal *journal, const char *bytes, size_t size)
{
    static const char LETTERS[] = "bcdfghjkmnpqrstvwxyz23456789bcdf"; /* none that is taken for another */
    struct {
        struct timespec day, since;
        long process;
        unsigned tries;
    } seed;
    char word[HL_MARK_SESSION + 2];
    memset(&seed, 0, sizeof seed);
    seed.process = (long)getpid();
    do {
        hl_hash hash;
        char digits[65];
        clock_gettime(CLOCK_REALTIME, &seed.day);
        clock_gettime(CLOCK_MONOTONIC, &seed.since);
        seed.tries++;
        hl__hash_start(&hash);
        hl__hash_add(&hash, &seed, sizeof seed);
        hl__hash_end(&hash, digits);
        for (int i = 0; i < 4; i++) {
            const int high = digits[2 * i] & 15, low = digits[2 * i + 1];
            const int value = (high * 16 + low) % (i == 0 ? 20 : 28); /* a letter first */
            journal->session[i] = LETTERS[value];
        }
        journal->session[4] = '\0';
        memcpy(word, journal->session, 4);
        memcpy(word + 4, "-", 2);
    } while (holds(bytes, size, word) && seed.tries < 1000);
    journal->counter = 0;
}

/* ---- the next entry ---------------------------------------------------------------------------- */

static hl_mark make_mark(const hl_journal *journal, const hl_journal_entry *entry, size_t row)
{
    hl_mark mark = {.order = journal->tail.order + 1,
                    .row = (uint32_t)row + 1,
                    .rows = (uint32_t)entry->n,
                    .range = entry->range,
                    .counter = journal->counter + 1};
    memcpy(mark.session, journal->session, sizeof mark.session);
    if (row + 1 == entry->n && journal->counter == 0) {
        mark.facts = journal->facts.data;
    }
    return mark;
}

/* The last row, which has the hashes.  *link becomes that of the entry after this one. */
static hl_code add_last(hl_text *lines, hl_text *hashed, const hl_journal *journal, hl_mark *mark,
                        const hl_journal_row *row, char link[HL_MARK_HASH + 1], hl_err *err)
{
    hl_text unused = {0}, cell = {0};
    hl_code code = hl__journal_line(&unused, hashed, &journal->layout, row, mark, err);
    hl__text_free(&unused);
    if (code != HL_OK) {
        return code;
    }
    hl__mark_check(mark->check, hashed->data, hashed->size);
    memcpy(mark->link, journal->tail.link, sizeof mark->link);
    hl__mark_add(&cell, mark);
    code = cell.failed ? hl__no_memory(err) : hl__journal_line(lines, NULL, &journal->layout, row, mark, err);
    if (code == HL_OK) {
        hl__mark_link(link, cell.data);
    }
    hl__text_free(&cell);
    return code;
}

hl_code hl__journal_lines(hl_text *lines, char link[HL_MARK_HASH + 1], const hl_journal *journal,
                          const hl_journal_entry *entry, hl_err *err)
{
    const bool marks = hl__journal_marks(&journal->layout);
    hl_text hashed = {0};
    hl_code code = HL_OK;
    for (size_t i = 0; i < entry->n && code == HL_OK; i++) {
        hl_mark mark = make_mark(journal, entry, i);
        if (!marks) {
            code = hl__journal_line(lines, NULL, &journal->layout, &entry->rows[i], NULL, err);
        } else if (i + 1 < entry->n) {
            code = hl__journal_line(lines, &hashed, &journal->layout, &entry->rows[i], &mark, err);
        } else {
            code = add_last(lines, &hashed, journal, &mark, &entry->rows[i], link, err);
        }
    }
    hl__text_free(&hashed);
    return code;
}
