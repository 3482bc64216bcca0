/* wrap.h - paragraphs and columns that fit the width of the page (layer: render/phrases). */
#ifndef HL_WRAP_H
#define HL_WRAP_H

#include "text.h"

/* A blank that no line may break at, as between a number and its unit.  Text from sheets and
 * rules can't hold it: hl__text_safe shows control characters. */
#define HL_GLUE '\1'

/* Adds the paragraph, broken at blanks so that each line takes at most `width` columns, the first
 * indented by `first` and the others by `hang`, and a newline.  A word wider than the page is
 * on a line of its own, whole: a path cut in two helps nobody. */
void hl__wrap(hl_text *out, const char *paragraph, int width, int first, int hang);

#define HL_COLUMN_GAP   2
#define HL_COLUMNS_MOST 32

/* One row of n <= HL_COLUMNS_MOST cells, broken at blanks to the widths of their columns (a word that is
 * wider is cut), and the line end.  HL_GLUE is a blank that is not broken at. */
void hl__columns_row(hl_text *out, const char *const *cells, const int *widths, int n);
/* Columns of the widest word. */
int hl__columns_least(const char *text);

#endif
