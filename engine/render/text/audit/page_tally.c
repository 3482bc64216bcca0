/* page_tally.c - the table at the end: one line a step (layer: render/text). */
#include "groups.h"

#include "number.h"
#include "sentence.h"

#define COLUMNS 6
#define WIDEST  38 /* of a title */
#define NARROW  64 /* below this the title has no room, and the blocks above say it all */

typedef struct column {
    const char *head;
    int width;
    hl_verdict verdict;
} column;

static const column columns[COLUMNS] = {
    {"pass", 6, HL_PASS},   {"out", 5, HL_FAIL},        {"doubt", 7, HL_DOUBTFUL},
    {"stale", 7, HL_STALE}, {"missing", 9, HL_MISSING}, {"n/a", 5, HL_NOT_APPLICABLE},
};

static void add_right(hl_text *out, const char *cell, int width)
{
    hl__text_spaces(out, width - hl__text_width(cell));
    hl__text_add(out, cell);
}

/* A title cut to its column at a whole character, with an ellipsis in ASCII. */
static void add_title(hl_text *out, const char *title, int width)
{
    hl_text safe = {0};
    hl__text_safe(&safe, title);
    const char *text = safe.data ? safe.data : "";
    const bool fits = hl__text_width(text) <= width;
    int used = 0;
    for (size_t i = 0; i < safe.size && (fits || used < width - 2);) {
        uint32_t point = 0;
        const int taken = hl__utf8_next(text + i, safe.size - i, &point);
        if (taken <= 0)
            break;
        hl__text_add_n(out, text + i, (size_t)taken);
        i += (size_t)taken;
        used++;
    }
    if (!fits) {
        hl__text_add(out, "..");
        used = width;
    } else {
        used = hl__text_width(text);
    }
    hl__text_spaces(out, width - used);
    out->failed |= safe.failed;
    hl__text_free(&safe);
}

/* Columns that hold a number somewhere; "pass" always, it is what the eye looks for. */
static void choose_columns(const hl_tally *all, bool *shown)
{
    for (int i = 0; i < COLUMNS; i++)
        shown[i] = columns[i].verdict == HL_PASS || all->count[columns[i].verdict] > 0;
}

static void print_row(hl_page *page, const char *title, int title_width, const bool *shown,
                      const hl_tally *tally)
{
    add_title(page->out, title, title_width);
    for (int i = 0; i < COLUMNS; i++) {
        hl_text cell = {0};
        const int n = tally->count[columns[i].verdict];
        if (!shown[i])
            continue;
        if (n > 0)
            hl__text_printf(&cell, "%d", n);
        else
            hl__text_char(&cell, '-');
        add_right(page->out, cell.data ? cell.data : "", columns[i].width);
        page->out->failed |= cell.failed;
        hl__text_free(&cell);
    }
    hl__text_char(page->out, '\n');
}

/* An optional step that nobody read has nothing to count but the notes that it does not concern. */
static bool has_any(const hl_step *step, const hl_tally *tally)
{
    for (int i = 0; i < HL_VERDICTS; i++)
        if (tally->count[i] > 0 && (i != HL_NOT_APPLICABLE || step->skipped))
            return true;
    return false;
}

/* Go/no-go readings pass without a number; a reader of the table should know how many do. */
static void print_go(hl_page *page)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    if (audit->total.go == 0)
        return;
    hl__text_printf(&line, "By go/no-go gauge, without a number, %d pass:", audit->total.go);
    bool some = false;
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (audit->tallies[i].go == 0)
            continue;
        hl__text_add(&line, some ? ", " : " ");
        hl__text_safe(&line, audit->book->steps[i].title);
        hl__text_printf(&line, " %d", audit->tallies[i].go);
        some = true;
    }
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    hl__text_free(&line);
}

/* Departures from the neighbours, one figure a step, where the book asks for evenness. */
static void print_unevenness(hl_page *page)
{
    const hl_book *book = page->audit->book;
    hl_text line = {0};
    for (int i = 0; i < book->n_steps; i++) {
        const hl_tally *tally = &page->audit->tallies[i];
        if (!tally->has_unevenness || tally->unevenness == 0)
            continue;
        hl__text_add(&line, line.size == 0 ? "Unevenness, the furthest from its neighbours: " : ", ");
        hl__text_safe(&line, book->steps[i].title);
        hl__text_char(&line, ' ');
        hl__say_amount(&line, tally->unevenness, book->steps[i].unit, book->steps[i].resolution);
    }
    if (hl__text_any(&line)) {
        hl__text_char(&line, '.');
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    hl__text_free(&line);
}

static void print_table(hl_page *page)
{
    const hl_book *book = page->audit->book;
    bool shown[COLUMNS];
    int title_width = page->width - 1;
    hl_tally all = page->audit->total;
    all.count[HL_FAIL] -= hl__count_queries(page->audit); /* they belong to no step */
    choose_columns(&all, shown);
    for (int i = 0; i < COLUMNS; i++)
        title_width -= columns[i].width;
    title_width = title_width > WIDEST ? WIDEST : title_width;
    add_title(page->out, "Step", title_width);
    for (int i = 0; i < COLUMNS; i++)
        if (shown[i])
            add_right(page->out, columns[i].head, columns[i].width);
    hl__text_char(page->out, '\n');
    for (int i = 0; i < book->n_steps; i++)
        if (has_any(&book->steps[i], &page->audit->tallies[i]))
            print_row(page, book->steps[i].title, title_width, shown, &page->audit->tallies[i]);
    print_row(page, "All steps", title_width, shown, &all);
}

void hl__page_tally(hl_page *page)
{
    hl__text_char(page->out, '\n');
    if (page->width >= NARROW)
        print_table(page);
    print_go(page);
    print_unevenness(page);
}
