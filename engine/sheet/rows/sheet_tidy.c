/* sheet_tidy.c - a row a reading, in the order of time: one row, cell by cell (layer: sheet/rows). */
#include "errors.h"
#include "nearest_name.h"
#include "rows.h"
#include "sheet_parts.h"

#include <string.h>

static const char *read_text(const hl_rows *rows, int head)
{
    const int at = rows->form->at[head];
    return at < 0 ? "" : rows->csv.cells[at].text;
}

static bool keep_text(hl_rows *rows, int head, uint32_t *out)
{
    const char *text = read_text(rows, head);
    return hl__rows_text(rows, head, text, strlen(text), out);
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
    hl__suggest_offer(&suggest, "confirm");
    hl__suggest_offer(&suggest, "accepted");
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
    const char *name = hl__arena_copy(&sheet->row_arena, hl__text_at(sheet, event->remark));
    if (name == NULL) {
        return hl__no_memory(bad);
    }
    sheet->passes[sheet->n_passes++] = name;
    return HL_OK;
}

/* "travel_ratio = 5.2": holds from here on. */
static hl_code change_fact(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const char *equals = strpbrk(text, "=:");
    char id[HL_ID_MOST];
    if (equals == NULL || !hl__sheet_id(id, text, (size_t)(equals - text)) || id[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "'%s' states no fact", hl__sheet_show(text).text);
        return hl__todo(bad, "write it as 'travel_ratio = 5.2'");
    }
    const char *value = equals + 1;
    while (*value == ' ') {
        value++;
    }
    event->kind = HL_EVENT_FACT;
    if (sheet->borrowed) {
        sheet->needs_own = true;
        return HL_OK;
    }
    if (!hl__sheet_keep_fact(sheet, id, value, event->line, hl__event_column(sheet, event))) {
        return hl__no_memory(bad);
    }
    if (!hl__sheet_rename_fact(sheet, &sheet->facts[sheet->n_facts - 1])) {
        return hl__no_memory(bad);
    }
    hl_code code = hl__sheet_state(sheet, &sheet->facts[sheet->n_facts - 1], true, bad);
    if (code != HL_OK) {
        sheet->n_facts--;
    }
    return code;
}

/* "C4,confirm,blow,time,by,,why": about the reading of a step at a note.  Who and why are part of it. */
static hl_code read_about(hl_rows *rows, hl_event *event, const char *word, const char *text, hl_err *bad)
{
    hl_sheet *sheet = rows->sheet;
    char id[HL_ID_MOST];
    const bool fits = hl__sheet_id(id, text, strlen(text));
    event->step = fits ? hl_book_find_step(sheet->book, id) : -1;
    if (event->step < 0) {
        hl__fail(bad, HL_E_SHEET, "'%s' is no step that a row '%s' could be about", hl__sheet_show(text).text,
                 word);
        return hl__todo(bad, "write the id of the step into the column 'reading', as in C4,%s,blow", word);
    }
    if (hl__cell_fits(sheet, event->step, event->note, bad) != HL_OK) {
        return bad->code;
    }
    if (event->by == 0 || event->remark == 0) {
        hl__fail(bad, HL_E_SHEET, "a row '%s' does not say %s", word, event->by == 0 ? "who" : "why");
        return hl__todo(bad, event->by == 0 ? "write the name into the column 'by'"
                                            : "write the reason into the column 'remark'");
    }
    if (hl__sheet_latest(sheet, event->step, event->note) < 0) {
        hl__fail(bad, HL_E_SHEET, "there is no reading of %s here for '%s'", id, word);
        return hl__todo(bad, "read it first: no reading, no pass");
    }
    event->kind = strcmp(word, "confirm") == 0 ? HL_EVENT_CONFIRM : HL_EVENT_ACCEPTED;
    return HL_OK;
}

/* Rows whose step is `pass`, `fact`, `query`, `confirm` or `accepted`; *known is false for others. */
static hl_code read_reserved(hl_rows *rows, hl_event *event, const char *step, const char *text, bool *known,
                             hl_err *bad)
{
    hl_sheet *sheet = rows->sheet;
    bool pass = strcmp(step, "pass") == 0, fact = strcmp(step, "fact") == 0;
    const bool about = strcmp(step, "confirm") == 0 || strcmp(step, "accepted") == 0;
    *known = pass || fact || about || strcmp(step, "query") == 0;
    if (!*known) {
        return HL_OK;
    }
    event->step = -1;
    if (text[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "a row '%s' without a text", step);
        return hl__todo(bad, "write the text into the column 'reading'");
    }
    if (about) {
        return read_about(rows, event, step, text, bad);
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
    if (!hl__rows_text(rows, HL_HEAD_REMARK, text, strlen(text), &event->remark)) {
        return hl__no_memory(bad);
    }
    return pass ? begin_pass(sheet, event, bad) : fact ? change_fact(sheet, event, text, bad) : HL_OK;
}

static hl_code refuse_void(const char *id, hl_err *bad)
{
    hl__fail(bad, HL_E_SHEET, "there is nothing of %s here to withdraw", id);
    return hl__todo(bad, "check the note and the step");
}

/* A void that names a row: *index is that row's event; of one that names none, the latest that counts. */
static hl_code find_withdrawn(const hl_sheet *sheet, int latest, int line, const char *id, int *index,
                              hl_err *bad)
{
    *index = line == 0 ? latest : hl__sheet_find_line(sheet, latest, line);
    if (*index >= 0) {
        return HL_OK;
    }
    if (line == 0) {
        return refuse_void(id, bad);
    }
    hl__fail(bad, HL_E_SHEET, "the row on line %d is no reading of %s here that could be withdrawn", line,
             id);
    return hl__todo(bad, "name the row whose reading is to go, or write 'void' alone for the latest");
}

static hl_code read_step(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const hl_step *step = &sheet->book->steps[event->step];
    bool is_void = false;
    int line = 0, index = -1;
    hl_code code = hl__sheet_read_void(sheet, text, &is_void, &line, bad);
    if (code != HL_OK) {
        return code;
    }
    if (!is_void) {
        return hl__cell_reading(sheet, event, step->unit, text, bad);
    }
    if (!hl__sheet_expand(sheet)) {
        return hl__no_memory(bad);
    }
    code =
        find_withdrawn(sheet, hl__sheet_latest(sheet, event->step, event->note), line, step->id, &index, bad);
    event->kind = HL_EVENT_VOID;
    event->amount = line == 0 ? 0 : index + 1;
    return code;
}

static hl_code read_adjuster(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const hl_adjuster *adjuster = &sheet->book->adjusters[event->step];
    bool is_void = false;
    int line = 0, index = -1;
    if (adjuster->whole && check_no_note(event, adjuster->id, bad) != HL_OK) {
        return bad->code;
    }
    if (!adjuster->whole && event->note == 0) {
        hl__fail(bad, HL_E_SHEET, "%s is adjusted note by note, but no note is named", adjuster->id);
        return hl__todo(bad, "name the note");
    }
    hl_code code = hl__sheet_read_void(sheet, text, &is_void, &line, bad);
    if (code != HL_OK || !is_void) {
        return code != HL_OK ? code : hl__cell_adjustment(sheet, event, text, bad);
    }
    code = find_withdrawn(sheet, hl__sheet_latest_change(sheet, event->step, event->note), line, adjuster->id,
                          &index, bad);
    if (code != HL_OK) {
        return code;
    }
    hl__sheet_withdraw_change(sheet, event, index);
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

/* Work without an amount: by feel it is done, in a unit the amount is missing. */
static hl_code read_blank_work(hl_sheet *sheet, tidy_row *row, hl_err *bad)
{
    const hl_adjuster *adjuster = &sheet->book->adjusters[row->event.step];
    row->unread = false;
    if (adjuster->unit == HL_NO_UNIT || adjuster->unit == HL_NOTCH) {
        return read_adjuster(sheet, &row->event, "done", bad);
    }
    hl__fail(bad, HL_E_SHEET, "the row does not say how far %s was moved", adjuster->id);
    return hl__todo(bad, "write the amount, as in '%s 1/8 %s', or 'done' when nobody knows it",
                    adjuster->more, hl_unit_name(adjuster->unit));
}

/* Which event a row is, by its step; the event has its note, texts and place. */
static hl_code read_event(hl_rows *rows, tidy_row *row, hl_err *bad)
{
    hl_sheet *sheet = rows->sheet;
    char id[HL_ID_MOST];
    bool known = false, fits = hl__sheet_id(id, row->step, strlen(row->step));
    row->blame = HL_HEAD_STEP;
    if (id[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "the row names no step");
        return hl__todo(bad, "name the step that was read");
    }
    int step = fits ? hl__sheet_find_step(sheet, id, row->event.line) : -1;
    int adjuster = fits ? hl__sheet_find_adjuster(sheet, id, row->event.line) : -1;
    if (step >= 0 && hl__cell_fits(sheet, step, row->event.note, bad) != HL_OK) {
        return bad->code;
    }
    if (step >= 0 || adjuster >= 0) {
        row->blame = HL_HEAD_READING;
        row->event.step = step >= 0 ? step : adjuster;
        row->unread = row->reading[0] == '\0';
        if (row->unread && adjuster >= 0 && step < 0) {
            return read_blank_work(sheet, row, bad);
        }
        if (row->unread) {
            return HL_OK;
        }
        return step >= 0 ? read_step(sheet, &row->event, row->reading, bad)
                         : read_adjuster(sheet, &row->event, row->reading, bad);
    }
    hl_code code = read_reserved(rows, &row->event, id, row->reading, &known, bad);
    if (known) {
        row->blame = HL_HEAD_READING;
        return code;
    }
    return refuse_step(sheet, row->step, id, bad);
}

static bool keep_texts(hl_rows *rows, hl_event *event)
{
    return keep_text(rows, HL_HEAD_TIME, &event->time) && keep_text(rows, HL_HEAD_BY, &event->by) &&
           keep_text(rows, HL_HEAD_METHOD, &event->method) && keep_text(rows, HL_HEAD_REMARK, &event->remark);
}

hl_code hl__tidy_row(hl_rows *rows, int line, hl_err *bad)
{
    const hl_form *form = rows->form;
    hl_sheet *sheet = rows->sheet;
    const int sheet_column = form->at[HL_HEAD_SHEET];
    int note = 0;
    tidy_row row = {.step = read_text(rows, HL_HEAD_STEP), .reading = read_text(rows, HL_HEAD_READING)};
    row.event = (hl_event){.step = -1, .line = line};
    if (sheet_column >= 0 && hl__sheet_check_part(sheet, read_text(rows, HL_HEAD_SHEET), bad) != HL_OK) {
        bad->column = sheet_column + 1;
        return bad->code;
    }
    if (hl__cell_note(&note, sheet, read_text(rows, HL_HEAD_NOTE), bad) != HL_OK) {
        bad->column = form->at[HL_HEAD_NOTE] + 1;
        return bad->code;
    }
    rows->note = note;
    row.event.note = (unsigned char)note;
    if (!keep_texts(rows, &row.event)) {
        return hl__no_memory(bad);
    }
    hl_code code = read_event(rows, &row, bad);
    if (code != HL_OK) {
        bad->column = form->at[row.blame] + 1;
        return code;
    }
    return row.unread ? HL_OK : hl__sheet_add(sheet, &row.event, bad);
}
