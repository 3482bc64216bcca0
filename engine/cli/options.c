/* options.c - reads a command line by its table (layer: cli). */
#include "options.h"

#include "output.h"

#include <getopt.h>
#include <stdio.h>
#include <string.h>

#define OPTIONS_MOST 24
#define THREADS_MOST 256
#define WORST_MOST   100000

/* The rows of a command and the common ones in the form that getopt_long reads. */
typedef struct parser {
    const option_row *rows[OPTIONS_MOST];
    struct option longs[OPTIONS_MOST + 1];
    char shorts[3 * OPTIONS_MOST + 3];
    int n;
} parser;

/* glibc takes another '+' to heart only after a 0 here; elsewhere 1 starts anew. */
#ifdef __GLIBC__
#define FIRST_WORD 0
#else
#define FIRST_WORD 1
#endif
#define LONG_ONLY 256 /* getopt's values of options are row + LONG_ONLY */

static void add_rows(parser *to, const option_row *rows)
{
    size_t end = strlen(to->shorts);
    for (; rows && rows->id != OPTION_END && to->n < OPTIONS_MOST; rows++) {
        to->rows[to->n] = rows;
        to->longs[to->n] = (struct option){.name = rows->name,
                                           .has_arg = rows->value ? required_argument : no_argument,
                                           .val = LONG_ONLY + to->n};
        if (rows->letter) {
            to->shorts[end++] = (char)rows->letter;
            if (rows->value)
                to->shorts[end++] = ':';
            to->shorts[end] = '\0';
        }
        to->n++;
    }
}

static const option_row *find_row(const parser *in, int found)
{
    if (found >= LONG_ONLY && found < LONG_ONLY + in->n)
        return in->rows[found - LONG_ONLY];
    for (int i = 0; i < in->n; i++)
        if (in->rows[i]->letter && in->rows[i]->letter == found)
            return in->rows[i];
    return NULL;
}

static bool refuse_unknown(const parser *in, const char *word, const char *command_name)
{
    const char *names[OPTIONS_MOST];
    char bare[64];
    for (int i = 0; i < in->n; i++)
        names[i] = in->rows[i]->name;
    const char *start = word + strspn(word, "-");
    size_t size = strcspn(start, "=");
    size = size < sizeof bare ? size : sizeof bare - 1;
    memcpy(bare, start, size);
    bare[size] = '\0';
    const char *nearest = hl_nearest_name(bare, names, in->n);
    if (nearest)
        complain("unknown option \"%s\"; did you mean --%s?", word, nearest);
    else
        complain("unknown option \"%s\"; \"hammerline%s%s --help\" lists them", word, command_name ? " " : "",
                 command_name ? command_name : "");
    return false;
}

/* getopt said '?' or ':'; `word` is where it stood. */
static bool refuse(const parser *in, int found, const char *word, const char *command_name)
{
    const option_row *row = find_row(in, optopt);
    const bool is_long = strncmp(word, "--", 2) == 0;
    if (found == ':' && row)
        complain("--%s needs a value: --%s %s", row->name, row->name, row->value);
    else if (row && is_long)
        complain("--%s takes no value", row->name);
    else if (!is_long && optopt > ' ' && optopt < 127) {
        const char letter[3] = {'-', (char)optopt, '\0'};
        return refuse_unknown(in, letter, command_name);
    } else
        return refuse_unknown(in, word, command_name);
    return false;
}

static bool read_color(request *asked, const char *value)
{
    static const char *const names[] = {"auto", "always", "never"};
    for (int i = 0; i < 3; i++) {
        if (strcmp(value, names[i]) == 0) {
            asked->color = (color_choice)i;
            return true;
        }
    }
    complain("--color %s is none of auto, always, never", value);
    return false;
}

static bool read_whole(int *out, const option_row *row, const char *value, int most)
{
    int n = 0;
    const char *c = value;
    for (; *c >= '0' && *c <= '9' && n <= most; c++)
        n = 10 * n + (*c - '0');
    if (c > value && *c == '\0' && n >= 1 && n <= most) {
        *out = n;
        return true;
    }
    complain("--%s %s is no whole number from 1 to %d; write --%s 4", row->name, value, most, row->name);
    return false;
}

static bool add_named(const char **list, int *n, const option_row *row, const char *value)
{
    if (*n == NAMED_MOST) {
        complain("--%s more than %d times", row->name, NAMED_MOST);
        return false;
    }
    list[(*n)++] = value;
    return true;
}

/* Where an option without a value is kept, or NULL. */
static bool *find_flag(request *asked, option_id id)
{
    switch (id) {
    case OPTION_HELP:
        return &asked->help;
    case OPTION_VERSION:
        return &asked->version;
    case OPTION_VERBOSE:
        return &asked->verbose;
    case OPTION_JSON:
        return &asked->json;
    case OPTION_JSON_LINES:
        return &asked->json_lines;
    case OPTION_CSV:
        return &asked->csv;
    case OPTION_REPLACE:
        return &asked->replace;
    case OPTION_PRINT:
        return &asked->on_paper;
    case OPTION_TIDY:
        return &asked->tidy;
    case OPTION_AGAIN:
        return &asked->again;
    case OPTION_BELL:
        return &asked->bell;
    case OPTION_REVERSIBLE:
        return &asked->reversible;
    default:
        return NULL;
    }
}

/* Where the value of an option is kept as it stands, or NULL. */
static const char **find_text(request *asked, option_id id)
{
    switch (id) {
    case OPTION_BOOK:
        return &asked->book;
    case OPTION_OUTPUT:
        return &asked->output;
    case OPTION_FOR:
        return &asked->reader;
    case OPTION_TO:
        return &asked->to;
    case OPTION_NOTE:
        return &asked->note;
    case OPTION_BY:
        return &asked->by;
    case OPTION_NEW:
        return &asked->create;
    default:
        return NULL;
    }
}

static bool take(request *asked, const option_row *row, const char *value)
{
    bool *flag = find_flag(asked, row->id);
    const char **text = find_text(asked, row->id);
    if (flag)
        *flag = true;
    if (text)
        *text = value;
    if (flag || text)
        return true;
    switch (row->id) {
    case OPTION_WITHOUT:
        return add_named(asked->without, &asked->n_without, row, value);
    case OPTION_LINE:
        return add_named(asked->lines, &asked->n_lines, row, value);
    case OPTION_THREADS:
        return read_whole(&asked->threads, row, value, THREADS_MOST);
    case OPTION_WORST:
        return read_whole(&asked->worst, row, value, WORST_MOST);
    case OPTION_COLOR:
        return read_color(asked, value);
    case OPTION_RULES:
        if (asked->n_rule_folders == RULE_FOLDERS_MOST) {
            complain("more than %d rule folders; put the books into fewer", RULE_FOLDERS_MOST);
            return false;
        }
        asked->rule_folders[asked->n_rule_folders++] = value;
        return true;
    default:
        return take_judging(&asked->judging, row, value);
    }
}

bool read_options(request *asked, int argc, char **argv, const command *of)
{
    parser in = {.n = 0};
    /* '+' stops at the first word, for the options before a command; ':' tells a missing value from
     * an unknown option. */
    strcpy(in.shorts, of ? ":" : "+:");
    add_rows(&in, of ? of->options : NULL);
    add_rows(&in, common_options);
    opterr = 0;
    optind = FIRST_WORD;
    for (;;) {
        const int at = optind;
        const int found = getopt_long(argc, argv, in.shorts, in.longs, NULL);
        if (found == -1)
            break;
        if (found == '?' || found == ':') {
            /* Inside "-xyz" getopt has not moved on yet. */
            const char *word = optind > 1 && (optind > at || !argv[optind]) ? argv[optind - 1] : argv[optind];
            return refuse(&in, found, word, of ? of->name : NULL);
        }
        const option_row *row = find_row(&in, found);
        if (row && !take(asked, row, optarg))
            return false;
    }
    asked->words = argv + optind;
    asked->n_words = argc - optind;
    return true;
}

void print_options(const option_row *rows)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        char head[48];
        char letter[8] = "    ";
        if (rows->letter)
            snprintf(letter, sizeof letter, "-%c, ", rows->letter);
        snprintf(head, sizeof head, "%s--%s%s%s", letter, rows->name, rows->value ? " " : "",
                 rows->value ? rows->value : "");
        say("  %-22s  %s\n", head, rows->about);
    }
}
