/* complaints.h - lists of errors (layer: book). */
#ifndef HL_COMPLAINTS_H
#define HL_COMPLAINTS_H

#include "hammerline/book.h"

/* Keep one more error; the same one is kept once.  HL_E_MEMORY when there is no room. */
hl_code hl__complaints_add(hl_complaints *all, const hl_err *one);

#endif
