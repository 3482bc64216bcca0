/* solve_inner.h - what the parts of the solver share (layer: advise/solve, internal).
 *
 * A block is a set of steps and adjusters that hang together through effects; blocks of a note
 * are solved one by one.  solve.c cuts blocks and joins results, solve_search.c branches,
 * solve_bound.c proves bounds, solve_relax.c finds the multipliers that a proof needs. */
#ifndef HL_SOLVE_INNER_H
#define HL_SOLVE_INNER_H

#include "hammerline/plan.h"
#include "solve.h"

#define HL_SOLVE_SCALE INT64_C(1000000000000) /* raw cost of one half width */
#define HL_SOLVE_GRAIN INT64_C(1000000000)    /* a thousandth of it: the unit of results */
#define HL_RELAX_VARS  (HL_SOLVE_STEPS + HL_SOLVE_ADJUSTERS)

/* A convex cost made of straight pieces: slope `base` far below, growing by jump[k] at at[k]. */
typedef struct hl_bends {
    int n;
    double base, at[3], jump[3];
} hl_bends;

/* Minimise the sum of bends over rows z = gain * x and columns x, in scaled numbers. */
typedef struct hl_relax {
    int n_rows, n_cols;
    double table[HL_SOLVE_STEPS][HL_SOLVE_ADJUSTERS]; /* in: gains */
    hl_bends bends[HL_RELAX_VARS];                    /* in: columns first, then rows */
    double value[HL_RELAX_VARS];                      /* in: start of columns; out: solution */
    double price[HL_SOLVE_STEPS];                     /* out: multiplier of each row */
    int basic[HL_SOLVE_STEPS], other[HL_SOLVE_ADJUSTERS];
} hl_relax;

void hl__relax(hl_relax *lp);

typedef struct hl_solve_row {
    hl_amount reading, low, aim, high;
    bool has_low, has_high, has_aim;
    int64_t weight; /* raw cost of one unit, near HL_SOLVE_SCALE / half */
    int tier;       /* 0 hard, 1 kept, 2 other */
    int step;
} hl_solve_row;

typedef struct hl_solve_col {
    const hl_solve_move *moves;
    int n, zero;                 /* how many moves; which one leaves it alone */
    const int32_t *shift;        /* [n][n_rows] */
    double gain[HL_SOLVE_STEPS]; /* by row */
    double scale;                /* its smallest move: the relaxation's unit */
    int adjuster;
} hl_solve_col;

typedef struct hl_solve_score {
    int64_t violation[3], close, effort;
    int touched;
} hl_solve_score;

typedef struct hl_solve_range {
    int from[HL_SOLVE_ADJUSTERS], to[HL_SOLVE_ADJUSTERS];
} hl_solve_range;

/* A stage below 3 lessens the violation of that tier; stage 3 looks for closeness. */
typedef struct hl_solve_block {
    int n_rows, n_cols;
    hl_solve_row rows[HL_SOLVE_STEPS];
    hl_solve_col cols[HL_SOLVE_ADJUSTERS];
    int stage, may_touch;
    double penalty[3], pull; /* what violation of each tier, and distance from aim, cost */
    bool has_best;
    int best[HL_SOLVE_ADJUSTERS];
    hl_solve_score score; /* of best; violations are also the limits of stage 3 */
    int64_t close_limit;  /* no allowed choice is farther from aim than this */
    long nodes, budget;
    bool stopped;
    int free[HL_SOLVE_ADJUSTERS], n_free; /* columns of the last relaxation */
    double loose[3];                      /* raw violation of each tier in it */
    hl_relax lp;
} hl_solve_block;

/* Relax the block within the range: fills lp.value of free columns, lp.price and loose. */
void hl__relax_range(hl_solve_block *block, const hl_solve_range *range);
/* A sum of costs that no choice in the range can go below, from lp.price; rounding included. */
double hl__proven_bound(const hl_solve_block *block, const hl_solve_range *range);

hl_solve_score hl__score(const hl_solve_block *block, const int *pick);
/* Find the best moves of a block into best and score. */
void hl__solve_block(hl_solve_block *block);
hl_solve_range hl__whole_range(const hl_solve_block *block);
/* Why a row is unmet by the best moves: fills why, against and reach. */
void hl__explain(hl_solve_block *block, int row, hl_unmet *unmet);

#endif
