/* cmd_audit_fleet.c - "hammerline audit" of many sheets: a line each, and what they come to (cli).
 *
 * Everything here runs under the engine's lock, in the order of the sheets; JSON and tables are made
 * by the threads and only printed here. */
#include "audit_fleet.h"
#include "audit_format.h"
#include "confine.h"
#include "fleet_worst.h"
#include "hammerline.h"
#include "output.h"
#include "rule_paths.h"
#include "sheet_paths.h"

#include <stdio.h> /* says which libc it is */
#ifdef __GLIBC__
#include <malloc.h>
#endif
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

typedef struct fleet_desk {
    const request *asked;
    hl_fleet_totals totals;
    hl_samples samples;
    worst_list worst;
    printing out;
    int code;               /* the worst so far */
    bool progress;          /* somebody watches */
    bool shown;             /* a line of progress is on the screen */
    double shown_at, began; /* seconds */
} fleet_desk;

bool is_fleet(const request *asked)
{
    if (asked->n_words != 1 || asked->worst > 0)
        return true;
    return is_folder_path(asked->words[0]) || hl_fleet_is_many(asked->words[0]);
}

/* ---- progress ------------------------------------------------------------------------------ */

static double read_clock(void)
{
    struct timespec now;
    if (clock_gettime(CLOCK_MONOTONIC, &now) != 0)
        return 0;
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static void clear_progress(fleet_desk *at)
{
    if (at->shown)
        fputs("\r                              \r", stderr);
    at->shown = false;
}

/* Only on a terminal, and only when it takes long enough to wonder. */
static void show_progress(fleet_desk *at)
{
    if (!at->progress || at->totals.n_sheets % 16 != 0)
        return;
    const double now = read_clock();
    if (now - at->began < 1 || now - at->shown_at < 0.2)
        return;
    at->shown_at = now;
    at->shown = true;
    fprintf(stderr, "\r%ld sheets", at->totals.n_sheets);
    fflush(stderr);
}

/* ---- one sheet ----------------------------------------------------------------------------- */

int fleet_code(const hl_fleet_sheet *sheet)
{
    if (!sheet->judged)
        return exit_code_of(sheet->code);
    if (sheet->code != HL_OK || !sheet->has_work)
        return EXIT_BAD_SHEET;
    return sheet->ready ? EXIT_READY : EXIT_NOT_READY;
}

static void worsen(fleet_desk *at, int code)
{
    at->code = code > at->code ? code : at->code;
}

static void print_line(fleet_desk *at, const hl_fleet_sheet *sheet)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_fleet_line(&text, &size, sheet, &err) != HL_OK) {
        worsen(at, report(&err));
        return;
    }
    if (at->asked->worst > 0)
        add_worst(&at->worst, sheet, text);
    else
        say_text(text, size);
    hl_free(text);
}

static void print_made(fleet_desk *at, const hl_fleet_sheet *sheet)
{
    if (sheet->text)
        say_text(sheet->text, sheet->size);
    else
        worsen(at, print_refused(&at->out, sheet->title, sheet->errors, sheet->n_errors));
}

static bool take_sheet(void *context, const hl_fleet_sheet *sheet)
{
    fleet_desk *at = context;
    hl_err err;
    const bool text = is_text(at->out.format);
    if (!text)
        worsen(at, begin_item(&at->out));
    if (sheet->n_errors > 0)
        clear_progress(at);
    for (int i = 0; i < sheet->n_errors; i++)
        report(&sheet->errors[i]);
    worsen(at, fleet_code(sheet));
    if (text)
        print_line(at, sheet);
    else
        print_made(at, sheet);
    if (hl_fleet_totals_add(&at->totals, sheet, &err) != HL_OK)
        worsen(at, report(&err));
    if (sheet->audit && hl_audit_sample(sheet->audit) &&
        hl_samples_add(&at->samples, sheet->audit, &err) != HL_OK)
        worsen(at, report(&err));
    show_progress(at);
    return at->code < EXIT_NOT_SAVED && !ferror(stdout);
}

/* ---- all of them ----------------------------------------------------------------------------- */

/* Only when every sheet could be judged: a lot with a hole in it shows nothing. */
static void print_samples(fleet_desk *at)
{
    const hl_print print = {.width = 80, .color = choose_color(at->asked->color)};
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (at->samples.n_audits == 0 || at->samples.n_audits != at->totals.n_sheets)
        return;
    if (hl_samples_text(&text, &size, &at->samples, &print, &err) == HL_OK)
        say_text(text, size);
    else
        worsen(at, report(&err));
    hl_free(text);
}

static void print_end(fleet_desk *at)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    for (int i = 0; i < at->worst.n; i++)
        say("%s", at->worst.sheets[i].line);
    if (hl_fleet_totals_text(&text, &size, &at->totals, &err) == HL_OK)
        say_text(text, size);
    else
        worsen(at, report(&err));
    hl_free(text);
    print_samples(at);
}

/* The first touch of a page costs as much as thousands of instructions, and each sheet frees what the
 * next one takes: so freed memory stays with us. */
static void keep_memory(void)
{
#ifdef M_TRIM_THRESHOLD
    mallopt(M_MMAP_THRESHOLD, 1 << 26);
    mallopt(M_TRIM_THRESHOLD, 1 << 26);
#endif
}

static void audit_all(fleet_desk *at, const hl_shelf *shelf)
{
    const request *asked = at->asked;
    sheet_paths paths = {.asked = asked};
    const hl_fleet_options options = {
        .shelf = shelf,
        .book = asked->book,
        .judging = &asked->judging,
        .threads = asked->threads,
        .keep = asked->judging.sample.notes > 0,
        .print = at->out.format->item,
    };
    hl_err err;
    keep_memory();
    if (hl_fleet_run(&options, next_sheet_path, &paths, take_sheet, at, &err) != HL_OK)
        worsen(at, report(&err));
    clear_progress(at);
    if (!is_text(at->out.format))
        worsen(at, end_items(&at->out));
    worsen(at, report_troubles(&paths));
    if (at->worst.no_memory)
        worsen(at, report_no_memory());
    close_sheet_paths(&paths);
    if (is_text(at->out.format))
        print_end(at);
}

int run_audit_fleet(const request *asked, const hl_format *format)
{
    fleet_desk at = {.asked = asked, .out.format = format, .worst.most = asked->worst, .began = read_clock()};
    bookshelf shelf;
    at.progress = isatty(STDERR_FILENO) && (!isatty(STDOUT_FILENO) || asked->worst > 0);
    if (asked->worst > 0 && !is_text(format)) {
        complain("--worst belongs to the lines of a fleet; leave it out with --format %s", format->name);
        return EXIT_WRONG_USE;
    }
    if (!check_paths(asked))
        return EXIT_WRONG_USE;
    at.code = open_bookshelf(&shelf, asked);
    if (at.code == EXIT_READY) {
        confine(asked, &shelf);
        audit_all(&at, &shelf.shelf);
    }
    hl_samples_free(&at.samples);
    hl_fleet_totals_free(&at.totals);
    free_worst(&at.worst);
    close_bookshelf(&shelf);
    return at.code;
}
