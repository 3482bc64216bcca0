/* fields.c - the table of words and fields (layer: host/words).  All of it is constant. */
#include "fields.h"

#include "host.h"

#include <string.h>

/* A field's name with and without its word. */
#define F(word, name) word "." name, name

#define UNITS "mm in g turn deg ratio"

static const hl_field step_fields[STEP_FIELDS] = {
    [STEP_ID] = {F("step", "id"), HL_F_ID, true, NULL, "name in sheets and formulas; also the file's name"},
    [STEP_TITLE] = {F("step", "title"), HL_F_TEXT, true, NULL, "name for people"},
    [STEP_PLAIN] = {F("step", "plain"), HL_F_TEXT, false, NULL,
                    "what it is about, in words for the owner; steps may share them"},
    [STEP_STAGE] = {F("step", "stage"), HL_F_ID, true, NULL, "the stage of the work that it belongs to"},
    [STEP_KIND] = {F("step", "kind"), HL_F_ENUM, false, "measured judged derived", "measured unless stated"},
    [STEP_UNIT] = {F("step", "unit"), HL_F_ENUM, false, UNITS, "unit of the reading; a judged step has none"},
    [STEP_NEED] = {F("step", "need"), HL_F_ENUM, false, "every samples optional", "which notes must be read"},
    [STEP_SCOPE] = {F("step", "scope"), HL_F_ENUM, false, "every naturals sharps damped sections once",
                    "which notes have it"},
    [STEP_TARGET] = {F("step", "target"), HL_F_TARGET, false, NULL,
                     "what a reading must be, or a function of the note"},
    [STEP_RESOLUTION] = {F("step", "resolution"), HL_F_QUANTITY, false, NULL, "what a person reads to"},
    [STEP_GAUGE] = {F("step", "gauge"), HL_F_QUANTITY, false, NULL, "uncertainty of one reading"},
    [STEP_EVEN] = {F("step", "even"), HL_F_QUANTITY, false, NULL,
                   "how far a note may stand out from its neighbours"},
    [STEP_BREAKS] = {F("step", "breaks"), HL_F_BOOLEAN, false, NULL,
                     "evenness stops at section breaks; true unless stated"},
    [STEP_ACROSS] = {F("step", "across"), HL_F_ENUM, false, "colours",
                     "evenness compares naturals and sharps alike"},
    [STEP_PAIR] = {F("step", "pair"), HL_F_ID, false, NULL,
                   "the step that is read at the same visit to a note"},
    [STEP_FAULTS] = {F("step", "faults"), HL_F_FAULTS, false, NULL, "the words of a judged step"},
    [STEP_FORMULA] = {F("step", "formula"), HL_F_TEXT, false, NULL, "what a derived step is computed from"},
    [STEP_MODEL] = {F("step", "model"), HL_F_TEXT, false, NULL, "what a measured step should come to"},
    [STEP_FIX] = {F("step", "fix"), HL_F_IDS, false, NULL, "adjusters that correct it, the first one first"},
    [STEP_LOW_TODO] = {F("step", "low_todo"), HL_F_TEXT, false, NULL,
                       "what to do about a low reading, instead of an adjuster"},
    [STEP_HIGH_TODO] = {F("step", "high_todo"), HL_F_TEXT, false, NULL,
                        "what to do about a high reading, instead of an adjuster"},
    [STEP_MASKS] = {F("step", "masks"), HL_F_IDS, false, NULL,
                    "steps whose readings mean nothing while this one is wrong"},
    [STEP_ASK] = {F("step", "ask"), HL_F_TEXT, true, NULL, "how to measure it"},
    [STEP_WHY] = {F("step", "why"), HL_F_TEXT, true, NULL, "what goes wrong without it"},
    [STEP_METHOD] = {F("step", "method"), HL_F_TEXT, false, NULL, "the usual method or gauge"},
    [STEP_GAUGE_NAME] = {F("step", "gauge_name"), HL_F_TEXT, false, NULL,
                         "the go/no-go gauge that 'within' refers to"},
    [STEP_CAUTION] = {F("step", "caution"), HL_F_TEXT, false, NULL, "what can be damaged"},
    [STEP_SOURCE] = {F("step", "source"), HL_F_TEXT, false, NULL, "where the figures come from"},
    [STEP_UNSOURCED] = {F("step", "unsourced"), HL_F_BOOLEAN, false, NULL, "no published figure exists"},
};
/* What `change` calls differently. */
static const hl_field change_step = {F("change", "[1]"), HL_F_ID, true, NULL, "the step to change"};
static const hl_field change_caution = {F("change", "caution"), HL_F_CAUTION, false, NULL,
                                        "what can be damaged besides; false, with why: no caution"};
static const hl_field change_why = {F("change", "why"), HL_F_TEXT, false, NULL, "the reason for the change"};

/* The step's fields as `change` names them, in the order of the enum; NULL: not its to give. */
static const char *const change_names[STEP_FIELDS] = {
    "change.[1]",        "change.title",   "change.plain",  "change.stage",     NULL,
    "change.unit",       "change.need",    "change.scope",  "change.target",    "change.resolution",
    "change.gauge",      "change.even",    "change.breaks", "change.across",    "change.pair",
    "change.faults",     "change.formula", "change.model",  "change.fix",       "change.low_todo",
    "change.high_todo",  "change.masks",   "change.ask",    "change.why",       "change.method",
    "change.gauge_name", "change.caution", "change.source", "change.unsourced",
};

static const hl_field book_fields[BOOK_FIELDS] = {
    [BOOK_ID] = {F("book", "id"), HL_F_ID, true, NULL, "the book's name; also the file's name"},
    [BOOK_API] = {F("book", "api"), HL_F_WHOLE, true, NULL, "version of the rule language: 1"},
    [BOOK_TITLE] = {F("book", "title"), HL_F_TEXT, true, NULL, "name for people"},
    [BOOK_ABOUT] = {F("book", "about"), HL_F_TEXT, false, NULL, "what the book is for"},
    [BOOK_COMPASS] = {F("book", "compass"), HL_F_TEXT, false, NULL, "lowest and highest note: \"A0-C8\""},
    [BOOK_STALE_SHARE] = {F("book", "stale_share"), HL_F_NUMBER, false, NULL,
                          "share of half the target's width that a shift may use before a reading is stale"},
};
static const hl_field use_fields[] = {
    {F("use", "[1]"), HL_F_TEXT, true, NULL, "a step file or a book, without .lua"}};
static const hl_field stage_fields[STAGE_FIELDS] = {
    [STAGE_ID] = {F("stage", "[1]"), HL_F_ID, true, NULL, "the stage's name"},
    [STAGE_TITLE] = {F("stage", "title"), HL_F_TEXT, false, NULL, "name for people"},
    [STAGE_CAUTION] = {F("stage", "caution"), HL_F_CAUTION, false, NULL,
                       "shown before the stage's work; false, with why: none"},
    [STAGE_WHY] = {F("stage", "why"), HL_F_TEXT, false, NULL, "the reason why a caution is taken away"},
};
static const hl_field adjuster_fields[ADJ_FIELDS] = {
    [ADJ_ID] = {F("adjuster", "[1]"), HL_F_ID, true, NULL, "the adjuster's name"},
    [ADJ_TITLE] = {F("adjuster", "title"), HL_F_TEXT, false, NULL, "name for people"},
    [ADJ_VERB] = {F("adjuster", "verb"), HL_F_TEXT, false, NULL,
                  "turn, bend; absent when the way is itself the verb"},
    [ADJ_MORE] = {F("adjuster", "more"), HL_F_TEXT, false, NULL, "the way that `moves` speaks of: \"raise\""},
    [ADJ_LESS] = {F("adjuster", "less"), HL_F_TEXT, false, NULL, "the other way: \"lower\""},
    [ADJ_UNIT] = {F("adjuster", "unit"), HL_F_ENUM, false, "turn mm g step",
                  "unit of the amount; absent: by judgement"},
    [ADJ_FINEST] = {F("adjuster", "finest"), HL_F_QUANTITY, false, NULL, "smallest useful move"},
    [ADJ_SIZES] = {F("adjuster", "sizes"), HL_F_QUANTITIES, false, NULL, "the pieces in the box"},
    [ADJ_REACH] = {F("adjuster", "reach"), HL_F_QUANTITY, false, NULL,
                   "most that it can do from where it is"},
    [ADJ_WHOLE] = {F("adjuster", "whole"), HL_F_BOOLEAN, false, NULL,
                   "moves the whole instrument, not one note"},
    [ADJ_IRREVERSIBLE] = {F("adjuster", "irreversible"), HL_F_BOOLEAN, false, NULL, "can't be taken back"},
    [ADJ_VISIT] = {F("adjuster", "visit"), HL_F_TEXT, false, NULL,
                   "where the work is done: in the piano, bench, stack off, action out"},
    [ADJ_MOVES] = {F("adjuster", "moves"), HL_F_MOVES, false, NULL,
                   "what one unit of `more` does to each step's reading"},
    [ADJ_ELSEWHERE] = {F("adjuster", "elsewhere"), HL_F_IDS, false, NULL,
                       "steps in `moves` that this book may not have"},
    [ADJ_ASSUMED] = {F("adjuster", "assumed"), HL_F_BOOLEAN, false, NULL,
                     "its moves have no published figure"},
    [ADJ_SOURCE] = {F("adjuster", "source"), HL_F_TEXT, false, NULL, "where the figures come from"},
    [ADJ_WHY] = {F("adjuster", "why"), HL_F_TEXT, false, NULL, "the reason for these figures"},
};
static const hl_field skip_fields[SKIP_FIELDS] = {
    [SKIP_ID] = {F("skip", "[1]"), HL_F_ID, true, NULL, "the step to leave out"},
    [SKIP_WHY] = {F("skip", "why"), HL_F_TEXT, true, NULL, "the reason; it stays in the record"},
};
static const hl_field fact_fields[FACT_FIELDS] = {
    [FACT_ID] = {F("fact", "[1]"), HL_F_ID, true, NULL, "the fact's name"},
    [FACT_TITLE] = {F("fact", "title"), HL_F_TEXT, false, NULL, "name for people"},
    [FACT_UNIT] = {F("fact", "unit"), HL_F_TEXT, false, NULL, "mm, g, ratio, mm/turn"},
    [FACT_VALUE] = {F("fact", "value"), HL_F_NUMBER, false, NULL,
                    "the default for both colours; absent: the sheet must state it"},
    [FACT_NATURALS] = {F("fact", "naturals"), HL_F_NUMBER, false, NULL, "the default for naturals"},
    [FACT_SHARPS] = {F("fact", "sharps"), HL_F_NUMBER, false, NULL, "the default for sharps"},
    [FACT_ASSUMED] = {F("fact", "assumed"), HL_F_BOOLEAN, false, NULL, "no published figure exists"},
    [FACT_SOURCE] = {F("fact", "source"), HL_F_TEXT, false, NULL, "where the figure comes from"},
    [FACT_WHY] = {F("fact", "why"), HL_F_TEXT, false, NULL, "the reason for this figure"},
};
static const hl_field float_fields[FLOAT_FIELDS] = {
    [FLOAT_ID] = {F("float", "[1]"), HL_F_ID, true, NULL, "the step that gives way"},
    [FLOAT_WITHIN] = {F("float", "within"), HL_F_QUANTITY, true, NULL, "how far"},
};
static const hl_field acknowledge_fields[ACK_FIELDS] = {
    [ACK_ADJUSTER] = {F("acknowledge", "[1]"), HL_F_ID, true, NULL, "the adjuster"},
    [ACK_STEP] = {F("acknowledge", "[2]"), HL_F_ID, true, NULL, "the earlier step that it disturbs"},
    [ACK_WHY] = {F("acknowledge", "why"), HL_F_TEXT, true, NULL, "why that is accepted"},
};
static const hl_field choice_fields[CHOICE_FIELDS] = {
    [CHOICE_ID] = {F("choice", "[1]"), HL_F_ID, true, NULL, "the choice's name"},
    [CHOICE_OPTION] = {F("choice", "[2]"), HL_F_ID, true, NULL,
                       "the option that holds unless a book chooses"},
    [CHOICE_TITLE] = {F("choice", "title"), HL_F_TEXT, true, NULL, "how the audit's sentence begins"},
    [CHOICE_OPTIONS] = {F("choice", "options"), HL_F_OPTIONS, true, NULL,
                        "the schools, each with the end of that sentence"},
    [CHOICE_SOURCE] = {F("choice", "source"), HL_F_TEXT, false, NULL, "who holds which"},
};
static const hl_field choose_fields[CHOOSE_FIELDS] = {
    [CHOOSE_ID] = {F("choose", "[1]"), HL_F_ID, true, NULL, "the choice"},
    [CHOOSE_OPTION] = {F("choose", "[2]"), HL_F_ID, true, NULL, "one of its options"},
    [CHOOSE_WHY] = {F("choose", "why"), HL_F_TEXT, false, NULL, "the reason"},
};
static const hl_field by_choice_fields[] = {
    {F("by_choice", "[1]"), HL_F_ID, true, NULL, "the choice; the rest is named like its options"}};
static const hl_field diagnosis_fields[DIAG_FIELDS] = {
    [DIAG_ID] = {F("diagnosis", "[1]"), HL_F_ID, true, NULL, "the diagnosis's name"},
    [DIAG_TITLE] = {F("diagnosis", "title"), HL_F_TEXT, true, NULL, "what is seen"},
    [DIAG_WHEN] = {F("diagnosis", "when"), HL_F_TEXT, true, NULL, "a condition over steps and facts"},
    [DIAG_CAUSES] = {F("diagnosis", "causes"), HL_F_CAUSES, true, NULL, "causes in the order to check them"},
    [DIAG_SPREAD] = {F("diagnosis", "spread"), HL_F_ENUM, false, "note wide",
                     "reported at each note, or once when it holds at most notes"},
    [DIAG_QUIET_BY] = {F("diagnosis", "quiet_by"), HL_F_ID, false, NULL,
                       "the diagnosis that silences this one"},
    [DIAG_SOURCE] = {F("diagnosis", "source"), HL_F_TEXT, false, NULL, "where it comes from"},
};
static const hl_field source_fields[SOURCE_FIELDS] = {
    [SOURCE_KEY] = {F("source", "[1]"), HL_F_KEY, true, NULL, "the key that rules, tests and documents cite"},
    [SOURCE_KIND] = {F("source", "kind"), HL_F_ENUM, true,
                     "published page message practice memory arithmetic geometry standard own",
                     "what sort of source it is"},
    [SOURCE_ARCHIVE] = {F("source", "archive"), HL_F_TEXT, false, NULL,
                        "the publication, archive or standard"},
    [SOURCE_SUBJECT] = {F("source", "subject"), HL_F_TEXT, true, NULL, "what it says, in a few words"},
    [SOURCE_DATE] = {F("source", "date"), HL_F_TEXT, false, NULL, "when: a year, a month and year, undated"},
    [SOURCE_DIFFERS] = {F("source", "differs"), HL_F_TEXT, false, NULL,
                        "the keys of those who say otherwise"},
};
static const hl_field renamed_fields[RENAMED_FIELDS] = {
    [RENAMED_WAS] = {F("renamed", "[1]"), HL_F_ID, true, NULL, "the name of before"},
    [RENAMED_IS] = {F("renamed", "[2]"), HL_F_ID, true, NULL, "the name of the step, adjuster or fact now"},
};
static const hl_field tests_fields[] = {{F("tests", "[1]"), HL_F_TEXT, true, NULL, "the book to test"}};
static const hl_field colour_fields[COLOUR_FIELDS] = {
    [COLOUR_NATURALS] = {F("by_colour", "naturals"), HL_F_TARGET, true, NULL, "target of the naturals"},
    [COLOUR_SHARPS] = {F("by_colour", "sharps"), HL_F_TARGET, true, NULL, "target of the sharps"},
};
static const hl_field fault_fields[FAULT_FIELDS] = {
    [FAULT_WORD] = {F("fault", "[1]"), HL_F_FAULT_ID, true, NULL, "the word as written into a sheet"},
    [FAULT_MEANS] = {F("fault", "means"), HL_F_TEXT, false, NULL, "what it looks, feels or sounds like"},
    [FAULT_FIX] = {F("fault", "fix"), HL_F_REMEDIES, false, NULL, "ways out: { { \"adjuster\", \"way\" } }"},
    [FAULT_TODO] = {F("fault", "todo"), HL_F_TEXT, false, NULL,
                    "what to do, in words: beside `fix`, or without one"},
};
static const hl_field cause_fields[CAUSE_FIELDS] = {
    [CAUSE_CAUSE] = {F("cause", "[1]"), HL_F_TEXT, true, NULL, "the cause"},
    [CAUSE_TEST] = {F("cause", "test"), HL_F_TEXT, false, NULL, "the quick test that tells it apart"},
    [CAUSE_TODO] = {F("cause", "todo"), HL_F_TEXT, false, NULL, "what to do about it"},
};
static const hl_field move_fields[MOVE_FIELDS] = {
    [MOVE_BY] = {F("move", "[1]"), HL_F_QUANTITY, true, NULL, "a number or a formula over facts"},
    [MOVE_ASSUMED] = {F("move", "assumed"), HL_F_BOOLEAN, false, NULL, "no published figure exists"},
    [MOVE_WAY] = {F("move", "way"), HL_F_ENUM, false, "up down",
                  "which way the reading goes while a fact of the formula is not stated"},
    [MOVE_AGAIN] = {F("move", "again"), HL_F_BOOLEAN, false, NULL,
                    "the way is sure, the size is a guess: read the step again after any move"},
};
static const hl_field case_fields[CASE_FIELDS] = {
    [CASE_STEP] = {F("case", "[1]"), HL_F_ID, true, NULL, "the step that is read"},
    [CASE_NOTE] = {F("case", "[2]"), HL_F_LINE, true, NULL, "the note; \"\" or \"once\" for the instrument"},
    [CASE_READS] = {F("case", "reads"), HL_F_QUANTITY, false, NULL,
                    "the reading as typed; absent: nothing was read"},
    [CASE_WITH] = {F("case", "with"), HL_F_READINGS, false, NULL, "other readings of the note"},
    [CASE_FACTS] = {F("case", "facts"), HL_F_READINGS, false, NULL, "facts that the sheet states"},
    [CASE_WANT] = {F("case", "want"), HL_F_TEXT, true, NULL, "the verdict expected"},
    [CASE_WHY] = {F("case", "why"), HL_F_TEXT, false, NULL, "low, high, uneven or the fault word"},
    [CASE_FIX] = {F("case", "fix"), HL_F_CORRECTION, false, NULL,
                  "the first correction: { \"adjuster\", \"way\", amount }"},
    [CASE_SOURCE] = {F("case", "source"), HL_F_TEXT, false, NULL, "where the expectation comes from"},
};

static const struct {
    const char *name;
    const hl_field *fields;
    int n;
} words[HL_ALL_WORDS] = {
    [HL_W_STEP] = {"step", step_fields, STEP_FIELDS},
    [HL_W_BOOK] = {"book", book_fields, BOOK_FIELDS},
    [HL_W_USE] = {"use", use_fields, 1},
    [HL_W_STAGE] = {"stage", stage_fields, STAGE_FIELDS},
    [HL_W_CHANGE] = {"change", step_fields, STEP_FIELDS},
    [HL_W_ADJUSTER] = {"adjuster", adjuster_fields, ADJ_FIELDS},
    [HL_W_SKIP] = {"skip", skip_fields, SKIP_FIELDS},
    [HL_W_FACT] = {"fact", fact_fields, FACT_FIELDS},
    [HL_W_FLOAT] = {"float", float_fields, FLOAT_FIELDS},
    [HL_W_ACKNOWLEDGE] = {"acknowledge", acknowledge_fields, ACK_FIELDS},
    [HL_W_CHOICE] = {"choice", choice_fields, CHOICE_FIELDS},
    [HL_W_CHOOSE] = {"choose", choose_fields, CHOOSE_FIELDS},
    [HL_W_DIAGNOSIS] = {"diagnosis", diagnosis_fields, DIAG_FIELDS},
    [HL_W_SOURCE] = {"source", source_fields, SOURCE_FIELDS},
    [HL_W_RENAMED] = {"renamed", renamed_fields, RENAMED_FIELDS},
    [HL_W_TESTS] = {"tests", tests_fields, 1},
    [HL_W_RANGE] = {"range", NULL, 0},
    [HL_W_AT_LEAST] = {"at_least", NULL, 0},
    [HL_W_AT_MOST] = {"at_most", NULL, 0},
    [HL_W_ABOUT] = {"about", NULL, 0},
    [HL_W_BY_COLOUR] = {"by_colour", colour_fields, COLOUR_FIELDS},
    [HL_W_ZONES] = {"zones", NULL, 0},
    [HL_W_GRADED] = {"graded", NULL, 0},
    [HL_W_BY_CHOICE] = {"by_choice", by_choice_fields, 1},
    [HL_W_FAULT] = {"fault", fault_fields, FAULT_FIELDS},
    [HL_W_CAUSE] = {"cause", cause_fields, CAUSE_FIELDS},
    [HL_W_MOVE] = {"move", move_fields, MOVE_FIELDS},
    [HL_W_CASE] = {"case", case_fields, CASE_FIELDS},
    [HL_W_FUNCTION] = {"function", NULL, 0},
};

const char *hl__word_name(hl_rule_word word)
{
    return words[word].name;
}

int hl__word_n_fields(hl_rule_word word)
{
    return words[word].n;
}

const hl_field *hl__word_field(hl_rule_word word, int i)
{
    if (i < 0 || i >= words[word].n)
        return NULL;
    if (word == HL_W_CHANGE && i == STEP_ID)
        return &change_step;
    if (word == HL_W_CHANGE && i == STEP_WHY)
        return &change_why;
    if (word == HL_W_CHANGE && i == STEP_CAUTION)
        return &change_caution;
    if (word == HL_W_CHANGE && i == STEP_KIND)
        return NULL;
    return &words[word].fields[i];
}

bool hl__field_by_choice(hl_rule_word word, const hl_field *field)
{
    static const char *const names[] = {"target", "model", "formula", "faults", "ask", "why", "method"};
    if (word != HL_W_STEP && (word != HL_W_CHANGE || field == &change_why))
        return false;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (strcmp(field->name, names[i]) == 0)
            return true;
    }
    return false;
}

int hl__word_find(hl_rule_word word, const char *name)
{
    for (int i = 0; i < words[word].n; i++) {
        const hl_field *field = hl__word_field(word, i);
        if (field != NULL && strcmp(field->name, name) == 0)
            return i;
    }
    return -1;
}

const char *hl__host_word(int i)
{
    return i >= 0 && i < HL_WORDS ? words[i].name : NULL;
}

const char *hl__host_field(int i)
{
    if (i < 0)
        return NULL;
    for (int word = 0; word < HL_ALL_WORDS; word++) {
        if (word == HL_W_USE || word == HL_W_TESTS)
            continue; /* they take a name, not a table */
        for (int k = 0; k < words[word].n; k++) {
            const char *name = word == HL_W_CHANGE ? change_names[k] : words[word].fields[k].full;
            if (name != NULL && i-- == 0)
                return name;
        }
    }
    return NULL;
}
