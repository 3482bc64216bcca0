/* leads_choose.c - which lead, and where in the key (layer: advise).
 *
 * A given effect at the front is a given moment m x, and its inertia m x^2 is that moment times x:
 * so of leads that do the work, the heavier one nearer the balance pin burdens the finger least.
 * Fewest pieces come first, since each is a hole; several pieces are of one size, side by side. */
#include "leads.h"

#include <math.h>

#define PLACE_GRAIN HL_ONE /* a hole is marked to a millimetre */

double hl__lifted(const hl_weights *weights)
{
    return weights->hammer * weights->hammer_leverage + weights->whippen * weights->capstan_ratio;
}

double hl__front_by_lead(double mass, double place, double key_front)
{
    return mass * place / key_front;
}

double hl__lead_inertia(double mass, double place)
{
    return mass * place * place;
}

static double to_units(hl_amount amount)
{
    return (double)amount / (double)HL_ONE;
}

static hl_amount to_place(double units)
{
    return (hl_amount)llround(units) * PLACE_GRAIN;
}

/* Put n leads of one size down, the outermost at `outer`; what they really come to goes into out. */
static void put_leads(const hl_lead_box *box, hl_amount size, int n, double outer, hl_leads *out)
{
    double mass = to_units(size), gives = 0;
    out->n_leads = n;
    out->lead = n * size;
    out->inertia = 0;
    for (int i = 0; i < n; i++) {
        hl_lead *lead = &out->leads[i];
        *lead = (hl_lead){size, to_place(outer - i * box->spacing)};
        gives += hl__front_by_lead(mass * (1 - box->wood), to_units(lead->place), box->key_front);
        out->inertia += hl__lead_inertia(mass * (1 - box->wood), to_units(lead->place));
    }
    out->gives = (hl_amount)llround((out->remove ? -gives : gives) * (double)HL_ONE);
}

/* Where the outermost of n leads of this size must sit to give `front` grams. */
static double find_outer(const hl_lead_box *box, hl_amount size, int n, double front)
{
    double moment = front * box->key_front / (1 - box->wood);
    return moment / (n * to_units(size)) + box->spacing * (n - 1) / 2;
}

static bool fits(const hl_lead_box *box, int n, double outer)
{
    hl_amount first = to_place(outer), last = to_place(outer - (n - 1) * box->spacing);
    return to_units(last) >= box->nearest && to_units(first) <= box->farthest;
}

static bool choose_exact(const hl_lead_box *box, double front, hl_leads *out)
{
    for (int n = 1; n <= HL_LEADS; n++)
        for (int i = box->n_sizes - 1; i >= 0; i--) {
            double outer = find_outer(box, box->sizes[i], n, front);
            if (!fits(box, n, outer))
                continue;
            put_leads(box, box->sizes[i], n, outer, out);
            return true;
        }
    return false;
}

/* As many of the heaviest as there is room for, right at the front. */
static void choose_most(const hl_lead_box *box, hl_leads *out)
{
    int n = HL_LEADS;
    while (n > 1 && !fits(box, n, box->farthest))
        n--;
    put_leads(box, box->sizes[box->n_sizes - 1], n, box->farthest, out);
    out->short_of = true;
}

void hl__choose_leads(const hl_lead_box *box, hl_leads *out)
{
    double front = fabs(to_units(out->change));
    double least = hl__front_by_lead(to_units(box->sizes[0]) * (1 - box->wood), box->nearest, box->key_front);
    out->remove = out->change < 0;
    if (out->change == 0)
        return;
    if (choose_exact(box, front, out))
        return;
    if (front > least)
        choose_most(box, out);
    else if (2 * front > least) /* the smallest lead overshoots by less than doing nothing falls short */
        put_leads(box, box->sizes[0], 1, box->nearest, out);
}
