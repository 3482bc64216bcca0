/* solve_search.c - the search over moves: branch, bound, and drop only what is proven worse.
 *
 * Layer: judge.  First the violation of each tier is brought down in turn with every adjuster allowed;
 * then sets of adjusters are tried, smallest first, for the choice closest to aim that keeps it there. */
#include <math.h>

#include "solve_inner.h"

static int64_t to_thousandths(int64_t raw)
{
    return (raw + HL_SOLVE_GRAIN - 1) / HL_SOLVE_GRAIN;
}

hl_solve_score hl__score(const hl_solve_block *block, const int *pick)
{
    hl_solve_score score = {0};
    for (int i = 0; i < block->n_rows; i++) {
        const hl_solve_row *row = &block->rows[i];
        hl_amount value = row->reading;
        for (int c = 0; c < block->n_cols; c++)
            value += block->cols[c].shift[pick[c] * block->n_rows + i];
        if (row->has_low && value < row->low)
            score.violation[row->tier] += (row->low - value) * row->weight;
        if (row->has_high && value > row->high)
            score.violation[row->tier] += (value - row->high) * row->weight;
        if (row->has_aim)
            score.close += (value < row->aim ? row->aim - value : value - row->aim) * row->weight;
    }
    for (int t = 0; t < 3; t++)
        score.violation[t] = to_thousandths(score.violation[t]);
    score.close = to_thousandths(score.close);
    for (int c = 0; c < block->n_cols; c++) {
        score.effort += block->cols[c].moves[pick[c]].effort;
        score.touched += pick[c] != block->cols[c].zero;
    }
    return score;
}

/* Same score: the earlier adjuster takes the greater share; then up before down. */
static bool comes_first(const hl_solve_block *block, const int *pick)
{
    for (int c = 0; c < block->n_cols; c++) {
        const hl_solve_move *mine = &block->cols[c].moves[pick[c]];
        const hl_solve_move *best = &block->cols[c].moves[block->best[c]];
        if (mine->effort != best->effort)
            return mine->effort > best->effort;
        if (mine->amount != best->amount)
            return mine->amount > best->amount;
    }
    return false;
}

static bool is_better(const hl_solve_block *block, const int *pick, const hl_solve_score *score)
{
    if (block->stage < 3) {
        for (int t = 0; t < 3; t++) {
            if (score->violation[t] != block->score.violation[t])
                return score->violation[t] < block->score.violation[t];
        }
        return false;
    }
    for (int t = 0; t < 3; t++) {
        if (score->violation[t] > block->score.violation[t])
            return false;
    }
    if (score->touched > block->may_touch)
        return false;
    if (!block->has_best)
        return true;
    if (score->close != block->score.close)
        return score->close < block->score.close;
    if (score->effort != block->score.effort)
        return score->effort < block->score.effort;
    return comes_first(block, pick);
}

static void offer(hl_solve_block *block, const int *pick)
{
    hl_solve_score score = hl__score(block, pick);
    if (!is_better(block, pick, &score))
        return;
    block->has_best = true;
    block->score = score;
    for (int c = 0; c < block->n_cols; c++)
        block->best[c] = pick[c];
}

static int64_t least_effort(const hl_solve_block *block, const hl_solve_range *range)
{
    int64_t sum = 0;
    for (int c = 0; c < block->n_cols; c++) {
        const hl_solve_col *col = &block->cols[c];
        if (range->from[c] > col->zero)
            sum += col->moves[range->from[c]].effort;
        else if (range->to[c] < col->zero)
            sum += col->moves[range->to[c]].effort;
    }
    return sum;
}

/* True when nothing in the range can be better than the best so far.  A choice that keeps the
 * violations costs at most `allowed` beside what it adds in this stage. */
static bool is_hopeless(const hl_solve_block *block, const hl_solve_range *range)
{
    double bound = hl__proven_bound(block, range), grain = (double)HL_SOLVE_GRAIN, allowed = 0;
    int tiers = block->stage < 3 ? block->stage : 3;
    for (int t = 0; t < tiers; t++)
        allowed += block->penalty[t] * (double)block->score.violation[t] * grain;
    if (block->stage < 3)
        return bound > allowed + (double)(block->score.violation[block->stage] - 1) * grain;
    double close = (double)(block->has_best ? block->score.close : block->close_limit);
    if (bound > allowed + close * grain)
        return true;
    return block->has_best && bound > allowed + (close - 1) * grain &&
           least_effort(block, range) > block->score.effort;
}

/* The last move of the column at or below the amount, within the range. */
static int find_move(const hl_solve_col *col, int from, int to, double amount)
{
    while (from < to) {
        int middle = from + (to - from + 1) / 2;
        if ((double)col->moves[middle].amount <= amount)
            from = middle;
        else
            to = middle - 1;
    }
    return from;
}

/* Take the nearest moves as a candidate; name the column that is farthest from one, or -1 when all
 * are whole already. */
static int round_moves(const hl_solve_block *block, const hl_solve_range *range, int *pick, int *below)
{
    int split = -1;
    double farthest = 1e-6;
    for (int c = 0; c < block->n_cols; c++)
        pick[c] = below[c] = range->from[c];
    for (int j = 0; j < block->n_free; j++) {
        int c = block->free[j];
        const hl_solve_col *col = &block->cols[c];
        double amount = block->lp.value[j] * col->scale, off = 0;
        int at = find_move(col, range->from[c], range->to[c], amount + 1e-7 * col->scale);
        pick[c] = below[c] = at;
        if (at < range->to[c]) {
            double low = (double)col->moves[at].amount, high = (double)col->moves[at + 1].amount;
            off = fmin(fmax((amount - low) / (high - low), 0), 1);
            if (off > 0.5)
                pick[c] = at + 1;
            off = fmin(off, 1 - off);
        }
        if (off > farthest) {
            farthest = off;
            split = c;
        }
    }
    return split;
}

static bool spend(hl_solve_block *block)
{
    if (block->nodes >= block->budget)
        block->stopped = true;
    else
        block->nodes++;
    return !block->stopped;
}

/* A settled tier that must be violated has a price at which the relaxation violates it just as much;
 * there the bound is best.  Step towards it; false when no price wants to move on the same way. */
static bool tune_penalties(hl_solve_block *block, int *way)
{
    bool tuned = false;
    for (int t = 0; t < (block->stage < 3 ? block->stage : 3); t++) {
        double settled = (double)block->score.violation[t] * (double)HL_SOLVE_GRAIN;
        int wanted = block->loose[t] > settled * (1 + 1e-9)   ? 1
                     : block->loose[t] < settled * (1 - 1e-9) ? -1
                                                              : 0;
        if (!wanted || settled <= 0 || wanted == -way[t] || (wanted > 0 && block->penalty[t] > 2000) ||
            (wanted < 0 && block->penalty[t] < 0.1))
            continue;
        way[t] = wanted;
        block->penalty[t] *= wanted > 0 ? 2 : 0.5;
        tuned = true;
    }
    return tuned;
}

/* Relax the range, take what it suggests as a candidate, and say whether it is worth going on. */
static bool look(hl_solve_block *block, const hl_solve_range *range, bool suggest)
{
    int way[3] = {0}, pick[HL_SOLVE_ADJUSTERS], below[HL_SOLVE_ADJUSTERS];
    do {
        if (!spend(block))
            return false;
        hl__relax_range(block, range);
        if (suggest) {
            round_moves(block, range, pick, below);
            offer(block, pick);
        }
        if (is_hopeless(block, range))
            return false;
    } while (tune_penalties(block, way));
    return true;
}

static int widest_column(const hl_solve_block *block, const hl_solve_range *range)
{
    int widest = block->free[0];
    for (int j = 1; j < block->n_free; j++) {
        int c = block->free[j];
        if (range->to[c] - range->from[c] > range->to[widest] - range->from[widest])
            widest = c;
    }
    return widest;
}

static bool is_done(const hl_solve_block *block)
{
    return block->stopped || (block->stage < 3 && block->score.violation[block->stage] == 0);
}

static void search(hl_solve_block *block, const hl_solve_range *range);

static void search_part(hl_solve_block *block, const hl_solve_range *range, int c, int from, int to)
{
    if (from > to || is_done(block))
        return;
    hl_solve_range part = *range;
    part.from[c] = from;
    part.to[c] = to;
    search(block, &part);
}

static void search(hl_solve_block *block, const hl_solve_range *range)
{
    int pick[HL_SOLVE_ADJUSTERS], below[HL_SOLVE_ADJUSTERS];
    if (!look(block, range, true) || block->n_free == 0 || is_done(block))
        return;
    int split = round_moves(block, range, pick, below);
    if (split < 0) { /* whole moves already: this one is done, look on both sides of it */
        int c = widest_column(block, range), at = pick[c];
        search_part(block, range, c, at, at);
        search_part(block, range, c, range->from[c], at - 1);
        search_part(block, range, c, at + 1, range->to[c]);
        return;
    }
    int at = below[split];
    bool up_first = pick[split] > at;
    if (up_first)
        search_part(block, range, split, at + 1, range->to[split]);
    search_part(block, range, split, range->from[split], at);
    if (!up_first)
        search_part(block, range, split, at + 1, range->to[split]);
}

static void leave_alone(const hl_solve_block *block, hl_solve_range *range, int c)
{
    range->from[c] = range->to[c] = block->cols[c].zero;
}

hl_solve_range hl__whole_range(const hl_solve_block *block)
{
    hl_solve_range range = {{0}, {0}};
    for (int c = 0; c < block->n_cols; c++)
        range.to[c] = block->cols[c].n - 1;
    return range;
}

/* Choose `left` more of the columns from c on; those already left out have no range. */
static void choose_columns(hl_solve_block *block, const hl_solve_range *range, int c, int left)
{
    hl_solve_range rest = *range;
    if (block->stopped || block->n_cols - c < left)
        return;
    if (left == 0 || block->n_cols - c == left) {
        for (; left == 0 && c < block->n_cols; c++)
            leave_alone(block, &rest, c);
        search(block, &rest);
        return;
    }
    choose_columns(block, range, c + 1, left - 1);
    leave_alone(block, &rest, c);
    if (look(block, &rest, false))
        choose_columns(block, &rest, c + 1, left);
}

/* The penalty of tiers that are settled: steep when nothing may be violated; gentler when something
 * must, since it then also forgives up to a thousandth. */
static void settle(hl_solve_block *block, int tier)
{
    block->penalty[tier] = block->score.violation[tier] ? 64 : 4096;
}

static void lessen_violation(hl_solve_block *block)
{
    hl_solve_range range = hl__whole_range(block);
    long budget = block->budget;
    int pick[HL_SOLVE_ADJUSTERS];
    for (int c = 0; c < block->n_cols; c++)
        pick[c] = block->best[c] = block->cols[c].zero;
    block->score = hl__score(block, pick);
    block->has_best = true;
    block->pull = 0;
    block->budget = budget / 2; /* keep half for the choice of adjusters */
    for (block->stage = 0; block->stage < 3; block->stage++) {
        for (int t = 0; t < 3; t++)
            block->penalty[t] = t == block->stage ? 1 : 0;
        for (int t = 0; t < block->stage; t++)
            settle(block, t);
        if (block->score.violation[block->stage])
            search(block, &range);
    }
    block->budget = budget;
}

/* No choice that keeps the violations can be farther from aim than this. */
static int64_t find_close_limit(const hl_solve_block *block)
{
    int64_t sum = 0;
    for (int i = 0; i < block->n_rows; i++) {
        const hl_solve_row *row = &block->rows[i];
        hl_amount low = row->reading, high = row->reading;
        if (!row->has_aim)
            continue;
        for (int c = 0; c < block->n_cols; c++) {
            const hl_solve_col *col = &block->cols[c];
            hl_amount one = col->shift[i], two = col->shift[(col->n - 1) * block->n_rows + i];
            low += one < two ? one : two;
            high += one < two ? two : one;
        }
        if (!block->score.violation[row->tier] && row->has_low && row->low > low)
            low = row->low;
        if (!block->score.violation[row->tier] && row->has_high && row->high < high)
            high = row->high;
        hl_amount above = high - row->aim, under = row->aim - low;
        sum += (above > under ? above : under) * row->weight;
    }
    return to_thousandths(sum);
}

void hl__solve_block(hl_solve_block *block)
{
    int first[HL_SOLVE_ADJUSTERS];
    lessen_violation(block);
    bool early = block->stopped;
    hl_solve_score found = block->score;
    for (int c = 0; c < block->n_cols; c++)
        first[c] = block->best[c];
    for (int t = 0; t < 3; t++)
        settle(block, t);
    block->stage = 3;
    block->pull = 1;
    block->has_best = block->stopped = false;
    block->close_limit = find_close_limit(block);
    for (int n = 0; n <= found.touched && !block->stopped && !block->has_best; n++) {
        hl_solve_range range = hl__whole_range(block);
        block->may_touch = n;
        if (n == found.touched)
            offer(block, first);
        choose_columns(block, &range, 0, n);
    }
    block->may_touch = block->n_cols;
    if (!block->has_best)
        offer(block, first);
    block->stopped = block->stopped || early;
}
