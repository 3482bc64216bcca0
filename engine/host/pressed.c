/* pressed.c - is the book on the disk the one that was pressed? (layer: host). */
#include "pressed.h"

#include "file.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define CHUNK     16384 /* most rule files in one go */
#define PATH_ROOM 4096

static bool holds(int file, const char *text, size_t size)
{
    char chunk[CHUNK];
    for (size_t at = 0;;) {
        const ssize_t n = read(file, chunk, sizeof chunk);
        if (n < 0 || (size_t)n > size - at || memcmp(chunk, text + at, (size_t)n) != 0)
            return false;
        at += (size_t)n;
        if (n < (ssize_t)sizeof chunk) /* of a file, the end; of anything else, not what is wanted */
            return at == size;
    }
}

static bool is_same(int folder, const hl_pressed_file *pressed)
{
    /* Whatever stands there, opening must not wait. */
    const int file = openat(folder, pressed->name, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOFOLLOW);
    if (file < 0)
        return false;
    const bool same = holds(file, pressed->text, pressed->size);
    close(file);
    return same;
}

/* Does a file of that name stand in the folder, where the long way would look first, or second? */
static bool is_there(const char *folder, const char *between, const char *name)
{
    char path[PATH_ROOM];
    const int n = snprintf(path, sizeof path, "%s/%s%s.lua", folder, between, name);
    return n < 0 || (size_t)n >= sizeof path || hl__file_exists(path);
}

static bool stands_in(const char *path, const hl_pressed *pressed)
{
    const int folder = open(path, O_RDONLY | O_CLOEXEC | O_DIRECTORY);
    if (folder < 0)
        return false;
    int i = 0;
    while (i < pressed->n_files && is_same(folder, &pressed->files[i]))
        i++;
    close(folder);
    return i == pressed->n_files;
}

static const hl_pressed *find_name(const char *name)
{
    for (int i = 0; i < hl__n_pressed; i++)
        if (strcmp(hl__pressed[i].book->id, name) == 0)
            return &hl__pressed[i];
    return NULL;
}

const hl_book *hl__pressed_find(const char *name, const hl_shelf *shelf)
{
    const hl_pressed *pressed = find_name(name);
    /* Who states limits wants them kept, so Lua must run. */
    if (pressed == NULL || shelf == NULL || shelf->memory != 0 || shelf->steps != 0 || shelf->seconds > 0)
        return NULL;
    for (int i = 0; i < shelf->n_folders; i++) {
        if (stands_in(shelf->folders[i], pressed))
            return pressed->book;
        if (is_there(shelf->folders[i], "", name) || is_there(shelf->folders[i], "shops/", name))
            return NULL; /* another book of that name comes first */
    }
    return NULL;
}
