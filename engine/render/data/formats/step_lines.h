/* step_lines.h - an audit as a list of steps that are right or not, for formats of tests (layer:
 * render/data). */
#ifndef HL_STEP_LINES_H
#define HL_STEP_LINES_H

#include "audit.h"
#include "text.h"

/* Does the step have something to judge on this sheet? */
bool hl__step_asked(const hl_audit *audit, int step);
/* Is all of it read, fresh and passing? */
bool hl__step_right(const hl_audit *audit, int step);
/* "3 fail, 1 stale, 2 missing" */
void hl__step_counts(hl_text *out, const int count[HL_VERDICTS]);
/* Each finding that is not right, one after another: calls `take` with a line such as
 * "C4: 49.0 mm: fail, high (sheet.csv:12)".  step -1: the open queries. */
typedef void hl_line_taker(void *context, const char *line);
void hl__step_lines(hl_text *out, const hl_audit *audit, int step, hl_line_taker *take, void *context);
/* How many queries are open. */
int hl__open_queries(const hl_audit *audit);
/* Name and value, one after another: path, sheet, piano, date, persons, passes, compass, book, rule and the
 * counts.  A failed allocation is marked in `out`, which `take` writes. */
typedef void hl_pair_taker(void *context, const char *name, const char *value);
void hl__subject_pairs(hl_text *out, const hl_audit *audit, hl_pair_taker *take, void *context);

#endif
