/* table.h - how every step stands at every note, while a sheet is being judged (layer: judge).
 *
 * The audit fills one, the other files of this layer write their part into it: verdict.c what a
 * reading says, stale.c what moved since, even.c who stands out, floated.c what may give way,
 * compare.c what the models say.  All memory is the audit's arena. */
#ifndef HL_TABLE_H
#define HL_TABLE_H

#include "arena.h"
#include "book.h"
#include "effects.h"
#include "hammerline/audit.h"
#include "sheet.h"

typedef struct hl_standing { /* one a note and step, so kept small: ordered, and flags of one bit */
    hl_verdict verdict;
    hl_why why;
    int word;    /* judged fault, else -1 */
    int guess;   /* the last presumed adjustment: its place among the table's deeds + 1, or 0 */
    int event;   /* the row that counts (64 MB hold less than an int of them), or -1 */
    bool listed; /* becomes a finding; this and the next are asked for most */
    bool has_value;
    bool asked : 1;     /* there must be a reading here */
    bool guarded : 1;   /* judged with `guard`, the uncertainty of the value */
    bool withdrawn : 1; /* a reading was taken back and none is left */
    bool go : 1, computed : 1, assumed : 1;
    bool strong : 1;          /* an adjustment since then moved it by an unknown amount */
    bool recorded_strong : 1; /* `strong` by a recorded one */
    bool overtaken : 1;       /* derived, of any verdict: what it is computed from has been overtaken */
    bool slight : 1;          /* moved by something not worth a number */
    bool presumed : 1;        /* it is stale by presumed adjustments only */
    bool has_lean : 1;        /* enough neighbours to compare with */
    bool floated : 1;         /* passes beyond its target, inside the book's float */
    bool has_model : 1, model_differs : 1, model_assumed : 1; /* as in hl_finding */
    hl_amount value;       /* as judged: a computed one is rounded to the resolution */
    hl_amount shift;       /* as in hl_finding */
    hl_amount lean_double; /* twice the neighbours' median of (reading - aim): no half is lost */
    hl_amount model, guard;
    double exact;   /* the reading or derived value in base units; NaN = unknown */
    double moved;   /* sum of what adjustments since the reading are expected to do */
    double guessed; /* the part of `moved` that presumed adjustments did */
} hl_standing;

/* An adjustment that was recorded, or presumed because a reading changed (presume.c). */
typedef struct hl_deed {
    long at; /* the row it was recorded in, or the last row before the reading that gives it away */
    int adjuster, note; /* note 0 with `everywhere`: all of them */
    bool everywhere;
    bool unknown; /* nobody said how far */
    double amount;
    int because; /* presumed: the step whose reading changed; -1: recorded */
    long row;    /* presumed: that reading's row */
} hl_deed;

typedef struct hl_table {
    const hl_sheet *sheet;
    const hl_book *book;
    hl_arena *arena;
    int keys;
    const unsigned char *sampled;             /* [keys + 1]: 1 = drawn; NULL: every note counts */
    hl_standing *standings;                   /* [keys + 1][n_steps]: a note is looked at as a whole */
    double *values;                           /* [n_steps]: room for the note in hand */
    double *after;                            /* [n_steps]: the same, as predicted */
    double *elsewhere;                        /* [n_steps]: room for another note meanwhile */
    hl_effect *effects, *effects_elsewhere;   /* [n_steps] each */
    unsigned char *marks_again, *marks_spoil; /* [n_steps] each */
    double *factors;                          /* [n_adjusters][n_steps], 0 = none; NULL: nothing learned */
    int *once, n_once;                        /* steps asked once: they speak from note 0 */
    int *maskers, n_maskers;                  /* steps that can make others' readings mean nothing */
    const bool *apart; /* [n_steps]: at most half of a step's readings are out, to either side; NULL: ask */
    const struct hl_known *known; /* effects worked out beforehand (known.h), or NULL */
    hl_deed *deeds;               /* in the order of their rows */
    int n_deeds;
} hl_table;

/* Take the memory; false when there is none. */
bool hl__table_start(hl_table *table, const hl_sheet *sheet, const hl_book *book, hl_arena *arena);
/* Judge what was read, then compute what follows from it (derived steps, models). */
void hl__table_read(hl_table *table);
void hl__table_compute(hl_table *table);
/* Is the step asked for once a section, and not at notes of its own? */
bool hl__table_asks_sections(const hl_table *table, int step);

/* Is the step kept at this note?  Steps asked once live at note 0, all others at 1 ... keys. */
bool hl__table_holds(const hl_table *table, int step, int note);
/* What speaks for a step at a note: a step asked once speaks from note 0 everywhere. */
hl_standing *hl__table_at(const hl_table *table, int step, int note);
/* Never NULL; a judged step has a target without limits. */
const hl_target *hl__table_target(const hl_table *table, int step, int note);
/* What an adjuster moves at a note, as far as this piano has taught it, else by the book. */
void hl__effects_now(const hl_table *table, int adjuster, int note, const double *values, hl_effect *effects);
/* The steps that it may move there, *n of them, ascending; NULL and *n as it was: nobody knows beforehand. */
const int *hl__table_moved(const hl_table *table, int adjuster, int note, int *n);
/* The values known at a note, NaN where none is. */
void hl__table_values(const hl_table *table, int note, double *values);
/* Base units to an amount rounded to the step's resolution; false when unknown or too large. */
bool hl__table_round(const hl_table *table, int step, double exact, hl_amount *out);

#endif
