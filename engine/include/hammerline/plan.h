/* hammerline/plan.h - what to do about it: the work list of a whole sheet, and key leads. */
#ifndef HAMMERLINE_PLAN_H
#define HAMMERLINE_PLAN_H

#include "audit.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- key leads --------------------------------------------------------------------------- */

typedef struct hl_leads_ask {
    bool has_target; /* else the aim of the book's `mean_weight` */
    hl_amount target;
    bool has_carried;  /* else what the sheet says, or nothing */
    hl_amount carried; /* grams of lead that the key carries already */
} hl_leads_ask;

/* Where the change in key front load comes from. */
typedef enum hl_leads_by {
    HL_LEADS_LACKING, /* something was not read: `lacks` */
    HL_LEADS_MEAN,    /* measured mean weight less the one wanted */
    HL_LEADS_WEIGHTS, /* hammer weight x hammer leverage + whippen weight x capstan ratio - key front load */
} hl_leads_by;

#define HL_LEADS 4
typedef struct hl_lead {
    hl_amount mass, place; /* grams; mm from the balance pin towards the front */
} hl_lead;

typedef struct hl_leads {
    hl_leads_by by;
    const char *lacks; /* id of the first step or fact that is missing; "" otherwise */
    bool has_needed, has_change, has_mean, has_front;
    hl_amount target;        /* mean weight wanted */
    hl_amount mean;          /* mean weight now, read or computed */
    hl_amount front;         /* key front load now */
    hl_amount needed;        /* key front load that gives the mean weight wanted */
    hl_amount change;        /* of the key front load: + heavier, - lighter */
    bool remove;             /* leads are taken out and their holes plugged, else put in */
    hl_lead leads[HL_LEADS]; /* fewest pieces, then least inertia */
    int n_leads;             /* 0: no change is nearer than the smallest lead */
    hl_amount gives;         /* change of the key front load by these leads, drilled wood counted */
    hl_amount predicted;     /* mean weight that follows */
    bool lands;              /* it lies in the target of `mean_weight` */
    bool short_of;           /* the leads at hand can't give the whole change */
    hl_amount lead;          /* grams, all pieces together */
    double inertia;          /* of these leads about the balance pin, g mm^2 */
    hl_amount carried;       /* lead in the key afterwards, as far as it is known */
    bool too_much;           /* more than the shop's `most_lead_per_key`: look at friction and geometry */
    bool friction_first;     /* the note's friction is too high: cure that and weigh again */
    bool sampled;            /* a weight lies on the line between sample notes */
    bool assumed;            /* a fact is the book's assumption */
} hl_leads;

/* The leads that bring a note's mean weight to the one wanted (grands without assist springs).
 * `ask` may be NULL.  HL_E_USAGE when the book knows no mean weight, or no such note. */
hl_code hl_leads_for_note(hl_leads *out, const hl_audit *audit, int note, const hl_leads_ask *ask,
                          hl_err *err);

/* ---- plans ------------------------------------------------------------------------------- */

typedef struct hl_plan hl_plan;

typedef struct hl_plan_options {
    const char *const *without; /* ids of adjusters that stay as they are today */
    int n_without;
    bool reversible;          /* leave out what can't be undone */
    const char *const *lines; /* ids of steps whose samples set the targets of the notes between */
    int n_lines;
} hl_plan_options;

/* Why a reading can't be brought inside its target. */
typedef enum hl_lack {
    HL_LACK_UNMOVED,  /* nothing moves it by an amount that is known */
    HL_LACK_LEFT_OUT, /* what moves it is left out today */
    HL_LACK_REACH,    /* what moves it has not the reach */
    HL_LACK_CONFLICT, /* it can be met only at the cost of the steps `against` */
    HL_LACK_GRAIN,    /* the right place lies between two possible moves */
    HL_LACK_GEOMETRY, /* this note's own ratio stands in the way: no screw cures that */
    HL_LACK_REFUSED,  /* its numbers are past what can be reckoned with */
} hl_lack;
const char *hl_lack_name(hl_lack lack); /* "unmoved", "left out", "reach" ... */

typedef struct hl_unmet_reading {
    int step;
    hl_amount by; /* how far outside, positive, after the adjustments */
    bool above;
    bool uneven; /* inside its target, but it stands out from its neighbours or off its line */
    hl_lack why;
    const int *against; /* steps */
    int n_against;
    const int *adjusters; /* left out, or at the end of their reach */
    int n_adjusters;
} hl_unmet_reading;

/* A reading after the adjustments. */
typedef struct hl_foreseen {
    int step;
    hl_amount before, after;
    bool moved;   /* the adjustments change it */
    bool floated; /* passes beyond its target, because the book lets this step give way */
    bool assumed; /* what moves it is assumed */
} hl_foreseen;

/* A reading that can't be planned with yet. */
typedef struct hl_waiting {
    int step;
    int first;    /* the step to put right first, or -1 */
    int adjuster; /* or this adjuster moves it by an unknown amount; else -1 */
} hl_waiting;

typedef struct hl_plan_note {
    int note;
    const hl_correction *adjustments; /* in working order */
    int n_adjustments;
    const hl_foreseen *foreseen;
    int n_foreseen;
    const hl_unmet_reading *unmet;
    int n_unmet;
    const hl_waiting *waiting;
    int n_waiting;
    const int *again; /* steps to read again */
    int n_again;
    bool proven; /* no better choice exists */
} hl_plan_note;

/* Work that no reading measures, or that is not this note's alone: carried along from the audit. */
typedef struct hl_chore {
    int step, note;                  /* note 0: the instrument */
    int word;                        /* the fault word, or -1 */
    int adjuster;                    /* or -1: then `todo` says what to do */
    const char *todo;                /* in the book's words, "" when the adjuster says it */
    const hl_correction *correction; /* NULL: by feel, the way is not known */
    bool first;                      /* while it is undone, other readings mean nothing */
} hl_chore;

/* Pieces that the plan uses up. */
typedef struct hl_part {
    int adjuster;
    hl_amount size;
    bool sharps; /* under the sharps, else under the naturals */
    int count;
} hl_part;

/* Where a note between two samples should stand. */
typedef struct hl_on_line {
    int step, note;
    hl_target target;
    bool read; /* it has a reading, and takes part in the plan */
} hl_on_line;

/* Plan the whole sheet.  The audit must outlive the plan; `options` may be NULL.  HL_E_USAGE: an
 * option names what the book does not have; HL_E_SHEET: a line has no two samples to lie between. */
hl_code hl_plan_run(hl_plan **out, const hl_audit *audit, const hl_plan_options *options, hl_err *err);
void hl_plan_free(hl_plan *plan);
/* True when nothing is to do: the job is ready, and nothing lies off an asked line. */
bool hl_plan_idle(const hl_plan *plan);
/* The sheet says `scope: inspect only`, so nothing is proposed. */
bool hl_plan_inspect_only(const hl_plan *plan);
const hl_plan_note *hl_plan_notes(const hl_plan *plan, int *n); /* ascending */
const hl_chore *hl_plan_chores(const hl_plan *plan, int *n);    /* in the book's order */
const hl_part *hl_plan_parts(const hl_plan *plan, int *n);
const hl_on_line *hl_plan_lines(const hl_plan *plan, int *n);

#ifdef __cplusplus
}
#endif

#endif
