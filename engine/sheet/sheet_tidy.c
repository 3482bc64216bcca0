/* sheet_tidy.c - a row a reading, in the order of time (layer: sheet). */
#include "errors.h"
#include "nearest_name.h"
#include "sheet_parts.h"

#include <string.h>

enum { NOTE, STEP, READING, TIME, BY, METHOD, REMARK, SHEET, HEADS };

static const char *const NAMES[HEADS] = {"note", "step",   "reading", "time",
                                         "by",   "method", "remark",  "sheet"};

typedef struct tidy_columns {
    int at[HEADS]; /* the cell of each head, -1 = the sheet has none */
    /* The last texts, kept so that a name written on every row is stored once. */
    const char *last[HEADS];
} tidy_columns;

static int find_head(const char *id)
{
    for (int head = 0; head < HEADS; head++) {
        if (strcmp(id, NAMES[head]) == 0) {
            return head;
        }
    }
    return strcmp(id, "key") == 0 ? NOTE : -1;
}

bool hl__sheet_is_tidy(const hl_csv *csv, int n)
{
    bool step = false, reading = false;
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, csv->cells[i].text, csv->cells[i].size);
        step = step || strcmp(id, NAMES[STEP]) == 0;
        reading = reading || strcmp(id, NAMES[READING]) == 0;
    }
    return step && reading;
}

static hl_code refuse_head(const char *text, const char *id, hl_err *bad)
{
    hl_suggest suggest = {id, NULL, 0};
    for (int head = 0; head < HEADS; head++) {
        hl__suggest_offer(&suggest, NAMES[head]);
    }
    hl__fail(bad, HL_E_SHEET, "a tidy sheet has no column '%s'", hl__sheet_show(text).text);
    if (suggest.best != NULL) {
        return hl__todo(bad, "did you mean '%s'?", suggest.best);
    }
    return hl__todo(bad, "its columns are note, step, reading, time, by, method, remark, sheet");
}

/* One mistake in the header makes every row doubtful, so it is the only thing said. */
static hl_code read_heads(tidy_columns *columns, const hl_cell *cells, int n, hl_err *bad)
{
    for (int head = 0; head < HEADS; head++) {
        columns->at[head] = -1;
        columns->last[head] = "";
    }
    for (int i = 0; i < n; i++) {
        char id[HL_ID_MOST];
        hl__sheet_id(id, cells[i].text, cells[i].size);
        int head = find_head(id);
        bad->column = i + 1;
        if (head < 0) {
            refuse_head(cells[i].text, id, bad);
        } else if (columns->at[head] >= 0) {
            hl__fail(bad, HL_E_SHEET, "the column '%s' stands twice", id);
            hl__todo(bad, "keep one of the two");
        } else {
            columns->at[head] = i;
            continue;
        }
        bad->column = i + 1;
        return bad->code;
    }
    if (columns->at[NOTE] < 0) {
        hl__fail(bad, HL_E_SHEET, "the header names no column 'note'");
        hl__todo(bad, "a tidy sheet needs note, step and reading");
        bad->column = 1;
        return bad->code;
    }
    return HL_OK;
}

bool hl__sheet_tidy_columns(hl_sheet *sheet, const hl_csv *csv, int *n, hl_cell_column *out)
{
    static const hl_cell_kind KINDS[HEADS] = {
        [NOTE] = HL_CELL_NOTE, [STEP] = HL_CELL_STEP,   [READING] = HL_CELL_READING, [TIME] = HL_CELL_TEXT,
        [BY] = HL_CELL_TEXT,   [METHOD] = HL_CELL_TEXT, [REMARK] = HL_CELL_TEXT,     [SHEET] = HL_CELL_SHEET};
    tidy_columns columns;
    hl_err bad = {0};
    while (*n > 0 && csv->cells[*n - 1].size == 0) {
        --*n;
    }
    if (read_heads(&columns, csv->cells, *n, &bad) != HL_OK || sheet->n_errors > 0) {
        return false;
    }
    for (int head = 0; head < HEADS; head++) {
        if (columns.at[head] >= 0) {
            out[columns.at[head]] = (hl_cell_column){KINDS[head], -1, HL_NO_UNIT};
        }
    }
    return true;
}

static const char *read_text(const tidy_columns *columns, int head, const hl_csv *csv)
{
    return columns->at[head] < 0 ? "" : csv->cells[columns->at[head]].text;
}

/* The cell's text, kept in the sheet; NULL = no memory. */
static const char *keep_text(hl_sheet *sheet, tidy_columns *columns, int head, const hl_csv *csv)
{
    const char *text = read_text(columns, head, csv);
    if (text[0] == '\0') {
        return "";
    }
    if (strcmp(text, columns->last[head]) != 0) {
        const char *kept = hl__arena_copy(&sheet->arena, text);
        if (kept == NULL) {
            return NULL;
        }
        columns->last[head] = kept;
    }
    return columns->last[head];
}

static hl_code refuse_step(const hl_sheet *sheet, const char *text, const char *id, hl_err *bad)
{
    hl_suggest suggest = {id, NULL, 0};
    const hl_book *book = sheet->book;
    for (int i = 0; i < book->n_steps; i++) {
        hl__suggest_offer(&suggest, book->steps[i].id);
    }
    for (int i = 0; i < book->n_adjusters; i++) {
        hl__suggest_offer(&suggest, book->adjusters[i].id);
    }
    hl__suggest_offer(&suggest, "pass");
    hl__suggest_offer(&suggest, "fact");
    hl__suggest_offer(&suggest, "query");
    hl__fail(bad, HL_E_SHEET, "the book '%s' has no step or adjuster '%s'", book->id,
             hl__sheet_show(text).text);
    if (suggest.best != NULL) {
        return hl__todo(bad, "did you mean '%s'?", suggest.best);
    }
    return hl__todo(bad, "'hammerline rules list' shows the steps");
}

static hl_code check_no_note(const hl_event *event, const char *step, hl_err *bad)
{
    if (event->note == 0) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "a row '%s' is about the whole piano and names no note", step);
    return hl__todo(bad, "leave its note empty");
}

static hl_code begin_pass(hl_sheet *sheet, hl_event *event, hl_err *bad)
{
    void *passes = (void *)sheet->passes;
    event->kind = HL_EVENT_PASS;
    if (!hl__grow(&passes, (size_t)sheet->n_passes, &sheet->room_passes, sizeof *sheet->passes)) {
        return hl__no_memory(bad);
    }
    sheet->passes = passes;
    sheet->passes[sheet->n_passes++] = event->remark;
    return HL_OK;
}

/* "distance_ratio = 5.2": holds from here on. */
static hl_code change_fact(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const char *equals = strpbrk(text, "=:");
    char id[HL_ID_MOST];
    if (equals == NULL || !hl__sheet_id(id, text, (size_t)(equals - text)) || id[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "'%s' states no fact", hl__sheet_show(text).text);
        return hl__todo(bad, "write it as 'distance_ratio = 5.2'");
    }
    const char *value = equals + 1;
    while (*value == ' ') {
        value++;
    }
    event->kind = HL_EVENT_FACT;
    if (!hl__sheet_keep_fact(sheet, id, value, event->line, event->column)) {
        return hl__no_memory(bad);
    }
    hl_code code = hl__sheet_state(sheet, &sheet->facts[sheet->n_facts - 1], true, bad);
    if (code != HL_OK) {
        sheet->n_facts--;
    }
    return code;
}

/* Rows whose step is `pass`, `fact` or `query`; *known is false for others. */
static hl_code read_reserved(hl_sheet *sheet, hl_event *event, const char *step, const char *text,
                             bool *known, hl_err *bad)
{
    bool pass = strcmp(step, "pass") == 0, fact = strcmp(step, "fact") == 0;
    *known = pass || fact || strcmp(step, "query") == 0;
    if (!*known) {
        return HL_OK;
    }
    event->step = -1;
    if (text[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "a row '%s' without a text", step);
        return hl__todo(bad, "write the text into the column 'reading'");
    }
    if ((pass || fact) && check_no_note(event, step, bad) != HL_OK) {
        return bad->code;
    }
    if (strcmp(step, "query") == 0) {
        event->kind = HL_EVENT_QUERY;
        event->word = strcmp(text, "closed") == 0;
        if (event->word == 1) {
            return HL_OK;
        }
    }
    event->remark = hl__arena_copy(&sheet->arena, text);
    if (event->remark == NULL) {
        return hl__no_memory(bad);
    }
    return pass ? begin_pass(sheet, event, bad) : fact ? change_fact(sheet, event, text, bad) : HL_OK;
}

static hl_code refuse_void(const char *id, hl_err *bad)
{
    hl__fail(bad, HL_E_SHEET, "there is nothing of %s here to withdraw", id);
    return hl__todo(bad, "check the note and the step");
}

static hl_code read_step(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const hl_step *step = &sheet->book->steps[event->step];
    hl_code code = hl__cell_reading(sheet, event, step->unit, text, bad);
    if (code == HL_OK && event->kind == HL_EVENT_VOID &&
        hl__sheet_latest(sheet, event->step, event->note) < 0) {
        return refuse_void(step->id, bad);
    }
    return code;
}

static hl_code read_adjuster(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const hl_adjuster *adjuster = &sheet->book->adjusters[event->step];
    if (adjuster->whole && check_no_note(event, adjuster->id, bad) != HL_OK) {
        return bad->code;
    }
    if (!adjuster->whole && event->note == 0) {
        hl__fail(bad, HL_E_SHEET, "%s is adjusted note by note, but no note is named", adjuster->id);
        return hl__todo(bad, "name the note");
    }
    if (strcmp(text, "void") != 0) {
        return hl__cell_adjustment(sheet, event, text, bad);
    }
    if (!hl__sheet_withdraw_change(sheet, event)) {
        return refuse_void(adjuster->id, bad);
    }
    event->kind = HL_EVENT_VOID;
    event->step = -1; /* an adjuster's index would be taken for a step's */
    return HL_OK;
}

/* A row on its way to become an event. */
typedef struct tidy_row {
    hl_event event;
    const char *step, *reading; /* as written */
    int blame;                  /* the head whose cell an error is about */
    bool unread;                /* the reading is blank: not measured, no event */
} tidy_row;

/* Which event a row is, by its step; the event has its note, texts and place. */
static hl_code read_event(hl_sheet *sheet, tidy_row *row, hl_err *bad)
{
    char id[HL_ID_MOST];
    bool known = false, fits = hl__sheet_id(id, row->step, strlen(row->step));
    row->blame = STEP;
    if (id[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "the row names no step");
        return hl__todo(bad, "name the step that was read");
    }
    int step = fits ? hl_book_find_step(sheet->book, id) : -1;
    int adjuster = fits ? hl_book_find_adjuster(sheet->book, id) : -1;
    if (step >= 0 && hl__cell_fits(sheet, step, row->event.note, bad) != HL_OK) {
        return bad->code;
    }
    if (step >= 0 || adjuster >= 0) {
        row->blame = READING;
        row->event.step = step >= 0 ? step : adjuster;
        row->unread = row->reading[0] == '\0';
        if (row->unread) {
            return HL_OK;
        }
        return step >= 0 ? read_step(sheet, &row->event, row->reading, bad)
                         : read_adjuster(sheet, &row->event, row->reading, bad);
    }
    hl_code code = read_reserved(sheet, &row->event, id, row->reading, &known, bad);
    if (known) {
        row->blame = READING;
        return code;
    }
    return refuse_step(sheet, row->step, id, bad);
}

static hl_code keep_texts(hl_sheet *sheet, tidy_columns *columns, const hl_csv *csv, hl_event *event,
                          hl_err *bad)
{
    event->time = keep_text(sheet, columns, TIME, csv);
    event->by = keep_text(sheet, columns, BY, csv);
    event->method = keep_text(sheet, columns, METHOD, csv);
    event->remark = keep_text(sheet, columns, REMARK, csv);
    if (event->time == NULL || event->by == NULL || event->method == NULL || event->remark == NULL) {
        return hl__no_memory(bad);
    }
    return HL_OK;
}

static hl_code read_tidy_row(hl_sheet *sheet, void *context, const hl_csv *csv, int line, hl_err *bad)
{
    tidy_columns *columns = context;
    tidy_row row = {.step = read_text(columns, STEP, csv), .reading = read_text(columns, READING, csv)};
    row.event = (hl_event){.step = -1, .line = line, .column = columns->at[READING] + 1};
    if (columns->at[SHEET] >= 0 &&
        hl__sheet_check_part(sheet, read_text(columns, SHEET, csv), bad) != HL_OK) {
        bad->column = columns->at[SHEET] + 1;
        return bad->code;
    }
    if (hl__cell_note(&row.event.note, sheet, read_text(columns, NOTE, csv), bad) != HL_OK) {
        bad->column = columns->at[NOTE] + 1;
        return bad->code;
    }
    if (keep_texts(sheet, columns, csv, &row.event, bad) != HL_OK) {
        return bad->code;
    }
    hl_code code = read_event(sheet, &row, bad);
    if (code != HL_OK) {
        bad->column = columns->at[row.blame] + 1;
        return code;
    }
    return row.unread ? HL_OK : hl__sheet_add(sheet, &row.event, bad);
}

hl_code hl__sheet_read_tidy(hl_sheet *sheet, hl_csv *csv, int n, hl_err *err)
{
    tidy_columns columns;
    hl_err bad = {0};
    while (n > 0 && csv->cells[n - 1].size == 0) {
        n--;
    }
    if (read_heads(&columns, csv->cells, n, &bad) != HL_OK) {
        hl__at(&bad, sheet->name, sheet->header_end, bad.column);
        return hl__sheet_complain(sheet, &bad, err);
    }
    return hl__sheet_rows(sheet, csv, n, read_tidy_row, &columns, err);
}
