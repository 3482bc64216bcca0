/* command_table.c - the commands, their forms and options; the parser, the help, the manual pages and
 * the completions read it (layer: cli/commands). */
#include "commands.h"
#include "options.h"

/* ---- the words that some options take ---------------------------------------------------------- */

static const char *pick(const char *const *words, int n, int nth)
{
    return nth < n ? words[nth] : NULL;
}

static const char *color_word(int nth)
{
    static const char *const words[] = {"auto", "always", "never"}; /* in the order of color_choice */
    return pick(words, 3, nth);
}

static const char *rule_word(int nth)
{
    static const char *const words[] = {"simple", "guarded"}; /* in the order of hl_rule */
    return pick(words, 2, nth);
}

static const char *to_word(int nth)
{
    static const char *const words[] = {"wide", "tidy"};
    return pick(words, 2, nth);
}

static const char *reader_word(int nth)
{
    static const char *const words[] = {"owner"};
    return pick(words, 1, nth);
}

/* The table of formats is the engine's: a format that is added there is taken here. */
static const char *format_word(int nth)
{
    const hl_format *format = hl_format_at(nth);
    return format ? format->name : NULL;
}

/* ---- options of several forms ------------------------------------------------------------------ */

/* clang-format off */
#define HELP    {OPTION_HELP, 'h', "help", NULL, "say how to use it, and stop", false, NULL}
#define RULES   {OPTION_RULES, 0, "rules", "DIR", "look for books here first; may be given more than once", true, NULL}
#define COLOR   {OPTION_COLOR, 0, "color", "WHEN", "auto, always or never; NO_COLOR turns it off", false, color_word}
#define BOOK    {OPTION_BOOK, 0, "book", "BOOK", "go by this book, whatever the sheet names; an id or a path", false, NULL}
#define JUDGING \
    {OPTION_RULE, 0, "rule", "RULE", "simple: the limits as they are; guarded: narrowed by the gauge's uncertainty", false, rule_word}, \
    {OPTION_SAMPLE, 0, "sample", "N", "judge by a sample of N notes of each piano; says which", false, NULL}, \
    {OPTION_SEED, 0, "seed", "S", "with --sample: draw another one; the same number draws the same notes; else 1", false, NULL}, \
    {OPTION_CONFIDENCE, 0, "confidence", "PCT", "with --sample: how sure its answer has to be, in percent; else 95", false, NULL}, \
    {OPTION_AT_MOST, 0, "at-most", "K", "with --sample: ready when none is known to be out, and no more than K can be", false, NULL}
/* clang-format on */

const option_row program_options[] = {
    RULES,
    COLOR,
    HELP,
    {OPTION_VERSION, 0, "version", NULL, "print the version, and stop", false, NULL},
    {OPTION_VERBOSE, 0, "verbose", NULL, "with --version: also what protects this machine from rule files",
     false, NULL},
    {.id = OPTION_END},
};

const option_row common_options[] = {RULES, HELP, {.id = OPTION_END}};

static const option_row audit_options[] = {
    BOOK,
    JUDGING,
    {OPTION_FORMAT, 0, "format", "FORMAT",
     "how to print: text, json (an array of several sheets), json-lines (a line a sheet), csv, tap or junit",
     false, format_word},
    {OPTION_JSON, 0, "json", NULL, "short for --format json", false, NULL},
    {OPTION_JSON_LINES, 0, "json-lines", NULL, "short for --format json-lines", false, NULL},
    {OPTION_CSV, 0, "csv", NULL, "short for --format csv", false, NULL},
    {OPTION_WORST, 0, "worst", "N", "only the N worst sheets, the worst first", false, NULL},
    {OPTION_THREADS, 0, "threads", "N", "so many at once; else one a core", false, NULL},
    COLOR,
    {.id = OPTION_END},
};

static const option_row walk_options[] = {
    {OPTION_NEW, 0, "new", "BOOK", "make the sheet first, for this book", false, NULL},
    {OPTION_AGAIN, 0, "again", NULL, "begin with the second pass: what is out, stale or missing", false,
     NULL},
    {OPTION_BY, 0, "by", "NAME", "who reads; written to each row", false, NULL},
    {OPTION_BELL, 0, "bell", NULL, "ring when a reading is out", false, NULL},
    BOOK,
    COLOR,
    {.id = OPTION_END},
};

static const option_row why_options[] = {
    BOOK,
    {OPTION_RULE, 0, "rule", "RULE",
     "simple: the limits as they are; guarded: narrowed by the gauge's uncertainty", false, rule_word},
    COLOR,
    {.id = OPTION_END},
};

static const option_row plan_options[] = {
    {OPTION_WITHOUT, 0, "without", "ADJUSTER", "leave this as it is today; may be given more than once", true,
     NULL},
    {OPTION_REVERSIBLE, 0, "reversible", NULL, "leave out whatever can't be undone", false, NULL},
    {OPTION_LINE, 0, "line", "STEP",
     "set the notes between samples on the line between them; may be given more than once", true, NULL},
    BOOK,
    {OPTION_JSON, 0, "json", NULL, "print JSON, for programs", false, NULL},
    COLOR,
    {.id = OPTION_END},
};

static const option_row new_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "write it here; a file that exists is left alone", false, NULL},
    {OPTION_TIDY, 0, "tidy", NULL, "a row a reading, as the walk needs it", false, NULL},
    {.id = OPTION_END},
};

static const option_row form_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "write it here; a file that exists is left alone", false, NULL},
    {.id = OPTION_END},
};

static const option_row convert_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "the new sheet; a file that exists is left alone", false, NULL},
    {OPTION_TO, 0, "to", "FORM", "wide or tidy; else the form that it is not", false, to_word},
    BOOK,
    {.id = OPTION_END},
};

static const option_row history_options[] = {BOOK, {.id = OPTION_END}};

static const option_row report_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "write it here, whole or not at all; of many pianos a folder, too",
     false, NULL},
    {OPTION_REPLACE, 0, "replace", NULL, "with --output: write over a file that exists", false, NULL},
    {OPTION_FOR, 0, "for", "READER", "owner: one page in plain words instead", false, reader_word},
    {OPTION_NUMBERS, 0, "numbers", NULL, "with the numbers of every chart as tables, an annex of some pages",
     false, NULL},
    BOOK,
    JUDGING,
    {.id = OPTION_END},
};

static const option_row no_options[] = {{.id = OPTION_END}};

static const option_row show_options[] = {
    {OPTION_NOTE, 0, "note", "NOTE", "of a step or adjuster: the target at this note, A4 or 49", false, NULL},
    {.id = OPTION_END},
};

/* ---- the forms ---------------------------------------------------------------------------------- */

static const command_form audit_forms[] = {
    {.operands = "SHEET...",
     .least = 1,
     .most = ANY_NUMBER,
     .needs = "a sheet",
     .about = "Say whether sheets are ready, and what is not",
     .more =
         "A sheet names its book in a line above the column heads: # book: grand\n\n"
         "SHEET is a file, a folder, or - for standard input. Of a folder all sheets are taken (*.csv and "
         "*.tsv, and of the folders in it). Several sheets get a line each, and one table of all. A file "
         "with a column \"sheet\" holds many.",
     .examples = "audit sheets/demo-grand.csv\n"
                 "audit --book our_shop --json *.csv\n"
                 "audit --worst 10 fleet/\n"
                 "audit --rule guarded demo-grand.csv\n"
                 "audit --sample 20 --seed 7 --at-most 10 demo-grand.csv\n",
     .options = audit_options,
     .run = run_audit},
    {.run = NULL},
};

static const command_form walk_forms[] = {
    {.operands = "SHEET",
     .least = 1,
     .most = 1,
     .needs = "one sheet",
     .about = "Take the readings at the bench, in the book's order",
     .more =
         "One line a note: a number, a word, or within. Each is saved before the next is asked for; stop at "
         "any time and go on later. ? lists what else can be typed. Gauges that type like a keyboard may be "
         "used.",
     .examples = "walk --new grand parlour-grand.csv\n"
                 "walk parlour-grand.csv\n"
                 "walk --again --by Kim parlour-grand.csv\n",
     .options = walk_options,
     .run = run_walk},
    {.run = NULL},
};

static const command_form why_forms[] = {
    {.operands = "SHEET NOTE STEP",
     .least = 3,
     .most = 3,
     .needs = "a sheet, a note and a step",
     .about = "Explain one verdict: the rows behind it, the rule lines, the doubt",
     .more = "NOTE is C4 or 40, or \"piano\" for what is read once. It says what is wanted and which rule "
             "lines say so, "
             "which rows of the sheet count, what was adjusted since, how well the reading is known, and "
             "what would "
             "change the verdict.",
     .examples = "why sheets/demo-grand.csv C4 blow\n",
     .options = why_options,
     .run = run_why},
    {.run = NULL},
};

static const command_form verify_forms[] = {
    {.operands = "SHEET",
     .least = 1,
     .most = 1,
     .needs = "a sheet",
     .about = "Say whether a sheet's rows are as they were saved",
     .more =
         "Rows that \"walk\" saves have a mark in the column \"entry\": an edited cell, a missing or copied "
         "row and a sorted sheet are named by their lines, and so are facts that changed. Rows without a "
         "mark "
         "are counted. Exit 0: as saved; 1: not, or no row has a mark. A sheet that was cut off at its end, "
         "or "
         "rewritten with marks that fit, is only shown by a copy, a record or a signature kept elsewhere.",
     .examples = "verify octave.csv\n",
     .options = no_options,
     .run = run_verify},
    {.run = NULL},
};

static const command_form plan_forms[] = {
    {.operands = "SHEET",
     .least = 1,
     .most = 1,
     .needs = "one sheet",
     .about = "Print the work list and the parts list, every note solved at once",
     .more =
         "For each note it finds the fewest and smallest moves that bring every reading into its target at "
         "once and keep what passes, neighbours included. Then it says what can't be met, and why, what to "
         "read again, and what to expect.\n\n"
         "--line STEP: regulate the samples first (the end notes of each section, or those that the sheet "
         "names: # samples: A0 E2) and read them. The notes between then belong on the straight line through "
         "their readings, no further from it than the step lets a note stand out from its neighbours, and "
         "inside the book's target. Notes that were not read yet are listed with theirs.\n\n"
         "A sheet that says \"# scope: inspect only\" gets no proposals.\n\n"
         "Here 0 means that nothing is to do, and 1 that there is work, or something still to read.",
     .examples = "plan sheets/demo-grand.csv\n"
                 "plan --without front_punching --reversible demo-grand.csv\n"
                 "plan --line blow --line let_off demo-grand.csv\n",
     .options = plan_options,
     .run = run_plan},
    {.run = NULL},
};

static const command_form sheet_forms[] = {
    {.name = "new",
     .operands = "BOOK",
     .least = 1,
     .most = 1,
     .needs = "one book",
     .about = "A blank sheet to fill in, a row a note",
     .examples = "sheet new grand -o parlour-grand.csv\n"
                 "sheet new grand --tidy -o parlour-grand-tidy.csv\n",
     .options = new_options,
     .run = run_sheet_new},
    {.name = "form",
     .operands = "BOOK",
     .least = 1,
     .most = 1,
     .needs = "one book",
     .about = "A blank form for the bench, to print: HTML, a page a stage",
     .examples = "sheet form grand -o form.html\n",
     .options = form_options,
     .run = run_sheet_form},
    {.name = "convert",
     .operands = "SHEET -o FILE",
     .least = 1,
     .most = 1,
     .needs = "one sheet",
     .about = "A wide sheet as a tidy one, or the reverse; the sheet stays as it is",
     .examples = "sheet convert parlour-grand.csv -o parlour-grand-tidy.csv\n",
     .options = convert_options,
     .run = run_sheet_convert},
    {.name = "history",
     .operands = "SHEET NOTE [STEP]",
     .least = 2,
     .most = 3,
     .needs = "a sheet and a note, and may name a step",
     .about = "A note's readings, pass beside pass, and the adjustments between",
     .more = "NOTE is C4 or 40, or \"piano\" for what is read once.",
     .examples = "sheet history parlour-grand-tidy.csv C4 blow\n",
     .options = history_options,
     .run = run_sheet_history},
    {.run = NULL},
};

static const command_form report_forms[] = {
    {.operands = "SHEET...",
     .least = 1,
     .most = ANY_NUMBER,
     .needs = "at least one sheet",
     .about = "Write the finished-job record, one file to open or print",
     .more =
         "The file needs nothing else: no script, no network. SOURCE_DATE_EPOCH sets its day.\n\n"
         "Of several sheets, a folder, or a file that holds many it writes one page for all of them: which "
         "are "
         "ready, what is common, pianos by steps with the worst first. When --output names a folder, each "
         "piano gets its record there, and fleet.html leads to them.",
     .examples = "report sheets/demo-grand.csv -o demo.html\n"
                 "report --for owner sheets/ready-grand.csv -o owner.html\n"
                 "report jobs/ -o fleet.html\n"
                 "report jobs/ -o records/\n",
     .options = report_options,
     .run = run_report},
    {.run = NULL},
};

static const command_form rules_forms[] = {
    {.name = "list",
     .operands = "",
     .about = "Every book that is found, and where it is",
     .examples = "rules list\n",
     .options = no_options,
     .run = run_rules_list},
    {.name = "show",
     .operands = "BOOK [STEP]",
     .least = 1,
     .most = 2,
     .needs = "a book, and may name a step",
     .about =
         "A book's steps, adjusters, facts and diagnoses; or one step or adjuster in full, and where each "
         "thing was set",
     .examples = "rules show grand\n"
                 "rules show grand let_off --note C4\n",
     .options = show_options,
     .run = run_rules_show},
    {.name = "check",
     .operands = "BOOK [TESTS...]",
     .least = 1,
     .most = ANY_NUMBER,
     .needs = "a book",
     .about = "What is wrong with a book, with every school it may choose, and the tests beside it; or what "
              "was proved",
     .examples = "rules check ./our_shop.lua\n",
     .options = no_options,
     .run = run_rules_check},
    {.name = "diff",
     .operands = "BOOK BOOK",
     .least = 2,
     .most = 2,
     .needs = "two books",
     .about = "What the second book changes against the first",
     .examples = "rules diff grand our_shop\n",
     .options = no_options,
     .run = run_rules_diff},
    {.run = NULL},
};

const command commands[] = {
    {"audit", "Say whether sheets are ready, and what is not", NULL, audit_forms},
    {"walk", "Take the readings at the bench, in the book's order", NULL, walk_forms},
    {"why", "Explain one verdict: the rows behind it, the rule lines, the doubt", NULL, why_forms},
    {"verify", "Say whether a sheet's rows are as they were saved", NULL, verify_forms},
    {"plan", "Print the work list and the parts list, every note solved at once", NULL, plan_forms},
    {"sheet", "Blank sheets, the other form, passes side by side", NULL, sheet_forms},
    {"report", "Write the finished-job record, one file to open or print", NULL, report_forms},
    {"rules", "Show, check and compare the books", "A book is named by its id or by the path of its file.",
     rules_forms},
    {.name = NULL},
};

const exit_meaning exit_meanings[] = {
    {EXIT_READY, "ready"},
    {EXIT_NOT_READY, "not ready"},
    {EXIT_WRONG_USE, "wrong use"},
    {EXIT_BAD_SHEET, "a sheet can't be read, or has nothing to judge"},
    {EXIT_BAD_RULE, "a rule file is at fault"},
    {EXIT_NOT_SAVED, "could not save, or out of memory"},
    {130, "ended by ^C (SIGINT); in a walk every row that was confirmed is saved"},
    {143, "ended by SIGTERM; the same holds"},
    {0, NULL},
};
