/* format_tap.c - sheets in the Test Anything Protocol, version 14 (layer: render/data).
 *
 * A sheet is a test point, and its steps are its subtest.  Points have no numbers, which the protocol allows,
 * so that threads can print sheets in any order; the plan is at the end. */
#include "format_rows.h"
#include "step_lines.h"
#include "subject.h"

#include <string.h>

#define INDENT "    "

/* In a description a '#' would begin a directive, and a backslash would escape. */
static void add_description(hl_text *out, const char *text)
{
    hl_text safe = {0};
    hl__text_safe(&safe, text);
    for (const char *c = safe.data ? safe.data : ""; *c; c++) {
        if (*c == '#' || *c == '\\')
            hl__text_char(out, '\\');
        hl__text_char(out, *c);
    }
    out->failed |= safe.failed;
    hl__text_free(&safe);
}

/* A YAML text in single quotes, in which only the quote itself is special. */
static void add_quoted(hl_text *out, const char *text)
{
    hl_text safe = {0};
    hl__text_safe(&safe, text);
    hl__text_char(out, '\'');
    for (const char *c = safe.data ? safe.data : ""; *c; c++) {
        if (*c == '\'')
            hl__text_char(out, '\'');
        hl__text_char(out, *c);
    }
    hl__text_char(out, '\'');
    out->failed |= safe.failed;
    hl__text_free(&safe);
}

typedef struct tap {
    hl_text *out;
    const char *indent;
    int n; /* test points so far */
} tap;

static void add_point(tap *to, bool good, const char *description)
{
    hl__text_printf(to->out, "%s%s - ", to->indent, good ? "ok" : "not ok");
    add_description(to->out, description);
    hl__text_char(to->out, '\n');
    to->n++;
}

static void open_yaml(tap *to)
{
    hl__text_printf(to->out, "%s  ---\n", to->indent);
}

static void close_yaml(tap *to)
{
    hl__text_printf(to->out, "%s  ...\n", to->indent);
}

static void add_pair(void *context, const char *name, const char *value)
{
    tap *to = context;
    hl__text_printf(to->out, "%s  ", to->indent);
    for (const char *c = name; *c; c++)
        hl__text_char(to->out, *c == ' ' ? '_' : *c);
    hl__text_add(to->out, ": ");
    add_quoted(to->out, value);
    hl__text_char(to->out, '\n');
}

static void add_list_line(void *context, const char *line)
{
    tap *to = context;
    hl__text_printf(to->out, "%s    - ", to->indent);
    add_quoted(to->out, line);
    hl__text_char(to->out, '\n');
}

static void add_findings(tap *to, const hl_audit *audit, int step)
{
    hl_text counts = {0};
    open_yaml(to);
    if (step >= 0) {
        hl__step_counts(&counts, audit->tallies[step].count);
        add_pair(to, "message", counts.data ? counts.data : "");
    }
    hl__text_printf(to->out, "%s  findings:\n", to->indent);
    hl__step_lines(to->out, audit, step, add_list_line, to);
    close_yaml(to);
    to->out->failed |= counts.failed;
    hl__text_free(&counts);
}

static void add_errors(tap *to, const hl_err *errors, int n)
{
    open_yaml(to);
    hl__text_printf(to->out, "%s  errors:\n", to->indent);
    for (int i = 0; i < n; i++) {
        char *line = NULL;
        size_t size = 0;
        if (hl_err_text(&line, &size, &errors[i]) == HL_OK && size > 0) {
            line[size - 1] = '\0';
            add_list_line(to, line);
        } else {
            to->out->failed = true;
        }
        hl_free(line);
    }
    close_yaml(to);
}

static hl_code begin(char **out, size_t *size, hl_err *err)
{
    hl_text text = {0};
    hl__text_add(&text, "TAP version 14\n");
    return hl__text_take(&text, out, size, err);
}

static hl_code print_sheet(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    hl_text text = {0};
    tap sub = {&text, INDENT, 0}, top = {&text, "", 0};
    int n_errors = 0;
    const hl_err *errors = hl_sheet_errors(audit->sheet, &n_errors);
    hl__text_add(&text, "# Subtest: ");
    add_description(&text, audit->sheet->title);
    hl__text_char(&text, '\n');
    for (int step = 0; step < audit->book->n_steps; step++) {
        if (!hl__step_asked(audit, step))
            continue;
        add_point(&sub, hl__step_right(audit, step), audit->book->steps[step].title);
        if (!hl__step_right(audit, step))
            add_findings(&sub, audit, step);
    }
    if (n_errors > 0) {
        add_point(&sub, false, "every row can be read");
        add_errors(&sub, errors, n_errors);
    }
    if (hl__open_queries(audit) > 0) {
        add_point(&sub, false, "every query is closed");
        add_findings(&sub, audit, -1);
    }
    if (sub.n == 0)
        add_point(&sub, false, "there is something to judge");
    hl__text_printf(&text, INDENT "1..%d\n", sub.n);
    add_point(&top, hl_audit_ready(audit), audit->sheet->title);
    open_yaml(&top);
    hl__subject_pairs(&text, audit, add_pair, &top);
    close_yaml(&top);
    *out = NULL;
    return hl__text_take(&text, out, size, err);
}

static hl_code print_refused(char **out, size_t *size, const char *title, const hl_err *errors, int n,
                             hl_err *err)
{
    hl_text text = {0};
    tap top = {&text, "", 0};
    add_point(&top, false, title);
    add_errors(&top, errors, n);
    *out = NULL;
    return hl__text_take(&text, out, size, err);
}

static hl_code end(char **out, size_t *size, long n_items, hl_err *err)
{
    hl_text text = {0};
    hl__text_printf(&text, "1..%ld\n", n_items);
    return hl__text_take(&text, out, size, err);
}

const hl_format hl__format_tap = {
    .name = "tap",
    .about = "the Test Anything Protocol, version 14",
    .head = begin,
    .item = print_sheet,
    .refused = print_refused,
    .tail = end,
};
