/* shared_head.h - sheets of a fleet that say the same above their rows (layer: fleet).
 *
 * Opening a sheet's facts, its header and what follows from them costs more than all its rows.  A thread
 * keeps the last heads and reads only the rows of each sheet that has one of them.  The reader and the judge
 * are those of any sheet; what a fleet's line does not say - diagnoses, gauges, remarks - is not made. */
#ifndef HL_SHARED_HEAD_H
#define HL_SHARED_HEAD_H

#include "fleet.h"

/* What a thread keeps from sheet to sheet.  NULL: no memory, and then every sheet is opened by itself. */
struct hl_shared *hl__shared_new(void);
void hl__shared_free(struct hl_shared *shared);
/* Judge a sheet and add its result.  False, and nothing added, when it needs a head of its own: its facts
 * can't be shared, a row changes one, or a row is bad, which is said with its line.  In a file of many,
 * part.rows may go on with other sheets: *used says how much of it was this one's. */
bool hl__shared_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text,
                      size_t *used);

#endif
