/* sheet_check.c - what the bench asks a sheet before it appends a row (layer: sheet).
 *
 * The cells are looked at by the reader's own code, on a copy of the sheet's record that shares its
 * lists, so that what is taken here is taken when the sheet is read again. */
#include "errors.h"
#include "sheet_parts.h"

#include <string.h>

static const char *or_empty(const char *text)
{
    return text == NULL ? "" : text;
}

static hl_code refuse_void(const char *id, hl_err *err)
{
    hl__fail(err, HL_E_SHEET, "there is nothing of %s here to withdraw", id);
    return hl__todo(err, "check the note and the step");
}

static hl_code check_reading(hl_sheet *sheet, hl_event *event, const char *text, hl_err *err)
{
    const hl_step *step = &sheet->book->steps[event->step];
    hl_code code = hl__cell_reading(sheet, event, step->unit, text, err);
    if (code == HL_OK && event->kind == HL_EVENT_VOID &&
        !hl__sheet_was_read(sheet, event->step, event->note)) {
        return refuse_void(step->id, err);
    }
    return code;
}

static hl_code check_adjustment(hl_sheet *sheet, hl_event *event, const char *text, hl_err *err)
{
    const hl_adjuster *adjuster = &sheet->book->adjusters[event->step];
    if (adjuster->whole != (event->note == 0)) {
        hl__fail(err, HL_E_SHEET,
                 adjuster->whole ? "the %s is adjusted once for the piano, not at a note"
                                 : "the %s is adjusted note by note, but no note is named",
                 adjuster->title);
        return hl__todo(err, adjuster->whole ? "leave the note out" : "name the note");
    }
    if (strcmp(text, "void") == 0) {
        return hl__sheet_latest_change(sheet, event->step, event->note) < 0 ? refuse_void(adjuster->id, err)
                                                                            : HL_OK;
    }
    return hl__cell_adjustment(sheet, event, text, err);
}

static hl_code check_reserved(const hl_event *event, const char *id, hl_err *err)
{
    bool pass = strcmp(id, "pass") == 0;
    if (!pass && strcmp(id, "query") != 0) {
        hl__fail(err, HL_E_SHEET, "the book has no step or adjuster '%s'", hl__sheet_show(id).text);
        return hl__todo(err, "'hammerline rules list' shows the steps");
    }
    if (pass && event->note != 0) {
        hl__fail(err, HL_E_SHEET, "a row 'pass' is about the whole piano and names no note");
        return hl__todo(err, "leave its note empty");
    }
    return HL_OK;
}

hl_code hl_sheet_check_row(const hl_sheet *sheet, const hl_journal_row *row, hl_err *err)
{
    hl_sheet probe = *sheet;
    hl_event event = {.step = -1};
    char id[HL_ID_MOST];
    const char *step = or_empty(row->step), *text = or_empty(row->reading);
    probe.decimal_mark = 0; /* the journal puts in the sheet's own */
    if (text[0] == '\0') {
        hl__fail(err, HL_E_SHEET, "there is no reading");
        return hl__todo(err, "type one");
    }
    int note = 0;
    hl_code code = hl__cell_note(&note, &probe, or_empty(row->note), err);
    if (code != HL_OK) {
        return code;
    }
    event.note = (unsigned char)note;
    if (!hl__sheet_id(id, step, strlen(step))) {
        id[0] = '\0';
    }
    event.step = hl_book_find_step(sheet->book, id);
    if (event.step >= 0) {
        return check_reading(&probe, &event, text, err);
    }
    event.step = hl_book_find_adjuster(sheet->book, id);
    return event.step >= 0 ? check_adjustment(&probe, &event, text, err) : check_reserved(&event, id, err);
}

bool hl_sheet_applies(const hl_sheet *sheet, int step, int note)
{
    return hl__sheet_applies(sheet, &sheet->book->steps[step], note);
}

bool hl_sheet_is_sample(const hl_sheet *sheet, int note)
{
    return hl__sheet_is_sample(sheet, note);
}

int hl_sheet_section(const hl_sheet *sheet, int note)
{
    return hl__sheet_section(sheet, note);
}

int hl_sheet_line(const hl_sheet *sheet, const char *id, int note)
{
    int step = hl_book_find_step(sheet->book, id);
    int adjuster = step >= 0 ? -1 : hl_book_find_adjuster(sheet->book, id);
    if (note < 0 || note > sheet->compass.keys || (step < 0 && adjuster < 0)) {
        return 0;
    }
    const int at =
        step >= 0 ? hl__sheet_latest(sheet, step, note) : hl__sheet_latest_change(sheet, adjuster, note);
    return at < 0 ? 0 : sheet->events[at].line;
}
