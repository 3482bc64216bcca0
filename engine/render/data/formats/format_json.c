/* format_json.c - sheets as JSON: one is an object, several are an array; or a line each (layer:
 * render/data). */
#include "format_rows.h"
#include "text.h"

static hl_code begin_array(char **out, size_t *size, hl_err *err)
{
    hl_text text = {0};
    hl__text_add(&text, "[\n");
    return hl__text_take(&text, out, size, err);
}

static hl_code end_array(char **out, size_t *size, long n_items, hl_err *err)
{
    hl_text text = {0};
    hl__text_add(&text, n_items > 0 ? "\n]\n" : "]\n");
    return hl__text_take(&text, out, size, err);
}

/* The separator and the array's end bring the line end. */
static void cut_line_end(char *text, size_t *size)
{
    while (*size > 0 && text[*size - 1] == '\n')
        text[--*size] = '\0';
}

static hl_code print_element(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    const hl_code code = hl_audit_json(out, size, audit, err);
    if (code == HL_OK)
        cut_line_end(*out, size);
    return code;
}

static hl_code refuse_element(char **out, size_t *size, const char *title, const hl_err *errors, int n,
                              hl_err *err)
{
    const hl_code code = hl_error_json(out, size, title, errors, n, err);
    if (code == HL_OK)
        cut_line_end(*out, size);
    return code;
}

const hl_format hl__format_json = {
    .name = "json",
    .about = "JSON, an array of several sheets",
    .head = begin_array,
    .item = print_element,
    .refused = refuse_element,
    .between = ",\n",
    .tail = end_array,
    .bare = true,
};

static hl_code print_line(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    const hl_code code = hl_audit_json(out, size, audit, err);
    if (code == HL_OK)
        *size = hl_json_one_line(*out, *size);
    return code;
}

static hl_code refuse_line(char **out, size_t *size, const char *title, const hl_err *errors, int n,
                           hl_err *err)
{
    const hl_code code = hl_error_json(out, size, title, errors, n, err);
    if (code == HL_OK)
        *size = hl_json_one_line(*out, *size);
    return code;
}

const hl_format hl__format_json_lines = {
    .name = "json-lines",
    .about = "JSON, a line a sheet",
    .item = print_line,
    .refused = refuse_line,
};
