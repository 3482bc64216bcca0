/* learn_fit.c - one effect from several adjustments, each read before and after (layer: state).
 *
 * What is looked for is one factor on the book's effect, so the keys' own geometry stays in it.
 * A weighted median finds where most adjustments agree, those that lie far off it are left out
 * (a misread gauge, a screw that somebody else turned too), the rest is averaged by weight. */
#include "learn_fit.h"

#include <math.h>
#include <stdlib.h>

/* One factor must serve all notes.  Notes that scatter by more than a quarter, beyond what the
 * gauge explains, are no longer served: a correction by it would leave a quarter of a fault at an
 * ordinary note, as much as the default share of half a target that a reading may drift. */
#define SPREAD_MOST 0.25
/* The same when more than a quarter of the adjustments had to be left out. */
#define LEFT_OUT_MOST 0.25
#define FAR_OUT       3.0 /* standard deviations */

/* How much of a difference from the book is believed, by its size in standard errors z: nothing
 * below BELIEVED, then 2 (z - DOUBTED) until that reaches z itself at 2.8.  What is believed is
 * further from the truth than the book only when it is more than twice the true difference, or on
 * its other side; with normal noise that happens in one case of ten at the worst, wherever the
 * truth lies. */
#define BELIEVED 1.75
#define DOUBTED  1.4
/* So well known that the book's own figure may be called confirmed. */
#define CONFIRMED 0.05

#define FACTOR_MOST  3.0
#define FACTOR_LEAST (1.0 / 3)

/* A median absolute deviation of normal noise, times this, is its standard deviation. */
#define MAD_TO_SD 1.4826

static int compare_ratios(const void *a, const void *b)
{
    double left = ((const hl_seen *)a)->ratio, right = ((const hl_seen *)b)->ratio;
    return (left > right) - (left < right);
}

static double find_weight(const hl_seen *seen)
{
    double root = seen->predicted / seen->doubt;
    return root * root;
}

/* Of the factors, by |predicted| / doubt: least absolute residuals. */
static double find_median(hl_seen *seen, int n)
{
    double half = 0, sum = 0;
    for (int i = 0; i < n; i++) {
        seen[i].ratio = seen[i].seen / seen[i].predicted;
        half += sqrt(find_weight(&seen[i])) / 2;
    }
    qsort(seen, (size_t)n, sizeof *seen, compare_ratios);
    for (int i = 0; i < n; i++) {
        sum += sqrt(find_weight(&seen[i]));
        if (sum >= half)
            return seen[i].ratio;
    }
    return seen[n - 1].ratio;
}

/* Drop what lies far off the median; returns how many are kept, at the front. */
static int keep_near(hl_seen *seen, int n, double median)
{
    for (int i = 0; i < n; i++)
        seen[i].ratio = fabs(seen[i].seen - median * seen[i].predicted) / seen[i].doubt;
    qsort(seen, (size_t)n, sizeof *seen, compare_ratios);
    double middle = (seen[(n - 1) / 2].ratio + seen[n / 2].ratio) / 2;
    double scale = n > 1 ? MAD_TO_SD * middle * sqrt((double)n / (n - 1)) : 0;
    int kept = n;
    while (kept > 1 && seen[kept - 1].ratio > FAR_OUT * (scale > 1 ? scale : 1))
        kept--;
    return kept;
}

/* How much of the amounts follows the readings: the slope of predicted by wanted, 0 ... 1. */
static double find_following(const hl_seen *seen, int n)
{
    double cross = 0, square = 0;
    for (int i = 0; i < n; i++) {
        if (isnan(seen[i].wanted))
            continue;
        cross += seen[i].predicted * seen[i].wanted;
        square += seen[i].wanted * seen[i].wanted;
    }
    double slope = square > 0 ? cross / square : 0;
    return slope < 0 ? 0 : slope > 1 ? 1 : slope;
}

/* Who turns by what was read also turns by the error of that reading, and the error is gone from
 * the next one: the adjustment seems to have done more than it did.  Its size is known. */
static double find_flattery(const hl_seen *seen, int n, double reading)
{
    double square = 0;
    for (int i = 0; i < n; i++)
        square += seen[i].predicted * seen[i].predicted;
    return find_following(seen, n) * reading * n / square;
}

typedef struct mean {
    double factor, error;  /* error: standard error of the factor */
    double spread, beyond; /* absolute; `beyond`: past what the gauge explains */
} mean;

static mean find_mean(const hl_seen *seen, int n, double reading)
{
    double weights = 0, sum = 0, squares = 0;
    for (int i = 0; i < n; i++) {
        weights += find_weight(&seen[i]);
        sum += find_weight(&seen[i]) * seen[i].seen / seen[i].predicted;
    }
    mean out = {.factor = sum / weights};
    for (int i = 0; i < n; i++) {
        double off = seen[i].seen / seen[i].predicted - out.factor;
        squares += find_weight(&seen[i]) * off * off;
    }
    /* squares / (n - 1) is 1 when the gauge is as good as it is said to be */
    double worse = n > 1 ? squares / (n - 1) : 1;
    double spread = worse * n / weights, gauge = n / weights;
    worse = worse > 1 ? worse : 1;
    out.error = sqrt(worse / weights);
    out.spread = sqrt(spread);
    out.beyond = spread > gauge ? sqrt(spread - gauge) : 0;
    out.factor -= find_flattery(seen, n, reading * worse);
    return out;
}

/* The factor that is believed; 1 = the book's. */
static double believe(const mean *found)
{
    double z = fabs(found->factor - 1) / found->error;
    double part = z < BELIEVED ? 0 : z > 2 * DOUBTED ? z : 2 * (z - DOUBTED);
    return found->factor < 1 ? 1 - part * found->error : 1 + part * found->error;
}

static hl_learned_why find_why(const mean *found, int n, int kept, int told)
{
    if (told < HL_LEARN_LEAST)
        return HL_LEARNED_FEW;
    if (found->factor + 2 * found->error < 0)
        return HL_LEARNED_WAY;
    if (found->beyond > SPREAD_MOST * fabs(found->factor) || n - kept > LEFT_OUT_MOST * n)
        return HL_LEARNED_SPREAD;
    if (believe(found) == 1 && found->error > CONFIRMED)
        return HL_LEARNED_NOISE;
    if (!(found->factor <= FACTOR_MOST) || found->factor < FACTOR_LEAST)
        return HL_LEARNED_FAR;
    return HL_LEARNED_USED;
}

hl_fit hl__learn_fit(hl_seen *seen, int n, int told, double reading)
{
    int kept = keep_near(seen, n, find_median(seen, n));
    mean found = find_mean(seen, kept, reading);
    hl_fit fit = {.why = find_why(&found, n, kept, told)};
    fit.factor = fit.why == HL_LEARNED_USED ? believe(&found) : found.factor;
    fit.spread = found.factor != 0 ? found.spread / fabs(found.factor) : 0;
    return fit;
}
