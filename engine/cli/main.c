/* main.c - the program: reads the command line, runs a form, returns the exit code (layer: cli). */
#include "confine.h"
#include "hammerline.h"
#include "options.h"
#include "output.h"
#include "streams.h"

#include <signal.h>
#include <stdio.h>

static int print_version(const request *asked)
{
    say("hammerline %s\n", HL_VERSION);
    if (asked->given[OPTION_VERBOSE])
        say_walls();
    return EXIT_READY;
}

static int run(int argc, char **argv)
{
    request asked;
    if (!read_options(&asked, argc, argv))
        return EXIT_WRONG_USE;
    if (asked.given[OPTION_VERSION])
        return print_version(&asked);
    if (!asked.given[OPTION_HELP])
        return asked.form->run(&asked);
    print_help(asked.command, asked.form);
    return EXIT_READY;
}

int main(int argc, char **argv)
{
    /* A file-size limit then shows as a failed write, which we report, not as a sudden end. */
    signal(SIGXFSZ, SIG_IGN);
    if (!hold_streams())
        return EXIT_NOT_SAVED;
    return finish_output(run(argc, argv));
}
