/* fleet_worst.h - the worst sheets of a fleet, whatever its size (layer: cli/commands). */
#ifndef HL_FLEET_WORST_H
#define HL_FLEET_WORST_H

#include "hammerline.h"

typedef struct bad_sheet {
    long rank[4]; /* not judged, out, to read again or in doubt, missing: larger is worse */
    char *line;
} bad_sheet;

typedef struct worst_list {
    bad_sheet *sheets; /* the worst first; of equals the one that came first */
    int n, most;
    bool no_memory;
} worst_list; /* start with `most`, the rest 0 */

/* Keep the sheet's line when it is among the worst; a ready one is not bad at all. */
void add_worst(worst_list *list, const hl_fleet_sheet *sheet, const char *line);
void free_worst(worst_list *list);

#endif
