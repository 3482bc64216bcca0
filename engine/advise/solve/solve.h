/* solve.h - the moves that bring every reading of one note inside its target (layer: advise/solve).
 *
 * Plain arithmetic behind `plan`: no books, no sheets.  The caller says what was read, what is
 * allowed, which moves each adjuster can make and what they do; hl__solve() names the one best
 * set of moves.  Best means, in this order:
 *   1. least violation of limits: of hard steps, then of kept steps, then of the rest (none at
 *      all when that can be had); counted in thousandths of a half width, any violation is >= 1;
 *   2. fewest adjusters touched;
 *   3. closest to aim: the sum of |predicted - aim| / half width, in thousandths, rounded up;
 *   4. least movement (the sum of efforts); then the earlier adjuster moves more, and up.
 * Rounding to thousandths is done once for each group of steps that hang together.
 * A reading after the moves is reading + sum of round(by * amount): whole numbers, rounded once
 * for each adjuster and step, so that limits are compared exactly.
 *
 * The caller owns all that it passes in; scratch comes from the arena, nothing per node. */
#ifndef HL_SOLVE_H
#define HL_SOLVE_H

#include "arena.h"
#include "hammerline/plan.h"

#define HL_SOLVE_STEPS     24
#define HL_SOLVE_ADJUSTERS 12
#define HL_SOLVE_BUDGET    200000L /* relaxations tried on a note before it gives up the proof */

/* Largest reading or limit, and largest shift by one adjuster, that the arithmetic has room for:
 * 1 m or 1 kg, and 100 mm or 100 g. */
#define HL_SOLVE_MOST_READ  INT64_C(1000000000)
#define HL_SOLVE_MOST_SHIFT INT64_C(100000000)
/* Half widths below this (0.01 mm) count as this: a target without width must not drown the rest. */
#define HL_SOLVE_LEAST_HALF INT64_C(10000)

typedef struct hl_solve_step {
    hl_amount reading, low, aim, high;
    bool has_low, has_high, has_aim; /* none of them: only predicted */
    hl_amount half;                  /* half width of the target: the yardstick for closeness */
    bool hard;                       /* may not be violated: key level, hammer line */
    bool keep;                       /* passes now, and must go on passing */
} hl_solve_step;

typedef struct hl_solve_move {
    hl_amount amount;            /* signed, in the adjuster's unit; 0 = leave alone */
    int64_t effort;              /* thousandths of its smallest move */
    hl_amount pieces[HL_PIECES]; /* sizes that make it up, largest first; 0 = unused */
} hl_solve_move;

typedef struct hl_solve_adjuster {
    const hl_solve_move *moves; /* ascending amounts, each once, 0 among them */
    int n_moves;
    const double *by; /* [n_steps] step units per adjuster unit */
} hl_solve_adjuster;

typedef struct hl_solve_note {
    const hl_solve_step *steps;
    int n_steps;
    const hl_solve_adjuster *adjusters;
    int n_adjusters;
    long budget; /* 0 = HL_SOLVE_BUDGET */
} hl_solve_note;

typedef enum hl_unmet_why {
    HL_UNMET_UNMOVED,  /* no adjuster moves it */
    HL_UNMET_REACH,    /* the adjusters that move it have not the reach */
    HL_UNMET_CONFLICT, /* it can be met only at the cost of the steps in `against` */
    HL_UNMET_GRAIN,    /* the true place lies between two possible moves */
} hl_unmet_why;

typedef struct hl_unmet {
    int step;
    hl_amount by; /* positive */
    bool above;   /* above the high limit, else below the low one */
    hl_unmet_why why;
    uint32_t against; /* bit s: step s stands in its way; one bit = a pair in conflict */
    uint32_t reach;   /* bit a: adjuster a is at the end of its reach */
} hl_unmet;

typedef struct hl_solution {
    bool met;    /* every limit is met */
    bool proven; /* no better choice exists; false = the budget ran out, this is the best found */
    long nodes;
    int touched;
    int move[HL_SOLVE_ADJUSTERS]; /* index into the adjuster's moves */
    hl_amount predicted[HL_SOLVE_STEPS];
    int64_t violation[3]; /* hard, kept, other; thousandths of a half width */
    int64_t closeness, effort;
    hl_unmet unmet[HL_SOLVE_STEPS];
    int n_unmet;
} hl_solution;

typedef enum hl_solve_code {
    HL_SOLVE_OK,
    HL_SOLVE_MANY,   /* more steps or adjusters than there is room for */
    HL_SOLVE_LIMITS, /* a step's low is above its high, or a value is past HL_SOLVE_MOST_READ */
    HL_SOLVE_MOVES,  /* an adjuster's moves are not ascending, or lack the 0 */
    HL_SOLVE_EFFECT, /* an effect is not a number, or shifts a step past HL_SOLVE_MOST_SHIFT */
    HL_SOLVE_MEMORY,
} hl_solve_code;

/* Solve a note.  On anything but HL_SOLVE_OK *bad_step and *bad_adjuster say where (-1 = does not
 * apply) and *out is zeroed. */
hl_solve_code hl__solve(hl_solution *out, const hl_solve_note *note, hl_arena *scratch, int *bad_step,
                        int *bad_adjuster);

/* Ways that an adjuster may go. */
typedef enum hl_ways { HL_WAYS_BOTH, HL_WAYS_MORE, HL_WAYS_LESS } hl_ways;

#define HL_MULTIPLES        256 /* most multiples of `finest` each way */
#define HL_MULTIPLES_FREELY 64  /* each way, when no reach is stated */
#define HL_PIECE_SIZES      24  /* most different sizes in the box */

/* Moves of a screw: whole multiples of finest within the reach (0 = not stated).  NULL when there
 * is no memory, or finest is not positive or past HL_SOLVE_MOST_READ. */
const hl_solve_move *hl__moves_by_finest(hl_arena *arena, hl_amount finest, hl_amount reach, hl_ways ways,
                                         int *n);
/* Moves of punchings or leads: up to most_pieces (1 to HL_PIECES) of the sizes added, or as many taken away,
 * within the reach (0 = not stated); each sum by the fewest pieces.  NULL when there is no memory, no
 * positive size, or there are more than HL_PIECE_SIZES. */
const hl_solve_move *hl__moves_by_sizes(hl_arena *arena, const hl_amount *sizes, int n_sizes, int most_pieces,
                                        hl_amount reach, hl_ways ways, int *n);

#endif
