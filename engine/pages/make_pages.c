/* make_pages.c - the program that writes manual pages and completions (layer: pages).
 *
 * make_pages DOCS OUT writes OUT/hammerline.1.md, OUT/hammerline-audit.1.md ... and the completions
 * OUT/hammerline.bash, OUT/_hammerline, OUT/hammerline.fish. */
#include "pages.h"

#include <stdlib.h>
#include <string.h>

#define PATH_ROOM 4096

_Noreturn void give_up(const char *what, const char *which)
{
    fprintf(stderr, "make_pages: %s %s\n", what, which);
    exit(1);
}

FILE *begin_file(const job *of, const char *name)
{
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s/%s", of->out, name);
    FILE *file = fopen(path, "w");
    if (!file)
        give_up("can't write", path);
    return file;
}

void end_file(FILE *file, const char *name)
{
    const int failed = ferror(file);
    if (fclose(file) != 0 || failed)
        give_up("could not save", name);
}

char *read_document(const job *of, const char *name)
{
    char path[PATH_ROOM];
    size_t size = 0, room = 1 << 16;
    snprintf(path, sizeof path, "%s/%s", of->docs, name);
    FILE *file = fopen(path, "r");
    char *text = file ? malloc(room) : NULL;
    if (!text)
        give_up("can't read", path);
    for (size_t n; (n = fread(text + size, 1, room - size - 1, file)) > 0;) {
        size += n;
        if (room - size > 1)
            continue;
        room *= 2;
        char *more = realloc(text, room);
        if (!more)
            give_up("no memory for", path);
        text = more;
    }
    text[size] = '\0';
    if (ferror(file) || size == 0 || strlen(text) != size)
        give_up("nothing to read in", path);
    fclose(file);
    return text;
}

int main(int argc, char **argv)
{
    if (argc != 3)
        give_up("usage:", "make_pages DOCS OUT");
    const job of = {argv[1], argv[2]};
    write_man_pages(&of);
    write_bash(&of);
    write_zsh(&of);
    write_fish(&of);
    return 0;
}
