/* solve_why.c - why a step stays unmet: what stands in its way (layer: advise/solve).
 *
 * Asked twice: could this step be met if no other counted?  If not, its adjusters lack the reach.  And
 * with the others' limits kept?  The prices of that relaxation name the steps that push back, and the
 * adjusters that stop at the end of their reach. */
#include <math.h>

#include "solve_inner.h"

/* Leave only this row to give way; the others keep their limits, or may stay as bad as they are. */
static void single_out(hl_solve_block *block, int row)
{
    for (int i = 0; i < block->n_rows; i++) {
        hl_solve_row *other = &block->rows[i];
        hl_amount value = other->reading;
        for (int c = 0; c < block->n_cols; c++)
            value += block->cols[c].shift[block->best[c] * block->n_rows + i];
        other->tier = i == row ? 1 : 0;
        if (i != row && other->low > value)
            other->low = value;
        if (i != row && other->high < value)
            other->high = value;
    }
    block->stage = 1;
    block->pull = 0;
    block->penalty[1] = 1;
}

static void name_culprits(const hl_solve_block *block, int row, hl_unmet *unmet)
{
    for (int i = 0; i < block->n_rows; i++) {
        if (i != row && fabs(block->lp.price[i]) > 1e-6)
            unmet->against |= UINT32_C(1) << block->rows[i].step;
    }
    for (int c = 0; c < block->n_cols; c++) {
        const hl_solve_col *col = &block->cols[c];
        double pull = 0;
        for (int i = 0; i < block->n_rows; i++)
            pull += block->lp.price[i] * col->gain[i] * col->scale * (double)block->rows[i].weight;
        if (fabs(pull) > 1e-6 * (double)HL_SOLVE_SCALE)
            unmet->reach |= UINT32_C(1) << col->adjuster;
    }
}

/* True when the row can't be met, whole moves or not, at this price of violating the others. */
static bool is_stuck(hl_solve_block *block, double penalty)
{
    hl_solve_range range = hl__whole_range(block);
    block->penalty[0] = penalty;
    hl__relax_range(block, &range);
    return hl__proven_bound(block, &range) > 1e-6 * (double)HL_SOLVE_SCALE;
}

void hl__explain(hl_solve_block *block, int row, hl_unmet *unmet)
{
    hl_solve_row before[HL_SOLVE_STEPS];
    for (int i = 0; i < block->n_rows; i++)
        before[i] = block->rows[i];
    single_out(block, row);
    unmet->why = is_stuck(block, 0)      ? HL_UNMET_REACH
                 : is_stuck(block, 4096) ? HL_UNMET_CONFLICT
                                         : HL_UNMET_GRAIN;
    if (unmet->why != HL_UNMET_GRAIN)
        name_culprits(block, row, unmet);
    for (int i = 0; i < block->n_rows; i++)
        block->rows[i] = before[i];
}
