/* format_text.c - sheets for people (layer: render/data).
 *
 * One sheet is a page, several are a line each and a table of all, with colours and widths of their own:
 * the commands print those themselves, so this row has no printers. */
#include "format_rows.h"

const hl_format hl__format_text = {.name = "text", .about = "for people"};
