/* solve_relax.c - the least sum of bent costs when moves need not be whole: a small simplex.
 *
 * Layer: judge.  Works in place on the caller's table.  Every variable, column or row, has a convex
 * cost of straight pieces; a variable outside the basis rests where its cost bends.  The result is
 * only a guide: whatever prices come out, solve_bound.c turns them into a bound that holds, so a
 * numerical slip here costs time and never a wrong answer. */
#include <math.h>

#include "solve_inner.h"

#define TINY  1e-11
#define STEPS 200 /* pivots; 15 are usual */

/* Slopes just below and just above a place. */
static void find_slopes(const hl_bends *bends, double at, double *below, double *above)
{
    *below = *above = bends->base;
    for (int k = 0; k < bends->n; k++) {
        if (bends->at[k] < at - TINY)
            *below += bends->jump[k];
        if (bends->at[k] <= at + TINY)
            *above += bends->jump[k];
    }
}

static double find_slope(const hl_relax *lp, int row)
{
    double below, above;
    int var = lp->basic[row];
    find_slopes(&lp->bends[var], lp->value[var], &below, &above);
    return below;
}

/* The column that lowers the cost fastest, and which way; -1 = none. */
static int choose_entering(const hl_relax *lp, const double *slope, double *way, double *rate)
{
    int entering = -1;
    *rate = -1e-9;
    for (int j = 0; j < lp->n_cols; j++) {
        double below, above, pull = 0;
        int var = lp->other[j];
        for (int i = 0; i < lp->n_rows; i++)
            pull += slope[i] * lp->table[i][j];
        find_slopes(&lp->bends[var], lp->value[var], &below, &above);
        if (pull + above < *rate) {
            *rate = pull + above;
            *way = 1;
            entering = j;
        }
        if (-(pull + below) < *rate) {
            *rate = -(pull + below);
            *way = -1;
            entering = j;
        }
    }
    return entering;
}

/* When a variable that moves at `speed` meets its next bend; `done` marks those behind it.  A basic
 * variable on a bend counts as below it (see find_slope), so going up it meets that bend at once. */
static double next_bend(const hl_bends *bends, double value, double speed, unsigned done, int *which)
{
    double first = INFINITY;
    for (int k = 0; k < bends->n; k++) {
        double when = fmax((bends->at[k] - value) / speed, 0);
        if (!(done >> k & 1) && when < first) {
            first = when;
            *which = k;
        }
    }
    return first;
}

static unsigned bends_behind(const hl_bends *bends, double value, double speed, bool basic)
{
    unsigned done = 0;
    for (int k = 0; k < bends->n; k++) {
        bool ahead = speed < 0 ? bends->at[k] < value - TINY : bends->at[k] > value + (basic ? -TINY : TINY);
        if (!ahead)
            done |= 1u << k;
    }
    return done;
}

typedef struct stop {
    int row; /* -1: the entering variable itself */
    double when, place;
} stop;

/* Go on while the cost falls: over bends, to the one where it stops falling. */
static bool find_stop(const hl_relax *lp, int entering, double way, double rate, stop *out)
{
    unsigned done[HL_SOLVE_STEPS + 1];
    int n = lp->n_rows, vars[HL_SOLVE_STEPS + 1];
    double speed[HL_SOLVE_STEPS + 1];
    for (int i = 0; i <= n; i++) {
        vars[i] = i < n ? lp->basic[i] : lp->other[entering];
        speed[i] = i < n ? way * lp->table[i][entering] : way;
        done[i] = bends_behind(&lp->bends[vars[i]], lp->value[vars[i]], speed[i], i < n);
    }
    while (rate < 0) {
        double first = INFINITY;
        int met = -1, bend = 0;
        for (int i = 0; i <= n; i++) {
            int k = 0;
            if (fabs(speed[i]) < 1e-9)
                continue;
            double when = next_bend(&lp->bends[vars[i]], lp->value[vars[i]], speed[i], done[i], &k);
            if (when < first) {
                first = when;
                met = i;
                bend = k;
            }
        }
        if (met < 0)
            return false;
        done[met] |= 1u << bend;
        rate += lp->bends[vars[met]].jump[bend] * fabs(speed[met]);
        *out = (stop){met < n ? met : -1, first, lp->bends[vars[met]].at[bend]};
    }
    return true;
}

static void swap_basis(hl_relax *lp, int row, int col)
{
    double pivot = 1 / lp->table[row][col];
    int var = lp->basic[row];
    for (int j = 0; j < lp->n_cols; j++)
        lp->table[row][j] = j == col ? pivot : -lp->table[row][j] * pivot;
    for (int i = 0; i < lp->n_rows; i++) {
        double factor = lp->table[i][col];
        if (i == row || fabs(factor) < 1e-15)
            continue;
        for (int j = 0; j < lp->n_cols; j++)
            lp->table[i][j] = j == col ? factor * pivot : lp->table[i][j] + factor * lp->table[row][j];
    }
    lp->basic[row] = lp->other[col];
    lp->other[col] = var;
}

static void start(hl_relax *lp)
{
    for (int j = 0; j < lp->n_cols; j++)
        lp->other[j] = j;
    for (int i = 0; i < lp->n_rows; i++) {
        int var = lp->n_cols + i;
        lp->basic[i] = var;
        lp->value[var] = 0;
        for (int j = 0; j < lp->n_cols; j++)
            lp->value[var] += lp->table[i][j] * lp->value[j];
    }
}

static void read_prices(hl_relax *lp, const double *slope)
{
    for (int i = 0; i < lp->n_rows; i++) {
        if (lp->basic[i] >= lp->n_cols)
            lp->price[lp->basic[i] - lp->n_cols] = slope[i];
    }
    for (int j = 0; j < lp->n_cols; j++) {
        double below, above, pull = 0;
        int var = lp->other[j];
        if (var < lp->n_cols)
            continue;
        for (int i = 0; i < lp->n_rows; i++)
            pull += slope[i] * lp->table[i][j];
        find_slopes(&lp->bends[var], lp->value[var], &below, &above);
        lp->price[var - lp->n_cols] = fmin(fmax(-pull, below), above);
    }
}

void hl__relax(hl_relax *lp)
{
    double slope[HL_SOLVE_STEPS];
    start(lp);
    for (int n = 0; n < STEPS; n++) {
        double way = 1, rate;
        stop at = {-1, 0, 0};
        for (int i = 0; i < lp->n_rows; i++)
            slope[i] = find_slope(lp, i);
        int entering = choose_entering(lp, slope, &way, &rate);
        if (entering < 0 || !find_stop(lp, entering, way, rate, &at))
            break;
        for (int i = 0; i < lp->n_rows; i++)
            lp->value[lp->basic[i]] += way * at.when * lp->table[i][entering];
        lp->value[lp->other[entering]] += way * at.when;
        if (at.row < 0) {
            lp->value[lp->other[entering]] = at.place;
        } else {
            lp->value[lp->basic[at.row]] = at.place;
            swap_basis(lp, at.row, entering);
        }
    }
    read_prices(lp, slope);
}
