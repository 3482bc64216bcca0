/* reproducibility.h - two people's readings of the same notes (layer: measure). */
#ifndef HL_REPRODUCIBILITY_H
#define HL_REPRODUCIBILITY_H

#include "audit.h"
#include "hammerline/audit.h"

/* Fill the audit's people.  False = no memory. */
bool hl__people_find(hl_audit *audit);

#endif
