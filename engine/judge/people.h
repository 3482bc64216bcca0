/* people.h - two people's readings of the same notes (layer: judge). */
#ifndef HL_PEOPLE_H
#define HL_PEOPLE_H

#include "audit.h"

/* Fill the audit's people.  False = no memory. */
bool hl__people_find(hl_audit *audit);

#endif
