/* confine.h - walls around the whole process, before a rule file runs (layer: cli/confinement).
 *
 * Rule files are strangers' code, and the sandbox of Lua is one wall.  These are the next: should a
 * rule file break out of it, it finds a process that can read the rule folders and the sheets it was
 * given, print, and nothing else.  Best effort: a wall that the system has not is left out, and
 * `hammerline --version --verbose` tells which are up. */
#ifndef HL_CONFINE_H
#define HL_CONFINE_H

#include "rule_paths.h"

typedef struct walls {
    bool privileges; /* no program it starts gains any */
    int files;       /* Landlock's version; 0: no such wall */
    bool reads;      /* it guards reading too, not only writing */
    bool calls;      /* no programs, no other processes, no network */
    bool time;       /* seconds of work are limited */
} walls;

/* For a command that reads what its words name, and prints or writes asked->output, or other files beside
 * it.  Must come before any thread is started. */
walls confine(const request *asked, const bookshelf *shelf);
/* Puts the walls up around this process, knocks at them, and says in words which hold. */
void say_walls(void);

/* ---- inside ----------------------------------------------------------------------------------- */

typedef struct open_paths {
    const char *readable[SHELF_MOST + 8]; /* files and folders */
    int n_readable;
    char *const *words; /* more of them: those that are files or folders; .lua opens its folder */
    int n_words;
    bool read_all;        /* a folder was named: its links may lead anywhere */
    const char *writable; /* a new file's path; NULL: nothing is written */
} open_paths;

/* Landlock's version, or 0: not here.  *reads: reading is guarded too. */
int confine_files(const open_paths *open, bool *reads);
bool confine_calls(bool writes);

#endif
