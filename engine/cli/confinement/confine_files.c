/* confine_files.c - which files this process may open from now on: Landlock, a wall that a Linux process
 * can put up around itself (layer: cli/confinement). */
#define _XOPEN_SOURCE   700 /* realpath */
#define _DEFAULT_SOURCE     /* syscall */
#include "confine.h"

#include "folder.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifdef __linux__
#include <fcntl.h>
#include <limits.h>
#include <stdint.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#ifndef O_PATH
#define O_PATH 010000000
#endif

/* The kernel's own figures (linux/landlock.h); older headers lack the later ones, or all. */
enum { CREATE_RULESET = 444, ADD_RULE = 445, RESTRICT_SELF = 446 };
enum { TELL_VERSION = 1, BENEATH_PATH = 1 };
enum { EXECUTE = 1 << 0, WRITE_FILE = 1 << 1, READ_FILE = 1 << 2, READ_FOLDER = 1 << 3 };
enum { REMOVE_FILE = 1 << 5, MAKE_FILE = 1 << 8, TRUNCATE = 1 << 14 };
#define NETWORK UINT64_C(3) /* bind, connect */
#define SCOPES  UINT64_C(3) /* abstract sockets, signals */

typedef struct ruleset {
    uint64_t files, network, scopes;
} ruleset;

typedef struct __attribute__((packed)) beneath {
    uint64_t may;
    int32_t folder;
} beneath;

/* Rights on files that each version knows, from version 1. */
static const uint64_t known[] = {0x1fff, 0x3fff, 0x7fff, 0x7fff, 0xffff};

/* The kernel's version of it; a kernel may claim one that it does not bear out, so lower ones are
 * tried too. */
static int open_ruleset(int *version, uint64_t *files, bool reads)
{
    long top = syscall(CREATE_RULESET, NULL, (size_t)0, TELL_VERSION);
    const int versions = (int)(sizeof known / sizeof *known);
    for (*version = top > 64 ? 64 : (int)top; *version > 0; (*version)--) {
        *files = known[*version > versions ? versions - 1 : *version - 1];
        if (!reads)
            *files &= ~(uint64_t)(READ_FILE | READ_FOLDER);
        const ruleset rules = {.files = *files, .network = NETWORK, .scopes = SCOPES};
        const size_t size = *version >= 6 ? 24 : *version >= 4 ? 16 : 8;
        const long fd = syscall(CREATE_RULESET, &rules, size, 0);
        if (fd >= 0)
            return (int)fd;
    }
    return -1;
}

/* A path that is not there, or lies nowhere (a pipe), needs no leave. */
static void allow(int rules, const char *path, uint64_t may)
{
    struct stat about;
    const int fd = open(path, O_PATH | O_CLOEXEC);
    if (fd < 0)
        return;
    if (fstat(fd, &about) == 0) {
        if (!S_ISDIR(about.st_mode))
            may &= EXECUTE | WRITE_FILE | READ_FILE | TRUNCATE; /* others are a folder's */
        const beneath rule = {.may = may, .folder = fd};
        if (may != 0)
            syscall(ADD_RULE, rules, BENEATH_PATH, &rule, 0);
    }
    close(fd);
}

/* The folder of a path; the path itself when it has none. */
static void cut_name(char *path)
{
    char *slash = strrchr(path, '/');
    if (!slash)
        strcpy(path, ".");
    else
        slash[slash == path] = '\0';
}

/* A word that a book or a sheet may be named by.  A book opens its folder, and a shop's folder the one
 * above, where its tests may lie. */
static void allow_word(int rules, const char *word, uint64_t may)
{
    char real[PATH_MAX];
    const size_t n = strlen(word);
    allow(rules, word, may);
    if (n <= 4 || strcmp(word + n - 4, ".lua") != 0 || !realpath(word, real))
        return;
    cut_name(real);
    allow(rules, real, may);
    if (strcmp(base_name(real), "shops") == 0) {
        cut_name(real);
        allow(rules, real, may);
    }
}

static void allow_writing(int rules, const char *path, uint64_t known_files)
{
    char folder[PATH_MAX];
    const int n = snprintf(folder, sizeof folder, "%s", path);
    if (n < 0 || (size_t)n >= sizeof folder)
        return; /* too long for a file as well */
    cut_name(folder);
    allow(rules, folder,
          known_files & (READ_FILE | READ_FOLDER | WRITE_FILE | MAKE_FILE | REMOVE_FILE | TRUNCATE));
}

int confine_files(const open_paths *open, bool *reads)
{
    uint64_t files = 0;
    int version = 0;
    *reads = !open->read_all;
    const int rules = open_ruleset(&version, &files, *reads);
    if (rules < 0)
        return 0;
    const uint64_t may = files & (READ_FILE | READ_FOLDER);
    for (int i = 0; i < open->n_readable; i++)
        allow_word(rules, open->readable[i], may);
    for (int i = 0; i < open->n_words; i++)
        allow_word(rules, open->words[i], may);
    if (open->writable)
        allow_writing(rules, open->writable, files);
    const bool up = syscall(RESTRICT_SELF, rules, 0) == 0;
    close(rules);
    return up ? version : 0;
}

#else

int confine_files(const open_paths *open, bool *reads)
{
    (void)open;
    *reads = false;
    return 0;
}

#endif
