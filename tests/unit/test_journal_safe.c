/* test_journal_safe.c - what is said to be saved is there, and nothing half ever is a reading.
 *
 * All rows are invented; what must be left of a file is plain arithmetic on bytes. */
#include "csv.h"
#include "sheet_folder.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>

/* ---- a cut at every byte ------------------------------------------------------------------ */

typedef struct reading {
    char text[128]; /* note, step, reading, method */
} reading;

/* What a reader makes of the sheet; asserts that it is clean CSV. */
static int list_readings(reading *out, const char *text, size_t size, char separator)
{
    hl_csv csv;
    hl_err err;
    int count = 0, n, line, place[4] = {-1, -1, -1, -1};
    static const char *const names[] = {"note", "step", "reading", "method"};
    assert_int_equal(hl__csv_start(&csv, "sheet.csv", text, size, separator, &err), HL_OK);
    while (hl__csv_row(&csv, &n, &line, &err) == HL_OK && n > 0) {
        if (csv.cells[0].text[0] == '#') {
            continue;
        }
        if (place[1] < 0) {
            for (int i = 0; i < n; i++) {
                for (int k = 0; k < 4; k++) {
                    place[k] = strcmp(csv.cells[i].text, names[k]) == 0 ? i : place[k];
                }
            }
            continue;
        }
        out[count] = (reading){""}; /* compared whole, so no leftovers */
        for (int k = 0; k < 4; k++) {
            assert_true(place[k] < n);
            size_t used = strlen(out[count].text);
            snprintf(out[count].text + used, sizeof out->text - used, "%s|",
                     place[k] < 0 ? "" : csv.cells[place[k]].text);
        }
        count++;
    }
    assert_int_equal(n, 0);
    assert_true(csv.at == csv.end);
    hl__csv_end(&csv);
    return count;
}

static size_t whole_part(const char *text, size_t size)
{
    while (size > 0 && text[size - 1] != '\n' && text[size - 1] != '\r') {
        size--;
    }
    return size;
}

/* Where the last three lines begin. */
static size_t last_three(const char *text)
{
    size_t at = strlen(text);
    for (int lines = 0; lines < 3; lines++) {
        at = whole_part(text, at - (text[at - 2] == '\r' ? 2 : 1));
    }
    return at;
}

static const char *const versioned[] = {
    TOP "A0,blow,46.25,2025-03-01T09:58,ann,rule,\n"
        "C4,key_dip,9.53,2025-03-01T10:00,ann,block,\"firm, \"\"good\"\" cloth\"\n"
        "C#4,key_dip,within,2025-03-01T10:01,ann,dip block,h\xC3\xB6her als sonst\n"
        "12,capstan,+1/4 turn,2025-03-01T10:02,ann,,\n",
    "# hammerline: tidy 1\nnote,step,reading\nC4,key_dip,9.53\nC4,key_dip,9.535\n12,drop,1.75\n",
    "\"# hammerline: tidy 1\";\r\nreading;note;step\r\n9,53;C4;key_dip\r\n9,5;1;drop\r\n9,535;12;drop_b\r\n",
};

static void a_cut_row_is_set_aside_and_nothing_else(void **state)
{
    (void)state;
    static const char separators[] = {',', ',', ';'};
    reading was[16], is[16];
    for (size_t i = 0; i < sizeof versioned / sizeof *versioned; i++) {
        const char *text = versioned[i];
        size_t full = strlen(text);
        for (size_t cut = last_three(text); cut <= full; cut++) {
            size_t whole = whole_part(text, cut), size = 0;
            unlink("sheet.csv.torn");
            write_bytes("sheet.csv", text, cut);
            hl_journal *journal = open_journal("sheet.csv");
            assert_int_equal(hl_journal_torn(journal)[0] != '\0', whole < cut);
            char *kept = read_file("sheet.csv.torn", &size);
            if (whole == cut) {
                assert_null(kept);
            } else {
                assert_int_equal(size, cut - whole + 1);
                assert_true(memcmp(kept, text + whole, cut - whole) == 0);
                assert_int_equal(kept[size - 1], '\n');
            }
            free(kept);
            char *left = read_file("sheet.csv", &size);
            assert_int_equal(size, whole);
            assert_true(memcmp(left, text, whole) == 0);
            free(left);

            append(journal, "C8", "blow", "47");
            hl_journal_close(journal);
            left = read_file("sheet.csv", &size);
            int before = list_readings(was, text, whole, separators[i]);
            assert_int_equal(list_readings(is, left, size, separators[i]), before + 1);
            assert_true(memcmp(was, is, sizeof *was * (size_t)before) == 0);
            assert_non_null(strstr(is[before].text, "C8|blow|47|"));
            free(left);
        }
    }
}

/* Without the version line a missing last line end is either accepted with the readings as they
 * were, or refused with the file untouched; a cut number is never accepted. */
static void a_foreign_last_line_is_never_guessed(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        char separator;
        int accepted; /* cuts that are accepted, of those that leave no line end */
    } cases[] = {
        /* each line: after its sixth comma; the bytes of the remark, `good` in quotes only closed */
        {"note,step,reading,time,by,method,remark\nC4,key_dip,9.53,,ann,rule,good\n"
         "C4,key_dip,9.535,,ann,block,\"a, b\"\n12,drop,1.75,,ann,,\n",
         ',', 5 + 2 + 1},
        /* an unquoted reading, note or method at the end is never sure */
        {"note,step,reading\nC4,key_dip,9.53\nC4,key_dip,9.535\n12,drop,1.75\n", ',', 0},
        {"reading;step;note\n9,53;key_dip;C4\n9,535;key_dip;C4\n1,75;drop;12\n", ';', 0},
        {"note,step,reading,method\r\nC4,dip,within,long block\r\n1,dip,9.5,\r\n2,dip,9.5,rule\r\n", ',', 0},
        /* in quotes it is, once they are closed */
        {"note,step,reading\nC4,key_dip,\"9.53\"\nC4,key_dip,\"9.535\"\n12,drop,\"1.75\"\n", ',', 3},
    };
    reading was[16], is[16];
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *text = cases[i].text;
        size_t full = strlen(text), size = 0;
        int accepted = 0, all = list_readings(was, text, full, cases[i].separator);
        for (size_t cut = last_three(text); cut <= full; cut++) {
            hl_journal *journal;
            hl_err err;
            write_bytes("sheet.csv", text, cut);
            hl_code code = hl_journal_open(&journal, "sheet.csv", &err);
            char *left = read_file("sheet.csv", &size);
            assert_int_equal(size, cut);
            assert_true(memcmp(left, text, cut) == 0);
            free(left);
            if (code != HL_OK) {
                assert_int_equal(code, HL_E_SHEET);
                assert_non_null(strstr(err.what, "no line end"));
                assert_true(whole_part(text, cut) < cut);
                continue;
            }
            accepted += whole_part(text, cut) < cut;
            append(journal, "C8", "blow", "47");
            hl_journal_close(journal);
            left = read_file("sheet.csv", &size);
            int now = list_readings(is, left, size, cases[i].separator);
            assert_true(now >= 1 && now <= all + 1);
            assert_true(memcmp(was, is, sizeof *was * (size_t)(now - 1)) == 0);
            free(left);
        }
        assert_int_equal(accepted, cases[i].accepted);
        assert_null(read_file("sheet.csv.torn", &size));
    }
}

static void zeroes_after_a_power_cut_are_set_aside(void **state)
{
    (void)state;
    static const char bytes[] = TOP "C4,blow,46,,,,\nC4,key\0\0\0\0\0\0\0\0";
    write_bytes("sheet.csv", bytes, sizeof bytes - 1);
    hl_journal *journal = open_journal("sheet.csv");
    assert_string_equal(hl_journal_torn(journal), "C4,key????????");
    hl_journal_close(journal);
    assert_file("sheet.csv", TOP "C4,blow,46,,,,\n");
}

/* Halves are never joined: `9.5` and `4,...` would make a number that nobody read. */
static void torn_rows_keep_lines_of_their_own(void **state)
{
    (void)state;
    write_file("sheet.csv", TOP "4,key_dip,9");
    write_file("sheet.csv.torn", "3,key_dip,9.5"); /* killed while it was set aside */
    hl_journal_close(open_journal("sheet.csv"));
    assert_file("sheet.csv.torn", "3,key_dip,9.5\n4,key_dip,9\n");
}

/* ---- others at the same sheet ------------------------------------------------------------- */

static void two_journals_see_each_other(void **state)
{
    (void)state;
    write_file("sheet.csv", TOP);
    assert_int_equal(symlink("sheet.csv", "link.csv"), 0);
    hl_journal *one = open_journal("sheet.csv"), *two = open_journal("link.csv");
    append(one, "C4", "blow", "46");
    assert_false(hl_journal_grew(one));
    assert_true(hl_journal_grew(two));
    assert_false(hl_journal_grew(two));
    append(two, "C4", "blow", "45");
    append(one, "C4", "blow", "44"); /* does not swallow the news of 45 */
    assert_true(hl_journal_grew(one));
    assert_int_equal(access("link.csv.lock", F_OK), -1); /* two names, one lock */
    assert_int_equal(unlink("sheet.csv.lock"), 0);
    append(two, "C4", "blow", "43");
    append(one, "C4", "blow", "42");
    hl_journal_close(one);
    hl_journal_close(two);
    assert_file("sheet.csv",
                TOP "C4,blow,46,,,,\nC4,blow,45,,,,\nC4,blow,44,,,,\nC4,blow,43,,,,\nC4,blow,42,,,,\n");
}

/* The lock file was cleared away and another session made a new one and holds that: a row waits for
 * it, although the old one is free. */
static void a_row_waits_for_the_lock_that_counts(void **state)
{
    (void)state;
    int ready[2];
    char byte;
    write_file("sheet.csv", TOP);
    hl_journal *journal = open_journal("sheet.csv");
    assert_int_equal(unlink("sheet.csv.lock"), 0);
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        const struct timespec while_working = {.tv_nsec = 100000000};
        int lock = open("sheet.csv.lock", O_RDWR | O_CREAT, 0600);
        int sheet = open("sheet.csv", O_WRONLY | O_APPEND);
        bool locked = flock(lock, LOCK_EX) == 0 && write(ready[1], "", 1) == 1;
        nanosleep(&while_working, NULL);
        _exit(locked && write(sheet, "C4,blow,45,,,,\n", 15) == 15 ? 0 : 1);
    }
    assert_int_equal(read(ready[0], &byte, 1), 1);
    append(journal, "C4", "blow", "46");
    hl_journal_close(journal);
    int status = -1;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    close(ready[0]);
    close(ready[1]);
    assert_file("sheet.csv", TOP "C4,blow,45,,,,\nC4,blow,46,,,,\n");
}

static void another_sessions_torn_row_is_set_aside_while_we_work(void **state)
{
    (void)state;
    write_file("sheet.csv", TOP);
    hl_journal *journal = open_journal("sheet.csv");
    write_file("sheet.csv", TOP "D4,blow,4"); /* as if it was killed in the middle of 46 */
    append(journal, "C4", "blow", "46");
    assert_string_equal(hl_journal_torn(journal), "D4,blow,4");
    write_file("sheet.csv", TOP "C4,blow,46,,,,\nE4,bl");
    append(journal, "C4", "blow", "45");
    assert_string_equal(hl_journal_torn(journal), "D4,blow,4\nE4,bl");
    hl_journal_close(journal);
    assert_file("sheet.csv", TOP "C4,blow,46,,,,\nC4,blow,45,,,,\n");
    assert_file("sheet.csv.torn", "D4,blow,4\nE4,bl\n");
}

static void a_replaced_sheet_takes_no_more_rows(void **state)
{
    (void)state;
    const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46.25", .remark = "second, try"};
    write_file("sheet.csv", TOP);
    hl_journal *journal = open_journal("sheet.csv");
    append(journal, "C4", "blow", "46");
    write_file("other.csv", TOP "C4,blow,40,,,,\n");
    assert_int_equal(rename("other.csv", "sheet.csv"), 0); /* as many editors save */
    assert_true(hl_journal_grew(journal));
    assert_refused(journal, &row, "another program put a new file in the sheet's place");
    assert_string_equal(hl_journal_unsaved(journal), "C4,blow,46.25,,,,second, try");
    assert_refused(journal, &row, "no more rows are taken");
    hl_journal_close(journal);
    assert_file("sheet.csv", TOP "C4,blow,40,,,,\n");
    journal = open_journal("sheet.csv");
    append(journal, "C4", "blow", "46.25");
    hl_journal_close(journal);
}

static void new_heads_take_no_rows_in_the_old_order(void **state)
{
    (void)state;
    const hl_journal_row row = {.note = "1", .step = "blow", .reading = "46"};
    write_file("sheet.csv", "note,step,reading\n");
    hl_journal *journal = open_journal("sheet.csv");
    write_file("sheet.csv", "reading,step,note\n");
    assert_refused(journal, &row, "changed the top of the sheet");
    assert_refused(journal, &row, "no more rows are taken");
    hl_journal_close(journal);
    assert_file("sheet.csv", "reading,step,note\n");
}

static void a_removed_folder_is_said(void **state)
{
    (void)state;
    const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46"};
    assert_int_equal(mkdir("sub", 0700), 0);
    write_file("sub/sheet.csv", TOP);
    hl_journal *journal = open_journal("sub/sheet.csv");
    append(journal, "C4", "blow", "47");
    unlink("sub/sheet.csv");
    unlink("sub/sheet.csv.lock");
    assert_int_equal(rmdir("sub"), 0);
    assert_refused(journal, &row, "the sheet or its folder was removed or moved away");
    assert_true(hl_journal_grew(journal));
    hl_journal_close(journal);
    assert_int_equal(access("sub", F_OK), -1);
}

/* ---- no room -------------------------------------------------------------------- */

/* A limit on the file's size cuts a write in the middle, as a full disk does. */
static void a_short_write_is_taken_back(void **state)
{
    (void)state;
    const hl_journal_row row = {.note = "C4", .step = "blow", .reading = "46.25"};
    const char line[] = "C4,blow,46.25,,,,\n";
    struct rlimit before;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    write_file("sheet.csv", TOP);
    hl_journal *journal = open_journal("sheet.csv");
    for (size_t fits = 0; fits < sizeof line - 1; fits++) {
        struct rlimit tight = {.rlim_cur = sizeof TOP - 1 + fits, .rlim_max = before.rlim_max};
        assert_int_equal(setrlimit(RLIMIT_FSIZE, &tight), 0);
        hl_err err;
        hl_code code = hl_journal_append(journal, &row, &err);
        assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
        assert_int_equal(code, HL_E_SAVE);
        assert_non_null(strstr(err.what, "not saved: C4,blow,46.25"));
        assert_file("sheet.csv", TOP);
    }
    assert_false(hl_journal_grew(journal));
    append(journal, "C4", "blow", "46.25");
    hl_journal_close(journal);
    assert_file("sheet.csv", TOP "C4,blow,46.25,,,,\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(a_cut_row_is_set_aside_and_nothing_else),
        IN_FOLDER(a_foreign_last_line_is_never_guessed),
        IN_FOLDER(zeroes_after_a_power_cut_are_set_aside),
        IN_FOLDER(torn_rows_keep_lines_of_their_own),
        IN_FOLDER(a_row_waits_for_the_lock_that_counts),
        IN_FOLDER(two_journals_see_each_other),
        IN_FOLDER(another_sessions_torn_row_is_set_aside_while_we_work),
        IN_FOLDER(a_replaced_sheet_takes_no_more_rows),
        IN_FOLDER(new_heads_take_no_rows_in_the_old_order),
        IN_FOLDER(a_removed_folder_is_said),
        IN_FOLDER(a_short_write_is_taken_back),
    };
    signal(SIGXFSZ, SIG_IGN);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
