/* test_convert_saved.c - converted sheets on the disk: never over another file, whole, ready for the
 * walk's journal; and the shipped sheets there and back, judged alike. */
#include "hammerline.h"
#include "sheet_folder.h"

#include "shipped.h"

static char *read_whole(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 1u << 20);
    assert_non_null(text);
    *size = fread(text, 1, (1u << 20) - 1, file);
    fclose(file);
    return text;
}

static hl_sheet *read_text(const hl_book *book, const char *text)
{
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    if (hl_sheet_open_text(&sheet, "sheet.csv", text, strlen(text), &err) != HL_OK ||
        hl_sheet_read(sheet, book, &err) != HL_OK)
        fail_msg("%d: %s; %s", err.line, err.what, err.todo);
    return sheet;
}

static char *convert(const hl_book *book, const char *text, bool wide)
{
    hl_sheet *sheet = read_text(book, text);
    char *out = NULL, *lost = NULL;
    size_t size = 0;
    hl_err err = {0};
    const hl_code code =
        wide ? hl_sheet_as_wide(&out, &size, sheet, &lost, &err) : hl_sheet_as_tidy(&out, &size, sheet, &err);
    if (code != HL_OK)
        fail_msg("%s; %s", err.what, err.todo);
    hl_free(lost);
    hl_sheet_free(sheet);
    return out;
}

static char *print_audit(const hl_book *book, const char *text)
{
    hl_sheet *sheet = read_text(book, text);
    hl_audit *audit = NULL;
    hl_print print = {.width = 80};
    char *out = NULL;
    size_t size = 0;
    hl_err err = {0};
    assert_int_equal(hl_audit_run(&audit, sheet, book, NULL, &err), HL_OK);
    assert_int_equal(hl_audit_text(&out, &size, audit, &print, &err), HL_OK);
    hl_audit_free(audit);
    hl_sheet_free(sheet);
    return out;
}

/* Neither form changes a verdict: what the audit prints is the same to the letter. */
static void test_shipped_sheets(void **state)
{
    (void)state;
    static const char *const sheets[] = {"demo-grand.csv", "ready-grand.csv"};
    hl_book *book = open_shipped("grand");
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++) {
        char path[512];
        size_t size = 0;
        snprintf(path, sizeof path, "%s/%s", SHEETS_FOLDER, sheets[i]);
        char *text = read_whole(path, &size);
        char *tidy = convert(book, text, false), *wide = convert(book, tidy, true);
        char *one = print_audit(book, text), *two = print_audit(book, tidy), *three = print_audit(book, wide);
        assert_string_equal(one, two);
        assert_string_equal(one, three);
        hl_free(one);
        hl_free(two);
        hl_free(three);
        hl_free(tidy);
        hl_free(wide);
        free(text);
    }
    hl_book_free(book);
}

/* The new sheet takes readings at once, with the sheet's own separator and mark. */
static void test_journal_goes_on(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    hl_err err = {0};
    size_t size = 0;
    char *tidy = convert(book, "# book: grand\nnote;key_dip\nC4;10,05\n", false);
    assert_int_equal(hl_file_save("sheet.csv", tidy, strlen(tidy), false, &err), HL_OK);
    hl_journal *journal = open_journal("sheet.csv");
    append(journal, "C4", "key_dip", "10.2");
    hl_journal_close(journal);
    char *text = read_file("sheet.csv", &size);
    static const char BEFORE[] = "# hammerline: tidy 2\n# book: grand\n"
                                 "note;step;reading;time;by;method;remark;entry\n"
                                 "C4;key_dip;10,05;;;;;\nC4;key_dip;10,2;;;;;1.1/1 ";
    assert_memory_equal(text, BEFORE, sizeof BEFORE - 1);
    hl_sheet_free(read_text(book, text));
    free(text);
    hl_free(tidy);
    hl_book_free(book);
}

static hl_verified verify(const char *text)
{
    hl_sheet *sheet = NULL;
    hl_verified found;
    hl_err err = {0};
    assert_int_equal(hl_sheet_open_text(&sheet, "sheet.csv", text, strlen(text), &err), HL_OK);
    if (hl_sheet_verify(&found, sheet, &err) != HL_OK)
        fail_msg("%d: %s; %s", err.line, err.what, err.todo);
    hl_sheet_free(sheet);
    return found;
}

/* A row that withdraws another by its name still finds it: rows keep their marks, and the marks still fit. Of
 * the three readings (invented), what counts is the last that was not withdrawn. */
static void test_named_void_is_kept(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    hl_err err = {0};
    size_t size = 0;
    if (hl_journal_create("sheet.csv", "grand", "", &err) != HL_OK)
        fail_msg("%s; %s", err.what, err.todo);
    hl_journal *journal = open_journal("sheet.csv");
    append(journal, "C4", "key_dip", "10.1");
    append(journal, "C4", "key_dip", "10.3");
    append(journal, "C4", "key_dip", "9.9");
    append(journal, "C4", "key_dip", "void 2.1");
    hl_journal_close(journal);
    char *text = read_file("sheet.csv", &size);
    char *tidy = convert(book, text, false), *wide = convert(book, text, true);
    hl_verified found = verify(tidy);
    assert_int_equal(found.n_changes, 0);
    assert_int_equal(found.marked, 4);
    assert_int_equal(found.unmarked, 0);
    hl_verified_free(&found);
    char *one = print_audit(book, text), *two = print_audit(book, tidy), *three = print_audit(book, wide);
    assert_string_equal(one, two);
    assert_non_null(strstr(wide, "9.9"));
    assert_null(strstr(wide, "10.3"));
    /* the control: one digit more or less is seen */
    char *edited = strstr(tidy, "10.3");
    assert_non_null(edited);
    edited[3] = '4';
    found = verify(tidy);
    assert_int_equal(found.n_changes, 1);
    hl_verified_free(&found);
    hl_free(one);
    hl_free(two);
    hl_free(three);
    hl_free(tidy);
    hl_free(wide);
    free(text);
    hl_book_free(book);
    assert_int_equal(unlink("sheet.csv"), 0);
}

/* hl_journal_create takes the facts of a blank tidy sheet as they are. */
static void test_blank_tidy_sheet(void **state)
{
    (void)state;
    static const char *const books[] = {"grand", "upright"};
    for (size_t i = 0; i < sizeof books / sizeof *books; i++) {
        hl_book *book = open_shipped(books[i]);
        char *facts = NULL;
        size_t size = 0;
        hl_err err = {0};
        assert_int_equal(hl_sheet_blank_facts(&facts, &size, book, &err), HL_OK);
        if (hl_journal_create("new.csv", books[i], facts, &err) != HL_OK)
            fail_msg("%s; %s", err.what, err.todo);
        char *text = read_file("new.csv", &size);
        hl_sheet *sheet = read_text(book, text);
        assert_true(hl_sheet_is_tidy(sheet));
        assert_string_equal(hl_sheet_book_id(sheet), books[i]);
        hl_sheet_free(sheet);
        free(text);
        hl_free(facts);
        hl_book_free(book);
        assert_int_equal(unlink("new.csv"), 0);
    }
}

/* leave_folder() fails when a temporary file was left behind. */
static void test_never_over_a_file(void **state)
{
    (void)state;
    hl_err err = {0};
    write_file("sheet.csv", "somebody's\n");
    assert_int_equal(symlink("nowhere", "link.csv"), 0);
    assert_int_equal(hl_file_save("sheet.csv", "ours\n", 5, false, &err), HL_E_SAVE);
    assert_string_equal(err.file, "sheet.csv");
    assert_non_null(strstr(err.what, "already a file"));
    assert_int_equal(hl_file_save("link.csv", "ours\n", 5, false, &err), HL_E_SAVE);
    assert_int_equal(hl_file_save("no/such/folder.csv", "ours\n", 5, false, &err), HL_E_SAVE);
    assert_file("sheet.csv", "somebody's\n");
    assert_int_equal(hl_file_save("new.csv", "ours\n", 5, false, &err), HL_OK);
    assert_file("new.csv", "ours\n");
}

/* `replace` is for a file; a link, a folder or a pipe may be somebody's way to something else. */
static void test_replaced_when_told(void **state)
{
    (void)state;
    hl_err err = {0};
    write_file("sheet.csv", "the old one\n");
    assert_int_equal(symlink("sheet.csv", "link.csv"), 0);
    assert_int_equal(hl_file_save("link.csv", "new\n", 4, true, &err), HL_E_SAVE);
    assert_non_null(strstr(err.what, "no ordinary file"));
    assert_int_equal(hl_file_save(".", "new\n", 4, true, &err), HL_E_SAVE);
    assert_file("sheet.csv", "the old one\n");
    assert_int_equal(hl_file_save("sheet.csv", "new\n", 4, true, &err), HL_OK);
    assert_file("sheet.csv", "new\n");
    assert_int_equal(hl_file_save("new.csv", "new\n", 4, true, &err), HL_OK); /* nothing to replace */
    assert_file("new.csv", "new\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shipped_sheets), IN_FOLDER(test_journal_goes_on),
        IN_FOLDER(test_named_void_is_kept),    IN_FOLDER(test_blank_tidy_sheet),
        IN_FOLDER(test_never_over_a_file),     IN_FOLDER(test_replaced_when_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
