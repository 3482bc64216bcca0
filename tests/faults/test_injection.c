/* Text of a sheet or a rule file that means harm to what it is printed on: a terminal, a browser, a
 * spreadsheet, a program that reads JSON.
 *
 * The payloads: CWE-150 and CVE-2023-30844 (terminals), CVE-2021-42574 (directions of writing), OWASP's
 * lists of script and of formula injection.  Each stands in every place that takes free text, and what
 * is printed must hold it as text, visibly, or not at all. */
#include "rule_folder.h"

#include "text.h"

#include <jansson.h>

static const struct {
    const char *text;
    const char *left; /* what must still be seen of it */
} payloads[] = {
    {"\x1b[2J\x1b[1;32mPASS\x1b[0m", "[2J"},          /* clears the screen, paints a word */
    {"\x1b]0;title\x07", "]0;title"},                 /* sets the window's title */
    {"\x1b]52;c;ZXZpbA==\x07", "]52;c;"},             /* fills the clipboard */
    {"\x1b]8;;http://example.org\x1b\\link", "link"}, /* a link that lies */
    {"\xc2\x9b"
     "31mred",
     "31mred"},                               /* the same by one C1 character */
    {"fail\b\b\b\bpass", "fail"},             /* overtypes */
    {"\xe2\x80\xaessap\xe2\x80\xac", "ssap"}, /* written from right to left: pass */
    {"\xe2\x81\xa6hid\xe2\x81\xa9", "hid"},   /* an isolate */
    {"\x7f"
     "del",
     "del"},
    {"</script><svg onload=alert(1)>", "svg onload"},
    {"\"><img src=x onerror=alert(1)>", "img src"},
    {"\" onmouseover=\"alert(1)", "onmouseover"},
    {"<!--", "!--"},
    {"]]><fuzz>", "fuzz"},
    {"javascript:alert(1)", "javascript"},
    {"&lt;b&gt;", "b"},
    {"line\xe2\x80\xa8separator", "separator"},
    {"=1+cmd|' /C calc'!A0", "cmd"},
    {"+1+2", "1+2"},
    {"-2+3", "2+3"},
    {"@SUM(A1)", "SUM"},
    {" =HYPERLINK(1)", "HYPERLINK"},
    {"\xc2\xa0=1", "=1"},
    {"\xef\xbc\x9d"
     "1",
     "1"},
};
#define PAYLOADS (sizeof payloads / sizeof *payloads)

static hl_book *open_tiny(void)
{
    static const char *const folders[] = {SHEETS_FOLDER "/../tests/golden/rules"};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    hl_book *book = NULL;
    hl_err err;
    if (hl_book_open(&book, "tiny", &shelf, &err) != HL_OK)
        fail_msg("%s:%d: %s", err.file, err.line, err.what);
    return book;
}

static void add_cell(hl_text *to, const char *text)
{
    hl__text_char(to, '"');
    for (const char *c = text; *c; c++) {
        if (*c == '"')
            hl__text_char(to, '"');
        hl__text_char(to, *c);
    }
    hl__text_char(to, '"');
}

static void add_fact(hl_text *to, const char *id, const char *text)
{
    hl_text line = {0};
    hl__text_printf(&line, "# %s: %s", id, text);
    add_cell(to, line.data);
    hl__text_char(to, '\n');
    hl__text_free(&line);
}

/* A sheet with the text in every place that takes one; `plain` in their stead to begin with. */
static char *write_sheet(const char *text)
{
    static const char *const facts[] = {"piano", "place", "date", "by", "checked_by", "workshop", "remark"};
    static const char *const rows[] = {"A4,blow,44,,", "A4,key_dip,9.2,,", "C5,repetition,skip,,",
                                       "C5,query,open,,", "C5,blow,45,,"};
    hl_text sheet = {0};
    hl__text_add(&sheet, "# hammerline: tidy 1\n# book: tiny\n");
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++)
        add_fact(&sheet, facts[i], text);
    hl__text_add(&sheet, "note,step,reading,time,by,method,remark\n,pass,before,,,,\n");
    hl__text_add(&sheet, "A4,blow,43,,,,\nC5,blow,44,,,,\n,pass,");
    add_cell(&sheet, text);
    hl__text_add(&sheet, ",,,,\n");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        hl__text_add(&sheet, rows[i]);
        add_cell(&sheet, text);
        hl__text_add(&sheet, ",,");
        add_cell(&sheet, text);
        hl__text_char(&sheet, '\n');
    }
    assert_false(sheet.failed);
    return sheet.data;
}

/* ---- what each kind of output must never hold ---------------------------------------------------- */

static void check_terminal(const char *what, const char *payload, const char *text, size_t size)
{
    for (size_t i = 0; i < size;) {
        uint32_t point = 0;
        const int taken = hl__utf8_next(text + i, size - i, &point);
        const bool bad = taken == 0 || (point < 0x20 && point != '\n') || (point >= 0x7f && point <= 0x9f) ||
                         (point >= 0x202a && point <= 0x202e) || (point >= 0x2066 && point <= 0x2069) ||
                         point == 0x200e || point == 0x200f;
        if (bad)
            fail_msg("%s with %s holds U+%04X at %zu", what, payload, (unsigned)point, i);
        i += (size_t)taken;
    }
}

static void check_seen(const char *what, const char *left, const char *text)
{
    if (strstr(text, left) == NULL)
        fail_msg("%s does not show \"%s\"", what, left);
}

/* Ours are all the tags; the payloads' are text. */
static void check_html(const char *what, const char *payload, const char *text, size_t size)
{
    static const char *const never[] = {
        "<script", "<img", "<fuzz", "<svg onload", "<!--", "onerror=\"", "onerror=alert(1)>"};
    check_terminal(what, payload, text, size);
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (strstr(text, never[i]) != NULL)
            fail_msg("%s with %s holds %s", what, payload, never[i]);
    /* Inside a tag and outside its quotes nothing of a payload stands. */
    bool tag = false, quoted = false;
    for (const char *c = text; *c; c++) {
        tag = !tag ? *c == '<' : quoted || *c != '>';
        quoted = tag && (*c == '"' ? !quoted : quoted);
        if (tag && !quoted && (strncmp(c, " on", 3) == 0 || strncmp(c, "alert", 5) == 0))
            fail_msg("%s with %s: a tag holds %.30s", what, payload, c);
    }
}

/* No cell of the table begins as a formula: a quote or nothing, then a formula's sign. */
static void check_table(const char *payload, const char *text)
{
    bool at_start = true, quoted = false;
    for (const char *c = text; *c; c++) {
        if (at_start && *c != '"' && *c != ',' && *c != '\r' && *c != '\n') {
            const bool number = *c == '-' && c[1] >= '0' && c[1] <= '9' && !quoted;
            if (strchr("=+-@\t", *c) != NULL && !number)
                fail_msg("the table with %s has a cell that begins with %.12s", payload, c);
            at_start = false;
        }
        if (*c == '"')
            quoted = !quoted;
        if (!quoted && (*c == ',' || *c == '\n'))
            at_start = true;
    }
}

static void check_json(const char *payload, const char *text, size_t size)
{
    json_error_t error;
    json_t *root = json_loadb(text, size, JSON_REJECT_DUPLICATES, &error);
    if (root == NULL)
        fail_msg("JSON with %s, line %d: %s", payload, error.line, error.text);
    json_decref(root);
    assert_null(strstr(text, "</script"));
    assert_null(strstr(text, "\xe2\x80\xa8")); /* ends a line of a script */
}

/* ---- a sheet's text ------------------------------------------------------------------------------ */

static const hl_print page = {.width = 400}; /* so that nothing is broken in two */

static void check_audit(const hl_audit *audit, size_t i)
{
    const hl_report owner = {.owner = true};
    char *text = NULL;
    size_t size = 0, n = 0;
    hl_err err;
    const char *payload = payloads[i].text;
    assert_int_equal(hl_audit_text(&text, &size, audit, &page, &err), HL_OK);
    check_terminal("the audit", payload, text, size);
    check_seen("the audit", payloads[i].left, text);
    hl_free(text);
    assert_int_equal(hl_audit_json(&text, &size, audit, &err), HL_OK);
    check_json(payload, text, size);
    hl_free(text);
    assert_int_equal(hl_audit_csv(&text, &size, audit, true, &err), HL_OK);
    check_table(payload, text);
    hl_free(text);
    assert_int_equal(hl_report_html(&text, &size, audit, NULL, &err), HL_OK);
    check_html("the record", payload, text, size);
    hl_free(text);
    assert_int_equal(hl_report_html(&text, &size, audit, &owner, &err), HL_OK);
    check_html("the owner's page", payload, text, size);
    hl_free(text);
    const hl_finding *findings = hl_audit_findings(audit, &n);
    for (size_t k = 0; k < n; k++) {
        if (findings[k].step < 0 || findings[k].verdict == HL_NOT_APPLICABLE)
            continue;
        assert_int_equal(hl_finding_text(&text, &size, audit, &findings[k], "Saved.", &page, &err), HL_OK);
        check_terminal("a finding", payload, text, size);
        hl_free(text);
    }
}

static void check_sheet(const hl_sheet *sheet, const hl_audit *audit, size_t i)
{
    hl_plan *plan = NULL;
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const int note = hl_note_parse(hl_sheet_compass(sheet), "C5");
    assert_int_equal(hl_history_text(&text, &size, sheet, note, -1, &page, &err), HL_OK);
    check_terminal("the history", payloads[i].text, text, size);
    hl_free(text);
    assert_int_equal(hl_plan_run(&plan, audit, NULL, &err), HL_OK);
    assert_int_equal(hl_plan_text(&text, &size, plan, &page, &err), HL_OK);
    check_terminal("the plan", payloads[i].text, text, size);
    hl_free(text);
    assert_int_equal(hl_plan_json(&text, &size, plan, &err), HL_OK);
    check_json(payloads[i].text, text, size);
    hl_free(text);
    hl_plan_free(plan);
}

static void test_text_of_a_sheet(void **state)
{
    (void)state;
    hl_book *book = open_tiny();
    for (size_t i = 0; i < PAYLOADS; i++) {
        hl_sheet *sheet = NULL;
        hl_audit *audit = NULL;
        hl_err err = {0};
        char *text = write_sheet(payloads[i].text);
        hl_code code = hl_sheet_open_text(&sheet, payloads[i].text, text, strlen(text), &err);
        if (code == HL_OK)
            code = hl_sheet_read(sheet, book, &err);
        if (code != HL_OK) {
            char *said = NULL;
            size_t size = 0;
            assert_int_equal(hl_err_text(&said, &size, &err), HL_OK);
            print_message("refused: %s", said);
            check_terminal("a complaint", payloads[i].text, said, size);
            hl_free(said);
        }
        assert_non_null(sheet);
        assert_int_equal(hl_audit_run(&audit, sheet, book, NULL, &err), HL_OK);
        check_audit(audit, i);
        check_sheet(sheet, audit, i);
        hl_audit_free(audit);
        hl_sheet_free(sheet);
        free(text);
    }
    hl_book_free(book);
}

/* What can't be read is quoted in the complaint: note, step, reading, head and fact. */
static void test_text_in_complaints(void **state)
{
    (void)state;
    static const char *const sheets[] = {"note,blow\n%s,46\n",      "note,blow\nA4,%s\n",
                                         "note,%s\nA4,46\n",        "# blow%s: 5\nnote,blow\nA4,46\n",
                                         "# book: %s\nnote,blow\n", "note,step,reading\nA4,%s,46\n"};
    hl_book *book = open_tiny();
    for (size_t i = 0; i < PAYLOADS; i++) {
        for (size_t k = 0; k < sizeof sheets / sizeof *sheets; k++) {
            char text[400], *said = NULL;
            hl_sheet *sheet = NULL;
            hl_err err = {0};
            size_t size = 0;
            const int n = snprintf(text, sizeof text, sheets[k], payloads[i].text);
            if (hl_sheet_open_text(&sheet, "a.csv", text, (size_t)n, &err) == HL_OK &&
                hl_sheet_read(sheet, book, &err) == HL_OK) {
                hl_sheet_free(sheet);
                continue;
            }
            assert_int_equal(hl_err_text(&said, &size, &err), HL_OK);
            check_terminal("a complaint", payloads[i].text, said, size);
            hl_free(said);
            assert_int_equal(hl_error_json(&said, &size, "a.csv", &err, 1, &err), HL_OK);
            check_json(payloads[i].text, said, size);
            hl_free(said);
            hl_sheet_free(sheet);
        }
    }
    hl_book_free(book);
}

/* ---- a rule file's text -------------------------------------------------------------------------- */

/* As a Lua text: every byte as \ddd. */
static void add_lua(hl_text *to, const char *text)
{
    hl__text_char(to, '"');
    for (const char *c = text; *c; c++)
        hl__text_printf(to, "\\%03d", (unsigned char)*c);
    hl__text_char(to, '"');
}

static void write_book(rule_folder *folder, const char *payload)
{
    hl_text step = {0}, book = {0}, lua = {0};
    add_lua(&lua, payload);
    hl__text_printf(&step,
                    "return step { id = 'blow', title = %s, stage = 'set', unit = 'mm', ask = %s, why = %s,\n"
                    "  caution = %s, method = %s, source = %s, resolution = 0.1, fix = { 'screw' },\n"
                    "  target = range(45, 47) }\n",
                    lua.data, lua.data, lua.data, lua.data, lua.data, lua.data);
    hl__text_printf(
        &book,
        "return book { id = 'h', api = 1, title = %s, stage { 'set', title = %s, caution = %s },\n"
        "  adjuster { 'screw', title = %s, verb = 'turn', unit = 'turn', finest = 1/8, more = 'in',\n"
        "    less = 'out', source = %s, moves = { blow = 1 } }, use 'blow' }\n",
        lua.data, lua.data, lua.data, lua.data, lua.data);
    assert_false(step.failed || book.failed || lua.failed);
    open_folder(folder);
    write_rule(folder, "blow", step.data);
    write_rule(folder, "h", book.data);
    hl__text_free(&step);
    hl__text_free(&book);
    hl__text_free(&lua);
}

static void check_book(const hl_book *book, size_t i)
{
    static const char sheet_text[] = "note,blow\nA4,44\n";
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    assert_int_equal(hl_book_text(&text, &size, book, &page, &err), HL_OK);
    check_terminal("the book", payloads[i].text, text, size);
    check_seen("the book", payloads[i].left, text);
    hl_free(text);
    assert_int_equal(hl_step_text(&text, &size, book, 0, 0, &page, &err), HL_OK);
    check_terminal("the step", payloads[i].text, text, size);
    hl_free(text);
    assert_int_equal(hl_form_html(&text, &size, book, &err), HL_OK);
    check_html("the form", payloads[i].text, text, size);
    hl_free(text);
    assert_int_equal(hl_sheet_open_text(&sheet, "a.csv", sheet_text, sizeof sheet_text - 1, &err), HL_OK);
    assert_int_equal(hl_sheet_read(sheet, book, &err), HL_OK);
    assert_int_equal(hl_audit_run(&audit, sheet, book, NULL, &err), HL_OK);
    check_audit(audit, i);
    hl_audit_free(audit);
    hl_sheet_free(sheet);
}

static void test_text_of_a_rule_file(void **state)
{
    (void)state;
    for (size_t i = 0; i < PAYLOADS; i++) {
        rule_folder folder;
        hl_book *book = NULL;
        hl_err err = {0};
        write_book(&folder, payloads[i].text);
        if (open_book(&folder, "h", &book, &err) != HL_OK)
            fail_msg("%s; %s", err.what, err.todo);
        check_book(book, i);
        hl_book_free(book);
        close_folder(&folder);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_text_of_a_sheet),
                                       cmocka_unit_test(test_text_in_complaints),
                                       cmocka_unit_test(test_text_of_a_rule_file)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
