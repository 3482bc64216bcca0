/* simulate.c - how much work it is, step by step and by the plan, on simulated pianos.
 *
 *   simulate RULES [PIANOS [SEED [OFF [NOISE]]]]
 *
 * prints a table in Markdown.  OFF: effects beside the book's, at most, in per cent (15); NOISE: of the
 * gauges, in per cent of what the book states (100).  Exit 1 when a piano does not end ready, step by
 * step or by the plan, or the plan needs more adjustments.
 *
 * The same faults for each way of working. */
#include "bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct way {
    const char *name;
    outcome (*work)(bench *at);
    int *passes; /* [pianos] */
    long rounds, adjustments, readings;
    int not_ready, within_two;
} way;

static int compare_ints(const void *one, const void *two)
{
    const int *a = one, *b = two;
    return (*a > *b) - (*a < *b);
}

static void work_piano(way *by, const hl_book *book, const conditions *under, int piano)
{
    bench *at = malloc(sizeof *at);
    need(at != NULL, "no memory");
    open_bench(at, book, under, (uint64_t)piano);
    const outcome result = by->work(at);
    close_bench(at);
    free(at);
    by->passes[piano] = result.passes;
    by->rounds += result.rounds;
    by->adjustments += result.adjustments;
    by->readings += result.readings;
    by->not_ready += !result.ready;
    by->within_two += result.ready && result.passes <= 2;
}

/* Tenths, without a float: the table is the same in every locale. */
static void print_tenths(long sum, int n)
{
    long tenths = (10 * sum + n / 2) / n;
    printf("%ld.%ld", tenths / 10, tenths % 10);
}

static void print_row(const way *by, int pianos)
{
    long sum = 0;
    for (int i = 0; i < pianos; i++)
        sum += by->passes[i];
    qsort(by->passes, (size_t)pianos, sizeof *by->passes, compare_ints);
    printf("| %s | ", by->name);
    print_tenths(by->adjustments, pianos);
    printf(" | ");
    print_tenths(by->rounds, pianos);
    printf(" | ");
    print_tenths(sum, pianos);
    printf(" | %d | %d | %d | ", by->passes[pianos / 2], by->passes[pianos - 1], by->within_two);
    print_tenths(by->readings, pianos);
    printf(" | %d |\n", by->not_ready);
}

static void print_table(const way *ways, int n, int pianos)
{
    printf("| way of working | adjustments | rounds | passes, mean | median | most | ready in two | read "
           "again | "
           "never ready "
           "|\n|---|---:|---:|---:|---:|---:|---:|---:|---:|\n");
    for (int i = 0; i < n; i++)
        print_row(&ways[i], pianos);
}

static hl_book *open_grand(const char *rules)
{
    const hl_shelf shelf = {.folders = &rules, .n_folders = 1};
    hl_book *book = NULL;
    hl_err err = {0};
    need(hl_book_open(&book, "grand", &shelf, &err) == HL_OK, err.what);
    return book;
}

static long read_number(int argc, char **argv, int at, long otherwise)
{
    return argc > at ? strtol(argv[at], NULL, 10) : otherwise;
}

static bool work(way *ways, int n, const hl_book *book, const conditions *under, int pianos)
{
    for (int i = 0; i < n; i++) {
        need((ways[i].passes = calloc((size_t)pianos, sizeof *ways[i].passes)) != NULL, "no memory");
        for (int piano = 0; piano < pianos; piano++)
            work_piano(&ways[i], book, under, piano);
    }
    print_table(ways, n, pianos);
    for (int i = 0; i < n; i++)
        free(ways[i].passes);
    return ways[0].not_ready == 0 && ways[n - 1].not_ready == 0 &&
           ways[n - 1].adjustments <= ways[0].adjustments;
}

int main(int argc, char **argv)
{
    way ways[] = {{.name = "step by step, in the book's order", .work = work_step_by_step},
                  {.name = "all that one audit proposes, at once", .work = work_all_at_once},
                  {.name = "the plan", .work = work_by_plan}};
    need(argc >= 2 && argc <= 6, "usage: simulate RULES [PIANOS [SEED [OFF [NOISE]]]]");
    const long pianos = read_number(argc, argv, 2, 200);
    const conditions under = {.seed = (uint64_t)read_number(argc, argv, 3, 1),
                              .off = (double)read_number(argc, argv, 4, 15) / 100,
                              .noise = (double)read_number(argc, argv, 5, 100) / 100};
    need(pianos >= 1 && pianos <= 10000, "1 to 10000 pianos");
    hl_book *book = open_grand(argv[1]);
    const bool good = work(ways, (int)(sizeof ways / sizeof *ways), book, &under, (int)pianos);
    hl_book_free(book);
    return good ? 0 : 1;
}
