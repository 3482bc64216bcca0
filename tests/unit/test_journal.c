/* test_journal.c - rows in a sheet's own order, marks and quotes; what is refused; new sheets.
 *
 * All rows are invented.  Expected lines are plain arithmetic on bytes, or RFC 4180 (Y. Shafranovich,
 * "Common Format and MIME Type for CSV Files", 2005) for the quoting. */
#include "csv.h"
#include "sheet.h"
#include "sheet_folder.h"
#include "small_book.h"

#include <sys/stat.h>

#define OTHER 65534 /* the usual number of the user who owns nothing */

/* ---- rows --------------------------------------------------------------------------------- */

static void rows_are_written_in_the_sheets_own_way(void **state)
{
    (void)state;
    static const struct {
        const char *head;
        hl_journal_row row;
        const char *line;
    } cases[] = {
        {"note,step,reading,time,by,method,remark\n",
         {"C4", "key_dip", "9.53", "2025-03-01T10:00", "ann", "block", "firm"},
         "C4,key_dip,9.53,2025-03-01T10:00,ann,block,firm\n"},
        {"note,step,reading\n", {.note = "C#4", .step = "drop", .reading = "1/8 in"}, "C#4,drop,1/8 in\n"},
        {"note,step,reading\n", {.step = "pass", .reading = "rough"}, ",pass,rough\n"},
        /* the sheet's order, and columns that are not ours */
        {"Remark,Room,Reading,Step,Note\n",
         {.note = "A0", .step = "blow", .reading = "46", .remark = "again"},
         "again,,46,blow,A0\n"},
        /* decimal comma with semicolons; the mark that the sheet already uses wins */
        {"note;step;reading\n",
         {.note = "C4", .step = "key_dip", .reading = "9.53 mm"},
         "C4;key_dip;9,53 mm\n"},
        {"note;step;reading\nA0;blow;46.5\n",
         {.note = "C4", .step = "key_dip", .reading = "9,53"},
         "C4;key_dip;9.53\n"},
        {"note,step,reading\n", {.note = "C4", .step = "key_dip", .reading = "9,53"}, "C4,key_dip,9.53\n"},
        {"note,step,reading\nA0,blow,\"46,5\"\n",
         {.note = "C4", .step = "key_dip", .reading = "9.53"},
         "C4,key_dip,\"9,53\"\n"},
        {"note\tstep\treading\n",
         {.note = "C4", .step = "key_dip", .reading = "-0.05"},
         "C4\tkey_dip\t-0.05\n"},
        {"note;step;reading\n",
         {.note = "C4", .step = "capstan", .reading = "+1/4 turn"},
         "C4;capstan;+1/4 turn\n"},
        {"note;step;reading\n",
         {.note = "C4", .step = "capstan", .reading = "raise 0.25 turn"},
         "C4;capstan;raise 0,25 turn\n"},
        {"note;step;reading\n",
         {.note = "C4", .step = "let_off", .reading = ".125in"},
         "C4;let_off;,125in\n"},
        /* three digits after a comma might be thousands, so the reader refuses them */
        {"key,step,reading\nA0,blow,\"46,5\"\n",
         {.note = "C4", .step = "key_dip", .reading = "9.535 mm"},
         "C4,key_dip,\"9,5350 mm\"\n"},
        /* words are left alone, numbers in them too */
        {"note;step;reading\n",
         {.note = "", .step = "fact", .reading = "travel_ratio = 5.2"},
         ";fact;travel_ratio = 5.2\n"},
        {"note;step;reading\n",
         {.note = "C4", .step = "query", .reading = "2.5 mm, or so?"},
         "C4;query;2.5 mm, or so?\n"},
        /* RFC 4180 section 2, rules 6 and 7 */
        {"note,step,reading,remark\n",
         {.note = "C4", .step = "query", .reading = "heavy, late", .remark = "said \"no\""},
         "C4,query,\"heavy, late\",\"said \"\"no\"\"\"\n"},
        {"note,step,reading,remark\n",
         {.note = "1", .step = "a", .reading = "3/8\"", .remark = " x"},
         "1,a,\"3/8\"\"\",\" x\"\n"},
        /* a remark of several lines is one line */
        {"note,step,reading,remark\n",
         {.note = "C4", .step = "blow", .reading = "46", .remark = "one\r\ntwo\nthree\tfour"},
         "C4,blow,46,one two three four\n"},
        {"note,step,reading,remark\r\n",
         {.note = "C4", .step = "blow", .reading = "46", .remark = "h\xC3\xB6her"},
         "C4,blow,46,h\xC3\xB6her\r\n"},
        {"\xEF\xBB\xBF"
         "# book: grand,,\r\n\"# piano: a, b\"\r\nnote,step,reading\r\n",
         {.note = "C4", .step = "blow", .reading = "46"},
         "C4,blow,46\r\n"},
        {"sep=;\nnote;step;reading\n", {.note = "C4", .step = "blow", .reading = "46,5"}, "C4;blow;46,5\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char expected[512];
        hl_err err;
        write_file("sheet.csv", cases[i].head);
        hl_journal *journal = open_journal("sheet.csv");
        if (hl_journal_append(journal, &cases[i].row, &err) != HL_OK) {
            fail_msg("row %zu: %s", i, err.what);
        }
        hl_journal_close(journal);
        snprintf(expected, sizeof expected, "%s%s", cases[i].head, cases[i].line);
        assert_file("sheet.csv", expected);
    }
}

static void rows_that_cannot_be_kept_are_refused(void **state)
{
    (void)state;
    char *longest = calloc(1, HL_CELL_MOST + 1);
    assert_non_null(longest);
    memset(longest, 'x', HL_CELL_MOST);
    const struct {
        hl_journal_row row;
        const char *because;
    } cases[] = {
        {{.note = "C4", .step = "blow", .reading = ""}, "the reading is empty"},
        {{.note = "C4", .step = "", .reading = "46"}, "the step is empty"},
        {{.note = "C4", .step = "blow", .reading = "46\n47"}, "the reading has a control character"},
        {{.note = "C4\t", .step = "blow", .reading = "46"}, "the note has a control character"},
        {{.note = "C4", .step = "blow", .reading = "4\x1B[2J"}, "the reading has a control character"},
        {{.note = "C4",
          .step = "blow",
          .reading = "\xC2\x9B"
                     "1"},
         "the reading has a control character"},
        {{.note = "C4", .step = "blow", .reading = "46\xFF"}, "the reading has bytes that are no UTF-8"},
        {{.note = "C4", .step = "blow", .reading = "46", .by = "ann"}, "the sheet has no column `by`"},
        {{.note = "C4", .step = "blow", .reading = "46", .method = "rule"},
         "the sheet has no column `method`"},
        {{.note = "C4", .step = "blow", .reading = "46", .remark = longest},
         "the remark is longer than 4095"},
    };
    write_file("sheet.csv", "note,step,reading,remark\n");
    hl_journal *journal = open_journal("sheet.csv");
    assert_true(hl_journal_has(journal, "remark"));
    assert_false(hl_journal_has(journal, "by"));
    assert_false(hl_journal_has(journal, "colour"));
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_refused(journal, &cases[i].row, cases[i].because);
    }
    assert_file("sheet.csv", "note,step,reading,remark\n");
    append(journal, "C4", "blow", "46"); /* a refusal costs nothing */
    assert_file("sheet.csv", "note,step,reading,remark\nC4,blow,46,\n");
    hl_journal_close(journal);
    free(longest);
}

static void only_tidy_sheets_are_opened(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        hl_code code;
        const char *because;
    } cases[] = {
        {"", HL_E_SHEET, "not a tidy sheet"},
        {"note,key_dip,blow\nA0,9.5,46\n", HL_E_SHEET, "not a tidy sheet"},
        {"# hammerline: tidy 1\n# book: grand\n", HL_E_SHEET, "not a tidy sheet"},
        {"# hammerline: tidy 1\nnote,step,reading", HL_E_SHEET, "no finished row of heads"},
        {"# hammerline: tidy 2\nnote,step,reading\n", HL_E_SHEET, "no column `entry`"},
        {"# hammerline: tidy 3\nnote,step,reading,entry\n", HL_E_SHEET, "neither `tidy 1` nor `tidy 2`"},
        {"note,step,reading,Step\n", HL_E_SHEET, "two columns are headed `step`"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_journal *journal;
        hl_err err;
        write_file("sheet.csv", cases[i].text);
        assert_int_equal(hl_journal_open(&journal, "sheet.csv", &err), cases[i].code);
        assert_null(journal);
        assert_non_null(strstr(err.what, cases[i].because));
        assert_string_equal(err.file, "sheet.csv");
        assert_file("sheet.csv", cases[i].text);
    }
}

/* The whole way: what the journal wrote is what the sheet reader has. */
static void the_reader_reads_what_was_written(void **state)
{
    (void)state;
    static const hl_journal_row rows[] = {
        {.step = "pass", .reading = "rough", .time = "2025-03-01T09:00"},
        {"C4", "blow", "46.25", "2025-03-01T10:00", "ann", "rule", "firm, \"good\" cloth"},
        {.note = "C4", .step = "repetition", .reading = "weak"},
        {.note = "C4", .step = "repetition", .reading = "void"},
        {.note = "C#4", .step = "drop", .reading = "within", .method = "drop block"},
        {.note = "D4", .step = "drop", .reading = "skip", .remark = "string off\nuntil Monday"},
        {.note = "C4", .step = "capstan", .reading = "+1/4 turn"},
        {.note = "C4", .step = "capstan", .reading = "lower 0.5 turn"},
        {.step = "fact", .reading = "travel_ratio = 5.2"},
        {.note = "C4", .step = "query", .reading = "heavy, after let-off?"},
        {.step = "una_corda", .reading = "ok"},
    };
    static const char *const heads[] = {
        "# hammerline: tidy 1\n# book: small\nnote,step,reading,time,by,method,remark\n",
        "# book: small;;\r\nremark;method;by;time;reading;step;note\r\n;;;;45,5;blow;C4\r\n",
        "# book: small\nnote\tstep\treading\ttime\tby\tmethod\tremark\n",
    };
    const size_t n = sizeof rows / sizeof *rows;
    hl_book *book = small_book();
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        hl_err err;
        hl_sheet *sheet;
        write_file("sheet.csv", heads[i]);
        hl_journal *journal = open_journal("sheet.csv");
        for (size_t k = 0; k < n; k++) {
            assert_int_equal(hl_journal_append(journal, &rows[k], &err), HL_OK);
        }
        hl_journal_close(journal);
        assert_int_equal(hl_sheet_open(&sheet, "sheet.csv", &err), HL_OK);
        if (hl_sheet_read(sheet, book, &err) != HL_OK) {
            fail_msg("sheet %zu, line %d: %s", i, err.line, err.what);
        }
        assert_int_equal(sheet->n_events, n + (i == 1));
        const hl_event *event = sheet->events + (i == 1);
        assert_int_equal(event[1].amount, 46250000);
        assert_int_equal(event[1].note, 40); /* C4 of 88 keys */
        assert_string_equal(hl__text_at(sheet, event[1].remark), "firm, \"good\" cloth");
        assert_int_equal(event[4].kind, HL_EVENT_WITHIN);
        assert_string_equal(hl__text_at(sheet, event[5].remark), "string off until Monday");
        assert_int_equal(event[6].amount, HL_ONE / 4);
        assert_int_equal(event[7].amount, -HL_ONE / 2);
        assert_int_equal(event[10].note, 0);
        hl_sheet_free(sheet);
    }
    small_book_free(book);
}

/* ---- rights --------------------------------------------------------------------------------- */

static void missing_rights_are_said(void **state)
{
    const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46"};
    hl_journal *journal;
    hl_err err;
    bool root = geteuid() == 0;
    write_file("sheet.csv", TOP);
    assert_int_equal(hl_journal_open(&journal, "none.csv", &err), HL_E_SHEET);
    assert_non_null(strstr(err.what, "no such file"));
    assert_int_equal(hl_journal_open(&journal, ".", &err), HL_E_SAVE);
    assert_int_equal(hl_journal_open(&journal, "/dev/null", &err), HL_E_SHEET);
    assert_non_null(strstr(err.what, "not an ordinary file"));
    if (root) { /* who may write everywhere is no test */
        assert_int_equal(chown(*state, OTHER, (gid_t)-1), 0);
        assert_int_equal(chown("sheet.csv", OTHER, (gid_t)-1), 0);
        assert_int_equal(seteuid(OTHER), 0);
    }
    chmod("sheet.csv", 0444);
    hl_code read_only = hl_journal_open(&journal, "sheet.csv", &err);
    hl_err read_only_err = err;
    chmod("sheet.csv", 0644);
    chmod(*state, 0555);
    hl_code no_folder = hl_journal_open(&journal, "sheet.csv", &err);
    hl_err no_folder_err = err, no_new_err;
    hl_code no_new = hl_journal_create("new.csv", "grand", NULL, &no_new_err);
    chmod(*state, 0755);
    if (root) {
        assert_int_equal(seteuid(0), 0);
    }
    assert_int_equal(read_only, HL_E_SAVE);
    assert_non_null(strstr(read_only_err.what, "read-only"));
    assert_int_equal(no_folder, HL_E_SAVE);
    assert_non_null(strstr(no_folder_err.what, "lock file"));
    assert_non_null(strstr(no_folder_err.todo, "folder writable"));
    assert_int_equal(no_new, HL_E_SAVE);
    assert_non_null(strstr(no_new_err.what, "you may not write there"));
    journal = open_journal("sheet.csv"); /* and with the right it goes */
    assert_int_equal(hl_journal_append(journal, &row, &err), HL_OK);
    hl_journal_close(journal);
}

/* ---- new sheets --------------------------------------------------------------------------- */

static void a_new_sheet_is_made_once(void **state)
{
    (void)state;
    hl_err err;
    const char *facts = "# piano: invented, \"1\"\n# travel_ratio: 5.1";
    const char *made = "# hammerline: tidy 2\n# book: grand\n\"# piano: invented, \"\"1\"\"\"\n"
                       "# travel_ratio: 5.1\nnote,step,reading,time,by,method,remark,entry\n";
    assert_int_equal(hl_journal_create("new.csv", "grand", facts, &err), HL_OK);
    assert_file("new.csv", made);
    assert_int_equal(hl_journal_create("new.csv", "upright", NULL, &err), HL_E_SAVE);
    assert_non_null(strstr(err.what, "already a file"));
    assert_file("new.csv", made);
    hl_journal *journal = open_journal("new.csv");
    append(journal, "C4", "blow", "46");
    hl_journal_close(journal);
    assert_int_equal(hl_journal_create("none/new.csv", "grand", NULL, &err), HL_E_SAVE);
    assert_non_null(strstr(err.what, "no such file or folder"));
    assert_int_equal(hl_journal_create("other.csv", "", NULL, &err), HL_E_USAGE);
    assert_int_equal(hl_journal_create("other.csv", "a\nb", NULL, &err), HL_E_USAGE);
    assert_int_equal(hl_journal_create("other.csv", "grand", "piano: x\n", &err), HL_E_USAGE);
    assert_non_null(strstr(err.what, "does not begin with #: piano: x"));
    assert_int_equal(access("other.csv", F_OK), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(rows_are_written_in_the_sheets_own_way),
        IN_FOLDER(the_reader_reads_what_was_written),
        IN_FOLDER(rows_that_cannot_be_kept_are_refused),
        IN_FOLDER(only_tidy_sheets_are_opened),
        IN_FOLDER(missing_rights_are_said),
        IN_FOLDER(a_new_sheet_is_made_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
