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

bool check_output(const request *asked)
{
    struct stat file;
    const char *input = NULL;
    if (asked->output && stat(asked->output, &file) == 0)
        input = find_input(asked, &file);
    if (input) {
        complain("the output %s would be written over the input %s; choose another name", asked->output,
                 input);
        return false;
    }
    if (fstat(STDOUT_FILENO, &file) == 0 && S_ISREG(file.st_mode))
        input = find_input(asked, &file);
    if (!input)
        return true;
    complain("standard output goes to the input %s; send it to another file", input);
    return false;
}

int give_out(const request *asked, const char *text, size_t size)
{
    hl_err err;
    if (!asked->output) {
        say_text(text, size);
        return EXIT_READY;
    }
    if (!check_output(asked)) /* again: it may have come to be one since */
        return EXIT_WRONG_USE;
    const bool replace = asked->given[OPTION_REPLACE];
    if (hl_file_save(asked->output, text, size, replace, &err) == HL_OK) {
        note("saved");
        return EXIT_READY;
    }
    for (const option_row *row = asked->form->options; !replace && row->id != OPTION_END; row++)
        if (row->id == OPTION_REPLACE && access(asked->output, F_OK) == 0)
            snprintf(err.todo, sizeof err.todo, "choose another name for the new one, or say --replace");
    return report(&err);
}
