/* options.c - reads a command line by its table (layer: cli).
 *
 * The words before the command are read with the program's own options.  Then the form is found, and
 * the rest is read with the options of that form alone: an option that belongs elsewhere is refused,
 * never accepted and ignored. */
#include "options.h"

#include "output.h"

#include <assert.h>
#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROWS_MOST    64 /* more than any form has; a longer table stops at an assert */
#define NAME_ROOM    64
#define THREADS_MOST 256
#define WORST_MOST   100000

/* Rows of the table as getopt_long reads them. */
typedef struct parser {
    const option_row *rows[ROWS_MOST];
    struct option longs[ROWS_MOST + 1];
    char shorts[3 * ROWS_MOST + 3];
    int n;
} parser;

/* glibc looks at another '+' only after a 0 here; elsewhere 1 starts from the beginning. */
#ifdef __GLIBC__
#define FIRST_WORD 0
#else
#define FIRST_WORD 1
#endif
#define LONG_ONLY 256 /* getopt's values of options are row + LONG_ONLY */

static bool has_row(const parser *in, option_id id)
{
    for (int i = 0; i < in->n; i++)
        if (in->rows[i]->id == id)
            return true;
    return false;
}

static void add_rows(parser *to, const option_row *rows)
{
    size_t end = strlen(to->shorts);
    for (; rows && rows->id != OPTION_END; rows++) {
        if (has_row(to, rows->id))
            continue;
        assert(to->n < ROWS_MOST);
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

/* Every option that any form takes: to find out what is an option's value and what is an operand. */
static void add_all(parser *to)
{
    add_rows(to, common_options);
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++)
            add_rows(to, of->options);
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

/* ---- names of forms --------------------------------------------------------------------------- */

const command *find_command_of(const command_form *of)
{
    for (const command *row = commands; row->name; row++)
        for (const command_form *one = row->forms; one->run; one++)
            if (one == of)
                return row;
    return NULL;
}

void name_form(char *out, size_t room, const command_form *of)
{
    const command *row = of ? find_command_of(of) : NULL;
    snprintf(out, room, "%s%s%s", row ? row->name : "hammerline", of && of->name ? " " : "",
             of && of->name ? of->name : "");
}

/* ---- refusals --------------------------------------------------------------------------------- */

/* The option's name as it was typed, without dashes and value. */
static void take_bare(char *out, size_t room, const char *word)
{
    const char *start = word + strspn(word, "-");
    size_t size = strcspn(start, "=");
    size = size < room ? size : room - 1;
    memcpy(out, start, size);
    out[size] = '\0';
}

/* The option of another form that was meant: by its letter, or by its whole name. */
static const option_row *find_elsewhere(const char *bare, bool is_long)
{
    parser all = {.n = 0};
    add_all(&all);
    add_rows(&all, program_options);
    for (int i = 0; i < all.n; i++)
        if (is_long ? strcmp(all.rows[i]->name, bare) == 0 : all.rows[i]->letter == bare[0])
            return all.rows[i];
    return NULL;
}

static bool refuse_unknown(const parser *in, const char *word, const command_form *of)
{
    char bare[NAME_ROOM], name[NAME_ROOM];
    const char *names[ROWS_MOST];
    const bool is_long = strncmp(word, "--", 2) == 0;
    take_bare(bare, sizeof bare, word);
    name_form(name, sizeof name, of);
    const option_row *other = find_elsewhere(bare, is_long);
    if (other) {
        complain("%s takes no --%s; \"%s%s --help\" lists what it takes", name, other->name,
                 of ? "hammerline " : "", name);
        return false;
    }
    for (int i = 0; i < in->n; i++)
        names[i] = in->rows[i]->name;
    const char *nearest = hl_nearest_name(bare, names, in->n);
    if (nearest)
        complain("%s: unknown option \"%s\"; did you mean --%s?", name, word, nearest);
    else
        complain("%s: unknown option \"%s\"; \"%s%s --help\" lists what it takes", name, word,
                 of ? "hammerline " : "", name);
    return false;
}

/* getopt said '?' or ':'; `word` is where it was. */
static bool refuse(const parser *in, int found, const char *word, const command_form *of)
{
    const option_row *row = find_row(in, optopt);
    const bool is_long = strncmp(word, "--", 2) == 0;
    if (found == ':' && row)
        complain("--%s needs a value: --%s %s", row->name, row->name, row->value);
    else if (row && is_long)
        complain("--%s takes no value", row->name);
    else if (!is_long && optopt > ' ' && optopt < 127) {
        const char letter[3] = {'-', (char)optopt, '\0'};
        return refuse_unknown(in, letter, of);
    } else
        return refuse_unknown(in, word, of);
    return false;
}

/* ---- values ----------------------------------------------------------------------------------- */

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

static bool add_named(const char **list, int *n, int most, const option_row *row, const char *value)
{
    if (*n == most) {
        complain("--%s more than %d times; that is more than it can take", row->name, most);
        return false;
    }
    list[(*n)++] = value;
    return true;
}

/* Is it one of the words that the option takes?  *nth is which. */
static bool check_word(const option_row *row, const char *value, int *nth)
{
    char known[160] = "";
    *nth = 0;
    for (const char *word; row->word && (word = row->word(*nth)) != NULL; (*nth)++) {
        const size_t end = strlen(known);
        if (strcmp(word, value) == 0)
            return true;
        snprintf(known + end, sizeof known - end, "%s%s", end ? ", " : "", word);
    }
    if (!row->word)
        return true;
    complain(*nth == 1 ? "--%s %s: it can only be %s" : "--%s %s is none of %s", row->name, value, known);
    return false;
}

/* Where the value of an option is kept as it was written, or NULL. */
static const char **find_text(request *asked, option_id id)
{
    switch (id) {
    case OPTION_BOOK:
        return &asked->book;
    case OPTION_FORMAT:
        return &asked->format;
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

static bool take_value(request *asked, const option_row *row, const char *value)
{
    int nth = 0;
    if (!check_word(row, value, &nth))
        return false;
    const char **text = find_text(asked, row->id);
    if (text) {
        *text = value;
        return true;
    }
    switch (row->id) {
    case OPTION_RULES:
        return add_named(asked->rule_folders, &asked->n_rule_folders, RULE_FOLDERS_MOST, row, value);
    case OPTION_WITHOUT:
        return add_named(asked->without, &asked->n_without, NAMED_MOST, row, value);
    case OPTION_LINE:
        return add_named(asked->lines, &asked->n_lines, NAMED_MOST, row, value);
    case OPTION_THREADS:
        return read_whole(&asked->threads, row, value, THREADS_MOST);
    case OPTION_WORST:
        return read_whole(&asked->worst, row, value, WORST_MOST);
    case OPTION_COLOR:
        asked->color = (color_choice)nth;
        return true;
    case OPTION_RULE:
        asked->judging.rule = (hl_rule)nth;
        return true;
    default:
        return take_judging(&asked->judging, row, value);
    }
}

static bool take(request *asked, const option_row *row, const char *value)
{
    if (row->value && !row->repeats && asked->given[row->id]) {
        complain("--%s is given twice; give it once", row->name);
        return false;
    }
    asked->given[row->id] = true;
    return !row->value || take_value(asked, row, value);
}

/* getopt takes the beginning of a name for the name.  Then "--rule" would mean "--rules" where a form has
 * no --rule, and a script would mean something else once an option is added. */
static bool is_whole_name(const option_row *row, const char *typed)
{
    const char *name = typed + strspn(typed, "-");
    const size_t size = strcspn(name, "=");
    return strlen(row->name) == size && strncmp(row->name, name, size) == 0;
}

/* ---- a run of words --------------------------------------------------------------------------- */

/* Reads the options of `in`; then optind is where the operands begin.  `asked` NULL: only looks for the
 * operands, and passes over whatever is wrong. */
static bool read_run(request *asked, parser *in, const command_form *of, int argc, char **argv)
{
    opterr = 0;
    optind = FIRST_WORD;
    for (;;) {
        const int at = optind;
        const int found = getopt_long(argc, argv, in->shorts, in->longs, NULL);
        if (found == -1)
            return true;
        if (!asked)
            continue;
        if (found == '?' || found == ':') {
            /* Inside "-xyz" getopt has not moved on yet. */
            const char *word = optind > 1 && (optind > at || !argv[optind]) ? argv[optind - 1] : argv[optind];
            return refuse(in, found, word, of);
        }
        const option_row *row = find_row(in, found);
        const char *typed = argv[optind - 1] == optarg ? argv[optind - 2] : argv[optind - 1];
        if (row && found >= LONG_ONLY && !is_whole_name(row, typed))
            return refuse_unknown(in, typed, of);
        if (row && !take(asked, row, optarg))
            return false;
    }
}

/* The first operand behind the command, which names the form; NULL: there is none, or no memory.
 * getopt moves the words about, so it works on a copy. */
static const char *find_form_word(int argc, char **argv, bool *no_memory)
{
    parser all = {.n = 0, .shorts = ":"};
    char **copy = malloc(((size_t)argc + 1) * sizeof *copy);
    *no_memory = !copy;
    if (!copy)
        return NULL;
    memcpy(copy, argv, ((size_t)argc + 1) * sizeof *copy);
    add_all(&all);
    read_run(NULL, &all, NULL, argc, copy);
    const char *word = optind < argc ? copy[optind] : NULL;
    free(copy);
    return word;
}

static const command *find_command(const char *name)
{
    const char *names[ROWS_MOST];
    int n = 0;
    for (const command *row = commands; row->name; row++) {
        assert(n < ROWS_MOST);
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

static const command_form *refuse_form(const command *of, const char *word)
{
    const char *names[ROWS_MOST];
    char list[160] = "";
    int n = 0;
    for (const command_form *one = of->forms; one->run; one++) {
        const size_t end = strlen(list);
        assert(n < ROWS_MOST);
        names[n++] = one->name;
        snprintf(list + end, sizeof list - end, "%s%s", end ? ", " : "", one->name);
    }
    const char *nearest = word ? hl_nearest_name(word, names, n) : NULL;
    if (nearest)
        complain("%s has no \"%s\"; did you mean %s?", of->name, word, nearest);
    else if (word)
        complain("%s has no \"%s\"; there is %s", of->name, word, list);
    else
        complain("say which: hammerline %s FORM, one of %s", of->name, list);
    return NULL;
}

static bool check_operands(const request *asked)
{
    const command_form *of = asked->form;
    char name[NAME_ROOM];
    name_form(name, sizeof name, of);
    if (asked->n_words < of->least) {
        complain("%s needs %s: hammerline %s %s", name, of->needs, name, of->operands);
        return false;
    }
    if (of->most != ANY_NUMBER && asked->n_words > of->most) {
        if (of->most == 0)
            complain("%s takes no \"%s\": hammerline %s", name, asked->words[0], name);
        else
            complain("%s: \"%s\" is one word too many: hammerline %s %s", name, asked->words[of->most], name,
                     of->operands);
        return false;
    }
    return true;
}

/* Options that were written before the command count as the form's. */
static bool check_early(const request *asked)
{
    parser in = {.n = 0};
    char name[NAME_ROOM];
    add_rows(&in, asked->form->options);
    add_rows(&in, common_options);
    name_form(name, sizeof name, asked->form);
    for (const option_row *row = program_options; row->id != OPTION_END; row++) {
        if (!asked->given[row->id] || has_row(&in, row->id))
            continue;
        complain("%s takes no --%s; \"hammerline %s --help\" lists what it takes", name, row->name, name);
        return false;
    }
    return true;
}

static bool read_form(request *asked, const command *of, int argc, char **argv)
{
    const command_form *chosen = of->forms;
    bool no_memory = false;
    if (chosen->name) {
        const char *word = find_form_word(argc, argv, &no_memory);
        for (; word && chosen->run && strcmp(chosen->name, word) != 0; chosen++)
            ;
        if (no_memory) {
            complain("the machine has no memory left; close other programs and run it again");
            return false;
        }
        for (int i = 1; !word && i < argc; i++) {
            if (strcmp(argv[i], "--help") == 0 || strcmp(argv[i], "-h") == 0) {
                asked->given[OPTION_HELP] = true; /* of the command with all its forms */
                return true;
            }
        }
        if (!word || !chosen->run)
            return refuse_form(of, word) != NULL;
    }
    parser in = {.n = 0, .shorts = ":"};
    add_rows(&in, chosen->options);
    add_rows(&in, common_options);
    asked->form = chosen;
    if (!read_run(asked, &in, chosen, argc, argv))
        return false;
    const int skipped = chosen->name ? 1 : 0; /* the form's own name */
    asked->words = argv + optind + skipped;
    asked->n_words = argc - optind - skipped;
    /* For the help alone the operands may be missing. */
    return asked->given[OPTION_HELP] || (check_early(asked) && check_operands(asked));
}

bool read_options(request *out, int argc, char **argv)
{
    parser in = {.n = 0, .shorts = "+:"}; /* '+' stops at the first word, which is the command */
    *out = (request){.judging.sample.seed = SEED_UNSAID};
    add_rows(&in, program_options);
    if (!read_run(out, &in, NULL, argc, argv))
        return false;
    if (out->given[OPTION_VERBOSE] && !out->given[OPTION_VERSION]) {
        complain("--verbose goes with --version: hammerline --version --verbose");
        return false;
    }
    if (out->given[OPTION_VERSION] || out->given[OPTION_HELP])
        return true;
    if (optind >= argc) {
        complain("no command; \"hammerline --help\" lists them");
        return false;
    }
    const int at = optind;
    out->command = find_command(argv[at]);
    return out->command && read_form(out, out->command, argc - at, argv + at);
}
