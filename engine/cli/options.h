/* options.h - one table of commands and options; reading, help and hints come from it (layer: cli).
 *
 * A row of the table says what an option is called, whether it takes a value and what it is for.
 * What was given lands in one plain record. */
#ifndef HL_OPTIONS_H
#define HL_OPTIONS_H

#include "hammerline.h"

#include <stdbool.h>

/* Exit codes; the worst of a run wins, and a larger one is worse. */
enum {
    EXIT_READY = 0,
    EXIT_NOT_READY = 1,
    EXIT_WRONG_USE = 2,
    EXIT_BAD_SHEET = 3,
    EXIT_BAD_RULE = 4,
    EXIT_NOT_SAVED = 5, /* could not write, or no memory */
};

typedef enum color_choice { COLOR_AUTO, COLOR_ALWAYS, COLOR_NEVER } color_choice;

#define SEED_UNSAID       1 /* the sample drawn when nobody names a seed */
#define RULE_FOLDERS_MOST 16
#define NAMED_MOST        24 /* adjusters left out, or steps on a line */

/* What the person asked for.  Everything is borrowed from argv. */
typedef struct request {
    const char *rule_folders[RULE_FOLDERS_MOST];
    int n_rule_folders;
    color_choice color;
    bool help, version, verbose;
    bool json, json_lines, csv, tidy;
    int threads;              /* 0: one a core */
    int worst;                /* so many sheets, the worst first; 0: all, in their order */
    hl_audit_options judging; /* by which rule, and of how many notes */
    const char *book;         /* NULL: the sheet says */
    const char *output;       /* NULL: standard output */
    const char *reader;       /* whom a report is for; NULL: the shop */
    bool replace;             /* an existing report may be written over */
    bool on_paper;            /* the blank sheet as a form to print */
    const char *to;           /* the form of a converted sheet; NULL: the other one */
    const char *note;         /* NULL: along the compass */
    const char *by;           /* who reads; NULL: not said */
    const char *create;       /* the book of a sheet to be made; NULL: it is there */
    bool again, bell;
    const char *without[NAMED_MOST]; /* adjusters that stay as they are */
    int n_without;
    const char *lines[NAMED_MOST]; /* steps whose samples set the targets between them */
    int n_lines;
    bool reversible;
    char **words; /* what is left: sheets, or a book's name */
    int n_words;
} request;

typedef enum option_id {
    OPTION_END,
    OPTION_HELP,
    OPTION_VERSION,
    OPTION_VERBOSE,
    OPTION_RULES,
    OPTION_COLOR,
    OPTION_BOOK,
    OPTION_JSON,
    OPTION_OUTPUT,
    OPTION_TO,
    OPTION_TIDY,
    OPTION_FOR,
    OPTION_REPLACE,
    OPTION_PRINT,
    OPTION_NOTE,
    OPTION_BY,
    OPTION_NEW,
    OPTION_AGAIN,
    OPTION_BELL,
    OPTION_WITHOUT,
    OPTION_LINE,
    OPTION_REVERSIBLE,
    OPTION_CSV,
    OPTION_RULE,
    OPTION_SAMPLE,
    OPTION_SEED,
    OPTION_CONFIDENCE,
    OPTION_AT_MOST,
    OPTION_THREADS,
    OPTION_WORST,
    OPTION_JSON_LINES,
} option_id;

typedef struct option_row {
    option_id id;
    int letter;        /* 'h', or 0 when it has no short form */
    const char *name;  /* "rules" */
    const char *value; /* "DIR", or NULL when it takes none */
    const char *about;
} option_row;

typedef struct command {
    const char *name;
    const char *usage;         /* what follows the program's name */
    const char *about;         /* one line */
    const char *more;          /* examples and such, for its own help */
    const option_row *options; /* its own, ended by OPTION_END */
    int (*run)(const request *asked);
} command;

/* The table (command_table.c), ended by a row without a name. */
extern const command commands[];
/* Options that every command takes, ended by OPTION_END. */
extern const option_row common_options[];
/* What each exit code means, in a few words. */
extern const char *const exit_meanings[EXIT_NOT_SAVED + 1];

/* Reads argv[1] ... against the command's options and the common ones; command NULL: only the common
 * ones, and stops at the first word.  False after a complaint on stderr. */
bool read_options(request *asked, int argc, char **argv, const command *of);
void print_options(const option_row *rows);
/* judging.c: the options that say how to judge.  False after a complaint. */
bool take_judging(hl_audit_options *out, const option_row *row, const char *value);
/* Do they fit together? */
bool check_judging(const hl_audit_options *judging);

#endif
