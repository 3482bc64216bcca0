/* samples.c - the samples of several pianos taken together (layer: measure). */
#include "errors.h"
#include "sampling.h"

#include <stdlib.h>

static bool add_strata(hl_samples *samples, const hl_stratum *strata)
{
    for (int i = 0; i < HL_STRATA_MOST; i++) {
        void *items = samples->strata;
        if (strata[i].size == 0)
            continue;
        if (!hl__grow(&items, samples->n, &samples->room, sizeof *samples->strata))
            return false;
        samples->strata = items;
        samples->strata[samples->n++] = strata[i];
    }
    return true;
}

bool hl__samples_add(hl_samples *samples, const hl_drawn *drawn)
{
    const hl_sample *one = drawn->sample;
    hl_sample *total = &samples->total;
    if (!add_strata(samples, drawn->strata))
        return false;
    samples->n_audits++;
    total->population += one->population;
    total->n += one->n;
    total->open += one->open;
    total->out += one->out;
    total->known_out += one->known_out;
    total->confidence = one->confidence > total->confidence ? one->confidence : total->confidence;
    total->concluded = total->open == 0;
    return true;
}

int hl_samples_at_most(const hl_samples *samples)
{
    const hl_sample *total = &samples->total;
    const double risk = (double)(HL_ONE - total->confidence) / (double)HL_ONE;
    if (!total->concluded)
        return -1;
    const int bound = hl__strata_bound(samples->strata, (int)samples->n, total->out, risk);
    return bound > total->known_out ? bound : total->known_out;
}

void hl_samples_free(hl_samples *samples)
{
    free(samples->strata);
    *samples = (hl_samples){.n = 0};
}
