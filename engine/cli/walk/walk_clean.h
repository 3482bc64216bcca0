/* walk_clean.h - what gauges and terminals add to a line, taken off (layer: cli/walk). */
#ifndef HL_WALK_CLEAN_H
#define HL_WALK_CLEAN_H

#include "hammerline.h"

/* The line without paste marks and blanks around it; NULL, or what is wrong with it. */
const char *clean_line(char *out, size_t room, const char *line);
/* A number as a gauge types it, in the form that a sheet holds: "01A+0009.53" is "9.53", "0,25" is
 * "0.25".  Anything else is copied as it is; the sheet's reader has the last word. */
void clean_number(char *out, size_t room, const char *text, hl_unit unit);

#endif
