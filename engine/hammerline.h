/* hammerline.h - the public face of the engine: books, sheets, audits and what they say.
 *
 * The command line includes this header and no other of ours; the engine's own layers include
 * it for the types.  It needs libc only.
 *
 * Conventions, once for all functions:
 * - A function that can fail returns an hl_code, fills `err` (never NULL) and leaves `*out` NULL.
 * - `T **out`: the result is yours; give it to the matching hl_..._free() (NULL is fine there).
 * - `const T *` returned: borrowed, lives as long as the object it came from.
 * - Nothing here prints, exits, or keeps state between calls.  A book is immutable once opened
 *   and may be shared by threads; a sheet or an audit belongs to one thread at a time.
 * - Numbers that are compared are hl_amount: whole millionths of the base unit, so a reading on
 *   a limit passes in millimetres and in inches alike.  Formulas run in double.
 */
#ifndef HAMMERLINE_H
#define HAMMERLINE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define HL_VERSION  "0.1.0"
#define HL_RULE_API 1 /* what `api = 1` in a book means */
#define HL_SCHEMA   1 /* what `schema` in JSON means */

/* ---- errors ------------------------------------------------------------------------------ */

typedef enum hl_code {
    HL_OK = 0,
    HL_E_USAGE = 2,  /* the caller asked for nonsense */
    HL_E_SHEET = 3,  /* a sheet can't be read, or has a bad row */
    HL_E_RULE = 4,   /* a rule file is wrong, or went over a limit */
    HL_E_SAVE = 5,   /* could not write */
    HL_E_MEMORY = 6, /* the machine has no memory left */
} hl_code;

/* What went wrong, for a person.  Plain memory: filling one never fails, none needs freeing. */
typedef struct hl_err {
    hl_code code;
    int line, column; /* from 1; 0 when there is none */
    char file[256];
    char what[320]; /* what is wrong, one sentence without a full stop */
    char todo[320]; /* what to do about it; may be empty */
} hl_err;

/* ---- amounts and units ------------------------------------------------------------------- */

typedef int64_t hl_amount; /* nanometres, micrograms, millionths of a turn, degree, ratio, step */
#define HL_ONE INT64_C(1000000)

typedef enum hl_unit {
    HL_NO_UNIT = 0,
    HL_MM,
    HL_IN, /* shown in inches, held in nanometres: 1 in = 25.4 mm exactly */
    HL_G,
    HL_TURN,
    HL_DEGREE,
    HL_RATIO, /* a plain number */
    HL_NOTCH, /* one small step by hand, of a spring: has no size ("step" in rule files) */
} hl_unit;

/* The unit's short name as written in sheets and rules: "mm", "in", "g", "turn", "deg",
 * "ratio", "step"; "" for HL_NO_UNIT.  Static. */
const char *hl_unit_name(hl_unit unit);

/* ---- notes ------------------------------------------------------------------------------- */

#define HL_PITCHES 108 /* C0 (pitch 0) to B8 (pitch 107), semitones */
#define HL_A0      9

typedef struct hl_compass {
    int lowest; /* pitch of the lowest key; A0 = 9 */
    int keys;   /* how many keys; 88 on a modern piano */
} hl_compass;

/* Pitch of note 1 ... keys. */
int hl_note_pitch(hl_compass compass, int note);
/* "A0", "C#4"; static.  Sharps are spelt with #. */
const char *hl_pitch_name(int pitch);
bool hl_pitch_is_sharp(int pitch);
/* Note number of a name ("C#4", "Db4", "c#4") or a number ("40") in this compass; 0 if it is
 * neither, or outside. */
int hl_note_parse(hl_compass compass, const char *text);

/* ---- what a book holds ------------------------------------------------------------------- */

typedef struct hl_formula hl_formula;
typedef struct hl_book hl_book;
typedef struct hl_sheet hl_sheet;
typedef struct hl_audit hl_audit;
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
    int stage; /* index into the book's stages */
    hl_unit unit;
    hl_kind kind;
    hl_need need;
    hl_scope scope;
    hl_amount resolution; /* what a person reads to; formulas round to it */
    hl_amount gauge;      /* uncertainty of a reading; 0 = not stated */
    hl_amount even;       /* how far a note may stand out from its neighbours; 0 = not asked */
    bool breaks;          /* evenness and sample lines stop at section breaks */
    const char *ask, *why, *source, *caution, *method; /* "" when not given */
    bool unsourced;         /* no published figure exists; the target is common practice */
    const char *gauge_name; /* the go/no-go gauge that `within` refers to; "" = any */
    const hl_word *words;   /* faults; `ok` is not listed */
    int n_words;
    const hl_formula *formula; /* derived: its definition; measured: its model, or NULL */
    const int *fixes;          /* adjuster indices, the first one first */
    int n_fixes;
    const int *masks; /* steps whose readings mean nothing while this one is wrong */
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
    const hl_formula *formula; /* HL_MOVE_BY: step units per adjuster unit, over facts */
    bool assumed;
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
    const char *visit;    /* "in the piano", "bench", "stack off", "under the piano" */
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
void hl_book_free(hl_book *book);

const char *hl_book_id(const hl_book *book);
const char *hl_book_title(const hl_book *book);
hl_compass hl_book_compass(const hl_book *book);
/* 64 hex digits: SHA-256 over every rule file that was loaded, in order. */
const char *hl_book_hash(const hl_book *book);
int hl_book_n_stages(const hl_book *book);
const hl_stage *hl_book_stage(const hl_book *book, int i);
int hl_book_n_steps(const hl_book *book);
const hl_step *hl_book_step(const hl_book *book, int i);    /* in the book's order */
int hl_book_find_step(const hl_book *book, const char *id); /* -1 when there is none */
int hl_book_n_adjusters(const hl_book *book);
const hl_adjuster *hl_book_adjuster(const hl_book *book, int i);
int hl_book_find_adjuster(const hl_book *book, const char *id);
int hl_book_n_facts(const hl_book *book);
const hl_fact *hl_book_fact(const hl_book *book, int i);
int hl_book_n_diagnoses(const hl_book *book);
const hl_diagnosis *hl_book_diagnosis(const hl_book *book, int i);

/* ---- sheets ------------------------------------------------------------------------------ */

/* Read a file's bytes and its fact lines, so that the book it names can be opened. */
hl_code hl_sheet_open(hl_sheet **out, const char *path, hl_err *err);
/* The same from memory; `name` stands in messages.  The bytes are copied. */
hl_code hl_sheet_open_text(hl_sheet **out, const char *name, const char *text, size_t size, hl_err *err);
void hl_sheet_free(hl_sheet *sheet);
/* The value of the fact `book`; "" when the sheet names none. */
const char *hl_sheet_book_id(const hl_sheet *sheet);
/* Read all rows against the book, once.  HL_E_SHEET when any row is bad: the good rows are read
 * all the same, every bad one is in hl_sheet_errors(), and `err` is the first. */
hl_code hl_sheet_read(hl_sheet *sheet, const hl_book *book, hl_err *err);
const hl_err *hl_sheet_errors(const hl_sheet *sheet, int *n);
const char *hl_sheet_name(const hl_sheet *sheet); /* the path it was opened by */
hl_compass hl_sheet_compass(const hl_sheet *sheet);
/* The line of a last row that was cut short while it was saved (a bad row, too); 0 when none is. */
int hl_sheet_torn(const hl_sheet *sheet);
/* A fact as the sheet wrote it ("piano", "date", "place" ...), or "" . */
const char *hl_sheet_fact(const hl_sheet *sheet, const char *id);

/* ---- the journal -------------------------------------------------------------------------- */

/* Appending to a tidy sheet so that no reading is ever lost: one row is one write() under a lock
 * (SHEET.lock, never renamed or removed), then fdatasync(), and only then HL_OK.  A journal belongs
 * to one thread at a time.  The program should ignore SIGXFSZ and SIGPIPE. */
typedef struct hl_journal hl_journal;

/* One row as it will stand in the sheet.  NULL is the same as "".  `note` is empty for the whole
 * instrument; `step` and `reading` are never empty.  Decimal point or comma: the sheet's own mark
 * is put in. */
typedef struct hl_journal_row {
    const char *note, *step, *reading, *time, *by, *method, *remark;
} hl_journal_row;

/* Open an existing tidy sheet for appending.
 *
 * A last line without line end, in a sheet with the version line `# hammerline: tidy 1`, was cut
 * short by a crash: it is appended to SHEET.torn and taken off the sheet (see hl_journal_torn).
 * Without the version line somebody else's program wrote the sheet, and a missing last line end is
 * ordinary there; but `9.5` may still be the half of `9.53`.  So such a line is kept, and ended
 * by the first append, only when it has a cell for every head and the cut could not have been in
 * its note, step, reading or method: the last cell is another column's, or is in closed quotes.
 * Otherwise opening is refused and nothing is changed.
 *
 * HL_E_SHEET: not there, not a tidy sheet, or an unsure last line.  HL_E_SAVE: can't be written,
 * locked or put on disk. */
hl_code hl_journal_open(hl_journal **out, const char *path, hl_err *err);
void hl_journal_close(hl_journal *journal);

/* Append one row.  HL_OK means that its bytes are on the disk.  Every failure is HL_E_SAVE (or
 * HL_E_MEMORY) and its `what` ends with the row's text.  After a failed fdatasync(), or when the
 * file at the sheet's path is no longer the one that was opened, the journal takes no more rows:
 * close it, open the sheet again and look at its last rows. */
hl_code hl_journal_append(hl_journal *journal, const hl_journal_row *row, hl_err *err);

/* The row of the last failed append in full (an hl_err may have to cut it); "" when it was saved. */
const char *hl_journal_unsaved(const hl_journal *journal);
/* Lines set aside so far, shown without control characters; "" when none.  Appending may set one
 * aside too, when another session was killed meanwhile. */
const char *hl_journal_torn(const hl_journal *journal);
/* True, once, when somebody else changed the sheet since our last look: read it anew.  Stays true
 * while another file stands at its path. */
bool hl_journal_grew(hl_journal *journal);
/* Does the sheet have this column ("time", "remark" ...)?  A row that needs a missing one is
 * refused, so leave that field empty. */
bool hl_journal_has(const hl_journal *journal, const char *column);

/* Make a new tidy sheet: version line, `# book: ID`, the fact lines (each begins with '#'; may be
 * NULL), then the heads.  Appears whole and on disk, or not at all; never replaces a file. */
hl_code hl_journal_create(const char *path, const char *book, const char *facts, hl_err *err);

/* ---- audits ------------------------------------------------------------------------------ */

typedef enum hl_verdict {
    HL_PASS,
    HL_FAIL,
    HL_DOUBTFUL,
    HL_STALE,
    HL_MISSING,
    HL_NOT_APPLICABLE,
} hl_verdict;
#define HL_VERDICTS 6
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
    HL_WHY_ADJUSTED,    /* read before something that moves it was adjusted */
    HL_WHY_QUERY,       /* a remark about this note is still open */
    HL_WHY_BOOK,        /* the book leaves the step out */
    HL_WHY_SCOPE,       /* the step does not apply to this note */
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

typedef struct hl_finding {
    int step, note; /* step -1: an open query; note 0: the instrument */
    hl_verdict verdict;
    hl_why why;
    bool has_value;
    hl_amount value; /* measured or computed */
    hl_amount shift; /* stale: how far the reading is expected to have moved; uneven: how far out;
                        floated: how far beyond its target, negative = below */
    hl_amount moved; /* a fresh reading: how far adjustments since are expected to have moved it */
    bool floated;    /* passes beyond its target, because the book lets this step give way */
    bool go;         /* a go/no-go reading: it has no value */
    int word;        /* judged fault: index into the step's words, else -1 */
    bool computed;   /* derived, or from a model */
    bool assumed;    /* computed with an assumed fact */
    bool has_model;  /* what was read can be compared with what the step's model says of it */
    bool model_differs, model_assumed; /* by more than the gauges allow; told, never judged */
    hl_amount model;
    hl_target target;
    int line, column;   /* where the reading stands in the sheet; 0 when nowhere */
    const char *remark; /* the reading's remark, the query's text, the book's reason; or "" */
    bool follows; /* it goes away when another fault of the note is cured: it has no corrections */
    int follows_step;            /* put this one right first */
    hl_amount follows_predicted; /* and expect this */
    const hl_correction *corrections;
    int n_corrections;
} hl_finding;

typedef struct hl_tally {
    int count[HL_VERDICTS];
    int go;      /* how many of the passes are go/no-go readings */
    int floated; /* how many of the passes lie beyond their target, inside the float */
    bool has_unevenness;
    hl_amount unevenness; /* one figure for the step: largest departure from neighbours */
    bool has_mad;
    hl_amount mad; /* median absolute deviation of (reading - aim), for information only */
} hl_tally;

/* Judge the sheet by the book.  Both must outlive the audit; the sheet must have been read. */
hl_code hl_audit_run(hl_audit **out, const hl_sheet *sheet, const hl_book *book, hl_err *err);
void hl_audit_free(hl_audit *audit);
/* True when every required step at every note it applies to has a fresh reading that passes, and
 * the sheet has no bad row. */
bool hl_audit_ready(const hl_audit *audit);
/* All findings, passes too, in the book's order, then along the compass. */
const hl_finding *hl_audit_findings(const hl_audit *audit, size_t *n);
const hl_tally *hl_audit_tally(const hl_audit *audit, int step);
const hl_tally *hl_audit_total(const hl_audit *audit);
/* The step that this book lets give way when dip, blow and aftertouch can't all be met; -1 when
 * it holds them all. */
int hl_audit_float(const hl_audit *audit);

/* A diagnosis that the readings bear out. */
typedef struct hl_diagnosed {
    int diagnosis;   /* index */
    int note;        /* 0: the instrument */
    int holds, told; /* at how many notes it holds, of those at which it can be told */
} hl_diagnosed;
/* In the book's order, then along the compass. */
const hl_diagnosed *hl_audit_diagnoses(const hl_audit *audit, size_t *n);

/* ---- key leads --------------------------------------------------------------------------- */

typedef struct hl_leads_ask {
    bool has_target; /* else the aim of the book's `balance_weight` */
    hl_amount target;
    bool has_carried;  /* else what the sheet says, or nothing */
    hl_amount carried; /* grams of lead that the key carries already */
} hl_leads_ask;

/* Where the change in front weight comes from. */
typedef enum hl_leads_by {
    HL_LEADS_LACKING, /* something was not read: `lacks` */
    HL_LEADS_BALANCE, /* measured balance weight less the one wanted */
    HL_LEADS_WEIGHTS, /* hammer weight x weight ratio + whippen weight x key ratio - front weight */
} hl_leads_by;

#define HL_LEADS 4
typedef struct hl_lead {
    hl_amount mass, place; /* grams; mm from the balance pin towards the front */
} hl_lead;

typedef struct hl_leads {
    hl_leads_by by;
    const char *lacks; /* id of the first step or fact that is missing; "" otherwise */
    bool has_needed, has_change, has_balance, has_front;
    hl_amount target;        /* balance weight wanted */
    hl_amount balance;       /* balance weight now, read or reckoned */
    hl_amount front;         /* key front weight now */
    hl_amount needed;        /* key front weight that gives the balance weight wanted */
    hl_amount change;        /* of the key front weight: + heavier, - lighter */
    bool remove;             /* leads are taken out and their holes plugged, else put in */
    hl_lead leads[HL_LEADS]; /* fewest pieces, then least inertia */
    int n_leads;             /* 0: no change is nearer than the smallest lead */
    hl_amount gives;         /* change of the front weight by these leads, wood reckoned in */
    hl_amount predicted;     /* balance weight that follows */
    bool lands;              /* it lies in the target of `balance_weight` */
    bool short_of;           /* the leads at hand can't give the whole change */
    hl_amount lead;          /* grams, all pieces together */
    double inertia;          /* of these leads about the balance pin, g mm^2 */
    hl_amount carried;       /* lead in the key afterwards, as far as it is known */
    bool too_much;           /* more than the shop's `most_lead_per_key`: look at friction and geometry */
    bool friction_first;     /* the note's friction is too high: cure that and weigh again */
    bool sampled;            /* a weight lies on the line between sample notes */
    bool assumed;            /* a fact is the book's assumption */
} hl_leads;

/* The leads that bring a note's balance weight to the one wanted (grands without assist springs).
 * `ask` may be NULL.  HL_E_USAGE when the book knows no balance weight, or no such note. */
hl_code hl_leads_for_note(hl_leads *out, const hl_audit *audit, int note, const hl_leads_ask *ask,
                          hl_err *err);

/* ---- checking a book ---------------------------------------------------------------------- */

/* What is wrong with a book that opens: each a hl_err with file and line.  Start as {0}. */
typedef struct hl_complaints {
    hl_err *items;
    size_t n, room;
} hl_complaints;
void hl_complaints_free(hl_complaints *complaints);

/* Missing words and sources, strong moves onto earlier steps that the book has not acknowledged,
 * steps that mask each other in a circle, targets that contradict each other at some note. */
hl_code hl_book_check(hl_complaints *complaints, const hl_book *book, hl_err *err);

/* A rule test file and the book it tests. */
hl_code hl_rule_tests_open(hl_rule_tests **out, const char *path, const hl_shelf *shelf, hl_err *err);
void hl_rule_tests_free(hl_rule_tests *tests);
int hl_rule_tests_count(const hl_rule_tests *tests);
/* The book that they test. */
const hl_book *hl_rule_tests_book(const hl_rule_tests *tests);
/* Run every case; one complaint a case that did not come out as it says. */
hl_code hl_rule_tests_run(hl_complaints *complaints, const hl_rule_tests *tests, hl_err *err);

/* ---- printing into memory ---------------------------------------------------------------- */

typedef struct hl_print {
    int width;  /* columns; 0 = 80 */
    bool color; /* words carry the verdict; colour only underlines it */
} hl_print;

/* Each returns malloc'ed text in *out, *size bytes, NUL-terminated; give it to hl_free(). */
hl_code hl_audit_text(char **out, size_t *size, const hl_audit *audit, const hl_print *print, hl_err *err);
hl_code hl_audit_json(char **out, size_t *size, const hl_audit *audit, hl_err *err);
/* The object that stands in for the audit of a sheet that could not be judged at all. */
hl_code hl_error_json(char **out, size_t *size, const char *sheet, const hl_err *error, hl_err *err);
/* One line of a list of books: its name and title (or what is `broken`, when book is NULL), and where
 * it stands. */
hl_code hl_book_line(char **out, size_t *size, const char *path, const hl_book *book, const hl_err *broken,
                     hl_err *err);
/* The book's steps in order, a line or two each; its adjusters, facts and diagnoses. */
hl_code hl_book_text(char **out, size_t *size, const hl_book *book, const hl_print *print, hl_err *err);
/* One step in full: target (at `note` of the book's compass, or along it for 0), how to measure,
 * why, what adjusts it, what disturbs it, source, where each was set. */
hl_code hl_step_text(char **out, size_t *size, const hl_book *book, int step, int note, const hl_print *print,
                     hl_err *err);
/* One adjuster in full: its ways, what it moves and by how much, what it is for, where each was set. */
hl_code hl_adjuster_text(char **out, size_t *size, const hl_book *book, int adjuster, int note,
                         const hl_print *print, hl_err *err);
/* What differs from book a to book b, a line each with both places; empty when nothing does. */
hl_code hl_book_diff(char **out, size_t *size, const hl_book *a, const hl_book *b, const hl_print *print,
                     hl_err *err);
/* A blank wide sheet for the book. */
hl_code hl_sheet_blank(char **out, size_t *size, const hl_book *book, hl_err *err);
/* "file:line:column: what; todo" and a newline, safe for a terminal. */
hl_code hl_err_text(char **out, size_t *size, const hl_err *err);
void hl_free(char *text);

#ifdef __cplusplus
}
#endif
#endif
