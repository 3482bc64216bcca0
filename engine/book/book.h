/* book.h - the flattened book: plain, immutable, free of Lua (layer: book).
 *
 * host/ fills one; everybody else reads.  All memory is the book's arena. */
#ifndef HL_BOOK_H
#define HL_BOOK_H

#include "arena.h"
#include "formula.h"
#include "hammerline/book.h"

/* Which of dip, blow and aftertouch gives way when they cannot all be met: a school's choice. */
typedef struct hl_float {
    int step; /* -1: the book does not say */
    hl_amount within;
    hl_origin origin;
} hl_float;

/* A strong move onto an earlier step that the book knows about, with its reason. */
typedef struct hl_acknowledged {
    int adjuster, step;
    const char *why;
    hl_origin origin;
} hl_acknowledged;

/* A move as it was before a later entry of the book was laid over it. */
typedef struct hl_overlaid {
    int adjuster;
    hl_move was;
} hl_overlaid;

/* A thing that one file declares twice: the later one is laid over the first. */
typedef struct hl_twice {
    const char *word, *id;
    hl_origin first, again;
} hl_twice;

/* Where work is done, from the most that is taken apart to the least.  A book may name others. */
#define HL_VISITS 5
extern const char *const hl__visits[HL_VISITS];

/* A name of before that a rule file still uses: the first one of the file, and whether it has others. */
typedef struct hl_old_name {
    const char *was, *is;
    hl_origin at;
    bool more;
} hl_old_name;

struct hl_book {
    hl_arena arena;
    const char *id, *title, *about;
    hl_compass compass;
    char hash[65];
    hl_stage *stages;
    int n_stages;
    hl_step *steps; /* in the book's order */
    int n_steps;
    int *order; /* steps with a formula, each after the steps that it is computed from */
    int n_order;
    hl_adjuster *adjusters;
    int n_adjusters;
    hl_fact *facts;
    int n_facts;
    hl_float floats;
    hl_acknowledged *acknowledged;
    int n_acknowledged;
    hl_overlaid *overlaid; /* in the order of the adjusters and their moves */
    int n_overlaid;
    hl_twice *twice;
    int n_twice;
    hl_diagnosis *diagnoses;
    int n_diagnoses;
    hl_chosen *choices;
    int n_choices;
    hl_renamed *renamed;
    int n_renamed;
    hl_old_name *old_names; /* one a file */
    int n_old_names;
    hl_source *sources;
    int n_sources;
    hl_amount stale_share;  /* share of half the target's width that a shift may use: 0.25 */
    const hl_origin *files; /* rule files loaded, in order */
    int n_files;
};

/* The target of a step at a pitch, or at the instrument for pitch < 0. */
const hl_target *hl__book_target(const hl_book *book, int step, int pitch);
/* Does the step, by colour, apply to this pitch?  (Damped, sections and once are the sheet's.) */
bool hl__step_at_pitch(const hl_step *step, int pitch);

typedef enum hl_order_result { HL_ORDERED, HL_IN_CIRCLE, HL_NO_ORDER_ROOM } hl_order_result;
/* Fill book->order; asked once, when the formulas of all steps are there.  HL_IN_CIRCLE: circle[0] is a step
 * that needs circle[1], which needs circle[0] itself. */
hl_order_result hl__book_find_order(hl_book *book, int circle[2]);
/* Does the chain of `quiet_by` from this diagnosis come back to itself?  Such a one silences nothing. */
bool hl__book_quiet_circle(const hl_book *book, int diagnosis);
int hl__book_find_fact(const hl_book *book, const char *id);
/* The name that a name of before has now, or NULL.  The three finders above try it when there is no such
 * name. */
const char *hl__book_new_name(const hl_book *book, const char *id);

#endif
