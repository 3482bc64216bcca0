/* format_csv.c - sheets as one table for spreadsheets (layer: render/data). */
#include "format_rows.h"

static hl_code print_heads(char **out, size_t *size, hl_err *err)
{
    return hl_audit_csv(out, size, NULL, true, err);
}

static hl_code print_rows(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    return hl_audit_csv(out, size, audit, false, err);
}

const hl_format hl__format_csv = {
    .name = "csv",
    .about = "a table of the findings, for spreadsheets",
    .head = print_heads,
    .item = print_rows,
    .refused = hl_error_csv,
};
