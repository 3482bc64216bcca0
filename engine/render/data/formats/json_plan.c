/* json_plan.c - the plan for programs (layer: render/data).
 *
 * Keys and their order are a contract: new ones may come, none may change its meaning. */
#include "json.h"
#include "lead_list.h"
#include "plan.h"
#include "subject.h"

static void add_name(hl_json *json, const hl_plan *plan, int note)
{
    if (note > 0) {
        hl__json_number(json, "note", note);
        hl__json_string(json, "name", hl_pitch_name(hl_note_pitch(plan->audit->sheet->compass, note)));
    } else {
        hl__json_null(json, "note");
        hl__json_null(json, "name");
    }
}

static void add_ids(hl_json *json, const char *key, const hl_book *book, const int *steps, int n)
{
    hl__json_open(json, key, '[', true);
    for (int i = 0; i < n; i++)
        hl__json_string(json, NULL, book->steps[steps[i]].id);
    hl__json_close(json, ']');
}

static void add_adjuster_ids(hl_json *json, const char *key, const hl_book *book, const int *adjusters, int n)
{
    hl__json_open(json, key, '[', true);
    for (int i = 0; i < n; i++)
        hl__json_string(json, NULL, book->adjusters[adjusters[i]].id);
    hl__json_close(json, ']');
}

/* adjuster, amount, unit, way, assumed and the pieces, into the open object. */
static void add_move(hl_json *json, const hl_book *book, const hl_correction *correction)
{
    const hl_adjuster *adjuster = &book->adjusters[correction->adjuster];
    hl__json_string(json, "adjuster", adjuster->id);
    if (correction->has_amount)
        hl__json_amount(json, "amount", correction->amount, adjuster->unit);
    else
        hl__json_null(json, "amount");
    hl__json_string(json, "unit", adjuster->unit == HL_NO_UNIT ? NULL : hl_unit_name(adjuster->unit));
    hl__json_string(json, "way", correction->more ? adjuster->more : adjuster->less);
    hl__json_bool(json, "assumed", correction->assumed);
    hl__json_bool(json, "learned", correction->learned);
    hl__json_open(json, "pieces", '[', true);
    for (int i = 0; i < HL_PIECES && correction->pieces[i] != 0; i++)
        hl__json_amount(json, NULL, correction->pieces[i], adjuster->unit);
    hl__json_close(json, ']');
}

static void add_adjustments(hl_json *json, const hl_plan *plan, const hl_plan_note *note)
{
    hl__json_open(json, "adjustments", '[', note->n_adjustments == 0);
    for (int i = 0; i < note->n_adjustments; i++) {
        hl__json_open(json, NULL, '{', true);
        add_move(json, plan->audit->book, &note->adjustments[i]);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

static void add_predicted(hl_json *json, const hl_plan *plan, const hl_plan_note *note)
{
    hl__json_open(json, "predicted", '{', true);
    for (int i = 0; i < note->n_foreseen; i++) {
        const hl_step *step = &plan->audit->book->steps[note->foreseen[i].step];
        hl__json_amount(json, step->id, note->foreseen[i].after, step->unit);
    }
    hl__json_close(json, '}');
}

static void add_unmet(hl_json *json, const hl_plan *plan, const hl_plan_note *note)
{
    const hl_book *book = plan->audit->book;
    hl__json_open(json, "unmet", '[', note->n_unmet == 0);
    for (int i = 0; i < note->n_unmet; i++) {
        const hl_unmet_reading *one = &note->unmet[i];
        const hl_step *step = &book->steps[one->step];
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "step", step->id);
        hl__json_amount(json, "by", one->by, step->unit);
        hl__json_string(json, "why", hl_lack_name(one->why));
        hl__json_string(json, "unit", step->unit == HL_NO_UNIT ? NULL : hl_unit_name(step->unit));
        hl__json_bool(json, "above", one->above);
        hl__json_bool(json, "uneven", one->uneven);
        add_ids(json, "against", book, one->against, one->n_against);
        add_adjuster_ids(json, "adjusters", book, one->adjusters, one->n_adjusters);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

static void add_waiting(hl_json *json, const hl_plan *plan, const hl_plan_note *note)
{
    const hl_book *book = plan->audit->book;
    hl__json_open(json, "waiting", '[', note->n_waiting == 0);
    for (int i = 0; i < note->n_waiting; i++) {
        const hl_waiting *one = &note->waiting[i];
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "step", book->steps[one->step].id);
        hl__json_string(json, "first", one->first >= 0 ? book->steps[one->first].id : NULL);
        hl__json_string(json, "adjuster", one->adjuster >= 0 ? book->adjusters[one->adjuster].id : NULL);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

static void add_notes(hl_json *json, const hl_plan *plan)
{
    hl__json_open(json, "notes", '[', plan->n_notes == 0);
    for (int i = 0; i < plan->n_notes; i++) {
        const hl_plan_note *note = &plan->notes[i];
        hl__json_open(json, NULL, '{', false);
        add_name(json, plan, note->note);
        add_adjustments(json, plan, note);
        add_predicted(json, plan, note);
        add_unmet(json, plan, note);
        add_waiting(json, plan, note);
        add_ids(json, "again", plan->audit->book, note->again, note->n_again);
        hl__json_bool(json, "proven", note->proven);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

static void add_parts(hl_json *json, const hl_plan *plan)
{
    hl__json_open(json, "parts", '[', plan->n_parts == 0);
    for (int i = 0; i < plan->n_parts; i++) {
        const hl_part *part = &plan->parts[i];
        const hl_adjuster *adjuster = &plan->audit->book->adjusters[part->adjuster];
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "adjuster", adjuster->id);
        hl__json_amount(json, "size", part->size, adjuster->unit);
        hl__json_string(json, "unit", hl_unit_name(adjuster->unit));
        hl__json_number(json, "count", part->count);
        hl__json_string(json, "keys", part->sharps ? "sharps" : "naturals");
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

static void add_chores(hl_json *json, const hl_plan *plan)
{
    const hl_book *book = plan->audit->book;
    hl__json_open(json, "chores", '[', plan->n_chores == 0);
    for (int i = 0; i < plan->n_chores; i++) {
        const hl_chore *chore = &plan->chores[i];
        const hl_step *step = &book->steps[chore->step];
        const hl_word *word = chore->word >= 0 ? &step->words[chore->word] : NULL;
        hl__json_open(json, NULL, '{', true);
        add_name(json, plan, chore->note);
        hl__json_string(json, "step", step->id);
        hl__json_string(json, "fault", word ? word->word : NULL);
        hl__json_string(json, "todo", chore->todo[0] ? chore->todo : NULL);
        hl__json_bool(json, "first", chore->first);
        if (chore->correction)
            add_move(json, book, chore->correction);
        else
            hl__json_string(json, "adjuster",
                            chore->adjuster >= 0 ? book->adjusters[chore->adjuster].id : NULL);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

static void add_lines(hl_json *json, const hl_plan *plan)
{
    hl__json_open(json, "lines", '[', plan->n_lines == 0);
    for (int i = 0; i < plan->n_lines; i++) {
        const hl_on_line *one = &plan->lines[i];
        const hl_step *step = &plan->audit->book->steps[one->step];
        hl__json_open(json, NULL, '{', true);
        add_name(json, plan, one->note);
        hl__json_string(json, "step", step->id);
        hl__json_amount(json, "low", one->target.low, step->unit);
        hl__json_amount(json, "aim", one->target.aim, step->unit);
        hl__json_amount(json, "high", one->target.high, step->unit);
        hl__json_bool(json, "read", one->read);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

/* ---- errors ------------------------------------------------------------------------------ */

static void add_place(hl_json *json, const char *key, int place)
{
    if (place > 0)
        hl__json_number(json, key, place);
    else
        hl__json_null(json, key);
}

static void add_errors(hl_json *json, const hl_err *errors, int n)
{
    hl__json_open(json, "errors", '[', n == 0);
    for (int i = 0; i < n; i++) {
        hl__json_open(json, NULL, '{', true);
        hl__json_string(json, "file", errors[i].file);
        add_place(json, "line", errors[i].line);
        add_place(json, "column", errors[i].column);
        hl__json_string(json, "what", errors[i].what);
        hl__json_string(json, "todo", errors[i].todo);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
}

/* Of a sheet that can't be planned `plan` is NULL. */
static void add_head(hl_json *json, const hl_plan *plan, const char *title, const char *path)
{
    hl__json_open(json, NULL, '{', false);
    hl__json_subject(json, plan ? plan->audit : NULL, title, path);
    hl__json_bool(json, "planned", plan != NULL);
    hl__json_bool(json, "idle", plan && plan->idle);
    hl__json_bool(json, "inspect_only", plan && plan->inspect_only);
}

static void add_lead(hl_json *json, hl_compass compass, int note, const hl_leads *leads)
{
    hl__json_open(json, NULL, '{', true);
    hl__json_number(json, "note", note);
    hl__json_string(json, "name", hl_pitch_name(hl_note_pitch(compass, note)));
    hl__json_bool(json, "remove", leads->remove);
    hl__json_open(json, "pieces", '[', true);
    for (int i = 0; i < leads->n_leads; i++) {
        hl__json_open(json, NULL, '{', true);
        hl__json_amount(json, "mass", leads->leads[i].mass, HL_G);
        hl__json_amount(json, "place", leads->leads[i].place, HL_MM);
        hl__json_close(json, '}');
    }
    hl__json_close(json, ']');
    hl__json_amount(json, "gives", leads->gives, HL_G);
    hl__json_amount(json, "predicted", leads->predicted, HL_G);
    hl__json_bool(json, "too_much", leads->too_much);
    hl__json_bool(json, "friction_first", leads->friction_first);
    hl__json_bool(json, "assumed", leads->assumed);
    hl__json_close(json, '}');
}

static void add_leads(hl_json *json, const hl_audit *audit)
{
    hl__json_open(json, "leads", '[', false);
    for (int note = 1; note <= audit->sheet->compass.keys; note++) {
        hl_leads leads;
        if (hl__lead_wanted(audit, note, &leads))
            add_lead(json, audit->sheet->compass, note, &leads);
    }
    hl__json_close(json, ']');
}

hl_code hl_plan_error_json(char **out, size_t *size, const char *sheet, const hl_err *error, hl_err *err)
{
    static const char *const empty[] = {"notes", "parts", "leads", "chores", "lines"};
    hl_text text = {0};
    hl_json json = {.out = &text};
    add_head(&json, NULL, sheet, error->file);
    for (size_t i = 0; i < sizeof empty / sizeof *empty; i++) {
        hl__json_open(&json, empty[i], '[', true);
        hl__json_close(&json, ']');
    }
    add_errors(&json, error, 1);
    hl__json_close(&json, '}');
    *out = NULL;
    return hl__text_take(&text, out, size, err);
}

hl_code hl_plan_json(char **out, size_t *size, const hl_plan *plan, hl_err *err)
{
    hl_text text = {0};
    hl_json json = {.out = &text};
    int n_errors = 0;
    const hl_err *errors = hl_sheet_errors(plan->audit->sheet, &n_errors);
    add_head(&json, plan, NULL, NULL);
    add_notes(&json, plan);
    add_parts(&json, plan);
    add_leads(&json, plan->audit);
    add_chores(&json, plan);
    add_lines(&json, plan);
    add_errors(&json, errors, n_errors);
    hl__json_close(&json, '}');
    *out = NULL;
    return hl__text_take(&text, out, size, err);
}
