/* findings.h - what is said of each step at each note, made from the table when it is asked for
 * (layer: advise). */
#ifndef HL_FINDINGS_H
#define HL_FINDINGS_H

#include "audit.h"

/* All findings, or only those that fail.  Start as {0}; a list that was used before, for the same book, keeps
 * its room.  False = no memory. */
bool hl__findings_list(hl_findings *out, hl_arena *arena, const hl_table *table, bool fails_only);
/* Corrections of those that fail and are not masked, and which of them go away with another cure.  With
 * `remarks`, a masked one is told what it waits for.  False = no memory. */
bool hl__findings_advise(hl_findings *findings, const hl_table *table, bool remarks);

#endif
