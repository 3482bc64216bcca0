/* conflict_copies.h - second copies of a sheet that a shared folder made (layer: cli).
 *
 * When two computers write one file of a shared folder at the same time, most such folders keep both, and
 * name one of them a conflict. */
#ifndef HL_CONFLICT_COPIES_H
#define HL_CONFLICT_COPIES_H

#define CONFLICT_COPIES_MOST 5

typedef struct conflict_copies {
    char names[CONFLICT_COPIES_MOST][256]; /* without the folder */
    int n;
} conflict_copies;

/* Files beside `path` whose name begins as the sheet's does and then speaks of a conflict, in any of the
 * languages in which that word is nearly the same. */
void find_conflict_copies(conflict_copies *out, const char *path);

#endif
