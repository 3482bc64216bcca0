/* fleet.h - many sheets at once: what the files of the fleet say to each other (layer: fleet).
 *
 * Work stands in a list in the order of the output.  A thread takes a path, or the next piece of a
 * file of many, puts it at its place in the list, judges it, and whoever finds the head of the list
 * done tells it.  `lock` guards the list, the sources and the telling; the sheets are judged
 * outside it. */
#ifndef HL_FLEET_H
#define HL_FLEET_H

#include "audit.h"
#include "hammerline/fleet.h"
#include "sheet_many.h"

#include <pthread.h>
#include <stdint.h>

#define HL_FLEET_THREADS 256
#define HL_FLEET_BLOCK   ((size_t)1 << 16) /* bytes read at once; more where sheets are large */
#define HL_FLEET_WIDEST  ((size_t)1 << 18)
#define HL_FLEET_SPARE   64 /* behind them, so that a few bytes may be compared at once */

/* What became of one sheet.  Owns all but the book. */
typedef struct hl_fleet_result {
    char *title;
    uint64_t name; /* hash of its name in a file of many; 0: a file of its own */
    const hl_book *book;
    bool judged, ready;
    bool again, was_judged, was_ready; /* as in hl_fleet_sheet */
    hl_code code;
    int (*counts)[HL_VERDICTS];
    int total[HL_VERDICTS];
    int *cures;
    hl_err *errors;
    int n_errors;
    size_t unlisted;
    hl_sheet *sheet; /* only when audits are kept */
    hl_audit *audit;
    char *text;
    size_t size;
} hl_fleet_result;

/* A file of many sheets that is being read in pieces. */
typedef struct hl_fleet_file {
    char *path;
    int fd;
    hl_many many;
    char *top; /* what stands above its rows */
    size_t top_size;
    char *carry; /* read, but not handed out yet */
    size_t n_carry;
    int line; /* of the carry's first row */
    bool at_end;
} hl_fleet_file;

/* A place in the output. */
typedef struct hl_fleet_node {
    struct hl_fleet_node *next;
    hl_fleet_file *file; /* set: the rest of a file of many, which goes on here */
    int id;              /* of the path: names must not turn up twice in one file */
    bool done;
    hl_fleet_result *results;
    size_t n, room;
    bool no_memory;
} hl_fleet_node;

typedef struct hl_fleet_book {
    char *name;
    hl_book *book; /* NULL: `err` says why */
    hl_err err;
} hl_fleet_book;

/* Names by their hashes, an open table; many small ones, so that none need be copied whole as they grow. */
#define HL_FLEET_NAMES 256
typedef struct hl_fleet_names {
    uint64_t *at;
    size_t n, room;
} hl_fleet_names;

typedef struct hl_fleet {
    const hl_fleet_options *options;
    hl_fleet_next *next;
    hl_fleet_take *take;
    void *next_context, *take_context;
    pthread_mutex_t lock;
    pthread_cond_t changed;
    hl_fleet_node *first, *last;
    int n_nodes, most_nodes;
    int n_paths;
    bool drained; /* no path is left */
    bool stopped; /* nobody wants more */
    bool no_memory;
    pthread_mutex_t book_lock;
    hl_fleet_book *books;
    size_t n_books, room_books;
    hl_fleet_names seen[HL_FLEET_NAMES]; /* in the file that is being told */
    int seen_of;
    int told_of; /* the path that the last sheet came from */
} hl_fleet;

/* What a thread has of its own, used again for every sheet. */
typedef struct hl_fleet_worker {
    hl_fleet *fleet;
    char *bytes; /* a block; more for a sheet that is larger */
    size_t room;
    struct hl_shared *shared; /* NULL: each sheet is opened by itself */
} hl_fleet_worker;

/* A sheet to be judged. */
typedef struct hl_fleet_sheet_text {
    const char *path;
    hl_part_text part; /* part.part NULL: `rows` is a whole file */
    const char *piece; /* of a file of many: what was read of it, the first row of it on part.line */
} hl_fleet_sheet_text;

/* fleet_judge.c: judge one sheet and put the result at the end of the node. */
void hl__fleet_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text);
void hl__fleet_judge_path(hl_fleet_worker *worker, hl_fleet_node *node, const char *path);
/* Judge an opened sheet; takes it over. */
void hl__fleet_judge_sheet(hl_fleet_worker *worker, hl_fleet_node *node, hl_sheet *sheet);
/* A sheet that could not be judged. */
void hl__fleet_refuse(hl_fleet_node *node, const char *title, const hl_err *why);
/* The book called `name`, opened by whoever asks first; NULL with `err`. */
const hl_book *hl__fleet_book(hl_fleet *fleet, const char *name, hl_err *err);
hl_fleet_result *hl__fleet_add(hl_fleet_node *node);
bool hl__fleet_copy_title(hl_fleet_result *result, const char *title);
bool hl__fleet_copy_errors(hl_fleet_result *result, const hl_err *errors, int n);
void hl__fleet_free_result(hl_fleet_result *result);

/* fleet_names.c: which sheets of a file have been told. */
typedef enum hl_told { HL_TOLD_OPEN, HL_TOLD_READY, HL_TOLD_NOTHING, HL_TOLD_NEW } hl_told;
uint64_t hl__fleet_hash(const char *name);
/* What is kept of a name in the file of this path; new at first.  NULL: no memory. */
uint64_t *hl__fleet_name(hl_fleet *fleet, int id, uint64_t hash);
hl_told hl__fleet_told(uint64_t kept);
void hl__fleet_tell(uint64_t *kept, hl_told told);
void hl__fleet_free_names(hl_fleet *fleet);

/* fleet_file.c: files and their pieces. */
/* Judge the sheets of a path.  *file is set, and nothing judged, when it is a large file of many. */
void hl__fleet_path(hl_fleet_worker *worker, hl_fleet_node *node, const char *path, hl_fleet_file **file);
/* The next piece of a file into the worker's bytes; under the lock.  False at the end of the file,
 * or when `err` is set. */
bool hl__fleet_piece(hl_fleet_worker *worker, hl_fleet_file *file, size_t *size, int *line, hl_err *err);
/* Judge the sheets of a piece, the first row of which stands on `line`. */
void hl__fleet_rows(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_file *file, const char *rows,
                    size_t size, int line);
void hl__fleet_close(hl_fleet_file *file);

#endif
