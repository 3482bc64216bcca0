/* fast_parts.h - what the files of the short way say to each other (layer: fleet, private). */
#ifndef HL_FAST_PARTS_H
#define HL_FAST_PARTS_H

#include "fast_audit.h"
#include "fast_plan.h"
#include "hammerline/fleet.h"

#include <string.h>

#define HL_FAST_PLANS 2   /* heads kept: more than one when fleets are mixed */
#define HL_FAST_FAILS 512 /* a sheet with more of them is not plain */

/* What a thread keeps from sheet to sheet: nothing below is taken or given back for a sheet. */
typedef struct hl_fast {
    hl_fast_plan plans[HL_FAST_PLANS];
    int last;        /* the one used last */
    hl_text key;     /* of the head in hand */
    size_t n_steps;  /* room for so many */
    hl_flat flat;    /* derived steps have their values here too */
    double *exact;   /* [n_steps][HL_FLAT_NOTES], of steps in formulas, NaN = not known */
    hl_amount *lean; /* of uneven ones: twice what the neighbours lean */
    int (*counts)[HL_VERDICTS];
    hl_finding *fails;
    size_t n_fails;
    size_t *first;  /* [n_steps + 2]: where each step's fails start */
    hl_arena arena; /* corrections of the sheet in hand */
} hl_fast;

/* Out of range, a fault word, or uneven. */
static inline bool hl__fast_is_fail(unsigned char state)
{
    return state >= HL_FAST_LOW && state <= HL_FAST_UNEVEN;
}

/* The next place from `note` on of a step's states where something fails, eight looked at at once;
 * behind the last note when there is none.  States are small: a fail has its high bit set by the
 * first sum and not by the other. */
static inline int hl__fast_next_fail(const unsigned char *states, int note)
{
    const uint64_t ones = UINT64_C(0x0101010101010101);
    for (; note % 8 != 0; note++)
        if (hl__fast_is_fail(states[note]))
            return note;
    for (; note < HL_FLAT_NOTES; note += 8) {
        uint64_t eight;
        memcpy(&eight, states + note, sizeof eight);
        if (((eight + ones * (0x80 - HL_FAST_LOW)) & ~(eight + ones * (0x7f - HL_FAST_UNEVEN)) &
             ones * 0x80) != 0)
            break;
    }
    while (note < HL_FLAT_NOTES && !hl__fast_is_fail(states[note]))
        note++;
    return note;
}

/* fast_head.c: the plan for a head; NULL: not plain, or no memory. */
hl_fast_plan *hl__fast_find_plan(hl_fast *fast, hl_fleet *fleet, const char *top, size_t size);
/* The size of a whole file's head, header row included; 0 when it is not plain. */
size_t hl__fast_head_size(const char *bytes, size_t size);

/* fast_verdict.c: states and counts of everything; false: for the careful way. */
bool hl__fast_verdicts(hl_fast *fast, const hl_fast_plan *plan);
/* fast_even.c: who stands out, and what may give way. */
void hl__fast_even(hl_fast *fast, const hl_fast_plan *plan);
/* fast_fails.c: the failing ones with their corrections; false: for the careful way. */
bool hl__fast_fails(hl_fast *fast, hl_fast_plan *plan);

#endif
