/* sheet_folder.h - a folder for every journal test, files in it, and rows onto a sheet. */
#ifndef SHEET_FOLDER_H
#define SHEET_FOLDER_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "journal.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define TOP "# hammerline: tidy 1\n# book: grand\nnote,step,reading,time,by,method,remark\n"

#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, enter_folder, leave_folder)

static inline int enter_folder(void **state)
{
    const char *base = getenv("TMPDIR");
    char *folder = malloc(512);
    assert_non_null(folder);
    snprintf(folder, 512, "%s/journal-XXXXXX", base == NULL ? "/tmp" : base);
    assert_non_null(mkdtemp(folder));
    assert_int_equal(chdir(folder), 0);
    *state = folder;
    return 0;
}

static inline int leave_folder(void **state)
{
    static const char *const left[] = {"sheet.csv",    "sheet.csv.lock", "sheet.csv.torn",
                                       "new.csv",      "link.csv",       "other.csv",
                                       "new.csv.lock", "sub/sheet.csv",  "sub/sheet.csv.lock"};
    for (size_t i = 0; i < sizeof left / sizeof *left; i++) {
        unlink(left[i]);
    }
    rmdir("sub");
    assert_int_equal(chdir("/"), 0);
    int failed = rmdir(*state); /* fails when a temporary file was left behind */
    free(*state);
    return failed;
}

static inline void write_bytes(const char *path, const char *bytes, size_t size)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

static inline void write_file(const char *path, const char *text)
{
    write_bytes(path, text, strlen(text));
}

/* malloc'ed and NUL-terminated; NULL when there is no such file. */
static inline char *read_file(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return NULL;
    }
    char *text = calloc(1, 1u << 16);
    assert_non_null(text);
    *size = fread(text, 1, (1u << 16) - 1, file);
    fclose(file);
    return text;
}

static inline void assert_file(const char *path, const char *expected)
{
    size_t size;
    char *text = read_file(path, &size);
    assert_non_null(text);
    assert_string_equal(text, expected);
    assert_int_equal(size, strlen(expected));
    free(text);
}

static inline hl_journal *open_journal(const char *path)
{
    hl_journal *journal;
    hl_err err;
    if (hl_journal_open(&journal, path, &err) != HL_OK) {
        fail_msg("%s: %s", err.what, err.todo);
    }
    return journal;
}

static inline void append(hl_journal *journal, const char *note, const char *step, const char *reading)
{
    hl_err err;
    hl_journal_row row = {.note = note, .step = step, .reading = reading};
    if (hl_journal_append(journal, &row, &err) != HL_OK) {
        fail_msg("%s; %s", err.what, err.todo);
    }
    assert_string_equal(hl_journal_unsaved(journal), "");
}

/* The row can be typed again from the message. */
static inline void assert_refused(hl_journal *journal, const hl_journal_row *row, const char *because)
{
    hl_err err;
    assert_int_equal(hl_journal_append(journal, row, &err), HL_E_SAVE);
    if (strstr(err.what, because) == NULL) {
        fail_msg("\"%s\" does not say \"%s\"", err.what, because);
    }
    assert_non_null(strstr(err.what, "; not saved: "));
    assert_non_null(strstr(err.what, row->reading));
    assert_non_null(strstr(hl_journal_unsaved(journal), row->reading));
    assert_true(err.todo[0] != '\0');
    assert_true(err.file[0] != '\0');
}

#endif
