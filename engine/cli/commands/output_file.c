/* output_file.c - a result as a file, never over an input (layer: cli/commands).
 *
 * Two names are one file when device and inode number agree, whatever links lead there. */
#include "output_file.h"

#include "output.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool is_same(const struct stat *a, const struct stat *b)
{
    return a->st_dev == b->st_dev && a->st_ino == b->st_ino;
}

/* The input that is this very file, or NULL. */
static const char *find_input(const request *asked, const struct stat *file)
{
    struct stat about;
    for (int i = 0; i < asked->n_words; i++)
        if (stat(asked->words[i], &about) == 0 && is_same(&about, file))
            return asked->words[i];
    if (asked->book && stat(asked->book, &about) == 0 && is_same(&about, file))
        return asked->book;
    return NULL;
}

/* Would the result go over an input?  Complains. */
static bool is_over_input(const request *asked, const char *output)
{
    struct stat file;
    const char *input = stat(output, &file) == 0 && !S_ISDIR(file.st_mode) ? find_input(asked, &file) : NULL;
    if (input)
        complain("the output %s would be written over the input %s; choose another name", output, input);
    return input != NULL;
}

/* Where standard output goes, when that is a file. */
static bool find_sink(struct stat *file)
{
    return fstat(STDOUT_FILENO, file) == 0 && S_ISREG(file->st_mode);
}

bool is_output(const request *asked, const char *path)
{
    struct stat about, file;
    if (stat(path, &about) != 0)
        return false;
    if (asked->output)
        return stat(asked->output, &file) == 0 && is_same(&about, &file);
    return find_sink(&file) && is_same(&about, &file);
}

bool check_output(const request *asked)
{
    struct stat file;
    if (asked->output && is_over_input(asked, asked->output))
        return false;
    const char *input = find_sink(&file) ? find_input(asked, &file) : NULL;
    if (input)
        complain("standard output goes to the input %s; send it to another file", input);
    return input == NULL;
}

int save_result(const request *asked, const char *path, const char *text, size_t size)
{
    hl_err err;
    const bool replace = asked->given[OPTION_REPLACE];
    if (is_over_input(asked, path)) /* looked at before, but it may have come to be one since */
        return EXIT_WRONG_USE;
    if (hl_file_save(path, text, size, replace, &err) == HL_OK)
        return EXIT_READY;
    for (const option_row *row = asked->form->options; !replace && row->id != OPTION_END; row++)
        if (row->id == OPTION_REPLACE && access(path, F_OK) == 0)
            snprintf(err.todo, sizeof err.todo, "choose another name for the new one, or say --replace");
    return report(&err);
}

int give_out(const request *asked, const char *text, size_t size)
{
    if (!asked->output) {
        say_text(text, size);
        return EXIT_READY;
    }
    const int code = save_result(asked, asked->output, text, size);
    if (code == EXIT_READY)
        note("saved");
    return code;
}
