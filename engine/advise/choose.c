/* choose.c - the amount that a hand can do, nearest to the one that reckoning wants (layer: advise). */
#include "choose.h"

/* With more sizes than this in a box, sums of three and four pieces are not searched: two then
 * come near enough, and a rule file can't make an audit slow. */
#define SIZES_MOST 48

static hl_amount find_distance(hl_amount a, hl_amount b)
{
    return a < b ? b - a : a - b;
}

/* ---- multiples of the finest move -------------------------------------------------------- */

static void choose_multiple(hl_amount finest, hl_amount wanted, hl_lands *lands, void *context,
                            hl_choice *out)
{
    hl_amount n = (wanted + finest / 2) / finest;
    if (n < 1)
        n = 1; /* a failing reading is never answered by no move */
    bool over = n * finest >= wanted;
    const hl_amount tries[3] = {n, over ? n - 1 : n + 1, over ? n + 1 : n - 1};
    for (int i = 0; i < 3 && !out->lands; i++) {
        if (tries[i] < 1 || !lands(context, tries[i] * finest))
            continue;
        out->amount = tries[i] * finest;
        out->lands = true;
    }
    if (!out->lands)
        out->amount = n * finest;
}

/* ---- sums of pieces ---------------------------------------------------------------------- */

typedef struct search {
    const hl_amount *sizes;
    hl_amount wanted;
    hl_lands *lands;
    void *context;
    hl_choice *best;
    hl_amount taken[HL_PIECES];
    int n_pieces; /* how many this round takes */
} search;

static void weigh_sum(search *s, hl_amount sum)
{
    hl_choice *best = s->best;
    bool nearer = best->amount == 0 || find_distance(sum, s->wanted) < find_distance(best->amount, s->wanted);
    if (best->lands && !nearer)
        return;
    bool lands = s->lands(s->context, sum);
    if (lands == best->lands ? !nearer : best->lands)
        return;
    best->amount = sum;
    best->lands = lands;
    for (int i = 0; i < HL_PIECES; i++)
        best->pieces[i] = i < s->n_pieces ? s->taken[i] : 0;
}

/* The last piece: only the size just below what is left and the one above can be best. */
static void take_last(search *s, int largest, hl_amount sum)
{
    int low = 0, high = largest;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (sum + s->sizes[middle] < s->wanted)
            low = middle + 1;
        else
            high = middle;
    }
    for (int i = low > 0 ? low - 1 : 0; i <= low; i++) {
        s->taken[s->n_pieces - 1] = s->sizes[i];
        weigh_sum(s, sum + s->sizes[i]);
    }
}

static void take_piece(search *s, int n_taken, int largest, hl_amount sum)
{
    if (n_taken >= s->n_pieces - 1 || n_taken >= HL_PIECES - 1) {
        take_last(s, largest, sum);
        return;
    }
    for (int i = largest; i >= 0; i--) {
        s->taken[n_taken] = s->sizes[i];
        take_piece(s, n_taken + 1, i, sum + s->sizes[i]);
    }
}

static void choose_pieces(const hl_adjuster *adjuster, hl_amount wanted, hl_lands *lands, void *context,
                          hl_choice *out)
{
    search s = {.sizes = adjuster->sizes, .wanted = wanted, .lands = lands, .context = context, .best = out};
    int most = adjuster->n_sizes > SIZES_MOST ? 2 : HL_PIECES;
    for (s.n_pieces = 1; s.n_pieces <= most && !out->lands; s.n_pieces++)
        take_piece(&s, 0, adjuster->n_sizes - 1, 0);
}

void hl__choose_amount(const hl_adjuster *adjuster, hl_amount wanted, hl_lands *lands, void *context,
                       hl_choice *out)
{
    *out = (hl_choice){0};
    if (adjuster->n_sizes > 0)
        choose_pieces(adjuster, wanted, lands, context, out);
    else
        choose_multiple(adjuster->finest > 0 ? adjuster->finest : 1, wanted, lands, context, out);
}
