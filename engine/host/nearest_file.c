/* nearest_file.c - the rule file whose name is nearest to a misspelt one (layer: host). */
#include "nearest_file.h"

#include "nearest_name.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

#define MOST_LOOKED_AT 2000 /* a folder of rules holds some dozens */

bool hl__nearest_file(char *out, size_t room, const char *folder, const char *name)
{
    char path[1024], best[256] = "";
    const char *slash = strrchr(name, '/');
    const char *base = slash != NULL ? slash + 1 : name;
    int before = (int)(base - name);
    int n = snprintf(path, sizeof path, "%s/%.*s", folder, before, name);
    DIR *listing = n > 0 && (size_t)n < sizeof path ? opendir(path) : NULL;
    if (listing == NULL)
        return false;
    hl_suggest suggest = {base, NULL, 0};
    int nearest = 1000;
    struct dirent *entry;
    for (int i = 0; i < MOST_LOOKED_AT && (entry = readdir(listing)) != NULL; i++) {
        char file[256];
        size_t size = strlen(entry->d_name);
        if (size < 5 || size >= sizeof file || strcmp(entry->d_name + size - 4, ".lua") != 0)
            continue;
        memcpy(file, entry->d_name, size - 4);
        file[size - 4] = '\0';
        suggest.best = NULL;
        hl__suggest_offer(&suggest, file);
        /* Of two equally near the first in the alphabet, so that the message never changes. */
        bool better = suggest.best != NULL &&
                      (suggest.distance < nearest || (suggest.distance == nearest && strcmp(file, best) < 0));
        if (better) {
            nearest = suggest.distance;
            memcpy(best, file, size - 3);
        }
    }
    closedir(listing);
    n = best[0] != '\0' ? snprintf(out, room, "%.*s%s", before, name, best) : -1;
    return n > 0 && (size_t)n < room;
}
