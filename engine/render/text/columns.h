/* columns.h - texts side by side, each wrapped within its own column (layer: render/text). */
#ifndef HL_COLUMNS_H
#define HL_COLUMNS_H

#include "text.h"

#define HL_COLUMN_GAP   2
#define HL_COLUMNS_MOST 32

/* One row of n <= HL_COLUMNS_MOST cells, broken at blanks to the widths of their columns (a word that is
 * wider is cut), and the line end.  HL_GLUE stands for a blank that is not broken at. */
void hl__columns_row(hl_text *out, const char *const *cells, const int *widths, int n);
/* Columns of the widest word. */
int hl__columns_least(const char *text);

#endif
