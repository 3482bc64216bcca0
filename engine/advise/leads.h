/* leads.h - the arithmetic of leads in a key (layer: advise).
 *
 * All arms from the balance pin, towards the front; grams and millimetres.  The static balance
 * at the key's front (docs/method.md) holds for grands without assist springs:
 *   mean weight + key front load = hammer weight x hammer leverage + whippen weight x capstan ratio */
#ifndef HL_LEADS_H
#define HL_LEADS_H

#include "hammerline/plan.h"

typedef struct hl_weights {
    double hammer, whippen; /* g */
    double hammer_leverage, capstan_ratio;
} hl_weights;

/* Mean weight plus key front load: what hammer and whippen come to at the key front. */
double hl__lifted(const hl_weights *weights);
/* What a lead adds at the front measuring point. */
double hl__front_by_lead(double mass, double place, double key_front);
double hl__lead_inertia(double mass, double place);

/* What there is to choose from. */
typedef struct hl_lead_box {
    const hl_amount *sizes; /* ascending */
    int n_sizes;
    double key_front;
    double nearest, farthest; /* limits of a lead's place */
    double spacing;           /* between the middles of two leads */
    double wood;              /* share of a lead's mass that the drilled wood takes off again */
} hl_lead_box;

/* Fill remove, leads, n_leads, gives, short_of, lead and inertia for out->change. */
void hl__choose_leads(const hl_lead_box *box, hl_leads *out);

#endif
