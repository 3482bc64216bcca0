/* command_table.c - the commands and their options; help, manual pages and completions come from it
 * (layer: cli/commands). */
#include "commands.h"
#include "options.h"

const option_row common_options[] = {
    {OPTION_RULES, 0, "rules", "DIR", "look for books here first; may be given more than once"},
    {OPTION_COLOR, 0, "color", "WHEN", "auto, always or never; NO_COLOR is heeded"},
    {OPTION_HELP, 'h', "help", NULL, "tell how to use it, and stop"},
    {OPTION_VERSION, 0, "version", NULL, "tell the version, and stop"},
    {OPTION_VERBOSE, 0, "verbose", NULL, "with --version: also which walls stand around rule files here"},
    {.id = OPTION_END},
};

static const option_row audit_options[] = {
    {OPTION_BOOK, 0, "book", "BOOK", "judge by this book, whatever the sheet names; an id or a path"},
    {OPTION_RULE, 0, "rule", "RULE", "simple (the limits as they are) or guarded (the gauge reckoned with)"},
    {OPTION_SAMPLE, 0, "sample", "N", "judge by a sample of N notes of each piano; says which"},
    {OPTION_SEED, 0, "seed", "S", "draw another sample; the same number draws the same notes; else 1"},
    {OPTION_CONFIDENCE, 0, "confidence", "PCT",
     "how sure the sample's answer has to be, in percent; else 95"},
    {OPTION_AT_MOST, 0, "at-most", "K", "ready when none is known to be out, and no more than K can be"},
    {OPTION_JSON, 0, "json", NULL, "print JSON, for programs; of several sheets an array"},
    {OPTION_JSON_LINES, 0, "json-lines", NULL, "print JSON, a line a sheet"},
    {OPTION_CSV, 0, "csv", NULL, "print a table of the findings, for spreadsheets"},
    {OPTION_WORST, 0, "worst", "N", "only the N worst sheets, the worst first"},
    {OPTION_THREADS, 0, "threads", "N", "so many at once; else one a core"},
    {.id = OPTION_END},
};

static const option_row plan_options[] = {
    {OPTION_WITHOUT, 0, "without", "ADJUSTER", "leave this as it is today; may be given more than once"},
    {OPTION_REVERSIBLE, 0, "reversible", NULL, "leave out whatever can't be undone"},
    {OPTION_LINE, 0, "line", "STEP", "set the notes between samples on the line between them"},
    {OPTION_BOOK, 0, "book", "BOOK", "plan by this book, whatever the sheet names; an id or a path"},
    {OPTION_JSON, 0, "json", NULL, "print JSON, for programs"},
    {.id = OPTION_END},
};

static const option_row sheet_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "write it here; a file that exists is left alone"},
    {OPTION_PRINT, 0, "print", NULL, "new: a form for the bench instead, to print: HTML, a page a stage"},
    {OPTION_TIDY, 0, "tidy", NULL, "new: a tidy sheet, a row a reading, as the walk needs it"},
    {OPTION_TO, 0, "to", "FORM", "convert: wide or tidy; else the form that it is not"},
    {OPTION_BOOK, 0, "book", "BOOK", "read it by this book, whatever it names; an id or a path"},
    {.id = OPTION_END},
};

static const option_row report_options[] = {
    {OPTION_OUTPUT, 'o', "output", "FILE", "write it here, whole or not at all"},
    {OPTION_REPLACE, 0, "replace", NULL, "write over a file that exists"},
    {OPTION_FOR, 0, "for", "READER", "owner: one page in plain words instead"},
    {OPTION_BOOK, 0, "book", "BOOK", "judge by this book, whatever the sheet names; an id or a path"},
    {OPTION_RULE, 0, "rule", "RULE", "simple (the limits as they are) or guarded (the gauge reckoned with)"},
    {OPTION_SAMPLE, 0, "sample", "N", "judge by a sample of N notes, as audit does"},
    {OPTION_SEED, 0, "seed", "S", "which sample; else 1"},
    {OPTION_CONFIDENCE, 0, "confidence", "PCT",
     "how sure the sample's answer has to be, in percent; else 95"},
    {OPTION_AT_MOST, 0, "at-most", "K", "ready when none is known to be out, and no more than K can be"},
    {.id = OPTION_END},
};

static const option_row rules_options[] = {
    {OPTION_NOTE, 0, "note", "NOTE", "show: the target at this note, A4 or 49"},
    {.id = OPTION_END},
};

static const option_row walk_options[] = {
    {OPTION_NEW, 0, "new", "BOOK", "make the sheet first, for this book"},
    {OPTION_AGAIN, 0, "again", NULL, "begin with the second pass: what is out, stale or missing"},
    {OPTION_BY, 0, "by", "NAME", "who reads; written to each row"},
    {OPTION_BELL, 0, "bell", NULL, "ring when a reading is out"},
    {OPTION_BOOK, 0, "book", "BOOK", "judge by this book, whatever the sheet names; an id or a path"},
    {.id = OPTION_END},
};

const command commands[] = {
    {"audit", "audit [OPTION...] SHEET...", "Say whether sheets are ready, and what is not",
     "Examples:\n"
     "  hammerline audit sheets/demo-grand.csv\n"
     "  hammerline audit --book our_shop --json *.csv\n"
     "  hammerline audit --worst 10 fleet/\n"
     "  hammerline audit --rule guarded demo-grand.csv\n"
     "  hammerline audit --sample 20 --seed 7 --at-most 10 demo-grand.csv\n"
     "\n"
     "A sheet names its book in a line above the column heads: # book: grand\n"
     "Of a folder all sheets are taken (*.csv, and of the folders in it). Several sheets get a line\n"
     "each, and one table of all. A file with a column \"sheet\" holds many.\n",
     audit_options, run_audit},
    {"walk", "walk [OPTION...] SHEET", "Take the readings at the bench, in the book's order",
     "Examples:\n"
     "  hammerline walk --new grand parlour-grand.csv\n"
     "  hammerline walk parlour-grand.csv\n"
     "  hammerline walk --again --by Kim parlour-grand.csv\n"
     "\n"
     "One line a note: a number, a word, or within. Each is saved before the next is asked for;\n"
     "stop at any time and go on later. ? lists what else can be typed. Gauges that type like a\n"
     "keyboard may be used.\n",
     walk_options, run_walk},
    {"plan", "plan [OPTION...] SHEET", "Print the work list and the parts list, every note solved at once",
     "For each note it finds the fewest and smallest moves that bring every reading into its target\n"
     "at once and keep what passes, neighbours included. Then it says what can't be met, and why,\n"
     "what to read again, and what to expect.\n"
     "\n"
     "Examples:\n"
     "  hammerline plan sheets/demo-grand.csv\n"
     "  hammerline plan --without front_punching --without balance_punching demo-grand.csv\n"
     "  hammerline plan --line blow --line let_off demo-grand.csv\n"
     "\n"
     "--line STEP: regulate the samples first (the end notes of each section, or those that the sheet\n"
     "names: # samples: A0 E2) and read them. The notes between then belong on the straight line\n"
     "through their readings, no further from it than the step lets a note stand out from its\n"
     "neighbours, and inside the book's target. Notes that were not read yet are listed with theirs.\n"
     "\n"
     "A sheet that says \"# scope: inspect only\" gets no proposals.\n"
     "Here 0 means that nothing is to do, and 1 that there is work, or something still to read.\n",
     plan_options, run_plan},
    {"sheet", "sheet new|convert|history", "Blank sheets, the other form, passes side by side",
     "  new BOOK [-o FILE]            a blank sheet to fill in, a row a note\n"
     "  new BOOK --tidy -o FILE       one with a row a reading, as the walk needs it\n"
     "  convert SHEET -o FILE         a wide sheet as a tidy one, or the reverse; SHEET stays as it is\n"
     "  history SHEET NOTE [STEP]     a note's readings, pass beside pass, and the adjustments between;\n"
     "                                NOTE is C4 or 40, or \"piano\" for what is read once\n"
     "\n"
     "Examples:\n"
     "  hammerline sheet new grand -o parlour-grand.csv\n"
     "  hammerline sheet convert parlour-grand.csv -o parlour-grand-tidy.csv\n"
     "  hammerline sheet history parlour-grand-tidy.csv C4 blow\n",
     sheet_options, run_sheet},
    {"report", "report SHEET -o FILE.html", "Write the finished-job record, one file to open or print",
     "Examples:\n"
     "  hammerline report sheets/demo-grand.csv -o demo.html\n"
     "  hammerline report --for owner sheets/ready-grand.csv -o owner.html\n"
     "\n"
     "The file needs nothing else: no script, no network.  SOURCE_DATE_EPOCH sets its day.\n",
     report_options, run_report},
    {"rules", "rules list|show|check|diff", "Show, check and compare the books",
     "  list                            every book that is found, and where it stands\n"
     "  show BOOK                       its steps, adjusters, facts and diagnoses\n"
     "  show BOOK STEP [--note NOTE]    one step or adjuster in full, and where each thing was set\n"
     "  check BOOK [TESTS...]           what is wrong with it, and the tests beside it; says nothing\n"
     "                                  when all is well\n"
     "  diff BOOK BOOK                  what the second changes against the first\n"
     "\n"
     "A book is named by its id or by the path of its file.\n"
     "\n"
     "Examples:\n"
     "  hammerline rules show grand let_off --note C4\n"
     "  hammerline rules check ./our_shop.lua\n"
     "  hammerline rules diff grand our_shop\n",
     rules_options, run_rules},
    {.name = NULL},
};

const char *const exit_meanings[EXIT_NOT_SAVED + 1] = {
    "ready",
    "not ready",
    "wrong use",
    "a sheet can't be read, or has nothing to judge",
    "a rule file is at fault",
    "could not save, or out of memory",
};
