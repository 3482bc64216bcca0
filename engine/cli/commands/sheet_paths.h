/* sheet_paths.h - the sheets that a command line names, folders searched, one at a time (layer:
 * cli/commands). */
#ifndef HL_SHEET_PATHS_H
#define HL_SHEET_PATHS_H

#include "options.h"

#include <sys/types.h>

#define FOLDERS_DEEP 32 /* folders inside one another */
#define TROUBLES     20 /* kept for the end of the run; more are counted */
#define PASSED_MOST  10 /* names of what was passed over; more are counted */

/* A folder that is being gone through: its entries by name, held in one piece of memory. */
typedef struct folder_frame {
    char *names;
    size_t size, room;
    size_t *starts; /* of each name */
    size_t n, room_starts, at;
    size_t path_size; /* of the folder's own path */
    dev_t device;
    ino_t number;
} folder_frame;

/* What a folder holds that is not read: the first names, and how many there are. */
typedef struct passed_over {
    char *names[PASSED_MOST];
    int n;
} passed_over;

typedef struct sheet_paths {
    const request *asked; /* the words, and where the output goes */
    int at_word;
    folder_frame frames[FOLDERS_DEEP];
    int depth;
    char *path; /* the one handed out last, or the folder's */
    size_t room;
    size_t n_found; /* under the word in hand */
    hl_err troubles[TROUBLES];
    int n_troubles;
    passed_over others;   /* files that are no sheets by their name */
    passed_over specials; /* pipes, sockets and devices, which may never end */
    bool met_output;      /* a file of a folder is the output, and was not handed out */
    bool no_memory;
} sheet_paths; /* start with the request, the rest 0 */

/* False after a complaint: standard input is named beside other sheets. */
bool check_paths(const request *asked);

/* The next path, as hl_fleet_run() asks for it: words in their order, and of a folder all sheets
 * (*.csv and *.tsv, in any case) in it and in the folders below, by name.  What begins with a dot, and the
 * lock that the walk leaves beside a sheet, is passed over without a word; everything else is counted. */
const char *next_sheet_path(void *context);
/* Says, after the run, what could not be searched and what was passed over; returns an exit code. */
int report_troubles(const sheet_paths *paths);
void close_sheet_paths(sheet_paths *paths);
bool is_folder_path(const char *path);

#endif
