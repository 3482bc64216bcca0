/* format_rows.h - the rows of the table of formats, one file each (layer: render/data). */
#ifndef HL_FORMAT_ROWS_H
#define HL_FORMAT_ROWS_H

#include "hammerline/print.h"

extern const hl_format hl__format_text, hl__format_json, hl__format_json_lines, hl__format_csv,
    hl__format_tap, hl__format_junit;

#endif
