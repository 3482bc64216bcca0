/* output.c - what the command line prints, and whether it arrived (layer: cli). */
#include "output.h"

#include "options.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* By way of an hl_err, whose printer makes strange text safe. */
void complain(const char *format, ...)
{
    hl_err err = {.code = HL_E_USAGE};
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(err.what, sizeof err.what, format, arguments);
    va_end(arguments);
    strcpy(err.file, "hammerline");
    report(&err);
}

int exit_code_of(hl_code code)
{
    switch (code) {
    case HL_OK:
        return EXIT_READY;
    case HL_E_USAGE:
        return EXIT_WRONG_USE;
    case HL_E_SHEET:
        return EXIT_BAD_SHEET;
    case HL_E_RULE:
        return EXIT_BAD_RULE;
    case HL_E_SAVE:
    case HL_E_MEMORY:
        break;
    }
    return EXIT_NOT_SAVED;
}

int report(const hl_err *err)
{
    char *text = NULL;
    size_t size = 0;
    fflush(stdout);
    if (hl_err_text(&text, &size, err) == HL_OK)
        fwrite(text, 1, size, stderr);
    else
        fputs("hammerline: the machine has no memory left; close other programs and run it again\n", stderr);
    hl_free(text);
    return exit_code_of(err->code);
}

int report_no_memory(void)
{
    complain("the machine has no memory left; close other programs and run it again");
    return EXIT_NOT_SAVED;
}

void note(const char *line)
{
    fflush(stdout);
    fprintf(stderr, "%s\n", line);
}

static void say_notice(const hl_err *notice)
{
    hl_err said = *notice;
    snprintf(said.what, sizeof said.what, "notice: %.300s", notice->what);
    report(&said);
}

void say_notices(const hl_sheet *sheet, const hl_book *book)
{
    hl_complaints notices = {0};
    hl_err err = {0};
    if (sheet != NULL && hl_sheet_notice(sheet, &err))
        say_notice(&err);
    if (hl_book_notices(&notices, book, &err) != HL_OK)
        report(&err);
    for (size_t i = 0; i < notices.n; i++)
        say_notice(&notices.items[i]);
    hl_complaints_free(&notices);
}

void say(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vprintf(format, arguments);
    va_end(arguments);
}

void say_text(const char *text, size_t size)
{
    fwrite(text, 1, size, stdout);
}

bool choose_color(color_choice choice)
{
    const char *no = getenv("NO_COLOR");
    const char *term = getenv("TERM");
    if (choice != COLOR_AUTO)
        return choice == COLOR_ALWAYS;
    return !(no && no[0]) && isatty(STDOUT_FILENO) && !(term && strcmp(term, "dumb") == 0);
}

static int lost_why; /* errno of the first flush that failed, which leaves no other trace */

bool flush_output(void)
{
    errno = 0;
    if (fflush(stdout) == 0)
        return true;
    lost_why = lost_why ? lost_why : errno;
    return false;
}

bool is_reader_gone(void)
{
    return lost_why == EPIPE;
}

int finish_output(int code)
{
    if (flush_output() && !ferror(stdout))
        return code;
    if (!is_reader_gone())
        complain("could not write the result: %s; make room, or send it elsewhere, and run again",
                 lost_why ? strerror(lost_why) : "write error");
    return code > EXIT_NOT_SAVED ? code : EXIT_NOT_SAVED;
}
