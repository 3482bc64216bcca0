/* bound.c - how many bad ones there can be when so few turned up (layer: measure).
 *
 * Of one lot the chance is hypergeometric.  Of several strata it depends on how the bad ones lie in
 * them, so the worst way counts: bad ones are laid one by one where they keep the chance of so few
 * highest, starting from each stratum in turn, then exchanged between strata as long as that raises it.
 * (With a single lot this is the plain hypergeometric bound; the tests hold the search against trying
 * all ways.)
 *
 * Past what that search is made for, W. Hoeffding's theorem bounds it ("On the distribution of the
 * number of successes in independent trials", 1956): a hypergeometric number is a sum of independent
 * yes-or-no draws, and of all such sums with one mean the binomial one is least likely to be small. */
#include "sampling.h"

#include <math.h>
#include <string.h>

#define CLOSE 1e-12 /* a chance that is the risk itself is not more than the risk */

/* log of n over k */
static double log_ways(int n, int k)
{
    double sum = 0;
    for (int i = 1; i <= k; i++)
        sum += log((double)(n - k + i) / i);
    return sum;
}

/* The chance of just x bad ones. */
static double find_chance(int size, int drawn, int bad, int x)
{
    return exp(log_ways(bad, x) + log_ways(size - bad, drawn - x) - log_ways(size, drawn));
}

/* From the chance of x to that of x + 1. */
static double step_up(double chance, int size, int drawn, int bad, int x)
{
    return chance * ((double)(bad - x) * (drawn - x)) / ((double)(x + 1) * (size - bad - drawn + x + 1));
}

/* And to that of x - 1. */
static double step_down(double chance, int size, int drawn, int bad, int x)
{
    return chance * ((double)x * (size - bad - drawn + x)) / ((double)(bad - x + 1) * (drawn - x + 1));
}

/* From the likeliest number, or the last one asked for, downwards and upwards: nowhere between can a
 * chance too small for a double cut the sum short. */
double hl__chance_at_most(int size, int drawn, int bad, int most)
{
    double chance, sum = 0;
    int first = drawn - (size - bad) > 0 ? drawn - (size - bad) : 0, last = drawn < bad ? drawn : bad;
    int middle = (int)((int64_t)(drawn + 1) * (bad + 1) / (size + 2));
    if (most >= last)
        return 1;
    if (most < first)
        return 0;
    middle = middle < first ? first : middle > most ? most : middle;
    double start = find_chance(size, drawn, bad, middle);
    chance = start;
    for (int x = middle; x >= first; x--) {
        sum += chance;
        if (x > first)
            chance = step_down(chance, size, drawn, bad, x);
    }
    chance = start;
    for (int x = middle; x < most; x++) {
        chance = step_up(chance, size, drawn, bad, x);
        sum += chance;
    }
    return sum < 1 ? sum : 1;
}

/* ---- strata -------------------------------------------------------------------------------- */

/* sums[0 ... most] becomes the chances of the sum with this stratum's bad ones. */
static void add_stratum(double *sums, int most, hl_stratum s, int bad)
{
    double chances[HL_PITCHES + 1] = {0}, old[HL_PITCHES + 1];
    int first = s.drawn - (s.size - bad) > 0 ? s.drawn - (s.size - bad) : 0;
    int last = s.drawn < bad ? s.drawn : bad;
    double chance = find_chance(s.size, s.drawn, bad, first);
    for (int x = first; x <= most && x <= last; x++) {
        chances[x] = chance;
        chance = step_up(chance, s.size, s.drawn, bad, x);
    }
    memcpy(old, sums, ((size_t)most + 1) * sizeof *old);
    for (int total = 0; total <= most; total++) {
        sums[total] = 0;
        for (int x = 0; x <= total; x++)
            sums[total] += chances[x] * old[total - x];
    }
}

double hl__strata_chance(const hl_stratum *strata, const int *bads, int n, int most)
{
    double sums[HL_PITCHES + 1] = {1}, all = 0;
    for (int i = 0; i < n; i++)
        add_stratum(sums, most, strata[i], bads[i]);
    for (int total = 0; total <= most; total++)
        all += sums[total];
    return all < 1 ? all : 1;
}

/* Lay one more where the chance stays highest; among equals where the stratum is least filled. */
static double lay_one(const hl_stratum *strata, int *bads, int n, int most)
{
    double best = -1, best_fill = 0;
    int chosen = 0;
    for (int i = 0; i < n; i++) {
        if (bads[i] == strata[i].size)
            continue;
        double fill = (double)bads[i] / strata[i].size;
        bads[i]++;
        double chance = hl__strata_chance(strata, bads, n, most);
        bads[i]--;
        if (chance > best + CLOSE || (chance > best - CLOSE && fill < best_fill)) {
            best = chance > best ? chance : best;
            best_fill = fill;
            chosen = i;
        }
    }
    bads[chosen]++;
    return best;
}

/* Move some from a stratum to another, if that raises the chance. */
static bool exchange(const hl_stratum *strata, int *bads, int n, int most, double *chance)
{
    for (int from = 0; from < n; from++) {
        for (int to = 0; to < n; to++) {
            for (int some = 1; to != from && some <= bads[from] && bads[to] + some <= strata[to].size;
                 some++) {
                bads[from] -= some;
                bads[to] += some;
                double other = hl__strata_chance(strata, bads, n, most);
                if (other > *chance + CLOSE) {
                    *chance = other;
                    return true;
                }
                bads[from] += some;
                bads[to] -= some;
            }
        }
    }
    return false;
}

/* Lays `all` bad ones, stratum `from` filled first; tells whether some way is likelier than the risk. */
static bool climb(const hl_stratum *strata, int n, int from, int all, int bad, double risk)
{
    int bads[HL_STRATA_SEARCHED] = {0};
    double chance = 1;
    if (from >= 0)
        bads[from] = all < strata[from].size ? all : strata[from].size;
    for (int laid = from >= 0 ? bads[from] : 0; laid < all; laid++)
        chance = lay_one(strata, bads, n, bad);
    chance = hl__strata_chance(strata, bads, n, bad);
    while (chance <= risk * (1 + CLOSE) && exchange(strata, bads, n, bad, &chance))
        continue;
    return chance > risk * (1 + CLOSE);
}

/* More bad ones never make few likelier, so the place where it turns is halved in on. */
static int search_bound(const hl_stratum *strata, int n, int size, int bad, double risk)
{
    int low = bad, high = size; /* low is likely, above high nothing is */
    while (low < high) {
        int middle = low + (high - low + 1) / 2;
        bool likely = false;
        for (int from = -1; from < n && !likely; from++)
            likely = climb(strata, n, from, middle, bad, risk);
        if (likely)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

/* ---- many strata --------------------------------------------------------------------------- */

/* From the likeliest number, or the last one asked for, both ways, as above. */
static double binomial_at_most(int trials, double share, int most)
{
    const double odds = share / (1 - share);
    int middle = (int)((trials + 1) * share);
    if (most >= trials)
        return 1;
    middle = middle > most ? most : middle;
    const double start =
        exp(log_ways(trials, middle) + middle * log(share) + (trials - middle) * log1p(-share));
    double sum = 0, chance = start;
    for (int x = middle; x >= 0; x--) {
        sum += chance;
        chance *= x / ((double)(trials - x + 1) * odds);
    }
    chance = start;
    for (int x = middle; x < most; x++) {
        chance *= (trials - x) * odds / (x + 1);
        sum += chance;
    }
    return sum < 1 ? sum : 1;
}

/* Can so many be bad, for all that the theorem says?  `least` is the smallest share drawn of a stratum. */
static bool may_be(int all, int drawn, double least, int bad, double risk)
{
    const int trials = all < drawn ? all : drawn;
    const double mean = all * least;
    if (mean < bad + 1) /* it says nothing here */
        return true;
    return mean < trials && binomial_at_most(trials, mean / trials, bad) > risk * (1 + CLOSE);
}

static int wide_bound(const hl_stratum *strata, int n, int size, int bad, double risk)
{
    double least = 1;
    int drawn = 0;
    for (int i = 0; i < n; i++) {
        drawn += strata[i].drawn;
        least = fmin(least, (double)strata[i].drawn / strata[i].size);
    }
    int low = bad, high = size - (drawn - bad);
    while (low < high) {
        int middle = low + (high - low + 1) / 2;
        if (may_be(middle, drawn, least, bad, risk))
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

int hl__strata_bound(const hl_stratum *strata, int n, int bad, double risk)
{
    int size = 0;
    for (int i = 0; i < n; i++)
        size += strata[i].size;
    if (n > HL_STRATA_SEARCHED || bad > HL_PITCHES)
        return wide_bound(strata, n, size, bad, risk);
    return search_bound(strata, n, size, bad, risk);
}

int hl_sample_bound(int population, int drawn, int bad, hl_amount confidence)
{
    double risk = (double)(HL_ONE - confidence) / (double)HL_ONE;
    if (population < 1 || drawn < 1 || drawn > population || bad < 0 || bad > drawn || confidence <= 0 ||
        confidence >= HL_ONE)
        return -1;
    int low = bad, high = population - (drawn - bad);
    while (low < high) {
        int middle = low + (high - low + 1) / 2;
        if (hl__chance_at_most(population, drawn, middle, bad) > risk * (1 + CLOSE))
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}
