/* nearest_name.h - the nearest right name to a misspelt one (layer: base). */
#ifndef HL_NEAREST_NAME_H
#define HL_NEAREST_NAME_H

typedef struct hl_suggest {
    const char *asked;
    const char *best; /* NULL when nothing is near enough */
    int distance;
} hl_suggest; /* start as {asked, NULL, 0} */

/* Offer one name that would have been right.  Case, '_', '-' and ' ' are the same letter here;
 * one swap of neighbours counts one.  Near enough: at most 1/3 of the longer name, at least 1.  (Over names
 * that are in one list: hl_nearest_name().) */
void hl__suggest_offer(hl_suggest *suggest, const char *name);

#endif
