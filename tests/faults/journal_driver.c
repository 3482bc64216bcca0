/* journal_driver.c - writes rows for journal_faults.sh, and judges the sheet afterwards.
 *
 *   journal_driver create SHEET            "made" or "not made: why"
 *   journal_driver append SHEET FROM COUNT "saved N" or "not saved N: why" for each row
 *   journal_driver check SHEET LOG         is every row that LOG calls saved in SHEET, whole, and
 *                                          every row of SHEET one that was asked for?
 *
 * Talk goes out by writev(), so that faults put on write() hit the sheet and not the talk.  The
 * rows are invented; the number of the row tells its every byte. */
#include "csv.h"
#include "journal.h"

#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/uio.h>
#include <unistd.h>

#define ROWS_MOST 100000

static void say(const char *text)
{
    struct iovec piece = {.iov_base = (char *)(uintptr_t)text, .iov_len = strlen(text)};
    if (writev(STDOUT_FILENO, &piece, 1) != (ssize_t)piece.iov_len) {
        _exit(9);
    }
}

typedef struct texts {
    char note[16], reading[16], remark[64];
} texts;

/* Readings of unlike length whose halves are good numbers too: the worst to be cut. */
static texts row_of(int number)
{
    texts row;
    snprintf(row.note, sizeof row.note, "%d", number % 88 + 1);
    snprintf(row.reading, sizeof row.reading, number % 3 == 0 ? "%d.5" : "%d.125", number);
    snprintf(row.remark, sizeof row.remark, number % 2 == 0 ? "row, \"%d\"" : "%d", number);
    return row;
}

static int append(const char *path, int from, int count)
{
    hl_journal *journal;
    hl_err err;
    char line[1024];
    bool all = true;
    if (hl_journal_open(&journal, path, &err) != HL_OK) {
        snprintf(line, sizeof line, "not opened: %s; %s\n", err.what, err.todo);
        say(line);
        return (int)err.code;
    }
    if (hl_journal_torn(journal)[0] != '\0') {
        snprintf(line, sizeof line, "torn: %s\n", hl_journal_torn(journal));
        say(line);
    }
    for (int i = from; i < from + count; i++) {
        texts text = row_of(i);
        hl_journal_row row = {text.note, "key_dip", text.reading, "2025-03-01T10:00", "ann", "", text.remark};
        bool saved = hl_journal_append(journal, &row, &err) == HL_OK;
        all = all && saved;
        snprintf(line, sizeof line, saved ? "saved %d\n" : "not saved %d: %s; %s\n", i, err.what, err.todo);
        say(line);
    }
    hl_journal_close(journal);
    return all ? 0 : HL_E_SAVE;
}

static int complain(const char *what, int number)
{
    printf("row %d %s\n", number, what);
    return 1;
}

/* Every row of the sheet is the exact one of its number; marks it seen. */
static int read_sheet(const char *path, unsigned char *seen)
{
    static char bytes[1 << 20];
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return complain("and all others: no sheet", 0);
    }
    size_t size = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    if (size == 0 || bytes[size - 1] != '\n') {
        return complain("is the last, and has no line end", 0);
    }
    hl_csv csv;
    hl_err err;
    int n, line, bad = 0;
    bool head = false;
    if (hl__csv_start(&csv, path, bytes, size, ',', &err) != HL_OK) {
        return complain("and all others: no memory", 0);
    }
    for (;;) {
        if (hl__csv_row(&csv, &n, &line, &err) != HL_OK) {
            bad |= complain(err.what, line);
            continue;
        }
        if (n == 0) {
            break;
        }
        if (!head) {
            head = strcmp(csv.cells[0].text, "note") == 0;
            continue;
        }
        int number = n == 7 ? atoi(csv.cells[2].text) : -1;
        texts text = row_of(number);
        if (number < 0 || number >= ROWS_MOST || strcmp(csv.cells[0].text, text.note) != 0 ||
            strcmp(csv.cells[2].text, text.reading) != 0 || strcmp(csv.cells[6].text, text.remark) != 0) {
            bad |= complain("is not one that was asked for", number);
        } else {
            seen[number] = 1;
        }
    }
    hl__csv_end(&csv);
    return bad;
}

static int check(const char *path, const char *log)
{
    static unsigned char seen[ROWS_MOST];
    char line[2048];
    int bad = read_sheet(path, seen), number;
    FILE *file = fopen(log, "r");
    if (file == NULL) {
        return complain("and all others: no log", 0);
    }
    while (fgets(line, sizeof line, file) != NULL) {
        if (sscanf(line, "saved %d", &number) == 1 && !seen[number]) {
            bad |= complain("was said to be saved and is lost", number);
        }
        if (sscanf(line, "not saved %d", &number) == 1 && strstr(line, row_of(number).reading) == NULL) {
            bad |= complain("was refused without its text", number);
        }
    }
    fclose(file);
    return bad;
}

int main(int argc, char **argv)
{
    hl_err err;
    signal(SIGXFSZ, SIG_IGN);
    if (argc == 3 && strcmp(argv[1], "create") == 0) {
        bool made = hl_journal_create(argv[2], "grand", "# piano: invented", &err) == HL_OK;
        say(made ? "made\n" : "not made: ");
        say(made ? "" : err.what);
        return made ? 0 : (int)err.code;
    }
    if (argc == 5 && strcmp(argv[1], "append") == 0) {
        return append(argv[2], atoi(argv[3]), atoi(argv[4]));
    }
    if (argc == 4 && strcmp(argv[1], "check") == 0) {
        return check(argv[2], argv[3]);
    }
    return 2;
}
