/* fields.h - every word of the rule language and every field it takes (layer: host/words).
 *
 * The one table: validation, "did you mean", hl__host_word() and rules/meta/words.lua all come
 * down to it.  The enums below are the places of a field in an entry's values. */
#ifndef HL_FIELDS_H
#define HL_FIELDS_H

#include "hammerline/book.h"

#include <stdbool.h>

typedef enum hl_rule_word {
    HL_W_STEP,
    HL_W_BOOK,
    HL_W_USE,
    HL_W_STAGE,
    HL_W_CHANGE,
    HL_W_ADJUSTER,
    HL_W_SKIP,
    HL_W_FACT,
    HL_W_FLOAT,
    HL_W_ACKNOWLEDGE,
    HL_W_CHOICE,
    HL_W_CHOOSE,
    HL_W_DIAGNOSIS,
    HL_W_SOURCE,
    HL_W_RENAMED,
    HL_W_TESTS,
    HL_W_RANGE,
    HL_W_AT_LEAST,
    HL_W_AT_MOST,
    HL_W_ABOUT,
    HL_W_BY_COLOUR,
    HL_W_ZONES,
    HL_W_GRADED,
    HL_W_BY_CHOICE,
    HL_WORDS, /* how many a rule file can call; below: tables inside tables */
    HL_W_FAULT = HL_WORDS,
    HL_W_CAUSE,
    HL_W_MOVE,
    HL_W_CASE,
    HL_W_FUNCTION, /* a target given as a function of the note */
    HL_ALL_WORDS,
} hl_rule_word;

typedef enum hl_field_type {
    HL_F_ID,       /* snake_case */
    HL_F_KEY,      /* small letters, digits and hyphens: the key of a source */
    HL_F_FAULT_ID, /* snake_case, and no reserved reading */
    HL_F_TEXT,
    HL_F_CAUTION, /* text, or false */
    HL_F_LINE,    /* text that may be empty */
    HL_F_NUMBER,
    HL_F_WHOLE,
    HL_F_BOOLEAN,
    HL_F_QUANTITY,   /* a number, or text with a unit */
    HL_F_QUANTITIES, /* a list of them */
    HL_F_ENUM,       /* one of `choices` */
    HL_F_IDS,
    HL_F_TARGET,
    HL_F_REMEDIES, /* { { "adjuster", "way" }, ... } */
    HL_F_FAULTS,
    HL_F_CAUSES,
    HL_F_MOVES,
    HL_F_READINGS,   /* { step = number or text, ... } */
    HL_F_CORRECTION, /* { "adjuster", "way", amount } */
    HL_F_OPTIONS,    /* { name = "text", ... } */
} hl_field_type;

typedef struct hl_field {
    const char *full; /* "step.id" */
    const char *name; /* "id"; "[1]": the first item without a name */
    hl_field_type type;
    bool required;
    const char *choices; /* HL_F_ENUM: separated by blanks */
    const char *help;
} hl_field;

enum {
    STEP_ID,
    STEP_TITLE,
    STEP_PLAIN,
    STEP_STAGE,
    STEP_KIND,
    STEP_UNIT,
    STEP_NEED,
    STEP_SCOPE,
    STEP_TARGET,
    STEP_RESOLUTION,
    STEP_GAUGE,
    STEP_EVEN,
    STEP_BREAKS,
    STEP_ACROSS,
    STEP_PAIR,
    STEP_FAULTS,
    STEP_FORMULA,
    STEP_MODEL,
    STEP_FIX,
    STEP_LOW_TODO,
    STEP_HIGH_TODO,
    STEP_MASKS,
    STEP_ASK,
    STEP_WHY,
    STEP_METHOD,
    STEP_GAUGE_NAME,
    STEP_CAUTION,
    STEP_SOURCE,
    STEP_UNSOURCED,
    STEP_FIELDS
};
enum { BOOK_ID, BOOK_API, BOOK_TITLE, BOOK_ABOUT, BOOK_COMPASS, BOOK_STALE_SHARE, BOOK_FIELDS };
enum { STAGE_ID, STAGE_TITLE, STAGE_CAUTION, STAGE_WHY, STAGE_FIELDS };
enum {
    ADJ_ID,
    ADJ_TITLE,
    ADJ_VERB,
    ADJ_MORE,
    ADJ_LESS,
    ADJ_UNIT,
    ADJ_FINEST,
    ADJ_SIZES,
    ADJ_REACH,
    ADJ_WHOLE,
    ADJ_IRREVERSIBLE,
    ADJ_VISIT,
    ADJ_MOVES,
    ADJ_ELSEWHERE,
    ADJ_ASSUMED,
    ADJ_SOURCE,
    ADJ_WHY,
    ADJ_FIELDS
};
enum { SKIP_ID, SKIP_WHY, SKIP_FIELDS };
enum {
    FACT_ID,
    FACT_TITLE,
    FACT_UNIT,
    FACT_VALUE,
    FACT_NATURALS,
    FACT_SHARPS,
    FACT_ASSUMED,
    FACT_SOURCE,
    FACT_WHY,
    FACT_FIELDS
};
enum { FLOAT_ID, FLOAT_WITHIN, FLOAT_FIELDS };
enum { ACK_ADJUSTER, ACK_STEP, ACK_WHY, ACK_FIELDS };
enum { CHOICE_ID, CHOICE_OPTION, CHOICE_TITLE, CHOICE_OPTIONS, CHOICE_SOURCE, CHOICE_FIELDS };
enum { CHOOSE_ID, CHOOSE_OPTION, CHOOSE_WHY, CHOOSE_FIELDS };
enum { DIAG_ID, DIAG_TITLE, DIAG_WHEN, DIAG_CAUSES, DIAG_SPREAD, DIAG_QUIET_BY, DIAG_SOURCE, DIAG_FIELDS };
enum { SOURCE_KEY, SOURCE_KIND, SOURCE_ARCHIVE, SOURCE_SUBJECT, SOURCE_DATE, SOURCE_DIFFERS, SOURCE_FIELDS };
enum { RENAMED_WAS, RENAMED_IS, RENAMED_FIELDS };
enum { COLOUR_NATURALS, COLOUR_SHARPS, COLOUR_FIELDS };
enum { FAULT_WORD, FAULT_MEANS, FAULT_FIX, FAULT_TODO, FAULT_FIELDS };
enum { CAUSE_CAUSE, CAUSE_TEST, CAUSE_TODO, CAUSE_FIELDS };
enum { MOVE_BY, MOVE_ASSUMED, MOVE_WAY, MOVE_AGAIN, MOVE_FIELDS };
enum {
    CASE_STEP,
    CASE_NOTE,
    CASE_READS,
    CASE_WITH,
    CASE_FACTS,
    CASE_WANT,
    CASE_WHY,
    CASE_FIX,
    CASE_SOURCE,
    CASE_FIELDS
};

const char *hl__word_name(hl_rule_word word);
int hl__word_n_fields(hl_rule_word word);
/* The field at place i, as `word` sees it: `change` has the step's fields, but its `why` is the
 * reason for the change, and `id` and `kind` (NULL) are not its to give. */
const hl_field *hl__word_field(hl_rule_word word, int i);
/* May this field of this word be given as by_choice { ... }? */
bool hl__field_by_choice(hl_rule_word word, const hl_field *field);
/* Place of a field by name, or -1. */
int hl__word_find(hl_rule_word word, const char *name);

#endif
