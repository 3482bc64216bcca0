/* why_page.c - one verdict explained: what was wanted, the rows behind it, what moved since, how well it is
 * known, and what would change it (layer: render/text). */
#include "groups.h"

#include "event_words.h"
#include "leaf.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

#define DEEPEST 8 /* derived steps of derived steps */

typedef struct why {
    hl_page page;
    const hl_finding *finding;
    const hl_step *step;
} why;

static void heading(why *at, const char *title)
{
    hl_text line = {0};
    hl__text_char(at->page.out, '\n');
    hl__text_add(&line, title);
    hl__page_add(&at->page, &line, HL_INK_BOLD, 0, 2);
}

static void end_line(why *at, hl_text *line, int depth)
{
    hl__page_add(&at->page, line, HL_INK_PLAIN, 2 + 2 * depth, 4 + 2 * depth);
}

/* ---- the verdict ---------------------------------------------------------------------------------- */

static void add_verdict(why *at)
{
    const hl_sheet *sheet = at->page.audit->sheet;
    char *reading = NULL;
    size_t size = 0;
    hl_err err;
    hl_text line = {0};
    hl__text_safe(&line, at->step->title);
    if (at->finding->note > 0)
        hl__text_printf(&line, " at %s (note %d)",
                        hl_pitch_name(hl_note_pitch(sheet->compass, at->finding->note)), at->finding->note);
    hl__text_add(&line, ": ");
    if (at->finding->verdict == HL_NOT_APPLICABLE) {
        hl__text_add(&line,
                     at->finding->why == HL_WHY_BOOK ? "left out by the book" : "not read at this note");
    } else if (hl_reading_text(&reading, &size, at->page.audit, at->finding, &err) == HL_OK) {
        hl__text_add(&line, reading);
    } else {
        line.failed = true;
    }
    hl_free(reading);
    if (at->finding->verdict == HL_NOT_APPLICABLE && at->finding->remark[0]) {
        hl__text_add(&line, ": ");
        hl__text_safe(&line, at->finding->remark);
    }
    hl__text_char(&line, '.');
    hl__page_add(&at->page, &line,
                 at->finding->verdict == HL_PASS || at->finding->verdict == HL_NOT_APPLICABLE ? HL_INK_BOLD
                                                                                              : HL_INK_BAD,
                 0, 2);
}

/* ---- what is wanted, and the rule lines that say so ------------------------------------------------ */

static void add_wanted(why *at)
{
    hl_text line = {0};
    heading(at, "Wanted");
    if (at->step->kind == HL_JUDGED) {
        hl__text_add(&line, "ok, by judgement");
    } else {
        hl__say_target(&line, &at->finding->target, at->step->unit, at->step->resolution);
    }
    hl__say_place(&line, at->step->origin);
    end_line(at, &line, 0);
    for (int i = 0; i < at->step->n_changes; i++) {
        const hl_change *change = &at->step->changes[i];
        hl__text_add(&line, change->chosen ? "Chosen: " : "Changed: ");
        hl__text_safe(&line, change->field);
        if (change->why[0]) {
            hl__text_add(&line, ", because: ");
            hl__text_safe(&line, change->why);
        }
        hl__say_place(&line, change->origin);
        end_line(at, &line, 0);
    }
    if (at->finding->floated) {
        hl__text_add(&line, "The book lets this step give way: it passes beyond its target by ");
        hl__say_amount(&line, at->finding->shift < 0 ? -at->finding->shift : at->finding->shift,
                       at->step->unit, at->step->resolution);
        hl__text_char(&line, '.');
        end_line(at, &line, 0);
    }
}

/* ---- the rows that count --------------------------------------------------------------------------- */

static void add_who(hl_text *line, const hl_sheet *sheet, const hl_event *event)
{
    const uint32_t texts[] = {event->time, event->by, event->method};
    if (event->pass > 0) {
        hl__text_add(line, ", pass ");
        hl__text_safe(line, sheet->passes[event->pass]);
    }
    for (int i = 0; i < 3; i++) {
        const bool said = i == 2 && event->kind >= HL_EVENT_WITHIN && event->kind <= HL_EVENT_UNDER;
        if (texts[i] == 0 || said)
            continue;
        hl__text_add(line, i == 1 ? ", by " : i == 2 ? ", with " : ", ");
        hl__text_safe(line, hl__text_at(sheet, texts[i]));
    }
}

/* "Line 12: 48.5 mm, by Ann, with dial: counts." */
static void add_row(why *at, const hl_event *event, bool counts, int depth)
{
    const hl_sheet *sheet = at->page.audit->sheet;
    hl_text line = {0};
    hl__text_printf(&line, "Line%c%d: ", HL_GLUE, event->line);
    if (hl__is_reading(event))
        hl__say_event(&line, sheet, event);
    else
        hl__text_add(&line, event->kind == HL_EVENT_SKIP ? "skipped" : "withdraws the reading before");
    add_who(&line, sheet, event);
    if (event->remark != 0) {
        hl__text_add(&line, ", \"");
        hl__text_safe(&line, hl__text_at(sheet, event->remark));
        hl__text_char(&line, '"');
    }
    hl__text_add(&line, counts                  ? ": counts"
                        : event->withdrawn      ? ": withdrawn"
                        : hl__is_reading(event) ? ": replaced by a later one"
                                                : "");
    hl__text_char(&line, '.');
    end_line(at, &line, depth);
}

static bool is_of_step(const hl_event *event, int step, int note)
{
    return event->step == step && event->note == note && event->kind != HL_EVENT_ADJUSTMENT;
}

/* Every row of the step at the note; of a computed one those of the steps that it is computed from. */
static void add_rows(why *at, int step, int note, int depth)
{
    const hl_audit *audit = at->page.audit;
    const hl_sheet *sheet = audit->sheet;
    const hl_step *of = &audit->book->steps[step];
    const int place = of->scope == HL_ONCE ? 0 : note;
    const long counting = hl__sheet_latest(sheet, step, place);
    bool any = false;
    for (size_t i = 0; i < sheet->n_events; i++) {
        if (!is_of_step(&sheet->events[i], step, place))
            continue;
        any = true;
        add_row(at, &sheet->events[i], (long)i == counting, depth);
    }
    const hl_formula *formula = of->formula;
    hl_text line = {0};
    if (!any && of->kind != HL_DERIVED) {
        hl__text_add(&line, "No row of the sheet reads it here.");
        end_line(at, &line, depth);
    }
    if (of->kind != HL_DERIVED || !formula || depth >= DEEPEST)
        return;
    hl__text_add(&line, "Computed: ");
    hl__text_safe(&line, formula->text);
    end_line(at, &line, depth);
    for (int i = 0; i < formula->n_vars; i++) {
        if (formula->vars[i].kind != HL_VAR_STEP)
            continue;
        hl__text_safe(&line, audit->book->steps[formula->vars[i].index].title);
        hl__text_char(&line, ':');
        end_line(at, &line, depth);
        add_rows(at, formula->vars[i].index, note, depth + 1);
    }
}

/* ---- what moved since ------------------------------------------------------------------------------ */

static void add_moved(why *at)
{
    const hl_audit *audit = at->page.audit;
    const hl_sheet *sheet = audit->sheet;
    const hl_finding *finding = at->finding;
    hl_text line = {0};
    bool any = false;
    heading(at, "Moved since");
    for (size_t i = 0; i < sheet->n_events; i++) {
        if (!hl__work_overtakes(audit, i, finding->step, finding->note))
            continue;
        any = true;
        hl__text_printf(&line, "Line%c%d: ", HL_GLUE, sheet->events[i].line);
        hl__say_adjustment(&line, sheet, &sheet->events[i]);
        if (sheet->events[i].note == 0)
            hl__text_add(&line, ", for the whole piano");
        add_who(&line, sheet, &sheet->events[i]);
        hl__text_char(&line, '.');
        end_line(at, &line, 0);
    }
    if (finding->presumed) {
        hl__text_add(&line, "Nothing is on record, but ");
        hl__text_safe(&line, audit->book->steps[finding->presumed_step].title);
        hl__text_add(&line, " was read again and differs: somebody seems to have adjusted the ");
        hl__text_safe(&line, audit->book->adjusters[finding->presumed_adjuster].title);
        hl__text_char(&line, '.');
        end_line(at, &line, 0);
    } else if (!any) {
        hl__text_add(&line, "Nothing that this reading depends on.");
        end_line(at, &line, 0);
    }
    if (finding->shifted) {
        hl__text_add(&line, "Work that moves it a little: the reading counts all the same.");
        end_line(at, &line, 0);
    }
    if (finding->verdict == HL_STALE && finding->shift != 0) {
        hl__text_add(&line, "The reading is expected to have moved by ");
        hl__say_amount(&line, finding->shift, at->step->unit, at->step->resolution);
        hl__text_char(&line, '.');
        end_line(at, &line, 0);
    }
}

/* ---- the doubt ------------------------------------------------------------------------------------- */

static void add_doubt(why *at)
{
    static const char *const from[] = {[HL_GAUGE_NONE] = "",
                                       [HL_GAUGE_BOOK] = "as the book says",
                                       [HL_GAUGE_SHEET] = "as the sheet says",
                                       [HL_GAUGE_RESOLUTION] = "from its resolution",
                                       [HL_GAUGE_COMPUTED] = "from what it is computed from"};
    size_t n = 0;
    const hl_gauge *gauges = hl_audit_gauges(at->page.audit, &n), *gauge = NULL;
    hl_text line = {0};
    for (size_t i = 0; i < n; i++)
        if (gauges[i].step == at->finding->step)
            gauge = &gauges[i];
    heading(at, "Doubt");
    if (at->step->kind == HL_JUDGED) {
        hl__text_add(&line, "It is judged, not measured.");
    } else if (at->finding->go) {
        hl__text_add(&line, "A go/no-go gauge gives no number.");
    } else if (!gauge || gauge->uncertainty == 0) {
        hl__text_add(&line, "Nobody says how well its gauge reads.");
    } else {
        hl__text_add(&line, "A reading is known to within ");
        hl__say_amount(&line, gauge->uncertainty, at->step->unit, 0);
        hl__text_printf(&line, " at 95 %%, %s.", from[gauge->from]);
        hl__text_add(&line, at->finding->guarded ? " The guarded rule narrows the limits by that."
                                                 : " The simple rule leaves that out of account.");
    }
    if (at->finding->assumed)
        hl__text_add(&line, " It is computed with an assumed figure.");
    end_line(at, &line, 0);
    if (!at->finding->has_model)
        return;
    hl__text_add(&line, "By the other readings it should be about ");
    hl__say_amount(&line, at->finding->model, at->step->unit, at->step->resolution);
    hl__text_add(&line, at->finding->model_differs ? ", which is further away than the gauges allow."
                                                   : ", which agrees.");
    end_line(at, &line, 0);
}

/* ---- what would change it -------------------------------------------------------------------------- */

/* Of a pass: how far it is from the nearest limit. */
static void add_margin(why *at)
{
    const hl_target *target = &at->finding->target;
    const hl_amount below = at->finding->value - target->low, above = target->high - at->finding->value;
    const bool low = target->has_low && (!target->has_high || below <= above);
    hl_text line = {0};
    if (!at->finding->has_value || (!target->has_low && !target->has_high) || at->finding->floated) {
        hl__text_add(&line, "Another reading, or work on what it depends on.");
        end_line(at, &line, 0);
        return;
    }
    hl__text_add(&line, "It passes by ");
    hl__say_amount(&line, low ? below : above, at->step->unit, 0);
    hl__text_add(&line, low ? "; below " : "; above ");
    hl__say_amount(&line, low ? target->low : target->high, at->step->unit, 0);
    hl__text_add(&line, " it would fail.");
    end_line(at, &line, 0);
}

static void add_change(why *at)
{
    const hl_finding *members[] = {at->finding};
    const hl_group group = {members, 1};
    hl_text line = {0};
    heading(at, "What would change it");
    if (at->finding->verdict == HL_PASS && !at->finding->model_differs) {
        add_margin(at);
        return;
    }
    hl__group_act(&at->page, &line, &group);
    hl__text_char(&line, '.');
    end_line(at, &line, 0);
    if (at->finding->verdict == HL_MISSING && at->step->kind == HL_MEASURED) {
        hl__text_add(&line, "A reading of ");
        hl__say_target(&line, &at->finding->target, at->step->unit, at->step->resolution);
        hl__text_add(&line, " passes.");
        end_line(at, &line, 0);
    }
    hl__group_reason(&at->page, &line, &group);
    hl__group_after(&at->page, &line, &group);
    if (hl__text_any(&line))
        end_line(at, &line, 0);
    hl__text_free(&line);
}

static const hl_finding *find_finding(const hl_audit *audit, int step, int note)
{
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++)
        if (audit->findings.items[i].note == note)
            return &audit->findings.items[i];
    return NULL;
}

hl_code hl_why_text(char **out, size_t *size, const hl_audit *audit, int step, int note,
                    const hl_print *print, hl_err *err)
{
    hl_text text = {0};
    *out = NULL;
    if (step < 0 || step >= audit->book->n_steps || note < 0 || note > audit->sheet->compass.keys)
        return hl__fail(err, HL_E_USAGE, "there is no such step or note");
    const hl_finding *finding = find_finding(audit, step, note);
    if (!finding) {
        hl__fail(err, HL_E_USAGE,
                 note == 0 ? "this step is read at single notes"
                           : "this step is read once, for the whole piano");
        return hl__todo(err, note == 0 ? "name a note" : "say piano in place of the note");
    }
    why at = {.page = {&text, audit, print->width > 0 ? print->width : 80, print->color},
              .finding = finding,
              .step = &audit->book->steps[step]};
    add_verdict(&at);
    if (finding->verdict != HL_NOT_APPLICABLE) {
        add_wanted(&at);
        heading(&at, "Rows");
        add_rows(&at, step, note, 0);
        add_moved(&at);
        add_doubt(&at);
        add_change(&at);
    }
    return hl__text_take(&text, out, size, err);
}
