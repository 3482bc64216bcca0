/* solve_bound.c - bounds that hold: what no choice of moves in a range can go below.
 *
 * Layer: judge.  For any prices y, cost(z) >= least(cost(z) - y z) + y z for each row, and the sum of
 * y z splits into one term an adjuster, whose least value over its true, rounded moves is looked up.
 * So the bound holds whatever the relaxation made of the prices; the floating sum is lowered by more
 * than it can have lost. */
#include <math.h>

#include "solve_inner.h"

static void add_bend(hl_bends *bends, double at, double jump)
{
    if (jump <= 0)
        return;
    int k = bends->n++;
    for (; k > 0 && bends->at[k - 1] > at; k--) {
        bends->at[k] = bends->at[k - 1];
        bends->jump[k] = bends->jump[k - 1];
    }
    bends->at[k] = at;
    bends->jump[k] = jump;
}

static hl_bends row_bends(const hl_solve_block *block, const hl_solve_row *row)
{
    hl_bends bends = {0};
    double weight = (double)row->weight;
    double limit = weight * block->penalty[row->tier], pull = weight * block->pull;
    if (row->has_low) {
        add_bend(&bends, (double)(row->low - row->reading), limit);
        bends.base -= limit;
    }
    if (row->has_aim) {
        add_bend(&bends, (double)(row->aim - row->reading), 2 * pull);
        bends.base -= pull;
    }
    if (row->has_high)
        add_bend(&bends, (double)(row->high - row->reading), limit);
    return bends;
}

/* The cost of a row when its reading has moved by `shift`. */
static double row_cost(const hl_solve_block *block, const hl_solve_row *row, double shift)
{
    double limit = 0, pull = 0;
    if (row->has_low)
        limit = fmax(limit, (double)(row->low - row->reading) - shift);
    if (row->has_high)
        limit = fmax(limit, shift - (double)(row->high - row->reading));
    if (row->has_aim)
        pull = fabs(shift - (double)(row->aim - row->reading));
    return (double)row->weight * (limit * block->penalty[row->tier] + pull * block->pull);
}

/* Bends that fall together make the simplex walk in circles: push each aside by a little. */
static double push_aside(int row, int bend)
{
    return 1e-8 * (1 + (row * 37 + bend * 11) % 53);
}

static void set_column(hl_solve_block *block, const hl_solve_range *range, int c)
{
    const hl_solve_col *col = &block->cols[c];
    hl_relax *lp = &block->lp;
    int j = block->n_free++;
    double from = (double)col->moves[range->from[c]].amount / col->scale;
    double to = (double)col->moves[range->to[c]].amount / col->scale;
    block->free[j] = c;
    lp->bends[j] = (hl_bends){2, -1e15, {from, to, 0}, {1e15, 1e15, 0}};
    lp->value[j] = fmin(fmax(0, from), to);
    for (int i = 0; i < block->n_rows; i++)
        lp->table[i][j] = col->gain[i] * col->scale * (double)block->rows[i].weight / (double)HL_SOLVE_SCALE;
}

/* What the columns without range shift a row by. */
static double fixed_shift(const hl_solve_block *block, const hl_solve_range *range, int row)
{
    double fixed = 0;
    for (int c = 0; c < block->n_cols; c++) {
        if (range->from[c] == range->to[c])
            fixed += (double)block->cols[c].shift[range->from[c] * block->n_rows + row];
    }
    return fixed;
}

static void note_violation(hl_solve_block *block, int i, double shift)
{
    const hl_solve_row *row = &block->rows[i];
    double under = row->has_low ? (double)(row->low - row->reading) - shift : 0;
    double over = row->has_high ? shift - (double)(row->high - row->reading) : 0;
    block->loose[row->tier] += (double)row->weight * fmax(fmax(under, over), 0);
}

void hl__relax_range(hl_solve_block *block, const hl_solve_range *range)
{
    hl_relax *lp = &block->lp;
    double fixed[HL_SOLVE_STEPS];
    block->n_free = 0;
    for (int c = 0; c < block->n_cols; c++) {
        if (range->from[c] < range->to[c])
            set_column(block, range, c);
    }
    lp->n_cols = block->n_free;
    lp->n_rows = block->n_rows;
    for (int i = 0; i < block->n_rows; i++) {
        double weight = (double)block->rows[i].weight, scale = weight / (double)HL_SOLVE_SCALE;
        hl_bends bends = row_bends(block, &block->rows[i]);
        fixed[i] = fixed_shift(block, range, i);
        bends.base /= weight;
        for (int k = 0; k < bends.n; k++) {
            bends.at[k] = (bends.at[k] - fixed[i]) * scale + push_aside(i, k);
            bends.jump[k] /= weight;
        }
        lp->bends[lp->n_cols + i] = bends;
        lp->price[i] = 0;
    }
    hl__relax(lp);
    block->loose[0] = block->loose[1] = block->loose[2] = 0;
    for (int i = 0; i < block->n_rows; i++) {
        double scale = (double)block->rows[i].weight / (double)HL_SOLVE_SCALE;
        note_violation(block, i, fixed[i] + lp->value[lp->n_cols + i] / scale);
    }
}

/* The least of y * shift over an adjuster's moves in the range.  The true shifts are rounded, so the
 * line y * by * amount is off by at most half a unit a row: look from its lower end inwards, until
 * the line has risen by more than that. */
static double least_share(const hl_solve_block *block, const hl_solve_col *col, int from, int to,
                          const double *y)
{
    double slope = 0, blur = 0, least = INFINITY;
    for (int i = 0; i < block->n_rows; i++) {
        slope += y[i] * col->gain[i];
        if (col->gain[i] != 0)
            blur += fabs(y[i]);
    }
    blur = 0.6 * blur + fabs(slope) * 1e-12 * fabs((double)(col->moves[to].amount - col->moves[from].amount));
    int step = slope >= 0 ? 1 : -1;
    for (int j = step > 0 ? from : to; j >= from && j <= to; j += step) {
        const int32_t *shift = &col->shift[j * block->n_rows];
        double share = 0;
        if (slope * (double)col->moves[j].amount - blur > least)
            break;
        for (int i = 0; i < block->n_rows; i++)
            share += y[i] * (double)shift[i];
        least = fmin(least, share);
    }
    return least;
}

double hl__proven_bound(const hl_solve_block *block, const hl_solve_range *range)
{
    double y[HL_SOLVE_STEPS], bound = 0, size = 0;
    for (int i = 0; i < block->n_rows; i++) {
        const hl_solve_row *row = &block->rows[i];
        hl_bends bends = row_bends(block, row);
        double steepest = bends.base, least = bends.n ? INFINITY : 0, far = 0;
        for (int k = 0; k < bends.n; k++)
            steepest += bends.jump[k];
        y[i] = fmin(fmax(block->lp.price[i] * (double)row->weight, bends.base), steepest);
        for (int k = 0; k < bends.n; k++) {
            least = fmin(least, row_cost(block, row, bends.at[k]) - y[i] * bends.at[k]);
            far = fmax(far, fabs(bends.at[k]));
        }
        for (int c = 0; c < block->n_cols; c++) {
            const int32_t *shift = block->cols[c].shift;
            far += fmax(fabs((double)shift[range->from[c] * block->n_rows + i]),
                        fabs((double)shift[range->to[c] * block->n_rows + i]));
        }
        bound += least;
        size += fabs(y[i]) * far + fabs(least);
    }
    for (int c = 0; c < block->n_cols; c++)
        bound += least_share(block, &block->cols[c], range->from[c], range->to[c], y);
    return bound - 1e-12 * size;
}
