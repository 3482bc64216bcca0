/* load.h - running one rule file (layer: host). */
#ifndef HL_LOAD_H
#define HL_LOAD_H

#include "entry.h"
#include "files.h"
#include "hammerline/book.h"
#include "hash.h"
#include "sandbox.h"
#include "scan.h"

#define HL_RULE_FILE_MOST ((size_t)256 << 10)

/* One Lua state for all files of a book.  The arena is the caller's. */
typedef struct hl_loader {
    hl_sandbox box;
    hl_files files;
    hl_hash hash;       /* over the bytes of every file, in order */
    hl_outline outline; /* of that file's text */
} hl_loader;

/* `all`: where the errors of its files are kept while loading goes on; NULL: the first one ends it. */
hl_code hl__loader_open(hl_loader *loader, hl_arena *arena, const hl_shelf *shelf, hl_complaints *all,
                        hl_err *err);
void hl__loader_close(hl_loader *loader); /* also after a failed open */
/* Read, scan and run a file; *out is the one entry that it returned.  When errors are kept, those of the file
 * are in `all` in the order of their lines, and *out is NULL if nothing can be made of it. */
hl_code hl__load(hl_entry **out, hl_loader *loader, const hl_rule_file *file, hl_err *err);

#endif
