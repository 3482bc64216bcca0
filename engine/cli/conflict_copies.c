/* conflict_copies.c - looks beside a sheet for second copies of it (layer: cli). */
#define _XOPEN_SOURCE 700
#include "conflict_copies.h"

#include <dirent.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

/* "conflict", "Konflikt", "conflit", "conflicto", "conflitto" */
static bool speaks_of_conflict(const char *text)
{
    static const char WORD[] = "onfli";
    for (; *text; text++)
        if (strncasecmp(text, WORD, sizeof WORD - 1) == 0)
            return true;
    return false;
}

static int compare(const void *a, const void *b)
{
    return strcmp(a, b);
}

void find_conflict_copies(conflict_copies *out, const char *path)
{
    char folder[4096];
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path, *dot = strrchr(name, '.');
    const size_t stem = dot && dot > name ? (size_t)(dot - name) : strlen(name);
    out->n = 0;
    const int n = slash ? snprintf(folder, sizeof folder, "%.*s", (int)(slash - path + 1), path)
                        : snprintf(folder, sizeof folder, ".");
    DIR *open = n < 0 || (size_t)n >= sizeof folder ? NULL : opendir(folder);
    if (!open)
        return;
    for (const struct dirent *entry; out->n < CONFLICT_COPIES_MOST && (entry = readdir(open)) != NULL;)
        if (strncmp(entry->d_name, name, stem) == 0 && speaks_of_conflict(entry->d_name + stem) &&
            strcmp(entry->d_name, name) != 0)
            snprintf(out->names[out->n++], sizeof out->names[0], "%.255s", entry->d_name);
    closedir(open);
    for (int i = 1; i < out->n; i++) /* in one order, whatever the folder's is */
        for (int k = i; k > 0 && compare(out->names[k - 1], out->names[k]) > 0; k--) {
            char kept[256];
            memcpy(kept, out->names[k], sizeof kept);
            memcpy(out->names[k], out->names[k - 1], sizeof kept);
            memcpy(out->names[k - 1], kept, sizeof kept);
        }
}
