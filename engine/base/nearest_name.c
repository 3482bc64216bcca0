/* nearest_name.c - the nearest right name to a misspelt one (layer: base).
 *
 * Edit distance with swaps of neighbours (optimal string alignment); three rows suffice. */
#include "nearest_name.h"
#include "ascii.h"
#include "hammerline/base.h"

#include "hammerline/base.h"

#include <stddef.h>
#include <string.h>

#define LONGEST 64 /* longer names than any of ours are not worth a guess */

static char fold(char c)
{
    return c == '-' || c == ' ' ? '_' : hl__lower(c);
}

static int least(int a, int b)
{
    return a < b ? a : b;
}

static int measure(const char *a, size_t n, const char *b, size_t m)
{
    int rows[3][LONGEST + 1];
    for (size_t j = 0; j <= m; j++) {
        rows[0][j] = (int)j;
    }
    for (size_t i = 1; i <= n; i++) {
        int *row = rows[i % 3];
        const int *above = rows[(i + 2) % 3];
        const int *before = rows[(i + 1) % 3]; /* i - 2 */
        row[0] = (int)i;
        for (size_t j = 1; j <= m; j++) {
            int change = fold(a[i - 1]) == fold(b[j - 1]) ? 0 : 1;
            row[j] = least(least(above[j] + 1, row[j - 1] + 1), above[j - 1] + change);
            if (i > 1 && j > 1 && fold(a[i - 1]) == fold(b[j - 2]) && fold(a[i - 2]) == fold(b[j - 1])) {
                row[j] = least(row[j], before[j - 2] + 1);
            }
        }
    }
    return rows[n % 3][m];
}

void hl__suggest_offer(hl_suggest *suggest, const char *name)
{
    size_t n = strlen(suggest->asked);
    size_t m = strlen(name);
    if (n == 0 || m == 0 || n > LONGEST || m > LONGEST) {
        return;
    }
    int longer = (int)(n > m ? n : m);
    int most = longer < 3 ? 1 : longer / 3;
    int distance = measure(suggest->asked, n, name, m);
    /* Two names without a letter in common are never near, however short. */
    if (distance > most || distance >= longer) {
        return;
    }
    if (suggest->best == NULL || distance < suggest->distance) {
        suggest->best = name;
        suggest->distance = distance;
    }
}

const char *hl_nearest_name(const char *asked, const char *const *names, int n)
{
    hl_suggest suggest = {asked, NULL, 0};
    for (int i = 0; i < n; i++)
        hl__suggest_offer(&suggest, names[i]);
    return suggest.best;
}
