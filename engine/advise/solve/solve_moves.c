/* solve_moves.c - the moves that an adjuster can make: multiples of a turn, or pieces from the box.
 *
 * Layer: judge.  Lists live in the caller's arena. */
#include <stdlib.h>

#include "solve.h"

const hl_solve_move *hl__moves_by_finest(hl_arena *arena, hl_amount finest, hl_amount reach, hl_ways ways,
                                         int *n)
{
    *n = 0;
    if (finest <= 0 || finest > HL_SOLVE_MOST_READ)
        return NULL;
    int64_t most = reach > 0 ? reach / finest : HL_MULTIPLES_FREELY;
    if (most > HL_MULTIPLES)
        most = HL_MULTIPLES;
    int64_t from = ways == HL_WAYS_MORE ? 0 : -most;
    int64_t to = ways == HL_WAYS_LESS ? 0 : most;
    hl_solve_move *moves = hl__arena_array(arena, (size_t)(to - from + 1), sizeof *moves);
    if (!moves)
        return NULL;
    for (int64_t k = from; k <= to; k++, (*n)++) {
        moves[*n].amount = k * finest;
        moves[*n].effort = 1000 * (k < 0 ? -k : k);
    }
    return moves;
}

static int compare_moves(const void *one, const void *two)
{
    const hl_solve_move *a = one, *b = two;
    if (a->amount != b->amount)
        return a->amount < b->amount ? -1 : 1;
    int n_a = 0, n_b = 0;
    for (int i = 0; i < HL_PIECES; i++) {
        n_a += a->pieces[i] > 0;
        n_b += b->pieces[i] > 0;
    }
    if (n_a != n_b)
        return n_a < n_b ? -1 : 1;
    for (int i = 0; i < HL_PIECES; i++) {
        if (a->pieces[i] != b->pieces[i])
            return a->pieces[i] > b->pieces[i] ? -1 : 1;
    }
    return 0;
}

/* Every handful of one to four pieces, the largest piece first. */
static int gather_sums(const hl_amount *sizes, int n_sizes, int most_pieces, hl_amount reach,
                       hl_solve_move *sums)
{
    int n = 1, pick[HL_PIECES] = {-1, -1, -1, -1}; /* -1 = no piece */
    for (int depth = 0; depth >= 0;) {
        int most = depth ? pick[depth - 1] : n_sizes - 1;
        if (++pick[depth] > most) {
            pick[depth--] = -1;
            continue;
        }
        hl_solve_move move = {0};
        for (int i = 0; i <= depth; i++) {
            move.pieces[i] = sizes[pick[i]];
            move.amount += sizes[pick[i]];
        }
        if (reach > 0 && move.amount > reach) {
            pick[depth--] = -1; /* the next sizes are larger still */
            continue;
        }
        sums[n++] = move;
        if (depth + 1 < most_pieces)
            depth++;
    }
    return n;
}

static int keep_distinct(hl_solve_move *moves, int n)
{
    int kept = 0;
    qsort(moves, (size_t)n, sizeof *moves, compare_moves);
    for (int i = 0; i < n; i++) {
        if (!kept || moves[kept - 1].amount != moves[i].amount)
            moves[kept++] = moves[i];
    }
    return kept;
}

static int compare_amounts(const void *one, const void *two)
{
    hl_amount a = *(const hl_amount *)one, b = *(const hl_amount *)two;
    return (a > b) - (a < b);
}

const hl_solve_move *hl__moves_by_sizes(hl_arena *arena, const hl_amount *sizes, int n_sizes, int most_pieces,
                                        hl_amount reach, hl_ways ways, int *n)
{
    hl_amount box[HL_PIECE_SIZES];
    *n = 0;
    if (n_sizes < 1 || n_sizes > HL_PIECE_SIZES || most_pieces < 1 || most_pieces > HL_PIECES)
        return NULL;
    size_t handfuls = 1;
    for (int i = 0; i < n_sizes; i++) {
        if (sizes[i] <= 0 || sizes[i] > HL_SOLVE_MOST_READ)
            return NULL;
        box[i] = sizes[i];
    }
    qsort(box, (size_t)n_sizes, sizeof *box, compare_amounts);
    for (size_t i = 1; i <= HL_PIECES; i++) /* choices of four, with repeats, of n sizes and none */
        handfuls = handfuls * ((size_t)n_sizes + i) / i;
    hl_solve_move *sums = hl__arena_array(arena, handfuls, sizeof *sums);
    if (!sums)
        return NULL;
    int n_sums = keep_distinct(sums, gather_sums(box, n_sizes, most_pieces, reach, sums));
    hl_solve_move *moves = hl__arena_array(arena, 2 * (size_t)n_sums, sizeof *moves);
    if (!moves)
        return NULL;
    for (int i = 0; i < n_sums; i++)
        sums[i].effort = 1000 * sums[i].amount / box[0];
    for (int i = n_sums - 1; i > 0 && ways != HL_WAYS_MORE; i--) {
        moves[*n] = sums[i];
        moves[(*n)++].amount = -sums[i].amount;
    }
    for (int i = 0; i < (ways == HL_WAYS_LESS ? 1 : n_sums); i++)
        moves[(*n)++] = sums[i];
    return moves;
}
