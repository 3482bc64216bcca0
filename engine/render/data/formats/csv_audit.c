/* csv_audit.c - the findings as a tidy table for spreadsheets (layer: render/data).
 *
 * RFC 4180: commas, CRLF, quotes doubled.  A row a finding, passes too, but not what the book leaves
 * out or what is outside a step's scope.  Numbers have a point and nothing around them.  Text is made
 * safe twice: what a terminal would obey is shown as \xNN or <U+NNNN>, and a cell that a spreadsheet
 * would take for a formula gets an apostrophe in front.
 *
 * sheet      the sheet's name                    aim, low, high  its target; empty: no such limit
 * piano      the fact of that name               verdict, why    as in JSON
 * book       the book's id                       uncertainty     the guarded rule's, else empty
 * stage      the stage's title                   computed        yes, no
 * step       the step's id; empty: a query       assumed         yes, no
 * title      the step's title                    adjuster, way, amount, amount_unit, predicted
 * note       its number; empty: the instrument                   the first correction, else empty
 * name       C4                                  by, time, method, remark
 * reading    a number, or a word                                 of the reading's row
 * unit       of reading, limits and predicted    line, column    where it stands in the sheet
 *                                                todo            the instruction of its fault, else empty */
#include "audit.h"
#include "csv_cells.h"
#include "json_parts.h"

static const char *const HEADS[] = {
    "sheet",    "piano",   "book",     "stage", "step",   "title",       "note",      "name",
    "reading",  "unit",    "low",      "aim",   "high",   "verdict",     "why",       "uncertainty",
    "computed", "assumed", "adjuster", "way",   "amount", "amount_unit", "predicted", "by",
    "time",     "method",  "remark",   "line",  "column", "todo",
};

static void add_source(hl_cells *cells, const hl_audit *audit, const hl_step *step)
{
    hl__cell_text(cells, audit->sheet->title);
    hl__cell_text(cells, hl_sheet_fact(audit->sheet, "piano"));
    hl__cell_text(cells, audit->book->id);
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
}

static void add_correction(hl_cells *cells, const hl_audit *audit, const hl_step *step,
                           const hl_finding *finding)
{
    if (finding->n_corrections == 0) {
        for (int i = 0; i < 5; i++)
            hl__cell_text(cells, "");
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
    add_source(cells, audit, step);
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
    hl__cells_end(cells);
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
    for (size_t i = 0; audit && i < audit->findings.n; i++)
        if (audit->findings.items[i].verdict != HL_NOT_APPLICABLE)
            add_row(&cells, audit, &audit->findings.items[i]);
    return hl__text_take(&text, out, size, err);
}
