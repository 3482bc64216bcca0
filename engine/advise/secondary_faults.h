/* secondary_faults.h - a fault that goes away when another is cured (layer: advise). */
#ifndef HL_SECONDARY_FAULTS_H
#define HL_SECONDARY_FAULTS_H

#include "audit.h"
#include "table.h"

/* A short aftertouch under a long blow needs no paper: it follows from the blow.  For each failing
 * finding of a step with a formula, see whether the first corrections of the failing steps that it
 * is made of bring it into range; if so its own corrections are taken away and `follows` says what
 * to put right first.  Findings must be complete. */
void hl__secondary_mark(hl_findings *all, const hl_table *table);
/* Take out the diagnoses that only rest on faults which go away with another cure; returns how many stay. */
size_t hl__secondary_quiet(hl_diagnosed *diagnosed, size_t n, const hl_findings *all, const hl_table *table);

/* A ratio that is worked out from a wrong blow is no second fault.  For each failing finding of a
 * derived step that the book has no adjuster for, and that does not itself come before its readings:
 * when the failing readings that it is made of, put at their aims, bring it into range, say with
 * `hangs` what to see to first.  It stays failing.  After hl__secondary_mark(). */
void hl__depends_mark(hl_findings *all, const hl_table *table);

#endif
