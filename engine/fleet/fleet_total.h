/* fleet_total.h - what all sheets of a fleet come to (layer: fleet). */
#ifndef HL_FLEET_TOTAL_H
#define HL_FLEET_TOTAL_H

#include "arena.h"
#include "hammerline/fleet.h"

/* The sheets of one book.  It keeps the words that it prints: books end with the run. */
typedef struct hl_fleet_total {
    const hl_book *book; /* to know it again during the run, never looked into after */
    hl_arena arena;
    const char *id;
    int n_steps, n_adjusters;
    const char **steps, **adjusters; /* titles */
    long (*counts)[HL_VERDICTS];
    long *cures;
    long queries;
} hl_fleet_total;

#endif
