/* press.c - the program that presses the shipped books into the library (layer: press).
 *
 * press RULES OUT.c BOOK... opens each book in the folder RULES and writes OUT.c, which host/pressed.h
 * describes.  It runs while the library is built and is not installed. */
#include "press.h"

#include "file.h"
#include "pressed.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#define PATH_ROOM 4096
#define FILE_MOST ((size_t)1 << 20)

/* Here nothing is pressed yet. */
const hl_pressed hl__pressed[] = {{NULL, NULL, 0}};
const int hl__n_pressed = 0;

static _Noreturn void give_up(const hl_err *err)
{
    fprintf(stderr, "%s:%d: %s\n", err->file, err->line, err->what);
    exit(1);
}

/* The check at run time knows one folder: a file that uses others may find them elsewhere, so only the
 * book's own file may. */
static void refuse_use(const char *name, const char *text)
{
    for (const char *line = text; line != NULL; line = strchr(line, '\n')) {
        line += strspn(line, " \t\n");
        if (strncmp(line, "use ", 4) == 0 || strncmp(line, "use(", 4) == 0) {
            fprintf(stderr, "%s uses other files, so its book can't be pressed\n", name);
            exit(1);
        }
    }
}

static void put_file(FILE *out, const char *rules, const char *name, bool first)
{
    char path[PATH_ROOM], *text = NULL;
    size_t size = 0;
    hl_err err;
    snprintf(path, sizeof path, "%s/%s", rules, name);
    if (hl__file_read(&text, &size, path, FILE_MOST, HL_E_RULE, &err) != HL_OK)
        give_up(&err);
    if (!first)
        refuse_use(name, text);
    fputs("  {", out);
    press_text(out, name);
    fputs(", ", out);
    press_text(out, text);
    fprintf(out, ", %zu},\n", size);
    if (strlen(text) != size) {
        fprintf(stderr, "%s holds a zero byte\n", name);
        exit(1);
    }
    free(text);
}

static void press(FILE *out, const char *rules, const char *name)
{
    const char *const folders[] = {rules};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    hl_book *book = NULL;
    hl_err err;
    if (hl_book_open(&book, name, &shelf, &err) != HL_OK)
        give_up(&err);
    fprintf(out, "static const hl_book %s_book = ", name);
    press_book(out, book);
    fprintf(out, ";\n\nstatic const hl_pressed_file %s_files[] = {\n", name);
    for (int i = 0; i < book->n_files; i++)
        put_file(out, rules, book->files[i].file, i == 0);
    fputs("};\n\n", out);
    hl_book_free(book);
}

int main(int argc, char **argv)
{
    FILE *out = argc > 3 ? fopen(argv[2], "w") : NULL;
    if (out == NULL) {
        fputs("usage: press RULES OUT.c BOOK...\n", stderr);
        return 1;
    }
    fputs("/* The shipped books; written by engine/press. */\n#include \"pressed.h\"\n\n", out);
    for (int i = 3; i < argc; i++)
        press(out, argv[1], argv[i]);
    fputs("const hl_pressed hl__pressed[] = {\n", out);
    for (int i = 3; i < argc; i++)
        fprintf(out, "  {&%s_book, %s_files, (int)(sizeof %s_files / sizeof *%s_files)},\n", argv[i], argv[i],
                argv[i], argv[i]);
    fprintf(out, "};\nconst int hl__n_pressed = %d;\n", argc - 3);
    const bool failed = ferror(out) != 0;
    return fclose(out) != 0 || failed;
}
