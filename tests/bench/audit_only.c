/* audit_only.c - the fleet audit alone, without the command line's walls, so that valgrind can write what
 * it counts.
 *
 *   audit_only RULES THREADS FILE...      a line a sheet, as `hammerline audit` prints it */
#include "hammerline.h"

#include <stdio.h>
#include <stdlib.h>

typedef struct paths {
    char **at;
} paths;

static const char *next_path(void *context)
{
    paths *p = context;
    return *p->at ? *p->at++ : NULL;
}

static bool take(void *context, const hl_fleet_sheet *sheet)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    (void)context;
    if (hl_fleet_line(&text, &size, sheet, &err) == HL_OK)
        fwrite(text, 1, size, stdout);
    hl_free(text);
    return true;
}

int main(int argc, char **argv)
{
    if (argc < 4) {
        fputs("usage: audit_only RULES THREADS FILE...\n", stderr);
        return 2;
    }
    const char *folders[] = {argv[1]};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    const hl_fleet_options options = {.shelf = &shelf, .threads = atoi(argv[2])};
    paths p = {argv + 3};
    hl_err err;
    return hl_fleet_run(&options, next_path, &p, take, NULL, &err) == HL_OK ? 0 : 1;
}
