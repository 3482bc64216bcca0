/* rule_paths.h - the folders where books are looked for (layer: cli). */
#ifndef HL_RULE_PATHS_H
#define HL_RULE_PATHS_H

#include "hammerline.h"
#include "options.h"

#define SHELF_MOST (RULE_FOLDERS_MOST + 4)

typedef struct bookshelf {
    hl_shelf shelf; /* what the engine takes */
    const char *folders[SHELF_MOST];
    char *own[4]; /* the ones we made up, freed by close_bookshelf */
    int n_own;
} bookshelf;

/* In order: the request's --rules, the user's configuration, the rules installed beside the program,
 * and the source tree's when the program still lies in its build folder.  Returns an exit code. */
int open_bookshelf(bookshelf *out, const request *asked);
void close_bookshelf(bookshelf *shelf);

#endif
