/* nearest_word.c - the option or command that was probably meant (layer: cli). */
#include "options.h"

#include <string.h>

#define LONGEST 32

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Letters to change, add or drop, and neighbours to swap, between two short names. */
static int count_slips(const char *a, const char *b)
{
    const int n = (int)strlen(a), m = (int)strlen(b);
    int rows[LONGEST + 1][LONGEST + 1];
    if (n > LONGEST || m > LONGEST)
        return LONGEST;
    for (int i = 0; i <= n; i++)
        rows[i][0] = i;
    for (int j = 0; j <= m; j++)
        rows[0][j] = j;
    for (int i = 1; i <= n; i++) {
        for (int j = 1; j <= m; j++) {
            const int change = rows[i - 1][j - 1] + (a[i - 1] != b[j - 1]);
            rows[i][j] = least(change, 1 + least(rows[i - 1][j], rows[i][j - 1]));
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                rows[i][j] = least(rows[i][j], 1 + rows[i - 2][j - 2]);
        }
    }
    return rows[n][m];
}

const char *find_nearest(const char *asked, const char *const *names, int n)
{
    const char *best = NULL;
    int fewest = 0;
    for (int i = 0; i < n; i++) {
        const int longer = (int)(strlen(asked) > strlen(names[i]) ? strlen(asked) : strlen(names[i]));
        const int slips = count_slips(asked, names[i]);
        const bool near = slips <= (longer < 6 ? 2 : longer / 3) && slips < longer - 1;
        if (near && (!best || slips < fewest)) {
            best = names[i];
            fewest = slips;
        }
    }
    return best;
}
