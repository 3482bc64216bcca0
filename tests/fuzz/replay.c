/* replay.c - runs a fuzz target over files and folders of files, without a fuzzer.
 *
 *   fuzz_sheet corpus/sheet ...      says how many there were; ends at the first broken promise */
#include "fuzz.h"

#include <dirent.h>
#include <string.h>
#include <sys/stat.h>

/* What a target's own mutator falls back on; nothing is mutated here. */
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most);

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most)
{
    (void)data;
    return size < most ? size : most;
}

static int n_replayed;

static void replay_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    struct stat about;
    if (file == NULL || stat(path, &about) != 0) {
        fprintf(stderr, "%s can't be read\n", path);
        exit(2);
    }
    const size_t size = (size_t)about.st_size;
    uint8_t *data = malloc(size + 1); /* to size: a sanitizer sees a byte read past the end */
    if (data == NULL || fread(data, 1, size, file) != size)
        exit(2);
    fclose(file);
    uint8_t *exact = size > 0 ? realloc(data, size) : data;
    if (exact == NULL)
        exit(2);
    n_replayed++;
    fprintf(stderr, "%s\r", path); /* the last one seen when it crashes */
    LLVMFuzzerTestOneInput(exact, size);
    free(exact);
}

static void replay(const char *path)
{
    DIR *folder = opendir(path);
    if (folder == NULL) {
        replay_file(path);
        return;
    }
    for (struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        char inner[4096];
        if (entry->d_name[0] == '.')
            continue;
        snprintf(inner, sizeof inner, "%s/%s", path, entry->d_name);
        replay(inner);
    }
    closedir(folder);
}

int main(int argc, char **argv)
{
    for (int i = 1; i < argc; i++)
        replay(argv[i]);
    fprintf(stderr, "\n%d inputs\n", n_replayed);
    return n_replayed > 0 ? 0 : 2;
}
