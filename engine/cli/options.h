/* options.h - one table of commands, their forms and options (layer: cli).
 *
 * A form is one way of using a command: `sheet new` and `sheet history` are two forms of `sheet`.  Each
 * form has its own operands and options.  The parser, the help, the manual pages and the completions
 * read the same table, so what one of them says the others do.  What was given lands in one plain
 * record, the request. */
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

typedef enum option_id {
    OPTION_END,
    OPTION_HELP,
    OPTION_VERSION,
    OPTION_VERBOSE,
    OPTION_RULES,
    OPTION_COLOR,
    OPTION_BOOK,
    OPTION_FORMAT,
    OPTION_JSON,
    OPTION_JSON_LINES,
    OPTION_CSV,
    OPTION_OUTPUT,
    OPTION_REPLACE,
    OPTION_TO,
    OPTION_TIDY,
    OPTION_FOR,
    OPTION_NUMBERS,
    OPTION_NOTE,
    OPTION_BY,
    OPTION_NEW,
    OPTION_AGAIN,
    OPTION_BELL,
    OPTION_WITHOUT,
    OPTION_LINE,
    OPTION_REVERSIBLE,
    OPTION_RULE,
    OPTION_SAMPLE,
    OPTION_SEED,
    OPTION_CONFIDENCE,
    OPTION_AT_MOST,
    OPTION_THREADS,
    OPTION_WORST,
    OPTIONS /* how many there are */
} option_id;

typedef struct command command;
typedef struct command_form command_form;

/* What the person asked for.  Everything is borrowed from argv. */
typedef struct request {
    const command *command;   /* NULL: the program itself */
    const command_form *form; /* NULL: the command with all its forms, for its help */
    bool given[OPTIONS];      /* which options were written */
    const char *rule_folders[RULE_FOLDERS_MOST];
    int n_rule_folders;
    color_choice color;
    const char *format;              /* a name of the table of formats; NULL: text */
    int threads;                     /* 0: one a core */
    int worst;                       /* so many sheets, the worst first; 0: all, in their order */
    hl_audit_options judging;        /* by which rule, and of how many notes */
    const char *book;                /* NULL: the sheet says */
    const char *output;              /* NULL: standard output */
    const char *reader;              /* whom a report is for; NULL: the shop */
    const char *to;                  /* the form of a converted sheet; NULL: the other one */
    const char *note;                /* NULL: along the compass */
    const char *by;                  /* who reads; NULL: not said */
    const char *create;              /* the book of a sheet to be made; NULL: it is there */
    const char *without[NAMED_MOST]; /* adjusters that stay as they are */
    int n_without;
    const char *lines[NAMED_MOST]; /* steps whose samples set the targets between them */
    int n_lines;
    char **words; /* the operands: sheets, a book's name */
    int n_words;
} request;

typedef struct option_row {
    option_id id;
    int letter;        /* 'h', or 0 when it has no short form */
    const char *name;  /* "rules" */
    const char *value; /* "DIR", or NULL when it takes none */
    const char *about;
    bool repeats;                 /* may be given more than once */
    const char *(*word)(int nth); /* the only values that it takes, NULL after the last; NULL: any */
} option_row;

struct command_form {
    const char *name;          /* "new"; NULL: the command has this one form */
    const char *operands;      /* "BOOK [STEP]"; "" for none */
    int least, most;           /* how many operands; `most` ANY_NUMBER: no limit */
    const char *needs;         /* the operands in words: "a book, and may name a step" */
    const char *about;         /* one line, with a capital and without a full stop */
    const char *more;          /* paragraphs, a blank line between; may be NULL */
    const char *examples;      /* command lines without the program's name, a line each */
    const option_row *options; /* its own, ended by OPTION_END; the common ones come on top */
    int (*run)(const request *asked);
};

#define ANY_NUMBER (-1)

struct command {
    const char *name;
    const char *about;         /* one line */
    const char *more;          /* what holds for all its forms; may be NULL */
    const command_form *forms; /* ended by a row without `run` */
};

typedef struct exit_meaning {
    int code;
    const char *meaning; /* NULL after the last */
} exit_meaning;

/* ---- the table (command_table.c) -------------------------------------------------------------- */

/* Ended by a row without a name. */
extern const command commands[];
/* Options of the program itself, before any command. */
extern const option_row program_options[];
/* Options that every form takes. */
extern const option_row common_options[];
extern const exit_meaning exit_meanings[];

/* ---- reading (options.c) ---------------------------------------------------------------------- */

/* Reads argv[1] ... by the table.  False after a complaint on stderr, which names the form.  With --help
 * or --version, whatever else is there may be unfinished. */
bool read_options(request *out, int argc, char **argv);
/* The command of a form. */
const command *find_command_of(const command_form *of);
/* "sheet history": the form as it is typed. */
void name_form(char *out, size_t room, const command_form *of);
/* judging.c: the options that say how to judge.  False after a complaint. */
bool take_judging(hl_audit_options *out, const option_row *row, const char *value);
/* Do they fit together? */
bool check_judging(const hl_audit_options *judging);

/* ---- help (help.c) ----------------------------------------------------------------------------- */

/* The help of a form, of a command with several forms, or (both NULL) of the program, 80 columns wide. */
void print_help(const command *about, const command_form *of);

#endif
