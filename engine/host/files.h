/* files.h - finding rule files by name, below the rule folders only (layer: host). */
#ifndef HL_FILES_H
#define HL_FILES_H

#include "arena.h"
#include "errors.h"
#include "hammerline/book.h"

typedef struct hl_rule_file {
    const char *shown;  /* relative to its rules folder */
    const char *real;   /* without symbolic links: two names for one file are one file */
    const char *folder; /* that it is in, real */
    const char *id;     /* its name without folder and .lua */
    hl_origin used;     /* where it was asked for; file "" for the first */
    bool loading;       /* is in the chain of books being put together */
} hl_rule_file;

/* The folders that files may come from, and the files that were found.  Memory is the arena's,
 * but for the list of files, which hl__files_end() frees. */
typedef struct hl_files {
    hl_arena *arena;
    const char **roots;   /* real */
    int n_roots, n_shelf; /* the shelf's, and after them the folder of a book opened by path */
    hl_rule_file **found;
    size_t n, room;
} hl_files;

hl_code hl__files_start(hl_files *files, hl_arena *arena, const hl_shelf *shelf, hl_err *err);
void hl__files_end(hl_files *files);
/* A book by id or path, as the user named it. */
hl_code hl__files_open(hl_rule_file **out, hl_files *files, const char *name, hl_err *err);
/* A file that a book uses.  Refuses names that leave the folders, loops and second uses. */
hl_code hl__files_use(hl_rule_file **out, hl_files *files, const hl_rule_file *asking, const char *name,
                      hl_origin at, hl_err *err);

#endif
