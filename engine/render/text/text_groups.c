/* text_groups.c - which findings one line can tell of (layer: render/text).
 *
 * Everything that the line says in one word must be the same; readings, predictions and targets may
 * differ and are told as spans. */
#include "page.h"

#include <string.h>

static bool same_pieces(const hl_correction *a, const hl_correction *b)
{
    for (int i = 0; i < HL_PIECES; i++)
        if (a->pieces[i] != b->pieces[i])
            return false;
    return true;
}

bool hl__same_ints(const int *a, int n_a, const int *b, int n_b)
{
    if (n_a != n_b)
        return false;
    for (int i = 0; i < n_a; i++)
        if (a[i] != b[i])
            return false;
    return true;
}

static bool same_correction(const hl_correction *a, const hl_correction *b)
{
    return a->adjuster == b->adjuster && a->more == b->more && a->has_amount == b->has_amount &&
           (!a->has_amount || a->amount == b->amount) && same_pieces(a, b) &&
           a->has_predicted == b->has_predicted && a->lands == b->lands &&
           a->beyond_reach == b->beyond_reach && a->assumed == b->assumed && a->learned == b->learned &&
           hl__same_ints(a->spoils, a->n_spoils, b->spoils, b->n_spoils);
}

/* The other ways out are told by adjuster and way only. */
static bool same_ways(const hl_finding *a, const hl_finding *b)
{
    for (int i = 1; i < a->n_corrections; i++)
        if (a->corrections[i].adjuster != b->corrections[i].adjuster ||
            a->corrections[i].more != b->corrections[i].more)
            return false;
    return true;
}

/* A remark is what the line is about for a skip and for a reading that has to wait for another step,
 * and a side note elsewhere. */
static bool remark_matters(const hl_finding *finding)
{
    return finding->why == HL_WHY_SKIPPED || (finding->verdict == HL_FAIL && finding->n_corrections == 0);
}

bool hl__findings_alike(const hl_finding *a, const hl_finding *b)
{
    if (a->step != b->step || a->verdict != b->verdict || a->why != b->why || a->go != b->go ||
        a->has_value != b->has_value || a->word != b->word || a->computed != b->computed ||
        a->assumed != b->assumed || a->n_corrections != b->n_corrections)
        return false;
    if (a->model_differs != b->model_differs || (a->model_differs && a->model_assumed != b->model_assumed))
        return false;
    if (a->follows != b->follows || a->hangs != b->hangs ||
        ((a->follows || a->hangs) && a->follows_step != b->follows_step))
        return false;
    if (a->presumed != b->presumed || (a->presumed && (a->presumed_adjuster != b->presumed_adjuster ||
                                                       a->presumed_step != b->presumed_step)))
        return false;
    if (a->why == HL_WHY_UNEVEN && (a->shift < 0) != (b->shift < 0))
        return false;
    if (remark_matters(a) && strcmp(a->remark, b->remark) != 0)
        return false;
    if (a->n_corrections == 0)
        return true;
    return same_correction(&a->corrections[0], &b->corrections[0]) && same_ways(a, b);
}

void hl__group_span(const hl_group *of, hl_amount (*take)(const hl_finding *), hl_amount *low,
                    hl_amount *high)
{
    *low = *high = take(of->members[0]);
    for (int i = 1; i < of->n; i++) {
        const hl_amount value = take(of->members[i]);
        *low = value < *low ? value : *low;
        *high = value > *high ? value : *high;
    }
}
