/* main.c - the command line: finds the command, runs it, returns the exit code (layer: cli). */
#include "commands.h"
#include "hammerline.h"
#include "options.h"
#include "talk.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

const option_row common_options[] = {
    {OPTION_RULES, 0, "rules", "DIR", "look for books here first; may be given more than once"},
    {OPTION_COLOR, 0, "color", "WHEN", "auto, always or never; NO_COLOR is heeded"},
    {OPTION_HELP, 'h', "help", NULL, "tell how to use it, and stop"},
    {OPTION_VERSION, 0, "version", NULL, "tell the version, and stop"},
    {.id = OPTION_END},
};

static const option_row audit_options[] = {
    {OPTION_BOOK, 0, "book", "BOOK", "judge by this book, whatever the sheet names; an id or a path"},
    {OPTION_JSON, 0, "json", NULL, "print JSON, for programs"},
    {.id = OPTION_END},
};

static const option_row sheet_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "write it here; a file that exists is left alone"},
    {.id = OPTION_END},
};

const command commands[] = {
    {"audit", "audit [OPTION...] SHEET...", "Say whether a sheet is ready, and what is not",
     "Examples:\n"
     "  hammerline audit sheets/demo-grand.csv\n"
     "  hammerline audit --book our_shop --json *.csv\n"
     "\n"
     "A sheet names its book in a line above the column heads: # book: grand\n",
     audit_options, run_audit},
    {"sheet", "sheet new BOOK [-o FILE]", "Print a blank sheet to fill in",
     "Examples:\n"
     "  hammerline sheet new grand\n"
     "  hammerline sheet new grand -o parlour-grand.csv\n",
     sheet_options, run_sheet},
    {.name = NULL},
};

static const char exit_codes[] = "Exit codes, the worst one wins:\n"
                                 "  0  ready\n"
                                 "  1  not ready\n"
                                 "  2  wrong use\n"
                                 "  3  a sheet can't be read, or has nothing to judge\n"
                                 "  4  a rule file is at fault\n"
                                 "  5  could not save, or out of memory\n";

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
    say("\n%s", exit_codes);
    return EXIT_READY;
}

static const command *find_command(const char *name)
{
    const char *names[8];
    int n = 0;
    for (const command *row = commands; row->name; row++) {
        if (strcmp(row->name, name) == 0)
            return row;
        names[n++] = row->name;
    }
    const char *nearest = find_nearest(name, names, n);
    if (nearest)
        complain("unknown command \"%s\"; did you mean %s?", name, nearest);
    else
        complain("unknown command \"%s\"; \"hammerline --help\" lists them", name);
    return NULL;
}

static int run(int argc, char **argv)
{
    request asked = {.n_words = 0};
    if (!read_options(&asked, argc, argv, NULL))
        return EXIT_WRONG_USE;
    if (asked.version) {
        say("hammerline %s\n", HL_VERSION);
        return EXIT_READY;
    }
    if (asked.help)
        return print_help(NULL);
    if (asked.n_words == 0) {
        complain("no command; \"hammerline --help\" lists them");
        return EXIT_WRONG_USE;
    }
    const command *chosen = find_command(asked.words[0]);
    if (!chosen || !read_options(&asked, asked.n_words, asked.words, chosen))
        return EXIT_WRONG_USE;
    if (asked.version) {
        say("hammerline %s\n", HL_VERSION);
        return EXIT_READY;
    }
    return asked.help ? print_help(chosen) : chosen->run(&asked);
}

int main(int argc, char **argv)
{
    /* A file-size limit then shows as a failed write, which we report, not as a sudden end. */
    signal(SIGXFSZ, SIG_IGN);
    return finish_output(run(argc, argv));
}
