/* hammerline/audit.h - the verdicts of one sheet by one book, and what they rest on. */
#ifndef HAMMERLINE_AUDIT_H
#define HAMMERLINE_AUDIT_H

#include "sheet.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct hl_audit hl_audit;

/* ---- audits ------------------------------------------------------------------------------ */

typedef enum hl_verdict {
    HL_PASS,
    HL_FAIL,
    HL_DOUBTFUL,
    HL_STALE,
    HL_MISSING,
    HL_NOT_APPLICABLE,
    HL_ACCEPTED, /* out or in doubt, and somebody accepted it as it is, and said why */
} hl_verdict;
#define HL_VERDICTS 7
const char *hl_verdict_name(hl_verdict verdict); /* "pass", "fail" ... "not applicable" */

typedef enum hl_why {
    HL_WHY_NONE,
    HL_WHY_LOW,
    HL_WHY_HIGH,
    HL_WHY_WORD,        /* a judged fault; `word` tells which */
    HL_WHY_UNEVEN,      /* in range, but stands out from its neighbours */
    HL_WHY_UNREAD,      /* nothing was read */
    HL_WHY_WITHDRAWN,   /* the latest reading was withdrawn */
    HL_WHY_SKIPPED,     /* left out at the bench */
    HL_WHY_OTHER_GAUGE, /* go/no-go by a gauge that is not this step's */
    HL_WHY_DISAGREE,    /* another reading of the same pass differs, and no third one has settled it */
    HL_WHY_WORK,        /* it contradicts the work recorded above it */
    HL_WHY_VOIDED,   /* it counts only because another reading was withdrawn without a reason, or of a later
                        pass */
    HL_WHY_UNITS,    /* it looks like inches in a millimetre step */
    HL_WHY_AS_FOUND, /* read before the work began */
    HL_WHY_ACCEPTED, /* accepted as it is; the remark says why */
    HL_WHY_ADJUSTED, /* read before something that moves it was adjusted */
    HL_WHY_QUERY,    /* a remark about this note is still open */
    HL_WHY_BOOK,     /* the book leaves the step out */
    HL_WHY_SCOPE,    /* the step does not apply to this note */
} hl_why;

#define HL_PIECES 4
typedef struct hl_correction {
    int adjuster;
    bool more;                   /* the adjuster's `more` way, else `less` */
    bool has_amount;             /* else: by judgement */
    hl_amount amount;            /* positive, in the adjuster's unit */
    hl_amount pieces[HL_PIECES]; /* sizes that make it up, largest first; 0 = unused */
    bool has_predicted;
    hl_amount predicted; /* the reading that should follow */
    bool lands;          /* predicted lies in the target */
    bool beyond_reach;
    bool assumed; /* from an assumed move or fact */
    bool learned;
    const int *again; /* steps to read again on this note */
    int n_again;
    const int *spoils; /* passing steps of this note that it would put out of range */
    int n_spoils;
} hl_correction;

typedef struct hl_finding { /* a sheet has thousands: ordered so that nothing between members is wasted */
    int step, note;         /* step -1: an open query; note 0: the instrument */
    hl_verdict verdict;
    hl_why why;
    int word; /* judged fault: index into the step's words, else -1 */
    bool has_value;
    bool shifted;   /* a fresh reading that an adjustment since then has moved a little: by `moved`, or,
                       when that is 0, by something too slight for a number; told, never judged */
    bool presumed;  /* stale only because another reading changed with nothing on record: somebody
                       is presumed to have adjusted `presumed_adjuster`, going by `presumed_step` */
    bool floated;   /* passes beyond its target, because the book lets this step give way */
    bool guarded;   /* judged by the guarded rule, known to within `guard`; when that leaves it in
                       doubt, `why` is the limit in question */
    bool go;        /* a go/no-go reading: it has no value */
    bool computed;  /* derived, or from a model */
    bool assumed;   /* computed with an assumed fact */
    bool has_model; /* what was read can be compared with what the step's model says of it */
    bool model_differs, model_assumed; /* by more than the gauges allow; told, never judged */
    bool follows;    /* it goes away when another fault of the note is cured: it has no corrections */
    bool hangs;      /* nothing adjusts it, and only failing readings that it is computed from put it
                        out: see to `follows_step` first, then look again */
    hl_amount value; /* measured or computed */
    hl_amount shift; /* stale: how far the reading is expected to have moved; uneven: how far out;
                        floated: how far beyond its target, negative = below */
    hl_amount moved; /* a fresh reading: how far adjustments since are expected to have moved it */
    hl_amount guard, model;
    hl_target target;
    int presumed_adjuster, presumed_step; /* -1 when nothing is presumed */
    int line, column;                     /* where the reading stands in the sheet; 0 when nowhere */
    const char *remark;          /* the reading's remark, the query's text, the book's reason; or "" */
    hl_amount follows_predicted; /* put `follows_step` right first, and expect this */
    int follows_step;            /* the one that it hangs on, too */
    int n_corrections;
    const hl_correction *corrections;
} hl_finding;

/* What the step says in words about this fault word or this side, borrowed from the book; "" when it leaves
 * it to adjusters.  NULL-safe for findings without a step. */
const char *hl_finding_todo(const hl_book *book, const hl_finding *finding);

typedef struct hl_tally {
    int count[HL_VERDICTS];
    int go;      /* how many of the passes are go/no-go readings */
    int floated; /* how many of the passes lie beyond their target, inside the float */
    bool has_unevenness;
    hl_amount unevenness; /* one figure for the step: largest departure from neighbours */
    bool has_mad;
    hl_amount mad; /* median absolute deviation of (reading - aim), for information only */
} hl_tally;

/* How a reading near a limit is judged. */
typedef enum hl_rule {
    HL_RULE_SIMPLE,  /* on or inside the limits passes, outside fails */
    HL_RULE_GUARDED, /* passes only inside limits shrunk by the gauge's uncertainty, fails only outside
                        limits widened by it, doubtful between */
} hl_rule;

/* A sample of the notes in place of all of them. */
typedef struct hl_sample_ask {
    int notes;            /* how many to measure; 0 = all of them, no sample */
    uint64_t seed;        /* the same seed, piano and number draw the same notes */
    hl_amount confidence; /* millionths, 950000 = 95 %; 0 = that */
    bool has_at_most;     /* ready when no more than `at_most` of all notes can be out */
    int at_most;
} hl_sample_ask;

typedef struct hl_audit_options {
    hl_rule rule;
    hl_sample_ask sample;
} hl_audit_options;

/* Judge the sheet by the book.  Both must outlive the audit; the sheet must have been read.  `options`
 * may be NULL: simple, every note.  HL_E_USAGE: the options ask for nonsense. */
hl_code hl_audit_run(hl_audit **out, const hl_sheet *sheet, const hl_book *book,
                     const hl_audit_options *options, hl_err *err);
void hl_audit_free(hl_audit *audit);
/* True when every required step at every note it applies to has a fresh reading that passes, and
 * the sheet has no bad row. */
bool hl_audit_ready(const hl_audit *audit);
/* True when the sheet holds nothing but a round named "before" or "as found": an inspection, and no finished
 * job. */
bool hl_audit_as_found(const hl_audit *audit);
/* Does anything of the book apply to the sheet?  Else there is nothing to judge. */
bool hl_audit_has_work(const hl_audit *audit);
/* All findings, passes too, in the book's order, then along the compass. */
const hl_finding *hl_audit_findings(const hl_audit *audit, size_t *n);
const hl_tally *hl_audit_tally(const hl_audit *audit, int step);
const hl_tally *hl_audit_total(const hl_audit *audit);
/* The step that this book lets give way when dip, blow and aftertouch can't all be met; -1 when
 * it holds them all. */
int hl_audit_float(const hl_audit *audit);

/* A diagnosis that the readings bear out. */
typedef struct hl_diagnosed {
    int diagnosis;    /* index */
    int note;         /* 0: the instrument */
    int holds, known; /* at how many notes it holds, of those at which it can be seen */
} hl_diagnosed;
/* In the book's order, then along the compass. */
const hl_diagnosed *hl_audit_diagnoses(const hl_audit *audit, size_t *n);

/* ---- what this piano teaches ------------------------------------------------------------- */

typedef enum hl_learned_why {
    HL_LEARNED_USED,
    HL_LEARNED_FEW,    /* fewer than three adjustments were read before and after */
    HL_LEARNED_SPREAD, /* they don't agree with one another */
    HL_LEARNED_NOISE,  /* the gauge can't tell it from the book's figure */
    HL_LEARNED_WAY,    /* the readings went the other way: was a way or a sign written wrong? */
    HL_LEARNED_FAR,    /* more than three times the book's figure, or less than a third: a slip */
} hl_learned_why;

/* What an adjuster was seen to move on this piano, beside what the book assumes.  Effects are in
 * the step's base unit (mm, g) for one base unit of the adjuster (a turn, mm, g), toward `more`. */
typedef struct hl_learned {
    int adjuster, step;
    int n;             /* adjustments that were read before and after */
    int note;          /* where the two effects below hold; others differ as the book has them differ */
    hl_amount effect;  /* as used; as seen, when it is not used */
    hl_amount assumed; /* the book's */
    double factor;     /* effect / assumed, at every note */
    double spread;     /* how far single adjustments lie from it, as a share (standard deviation) */
    bool used;         /* corrections, staleness and predictions go by it */
    hl_learned_why why;
} hl_learned;

/* In the order of the book's adjusters and their moves. */
const hl_learned *hl_audit_learned(const hl_audit *audit, size_t *n);

/* An adjustment that nobody wrote down: a reading differs from what the one before it should have become by
 * more than gauge and moves allow. */
typedef struct hl_presumed {
    int adjuster, note;
    int step;         /* whose reading changed */
    int line;         /* where it stands */
    hl_amount amount; /* that would explain it, + = `more` */
    bool pending;     /* nothing has settled yet which of two readings holds, so nothing goes by it */
} hl_presumed;
/* In the order of the sheet's rows. */
const hl_presumed *hl_audit_presumed(const hl_audit *audit, size_t *n);

/* A figure that nobody stated for this piano, and that its readings contradict: at half or more of the
 * notes what was read lies to the same side of what its step's model says, and another value of this
 * one fact would make most of them agree.  It is told, and no verdict goes by it; only the `model` of
 * each finding, and whether the two differ, are reckoned with `implied`. */
typedef struct hl_implied {
    int step, fact; /* whose readings; what they imply */
    int colour;     /* the notes it holds for: 0 all, 1 naturals, 2 sharps */
    bool above;     /* the readings lie above the model with the assumed value */
    bool instead;   /* the fact before it would do as well, and `model` goes by that: one or the other */
    double assumed, implied; /* base units; `implied` to three digits */
    int compared;            /* notes that can be compared */
    int differ;              /* of those, with the assumed value, by more than the gauges allow */
    int agree;               /* of those, with the implied one */
} hl_implied;
#define HL_IMPLIED_LEAST 8 /* notes that differ to one side */
/* In the book's order of steps. */
const hl_implied *hl_audit_implied(const hl_audit *audit, size_t *n);

/* ---- gauges, and who reads them --------------------------------------------------------- */

/* Where the uncertainty of a reading is taken from. */
typedef enum hl_gauge_from {
    HL_GAUGE_NONE,       /* nobody says */
    HL_GAUGE_BOOK,       /* the step's `gauge` */
    HL_GAUGE_SHEET,      /* the sheet's fact "gauge STEP" */
    HL_GAUGE_RESOLUTION, /* not stated: what a person reads to stands in */
    HL_GAUGE_COMPUTED,   /* a derived step: from its readings */
} hl_gauge_from;

/* A step that has numbers in this sheet, and whether its gauge is fine enough for its target. */
typedef struct hl_gauge {
    int step;
    hl_gauge_from from;
    hl_amount uncertainty; /* about 95 %; derived: the largest of the notes; 0 = not known */
    bool has_tolerance;
    hl_amount tolerance;    /* between the limits, where they are nearest; one-sided: limit to aim */
    bool coarse_resolution; /* resolution > tolerance / 10 */
    bool coarse_gauge;      /* uncertainty > tolerance / 4 */
} hl_gauge;
/* In the book's order. */
const hl_gauge *hl_audit_gauges(const hl_audit *audit, size_t *n);

/* The same note read again by the same person with the same method in the same pass, nothing that
 * moves it having been adjusted between: what is left is the gauge and the hand. */
typedef struct hl_repeat {
    int step;
    const char *method;  /* as the sheet names it; "" */
    int places, freedom; /* places read more than once; degrees of freedom: readings - places */
    hl_amount deviation; /* pooled standard deviation */
    bool coarse;         /* twice that > tolerance / 4 */
    bool worse;          /* twice that > the uncertainty of the step's gauge */
} hl_repeat;
/* Fewer degrees of freedom than this warn of nothing. */
#define HL_FREEDOM_LEAST 5
/* In the book's order, then as the methods turn up. */
const hl_repeat *hl_audit_repeats(const hl_audit *audit, size_t *n);

/* What two people read at one note. */
typedef struct hl_apart {
    int note;
    hl_amount first, second;     /* their numbers; judged steps have none */
    int first_word, second_word; /* judged: index into the step's words, -1 = ok */
} hl_apart;

/* Two people who read the same notes of a step in the same pass, nothing having been adjusted between. */
typedef struct hl_people {
    int step;
    const char *first, *second; /* `by` of the sheet; the first read the earlier row of the sheet */
    int notes;                  /* read by both */
    hl_amount bias;             /* median of second - first */
    hl_amount allowed;          /* what two readings may differ by for their gauges alone */
    const hl_apart *apart;      /* the notes that differ by more; of a judged step, at all */
    int n_apart;
} hl_people;
/* In the book's order. */
const hl_people *hl_audit_people(const hl_audit *audit, size_t *n);

/* ---- a sample of the notes ---------------------------------------------------------------- */

/* What a sample shows of all the notes. */
typedef struct hl_sample {
    int population;   /* notes of the piano */
    const int *notes; /* drawn, ascending */
    int n;
    uint64_t seed;
    hl_amount confidence;
    int open;       /* drawn, but something is not measured, or to read again */
    int out;        /* drawn, and something is out, in doubt or queried */
    int known_out;  /* the same of all notes, drawn or not */
    bool concluded; /* nothing is open, so that `at_most` holds */
    int at_most;    /* no more than so many of all the notes are out, at the confidence asked for */
    bool has_asked; /* as the options say */
    int asked;
} hl_sample;
/* NULL when the audit was not asked for one. */
const hl_sample *hl_audit_sample(const hl_audit *audit);

/* The samples of several pianos as one of all their notes.  Start as {0}. */
typedef struct hl_samples {
    hl_sample total; /* its `notes`, `seed`, `at_most` and `asked` mean nothing */
    int n_audits;
    struct hl_stratum *strata;
    size_t n, room;
} hl_samples;
/* Add the sample of one more audit.  HL_E_USAGE: it has none. */
hl_code hl_samples_add(hl_samples *samples, const hl_audit *audit, hl_err *err);
/* No more than so many of all their notes are out, at the confidence asked for; -1: a note is open. */
int hl_samples_at_most(const hl_samples *samples);
void hl_samples_free(hl_samples *samples);
/* The most that can be bad of `population` when of `drawn`, all alike likely to be drawn, `bad` were:
 * the largest number for which so few would turn up with a chance of more than 1 - confidence
 * (hypergeometric, exact).  -1: nonsense was asked. */
int hl_sample_bound(int population, int drawn, int bad, hl_amount confidence);

#ifdef __cplusplus
}
#endif

#endif
