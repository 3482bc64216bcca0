/* arena.c - memory handed out piecemeal and freed all at once (layer: base).
 *
 * The arena owns its blocks; what was taken is borrowed from it. */
#include "arena.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK_ROOM (size_t)16384

struct hl_arena_block {
    struct hl_arena_block *next;
    size_t used, room;
    max_align_t data[];
};

static struct hl_arena_block *add_block(hl_arena *arena, size_t room)
{
    if (room > SIZE_MAX - sizeof(struct hl_arena_block)) {
        return NULL;
    }
    struct hl_arena_block *block = calloc(1, sizeof *block + room);
    if (block == NULL) {
        return NULL;
    }
    block->room = room;
    /* A block made to measure goes behind the head, which may still have room. */
    if (room > BLOCK_ROOM && arena->blocks != NULL) {
        block->next = arena->blocks->next;
        arena->blocks->next = block;
    } else {
        block->next = arena->blocks;
        arena->blocks = block;
    }
    return block;
}

void *hl__arena_take(hl_arena *arena, size_t size)
{
    const size_t align = _Alignof(max_align_t);
    size_t want = size == 0 ? 1 : size;
    if (want > SIZE_MAX - align) {
        return NULL;
    }
    want = (want + align - 1) / align * align;
    struct hl_arena_block *block = arena->blocks;
    if (block == NULL || want > block->room - block->used) {
        block = add_block(arena, want > BLOCK_ROOM ? want : BLOCK_ROOM);
        if (block == NULL) {
            return NULL;
        }
    }
    void *taken = (char *)block->data + block->used;
    block->used += want;
    arena->taken += size;
    return taken;
}

void *hl__arena_array(hl_arena *arena, size_t n, size_t size)
{
    if (size != 0 && n > SIZE_MAX / size) {
        return NULL;
    }
    return hl__arena_take(arena, n * size);
}

char *hl__arena_copy(hl_arena *arena, const char *text)
{
    return hl__arena_copy_n(arena, text, strlen(text));
}

char *hl__arena_copy_n(hl_arena *arena, const char *text, size_t size)
{
    if (size == SIZE_MAX) {
        return NULL;
    }
    char *copy = hl__arena_take(arena, size + 1);
    if (copy != NULL && size > 0) {
        memcpy(copy, text, size); /* the NUL is there: what is taken is zeroed */
    }
    return copy;
}

void hl__arena_free(hl_arena *arena)
{
    struct hl_arena_block *block = arena->blocks;
    while (block != NULL) {
        struct hl_arena_block *next = block->next;
        free(block);
        block = next;
    }
    *arena = (hl_arena){0};
}

void hl__arena_reset(hl_arena *arena)
{
    struct hl_arena_block *block = arena->blocks;
    if (block == NULL || block->room > BLOCK_ROOM) {
        hl__arena_free(arena);
        return;
    }
    hl_arena rest = {.blocks = block->next};
    hl__arena_free(&rest);
    memset(block->data, 0, block->used);
    block->used = 0;
    block->next = NULL;
    arena->taken = 0;
}

int hl__grow(void **items, size_t n, size_t *room, size_t size)
{
    if (n < *room) {
        return 1;
    }
    size_t more = *room < 8 ? 8 : *room;
    if (size == 0 || more > SIZE_MAX / size / 2) {
        return 0;
    }
    more = *room < 8 ? 8 : *room * 2;
    /* `items` is really a T **: read and written as bytes, because a T * is not a void *. */
    void *old;
    memcpy(&old, items, sizeof old);
    void *grown = realloc(old, more * size);
    if (grown == NULL) {
        return 0;
    }
    memcpy(items, &grown, sizeof grown);
    *room = more;
    return 1;
}
