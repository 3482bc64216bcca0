/* rule_folder.h - a folder of rule files that a test writes and takes away again. */
#ifndef RULE_FOLDER_H
#define RULE_FOLDER_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "hammerline.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_RULES 80

typedef struct rule_folder {
    char path[200];
    char names[MOST_RULES][80]; /* of the files in it */
    int n;
} rule_folder;

static inline void open_folder(rule_folder *folder)
{
    const char *base = getenv("TMPDIR");
    folder->n = 0;
    snprintf(folder->path, sizeof folder->path, "%s/rules-XXXXXX", base == NULL ? "/tmp" : base);
    assert_non_null(mkdtemp(folder->path));
}

/* "drop" or "grand/drop"; the sub-folder is made. */
static inline void write_rule_bytes(rule_folder *folder, const char *name, const char *bytes, size_t size)
{
    char path[400];
    const char *slash = strchr(name, '/');
    if (slash != NULL) {
        snprintf(path, sizeof path, "%s/%.*s", folder->path, (int)(slash - name), name);
        mkdir(path, 0700);
    }
    assert_true(folder->n < MOST_RULES);
    snprintf(path, sizeof path, "%s/%s.lua", folder->path, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
    snprintf(folder->names[folder->n++], sizeof folder->names[0], "%s", name);
}

static inline void write_rule(rule_folder *folder, const char *name, const char *text)
{
    write_rule_bytes(folder, name, text, strlen(text));
}

static inline void close_folder(rule_folder *folder)
{
    static const char *const inner[] = {"common", "grand", "shops", "tests", "upright"};
    char path[400];
    for (int i = 0; i < folder->n; i++) {
        snprintf(path, sizeof path, "%s/%s.lua", folder->path, folder->names[i]);
        remove(path);
    }
    for (size_t i = 0; i < sizeof inner / sizeof *inner; i++) {
        snprintf(path, sizeof path, "%s/%s", folder->path, inner[i]);
        rmdir(path);
    }
    rmdir(folder->path);
}

/* Open a book of the folder by id. */
static inline hl_code open_book(rule_folder *folder, const char *name, hl_book **book, hl_err *err)
{
    const char *folders[] = {folder->path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    return hl_book_open(book, name, &shelf, err);
}

#endif
