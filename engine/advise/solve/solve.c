/* solve.c - one note, from the caller's numbers to a solution: check, cut into blocks, solve, join.
 *
 * Layer: judge.  Steps and adjusters that do not hang together are solved apart, which is exact,
 * since every measure of a solution is a sum, and far quicker. */
#include <math.h>
#include <string.h>

#include "solve_inner.h"

typedef struct map {
    int leader[HL_SOLVE_ADJUSTERS]; /* of the adjuster's block; itself when it leads */
    int of_step[HL_SOLVE_STEPS];    /* leader of the step's block, or -1 */
} map;

static bool is_too_big(hl_amount value)
{
    return value > HL_SOLVE_MOST_READ || value < -HL_SOLVE_MOST_READ;
}

static bool is_step_sound(const hl_solve_step *step)
{
    if (step->has_low && step->has_high && step->low > step->high)
        return false;
    return !is_too_big(step->reading) && !(step->has_low && is_too_big(step->low)) &&
           !(step->has_high && is_too_big(step->high)) && !(step->has_aim && is_too_big(step->aim));
}

static bool are_moves_sound(const hl_solve_adjuster *adjuster)
{
    bool zero = false;
    for (int j = 0; j < adjuster->n_moves; j++) {
        zero = zero || adjuster->moves[j].amount == 0;
        if (j && adjuster->moves[j - 1].amount >= adjuster->moves[j].amount)
            return false;
    }
    return zero;
}

static bool is_effect_sound(const hl_solve_adjuster *adjuster, double by)
{
    double first = (double)adjuster->moves[0].amount;
    double last = (double)adjuster->moves[adjuster->n_moves - 1].amount;
    double most = fmax(fabs(first), fabs(last)) * fabs(by);
    return most <= (double)HL_SOLVE_MOST_SHIFT; /* false for NaN too */
}

static hl_solve_code check_note(const hl_solve_note *note, int *bad_step, int *bad_adjuster)
{
    if (note->n_steps > HL_SOLVE_STEPS || note->n_adjusters > HL_SOLVE_ADJUSTERS)
        return HL_SOLVE_MANY;
    for (int s = 0; s < note->n_steps; s++) {
        *bad_step = s;
        if (!is_step_sound(&note->steps[s]))
            return HL_SOLVE_LIMITS;
    }
    *bad_step = -1;
    for (int a = 0; a < note->n_adjusters; a++) {
        *bad_adjuster = a;
        if (!are_moves_sound(&note->adjusters[a]))
            return HL_SOLVE_MOVES;
        for (int s = 0; s < note->n_steps; s++) {
            *bad_step = s;
            if (!is_effect_sound(&note->adjusters[a], note->adjusters[a].by[s]))
                return HL_SOLVE_EFFECT;
        }
        *bad_step = -1;
    }
    *bad_adjuster = -1;
    return HL_SOLVE_OK;
}

/* Adjusters that share a step fall into one block; a step goes with those that move it. */
static void map_blocks(const hl_solve_note *note, map *out)
{
    for (int a = 0; a < note->n_adjusters; a++)
        out->leader[a] = a;
    for (int s = 0; s < note->n_steps; s++) {
        out->of_step[s] = -1;
        for (int a = 0; a < note->n_adjusters; a++) {
            int old = out->leader[a], mine = out->of_step[s];
            if (note->adjusters[a].by[s] == 0)
                continue;
            if (mine < 0) {
                out->of_step[s] = old;
                continue;
            }
            int first = mine < old ? mine : old;
            for (int b = 0; b < note->n_adjusters; b++) {
                if (out->leader[b] == old || out->leader[b] == mine)
                    out->leader[b] = first;
            }
            for (int t = 0; t <= s; t++) {
                if (out->of_step[t] == old || out->of_step[t] == mine)
                    out->of_step[t] = first;
            }
        }
    }
}

static void set_row(hl_solve_row *row, const hl_solve_step *step, int s)
{
    hl_amount half = step->half > HL_SOLVE_LEAST_HALF ? step->half : HL_SOLVE_LEAST_HALF;
    *row = (hl_solve_row){.reading = step->reading,
                          .low = step->low,
                          .aim = step->aim,
                          .high = step->high,
                          .has_low = step->has_low,
                          .has_high = step->has_high,
                          .has_aim = step->has_aim,
                          .tier = step->hard   ? 0
                                  : step->keep ? 1
                                               : 2,
                          .step = s};
    row->weight = (HL_SOLVE_SCALE + half / 2) / half;
    if (row->weight < 1)
        row->weight = 1;
}

static int32_t find_shift(const hl_solve_adjuster *adjuster, int move, int step)
{
    return (int32_t)llround(adjuster->by[step] * (double)adjuster->moves[move].amount);
}

static bool set_col(hl_solve_block *block, const hl_solve_note *note, int a, hl_arena *scratch)
{
    const hl_solve_adjuster *adjuster = &note->adjusters[a];
    hl_solve_col *col = &block->cols[block->n_cols++];
    int n_rows = block->n_rows;
    *col = (hl_solve_col){.moves = adjuster->moves, .n = adjuster->n_moves, .adjuster = a};
    int32_t *shift = hl__arena_array(scratch, (size_t)(col->n * n_rows), sizeof *shift);
    if (!shift)
        return false;
    double least = INFINITY;
    for (int j = 0; j < col->n; j++) {
        double size = fabs((double)col->moves[j].amount);
        if (col->moves[j].amount == 0)
            col->zero = j;
        else
            least = fmin(least, size);
        for (int i = 0; i < n_rows; i++)
            shift[j * n_rows + i] = find_shift(adjuster, j, block->rows[i].step);
    }
    for (int i = 0; i < n_rows; i++)
        col->gain[i] = adjuster->by[block->rows[i].step];
    col->scale = isinf(least) ? 1 : least;
    col->shift = shift;
    return true;
}

static bool set_block(hl_solve_block *block, const hl_solve_note *note, const map *blocks, int leader,
                      hl_arena *scratch)
{
    block->n_rows = block->n_cols = 0;
    for (int s = 0; s < note->n_steps; s++) {
        if (blocks->of_step[s] == leader)
            set_row(&block->rows[block->n_rows++], &note->steps[s], s);
    }
    for (int a = 0; a < note->n_adjusters && block->n_rows; a++) {
        if (blocks->leader[a] == leader && !set_col(block, note, a, scratch))
            return false;
    }
    return true;
}

static bool miss_of(const hl_solve_row *row, hl_amount value, hl_unmet *out)
{
    *out = (hl_unmet){.step = row->step};
    if (row->has_low && value < row->low)
        out->by = row->low - value;
    if (row->has_high && value > row->high) {
        out->by = value - row->high;
        out->above = true;
    }
    return out->by > 0;
}

static void join_block(hl_solution *out, hl_solve_block *block)
{
    for (int t = 0; t < 3; t++)
        out->violation[t] += block->score.violation[t];
    out->closeness += block->score.close;
    out->effort += block->score.effort;
    out->touched += block->score.touched;
    out->nodes += block->nodes;
    out->proven = out->proven && !block->stopped;
    for (int c = 0; c < block->n_cols; c++)
        out->move[block->cols[c].adjuster] = block->best[c];
    for (int i = 0; i < block->n_rows; i++) {
        hl_amount value = block->rows[i].reading;
        for (int c = 0; c < block->n_cols; c++)
            value += block->cols[c].shift[block->best[c] * block->n_rows + i];
        out->predicted[block->rows[i].step] = value;
        hl_unmet unmet;
        if (!miss_of(&block->rows[i], value, &unmet))
            continue;
        if (block->n_cols)
            hl__explain(block, i, &unmet);
        out->unmet[out->n_unmet++] = unmet;
    }
}

static void order_unmet(hl_solution *out)
{
    for (int i = 1; i < out->n_unmet; i++) {
        hl_unmet unmet = out->unmet[i];
        int k = i;
        for (; k > 0 && out->unmet[k - 1].step > unmet.step; k--)
            out->unmet[k] = out->unmet[k - 1];
        out->unmet[k] = unmet;
    }
}

static bool solve_blocks(hl_solution *out, const hl_solve_note *note, hl_arena *scratch)
{
    map blocks;
    hl_solve_block *block = hl__arena_take(scratch, sizeof *block);
    if (!block)
        return false;
    map_blocks(note, &blocks);
    for (int leader = -1; leader < note->n_adjusters; leader++) {
        if (leader >= 0 && blocks.leader[leader] != leader)
            continue;
        if (!set_block(block, note, &blocks, leader, scratch))
            return false;
        if (!block->n_rows)
            continue;
        block->nodes = 0;
        block->stopped = false;
        block->budget = (note->budget > 0 ? note->budget : HL_SOLVE_BUDGET) - out->nodes;
        hl__solve_block(block);
        join_block(out, block);
    }
    return true;
}

static void start_alone(hl_solution *out, const hl_solve_note *note)
{
    for (int a = 0; a < note->n_adjusters; a++) {
        while (note->adjusters[a].moves[out->move[a]].amount != 0)
            out->move[a]++;
    }
}

hl_solve_code hl__solve(hl_solution *out, const hl_solve_note *note, hl_arena *scratch, int *bad_step,
                        int *bad_adjuster)
{
    memset(out, 0, sizeof *out);
    *bad_step = *bad_adjuster = -1;
    hl_solve_code code = check_note(note, bad_step, bad_adjuster);
    if (code != HL_SOLVE_OK)
        return code;
    out->proven = true;
    start_alone(out, note);
    if (!solve_blocks(out, note, scratch)) {
        memset(out, 0, sizeof *out);
        return HL_SOLVE_MEMORY;
    }
    order_unmet(out);
    out->met = out->n_unmet == 0;
    return HL_SOLVE_OK;
}
