/* main.c - the command line: finds the command, runs it, returns the exit code (layer: cli). */
#include "confine.h"
#include "hammerline.h"
#include "options.h"
#include "output.h"
#include "streams.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static int print_help(const command *about)
{
    if (about) {
        say("Usage: hammerline %s\n\n%s.\n\n%s\n", about->usage, about->about, about->more);
        say("Options:\n");
        print_options(about->options);
    } else {
        say("Usage: hammerline COMMAND [OPTION...]\n\n");
        say("Checks the regulation of a piano action, and says what to turn, and how far.\n\nCommands:\n");
        for (const command *row = commands; row->name; row++)
            say("  %-26s  %s\n", row->usage, row->about);
        say("\nExample:\n  hammerline audit sheets/demo-grand.csv\n\n");
        say("\"hammerline COMMAND --help\" tells more about one.\n\nOptions:\n");
    }
    print_options(common_options);
    say("\nExit codes, the worst one wins:\n");
    for (int i = 0; i <= EXIT_NOT_SAVED; i++)
        say("  %d  %s\n", i, exit_meanings[i]);
    return EXIT_READY;
}

static int print_version(const request *asked)
{
    say("hammerline %s\n", HL_VERSION);
    if (asked->verbose)
        say_walls();
    return EXIT_READY;
}

static const command *find_command(const char *name)
{
    const char *names[16];
    int n = 0;
    for (const command *row = commands; row->name; row++) {
        if (strcmp(row->name, name) == 0)
            return row;
        names[n++] = row->name;
    }
    const char *nearest = hl_nearest_name(name, names, n);
    if (nearest)
        complain("unknown command \"%s\"; did you mean %s?", name, nearest);
    else
        complain("unknown command \"%s\"; \"hammerline --help\" lists them", name);
    return NULL;
}

static int run(int argc, char **argv)
{
    request asked = {.judging.sample.seed = SEED_UNSAID};
    if (!read_options(&asked, argc, argv, NULL))
        return EXIT_WRONG_USE;
    if (asked.version)
        return print_version(&asked);
    if (asked.help)
        return print_help(NULL);
    if (asked.n_words == 0) {
        complain("no command; \"hammerline --help\" lists them");
        return EXIT_WRONG_USE;
    }
    const command *chosen = find_command(asked.words[0]);
    if (!chosen || !read_options(&asked, asked.n_words, asked.words, chosen))
        return EXIT_WRONG_USE;
    if (asked.version)
        return print_version(&asked);
    return asked.help ? print_help(chosen) : chosen->run(&asked);
}

int main(int argc, char **argv)
{
    /* A file-size limit then shows as a failed write, which we report, not as a sudden end. */
    signal(SIGXFSZ, SIG_IGN);
    if (!hold_streams())
        return EXIT_NOT_SAVED;
    return finish_output(run(argc, argv));
}
