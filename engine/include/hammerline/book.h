/* hammerline/book.h - books of rules: what they hold, how they are opened, checked and tested. */
#ifndef HAMMERLINE_BOOK_H
#define HAMMERLINE_BOOK_H

#include "base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what a book holds ------------------------------------------------------------------- */

typedef struct hl_formula hl_formula;
typedef struct hl_book hl_book;
typedef struct hl_rule_tests hl_rule_tests;

typedef struct hl_origin {
    const char *file; /* as shown to people, relative to its rules folder where possible */
    int line;
} hl_origin;

/* One thing that a later entry of a book replaced. */
typedef struct hl_change {
    const char *field;
    const char *why; /* "" when the entry gave none */
    hl_origin origin;
    bool chosen; /* by a `choose`, which took another option of a by_choice */
} hl_change;

typedef enum hl_kind { HL_MEASURED, HL_JUDGED, HL_DERIVED } hl_kind;
typedef enum hl_need { HL_NEED_EVERY, HL_NEED_SAMPLES, HL_NEED_OPTIONAL } hl_need;
typedef enum hl_scope {
    HL_EVERY_NOTE,
    HL_NATURALS,
    HL_SHARPS,
    HL_DAMPED,   /* notes that have a damper: the sheet's fact `dampers`, else every note */
    HL_SECTIONS, /* one reading in each section is enough */
    HL_ONCE,     /* once for the instrument; its note is 0 */
} hl_scope;

typedef struct hl_target {
    hl_amount low, aim, high;
    bool has_low, has_high; /* neither: read for information, any value passes */
} hl_target;

/* A way out of a fault: which adjuster, and which way (more = true).  `adjuster` is an index. */
typedef struct hl_remedy {
    int adjuster;
    bool more;
} hl_remedy;

/* A fault word of a judged step. */
typedef struct hl_word {
    const char *word;
    const char *means; /* what it looks, feels or sounds like */
    const char *todo;  /* what to do, when no adjuster says it; "" otherwise */
    const hl_remedy *remedies;
    int n_remedies;
} hl_word;

typedef struct hl_step {
    const char *id, *title;
    const char *plain; /* what an owner knows it by; steps may share it; "" when not given */
    int stage;         /* index into the book's stages */
    hl_unit unit;
    hl_kind kind;
    hl_need need;
    hl_scope scope;
    hl_amount resolution; /* what a person reads to; formulas round to it */
    hl_amount gauge;      /* uncertainty of a reading; 0 = not stated */
    hl_amount even;       /* how far a note may stand out from its neighbours; 0 = not asked */
    bool breaks;          /* evenness and sample lines stop at section breaks */
    bool across_colours;  /* evenness compares naturals and sharps alike, as hammers have no colour */
    int pair;             /* the step read at the same visit to a note, which names this one; -1 = none */
    const char *ask, *why, *source, *caution, *method; /* "" when not given */
    bool unsourced;         /* no published figure exists; the target is common practice */
    const char *gauge_name; /* the go/no-go gauge that `within` refers to; "" = any */
    const hl_word *words;   /* faults; `ok` is not listed */
    int n_words;
    const hl_formula *formula; /* derived: its definition; measured: its model, or NULL */
    const int *fixes;          /* adjuster indices, the first one first */
    int n_fixes;
    const char *low_todo, *high_todo; /* what to do about that side, instead of an adjuster; "" otherwise */
    const int *masks;                 /* steps whose readings mean nothing while this one is wrong */
    int n_masks;
    const char *skipped;      /* why the book leaves it out, or NULL */
    const hl_target *targets; /* [HL_PITCHES + 1]; the last is the instrument's */
    const hl_change *changes; /* in the order they were laid over the step */
    int n_changes;
    hl_origin origin;
} hl_step;

typedef enum hl_move_kind { HL_MOVE_BY, HL_MOVE_STRONG, HL_MOVE_SLIGHT } hl_move_kind;

/* What one unit of an adjuster, in its `more` direction, does to a step's reading. */
typedef struct hl_move {
    int step;
    hl_move_kind kind;
    int sign; /* HL_MOVE_STRONG, or a formula whose facts are not stated: the reading goes up (1) or
                 down (-1); 0 = not known */
    const hl_formula *formula; /* HL_MOVE_BY: step units per adjuster unit, over facts */
    bool assumed;
    bool again; /* HL_MOVE_BY: the size is a guess, so the step is read again after any move */
    hl_origin origin;
} hl_move;

typedef struct hl_adjuster {
    const char *id, *title;
    const char *verb;        /* "turn", "bend"; "" when the way is itself the verb */
    const char *more, *less; /* "raise", "lower" */
    hl_unit unit;            /* HL_NO_UNIT: by judgement, no amount */
    hl_amount finest;        /* smallest useful move; 0 when sizes say it */
    const hl_amount *sizes;  /* pieces in the box, ascending, or NULL */
    int n_sizes;
    hl_amount reach; /* most that it can do from where it stands; 0 = not stated */
    bool whole;      /* moves the whole instrument (rest rail, glides), not one note */
    bool irreversible;
    const char *visit;    /* "in the piano", "bench", "stack off", "action out", "under the piano" */
    const hl_move *moves; /* steps that are derived or have a model are not listed */
    int n_moves;
    bool assumed;
    const char *source, *why;
    const hl_change *changes;
    int n_changes;
    hl_origin origin;
} hl_adjuster;

typedef struct hl_fact {
    const char *id, *title, *unit; /* unit as text: "mm", "mm/turn", "ratio" */
    bool has_value;
    double value[2]; /* in base units; [0] naturals, [1] sharps */
    bool assumed;
    const char *source, *why;
    hl_origin origin;
} hl_fact;

typedef struct hl_stage {
    const char *id, *title, *caution; /* caution: shown before the stage's work, or "" */
    hl_origin origin;
} hl_stage;

/* A cause of a diagnosis and the quick test that tells it from the others. */
typedef struct hl_cause {
    const char *cause, *test, *todo;
} hl_cause;

typedef enum hl_spread {
    HL_SPREAD_NOTE, /* told of each note at which the condition holds */
    HL_SPREAD_WIDE, /* told once of the instrument, when it holds at most notes */
} hl_spread;

/* Several steps read together, and what may lie behind them. */
typedef struct hl_diagnosis {
    const char *id, *title;
    const hl_formula *when; /* a condition */
    const hl_cause *causes; /* in the order to check */
    int n_causes;
    hl_spread spread;
    int quiet_by; /* the diagnosis that, where it is told, silences this one; -1 = none */
    const char *source;
    hl_origin origin;
} hl_diagnosis;

/* A school: a question that the trade answers in more than one way, and this book's answer.  `title`
 * and `text` make a sentence: "aftertouch is counted" "from the jack's escape". */
typedef struct hl_option {
    const char *name, *text;
} hl_option;
typedef struct hl_chosen {
    const char *id, *title;
    const hl_option *options;
    int n_options, option; /* the one that holds */
    int uses;              /* fields of this book's steps that go by it */
    const char *source;
    const hl_change *changes;
    int n_changes;
    hl_origin origin;
} hl_chosen;

/* An entry of the register of sources.  What cites one, the `source` of a step, adjuster, fact, choice,
 * diagnosis or test case, is a list "key: remark; key"; a shop's book may write free text instead. */
typedef struct hl_source {
    const char *key;
    const char *kind; /* published, page, message, practice, memory, arithmetic, geometry, standard or own */
    const char *archive, *subject, *date; /* "" when not given; the subject always is */
    const char *differs;                  /* who says otherwise, or "" */
    hl_origin origin;
} hl_source;

/* ---- lists of errors --------------------------------------------------------------------- */

/* What is wrong with a book: each a hl_err with file and line.  Start as {0}. */
typedef struct hl_complaints {
    hl_err *items;
    size_t n, room;
} hl_complaints;
void hl_complaints_free(hl_complaints *complaints);

/* A step, adjuster or fact that had another name: sheets and books that use it are read for ever. */
typedef struct hl_renamed {
    const char *was, *is;
} hl_renamed;

/* ---- books ------------------------------------------------------------------------------- */

/* Where rule files are looked for, and how much a strange one may use.  Zero = the default. */
typedef struct hl_shelf {
    const char *const *folders; /* searched in order */
    int n_folders;
    size_t memory;  /* bytes for the whole Lua state of a book; default 16 MiB */
    long steps;     /* VM instructions per call; default 2,000,000 */
    double seconds; /* backstop per call; default 1.0 */
} hl_shelf;

/* Open the book `name`: an id looked for in the shelf's folders, or, when it holds a '/' or ends
 * in ".lua", a path.  Lua runs here and is closed before this returns. */
hl_code hl_book_open(hl_book **out, const char *name, const hl_shelf *shelf, hl_err *err);
/* The same for who mends the book: on HL_E_RULE `all` holds everything that is found wrong with its files, in
 * the order of the book, at most HL_BOOK_ERRORS_MOST and one; `err` is the first.  What follows from another
 * error is left out.  Needs hl_complaints_free() whatever is returned. */
#define HL_BOOK_ERRORS_MOST 50
hl_code hl_book_open_all(hl_book **out, const char *name, const hl_shelf *shelf, hl_complaints *all,
                         hl_err *err);
/* The book as it would be if other options were chosen; for proving that each of its schools can be worked
 * by. */
typedef struct hl_pick {
    const char *choice, *option;
} hl_pick;
hl_code hl_book_open_picked(hl_book **out, const char *name, const hl_shelf *shelf, const hl_pick *picks,
                            int n, hl_err *err);
/* Looks over a file that is a part of books: a step, or adjusters, facts and the like without a step.
 * *is_part: it is one; a book, or what can't be read, is not, and is for hl_book_open_all().  Errors as
 * there. */
hl_code hl_rule_part_check(bool *is_part, const char *path, const hl_shelf *shelf, hl_complaints *all,
                           hl_err *err);
void hl_book_free(hl_book *book);

const char *hl_book_id(const hl_book *book);
const char *hl_book_title(const hl_book *book);
hl_compass hl_book_compass(const hl_book *book);
/* 64 hex digits: SHA-256 over every rule file that was loaded, in order. */
const char *hl_book_hash(const hl_book *book);
int hl_book_n_stages(const hl_book *book);
const hl_stage *hl_book_stage(const hl_book *book, int i);
int hl_book_n_steps(const hl_book *book);
const hl_step *hl_book_step(const hl_book *book, int i); /* in the book's order */
/* -1 when there is none; a name of before is found too, here and of adjusters. */
int hl_book_find_step(const hl_book *book, const char *id);
int hl_book_n_adjusters(const hl_book *book);
const hl_adjuster *hl_book_adjuster(const hl_book *book, int i);
int hl_book_find_adjuster(const hl_book *book, const char *id);
int hl_book_n_facts(const hl_book *book);
const hl_fact *hl_book_fact(const hl_book *book, int i);
int hl_book_n_diagnoses(const hl_book *book);
const hl_diagnosis *hl_book_diagnosis(const hl_book *book, int i);
int hl_book_n_choices(const hl_book *book);
const hl_chosen *hl_book_choice(const hl_book *book, int i);
int hl_book_n_sources(const hl_book *book);
const hl_source *hl_book_source(const hl_book *book, int i);
int hl_book_n_renamed(const hl_book *book);
const hl_renamed *hl_book_renamed(const hl_book *book, int i);
/* Rule files that use a name of before, one notice each, with the place of the first.  Start as {0};
 * HL_E_MEMORY. */
hl_code hl_book_notices(hl_complaints *notices, const hl_book *book, hl_err *err);

/* What a rule file is, as far as its text says without being run: for choosing which files to open. */
typedef struct hl_rule_look {
    bool book;       /* it returns a book with files or stages of its own, not one that is a part of others */
    char tested[64]; /* it returns tests of this book; "" when it doesn't, or when the text doesn't say */
} hl_rule_look;
/* False when the file can't be read. */
bool hl_rule_file_look(hl_rule_look *out, const char *path);

/* ---- checking a book ---------------------------------------------------------------------- */

/* Missing words and sources, strong moves onto earlier steps that the book has not acknowledged,
 * steps that mask each other in a circle, targets that contradict each other at some note. */
hl_code hl_book_check(hl_complaints *complaints, const hl_book *book, hl_err *err);
/* What may be a slip, and may be meant: moves that a later entry turned round, or made more than three
 * times as large or as small; what one file says twice; a visit that one adjuster alone has. */
hl_code hl_book_warn(hl_complaints *warnings, const hl_book *book, hl_err *err);

/* A rule test file and the book it tests. */
hl_code hl_rule_tests_open(hl_rule_tests **out, const char *path, const hl_shelf *shelf, hl_err *err);
/* The same with all that is wrong with the file, as hl_book_open_all(). */
hl_code hl_rule_tests_open_all(hl_rule_tests **out, const char *path, const hl_shelf *shelf,
                               hl_complaints *all, hl_err *err);
void hl_rule_tests_free(hl_rule_tests *tests);
int hl_rule_tests_count(const hl_rule_tests *tests);
/* The book that they test. */
const hl_book *hl_rule_tests_book(const hl_rule_tests *tests);
/* Run every case; one complaint a case that did not come out as it says. */
hl_code hl_rule_tests_run(hl_complaints *complaints, const hl_rule_tests *tests, hl_err *err);

#ifdef __cplusplus
}
#endif

#endif
