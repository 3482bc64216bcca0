/* report_answer.c - the head of the record: the answer, then what was judged (layer: render/html). */
#include "ascii.h"
#include "report.h"

#include "decision.h"
#include "page.h"
#include "sentence.h"

#include <string.h>

static void add_title(hl_record *record)
{
    const char *piano = hl_sheet_fact(record->audit->sheet, "piano");
    hl__html_leaf(&record->html, "p", "kind", "Regulation record");
    hl__html_leaf(&record->html, "h1", NULL,
                  piano[0] ? piano : hl__base_name(hl_sheet_name(record->audit->sheet)));
    hl__html_line(&record->html);
}

static void add_steps_out(hl_record *record)
{
    const hl_audit *audit = record->audit;
    hl_text line = {0};
    for (int i = 0; i < audit->book->n_steps; i++) {
        if (audit->tallies[i].count[HL_FAIL] == 0)
            continue;
        hl__text_add(&line, line.size == 0 ? "Out: " : ", ");
        hl__text_safe(&line, audit->book->steps[i].title);
        hl__text_printf(&line, " (%d)", audit->tallies[i].count[HL_FAIL]);
    }
    if (hl__text_any(&line)) {
        hl__text_char(&line, '.');
        hl__paragraph(&record->html, NULL, &line);
    }
    hl__text_free(&line);
}

static void add_missing(hl_record *record)
{
    hl_text line = {0};
    if (record->audit->total.count[HL_MISSING] > 0) {
        hl__text_add(&line, "What was not measured does not pass, and is listed apart.");
        hl__paragraph(&record->html, NULL, &line);
    }
}

static void add_gauged(hl_record *record)
{
    hl_text line = {0};
    const int n = record->audit->total.go;
    if (n == 0)
        return;
    hl__say_count(&line, n, "pass is", "passes are");
    hl__text_add(&line, " by go/no-go gauge, without a number.");
    hl__paragraph(&record->html, NULL, &line);
}

static void add_sample(hl_record *record)
{
    const hl_sample *sample = record->audit->drawn.sample;
    hl_text line = {0};
    if (!sample)
        return;
    hl__text_printf(&line, "Judged by a sample of %d of the %d notes, drawn by seed %llu. ", sample->n,
                    sample->population, (unsigned long long)sample->seed);
    if (sample->concluded)
        hl__say_sample(&line, sample);
    else
        hl__text_printf(&line, "%d of them are still open, so nothing can be said of the others",
                        sample->open);
    hl__text_add(&line, ". No single note beside the sample is shown to be good.");
    if (sample->has_asked)
        hl__text_printf(&line, " Asked was for at most %d out.", sample->asked);
    hl__paragraph(&record->html, NULL, &line);
}

static void add_errors(hl_record *record)
{
    int n = 0;
    const hl_err *errors = hl_sheet_errors(record->audit->sheet, &n);
    if (n == 0)
        return;
    hl__html_leaf(&record->html, "p", NULL,
                  "Rows of the sheet that could not be read; until they are mended the job is not ready:");
    hl__html_open(&record->html, "ul", NULL);
    for (int i = 0; i < n; i++) {
        hl_text line = {0};
        if (errors[i].line > 0)
            hl__text_printf(&line, "Line %d: ", errors[i].line);
        hl__text_safe(&line, errors[i].what);
        if (errors[i].todo[0]) {
            hl__text_add(&line, "; ");
            hl__text_safe(&line, errors[i].todo);
        }
        hl__html_leaf_take(&record->html, "li", NULL, &line);
        hl__html_line(&record->html);
    }
    hl__html_close(&record->html);
}

static const char *choose_word(const hl_audit *audit)
{
    if (!audit->ready)
        return "Not ready";
    return audit->drawn.sample ? "Ready by sample" : "Ready";
}

void hl__record_answer(hl_record *record)
{
    hl_html *html = &record->html;
    hl_text state = {0};
    add_title(record);
    hl__html_open(html, "div", "class", record->audit->ready ? "answer ready" : "answer", NULL);
    hl__html_leaf(html, "p", "word", choose_word(record->audit));
    hl__say_state(&state, record->audit);
    if (state.size > 0)
        state.data[0] = hl__upper(state.data[0]);
    hl__text_char(&state, '.');
    hl__paragraph(html, "state", &state);
    add_steps_out(record);
    add_missing(record);
    add_gauged(record);
    add_sample(record);
    add_errors(record);
    hl__html_close(html);
    hl__html_line(html);
}

/* ---- the instrument --------------------------------------------------------------------------- */

/* A bare number has lost its unit, and nobody may guess it. */
static void say_measure(hl_text *out, const char *value)
{
    hl__text_safe(out, value);
    if (value[0] && value[strspn(value, "0123456789.,-+ ")] == '\0')
        hl__text_add(out, " (no unit stated)");
}

static void add_fact(hl_record *record, const char *label, const char *id)
{
    const char *value = hl_sheet_fact(record->audit->sheet, id);
    if (value[0])
        hl__pair(&record->html, label, value);
}

static void add_sections(hl_record *record)
{
    const hl_sheet *sheet = record->audit->sheet;
    hl_text line = {0};
    hl__text_printf(&line, "%d keys, %s-%s", sheet->compass.keys,
                    hl_pitch_name(hl_note_pitch(sheet->compass, 1)),
                    hl_pitch_name(hl_note_pitch(sheet->compass, sheet->compass.keys)));
    for (int i = 0; i < sheet->n_breaks; i++) {
        hl__text_add(&line, i == 0 ? "; sections end at " : ", ");
        hl__text_add(&line, hl_pitch_name(hl_note_pitch(sheet->compass, sheet->breaks[i])));
    }
    hl__pair_take(&record->html, "Compass", &line);
}

void hl__record_subject(hl_record *record)
{
    hl_html *html = &record->html;
    const hl_sheet *sheet = record->audit->sheet;
    hl_text line = {0};
    hl__section_open(html, "instrument", "Instrument and day");
    hl__html_open(html, "dl", NULL);
    hl__pair(html, "Instrument", hl_sheet_fact(sheet, "piano"));
    add_fact(record, "Make", "make");
    add_fact(record, "Year", "year");
    add_fact(record, "Owner", "owner");
    add_fact(record, "Workshop", "workshop");
    add_fact(record, "Work agreed", "work");
    add_fact(record, "Scope", "scope");
    add_sections(record);
    hl__pair(html, "Date", hl_sheet_fact(sheet, "date"));
    hl__pair(html, "Place", hl_sheet_fact(sheet, "place"));
    say_measure(&line, hl_sheet_fact(sheet, "temperature"));
    hl__pair_take(html, "Temperature", &line);
    say_measure(&line, hl_sheet_fact(sheet, "humidity"));
    hl__pair_take(html, "Humidity", &line);
    hl__say_hands(&line, sheet, -1);
    hl__pair_take(html, "Measured by", &line);
    hl__pair(html, "Checked by", hl_sheet_fact(sheet, "checked_by"));
    hl__html_close(html);
    hl__html_close(html);
}
