/* errors.h - filling the one error record (layer: base). */
#ifndef HL_ERRORS_H
#define HL_ERRORS_H

#include "hammerline/base.h"

#if defined(__GNUC__)
#define HL_PRINTF(f, a) __attribute__((format(printf, f, a)))
#else
#define HL_PRINTF(f, a)
#endif

/* Start an error: sets code and `what` (cut to fit at a whole UTF-8 character), clears the rest.
 * Returns `code`, so that `return hl__fail(err, HL_E_SHEET, "...")` reads as one thought. */
hl_code hl__fail(hl_err *err, hl_code code, const char *what, ...) HL_PRINTF(3, 4);
/* Add what to do about it.  Returns err->code. */
hl_code hl__todo(hl_err *err, const char *todo, ...) HL_PRINTF(2, 3);
/* Add where it is.  A long path keeps its end ("..." + tail).  Returns err->code. */
hl_code hl__at(hl_err *err, const char *file, int line, int column);
/* HL_E_MEMORY with its standard words. */
hl_code hl__no_memory(hl_err *err);

#endif
