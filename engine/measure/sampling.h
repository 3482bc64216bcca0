/* sampling.h - which notes to measure, and what they say of all the others (layer: measure).
 *
 * The notes are drawn from strata, the naturals and the sharps of each section, in proportion to their
 * size; within one all are alike likely.  Where that would leave a stratum out, sections are joined,
 * then colours.
 *
 * Random numbers: SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, 2014).  The state starts as the seed;
 * each draw adds 0x9e3779b97f4a7c15 and mixes a copy.  A number below n: draws under 2^64 mod n are
 * thrown away, then the remainder by n is taken.  Strata are drawn in order, low sections first and
 * naturals before sharps, by exchanging each of the first places with one at or after it. */
#ifndef HL_SAMPLING_H
#define HL_SAMPLING_H

#include "hammerline/audit.h"
#include "table.h"

#define HL_STRATA_MOST     (2 * (HL_BREAKS_MOST + 1))
#define HL_STRATA_SEARCHED 12 /* with more the bound is Hoeffding's: safe, one or two notes larger */

typedef struct hl_stratum {
    int size, drawn;
} hl_stratum;

uint64_t hl__random_next(uint64_t *state);
uint64_t hl__random_below(uint64_t *state, uint64_t n); /* n > 0 */

/* HL_E_USAGE when nonsense is asked for. */
hl_code hl__sample_check(const hl_sample_ask *ask, const hl_sheet *sheet, hl_err *err);
/* A sample that was drawn; all NULL when none is asked for. */
typedef struct hl_drawn {
    hl_sample *sample;
    hl_stratum *strata;     /* that it was drawn from, [HL_STRATA_MOST] */
    unsigned char *sampled; /* [keys + 1]: 1 = drawn */
} hl_drawn;
/* Draw the notes, before anything is judged.  False = no memory. */
bool hl__sample_draw(hl_drawn *out, hl_arena *arena, const hl_sheet *sheet, const hl_sample_ask *ask);
/* Count what the sample shows, from all findings; nothing when none was drawn. */
void hl__sample_conclude(const hl_drawn *drawn, const hl_finding *findings, size_t n);
/* Ready by what was asked of the sample? */
bool hl__sample_ready(const hl_drawn *drawn, const hl_table *table, const hl_finding *findings, size_t n);
/* Add the strata of one more piano.  False = no memory. */
bool hl__samples_add(hl_samples *samples, const hl_drawn *drawn);

/* ---- bound.c: what so few bad ones in the sample allow of all -------------------------------- */

/* Chance that no more than `most` bad ones turn up among `drawn` of `size`, of which `bad` are bad. */
double hl__chance_at_most(int size, int drawn, int bad, int most);
/* The chance of no more than `most` in all the strata, bads[n] of which are bad in each. */
double hl__strata_chance(const hl_stratum *strata, const int *bads, int n, int most);
/* The largest number of bad ones in all the strata, however they lie, with which no more than `bad`
 * turn up with a chance of more than `risk`.  Every stratum has been sampled. */
int hl__strata_bound(const hl_stratum *strata, int n, int bad, double risk);

#endif
