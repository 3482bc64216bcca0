/* csv_audit.c - sheets as one table for spreadsheets (layer: render/data).
 *
 * RFC 4180: commas, CRLF, quotes doubled.  The column `row` says what a row is:
 *   sheet    one a sheet, first: its verdict is ready, not ready or not judged, and it has the counts
 *   finding  one a finding, passes too, but not what the book leaves out or what is outside a step's scope
 *   error    one a row of the sheet that could not be read: `why` says what is wrong, `todo` what to do
 * Numbers have a point and nothing around them.  Text is made safe twice: what a terminal would obey is
 * shown as \xNN or <U+NNNN>, and a cell that a spreadsheet would take for a formula gets an apostrophe in
 * front.
 *
 * path       the file                            aim, low, high  its target; empty: no such limit
 * sheet      the sheet's name in a file of many, verdict, why    as in JSON
 *            else the file's without folders     uncertainty     the guarded rule's, else empty
 * piano      the fact of that name               computed        yes, no
 * date       the fact of that name               assumed         yes, no
 * book       the book's id                       floated         how far beyond its target it passes, because
 * stage      the stage's title                                   the book lets the step give way
 * step       the step's id; empty: a query       adjuster, way, amount, amount_unit, predicted
 * title      the step's title                                    the first correction, else empty
 * note       its number; empty: the instrument   by, time, method, remark
 * name       C4                                                  of the reading's row
 * reading    a number, or a word                 line, column    where it is in the sheet
 * unit       of reading, limits and predicted    todo            the instruction of its fault, else empty
 * Of sheets alone: persons, passes (with semicolons between), compass, book_hash, pass, fail, doubtful,
 * stale, missing, not_applicable, accepted, go, sampled. */
#include "audit.h"
#include "csv_cells.h"
#include "json_parts.h"
#include "subject.h"

static const char *const HEADS[] = {
    "row",     "path",           "sheet",     "piano",  "date",        "book",      "stage",
    "step",    "title",          "note",      "name",   "reading",     "unit",      "low",
    "aim",     "high",           "verdict",   "why",    "uncertainty", "computed",  "assumed",
    "floated", "adjuster",       "way",       "amount", "amount_unit", "predicted", "by",
    "time",    "method",         "remark",    "line",   "column",      "todo",      "persons",
    "passes",  "compass",        "book_hash", "pass",   "fail",        "doubtful",  "stale",
    "missing", "not_applicable", "accepted",  "go",     "sampled",
};

#define BEFORE_STAGE  6 /* columns that say which sheet */
#define VERDICT       16
#define LINE          31 /* line, column and todo; then the columns of sheets alone */
#define SHEET_COLUMNS 13 /* how many they are */

static void add_empty(hl_cells *cells, int n)
{
    for (int i = 0; i < n; i++)
        hl__cell_text(cells, "");
}

/* What a row is, and of which sheet. */
static void add_source(hl_cells *cells, const char *row, const hl_audit *audit)
{
    hl__cell_text(cells, row);
    hl__cell_text(cells, audit->sheet->name);
    hl__cell_text(cells, hl__subject_sheet(audit->sheet));
    hl__cell_text(cells, hl_sheet_fact(audit->sheet, "piano"));
    hl__cell_text(cells, hl_sheet_fact(audit->sheet, "date"));
    hl__cell_text(cells, audit->book->id);
}

static void add_step(hl_cells *cells, const hl_audit *audit, const hl_step *step)
{
    hl__cell_text(cells, step && step->stage >= 0 ? audit->book->stages[step->stage].title : "");
    hl__cell_text(cells, step ? step->id : "");
    hl__cell_text(cells, step ? step->title : "");
}

static void add_reading(hl_cells *cells, const hl_step *step, const hl_finding *finding)
{
    static const char *const go[] = {[HL_WHY_LOW] = "under", [HL_WHY_HIGH] = "over"};
    const bool beyond = finding->why == HL_WHY_LOW || finding->why == HL_WHY_HIGH;
    if (!step)
        hl__cell_text(cells, "");
    else if (finding->has_value)
        hl__cell_amount(cells, true, finding->value, step->unit);
    else if (finding->word >= 0)
        hl__cell_text(cells, step->words[finding->word].word);
    else if (finding->go)
        hl__cell_text(cells, beyond ? go[finding->why] : "within");
    else
        hl__cell_text(cells, step->kind == HL_JUDGED && finding->verdict == HL_PASS ? "ok" : "");
}

static void add_verdict(hl_cells *cells, const hl_step *step, const hl_finding *finding)
{
    const bool measured = step && step->kind != HL_JUDGED;
    const hl_unit unit = measured ? step->unit : HL_NO_UNIT;
    const hl_target *target = &finding->target;
    add_reading(cells, step, finding);
    hl__cell_text(cells, measured ? hl_unit_name(unit) : "");
    hl__cell_amount(cells, measured && target->has_low, target->low, unit);
    hl__cell_amount(cells, measured && (target->has_low || target->has_high), target->aim, unit);
    hl__cell_amount(cells, measured && target->has_high, target->high, unit);
    hl__cell_text(cells, hl_verdict_name(finding->verdict));
    hl__cell_text(cells, hl__json_why(finding, step));
    hl__cell_amount(cells, finding->guarded, finding->guard, unit);
    hl__cell_text(cells, finding->computed ? "yes" : "no");
    hl__cell_text(cells, finding->assumed ? "yes" : "no");
    hl__cell_amount(cells, finding->floated, finding->shift, unit);
}

static void add_correction(hl_cells *cells, const hl_audit *audit, const hl_step *step,
                           const hl_finding *finding)
{
    if (finding->n_corrections == 0) {
        add_empty(cells, 5);
        return;
    }
    const hl_correction *first = &finding->corrections[0];
    const hl_adjuster *adjuster = &audit->book->adjusters[first->adjuster];
    hl__cell_text(cells, adjuster->id);
    hl__cell_text(cells, first->more ? adjuster->more : adjuster->less);
    hl__cell_amount(cells, first->has_amount, first->amount, adjuster->unit);
    hl__cell_text(cells, hl_unit_name(adjuster->unit));
    hl__cell_amount(cells, first->has_predicted, first->predicted, step->unit);
}

/* The row that it was read in, found by its place. */
static const hl_event *find_event(const hl_audit *audit, const hl_finding *finding)
{
    if (finding->step < 0 || finding->line == 0)
        return NULL;
    const int event = hl__table_event(&audit->table, finding->step, finding->note);
    return event >= 0 ? &audit->sheet->events[event] : NULL;
}

static void add_row(hl_cells *cells, const hl_audit *audit, const hl_finding *finding)
{
    const hl_step *step = finding->step >= 0 ? &audit->book->steps[finding->step] : NULL;
    const hl_event *event = find_event(audit, finding);
    const int note = finding->note;
    add_source(cells, "finding", audit);
    add_step(cells, audit, step);
    hl__cell_number(cells, note > 0, note);
    hl__cell_text(cells, note > 0 ? hl_pitch_name(hl_note_pitch(audit->sheet->compass, note)) : "");
    add_verdict(cells, step, finding);
    add_correction(cells, audit, step, finding);
    hl__cell_text(cells, event ? hl__text_at(audit->sheet, event->by) : "");
    hl__cell_text(cells, event ? hl__text_at(audit->sheet, event->time) : "");
    hl__cell_text(cells, event ? hl__text_at(audit->sheet, event->method) : "");
    hl__cell_text(cells, finding->remark);
    hl__cell_number(cells, finding->line > 0, finding->line);
    hl__cell_number(cells, finding->column > 0, finding->column);
    hl__cell_text(cells, hl_finding_todo(audit->book, finding));
    add_empty(cells, SHEET_COLUMNS);
    hl__cells_end(cells);
}

/* ---- the sheet's own row, and the rows that could not be read ---------------------------------- */

/* The columns between the book and those of sheets alone: empty, but for a verdict and why. */
static void add_answer(hl_cells *cells, const char *verdict, const char *why, const hl_err *place)
{
    add_empty(cells, VERDICT - BEFORE_STAGE);
    hl__cell_text(cells, verdict);
    hl__cell_text(cells, why);
    add_empty(cells, LINE - VERDICT - 2);
    hl__cell_number(cells, place && place->line > 0, place ? place->line : 0);
    hl__cell_number(cells, place && place->column > 0, place ? place->column : 0);
    hl__cell_text(cells, place ? place->todo : "");
}

static void add_joined(hl_cells *cells, const hl_sheet *sheet,
                       void (*join)(hl_text *, const hl_sheet *, const char *))
{
    hl_text text = {0};
    join(&text, sheet, "; ");
    hl__cell_text(cells, text.data ? text.data : "");
    cells->out->failed |= text.failed;
    hl__text_free(&text);
}

static void add_sheet(hl_cells *cells, const hl_audit *audit)
{
    hl_text compass = {0};
    add_source(cells, "sheet", audit);
    add_answer(cells, hl__subject_answer(audit), "", NULL);
    add_joined(cells, audit->sheet, hl__subject_persons);
    add_joined(cells, audit->sheet, hl__subject_passes);
    hl__subject_compass(&compass, audit->sheet->compass);
    hl__cell_text(cells, compass.data ? compass.data : "");
    hl__cell_text(cells, audit->book->hash);
    for (int i = 0; i < HL_VERDICTS; i++)
        hl__cell_number(cells, true, audit->total.count[i]);
    hl__cell_number(cells, true, audit->total.go);
    hl__cell_number(cells, hl_audit_sample(audit) != NULL,
                    hl_audit_sample(audit) ? hl_audit_sample(audit)->n : 0);
    hl__cells_end(cells);
    cells->out->failed |= compass.failed;
    hl__text_free(&compass);
}

static void add_errors(hl_cells *cells, const hl_audit *audit)
{
    int n = 0;
    const hl_err *errors = hl_sheet_errors(audit->sheet, &n);
    for (int i = 0; i < n; i++) {
        add_source(cells, "error", audit);
        add_answer(cells, "", errors[i].what, &errors[i]);
        add_empty(cells, SHEET_COLUMNS);
        hl__cells_end(cells);
    }
}

/* The path of a sheet that could not be opened is a part of its title. */
static void add_title(hl_cells *cells, const char *row, const char *title, const char *path)
{
    hl_text cut = {0};
    size_t size = 0;
    const char *name = hl__subject_title(title, path, &size);
    hl__text_add_n(&cut, title, size);
    hl__cell_text(cells, row);
    hl__cell_text(cells, cut.data ? cut.data : "");
    hl__cell_text(cells, name);
    add_empty(cells, 3);
    cells->out->failed |= cut.failed;
    hl__text_free(&cut);
}

hl_code hl_error_csv(char **out, size_t *size, const char *title, const hl_err *errors, int n, hl_err *err)
{
    hl_text text = {0};
    hl_cells cells = {.out = &text};
    *out = NULL;
    for (int i = -1; i < n; i++) {
        const hl_err *error = i < 0 ? NULL : &errors[i];
        add_title(&cells, error ? "error" : "sheet", title, n > 0 ? errors[0].file : "");
        add_answer(&cells, error ? "" : HL_NOT_JUDGED, error ? error->what : "", error);
        add_empty(&cells, SHEET_COLUMNS);
        hl__cells_end(&cells);
    }
    return hl__text_take(&text, out, size, err);
}

hl_code hl_audit_csv(char **out, size_t *size, const hl_audit *audit, bool heads, hl_err *err)
{
    hl_text text = {0};
    hl_cells cells = {.out = &text};
    *out = NULL;
    for (size_t i = 0; heads && i < sizeof HEADS / sizeof *HEADS; i++)
        hl__cell_text(&cells, HEADS[i]);
    if (heads)
        hl__cells_end(&cells);
    if (audit)
        add_sheet(&cells, audit);
    if (audit)
        add_errors(&cells, audit);
    for (size_t i = 0; audit && i < audit->findings.n; i++)
        if (audit->findings.items[i].verdict != HL_NOT_APPLICABLE)
            add_row(&cells, audit, &audit->findings.items[i]);
    return hl__text_take(&text, out, size, err);
}
