/* json_audit.c - the audit for programs (layer: render/data).
 *
 * Keys and their order are a contract (HL_SCHEMA, docs/schema): new ones may come, none may change its
 * meaning. */
#include "audit.h"
#include "json_parts.h"
#include "subject.h"

#include <math.h>

/* ---- errors -------------------------------------------------------------------------------- */

static void add_place(hl_json *json, const char *key, int place)
{
    if (place > 0)
        hl__json_number(json, key, place);
    else
        hl__json_null(json, key);
}

static void add_error(hl_json *json, const hl_err *err)
{
    hl__json_open(json, NULL, '{', true);
    hl__json_string(json, "file", err->file);
    add_place(json, "line", err->line);
    add_place(json, "column", err->column);
    hl__json_string(json, "what", err->what);
    hl__json_string(json, "todo", err->todo);
    hl__json_close(json, '}');
}

static void add_errors(hl_json *json, const hl_err *errors, int n)
{
    hl__json_open(json, "errors", '[', n == 0);
    for (int i = 0; i < n; i++)
        add_error(json, &errors[i]);
    hl__json_close(json, ']');
}

static void add_counts(hl_json *json, const hl_audit *audit)
{
    static const char *const keys[HL_VERDICTS] = {"pass",    "fail",           "doubtful", "stale",
                                                  "missing", "not_applicable", "accepted"};
    hl__json_open(json, "counts", '{', true);
    for (int i = 0; i < HL_VERDICTS; i++)
        hl__json_number(json, keys[i], audit ? audit->total.count[i] : 0);
    hl__json_number(json, "go", audit ? audit->total.go : 0);
    add_place(json, "sampled", audit && hl_audit_sample(audit) ? hl_audit_sample(audit)->n : 0);
    hl__json_close(json, '}');
}

/* `judged` tells a sheet that is not ready from one of which nothing could be judged. */
static void add_head(hl_json *json, const hl_audit *audit, const char *title, const char *path)
{
    hl__json_open(json, NULL, '{', false);
    hl__json_subject(json, audit, title, path);
    hl__json_bool(json, "judged", audit != NULL);
    hl__json_bool(json, "ready", audit && audit->ready);
    add_counts(json, audit);
}

/* ---- corrections --------------------------------------------------------------------------- */

static void add_ids(hl_json *json, const char *key, const hl_book *book, const int *steps, int n)
{
    hl__json_open(json, key, '[', true);
    for (int i = 0; i < n; i++)
        hl__json_string(json, NULL, book->steps[steps[i]].id);
    hl__json_close(json, ']');
}

/* Where the rule is that says what the adjuster does here: its move onto the step, else itself. */
static hl_origin find_rule(const hl_adjuster *adjuster, int step)
{
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == step)
            return adjuster->moves[i].origin;
    return adjuster->origin;
}

static void add_rule(hl_json *json, hl_origin origin)
{
    hl_text place = {0};
    hl__text_printf(&place, "%s:%d", origin.file ? origin.file : "", origin.line);
    hl__json_string(json, "rule", place.data);
    json->out->failed |= place.failed;
    hl__text_free(&place);
}

static void add_correction(hl_json *json, const hl_book *book, int step, const hl_correction *correction)
{
    const hl_adjuster *adjuster = &book->adjusters[correction->adjuster];
    hl__json_open(json, NULL, '{', true);
    hl__json_string(json, "adjuster", adjuster->id);
    if (correction->has_amount)
        hl__json_amount(json, "amount", correction->amount, adjuster->unit);
    else
        hl__json_null(json, "amount");
    hl__json_string(json, "unit", adjuster->unit == HL_NO_UNIT ? NULL : hl_unit_name(adjuster->unit));
    hl__json_string(json, "way", correction->more ? adjuster->more : adjuster->less);
    if (correction->has_predicted)
        hl__json_amount(json, "predicted", correction->predicted, book->steps[step].unit);
    else
        hl__json_null(json, "predicted");
    add_ids(json, "again", book, correction->again, correction->n_again);
    hl__json_bool(json, "assumed", correction->assumed);
    add_rule(json, find_rule(adjuster, step));
    hl__json_bool(json, "lands", correction->lands);
    hl__json_bool(json, "beyond_reach", correction->beyond_reach);
    add_ids(json, "spoils", book, correction->spoils, correction->n_spoils);
    hl__json_close(json, '}');
}

/* ---- findings ------------------------------------------------------------------------------ */

const char *hl__json_why(const hl_finding *finding, const hl_step *step)
{
    static const char *const names[] = {
        [HL_WHY_NONE] = "",
        [HL_WHY_LOW] = "low",
        [HL_WHY_HIGH] = "high",
        [HL_WHY_WORD] = "fault",
        [HL_WHY_UNEVEN] = "uneven",
        [HL_WHY_UNREAD] = "not read",
        [HL_WHY_WITHDRAWN] = "withdrawn",
        [HL_WHY_SKIPPED] = "skipped",
        [HL_WHY_OTHER_GAUGE] = "other gauge",
        [HL_WHY_DISAGREE] = "readings differ",
        [HL_WHY_WORK] = "contradicts work",
        [HL_WHY_VOIDED] = "after a withdrawal",
        [HL_WHY_UNITS] = "units",
        [HL_WHY_AS_FOUND] = "as found",
        [HL_WHY_ACCEPTED] = "accepted",
        [HL_WHY_ADJUSTED] = "adjusted since",
        [HL_WHY_QUERY] = "open query",
        [HL_WHY_BOOK] = "left out by the book",
        [HL_WHY_SCOPE] = "outside the scope",
    };
    if (step && finding->why == HL_WHY_WORD && finding->word >= 0)
        return step->words[finding->word].word;
    return names[finding->why];
}

static void add_reading(hl_json *json, const hl_finding *finding, const hl_step *step)
{
    if (!step)
        hl__json_null(json, "reading");
    else if (finding->has_value)
        hl__json_amount(json, "reading", finding->value, step->unit);
    else if (finding->word >= 0)
        hl__json_string(json, "reading", step->words[finding->word].word);
    else if (finding->go)
        hl__json_string(json, "reading",
                        finding->why == HL_WHY_LOW    ? "under"
                        : finding->why == HL_WHY_HIGH ? "over"
                                                      : "within");
    else
        hl__json_null(json, "reading");
}

static void add_limit(hl_json *json, const char *key, bool has, hl_amount value, hl_unit unit)
{
    if (has)
        hl__json_amount(json, key, value, unit);
    else
        hl__json_null(json, key);
}

static void add_note(hl_json *json, hl_compass compass, int note)
{
    if (note > 0) {
        hl__json_number(json, "note", note);
        hl__json_string(json, "name", hl_pitch_name(hl_note_pitch(compass, note)));
    } else {
        hl__json_null(json, "note");
        hl__json_null(json, "name");
    }
}

static void add_limits(hl_json *json, const hl_finding *finding, const hl_step *step)
{
    const hl_target *target = &finding->target;
    const bool measured = step && step->kind != HL_JUDGED;
    const hl_unit unit = measured ? step->unit : HL_NO_UNIT;
    hl__json_string(json, "unit", measured ? hl_unit_name(unit) : NULL);
    add_limit(json, "low", measured && target->has_low, target->low, unit);
    add_limit(json, "aim", measured && (target->has_low || target->has_high), target->aim, unit);
    add_limit(json, "high", measured && target->has_high, target->high, unit);
}

/* The step whose cure makes this fault go away, and what is then to be read. */
static void add_follows(hl_json *json, const hl_book *book, const hl_finding *finding)
{
    if (!finding->follows) {
        hl__json_null(json, "follows");
        return;
    }
    hl__json_open(json, "follows", '{', true);
    hl__json_string(json, "step", book->steps[finding->follows_step].id);
    hl__json_amount(json, "predicted", finding->follows_predicted, book->steps[finding->step].unit);
    hl__json_close(json, '}');
}

/* A computed fault that is none of its own as long as this step is out. */
static void add_hangs(hl_json *json, const hl_book *book, const hl_finding *finding)
{
    hl__json_string(json, "hangs_on", finding->hangs ? book->steps[finding->follows_step].id : NULL);
}

/* A query belongs to no step. */
static void add_finding(hl_json *json, const hl_audit *audit, const hl_finding *finding)
{
    const hl_step *step = finding->step >= 0 ? &audit->book->steps[finding->step] : NULL;
    hl__json_open(json, NULL, '{', true);
    add_note(json, audit->sheet->compass, finding->note);
    hl__json_string(json, "step", step ? step->id : NULL);
    add_reading(json, finding, step);
    add_limits(json, finding, step);
    hl__json_string(json, "verdict", hl_verdict_name(finding->verdict));
    hl__json_string(json, "why", hl__json_why(finding, step));
    hl__json_string(json, "file", audit->sheet->name);
    add_place(json, "line", finding->line);
    add_place(json, "column", finding->column);
    hl__json_bool(json, "computed", finding->computed);
    hl__json_bool(json, "assumed", finding->assumed);
    hl__json_string(json, "remark", finding->remark);
    hl__json_bool(json, "floated", finding->floated);
    add_limit(json, "model", finding->has_model, finding->model, step ? step->unit : HL_NO_UNIT);
    hl__json_bool(json, "model_differs", finding->model_differs);
    add_limit(json, "uncertainty", finding->guarded, finding->guard, step ? step->unit : HL_NO_UNIT);
    add_follows(json, audit->book, finding);
    add_hangs(json, audit->book, finding);
    const char *todo = hl_finding_todo(audit->book, finding);
    hl__json_string(json, "todo", todo[0] ? todo : NULL);
    hl__json_open(json, "corrections", '[', finding->n_corrections == 0);
    for (int i = 0; i < finding->n_corrections; i++)
        add_correction(json, audit->book, finding->step, &finding->corrections[i]);
    hl__json_close(json, ']');
    hl__json_close(json, '}');
}

/* ---- beside the findings --------------------------------------------------------------------- */

static void add_diagnosed(hl_json *json, const hl_audit *audit, const hl_diagnosed *found)
{
    const hl_diagnosis *diagnosis = &audit->book->diagnoses[found->diagnosis];
    hl__json_open(json, NULL, '{', false);
    add_note(json, audit->sheet->compass, found->note);
    hl__json_string(json, "id", diagnosis->id);
    hl__json_string(json, "title", diagnosis->title);
    hl__json_number(json, "holds", found->holds);
    hl__json_number(json, "known", found->known);
    hl__json_open(json, "causes", '[', diagnosis->n_causes == 0);
    for (int i = 0; i < diagnosis->n_causes; i++) {
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "cause", diagnosis->causes[i].cause);
        hl__json_string(json, "test", diagnosis->causes[i].test);
        hl__json_string(json, "todo", diagnosis->causes[i].todo);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
    add_rule(json, diagnosis->origin);
    hl__json_close(json, '}');
}

/* The step that the book lets give way, and how many notes pass by that. */
static void add_float(hl_json *json, const hl_audit *audit)
{
    const int step = hl_audit_float(audit);
    if (step < 0) {
        hl__json_null(json, "float");
        return;
    }
    hl__json_open(json, "float", '{', true);
    hl__json_string(json, "step", audit->book->steps[step].id);
    hl__json_amount(json, "within", audit->book->floats.within, audit->book->steps[step].unit);
    hl__json_number(json, "notes", audit->tallies[step].floated);
    hl__json_close(json, '}');
}

/* Readings that pass and yet don't fit what their model says of them. */
static void add_strange(hl_json *json, const hl_audit *audit)
{
    hl__json_open(json, "read_again", '[', false);
    for (size_t i = 0; i < audit->findings.n; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        if (finding->verdict != HL_PASS || !finding->model_differs)
            continue;
        const hl_step *step = &audit->book->steps[finding->step];
        hl__json_open(json, NULL, '{', true);
        add_note(json, audit->sheet->compass, finding->note);
        hl__json_string(json, "step", step->id);
        add_reading(json, finding, step);
        hl__json_amount(json, "model", finding->model, step->unit);
        hl__json_string(json, "unit", hl_unit_name(step->unit));
        hl__json_bool(json, "assumed", finding->model_assumed);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

/* Facts that the mathematics took from the book for want of the sheet's own. */
static void add_assumed_facts(hl_json *json, const hl_audit *audit)
{
    const hl_book *book = audit->book;
    hl__json_open(json, "assumed_facts", '[', false);
    for (int i = 0; i < book->n_facts; i++) {
        const bool *assumed = audit->sheet->assumed[i];
        if (!assumed[0] && !assumed[1])
            continue;
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "fact", book->facts[i].id);
        hl__json_double(json, "naturals", assumed[0] ? audit->sheet->values[i][0] : NAN);
        hl__json_double(json, "sharps", assumed[1] ? audit->sheet->values[i][1] : NAN);
        hl__json_string(json, "unit", book->facts[i].unit);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

/* What most readings imply of an assumed fact. */
static void add_implied(hl_json *json, const hl_audit *audit)
{
    static const char *const colours[] = {"all", "naturals", "sharps"};
    hl__json_open(json, "implied_facts", '[', false);
    for (size_t i = 0; i < audit->n_implied; i++) {
        const hl_implied *implied = &audit->implied[i];
        const hl_fact *fact = &audit->book->facts[implied->fact];
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "fact", fact->id);
        hl__json_string(json, "notes", colours[implied->colour]);
        hl__json_double(json, "assumed", implied->assumed);
        hl__json_double(json, "implied", implied->implied);
        hl__json_string(json, "unit", fact->unit);
        hl__json_string(json, "step", audit->book->steps[implied->step].id);
        hl__json_bool(json, "above", implied->above);
        hl__json_bool(json, "instead", implied->instead);
        hl__json_number(json, "compared", implied->compared);
        hl__json_number(json, "differ", implied->differ);
        hl__json_number(json, "agree", implied->agree);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

hl_code hl_audit_json(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    hl_text text = {0};
    hl_json json = {.out = &text};
    int n_errors = 0;
    const hl_err *errors = hl_sheet_errors(audit->sheet, &n_errors);
    *out = NULL;
    add_head(&json, audit, NULL, NULL);
    hl__json_open(&json, "findings", '[', false);
    for (size_t i = 0; i < audit->findings.n; i++) {
        const hl_verdict verdict = audit->findings.items[i].verdict;
        if (verdict != HL_PASS && verdict != HL_NOT_APPLICABLE)
            add_finding(&json, audit, &audit->findings.items[i]);
    }
    hl__json_close(&json, ']');
    add_errors(&json, errors, n_errors);
    add_place(&json, "torn", audit->sheet->torn);
    hl__json_open(&json, "diagnoses", '[', audit->n_diagnosed == 0);
    for (size_t i = 0; i < audit->n_diagnosed; i++)
        add_diagnosed(&json, audit, &audit->diagnosed[i]);
    hl__json_close(&json, ']');
    hl__json_choices(&json, audit->book);
    add_float(&json, audit);
    add_strange(&json, audit);
    add_assumed_facts(&json, audit);
    add_implied(&json, audit);
    hl__json_decision(&json, audit);
    hl__json_close(&json, '}');
    return hl__text_take(&text, out, size, err);
}

hl_code hl_error_json(char **out, size_t *size, const char *title, const hl_err *errors, int n, hl_err *err)
{
    hl_text text = {0};
    hl_json json = {.out = &text};
    *out = NULL;
    add_head(&json, NULL, title, n > 0 ? errors[0].file : "");
    hl__json_open(&json, "findings", '[', true);
    hl__json_close(&json, ']');
    add_errors(&json, errors, n);
    add_place(&json, "torn", 0);
    hl__json_open(&json, "diagnoses", '[', true);
    hl__json_close(&json, ']');
    hl__json_null(&json, "choices");
    hl__json_null(&json, "float");
    hl__json_open(&json, "read_again", '[', true);
    hl__json_close(&json, ']');
    hl__json_open(&json, "assumed_facts", '[', true);
    hl__json_close(&json, ']');
    hl__json_open(&json, "implied_facts", '[', true);
    hl__json_close(&json, ']');
    hl__json_decision(&json, NULL);
    hl__json_close(&json, '}');
    return hl__text_take(&text, out, size, err);
}

size_t hl_json_one_line(char *text, size_t size)
{
    size_t kept = 0;
    for (size_t at = 0; at < size;) {
        if (text[at] != '\n') { /* inside a string a line break is written \n, so this one is layout */
            text[kept++] = text[at++];
            continue;
        }
        while (at < size && (text[at] == '\n' || text[at] == ' '))
            at++;
    }
    if (kept < size)
        text[kept++] = '\n';
    return kept;
}
