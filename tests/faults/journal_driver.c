/* journal_driver.c - writes rows for journal_faults.sh, and judges the sheet afterwards.
 *
 *   journal_driver create SHEET            "made" or "not made: why"
 *   journal_driver old SHEET               a sheet of version tidy 1
 *   journal_driver append SHEET FROM COUNT "saved N" or "not saved N: why" for each row
 *   journal_driver entries SHEET FROM COUNT  the same, three rows an entry: N is the first
 *   journal_driver check SHEET LOG         is every row that LOG calls saved in SHEET, whole, and
 *                                          every row of SHEET one that was asked for?  Are rows from
 *                                          ENTRIES_FROM on there in threes?
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

#define ROWS_MOST    100000
#define ENTRY_ROWS   3
#define ENTRIES_FROM 50000

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

static int append(const char *path, int from, int count, int rows)
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
    for (int i = from; i < from + count * rows; i += rows) {
        texts made[ENTRY_ROWS];
        hl_journal_row list[ENTRY_ROWS];
        for (int k = 0; k < rows; k++) {
            made[k] = row_of(i + k);
            list[k] = (hl_journal_row){made[k].note, "key_dip", made[k].reading, "2025-03-01T10:00",
                                       "ann",        "",        made[k].remark};
        }
        const hl_journal_entry entry = {.rows = list, .n = (size_t)rows};
        bool saved = hl_journal_append_entry(journal, &entry, NULL, &err) == HL_OK;
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
        int number = n == 7 || n == 8 ? atoi(csv.cells[2].text) : -1;
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
    for (int i = ENTRIES_FROM; i + ENTRY_ROWS <= ROWS_MOST; i += ENTRY_ROWS) {
        if (seen[i] != seen[i + 1] || seen[i] != seen[i + 2]) {
            bad |= complain("is there without the others of its entry", i);
        }
    }
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
    if (argc == 3 && strcmp(argv[1], "old") == 0) {
        static const char top[] = "# hammerline: tidy 1\n# book: grand\n# piano: invented\n"
                                  "note,step,reading,time,by,method,remark\n";
        return hl_file_save(argv[2], top, sizeof top - 1, false, &err) == HL_OK ? 0 : (int)err.code;
    }
    if (argc == 5 && strcmp(argv[1], "append") == 0) {
        return append(argv[2], atoi(argv[3]), atoi(argv[4]), 1);
    }
    if (argc == 5 && strcmp(argv[1], "entries") == 0) {
        return append(argv[2], atoi(argv[3]), atoi(argv[4]), ENTRY_ROWS);
    }
    if (argc == 4 && strcmp(argv[1], "check") == 0) {
        return check(argv[2], argv[3]);
    }
    return 2;
}
