/* places.h - the readings of one sheet in flat arrays (layer: sheet).
 *
 * A place is a step at a note: step * HL_NOTES + note.  Note 0 is the instrument.  The reader fills the
 * arrays while it reads; the judge copies them and goes on from there. */
#ifndef HL_PLACES_H
#define HL_PLACES_H

#include "hammerline/base.h"

/* Places a step has: notes 0 ... HL_PITCHES, and some more.  A multiple of 8, and no power of two: the cells
 * of a row lie so far apart, and would fall into the same few lines of the cache. */
#define HL_NOTES 112

static inline int hl__place(int step, int note)
{
    return step * HL_NOTES + note;
}

/* How a step is at a note.  The reader knows the first group only; the judge turns UNREAD, OTHER, WITHDRAWN
 * and CLOSED into one of the others.  Order matters: what fails stands together (hl__next_fail). */
typedef enum hl_state {
    HL_STATE_UNREAD,
    HL_STATE_PASS,
    HL_STATE_LOW,
    HL_STATE_HIGH,
    HL_STATE_WORD,   /* a fault word of a judged step */
    HL_STATE_UNEVEN, /* the judge's: in range, and stands out from its neighbours */
    HL_STATE_GO_LOW, /* the judge's: go/no-go, `under` and `over` */
    HL_STATE_GO_HIGH,
    HL_STATE_OTHER,     /* no number and no word: the event says what it is */
    HL_STATE_WITHDRAWN, /* read, taken back, and no reading is left */
    HL_STATE_CLOSED,    /* the step is never read at this note */
    /* The judge's alone. */
    HL_STATE_GO,      /* go/no-go, `within`: passes without a number */
    HL_STATE_FLOATED, /* passes beyond its target, inside the book's float */
    HL_STATE_STALE,
    HL_STATE_LOST,      /* a plan's: stale, and nobody can say where it is now */
    HL_STATE_DOUBT_LOW, /* too near to a limit for its gauge */
    HL_STATE_DOUBT_HIGH,
    HL_STATE_DOUBT_GAUGE, /* go/no-go by a gauge whose limits the sheet does not state, or that are too wide
                           */
    HL_STATE_DOUBT_DISAGREE, /* evidence.h */
    HL_STATE_DOUBT_WORK,
    HL_STATE_DOUBT_VOIDED,
    HL_STATE_DOUBT_UNITS,
    HL_STATE_AS_FOUND, /* read before the work began */
    HL_STATE_ACCEPTED, /* out or in doubt, and accepted as it is */
    HL_STATE_MISSING,  /* asked for, and nothing was read */
    HL_STATE_MISSING_WITHDRAWN,
    HL_STATE_MISSING_SKIPPED,
    HL_STATE_MISSING_GAUGE, /* go/no-go by another gauge than the step's */
    HL_STATE_OUT_OF_SCOPE,
    HL_STATE_LEFT_OUT, /* the book leaves the step out; something was read or would be asked for */
    HL_STATE_SILENT,   /* nothing was read or asked for: no finding */
    HL_STATE_SILENT_LEFT_OUT,
    HL_STATES,
} hl_state;
#define HL_STATE_FIRST_FAIL HL_STATE_LOW
#define HL_STATE_LAST_FAIL  HL_STATE_GO_HIGH

typedef struct hl_places {
    hl_amount *values;     /* a number; of a judged step -1 = ok, else the word's index */
    unsigned char *states; /* hl_state */
    int *latest;           /* the event that counts; means nothing where nothing was read */
    unsigned char *odd;    /* [n_steps]: 1 = it has, or had, an OTHER or WITHDRAWN */
} hl_places;

#endif
