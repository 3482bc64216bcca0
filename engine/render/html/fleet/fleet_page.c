/* fleet_page.c - one page for many pianos: which are ready, what is common, pianos by steps (layer:
 * render/html/fleet).
 *
 * The worst piano is first, by root causes: two wrong dips that put six readings out are two.  What the page
 * needs of a sheet is copied when it is added, since a fleet's sheets do not last. */
#include "arena.h"
#include "audit.h"
#include "chart.h"
#include "page_frame.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

enum {
    BLOCK = 40,   /* pianos in one drawing, so that its heads stay near */
    NAMES = 2300, /* breadth of the pianos' names */
    HEADS = 1500, /* height of the steps' names */
    ROW = 100,
    HALF = 34,      /* of the largest mark */
    LEAST = 20,     /* of the smallest: one reading that is out must be seen */
    NAME_MOST = 40, /* characters of a name in the drawing */
};

/* One step of one piano. */
typedef struct cell {
    uint16_t out, doubt, again, missing, pass;
} cell;

typedef struct piano {
    const char *name, *link; /* link: "" when there is none */
    const char *trouble;     /* why it could not be judged; "" */
    int book;
    bool judged, ready;
    int roots, out, doubt, again, missing;
    cell *cells; /* [n_steps of its book] */
} piano;

typedef struct shelf_book {
    const char *id, *title;
    const char **steps;
    int n_steps;
    const char **adjusters;
    long *cures;
    int n_adjusters;
} shelf_book;

struct hl_fleet_page {
    hl_arena arena;
    piano *pianos;
    size_t n, room;
    shelf_book *books;
    int n_books, room_books;
};

hl_code hl_fleet_page_new(hl_fleet_page **out, hl_err *err)
{
    *err = (hl_err){0};
    *out = calloc(1, sizeof **out);
    return *out ? HL_OK : hl__no_memory(err);
}

void hl_fleet_page_free(hl_fleet_page *page)
{
    if (!page)
        return;
    hl__arena_free(&page->arena);
    free(page->pianos);
    free(page->books);
    free(page);
}

/* ---- adding ---------------------------------------------------------------------------------------------
 */

static const char *copy(hl_fleet_page *page, const char *text)
{
    const size_t size = strlen(text) + 1;
    char *made = hl__arena_take(&page->arena, size);
    if (made)
        memcpy(made, text, size);
    return made;
}

static bool copy_book(hl_fleet_page *page, shelf_book *to, const hl_book *book)
{
    *to = (shelf_book){.id = copy(page, book->id),
                       .title = copy(page, book->title),
                       .n_steps = book->n_steps,
                       .n_adjusters = book->n_adjusters};
    to->steps = hl__arena_array(&page->arena, (size_t)book->n_steps + 1, sizeof *to->steps);
    to->adjusters = hl__arena_array(&page->arena, (size_t)book->n_adjusters + 1, sizeof *to->adjusters);
    to->cures = hl__arena_array(&page->arena, (size_t)book->n_adjusters + 1, sizeof *to->cures);
    if (!to->id || !to->title || !to->steps || !to->adjusters || !to->cures)
        return false;
    for (int i = 0; i < book->n_steps; i++)
        if (!(to->steps[i] = copy(page, book->steps[i].title)))
            return false;
    for (int i = 0; i < book->n_adjusters; i++)
        if (!(to->adjusters[i] = copy(page, book->adjusters[i].title)))
            return false;
    return true;
}

/* -1: no memory. */
static int find_book(hl_fleet_page *page, const hl_book *book)
{
    for (int i = 0; i < page->n_books; i++)
        if (strcmp(page->books[i].id, book->id) == 0 && page->books[i].n_steps == book->n_steps)
            return i;
    if (page->n_books == page->room_books) {
        const int room = page->room_books ? 2 * page->room_books : 4;
        shelf_book *more = realloc(page->books, (size_t)room * sizeof *more);
        if (!more)
            return -1;
        page->books = more;
        page->room_books = room;
    }
    return copy_book(page, &page->books[page->n_books], book) ? page->n_books++ : -1;
}

static uint16_t small(int n)
{
    return (uint16_t)(n > UINT16_MAX ? UINT16_MAX : n);
}

/* Failing readings that do not go away by curing another one. */
static int count_roots(const hl_audit *audit, int otherwise)
{
    size_t n = 0;
    int roots = 0;
    if (!audit)
        return otherwise;
    const hl_finding *findings = hl_audit_findings(audit, &n);
    for (size_t i = 0; i < n; i++)
        roots += findings[i].verdict == HL_FAIL && !findings[i].follows && !findings[i].hangs;
    return roots;
}

static bool fill_cells(hl_fleet_page *page, piano *to, const hl_fleet_sheet *sheet)
{
    const int n = sheet->book->n_steps;
    to->cells = hl__arena_array(&page->arena, (size_t)n + 1, sizeof *to->cells);
    for (int i = 0; to->cells && i < n; i++) {
        const int *count = sheet->counts[i];
        to->cells[i] = (cell){.out = small(count[HL_FAIL]),
                              .doubt = small(count[HL_DOUBTFUL]),
                              .again = small(count[HL_STALE]),
                              .missing = small(count[HL_MISSING]),
                              .pass = small(count[HL_PASS])};
    }
    for (int i = 0; sheet->cures && i < sheet->book->n_adjusters; i++)
        page->books[to->book].cures[i] += sheet->cures[i];
    return to->cells != NULL;
}

hl_code hl_fleet_page_add(hl_fleet_page *page, const hl_fleet_sheet *sheet, const char *link, hl_err *err)
{
    if (page->n == page->room) {
        const size_t room = page->room ? 2 * page->room : 64;
        piano *more = realloc(page->pianos, room * sizeof *more);
        if (!more)
            return hl__no_memory(err);
        page->pianos = more;
        page->room = room;
    }
    piano *to = &page->pianos[page->n];
    const char *name = strrchr(sheet->title, '/');
    const char *trouble = !sheet->judged && sheet->n_errors > 0 ? sheet->errors[0].what : "";
    *to = (piano){.name = copy(page, name ? name + 1 : sheet->title),
                  .link = copy(page, link ? link : ""),
                  .trouble = copy(page, trouble),
                  .judged = sheet->judged,
                  .ready = sheet->ready,
                  .out = sheet->total[HL_FAIL],
                  .doubt = sheet->total[HL_DOUBTFUL],
                  .again = sheet->total[HL_STALE],
                  .missing = sheet->total[HL_MISSING]};
    to->roots = count_roots(sheet->audit, to->out);
    if (!to->name || !to->link || !to->trouble)
        return hl__no_memory(err);
    if (sheet->judged) {
        to->book = find_book(page, sheet->book);
        if (to->book < 0 || !fill_cells(page, to, sheet))
            return hl__no_memory(err);
    }
    page->n++;
    return HL_OK;
}

/* ---- order
 * --------------------------------------------------------------------------------------------------- */

static int descend(int a, int b)
{
    return (a < b) - (a > b);
}

static int compare_pianos(const void *left, const void *right)
{
    const piano *a = left, *b = right;
    int order = descend(!a->judged, !b->judged);
    if (order == 0)
        order = descend(a->roots, b->roots);
    if (order == 0)
        order = descend(a->out, b->out);
    if (order == 0)
        order = descend(a->doubt + a->again + a->missing, b->doubt + b->again + b->missing);
    return order != 0 ? order : strcmp(a->name, b->name);
}

/* ---- the answer
 * ------------------------------------------------------------------------------------------------ */

static void write_answer(hl_html *html, const hl_fleet_page *page)
{
    int ready = 0, broken = 0;
    hl_text line = {0};
    for (size_t i = 0; i < page->n; i++) {
        ready += page->pianos[i].ready;
        broken += !page->pianos[i].judged;
    }
    const int others = (int)page->n - ready - broken;
    hl__html_leaf(html, "p", "kind", "Fleet");
    hl__say_count(&line, (int)page->n, "piano", "pianos");
    hl__html_leaf_take(html, "h1", NULL, &line);
    hl__html_open(html, "div", "class", others + broken == 0 ? "answer ready" : "answer", NULL);
    hl__html_leaf(html, "p", "word", page->n > 0 && others + broken == 0 ? "All ready" : "Not all ready");
    hl__text_printf(&line, "%d ready, %d not ready", ready, others);
    if (broken > 0)
        hl__text_printf(&line, ", %d could not be judged", broken);
    hl__text_char(&line, '.');
    hl__paragraph(html, "state", &line);
    hl__html_close(html);
    hl__html_line(html);
}

/* ---- what is common
 * ---------------------------------------------------------------------------------------------- */

static int count_out(const hl_fleet_page *page, int book, int step, long *readings)
{
    int n = 0;
    *readings = 0;
    for (size_t i = 0; i < page->n; i++) {
        const piano *at = &page->pianos[i];
        if (!at->judged || at->book != book)
            continue;
        n += at->cells[step].out > 0;
        *readings += at->cells[step].out;
    }
    return n;
}

static void add_link(hl_html *html, size_t at, const piano *of)
{
    hl_text target = {0};
    hl__text_printf(&target, "#p-%zu", at + 1);
    hl__html_open(html, "a", "href", target.data, NULL);
    hl__html_text(html, of->name);
    hl__html_close(html);
    hl__html_text(html, " ");
    html->out->failed |= target.failed;
    hl__text_free(&target);
}

/* Opens without a script: the pianos at which the step is out. */
static void write_step(hl_html *html, const hl_fleet_page *page, int book, int step)
{
    long readings = 0;
    const int n = count_out(page, book, step, &readings);
    hl_text line = {0};
    if (n == 0)
        return;
    hl__html_open(html, "details", NULL);
    hl__text_safe(&line, page->books[book].steps[step]);
    hl__text_printf(&line, ": out on %d %s, %ld %s", n, n == 1 ? "piano" : "pianos", readings,
                    readings == 1 ? "reading" : "readings");
    hl__html_leaf_take(html, "summary", NULL, &line);
    hl__html_open(html, "p", NULL);
    for (size_t i = 0; i < page->n; i++)
        if (page->pianos[i].judged && page->pianos[i].book == book && page->pianos[i].cells[step].out > 0)
            add_link(html, i, &page->pianos[i]);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_line(html);
}

/* The largest first; what is equal stays in the book's order. */
static int find_largest(const long *amounts, bool *done, int n)
{
    int best = -1;
    for (int i = 0; i < n; i++)
        if (!done[i] && amounts[i] > 0 && (best < 0 || amounts[i] > amounts[best]))
            best = i;
    if (best >= 0)
        done[best] = true;
    return best;
}

static void write_cures(hl_html *html, const shelf_book *book)
{
    static const char *const heads[] = {"First cure", ">Readings", NULL};
    bool started = false, *done = calloc((size_t)book->n_adjusters + 1, sizeof *done);
    html->out->failed |= !done;
    for (int i = done ? find_largest(book->cures, done, book->n_adjusters) : -1; i >= 0;
         i = find_largest(book->cures, done, book->n_adjusters)) {
        if (!started)
            hl__grid_start(html, NULL, "What cures the most", heads);
        started = true;
        hl_text cell_text = {0};
        hl__row_start(html, book->adjusters[i]);
        hl__text_printf(&cell_text, "%ld", book->cures[i]);
        hl__html_leaf_take(html, "td", "number", &cell_text);
        hl__row_end(html);
    }
    if (started)
        hl__grid_end(html);
    free(done);
}

static void write_steps(hl_html *html, const hl_fleet_page *page, int book)
{
    const int n = page->books[book].n_steps;
    long *pianos = calloc((size_t)n + 1, sizeof *pianos), readings;
    bool *done = calloc((size_t)n + 1, sizeof *done);
    html->out->failed |= !pianos || !done;
    for (int i = 0; pianos && done && i < n; i++)
        pianos[i] = count_out(page, book, i, &readings);
    for (int i = pianos && done ? find_largest(pianos, done, n) : -1; i >= 0;
         i = find_largest(pianos, done, n))
        write_step(html, page, book, i);
    free(pianos);
    free(done);
}

static void write_common(hl_html *html, const hl_fleet_page *page)
{
    hl__section_open(html, "common", "What is common");
    for (int book = 0; book < page->n_books; book++) {
        if (page->n_books > 1)
            hl__html_leaf(html, "h3", NULL, page->books[book].title);
        write_steps(html, page, book);
        write_cures(html, &page->books[book]);
    }
    hl__html_close(html);
}

/* ---- the board of pianos
 * ------------------------------------------------------------------------------------------- */

typedef struct drawing {
    hl_html *html;
    const shelf_book *book;
    const int *columns; /* of the steps; -1: not shown */
    int n_columns, breadth;
    hl_text pass, out, doubt, again, missing, rules;
} drawing;

static void add_cell(drawing *d, const cell *at, int x, int y)
{
    const int all = at->out + at->doubt + at->again + at->missing + at->pass;
    if (all == 0)
        return;
    if (at->out > 0) { /* the larger the share, the larger the square */
        const int half = LEAST + (HALF - LEAST) * at->out / all;
        hl__way_box(&d->out, x - half, y - half, 2 * half, 2 * half);
    } else if (at->doubt > 0) {
        hl__way_disc(&d->doubt, x, y, 24);
    } else if (at->again > 0) {
        for (int k = -1; k <= 1; k++) {
            hl__way_move(&d->again, x - 24 + 16 * k, y + 24);
            hl__way_line(&d->again, x + 24 + 16 * k, y - 24);
        }
    } else if (at->missing > 0) {
        hl__way_box(&d->missing, x - 20, y - 20, 40, 40);
    } else {
        hl__way_disc(&d->pass, x, y, 7);
    }
}

/* As much of a name as has room. */
static void draw_name(const drawing *d, int x, int y, const char *name, const char *style, bool slanted)
{
    hl_text whole = {0}, shown = {0}, place = {0};
    char a[16], b[16];
    hl__text_safe(&whole, name);
    size_t at = 0;
    for (int n = 0; n < NAME_MOST && at < whole.size; n++) {
        uint32_t point;
        const int step = hl__utf8_next(whole.data + at, whole.size - at, &point);
        at += step > 0 ? (size_t)step : 1;
    }
    hl__text_add_n(&shown, whole.data ? whole.data : "", at);
    if (at < whole.size)
        hl__text_add(&shown, "...");
    if (slanted)
        hl__text_printf(&place, "rotate(-60 %s %s)", hl__svg_value(a, x), hl__svg_value(b, y));
    hl__html_open(d->html, "text", "class", style, "x", hl__svg_value(a, x), "y", hl__svg_value(b, y),
                  "transform", slanted ? place.data : NULL, NULL);
    hl__html_take(d->html, &shown);
    hl__html_close(d->html);
    d->html->out->failed |= whole.failed || place.failed;
    hl__text_free(&whole);
    hl__text_free(&place);
}

static void draw_block(drawing *d, const piano *const *rows, int n, int id)
{
    hl_text about = {0};
    hl__text_printf(
        &about, "%d pianos, the worst first. Larger squares: a larger share of the step's readings is out.",
        n);
    hl__chart_open(d->html, id, HEADS + ROW * n + 40, "Pianos by steps", &about);
    for (int i = 0; i < d->book->n_steps; i++)
        if (d->columns[i] >= 0)
            draw_name(d, NAMES + d->breadth * d->columns[i] + d->breadth / 2 + 20, HEADS - 60,
                      d->book->steps[i], "step", true);
    for (int row = 0; row < n; row++) {
        const int y = HEADS + ROW * row + ROW / 2;
        hl__way_move(&d->rules, NAMES, y);
        hl__way_line(&d->rules, NAMES + d->breadth * d->n_columns, y);
        draw_name(d, 0, y + 32, rows[row]->name, "step", false);
        for (int i = 0; i < d->book->n_steps; i++)
            if (d->columns[i] >= 0)
                add_cell(d, &rows[row]->cells[i], NAMES + d->breadth * d->columns[i] + d->breadth / 2, y);
    }
    hl__svg_path(d->html, "rule", &d->rules);
    hl__svg_path(d->html, "good", &d->pass);
    hl__svg_path(d->html, "good", &d->out);
    hl__svg_path(d->html, "doubt", &d->doubt);
    hl__svg_path(d->html, "cross", &d->again);
    hl__svg_path(d->html, "none", &d->missing);
    hl__html_close(d->html);
    hl__html_line(d->html);
}

/* Steps that no piano of the book was asked for have no column. */
static int find_columns(const hl_fleet_page *page, int book, int *columns)
{
    int n = 0;
    for (int step = 0; step < page->books[book].n_steps; step++) {
        bool any = false;
        for (size_t i = 0; i < page->n && !any; i++) {
            const piano *at = &page->pianos[i];
            const cell *c = at->judged && at->book == book ? &at->cells[step] : NULL;
            any = c && c->out + c->doubt + c->again + c->missing + c->pass > 0;
        }
        columns[step] = any ? n++ : -1;
    }
    return n;
}

static void write_board(hl_html *html, const hl_fleet_page *page, int book, int *id)
{
    const shelf_book *of = &page->books[book];
    int *columns = calloc((size_t)of->n_steps + 1, sizeof *columns);
    const piano *rows[BLOCK];
    if (!columns) {
        html->out->failed = true;
        return;
    }
    drawing d = {.html = html, .book = of, .columns = columns};
    d.n_columns = find_columns(page, book, columns);
    d.breadth = d.n_columns > 0 ? (HL_CHART_WIDTH - NAMES - 500) / d.n_columns : 1;
    if (d.breadth > 200)
        d.breadth = 200;
    int n = 0;
    for (size_t i = 0; i < page->n; i++) {
        if (page->pianos[i].judged && page->pianos[i].book == book)
            rows[n++] = &page->pianos[i];
        if (n == BLOCK || (n > 0 && i + 1 == page->n)) {
            draw_block(&d, rows, n, (*id)++);
            n = 0;
        }
    }
    free(columns);
}

static void write_boards(hl_html *html, const hl_fleet_page *page)
{
    int id = 1;
    if (page->n_books == 0)
        return;
    hl__section_open(html, "board", "Pianos by steps, the worst first");
    hl__html_leaf(html, "p", "small",
                  "Square: out, the larger the more of the step's readings. Ring: in doubt. Strokes: to read "
                  "again. Open box: not "
                  "read. Dot: all pass.");
    for (int book = 0; book < page->n_books; book++) {
        if (page->n_books > 1)
            hl__html_leaf(html, "h3", NULL, page->books[book].title);
        hl__html_open(html, "div", "class", "wide", "tabindex", "0", "role", "region", "aria-label",
                      page->books[book].title, NULL);
        write_board(html, page, book, &id);
        hl__html_close(html);
    }
    hl__html_close(html);
}

/* ---- each piano
 * -------------------------------------------------------------------------------------------------------- */

static void say_piano(hl_text *out, const piano *of)
{
    if (!of->judged) {
        hl__text_add(out, "could not be judged: ");
        hl__text_safe(out, of->trouble);
        hl__text_char(out, '.');
        return;
    }
    if (of->ready) {
        hl__text_add(out, "ready.");
        return;
    }
    hl__text_add(out, "not ready: ");
    hl__say_count(out, of->roots, "root cause", "root causes");
    hl__text_printf(out, ", %d out", of->out);
    if (of->doubt > 0)
        hl__text_printf(out, ", %d in doubt", of->doubt);
    if (of->again > 0)
        hl__text_printf(out, ", %d to read again", of->again);
    if (of->missing > 0)
        hl__text_printf(out, ", %d not measured", of->missing);
    hl__text_char(out, '.');
}

static void write_piano(hl_html *html, const hl_fleet_page *page, size_t at)
{
    const piano *of = &page->pianos[at];
    hl_text line = {0}, id = {0};
    hl__text_printf(&id, "p-%zu", at + 1);
    hl__html_open(html, "li", "id", id.data, NULL);
    hl__html_open(html, "a", "href", of->link[0] ? of->link : NULL, NULL);
    hl__html_text(html, of->name);
    hl__html_close(html);
    hl__text_add(&line, ": ");
    say_piano(&line, of);
    hl__html_take(html, &line);
    if (of->out > 0) {
        hl__text_add(&line, " Out: ");
        bool any = false;
        for (int i = 0; i < page->books[of->book].n_steps; i++) {
            if (of->cells[i].out == 0)
                continue;
            hl__text_add(&line, any ? ", " : "");
            hl__text_safe(&line, page->books[of->book].steps[i]);
            hl__text_printf(&line, " (%d)", of->cells[i].out);
            any = true;
        }
        hl__text_char(&line, '.');
        hl__html_take(html, &line);
    }
    hl__html_close(html);
    hl__html_line(html);
    html->out->failed |= id.failed;
    hl__text_free(&id);
}

hl_code hl_fleet_page_html(char **out, size_t *size, hl_fleet_page *page, const hl_report *asked, hl_err *err)
{
    hl_text text = {0};
    hl_html html = {.out = &text};
    *out = NULL;
    if (page->n > 0)
        qsort(page->pianos, page->n, sizeof *page->pianos, compare_pianos);
    hl__page_start(&html, "Fleet", "record fleet",
                   asked && asked->made && asked->made[0] ? asked->made : "Fleet");
    write_answer(&html, page);
    write_common(&html, page);
    write_boards(&html, page);
    hl__section_open(&html, "pianos", "Each piano");
    hl__html_open(&html, "ol", NULL);
    for (size_t i = 0; i < page->n; i++)
        write_piano(&html, page, i);
    hl__html_close(&html);
    hl__html_close(&html);
    hl__page_end(&html);
    return hl__text_take(&text, out, size, err);
}
