/* memory_works.h - everything that takes memory, for test_memory_audit.c: reading, judging, planning,
 * printing, saving. */
#ifndef MEMORY_WORKS_H
#define MEMORY_WORKS_H

#include "rule_folder.h"
#include "short_memory.h"

/* Everything that work may be about; each is whole, with enough memory. */
typedef struct bench {
    hl_book *book, *shop;
    hl_sheet *sheet;
    hl_audit *audit;
    hl_plan *plan;
    const char *text; /* of the sheet */
    char folder[240]; /* to write into */
} bench;

typedef struct made {
    char *text;
    size_t size;
} made;

typedef hl_code work(made *out, const bench *at, hl_err *err);

static const hl_print page = {.width = 60, .color = true};
static const char *const rule_folders[] = {RULES_FOLDER, SHEETS_FOLDER "/../tests/golden/rules"};
static const hl_shelf shelf = {.folders = rule_folders, .n_folders = 2};

/* From the bytes to the plan; what came of it is told with enough memory. */
static hl_code judge_all(made *out, const bench *at, const hl_audit_options *options, hl_err *err)
{
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_plan *plan = NULL;
    hl_code code = hl_sheet_open_text(&sheet, "bench.csv", at->text, strlen(at->text), err);
    if (code == HL_OK)
        code = hl_sheet_read(sheet, at->book, err);
    if (code == HL_OK)
        code = hl_audit_run(&audit, sheet, at->book, options, err);
    if (code == HL_OK)
        code = hl_plan_run(&plan, audit, NULL, err);
    const long left = memory_left;
    memory_left = -1;
    made other = {NULL, 0};
    if (code == HL_OK)
        assert_int_equal(hl_audit_json(&out->text, &out->size, audit, err), HL_OK);
    if (code == HL_OK)
        assert_int_equal(hl_plan_json(&other.text, &other.size, plan, err), HL_OK);
    if (code == HL_OK) {
        char *both = realloc(out->text, out->size + other.size + 1);
        assert_non_null(both);
        memcpy(both + out->size, other.text, other.size + 1);
        *out = (made){both, out->size + other.size};
    }
    memory_left = left;
    hl_free(other.text);
    hl_plan_free(plan);
    hl_audit_free(audit);
    hl_sheet_free(sheet);
    return code;
}

static hl_code try_judging(made *out, const bench *at, hl_err *err)
{
    return judge_all(out, at, NULL, err);
}

static hl_code try_guarded_sample(made *out, const bench *at, hl_err *err)
{
    const hl_audit_options options = {.rule = HL_RULE_GUARDED,
                                      .sample = {.notes = 5, .seed = 3, .confidence = 900000}};
    return judge_all(out, at, &options, err);
}

static hl_code try_book(made *out, const bench *at, hl_err *err)
{
    (void)at;
    hl_book *book = NULL;
    const hl_code code = hl_book_open(&book, "tiny", &shelf, err);
    assert_true((code == HL_OK) == (book != NULL));
    for (int i = 0; code == HL_OK && i < 64; i++) /* a sum stands for its hash */
        out->size = out->size * 31 + (size_t)hl_book_hash(book)[i];
    hl_book_free(book);
    return code;
}

static hl_code try_samples(made *out, const bench *at, hl_err *err)
{
    const hl_audit_options options = {.sample = {.notes = 5, .seed = 3}};
    hl_samples samples = {.n = 0};
    hl_audit *audit = NULL;
    hl_code code = hl_audit_run(&audit, at->sheet, at->book, &options, err);
    for (int i = 0; code == HL_OK && i < 3; i++)
        code = hl_samples_add(&samples, audit, err);
    if (code == HL_OK)
        code = hl_samples_text(&out->text, &out->size, &samples, &page, err);
    hl_samples_free(&samples);
    hl_audit_free(audit);
    return code;
}

static hl_code try_book_check(made *out, const bench *at, hl_err *err)
{
    (void)out;
    hl_complaints complaints = {.n = 0};
    hl_code code = hl_book_check(&complaints, at->shop, err);
    if (code == HL_OK)
        code = hl_book_warn(&complaints, at->shop, err);
    hl_complaints_free(&complaints);
    return code;
}

static hl_code try_rule_tests(made *out, const bench *at, hl_err *err)
{
    (void)at;
    hl_complaints complaints = {.n = 0};
    hl_rule_tests *tests = NULL;
    const long left = memory_left; /* opening is test_memory.c's */
    memory_left = -1;
    hl_code code = hl_rule_tests_open(&tests, RULES_FOLDER "/tests/home_upright_test.lua", &shelf, err);
    memory_left = left;
    assert_int_equal(code, HL_OK);
    code = hl_rule_tests_run(&complaints, tests, err);
    out->size = complaints.n;
    hl_complaints_free(&complaints);
    hl_rule_tests_free(tests);
    return code;
}

/* A row in a new tidy sheet: it is there when that is said, and only then. */
static hl_code try_journal(made *out, const bench *at, hl_err *err)
{
    static const hl_journal_row row = {"C4", "blow", "46.1", "2026-03-02T09:14", "Kim", "", "invented"};
    char path[300], lock[310];
    hl_journal *journal = NULL;
    hl_sheet *sheet = NULL;
    snprintf(path, sizeof path, "%s/tidy.csv", at->folder);
    snprintf(lock, sizeof lock, "%s.lock", path);
    hl_code code = hl_journal_create(path, "grand", "# piano: invented", err);
    if (code == HL_OK)
        code = hl_journal_open(&journal, path, err);
    const bool opened = code == HL_OK;
    if (opened)
        code = hl_journal_append(journal, &row, err);
    hl_journal_close(journal);
    const long left = memory_left;
    memory_left = -1;
    hl_err other;
    if (opened) {
        assert_int_equal(hl_sheet_open(&sheet, path, &other), HL_OK);
        if (hl_sheet_read(sheet, at->book, &other) != HL_OK)
            fail_msg("line %d: %s; %s", other.line, other.what, other.todo);
        assert_int_equal(hl_sheet_line(sheet, "blow", 40) > 0, code == HL_OK);
        hl_sheet_free(sheet);
    }
    memory_left = left;
    remove(path);
    remove(lock);
    (void)out;
    return code;
}

/* A text editor took the last line end off: the saved row stays where it is, whatever memory fails. */
static hl_code try_journal_end(made *out, const bench *at, hl_err *err)
{
    static const hl_journal_row first = {"C4", "blow", "46.1", "2026-03-02T09:14", "Kim", "", "invented"};
    static const hl_journal_row second = {"D4", "blow", "46.2", "2026-03-02T09:15", "Kim", "", "invented"};
    char path[300], lock[310], torn[310];
    hl_journal *journal = NULL;
    hl_sheet *sheet = NULL;
    hl_err other;
    struct stat there;
    snprintf(path, sizeof path, "%s/end.csv", at->folder);
    snprintf(lock, sizeof lock, "%s.lock", path);
    snprintf(torn, sizeof torn, "%s.torn", path);
    const long left = memory_left;
    memory_left = -1;
    assert_int_equal(hl_journal_create(path, "grand", "# piano: invented", &other), HL_OK);
    assert_int_equal(hl_journal_open(&journal, path, &other), HL_OK);
    assert_int_equal(hl_journal_append(journal, &first, &other), HL_OK);
    hl_journal_close(journal);
    journal = NULL;
    assert_int_equal(stat(path, &there), 0);
    assert_int_equal(truncate(path, there.st_size - 1), 0);
    memory_left = left;
    hl_code code = hl_journal_open(&journal, path, err);
    if (code == HL_OK)
        code = hl_journal_append(journal, &second, err);
    hl_journal_close(journal);
    const long rest = memory_left;
    memory_left = -1;
    assert_int_not_equal(stat(torn, &there), 0);
    assert_int_equal(hl_sheet_open(&sheet, path, &other), HL_OK);
    if (hl_sheet_read(sheet, at->book, &other) != HL_OK)
        fail_msg("line %d: %s; %s", other.line, other.what, other.todo);
    assert_true(hl_sheet_line(sheet, "blow", 40) > 0);
    assert_int_equal(hl_sheet_line(sheet, "blow", 42) > 0, code == HL_OK);
    hl_sheet_free(sheet);
    memory_left = rest;
    remove(path);
    remove(lock);
    (void)out;
    return code;
}

static hl_code try_save(made *out, const bench *at, hl_err *err)
{
    (void)out;
    char path[300];
    snprintf(path, sizeof path, "%s/new.csv", at->folder);
    const hl_code code = hl_file_save(path, at->text, strlen(at->text), false, err);
    struct stat there;
    const bool exists = stat(path, &there) == 0;
    assert_int_equal(exists, code == HL_OK);
    assert_true(!exists || (size_t)there.st_size == strlen(at->text));
    remove(path);
    return code;
}

static hl_code try_check_row(made *out, const bench *at, hl_err *err)
{
    static const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46.1"};
    (void)out;
    return hl_sheet_check_row(at->sheet, &row, err);
}

static hl_code try_leads(made *out, const bench *at, hl_err *err)
{
    hl_leads leads;
    (void)out;
    return hl_leads_for_note(&leads, at->audit, 1, NULL, err);
}

static hl_code try_findings(made *out, const bench *at, hl_err *err)
{
    size_t n = 0, size = 0;
    const hl_finding *findings = hl_audit_findings(at->audit, &n);
    hl_code code = HL_OK;
    for (size_t i = 0; code == HL_OK && i < n; i += 7) {
        char *text = NULL;
        if (findings[i].step < 0 || findings[i].verdict == HL_NOT_APPLICABLE)
            continue;
        code = hl_finding_text(&text, &size, at->audit, &findings[i], "Saved. C5", &page, err);
        hl_free(text);
        text = NULL;
        if (code == HL_OK)
            code = hl_reading_text(&text, &size, at->audit, &findings[i], err);
        hl_free(text);
        out->size += size;
        if (code == HL_OK && findings[i].n_corrections > 0) {
            code = hl_adjustment_text(&text, &size, at->book, findings[i].corrections, err);
            if (code == HL_OK)
                hl_free(text);
        }
    }
    return code;
}

static hl_code try_wide(made *out, const bench *at, hl_err *err)
{
    char *lost = NULL;
    const hl_code code = hl_sheet_as_wide(&out->text, &out->size, at->sheet, &lost, err);
    hl_free(lost);
    return code;
}

/* Printers of one line each. */
#define PRINTER(name, call)                                                                                  \
    static hl_code name(made *out, const bench *at, hl_err *err)                                             \
    {                                                                                                        \
        (void)at, (void)err;                                                                                 \
        return call;                                                                                         \
    }
#define TO &out->text, &out->size
static const hl_report for_owner = {.made = "2026-11-20", .owner = true};
static const hl_err some_err = {.code = HL_E_SHEET, .line = 3, .file = "a.csv", .what = "w", .todo = "t"};
PRINTER(try_text, hl_audit_text(TO, at->audit, &page, err))
PRINTER(try_json, hl_audit_json(TO, at->audit, err))
PRINTER(try_csv, hl_audit_csv(TO, at->audit, true, err))
PRINTER(try_why, hl_why_text(TO, at->audit, hl_book_find_step(at->book, "blow"), 1, &page, err))
PRINTER(try_learned, hl_learned_text(TO, at->audit, err))
PRINTER(try_plan_text, hl_plan_text(TO, at->plan, &page, err))
PRINTER(try_plan_json, hl_plan_json(TO, at->plan, err))
PRINTER(try_error_json, hl_error_json(TO, "a.csv", &some_err, 1, err))
PRINTER(try_error_csv, hl_error_csv(TO, "a.csv", &some_err, 1, err))
PRINTER(try_tap, hl_format_named("tap")->item(TO, at->audit, err))
PRINTER(try_junit, hl_format_named("junit")->item(TO, at->audit, err))
PRINTER(try_tap_refused, hl_format_named("tap")->refused(TO, "a.csv", &some_err, 1, err))
PRINTER(try_junit_refused, hl_format_named("junit")->refused(TO, "a.csv", &some_err, 1, err))
PRINTER(try_book_line, hl_book_line(TO, "a.lua", at->book, NULL, err))
PRINTER(try_book_text, hl_book_text(TO, at->book, &page, err))
PRINTER(try_step_text, hl_step_text(TO, at->book, hl_book_find_step(at->book, "blow"), 0, &page, err))
PRINTER(try_adjuster_text, hl_adjuster_text(TO, at->book, 0, 40, &page, err))
PRINTER(try_diff, hl_book_diff(TO, at->book, at->shop, &page, err))
PRINTER(try_blank, hl_sheet_blank(TO, at->book, err))
PRINTER(try_blank_facts, hl_sheet_blank_facts(TO, at->book, err))
PRINTER(try_tidy, hl_sheet_as_tidy(TO, at->sheet, err))
PRINTER(try_history, hl_history_text(TO, at->sheet, 1, -1, &page, err))
PRINTER(try_target, hl_target_text(TO, at->audit, 0, 0, err))
PRINTER(try_paragraph, hl_paragraph_text(TO, "ease the key, then read it again", 2, 4, &page, err))
PRINTER(try_report, hl_report_html(TO, at->audit, NULL, err))
PRINTER(try_owner, hl_report_html(TO, at->audit, &for_owner, err))
PRINTER(try_form, hl_form_html(TO, at->shop, err))

/* It has no err to fill: what it prints is one. */
static hl_code try_err_text(made *out, const bench *at, hl_err *err)
{
    (void)at;
    *err = (hl_err){.code = HL_E_MEMORY, .what = "no memory"};
    return hl_err_text(TO, &some_err);
}

static const struct {
    const char *name;
    work *work;
    bool book_only; /* the sheet is nothing to it */
} works[] = {
    {"open, read, judge, plan", try_judging, false},
    {"guarded, of a sample", try_guarded_sample, false},
    {"samples", try_samples, false},
    {"a book", try_book, true},
    {"check a book", try_book_check, true},
    {"run rule tests", try_rule_tests, true},
    {"create, open, append", try_journal, true},
    {"append after a last line end", try_journal_end, true},
    {"save a sheet", try_save, true},
    {"check a row", try_check_row, false},
    {"key leads", try_leads, false},
    {"findings at the bench", try_findings, false},
    {"audit as text", try_text, false},
    {"audit as JSON", try_json, false},
    {"audit as a table", try_csv, false},
    {"a verdict explained", try_why, false},
    {"what was learned", try_learned, false},
    {"plan as text", try_plan_text, false},
    {"plan as JSON", try_plan_json, false},
    {"error as JSON", try_error_json, true},
    {"error as a table", try_error_csv, true},
    {"audit as TAP", try_tap, false},
    {"audit as JUnit", try_junit, false},
    {"error as TAP", try_tap_refused, true},
    {"error as JUnit", try_junit_refused, true},
    {"a line of the books", try_book_line, true},
    {"book", try_book_text, true},
    {"step", try_step_text, true},
    {"adjuster", try_adjuster_text, true},
    {"two books", try_diff, true},
    {"blank sheet", try_blank, true},
    {"blank facts", try_blank_facts, true},
    {"as a tidy sheet", try_tidy, false},
    {"as a wide sheet", try_wide, false},
    {"history", try_history, false},
    {"target", try_target, false},
    {"paragraph", try_paragraph, true},
    {"record", try_report, false},
    {"for the owner", try_owner, false},
    {"form", try_form, true},
    {"error", try_err_text, true},
};

#endif
