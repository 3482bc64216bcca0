/* fast_audit.h - the short way for plain sheets of a fleet (layer: fleet). */
#ifndef HL_FAST_AUDIT_H
#define HL_FAST_AUDIT_H

#include "fleet.h"
#include "hammerline/fleet.h"

/* What a thread keeps from sheet to sheet.  NULL: no memory, and then every sheet goes the careful way. */
struct hl_fast *hl__fast_new(void);
void hl__fast_free(struct hl_fast *fast);
/* Judge a sheet and add its result; false, and nothing added, when it is not plain.  In a file of many,
 * part.rows may go on with other sheets: *used says how much of it was this one's. */
bool hl__fast_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text,
                    size_t *used);

#endif
