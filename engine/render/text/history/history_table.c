/* history_table.c - the table of a note's history: a row a step, a column a pass, and what changed
 * (layer: render/text). */
#include "history.h"

#include "sentence.h"
#include "sheet_out.h"
#include "sheet_parts.h"
#include "wrap.h"

#include <string.h>

#define LABEL_MOST  22
#define COLUMN_MOST 18
#define CHANGE_MOST 26
#define HEADS       5

typedef struct table {
    hl_history *of;
    const char **texts; /* [n_rows * n_columns]; column 0 holds the labels */
    int n_rows, n_columns;
    bool changes; /* the last column has something in it */
} table;

/* The finished text, kept by the history; "" and a mark when there is no memory. */
static const char *keep(hl_history *of, hl_text *text)
{
    const char *kept = text->failed ? NULL : hl__arena_copy(&of->arena, text->data ? text->data : "");
    of->failed = of->failed || !kept;
    hl__text_free(text);
    return kept ? kept : "";
}

static const char *keep_safe(hl_history *of, const char *string)
{
    hl_text text = {0};
    hl__text_safe(&text, string);
    return keep(of, &text);
}

/* ---- passes -------------------------------------------------------------------------------------- */

void hl__history_pass(hl_text *out, const hl_sheet *sheet, int pass)
{
    if (pass > 0)
        hl__text_safe(out, sheet->passes[pass]);
    else
        hl__text_add(out, sheet->n_passes > 1 ? "before any pass" : "the sheet");
}

/* The first pass with anything in it: what is above the header was true then. */
static int find_opening(const hl_sheet *sheet)
{
    for (size_t i = 0; i < sheet->n_events; i++)
        if (sheet->events[i].step >= 0)
            return sheet->events[i].pass;
    return 0;
}

/* What a row `fact` says of this id, "temperature = 21"; NULL when it speaks of another. */
static const char *read_fact(const char *remark, const char *wanted)
{
    char id[HL_ID_MOST];
    const char *equals = strpbrk(remark, "=:");
    if (!equals || !hl__sheet_id(id, remark, (size_t)(equals - remark)) || strcmp(id, wanted) != 0)
        return NULL;
    return equals + 1 + strspn(equals + 1, " ");
}

/* A fact as it was stated for a pass, or "". */
static const char *find_fact(const hl_sheet *sheet, int pass, const char *id)
{
    const bool opening = pass == find_opening(sheet);
    const char *value = "";
    for (size_t i = 0; opening && i < sheet->n_facts; i++)
        if (sheet->facts[i].line < sheet->header_end && strcmp(sheet->facts[i].id, id) == 0)
            value = sheet->facts[i].value;
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        const bool here = event->pass == pass || (opening && event->pass < pass);
        const char *stated =
            here && event->kind == HL_EVENT_FACT ? read_fact(hl__text_at(sheet, event->remark), id) : NULL;
        value = stated ? stated : value;
    }
    return value;
}

/* The day of a time: all before the letter or blank that parts it from the hour. */
static size_t measure_day(const char *time)
{
    return strcspn(time, "T ");
}

/* The stated date of a pass, else the days of its first and last row. */
static const char *make_date(hl_history *of, int pass)
{
    const char *stated = find_fact(of->sheet, pass, "date");
    const char *from = NULL, *to = NULL;
    hl_text text = {0};
    for (size_t i = 0; i < of->sheet->n_events; i++) {
        const hl_event *event = &of->sheet->events[i];
        if (event->pass != pass || event->time == 0)
            continue;
        from = from ? from : hl__text_at(of->sheet, event->time);
        to = hl__text_at(of->sheet, event->time);
    }
    if (stated[0] || !from)
        return keep_safe(of, stated);
    hl_text day = {0};
    hl__text_add_n(&day, from, measure_day(from));
    if (measure_day(from) != measure_day(to) || strncmp(from, to, measure_day(from)) != 0) {
        hl__text_add(&day, " to ");
        hl__text_add_n(&day, to, measure_day(to));
    }
    hl__text_safe(&text, day.data ? day.data : "");
    text.failed |= day.failed;
    hl__text_free(&day);
    return keep(of, &text);
}

/* Date, place and climate, where any pass has them. */
static void add_heads(table *to)
{
    static const char *const ids[HEADS] = {"", "date", "place", "temperature", "humidity"};
    static const char *const labels[HEADS] = {"", "Date", "Place", "Temperature", "Humidity"};
    hl_history *of = to->of;
    for (int head = 0; head < HEADS; head++) {
        const char **row = &to->texts[to->n_rows * to->n_columns];
        bool any = false;
        row[0] = labels[head];
        for (int i = 0; i < of->n_passes; i++) {
            const int pass = of->passes[i];
            hl_text name = {0};
            hl__history_pass(&name, of->sheet, pass);
            const char *title = keep(of, &name);
            row[i + 1] = head == 0   ? title
                         : head == 1 ? make_date(of, pass)
                                     : keep_safe(of, find_fact(of->sheet, pass, ids[head]));
            any = any || row[i + 1][0];
        }
        row[to->n_columns - 1] = head == 0 ? "Change" : "";
        to->n_rows += any;
    }
}

/* ---- readings ------------------------------------------------------------------------------------ */

static const hl_event *find_reading(const hl_history *of, int row, int column)
{
    const hl_history_cell *cell = hl__history_cell(of, row, column);
    return cell->last < 0 ? NULL : &of->sheet->events[cell->last];
}

static bool is_number(const hl_event *event)
{
    return event && event->kind == HL_EVENT_VALUE;
}

/* The last number of the row: the others are compared with it.  -1: there is none. */
static int find_last(const hl_history *of, int row)
{
    int column = of->n_passes - 1;
    while (column >= 0 && !is_number(find_reading(of, row, column)))
        column--;
    return column;
}

static bool is_compared(const hl_history *of, int row, int column, int last)
{
    const hl_event *event = find_reading(of, row, column);
    return is_number(event) && hl__same_method(hl__text_at(of->sheet, event->method),
                                               hl__text_at(of->sheet, find_reading(of, row, last)->method));
}

static const char *make_reading(hl_history *of, int row, int column, int last)
{
    static const char *const words[] = {[HL_EVENT_WITHIN] = "within",
                                        [HL_EVENT_OVER] = "over",
                                        [HL_EVENT_UNDER] = "under",
                                        [HL_EVENT_SKIP] = "skipped"};
    const hl_step *step = &of->sheet->book->steps[of->steps[row]];
    const hl_event *event = find_reading(of, row, column);
    const int count = hl__history_cell(of, row, column)->count;
    hl_text text = {0};
    if (!event)
        return "";
    if (event->kind == HL_EVENT_VALUE)
        hl__say_amount(&text, event->amount, step->unit, step->resolution);
    else if (event->kind == HL_EVENT_WORD)
        hl__text_safe(&text, event->word < 0 ? "ok" : step->words[event->word].word);
    else
        hl__text_add(&text, words[event->kind]);
    if (count > 1)
        hl__text_printf(&text, " (%d)", count);
    if (is_number(event) && !is_compared(of, row, column, last)) {
        hl__text_add(&text, " *");
        of->others = true;
    }
    return keep(of, &text);
}

/* The last adjustment between two rows that moves the step, or -1. */
static long find_work(const hl_history *of, int step, long from, long to)
{
    for (long i = to - 1; i > from; i--) {
        const hl_event *event = &of->sheet->events[i];
        if (hl__history_is_work(of, event) && hl__history_moves(of->sheet->book, event->step, step))
            return i;
    }
    return -1;
}

/* Two readings by one gauge may differ by the root of two times its uncertainty (GUM, JCGM 100:2008,
 * 5.1.2: independent contributions add as squares). */
static bool is_within_gauge(const hl_sheet *sheet, int step, hl_amount change)
{
    const hl_amount gauge = sheet->gauges[step] > 0 ? sheet->gauges[step] : sheet->book->steps[step].gauge;
    return (double)change * (double)change <= 2 * (double)gauge * (double)gauge;
}

/* The first pass to compare with the one of `last` whose reading is below row `after`; -1: none. */
static int find_first(const hl_history *of, int row, int last, long after)
{
    for (int column = 0; column < last; column++)
        if (is_compared(of, row, column, last) && hl__history_cell(of, row, column)->last > after)
            return column;
    return -1;
}

static void add_change(hl_text *out, const hl_history *of, int row, hl_amount change)
{
    const hl_step *step = &of->sheet->book->steps[of->steps[row]];
    hl__text_add(out, change > 0 ? "+" : "");
    hl__say_amount(out, change, step->unit, step->resolution);
}

static void add_drift(hl_text *out, const hl_history *of, int row, hl_amount change)
{
    if (change == 0) {
        hl__text_add(out, "none");
        return;
    }
    add_change(out, of, row, change);
    hl__text_add(out, is_within_gauge(of->sheet, of->steps[row], change) ? ", within the gauge" : ", drift");
}

/* From the first reading to the last; what was adjusted between is no drift, what follows it may be. */
static const char *make_change(hl_history *of, int row, int last)
{
    hl_text text = {0};
    const int first = last < 0 ? -1 : find_first(of, row, last, -1);
    if (first < 0)
        return "";
    const hl_event *events = of->sheet->events;
    const long from = hl__history_cell(of, row, first)->last, to = hl__history_cell(of, row, last)->last;
    const long work = find_work(of, of->steps[row], from, to);
    if (work < 0) {
        add_drift(&text, of, row, events[to].amount - events[from].amount);
        return keep(of, &text);
    }
    const int since = find_first(of, row, last, work);
    add_change(&text, of, row, events[to].amount - events[from].amount);
    hl__text_add(&text, ", adjusted");
    if (since >= 0) {
        hl__text_add(&text, "; since ");
        add_drift(&text, of, row, events[to].amount - events[hl__history_cell(of, row, since)->last].amount);
    }
    return keep(of, &text);
}

static void add_steps(table *to)
{
    hl_history *of = to->of;
    for (int i = 0; i < of->n_steps; i++) {
        const char **row = &to->texts[to->n_rows++ * to->n_columns];
        const int last = find_last(of, i);
        row[0] = keep_safe(of, of->sheet->book->steps[of->steps[i]].title);
        for (int column = 0; column < of->n_passes; column++)
            row[column + 1] = make_reading(of, i, column, last);
        row[to->n_columns - 1] = make_change(of, i, last);
        to->changes = to->changes || row[to->n_columns - 1][0];
    }
}

/* ---- layout -------------------------------------------------------------------------------------- */

/* A text that is too wide for one line gets room for about two. */
static int measure(const table *of, int column, int most)
{
    int width = 1;
    for (int row = 0; row < of->n_rows; row++) {
        const char *text = of->texts[row * of->n_columns + column];
        const int whole = hl__text_width(text), least = hl__columns_least(text);
        const int half = whole / 2 + 4 > least ? whole / 2 + 4 : least;
        const int wanted = whole <= most ? whole : half;
        width = wanted > width ? wanted : width;
    }
    return width < most ? width : most;
}

/* Columns from `first` on that stand beside the labels; at least one. */
static int print_block(hl_text *out, const table *of, int width, int first, int end)
{
    int widths[HL_COLUMNS_MOST];
    const int label = LABEL_MOST < width / 3 ? LABEL_MOST : width / 3;
    int n = 1, used = widths[0] = measure(of, 0, label);
    for (int column = first; column < end && n < HL_COLUMNS_MOST; column++) {
        const int room = width - widths[0] - HL_COLUMN_GAP;
        const int most = column == of->n_columns - 1 ? CHANGE_MOST : COLUMN_MOST;
        widths[n] = measure(of, column, most < room ? most : room);
        used += HL_COLUMN_GAP + widths[n];
        if (used > width && n > 1)
            break;
        n++;
    }
    for (int row = 0; row < of->n_rows; row++) {
        const char *cells[HL_COLUMNS_MOST];
        cells[0] = of->texts[row * of->n_columns];
        for (int i = 1; i < n; i++)
            cells[i] = of->texts[row * of->n_columns + first + i - 1];
        hl__columns_row(out, cells, widths, n);
    }
    return n - 1;
}

void hl__history_table(hl_text *out, hl_history *of)
{
    table to = {.of = of, .n_columns = 1 + of->n_passes + 1};
    const size_t rows = (size_t)of->n_steps + HEADS;
    to.texts = hl__arena_array(&of->arena, rows * (size_t)to.n_columns, sizeof *to.texts);
    if (!to.texts) {
        of->failed = true;
        return;
    }
    for (size_t i = 0; i < rows * (size_t)to.n_columns; i++)
        to.texts[i] = "";
    add_heads(&to);
    add_steps(&to);
    const int end = to.n_columns - !to.changes;
    for (int column = 1; column < end;) {
        hl__text_char(out, '\n');
        column += print_block(out, &to, of->width, column, end);
    }
}
