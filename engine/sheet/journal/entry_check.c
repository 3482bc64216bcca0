/* entry_check.c - finds what was edited, cut, copied or sorted among entries (layer: sheet/journal).
 *
 * Every row with a mark is kept with its hashed text, then the rows are put in the order in which they were
 * saved, so that a sorted sheet is still looked at entry by entry. */
#include "entry_check.h"

#include "journal_parts.h"

#include <stdlib.h>
#include <string.h>

typedef struct marked_row {
    hl_mark mark;
    int line;
    size_t at;          /* its place in bytes */
    bool torn;          /* without a line end */
    size_t place;       /* in the file's order of marked rows */
    size_t text, size;  /* hashed text, in `texts` */
    size_t cell;        /* the mark as written, in `cells` */
    size_t hands, bads; /* rows without a mark, and with a bad one, above it */
} marked_row;

typedef struct checker {
    hl_entries *out;
    hl_text texts, cells;
    marked_row *rows; /* in the file's order, then in the order of saving */
    size_t n, room;
    size_t *hands, *bads; /* the same counts by place, and the totals last */
    bool sorted;
    bool failed;
} checker;

bool hl__entry_is_doubt(hl_entry_fault kind)
{
    return kind < HL_ENTRY_BY_HAND;
}

static void add_change(checker *c, hl_entry_change change)
{
    hl_entries *out = c->out;
    if (out->n_changes == out->room_changes) {
        const size_t room = out->room_changes == 0 ? 16 : 2 * out->room_changes;
        hl_entry_change *more = realloc(out->changes, room * sizeof *more);
        if (more == NULL) {
            c->failed = true;
            return;
        }
        out->changes = more;
        out->room_changes = room;
    }
    change.last = change.last == 0 ? change.line : change.last;
    out->changes[out->n_changes++] = change;
}

/* ---- the rows ---------------------------------------------------------------------------------- */

static void keep_row(checker *c, const hl_journal_layout *layout, const hl_csv *csv, int n, int line,
                     const hl_mark *mark, const char *text)
{
    const char *cells[HL_MARK_CELLS];
    if (c->n == c->room) {
        const size_t room = c->room == 0 ? 256 : 2 * c->room;
        marked_row *more = realloc(c->rows, room * sizeof *more);
        if (more == NULL) {
            c->failed = true;
            return;
        }
        c->rows = more;
        c->room = room;
    }
    for (int i = 0; i < HL_MARK_CELLS; i++) {
        const int at = layout->place[i];
        cells[i] = at < 0 || at >= n ? "" : csv->cells[at].text;
    }
    marked_row *row = &c->rows[c->n++];
    *row = (marked_row){.mark = *mark, .line = line, .place = c->n - 1, .text = c->texts.size};
    hl__mark_add_row(&c->texts, cells, mark);
    row->size = c->texts.size - row->text;
    row->cell = c->cells.size;
    row->hands = c->out->n_unmarked;
    hl__text_add_n(&c->cells, text, strlen(text) + 1);
    c->failed = c->failed || c->texts.failed || c->cells.failed;
}

static bool is_blank(const hl_csv *csv, int from, int n)
{
    for (int i = from; i < n; i++) {
        if (csv->cells[i].size > 0) {
            return false;
        }
    }
    return true;
}

/* The marks point into the cells that were kept of them. */
static void point_facts(checker *c)
{
    hl_mark again;
    for (size_t i = 0; i < c->n; i++) {
        if (hl__mark_read(&again, c->cells.data + c->rows[i].cell)) {
            c->rows[i].mark.facts = again.facts;
        }
    }
}

static hl_code read_rows(checker *c, const hl_journal_layout *layout, hl_csv *csv, hl_err *err)
{
    const int at = layout->place[HL_JOURNAL_ENTRY];
    size_t bads = 0;
    bool head = false;
    while (!c->failed) {
        int n, line;
        hl_mark mark;
        const char *from = csv->at;
        const hl_code code = hl__csv_row(csv, &n, &line, err);
        if (code == HL_E_SHEET) {
            continue;
        }
        if (code != HL_OK || n == 0) {
            return code;
        }
        const bool hash = csv->cells[0].text[0] == '#';
        if (!head && hash) {
            hl__fact_add(&c->out->facts, csv->cells, n, csv->separator);
        } else if (!head) {
            head = csv->at >= csv->bytes + layout->head_size - layout->skipped;
        } else if (!is_blank(csv, hash ? 1 : 0, n)) {
            const char *text = at < 0 || at >= n ? "" : csv->cells[at].text;
            const bool shifted = n < layout->n_cells || !is_blank(csv, layout->n_cells, n);
            if (text[0] == '\0' && !shifted) {
                c->out->n_unmarked++;
            } else if (shifted || !hl__mark_read(&mark, text)) {
                add_change(c, (hl_entry_change){.kind = HL_ENTRY_MARK, .line = line});
                bads++;
            } else {
                keep_row(c, layout, csv, n, line, &mark, text);
                if (c->failed) {
                    break;
                }
                c->rows[c->n - 1].bads = bads;
                c->rows[c->n - 1].torn = csv->torn;
                c->rows[c->n - 1].at = (size_t)(from - csv->bytes) + layout->skipped;
            }
        }
    }
    return hl__no_memory(err);
}

/* ---- places and the order of saving ------------------------------------------------------------ */

static bool same_entry(const hl_mark *a, const hl_mark *b)
{
    return a->order == b->order && a->counter == b->counter && strcmp(a->session, b->session) == 0;
}

static void find_sorted(checker *c)
{
    for (size_t i = 1; i < c->n && !c->sorted; i++) {
        const hl_mark *a = &c->rows[i - 1].mark, *b = &c->rows[i].mark;
        c->sorted = !(b->order > a->order || (same_entry(a, b) && b->row >= a->row));
        if (c->sorted) {
            add_change(
                c, (hl_entry_change){.kind = HL_ENTRY_SORTED, .line = c->rows[i].line, .order = b->order});
        }
    }
}

static int compare(const void *left, const void *right)
{
    const marked_row *a = left, *b = right;
    if (a->mark.order != b->mark.order) {
        return a->mark.order < b->mark.order ? -1 : 1;
    }
    const int session = strcmp(a->mark.session, b->mark.session);
    if (session != 0) {
        return session;
    }
    if (a->mark.counter != b->mark.counter) {
        return a->mark.counter < b->mark.counter ? -1 : 1;
    }
    if (a->mark.row != b->mark.row) {
        return a->mark.row < b->mark.row ? -1 : 1;
    }
    return a->place < b->place ? -1 : a->place > b->place;
}

/* Rows without a mark, and with a bad one, below the first `above` marked rows and above the marked row in
 * place `below` (c->n: to the sheet's end). */
static void count_between(const checker *c, size_t above, size_t below, size_t total_bads, size_t *hands,
                          size_t *bads)
{
    *hands = *bads = 0;
    if (c->sorted) {
        return; /* what stands beside a row says nothing then */
    }
    *hands = (below < c->n ? c->hands[below] : c->out->n_unmarked) - (above == 0 ? 0 : c->hands[above - 1]);
    *bads = (below < c->n ? c->bads[below] : total_bads) - (above == 0 ? 0 : c->bads[above - 1]);
}

/* ---- one entry --------------------------------------------------------------------------------- */

typedef struct group {
    const marked_row *rows;
    size_t n;
    bool whole;  /* all its rows are here, once */
    bool faulty; /* something was said of it */
} group;

static size_t first_place(const group *g)
{
    size_t place = g->rows[0].place;
    for (size_t i = 1; i < g->n; i++) {
        place = g->rows[i].place < place ? g->rows[i].place : place;
    }
    return place;
}

static size_t last_place(const group *g)
{
    size_t place = g->rows[0].place;
    for (size_t i = 1; i < g->n; i++) {
        place = g->rows[i].place > place ? g->rows[i].place : place;
    }
    return place;
}

/* Rows are missing before `row` of the entry's rows that are here; `row` is g->n when they are the last. */
static void say_missing(checker *c, group *g, size_t row, uint32_t first, size_t total_bads)
{
    const bool tail = row == g->n;
    const marked_row *last = &g->rows[g->n - 1];
    hl_entry_change change = {.kind = HL_ENTRY_ROW_GONE,
                              .line = g->rows[0].line,
                              .last = last->line,
                              .order = last->mark.order,
                              .row = first,
                              .rows = last->mark.rows};
    size_t hands, bads;
    const size_t below = tail ? last->place + 1 : g->rows[row].place;
    count_between(c, row == 0 ? below : g->rows[row - 1].place + 1, below, total_bads, &hands, &bads);
    g->whole = false;
    if (bads > 0) {
        return; /* it is there, and was said */
    }
    if (hands >= (tail ? last->mark.rows + 1 : g->rows[row].mark.row) - first) {
        change.kind = HL_ENTRY_BY_HAND;
    } else if (tail && !c->sorted && last->place + 1 == c->n) {
        change.kind = HL_ENTRY_UNFINISHED;
        c->out->unfinished_at = g->rows[0].at;
    }
    g->faulty = true;
    add_change(c, change);
}

static void check_rows(checker *c, group *g, size_t total_bads)
{
    const hl_mark *first = &g->rows[0].mark;
    uint32_t next = 1;
    g->whole = true;
    for (size_t i = 0; i < g->n; i++) {
        const hl_mark *mark = &g->rows[i].mark;
        const bool twice = mark->row < next, other = mark->rows != first->rows || mark->range != first->range;
        if (mark->row > next) {
            say_missing(c, g, i, next, total_bads);
        }
        if (twice || other) {
            g->whole = false;
            g->faulty = true;
            add_change(c, (hl_entry_change){.kind = twice ? HL_ENTRY_TWICE : HL_ENTRY_EDITED,
                                            .line = g->rows[i].line,
                                            .order = mark->order,
                                            .row = mark->row,
                                            .rows = mark->rows});
        }
        next = mark->row + 1;
    }
    if (next <= first->rows) {
        say_missing(c, g, g->n, next, total_bads);
    }
}

static void check_hash(checker *c, group *g)
{
    hl_text text = {0};
    char check[HL_MARK_HASH + 1];
    const marked_row *last = &g->rows[g->n - 1];
    for (size_t i = 0; i < g->n; i++) {
        hl__text_add_n(&text, c->texts.data + g->rows[i].text, g->rows[i].size);
    }
    c->failed = c->failed || text.failed;
    if (text.failed) {
        return;
    }
    hl__mark_check(check, text.data, text.size);
    hl__text_free(&text);
    if (strcmp(check, last->mark.check) != 0) {
        g->faulty = true;
        add_change(c, (hl_entry_change){.kind = HL_ENTRY_EDITED,
                                        .line = g->rows[0].line,
                                        .last = last->line,
                                        .order = last->mark.order,
                                        .row = 1,
                                        .rows = last->mark.rows});
    }
}

/* ---- the chain --------------------------------------------------------------------------------- */

static void check_link(checker *c, const group *before, group *g, size_t total_bads)
{
    const hl_mark *last = &g->rows[g->n - 1].mark;
    const uint32_t order = g->rows[0].mark.order;
    const uint32_t expected = before->n == 0 ? 1 : before->rows[0].mark.order + 1;
    hl_entry_change change = {.line = g->rows[0].line, .order = order, .from = expected};
    if (order < expected) {
        change.kind = HL_ENTRY_TWICE; /* two copies of a sheet were put together */
        change.row = change.rows = 0;
        add_change(c, change);
        return;
    }
    if (order > expected) {
        size_t hands, bads;
        count_between(c, before->n == 0 ? 0 : last_place(before) + 1, first_place(g), total_bads, &hands,
                      &bads);
        if (bads == 0) {
            change.kind = hands >= order - expected ? HL_ENTRY_BY_HAND : HL_ENTRY_ENTRY_GONE;
            add_change(c, change);
        }
        return;
    }
    char link[HL_MARK_HASH + 1];
    if (!g->whole || g->faulty || (before->n > 0 && (!before->whole || before->faulty))) {
        return;
    }
    hl__mark_link(link, before->n == 0 ? "" : c->cells.data + before->rows[before->n - 1].cell);
    if (strcmp(link, last->link) != 0) {
        change.kind = HL_ENTRY_REPLACED;
        add_change(c, change);
    }
}

static void check_groups(checker *c, size_t total_bads)
{
    group before = {.n = 0};
    for (size_t i = 0; i < c->n && !c->failed;) {
        group g = {.rows = &c->rows[i]};
        while (i + g.n < c->n && same_entry(&c->rows[i].mark, &c->rows[i + g.n].mark)) {
            g.n++;
        }
        check_rows(c, &g, total_bads);
        if (g.whole) {
            c->out->n_entries++;
            check_hash(c, &g);
        }
        check_link(c, &before, &g, total_bads);
        c->out->ends_saved = c->out->ends_saved || (g.whole && !g.faulty && g.rows[g.n - 1].torn);
        before = g;
        i += g.n;
    }
}

/* ---- facts ------------------------------------------------------------------------------------- */

static bool has_print(const char *prints, const char *print)
{
    for (; prints[0] != '\0'; prints += HL_FACT_PRINT) {
        if (memcmp(prints, print, HL_FACT_PRINT) == 0) {
            return true;
        }
    }
    return false;
}

#define LOOK_BACK 32 /* sessions: a sheet of a hundred thousand of them is no sheet */

/* The last first entries of sessions whose print is another than that of now. */
static size_t find_other_prints(const checker *c, const char *now, const hl_mark *found[LOOK_BACK])
{
    size_t n = 0;
    for (size_t i = c->n; i-- > 0 && n < LOOK_BACK;) {
        const hl_mark *mark = &c->rows[i].mark;
        if (mark->facts != NULL && strcmp(mark->facts, now) != 0) {
            found[n++] = mark;
        }
    }
    return n;
}

/* Facts that are not as they were when a session began, each named once with the last such entry. */
static void check_facts(checker *c)
{
    hl_entries *out = c->out;
    const hl_mark *found[LOOK_BACK];
    hl_text now = {0};
    bool named = false;
    hl__fact_print(&now, &out->facts);
    c->failed = c->failed || now.failed;
    const size_t n = c->failed ? 0 : find_other_prints(c, now.data, found);
    for (size_t k = 0; n > 0 && k < out->facts.n; k++) {
        const char *print = out->facts.prints.data + k * HL_FACT_PRINT;
        size_t i = 0;
        while (i < n &&
               (found[i]->facts[HL_MARK_HASH] == '\0' || has_print(found[i]->facts + HL_MARK_HASH, print))) {
            i++;
        }
        if (i < n) {
            named = true;
            add_change(c, (hl_entry_change){.kind = HL_ENTRY_FACT,
                                            .order = found[i]->order,
                                            .fact = hl__fact_name(&out->facts, k)});
        }
    }
    if (n > 0 && !named) {
        add_change(c, (hl_entry_change){.kind = HL_ENTRY_FACT, .order = found[0]->order});
    }
    hl__text_free(&now);
}

/* ---- the sheet --------------------------------------------------------------------------------- */

static int compare_changes(const void *left, const void *right)
{
    const hl_entry_change *a = left, *b = right;
    if (a->line != b->line) {
        return a->line < b->line ? -1 : 1;
    }
    return a->kind != b->kind ? (a->kind < b->kind ? -1 : 1) : (a->order > b->order) - (a->order < b->order);
}

static void check_all(checker *c, size_t total_bads)
{
    point_facts(c);
    c->hands = malloc((c->n + 1) * sizeof *c->hands);
    c->bads = malloc((c->n + 1) * sizeof *c->bads);
    if (c->hands == NULL || c->bads == NULL) {
        c->failed = true;
        return;
    }
    for (size_t i = 0; i < c->n; i++) {
        c->hands[i] = c->rows[i].hands;
        c->bads[i] = c->rows[i].bads;
    }
    find_sorted(c);
    if (c->n > 0) {
        qsort(c->rows, c->n, sizeof *c->rows, compare);
    }
    c->out->rows = malloc((c->n + 1) * sizeof *c->out->rows);
    if (c->out->rows == NULL) {
        c->failed = true;
        return;
    }
    for (size_t i = 0; i < c->n; i++) {
        const marked_row *row = &c->rows[i];
        c->out->rows[i] = (hl_entry_row){row->mark.order, row->mark.row, row->line};
    }
    check_groups(c, total_bads);
    check_facts(c);
    if (c->out->n_changes > 0) {
        qsort(c->out->changes, c->out->n_changes, sizeof *c->out->changes, compare_changes);
    }
}

hl_code hl__entries_check(hl_entries *out, const char *name, const char *bytes, size_t size, hl_err *err)
{
    hl_journal_layout layout;
    hl_csv csv;
    checker c = {.out = out};
    size_t total_bads = 0;
    *out = (hl_entries){.n_changes = 0};
    hl_code code = hl__journal_layout(&layout, name, bytes, size, err);
    if (code != HL_OK) {
        return code;
    }
    out->marked = layout.place[HL_JOURNAL_ENTRY] >= 0;
    code = hl__csv_start(&csv, name, bytes, size, layout.separator, err);
    if (code == HL_OK) {
        csv.one_line = true;
        code = read_rows(&c, &layout, &csv, err);
        hl__csv_end(&csv);
    }
    if (code == HL_OK) {
        out->n_marked = c.n;
        total_bads = out->n_changes; /* so far only bad marks were said */
        if (c.n > 0 && layout.version != 2) {
            add_change(&c, (hl_entry_change){.kind = HL_ENTRY_VERSION});
        }
        check_all(&c, total_bads);
        code = c.failed ? hl__no_memory(err) : HL_OK;
    }
    free(c.rows);
    free(c.hands);
    free(c.bads);
    hl__text_free(&c.texts);
    hl__text_free(&c.cells);
    return code;
}

void hl__entries_free(hl_entries *entries)
{
    free(entries->changes);
    free(entries->rows);
    hl__fact_free(&entries->facts);
    *entries = (hl_entries){.n_changes = 0};
}

int hl__entries_line(const hl_entries *entries, unsigned long order, unsigned long row)
{
    size_t from = 0, to = entries->n_marked;
    while (from < to) { /* the first that is not before it */
        const size_t middle = from + (to - from) / 2;
        if (entries->rows[middle].order < order) {
            from = middle + 1;
        } else {
            to = middle;
        }
    }
    for (; from < entries->n_marked && entries->rows[from].order == order; from++) {
        if (entries->rows[from].row == row) {
            return entries->rows[from].line;
        }
    }
    return 0;
}

bool hl__entries_find(const hl_entries *entries, int line, uint32_t *order, uint32_t *row)
{
    for (size_t i = 0; i < entries->n_marked; i++) {
        if (entries->rows[i].line == line) {
            *order = entries->rows[i].order;
            *row = entries->rows[i].row;
            return true;
        }
    }
    return false;
}
