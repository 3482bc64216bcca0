/* format_junit.c - sheets as JUnit's XML, which build servers show (layer: render/data).
 *
 * A sheet is a suite and a step is a case.  What is not right is a failure; what can't be read is an error.
 */
#include "format_rows.h"
#include "html.h"
#include "step_lines.h"
#include "subject.h"

static hl_code give(hl_text *text, char **out, size_t *size, hl_err *err)
{
    *out = NULL;
    return hl__text_take(text, out, size, err);
}

static hl_code begin(char **out, size_t *size, hl_err *err)
{
    hl_text text = {0};
    hl__text_add(&text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites>\n");
    return give(&text, out, size, err);
}

static hl_code end(char **out, size_t *size, long n_items, hl_err *err)
{
    hl_text text = {0};
    (void)n_items;
    hl__text_add(&text, "</testsuites>\n");
    return give(&text, out, size, err);
}

static void add_attribute(hl_text *out, const char *name, const char *value)
{
    hl__text_printf(out, " %s=\"", name);
    hl__escape_attribute(out, value);
    hl__text_char(out, '"');
}

static void open_suite(hl_text *out, const char *name, int tests, int failures, int errors)
{
    hl__text_add(out, "  <testsuite");
    add_attribute(out, "name", name);
    hl__text_printf(out, " tests=\"%d\" failures=\"%d\" errors=\"%d\" skipped=\"0\">\n", tests, failures,
                    errors);
}

static void open_case(hl_text *out, const char *group, const char *name)
{
    hl__text_add(out, "    <testcase");
    add_attribute(out, "classname", group);
    add_attribute(out, "name", name);
}

static void add_property(void *context, const char *name, const char *value)
{
    hl_text *out = context;
    hl__text_add(out, "      <property");
    add_attribute(out, "name", name);
    add_attribute(out, "value", value);
    hl__text_add(out, "/>\n");
}

static void add_line(void *context, const char *line)
{
    hl_text *out = context;
    hl__escape_text(out, line);
    hl__text_char(out, '\n');
}

/* A case that did not come out right: `kind` is "failure" or "error". */
static void open_trouble(hl_text *out, const char *kind, const char *message)
{
    hl__text_printf(out, ">\n      <%s", kind);
    add_attribute(out, "message", message);
    hl__text_add(out, ">");
}

static void close_trouble(hl_text *out, const char *kind)
{
    hl__text_printf(out, "</%s>\n    </testcase>\n", kind);
}

static void add_step(hl_text *out, const hl_audit *audit, int step)
{
    hl_text counts = {0};
    open_case(out, audit->book->id, audit->book->steps[step].title);
    if (hl__step_right(audit, step)) {
        hl__text_add(out, "/>\n");
        return;
    }
    hl__step_counts(&counts, audit->tallies[step].count);
    open_trouble(out, "failure", counts.data ? counts.data : "");
    hl__step_lines(out, audit, step, add_line, out);
    close_trouble(out, "failure");
    out->failed |= counts.failed;
    hl__text_free(&counts);
}

static void add_errors(hl_text *out, const char *group, const hl_err *errors, int n)
{
    open_case(out, group, "every row can be read");
    open_trouble(out, "error", n > 0 ? errors[0].what : "");
    for (int i = 0; i < n; i++) {
        char *line = NULL;
        size_t size = 0;
        if (hl_err_text(&line, &size, &errors[i]) == HL_OK && size > 0) {
            line[size - 1] = '\0';
            add_line(out, line);
        } else {
            out->failed = true;
        }
        hl_free(line);
    }
    close_trouble(out, "error");
}

static void add_queries(hl_text *out, const hl_audit *audit)
{
    open_case(out, audit->book->id, "every query is closed");
    open_trouble(out, "failure", "queries are open");
    hl__step_lines(out, audit, -1, add_line, out);
    close_trouble(out, "failure");
}

static void add_nothing(hl_text *out, const hl_audit *audit)
{
    open_case(out, audit->book->id, "there is something to judge");
    open_trouble(out, "failure", "nothing that the book asks for applies");
    close_trouble(out, "failure");
}

static hl_code print_sheet(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    hl_text text = {0};
    int n_errors = 0, tests = 0, failures = 0;
    const hl_err *errors = hl_sheet_errors(audit->sheet, &n_errors);
    for (int step = 0; step < audit->book->n_steps; step++) {
        tests += hl__step_asked(audit, step);
        failures += hl__step_asked(audit, step) && !hl__step_right(audit, step);
    }
    const bool queries = hl__open_queries(audit) > 0, nothing = tests == 0 && n_errors == 0 && !queries;
    open_suite(&text, audit->sheet->title, tests + (n_errors > 0) + queries + nothing,
               failures + queries + nothing, n_errors > 0);
    hl__text_add(&text, "    <properties>\n");
    hl__subject_pairs(&text, audit, add_property, &text);
    hl__text_add(&text, "    </properties>\n");
    for (int step = 0; step < audit->book->n_steps; step++)
        if (hl__step_asked(audit, step))
            add_step(&text, audit, step);
    if (n_errors > 0)
        add_errors(&text, audit->book->id, errors, n_errors);
    if (queries)
        add_queries(&text, audit);
    if (nothing)
        add_nothing(&text, audit);
    hl__text_add(&text, "  </testsuite>\n");
    return give(&text, out, size, err);
}

static hl_code print_refused(char **out, size_t *size, const char *title, const hl_err *errors, int n,
                             hl_err *err)
{
    hl_text text = {0};
    open_suite(&text, title, 1, 0, 1);
    add_errors(&text, HL_NOT_JUDGED, errors, n);
    hl__text_add(&text, "  </testsuite>\n");
    return give(&text, out, size, err);
}

const hl_format hl__format_junit = {
    .name = "junit",
    .about = "JUnit's XML, for build servers",
    .head = begin,
    .item = print_sheet,
    .refused = print_refused,
    .tail = end,
};
