/* fast_even.c - who stands out from the neighbours, and what may give way (layer: fleet).
 *
 * The same comparison as even.c and floated.c, their oracles, on flat arrays: a note's neighbours stand
 * ready in a list, nearest first, and the first four that are in range are its measure. */
#include "fast_parts.h"

#include "tolerance_float.h"

#define NEIGHBOURS     4
#define FEWEST_TO_TELL 3

/* Of four the middle two are left without the outer ones. */
static hl_amount join_four(hl_amount a, hl_amount b, hl_amount c, hl_amount d)
{
    const hl_amount low_a = a < b ? a : b, high_a = a < b ? b : a;
    const hl_amount low_b = c < d ? c : d, high_b = c < d ? d : c;
    return a + b + c + d - (low_a < low_b ? low_a : low_b) - (high_a > high_b ? high_a : high_b);
}

/* Twice the median of the nearest offsets in range; false when there are fewer than three. */
static bool find_lean(const unsigned char *near, const bool *in_range, const hl_amount *offsets,
                      hl_amount *lean)
{
    hl_amount found[NEIGHBOURS];
    int n = 0;
    /* place 0 is never in range, and stands at the list's end */
    if (in_range[near[0]] && in_range[near[1]] && in_range[near[2]] && in_range[near[3]]) {
        *lean = join_four(offsets[near[0]], offsets[near[1]], offsets[near[2]], offsets[near[3]]);
        return true;
    }
    for (; *near != 0 && n < NEIGHBOURS; near++)
        if (in_range[*near])
            found[n++] = offsets[*near];
    if (n < FEWEST_TO_TELL)
        return false;
    if (n == FEWEST_TO_TELL) {
        const hl_amount low = found[0] < found[1] ? found[0] : found[1];
        const hl_amount high = found[0] < found[1] ? found[1] : found[0];
        *lean = 2 * (found[2] < low ? low : found[2] > high ? high : found[2]);
    } else {
        *lean = join_four(found[0], found[1], found[2], found[3]);
    }
    return true;
}

/* A step's readings as distances from their aims. */
typedef struct offsets {
    hl_amount at[HL_FLAT_NOTES];
    bool in_range[HL_FLAT_NOTES]; /* what stands out of its neighbours stays a measure for others */
    hl_amount least, most;        /* of those in range */
} offsets;

static void lay_offsets(offsets *out, const hl_fast *fast, const hl_fast_plan *plan, int row)
{
    const unsigned char *states = fast->flat.states + row;
    out->least = INT64_MAX;
    out->most = INT64_MIN;
    out->in_range[0] = false;
    for (int note = 1; note <= plan->keys; note++) {
        const hl_amount offset = fast->flat.values[row + note] - plan->aim[row + note];
        const bool in_range = states[note] == HL_FAST_PASS || states[note] == HL_FAST_FLOATED;
        out->at[note] = offset;
        out->in_range[note] = in_range;
        out->least = in_range && offset < out->least ? offset : out->least;
        out->most = in_range && offset > out->most ? offset : out->most;
    }
}

/* Where all lie closer together than one may stand out, none does. */
static void mark_step(hl_fast *fast, const hl_fast_plan *plan, int index)
{
    const hl_step *step = &plan->book->steps[index];
    const int row = index * HL_FLAT_NOTES;
    offsets all;
    if (step->even <= 0 || step->kind == HL_JUDGED || step->scope == HL_ONCE ||
        fast->counts[index][HL_PASS] < FEWEST_TO_TELL)
        return;
    lay_offsets(&all, fast, plan, row);
    if (all.most - all.least <= step->even)
        return;
    for (int note = 1; note <= plan->keys; note++) {
        hl_amount lean = 0;
        if (!all.in_range[note] ||
            !find_lean(plan->near[step->breaks] + note * HL_FLAT_NOTES, all.in_range, all.at, &lean))
            continue;
        const hl_amount out = 2 * all.at[note] - lean;
        if ((out < 0 ? -out : out) <= 2 * step->even)
            continue;
        fast->lean[row + note] = lean;
        fast->flat.states[row + note] = HL_FAST_UNEVEN;
        fast->counts[index][HL_PASS]--;
        fast->counts[index][HL_FAIL]++;
    }
}

/* Do the others of the floating step's set pass at this note? */
static bool others_pass(const hl_fast *fast, const hl_fast_plan *plan, int note)
{
    const hl_book *book = plan->book;
    for (int i = 0; i < book->n_steps; i++)
        if (i != book->floats.step && hl__floated_ties(book, plan->model, i) &&
            fast->flat.states[i * HL_FLAT_NOTES + note] != HL_FAST_PASS)
            return false;
    return true;
}

static void float_step(hl_fast *fast, const hl_fast_plan *plan)
{
    const int step = plan->book->floats.step, from = step * HL_FLAT_NOTES;
    const hl_amount within = plan->book->floats.within;
    if (plan->model < 0)
        return;
    for (int note = 1; note <= plan->keys; note++) {
        const int place = from + note;
        const hl_amount value = fast->flat.values[place];
        const bool low = fast->flat.states[place] == HL_FAST_LOW,
                   high = fast->flat.states[place] == HL_FAST_HIGH;
        if (!(low && value >= plan->low[place] - within) && !(high && value <= plan->high[place] + within))
            continue;
        if (!others_pass(fast, plan, note))
            continue;
        fast->flat.states[place] = HL_FAST_FLOATED;
        fast->counts[step][HL_FAIL]--;
        fast->counts[step][HL_PASS]++;
    }
}

void hl__fast_even(hl_fast *fast, const hl_fast_plan *plan)
{
    const int floating = plan->book->floats.step;
    for (int i = 0; i < plan->book->n_steps; i++)
        if (i != floating)
            mark_step(fast, plan, i);
    float_step(fast, plan);
    if (floating >= 0)
        mark_step(fast, plan, floating);
}
