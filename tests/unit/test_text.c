/* test_text.c - growing texts, UTF-8, safe printing, the error record, and whole files. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "file.h"
#include "text.h"

static void pieces_join(void **state)
{
    (void)state;
    hl_text text = {0};
    hl_err err;
    for (int i = 1; i <= 88; i++) {
        hl__text_printf(&text, "%d", i);
        hl__text_char(&text, ',');
    }
    hl__text_spaces(&text, 3);
    hl__text_spaces(&text, -1);
    hl__text_add_n(&text, "doneX", 4);
    char *out = NULL;
    size_t size = 0;
    assert_int_equal(hl__text_take(&text, &out, &size, &err), HL_OK);
    /* 9 one-digit and 79 two-digit numbers, 88 commas, 3 blanks, 4 letters: arithmetic */
    assert_int_equal(size, 9 + 158 + 88 + 3 + 4);
    assert_int_equal(strlen(out), size);
    assert_memory_equal(out, "1,2,3,4,", 8);
    assert_string_equal(out + size - 12, "7,88,   done");
    assert_null(text.data);
    free(out);
}

static void an_empty_text_is_a_text(void **state)
{
    (void)state;
    hl_text text = {0};
    hl_err err;
    char *out = NULL;
    size_t size = 9;
    assert_int_equal(hl__text_take(&text, &out, &size, &err), HL_OK);
    assert_string_equal(out, "");
    assert_int_equal(size, 0);
    free(out);
}

static void a_failure_is_remembered(void **state)
{
    (void)state;
    hl_text text = {0};
    hl_err err;
    hl__text_add(&text, "blow");
    hl__text_add_n(&text, "", SIZE_MAX / 2); /* no machine has that: nothing is copied */
    assert_true(text.failed);
    hl__text_add(&text, "more");
    char *out = NULL;
    assert_int_equal(hl__text_take(&text, &out, NULL, &err), HL_E_MEMORY);
    assert_null(out);
    assert_int_equal(err.code, HL_E_MEMORY);
}

static void strange_texts_are_shown_not_obeyed(void **state)
{
    (void)state;
    static const struct {
        const char *raw, *safe;
    } texts[] = {
        {"F\xC3\xA4nger 15 mm", "F\xC3\xA4nger 15 mm"},
        {"\x1B[2Jcleared", "\\x1B[2Jcleared"},
        {"two\nlines\tand\r", "two\\x0Alines\\x09and\\x0D"},
        {"rub\x7F", "rub\\x7F"},
        {"c1 \xC2\x9B"
         "31m",
         "c1 <U+009B>31m"},
        {"\xE2\x80\xAE"
         "evil",
         "<U+202E>evil"},
        {"\xE2\x81\xA6isolate", "<U+2066>isolate"},
        {"bad \xFF\xC0\x80 end", "bad \\xFF\\xC0\\x80 end"},
        {"cut \xE2\x82", "cut \\xE2\\x82"},
        {"surrogate \xED\xA0\x80", "surrogate \\xED\\xA0\\x80"},
        {"\xF0\x9F\x8E\xB9", "\xF0\x9F\x8E\xB9"}, /* a keyboard */
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        hl_text text = {0};
        hl__text_safe(&text, texts[i].raw);
        assert_string_equal(text.data, texts[i].safe);
        hl__text_free(&text);
    }
}

/* The ranges of RFC 3629, section 4. */
static void utf8_takes_only_what_is_valid(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t size;
        int length;
        uint32_t point;
    } characters[] = {
        {"A", 1, 1, 0x41},
        {"\xC2\xB0", 2, 2, 0xB0},
        {"\xE2\x99\xAF", 3, 3, 0x266F},
        {"\xF4\x8F\xBF\xBF", 4, 4, 0x10FFFF},
        {"\xF4\x90\x80\x80", 4, 0, 0}, /* beyond */
        {"\xC1\xBF", 2, 0, 0},         /* overlong */
        {"\xE0\x9F\xBF", 3, 0, 0},     /* overlong */
        {"\xF0\x8F\xBF\xBF", 4, 0, 0}, /* overlong */
        {"\xED\xBF\xBF", 3, 0, 0},     /* surrogate */
        {"\x80", 1, 0, 0},
        {"\xE2\x99\xAF", 2, 0, 0}, /* cut */
        {"", 0, 0, 0},
    };
    for (size_t i = 0; i < sizeof characters / sizeof characters[0]; i++) {
        uint32_t point = 0;
        assert_int_equal(hl__utf8_next(characters[i].bytes, characters[i].size, &point),
                         characters[i].length);
        assert_int_equal(point, characters[i].point);
    }
}

static void width_counts_columns(void **state)
{
    (void)state;
    assert_int_equal(hl__text_width(""), 0);
    assert_int_equal(hl__text_width("let-off"), 7);
    assert_int_equal(hl__text_width("H\xC3\xB6he"), 4);
    assert_int_equal(hl__text_width("Ho\xCC\x88he"), 4); /* o and a combining diaeresis */
    assert_int_equal(hl__text_width("\xFFx"), 2);
}

static void blanks_of_spreadsheets(void **state)
{
    (void)state;
    assert_int_equal(hl__text_blanks("  \t10", 5), 3);
    assert_int_equal(hl__text_blanks("\xC2\xA0mm", 4), 2);
    assert_int_equal(hl__text_blanks("\xE2\x80\xAFmm", 5), 3);
    assert_int_equal(hl__text_blanks("\nmm", 3), 0);
    assert_int_equal(hl__text_blanks("   ", 2), 2);
}

static void errors_are_cut_at_whole_characters(void **state)
{
    (void)state;
    hl_err err;
    char words[600];
    for (size_t lead = 0; lead < 4; lead++) {
        size_t at = lead;
        memset(words, '.', lead);
        while (at + 3 < sizeof words) {
            memcpy(words + at, "\xE2\x99\xAF", 3);
            at += 3;
        }
        words[at] = '\0';
        assert_int_equal(hl__fail(&err, HL_E_SHEET, "%s", words), HL_E_SHEET);
        size_t size = strlen(err.what);
        assert_true(size >= sizeof err.what - 4 && size < sizeof err.what);
        assert_int_equal((size - lead) % 3, 0);
        assert_memory_equal(err.what, words, size);
    }
}

static void an_error_says_what_where_and_what_to_do(void **state)
{
    (void)state;
    hl_err err;
    memset(&err, 'x', sizeof err);
    hl__fail(&err, HL_E_RULE, "'%s' is not a step", "let_of");
    assert_string_equal(err.todo, "");
    assert_string_equal(err.file, "");
    assert_int_equal(err.line, 0);
    assert_int_equal(hl__todo(&err, "'%s' was perhaps meant", "let_off"), HL_E_RULE);
    assert_int_equal(hl__at(&err, "shop.lua", 7, 3), HL_E_RULE);
    assert_string_equal(err.what, "'let_of' is not a step");
    assert_string_equal(err.todo, "'let_off' was perhaps meant");
    assert_string_equal(err.file, "shop.lua");
    assert_int_equal(err.line, 7);
    assert_int_equal(err.column, 3);
    hl__fail(&err, HL_E_RULE, "in a book: %s", err.what); /* from its own words */
    assert_string_equal(err.what, "in a book: 'let_of' is not a step");
}

static void a_long_path_keeps_its_end(void **state)
{
    (void)state;
    hl_err err;
    char path[700];
    memset(path, 'd', sizeof path);
    strcpy(path + sizeof path - 12, "/sheet.csv");
    hl__fail(&err, HL_E_SHEET, "bad");
    hl__at(&err, path, 1, 0);
    size_t size = strlen(err.file);
    assert_int_equal(size, sizeof err.file - 1);
    assert_memory_equal(err.file, "...", 3);
    assert_string_equal(err.file + size - 10, "/sheet.csv");
}

/* ---- files ---- */

static char FOLDER[] = "hl_test_text_XXXXXX";

static int make_folder(void **state)
{
    (void)state;
    return mkdtemp(FOLDER) != NULL && chdir(FOLDER) == 0 ? 0 : -1;
}

static int remove_folder(void **state)
{
    (void)state;
    remove("sheet.csv");
    remove("pipe");
    return chdir("..") == 0 && rmdir(FOLDER) == 0 ? 0 : -1;
}

static void write_file(const char *bytes, size_t size)
{
    FILE *file = fopen("sheet.csv", "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

static void whole_files_are_read(void **state)
{
    (void)state;
    static const size_t sizes[] = {0, 1, 65534, 65535, 65536, 65537, 300000};
    char *bytes = malloc(300000);
    assert_non_null(bytes);
    for (size_t i = 0; i < 300000; i++) {
        bytes[i] = (char)(i * 7 % 251);
    }
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        hl_err err;
        char *out = NULL;
        size_t size = 0;
        write_file(bytes, sizes[i]);
        assert_int_equal(hl__file_read(&out, &size, "sheet.csv", 300000, HL_E_SHEET, &err), HL_OK);
        assert_int_equal(size, sizes[i]);
        assert_memory_equal(out, bytes, size);
        assert_int_equal(out[size], '\0');
        free(out);
        if (sizes[i] > 0) { /* one byte too many */
            assert_int_equal(hl__file_read(&out, &size, "sheet.csv", sizes[i] - 1, HL_E_SHEET, &err),
                             HL_E_SHEET);
            assert_null(out);
            assert_non_null(strstr(err.what, "longer than"));
        }
    }
    free(bytes);
    assert_true(hl__file_exists("sheet.csv"));
}

static void a_pipe_is_read_to_its_end(void **state)
{
    (void)state;
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    assert_int_equal(write(ends[1], "A0,10.2\n", 8), 8);
    close(ends[1]);
    char path[40];
    snprintf(path, sizeof path, "/dev/fd/%d", ends[0]);
    hl_err err;
    char *out = NULL;
    size_t size = 0;
    assert_int_equal(hl__file_read(&out, &size, path, 7, HL_E_SHEET, &err), HL_E_SHEET);
    assert_null(out);
    close(ends[0]);
    assert_int_equal(pipe(ends), 0);
    assert_int_equal(write(ends[1], "A0,10.2\n", 8), 8);
    close(ends[1]);
    snprintf(path, sizeof path, "/dev/fd/%d", ends[0]);
    assert_int_equal(hl__file_read(&out, &size, path, 8, HL_E_SHEET, &err), HL_OK);
    assert_string_equal(out, "A0,10.2\n");
    free(out);
    close(ends[0]);
}

static void what_is_no_file_is_refused(void **state)
{
    (void)state;
    static const struct {
        const char *path, *says;
    } refused[] = {
        {"nowhere.csv", "no such file"},
        {"sheet.csv/x", "no such file"},
        {".", "a folder"},
        {"/dev/null", "a device"},
    };
    write_file("x", 1);
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        hl_err err;
        char *out = NULL;
        size_t size = 0;
        assert_int_equal(hl__file_read(&out, &size, refused[i].path, 10, HL_E_RULE, &err), HL_E_RULE);
        assert_null(out);
        assert_non_null(strstr(err.what, refused[i].says));
        assert_string_equal(err.file, refused[i].path);
        assert_true(err.todo[0] != '\0');
        assert_false(hl__file_exists(refused[i].path));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_join),
        cmocka_unit_test(an_empty_text_is_a_text),
        cmocka_unit_test(a_failure_is_remembered),
        cmocka_unit_test(strange_texts_are_shown_not_obeyed),
        cmocka_unit_test(utf8_takes_only_what_is_valid),
        cmocka_unit_test(width_counts_columns),
        cmocka_unit_test(blanks_of_spreadsheets),
        cmocka_unit_test(errors_are_cut_at_whole_characters),
        cmocka_unit_test(an_error_says_what_where_and_what_to_do),
        cmocka_unit_test(a_long_path_keeps_its_end),
        cmocka_unit_test(whole_files_are_read),
        cmocka_unit_test(a_pipe_is_read_to_its_end),
        cmocka_unit_test(what_is_no_file_is_refused),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
