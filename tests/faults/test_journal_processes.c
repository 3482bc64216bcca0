/* test_journal_processes.c - eight sessions write one sheet at once: every row whole, none mixed.
 *
 * All rows are invented.  Every seventh remark is long, so that a row is not one disk block. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "entry_check.h"
#include "journal.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { WRITERS = 8, ROWS = 300, LONG = 3000 };

static const char *remark_of(char remark[LONG + 1], int writer, int row)
{
    int size = row % 7 == 0 ? LONG : 20 + row % 50;
    memset(remark, 'a' + writer, (size_t)size);
    remark[size] = '\0';
    return remark;
}

/* Says nothing: what counts is the sheet and the exit code. */
static int write_rows(int writer)
{
    hl_journal *journal;
    hl_err err;
    char reading[32], by[32], remark[LONG + 1];
    if (hl_journal_open(&journal, "sheet.csv", &err) != HL_OK) {
        return 1;
    }
    for (int i = 0; i < ROWS; i++) {
        snprintf(reading, sizeof reading, "%d.%03d", writer + 1, i);
        snprintf(by, sizeof by, "writer %d", writer);
        hl_journal_row row = {.note = "C4", .step = "key_dip", .reading = reading, .by = by};
        row.remark = remark_of(remark, writer, i);
        if (hl_journal_append(journal, &row, &err) != HL_OK) {
            return 2;
        }
    }
    hl_journal_close(journal);
    return 0;
}

static void read_sheet(int next[WRITERS])
{
    char line[LONG + 200], expected[LONG + 200], remark[LONG + 1];
    FILE *file = fopen("sheet.csv", "r");
    assert_non_null(file);
    for (int top = 0; top < 3; top++) {
        assert_non_null(fgets(line, sizeof line, file));
    }
    while (fgets(line, sizeof line, file) != NULL) {
        int writer = line[11] - '1'; /* after `C4,key_dip,` */
        assert_in_range(writer, 0, WRITERS - 1);
        int row = next[writer]++; /* each session's rows stand in the order it wrote them */
        snprintf(expected, sizeof expected, "C4,key_dip,%d.%03d,,writer %d,,%s,", writer + 1, row, writer,
                 remark_of(remark, writer, row));
        assert_memory_equal(line, expected, strlen(expected));
        assert_int_equal(line[strlen(line) - 1], '\n');
    }
    fclose(file);
}

/* One chain of entries through all sessions: none is missing, none stands twice. */
static void check_marks(void)
{
    static char bytes[4 << 20];
    hl_entries entries;
    hl_err err;
    FILE *file = fopen("sheet.csv", "r");
    assert_non_null(file);
    const size_t size = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    assert_true(size < sizeof bytes);
    assert_int_equal(hl__entries_check(&entries, "sheet.csv", bytes, size, &err), HL_OK);
    assert_int_equal(entries.n_changes, 0);
    assert_int_equal(entries.n_entries, WRITERS * ROWS);
    hl__entries_free(&entries);
}

static void eight_sessions_write_whole_rows(void **state)
{
    (void)state;
    const char *base = getenv("TMPDIR");
    char folder[512];
    hl_err err;
    pid_t child[WRITERS];
    int next[WRITERS] = {0};
    snprintf(folder, sizeof folder, "%s/journal-XXXXXX", base == NULL ? "/tmp" : base);
    assert_non_null(mkdtemp(folder));
    assert_int_equal(chdir(folder), 0);
    assert_int_equal(hl_journal_create("sheet.csv", "grand", NULL, &err), HL_OK);
    for (int i = 0; i < WRITERS; i++) {
        child[i] = fork();
        assert_true(child[i] >= 0);
        if (child[i] == 0) {
            _exit(write_rows(i));
        }
    }
    for (int i = 0; i < WRITERS; i++) {
        int status = -1;
        assert_int_equal(waitpid(child[i], &status, 0), child[i]);
        assert_true(WIFEXITED(status));
        assert_int_equal(WEXITSTATUS(status), 0);
    }
    read_sheet(next);
    check_marks();
    for (int i = 0; i < WRITERS; i++) {
        assert_int_equal(next[i], ROWS);
    }
    unlink("sheet.csv");
    unlink("sheet.csv.lock");
    assert_int_equal(chdir("/"), 0);
    assert_int_equal(rmdir(folder), 0); /* nothing was set aside, nothing left over */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(eight_sessions_write_whole_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
