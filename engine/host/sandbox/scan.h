/* scan.h - reading a rule file's text before Lua does (layer: host/sandbox). */
#ifndef HL_SCAN_H
#define HL_SCAN_H

#include "errors.h"
#include "hammerline/book.h"

/* Refuses what the linked Lua may compile wrongly (bitwise operators, a comparison inside [ ]),
 * compiled chunks and text that is not UTF-8.  The error has a line and no file. */
hl_code hl__scan(const char *text, size_t size, hl_err *err);

/* The lines at which the tables inside `tests "book" { ... }` begin, at most `most` of them; how
 * many there are.  Lua itself forgets where a table was written. */
int hl__scan_cases(const char *text, size_t size, int *lines, int most);

#endif
