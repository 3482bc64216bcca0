/* rule_run.c - run the cases of a rule test file (layer: check).
 *
 * A case is typed into a sheet of one note and audited, so that a rule test goes the same way as a
 * technician's reading and can't pass by a way of its own. */
#include "audit.h"
#include "book_check.h"
#include "quantity.h"
#include "rule_test.h"
#include "sheet.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

int hl_rule_tests_count(const hl_rule_tests *tests)
{
    return tests->n;
}

static void add_row(hl_text *text, const char *note, const char *step, size_t step_size, const char *reading,
                    size_t size)
{
    hl__text_printf(text, "%s,", note);
    hl__text_add_n(text, step, step_size);
    hl__text_add(text, ",\"");
    for (size_t i = 0; i < size; i++) {
        if (reading[i] == '"')
            hl__text_char(text, '"'); /* an inch mark, doubled as CSV wants it */
        hl__text_char(text, reading[i]);
    }
    hl__text_add(text, "\"\n");
}

/* "blow=46 let_off=2 mm" -> a row each; a value runs to the blank before the next name and '='. */
static void add_others(hl_text *text, const char *note, const char *with)
{
    while (*with != '\0') {
        const char *equals = strchr(with, '=');
        if (equals == NULL)
            return;
        const char *value = equals + 1, *next = strchr(value, '=');
        const char *end = value + strlen(value);
        if (next != NULL) {
            end = next;
            while (end > value && end[-1] != ' ')
                end--;
        }
        const char *stop = end;
        while (stop > value && stop[-1] == ' ')
            stop--;
        add_row(text, note, with, (size_t)(equals - with), value, (size_t)(stop - value));
        with = end;
    }
}

/* "travel_ratio=5.2" -> "# travel_ratio: 5.2". */
static void add_facts(hl_text *text, const char *facts)
{
    while (*facts != '\0') {
        const size_t id = strcspn(facts, "="), all = strcspn(facts, " ");
        if (id >= all)
            return;
        hl__text_add(text, "# ");
        hl__text_add_n(text, facts, id);
        hl__text_add(text, ": ");
        hl__text_add_n(text, facts + id + 1, all - id - 1);
        hl__text_char(text, '\n');
        facts += all + (facts[all] == ' ' ? 1 : 0);
    }
}

static hl_code write_case(hl_text *text, const hl_rule_test *test, const hl_book *book)
{
    const hl_step *step = &book->steps[test->step];
    const char *note = test->note == 0 ? "" : hl_pitch_name(hl_note_pitch(book->compass, test->note));
    hl__text_printf(text, "# book: %s\n", book->id);
    add_facts(text, test->facts);
    hl__text_add(text, "note,step,reading\n");
    add_others(text, note, test->with);
    if (test->reads != NULL)
        add_row(text, note, step->id, strlen(step->id), test->reads, strlen(test->reads));
    else if (test->with[0] == '\0')
        /* An empty sheet is refused, so a case without a reading leaves a remark behind. */
        hl__text_printf(text, "%s,query,closed\n", note);
    return text->failed ? HL_E_MEMORY : HL_OK;
}

static const hl_finding *find(const hl_audit *audit, int step, int note)
{
    for (size_t i = 0; i < audit->findings.n; i++)
        if (audit->findings.items[i].step == step && audit->findings.items[i].note == note)
            return &audit->findings.items[i];
    return NULL;
}

static const char *name_why(const hl_book *book, const hl_finding *finding)
{
    switch (finding->why) {
    case HL_WHY_LOW:
        return "low";
    case HL_WHY_HIGH:
        return "high";
    case HL_WHY_UNEVEN:
        return "uneven";
    case HL_WHY_WORD:
        return finding->word >= 0 ? book->steps[finding->step].words[finding->word].word : "";
    default:
        return "";
    }
}

/* Says in `err` how the finding differs from what the case wants; HL_OK when it does not. */
static hl_code compare_fix(const hl_rule_test *test, const hl_book *book, const hl_finding *finding,
                           hl_err *err)
{
    if (test->adjuster < 0)
        return HL_OK;
    const hl_adjuster *wanted = &book->adjusters[test->adjuster];
    if (finding->n_corrections == 0)
        return hl__fail(err, HL_E_RULE, "wants the %s as correction, got none", wanted->title);
    const hl_correction *got = &finding->corrections[0];
    const hl_adjuster *adjuster = &book->adjusters[got->adjuster];
    const char *way = got->more ? adjuster->more : adjuster->less;
    if (got->adjuster != test->adjuster || (test->way[0] != '\0' && strcmp(way, test->way) != 0))
        return hl__fail(err, HL_E_RULE, "wants \"%s\" of the %s, got \"%s\" of the %s", test->way,
                        wanted->title, way, adjuster->title);
    if (test->amount < 0 || (got->has_amount && got->amount == test->amount))
        return HL_OK;
    hl_text text = {0};
    hl__text_add(&text, "wants ");
    hl__text_amount(&text, test->amount, adjuster->unit, 0, true);
    hl__text_add(&text, ", got ");
    if (got->has_amount)
        hl__text_amount(&text, got->amount, adjuster->unit, 0, true);
    else
        hl__text_add(&text, "no amount");
    hl_code code = text.failed ? hl__no_memory(err) : hl__fail(err, HL_E_RULE, "%s", text.data);
    hl__text_free(&text);
    return code;
}

static void add_target(hl_text *text, const hl_step *step, const hl_target *target)
{
    if (target->has_low && target->has_high)
        hl__text_add(text, "; the target is ");
    else if (target->has_low || target->has_high)
        hl__text_add(text, target->has_low ? "; the target is at least " : "; the target is at most ");
    if (target->has_low)
        hl__text_amount(text, target->low, step->unit, 0, !target->has_high);
    if (target->has_low && target->has_high)
        hl__text_add(text, " to ");
    if (target->has_high)
        hl__text_amount(text, target->high, step->unit, 0, true);
}

/* "wants pass, got fail (high): 1.9 mm; the target is 1.2 to 1.8 mm" */
static hl_code fail_verdict(const hl_rule_test *test, const hl_book *book, const hl_finding *finding,
                            const char *got, hl_err *err)
{
    const hl_step *step = &book->steps[test->step];
    const char *why = finding != NULL ? name_why(book, finding) : "";
    hl_text text = {0};
    hl__text_printf(&text, "wants %s", test->want);
    hl__text_printf(&text, test->why[0] != '\0' ? " (%s), got %s" : "%s, got %s", test->why, got);
    if (why[0] != '\0')
        hl__text_printf(&text, " (%s)", why);
    if (finding != NULL && finding->has_value) {
        hl__text_add(&text, ": ");
        hl__text_amount(&text, finding->value, step->unit, 0, true);
        add_target(&text, step, &finding->target);
    }
    hl_code code = text.failed ? hl__no_memory(err) : hl__fail(err, HL_E_RULE, "%s", text.data);
    hl__text_free(&text);
    return code;
}

static hl_code compare(const hl_rule_test *test, const hl_audit *audit, hl_err *err)
{
    const hl_book *book = audit->book;
    const hl_finding *finding = find(audit, test->step, test->note);
    const char *got = finding != NULL ? hl_verdict_name(finding->verdict) : "nothing to judge";
    if (strcmp(got, test->want) != 0)
        return fail_verdict(test, book, finding, got, err);
    if (finding == NULL)
        return HL_OK;
    if (test->why[0] != '\0' && strcmp(name_why(book, finding), test->why) != 0)
        return fail_verdict(test, book, finding, got, err);
    return compare_fix(test, book, finding, err);
}

static hl_code run_case(const hl_rule_test *test, const hl_book *book, hl_err *err)
{
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_text text = {0};
    hl_code code = write_case(&text, test, book);
    if (code != HL_OK) {
        hl__no_memory(err);
        goto done;
    }
    code = hl_sheet_open_text(&sheet, "case", text.data, text.size, err);
    if (code == HL_OK)
        code = hl_sheet_read(sheet, book, err);
    if (code == HL_OK)
        code = hl_audit_run(&audit, sheet, book, NULL, err);
    if (code == HL_OK)
        code = compare(test, audit, err);
done:
    hl_audit_free(audit);
    hl_sheet_free(sheet);
    hl__text_free(&text);
    return code;
}

hl_code hl_rule_tests_run(hl_complaints *complaints, const hl_rule_tests *tests, hl_err *err)
{
    hl_checking c = {.book = tests->book, .complaints = complaints};
    for (int i = 0; i < tests->n; i++) {
        const hl_rule_test *test = &tests->cases[i];
        const hl_book *book = tests->book;
        hl_err found;
        hl__check_source(&c, "the case", test->source, test->origin);
        hl_code code = run_case(test, book, &found);
        if (code == HL_OK)
            continue;
        if (code == HL_E_MEMORY)
            return hl__no_memory(err);
        hl_err *item = hl__complain(&c);
        hl__fail(item, HL_E_RULE, "test of %s at %s: %s", book->steps[test->step].id,
                 test->note == 0 ? "the instrument" : hl_pitch_name(hl_note_pitch(book->compass, test->note)),
                 found.what);
        hl__todo(item, "correct the case, or the rule that it tests");
        hl__at(item, test->origin.file, test->origin.line, 0);
    }
    return c.no_memory ? hl__no_memory(err) : HL_OK;
}
