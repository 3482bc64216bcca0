/* wrap.h - paragraphs that fit the width of the page (layer: render/text). */
#ifndef HL_WRAP_H
#define HL_WRAP_H

#include "text.h"

/* A blank that no line may break at, as between a number and its unit.  Text from sheets and
 * rules can't hold it: hl__text_safe shows control characters. */
#define HL_GLUE '\1'

/* Adds the paragraph, broken at blanks so that each line takes at most `width` columns, the first
 * indented by `first` and the others by `hang`, and a newline.  A word wider than the page stands
 * on a line of its own, whole: a path cut in two helps nobody. */
void hl__wrap(hl_text *out, const char *paragraph, int width, int first, int hang);

#endif
