/* arena.h - memory that is handed out piecemeal and freed all at once (layer: base).
 *
 * Each big object (book, sheet, audit) owns one arena.  Everything taken is zeroed and aligned for
 * any type.  A failed take returns NULL and leaves the arena usable. */
#ifndef HL_ARENA_H
#define HL_ARENA_H

#include <stddef.h>

typedef struct hl_arena {
    struct hl_arena_block *blocks; /* newest first */
    size_t taken;                  /* bytes handed out, for tests and limits */
} hl_arena;                        /* start as {0} */

void *hl__arena_take(hl_arena *arena, size_t size);
/* Room for n items of `size` bytes; NULL too when n * size overflows. */
void *hl__arena_array(hl_arena *arena, size_t n, size_t size);
/* Copies, NUL-terminated. */
char *hl__arena_copy(hl_arena *arena, const char *text);
char *hl__arena_copy_n(hl_arena *arena, const char *text, size_t size);
void hl__arena_free(hl_arena *arena); /* leaves it as {0} */
/* Takes everything back and keeps a block for the next use. */
void hl__arena_reset(hl_arena *arena);

/* Grow a plain array that is built item by item: makes room for one more item in *items (a
 * malloc'ed array of n items with capacity *room, each `size` bytes).  False = no memory, array
 * unchanged.  The owner frees *items. */
int hl__grow(void **items, size_t n, size_t *room, size_t size);

#endif
