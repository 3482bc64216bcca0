/* short_memory.h - a machine that runs out of memory when the test says so.
 *
 * For programs linked with --wrap=malloc,calloc,realloc; included once a program.  What libc takes
 * for itself is not wrapped. */
#ifndef SHORT_MEMORY_H
#define SHORT_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

static long memory_asked;     /* allocations so far */
static long memory_left = -1; /* how many more succeed; -1: all */
static bool memory_once;      /* only one fails, else all after it, too */

void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *block, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *block, size_t size);

static bool may_allocate(void)
{
    memory_asked++;
    if (memory_left == 0) {
        if (memory_once)
            memory_left = -1;
        return false;
    }
    if (memory_left > 0)
        memory_left--;
    return true;
}

void *__wrap_malloc(size_t size)
{
    return may_allocate() ? __real_malloc(size) : NULL;
}

void *__wrap_calloc(size_t n, size_t size)
{
    return may_allocate() ? __real_calloc(n, size) : NULL;
}

void *__wrap_realloc(void *block, size_t size)
{
    return may_allocate() ? __real_realloc(block, size) : NULL;
}

#endif
