/* table.h - how every step is at every note, while a sheet is being judged (layer: table).
 *
 * Flat arrays by place (places.h).  The judge fills them; what is rare - how far a reading was moved by later
 * work, what a model says - has arrays of its own, which most tables never take.  All memory is the arena's.
 */
#ifndef HL_TABLE_H
#define HL_TABLE_H

#include "arena.h"
#include "book.h"
#include "form.h"
#include "hammerline/audit.h"
#include "head.h"
#include "sheet.h"

typedef enum hl_effect_kind {
    HL_EFFECT_NONE,
    HL_EFFECT_BY,
    HL_EFFECT_STRONG,
    HL_EFFECT_SLIGHT
} hl_effect_kind;

/* What one unit of an adjuster, in its `more` direction, does to a step at a note (effects.h). */
typedef struct hl_effect {
    hl_effect_kind kind;
    int sign;  /* of a strong one: the reading goes up (1) or down (-1); 0 = not known */
    double by; /* step's base units per adjuster's base unit */
    bool assumed;
    bool learned; /* from readings of this piano, at least in part */
    bool again;   /* by the book's guess of the size, so it is read again after any move */
} hl_effect;

/* What adjustments did to a reading since it was taken (stale.h). */
typedef struct hl_moved {
    double by;            /* the sum of what they are expected to do, base units */
    double guessed;       /* the part of it that unrecorded ones did */
    int guess;            /* the last unrecorded one: its place among the adjustments + 1, or 0 */
    bool strong;          /* one moved it by an unknown amount */
    bool recorded_strong; /* `strong` by a recorded one */
    bool slight;          /* moved by something not worth a number */
    bool presumed;        /* it is stale by unrecorded adjustments only */
    bool overtaken;       /* it no longer holds, whatever its verdict */
} hl_moved;

/* A reading beside what its step's model says (model_compare.h). */
typedef struct hl_modelled {
    bool has_model, differs, assumed;
    hl_amount model;
} hl_modelled;

/* An adjustment that was recorded, or presumed because a reading changed (evidence.h). */
typedef struct hl_adjustment {
    long at; /* the row it was recorded in, or the last row before the reading that gives it away */
    int adjuster, note; /* -1: no adjuster can be named, the reading `because` itself moved; note 0 with
                           `everywhere`: all of them */
    bool everywhere;
    bool unknown; /* nobody said how far */
    double amount;
    int because; /* presumed: the step whose reading changed; -1: recorded */
    long row;    /* presumed: that reading's row */
} hl_adjustment;

/* Why a reading that passes may not be taken for a pass (evidence.h). */
typedef enum hl_doubt {
    HL_DOUBT_NONE,
    HL_DOUBT_DISAGREE, /* another reading of the same pass differs, and no third one has settled it */
    HL_DOUBT_WORK,     /* it contradicts the work recorded above it */
    HL_DOUBT_VOIDED,   /* it counts only because another reading was withdrawn */
    HL_DOUBT_UNITS,    /* it looks like inches */
    HL_DOUBT_AS_FOUND, /* it was read before the work began */
} hl_doubt;

typedef struct hl_table {
    const hl_sheet *sheet;
    const hl_book *book;
    const hl_head *head;
    hl_arena *arena;
    int keys;
    bool brief;            /* only what counts: computed values that pass are not rounded */
    hl_amount *values;     /* place: as judged; a computed one is rounded to the resolution */
    unsigned char *states; /* place: hl_state */
    double *exact;         /* place, of derived steps and of those in formulas: base units, NaN = unknown */
    bool all_exact;        /* of all steps: a plan moves readings by less than a hand reads */
    hl_amount *lean;       /* place, where a note is uneven: twice the median of its neighbours'
                              (reading - aim), so that no half is lost */
    int (*counts)[HL_VERDICTS]; /* [n_steps] */
    hl_moved *moved;            /* place; NULL: nothing was adjusted */
    hl_modelled *modelled;      /* place; NULL: models were not compared */
    hl_amount *guards;          /* place: the uncertainty it was judged with, 0 = none; NULL: nowhere */
    unsigned char *doubts;      /* place: hl_doubt; NULL: no row contradicts another */
    unsigned char *accepted;    /* place: 1 = somebody accepted it as it is; NULL: nowhere */
    double *factors;            /* [n_adjusters][n_steps], 0 = none; NULL: nothing was learned */
    hl_adjustment *adjustments; /* in the order of their rows */
    int n_adjustments;
    /* Room for the note in hand, and for another one meanwhile; [n_steps] each. */
    double *note_values, *after, *elsewhere;
    hl_effect *effects, *effects_elsewhere;
    unsigned char *marks_again, *marks_spoil;
} hl_table;

/* Take the memory for any sheet with this head; false when there is none.  The table is empty until a judge
 * fills it from a sheet. */
bool hl__table_make(hl_table *table, const hl_head *head, hl_arena *arena);
/* The readings of a sheet, and nothing that follows from them.  Places that were not read are as the head
 * has them. */
void hl__table_read(hl_table *table, const hl_sheet *sheet);
/* Compute the derived steps, in the book's order, and judge them by their limits. */
void hl__table_derive(hl_table *table);
/* Count the verdicts of all steps. */
void hl__table_count(hl_table *table);
/* Make `to`, made for the same head, a copy of how everything is now. */
void hl__table_copy(hl_table *to, const hl_table *from);

/* ---- asking ------------------------------------------------------------------------------------- */

/* What a state means. */
typedef struct hl_meaning {
    hl_verdict verdict;
    hl_why why;
    bool listed; /* it becomes a finding */
} hl_meaning;
extern const hl_meaning hl__meanings[HL_STATES];

/* A step at a note, all that the table knows of it. */
typedef struct hl_standing {
    hl_verdict verdict;
    hl_why why;
    int word;  /* judged fault, else -1 */
    int event; /* the row that counts, or -1; as of hl__table_event() */
    bool listed, has_value, asked, go, computed, assumed, floated;
    hl_amount value;
    double exact; /* base units; NaN = unknown */
} hl_standing;

/* Is the step kept at this note?  Steps asked once live at note 0, all others at 1 ... keys. */
static inline bool hl__table_holds(const hl_table *table, int step, int note)
{
    return (table->book->steps[step].scope == HL_ONCE) == (note == 0);
}
/* The place that speaks for a step at a note: a step asked once speaks from note 0 everywhere. */
static inline int hl__table_place(const hl_table *table, int step, int note)
{
    return hl__place(step, table->book->steps[step].scope == HL_ONCE ? 0 : note);
}
static inline hl_state hl__table_state(const hl_table *table, int step, int note)
{
    return (hl_state)table->states[hl__table_place(table, step, note)];
}
static inline hl_verdict hl__table_verdict(const hl_table *table, int step, int note)
{
    return hl__meanings[hl__table_state(table, step, note)].verdict;
}
/* A number that passes or fails. */
static inline bool hl__state_is_number(hl_state state)
{
    return state == HL_STATE_PASS || state == HL_STATE_FLOATED || state == HL_STATE_LOW ||
           state == HL_STATE_HIGH || state == HL_STATE_UNEVEN;
}
/* Does a number lie beyond its target, and was let pass for that?  It may stand out from its neighbours. */
bool hl__table_floats(const hl_table *table, int place);
hl_standing hl__table_at(const hl_table *table, int step, int note);
/* What was done to it since it was read; never NULL. */
const hl_moved *hl__table_moved(const hl_table *table, int step, int note);
/* The row that counts there, or -1; only of a sheet whose events were made. */
int hl__table_event(const hl_table *table, int step, int note);
/* In base units; NaN when unknown. */
double hl__table_exact(const hl_table *table, int step, int note);
/* Never NULL; a judged step has a target without limits. */
const hl_target *hl__table_target(const hl_table *table, int step, int note);
/* The values known at a note, NaN where none is. */
void hl__table_values(const hl_table *table, int note, double *values);
/* Base units to an amount rounded to the step's resolution; false when unknown or too large. */
bool hl__table_round(const hl_table *table, int step, double exact, hl_amount *out);
/* How far a stale reading is expected to have moved, an uneven one stands out of its neighbours, a floated
 * one lies beyond its target; else 0, and when nobody knows. */
hl_amount hl__table_shift(const hl_table *table, int step, int note);
/* Does a reading no longer hold, because of work done since?  Known once staleness was marked. */
bool hl__table_overtaken(const hl_table *table, int step, int note);

/* ---- changing ----------------------------------------------------------------------------------- */

/* The state of a number by its limits. */
hl_state hl__table_by_limits(const hl_table *table, int place, hl_amount value);
/* A verdict changes after all were counted. */
static inline void hl__table_change(hl_table *table, int step, int place, hl_state state)
{
    const hl_meaning *from = &hl__meanings[table->states[place]], *to = &hl__meanings[state];
    table->counts[step][from->verdict] -= from->listed;
    table->counts[step][to->verdict] += to->listed;
    table->states[place] = (unsigned char)state;
}

/* The next note from `note` on of a step's states where something fails, eight looked at at once; behind the
 * last one when there is none.  States are small: a fail has its high bit set by the first sum and not by
 * the other. */
static inline bool hl__is_fail(unsigned char state)
{
    return state >= HL_STATE_FIRST_FAIL && state <= HL_STATE_LAST_FAIL;
}
int hl__next_fail(const unsigned char *states, int note);

#endif
