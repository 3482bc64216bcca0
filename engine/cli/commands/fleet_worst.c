/* fleet_worst.c - the worst sheets of a fleet, whatever its size (layer: cli/commands). */
#include "fleet_worst.h"

#include <stdlib.h>
#include <string.h>

static int compare_rank(const bad_sheet *a, const bad_sheet *b)
{
    for (int i = 0; i < 4; i++)
        if (a->rank[i] != b->rank[i])
            return a->rank[i] > b->rank[i] ? 1 : -1;
    return 0;
}

static bad_sheet make_bad(const hl_fleet_sheet *sheet)
{
    const int *total = sheet->total;
    const bool unread = !sheet->judged || sheet->code != HL_OK;
    return (bad_sheet){
        {unread, total[HL_FAIL], (long)total[HL_STALE] + total[HL_DOUBTFUL], total[HL_MISSING]}, NULL};
}

void add_worst(worst_list *list, const hl_fleet_sheet *sheet, const char *line)
{
    bad_sheet one = make_bad(sheet);
    if (sheet->ready || list->most == 0)
        return;
    if (!list->sheets)
        list->sheets = calloc((size_t)list->most + 1, sizeof *list->sheets);
    if (!list->sheets) {
        list->no_memory = true;
        return;
    }
    int at = list->n;
    while (at > 0 && compare_rank(&one, &list->sheets[at - 1]) > 0)
        at--;
    if (at == list->most)
        return;
    one.line = malloc(strlen(line) + 1);
    if (!one.line) {
        list->no_memory = true;
        return;
    }
    strcpy(one.line, line);
    memmove(&list->sheets[at + 1], &list->sheets[at], (size_t)(list->n - at) * sizeof one);
    list->sheets[at] = one;
    if (list->n < list->most)
        list->n++;
    else
        free(list->sheets[list->n].line);
}

void free_worst(worst_list *list)
{
    for (int i = 0; i < list->n; i++)
        free(list->sheets[i].line);
    free(list->sheets);
    *list = (worst_list){0};
}
