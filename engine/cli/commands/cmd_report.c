/* cmd_report.c - "hammerline report": the finished-job record as one HTML file (layer: cli/commands).
 *
 * The clock is read here and nowhere else; SOURCE_DATE_EPOCH is taken in its place, so that a record can be
 * made again byte for byte. */
#include "commands.h"
#include "confine.h"
#include "hammerline.h"
#include "output.h"
#include "output_file.h"
#include "report_fleet.h"
#include "rule_paths.h"
#include "sheet_book.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { DAY_ROOM = 32 };

/* "2026-11-20", the local day; of SOURCE_DATE_EPOCH the day in UTC.  "" when the clock can't be read.
 * False after a complaint: SOURCE_DATE_EPOCH is no day. */
static bool find_day(char *day)
{
    const char *given = getenv("SOURCE_DATE_EPOCH");
    time_t now = time(NULL);
    struct tm parts = {0};
    bool known;
    day[0] = '\0';
    if (given && given[0]) {
        char *end = NULL;
        errno = 0;
        const long long seconds = strtoll(given, &end, 10);
        now = (time_t)seconds;
        known = given[0] >= '0' && given[0] <= '9' && errno == 0 && *end == '\0' && gmtime_r(&now, &parts) &&
                parts.tm_year <= 9999 - 1900;
        if (!known) {
            complain("SOURCE_DATE_EPOCH is \"%.80s\", which is no number of seconds since 1970; unset it, or "
                     "set it to one",
                     given);
            return false;
        }
    } else {
        known = now != (time_t)-1 && localtime_r(&now, &parts) && parts.tm_year <= 9999 - 1900;
    }
    if (known)
        snprintf(day, DAY_ROOM, "%04d-%02d-%02d", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday);
    return true;
}

static int write_report(const request *asked, const hl_audit *audit, bool good, const hl_report *wanted)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_report_html(&text, &size, audit, wanted, &err) != HL_OK)
        return report(&err);
    int code = give_out(asked, text, size);
    hl_free(text);
    if (code == EXIT_READY && (!good || !hl_audit_has_work(audit)))
        code = EXIT_BAD_SHEET;
    else if (code == EXIT_READY && !hl_audit_ready(audit))
        code = EXIT_NOT_READY;
    return code;
}

static int judge(const request *asked, const hl_sheet *sheet, const hl_book *book, bool good,
                 const hl_report *wanted)
{
    hl_audit *audit = NULL;
    hl_err err;
    if (hl_audit_run(&audit, sheet, book, &asked->judging, &err) != HL_OK)
        return report(&err);
    const int code = write_report(asked, audit, good, wanted);
    hl_audit_free(audit);
    return code;
}

/* Bad rows are reported here and are in the record, which then says "not ready". */
static int read_sheet(const request *asked, hl_sheet *sheet, const hl_book *book, const hl_report *wanted)
{
    hl_err err;
    int n = 0;
    const hl_code code = hl_sheet_read(sheet, book, &err);
    say_notices(sheet, book);
    const hl_err *errors = hl_sheet_errors(sheet, &n);
    if (code != HL_OK && (code != HL_E_SHEET || n == 0))
        return report(&err);
    for (int i = 0; i < n; i++)
        report(&errors[i]);
    return judge(asked, sheet, book, code == HL_OK, wanted);
}

static int open_sheet(const request *asked, const hl_shelf *shelf, const hl_report *wanted)
{
    hl_sheet *sheet = NULL;
    hl_book *book = NULL;
    hl_err err;
    int code = EXIT_READY;
    if (open_named_sheet(&sheet, asked->words[0], &err) != HL_OK)
        return report(&err);
    if (open_sheet_book(&book, asked, sheet, shelf, &err) != HL_OK)
        code = report(&err);
    else
        code = read_sheet(asked, sheet, book, wanted);
    hl_book_free(book);
    hl_sheet_free(sheet);
    return code;
}

int run_report(const request *asked)
{
    bookshelf shelf;
    if (asked->given[OPTION_REPLACE] && !asked->output) {
        complain("report: --replace goes with --output FILE");
        return EXIT_WRONG_USE;
    }
    if (!check_judging(&asked->judging))
        return EXIT_WRONG_USE;
    if (!asked->output && isatty(STDOUT_FILENO)) {
        complain("a record is a file to open in a browser; name it: -o record.html");
        return EXIT_WRONG_USE;
    }
    char day[DAY_ROOM];
    if (!check_output(asked) || !find_day(day))
        return EXIT_WRONG_USE;
    int code = open_bookshelf(&shelf, asked);
    if (code == EXIT_READY) {
        const hl_report wanted = {
            .made = day, .owner = asked->reader != NULL, .numbers = asked->given[OPTION_NUMBERS]};
        if (is_fleet_report(asked)) {
            code = run_report_fleet(asked, &shelf, &wanted);
        } else {
            confine(asked, &shelf);
            code = open_sheet(asked, &shelf.shelf, &wanted);
        }
    }
    close_bookshelf(&shelf);
    return code;
}
