/* name_ranks.h - people and methods as small numbers (layer: measure).
 *
 * A sheet keeps a name wherever it stands, so that two rows are compared by their texts.  Who compares many
 * rows asks here once. */
#ifndef HL_NAME_RANKS_H
#define HL_NAME_RANKS_H

#include "sheet.h"

typedef struct hl_name_ranks {
    unsigned short *of; /* [n_events]: 1 ... n; 0: no name, or one more than a sheet may have */
    const char **names; /* [n + 1]: in the order in which they first stand in the sheet, from 1 */
    int n;
} hl_name_ranks;

/* Of the column `method`, else of `by`.  Memory is the arena's; false = none left. */
bool hl__name_ranks(hl_name_ranks *out, hl_arena *arena, const hl_sheet *sheet, bool method);

#endif
