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
    int sign;                  /* HL_MOVE_STRONG: the reading goes up (1) or down (-1); 0 = not known */
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
int hl_book_n_choices(const hl_book *book);
const hl_chosen *hl_book_choice(const hl_book *book, int i);

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
/* Is it a tidy sheet, a row a reading?  Known once it has been read. */
bool hl_sheet_is_tidy(const hl_sheet *sheet);
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

/* Put a text into a file: it appears whole and on disk, or not at all.  A file of that name is left
 * alone, unless `replace`; what is no ordinary file always is. */
hl_code hl_file_save(const char *path, const char *text, size_t size, bool replace, hl_err *err);

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

/* An adjustment that nobody wrote down: a reading was taken again in the same pass, by the same
 * person and method, and differs from what it should have been by more than gauge and moves allow. */
typedef struct hl_presumed {
    int adjuster, note;
    int step;         /* whose reading changed */
    int line;         /* where it stands */
    hl_amount amount; /* that would explain it, + = `more` */
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

/* ---- at the bench ------------------------------------------------------------------------ */

/* Would the sheet's reader take this row below the others?  HL_E_SHEET with what is wrong and what
 * to write instead; so nothing need be appended that would have to be mended.  A row of a step, an
 * adjuster, `query` or `pass`; its time, by, method and remark may be anything.  The sheet must have
 * been read, and is not changed. */
hl_code hl_sheet_check_row(const hl_sheet *sheet, const hl_journal_row *row, hl_err *err);
/* Is the step read at this note of this piano?  Note 0: once for the instrument. */
bool hl_sheet_applies(const hl_sheet *sheet, int step, int note);
bool hl_sheet_is_sample(const hl_sheet *sheet, int note);
int hl_sheet_section(const hl_sheet *sheet, int note); /* from 0 */
/* The line of the row that counts for a step or an adjuster (by id) at a note; 0: there is none. */
int hl_sheet_line(const hl_sheet *sheet, const char *id, int note);

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
    int adjuster;                    /* or -1: then the word says what to do */
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
/* What may be a slip, and may be meant: moves that a later entry turned round, or made more than three
 * times as large or as small. */
hl_code hl_book_warn(hl_complaints *warnings, const hl_book *book, hl_err *err);

/* A rule test file and the book it tests. */
hl_code hl_rule_tests_open(hl_rule_tests **out, const char *path, const hl_shelf *shelf, hl_err *err);
void hl_rule_tests_free(hl_rule_tests *tests);
int hl_rule_tests_count(const hl_rule_tests *tests);
/* The book that they test. */
const hl_book *hl_rule_tests_book(const hl_rule_tests *tests);
/* Run every case; one complaint a case that did not come out as it says. */
hl_code hl_rule_tests_run(hl_complaints *complaints, const hl_rule_tests *tests, hl_err *err);

/* ---- fleets ------------------------------------------------------------------------------ */

/* Thousands of sheets, each judged whole, told one by one in the order given.  The order and every
 * byte are the same for any number of threads; memory is bounded by a few sheets a thread.
 *
 * A file whose header has a column `sheet` holds many sheets: the rows of one stand together and
 * name it there; facts above the header hold for all of them.  Such a file is read in pieces, so
 * it may be larger than any one sheet. */

/* One sheet of a fleet.  Everything in it ends with the call that brings it. */
typedef struct hl_fleet_sheet {
    const char *title;   /* its path; in a file of many, "path: name" */
    const hl_book *book; /* NULL when none could be opened */
    bool judged;         /* else `errors` says why it could not be */
    bool ready;
    bool again; /* its rows don't stand together: a part of it was told before, which is void now, */
    bool was_judged, was_ready; /* and said this */
    bool has_work;              /* something of the book applies to it: else there is nothing to judge */
    hl_code code;               /* HL_OK; HL_E_SHEET too when it was judged but has bad rows */
    const int (*counts)[HL_VERDICTS]; /* [n_steps] */
    int total[HL_VERDICTS];           /* an open query counts as a fail here, and in no step */
    const int *cures;                 /* [n_adjusters]: failing readings that it is the first cure of */
    const hl_err *errors;
    int n_errors;
    size_t unlisted;       /* bad rows that found no place in `errors` */
    const hl_audit *audit; /* NULL unless options->keep */
    const char *text;      /* what options->print made of the audit; NULL without it */
    size_t size;
} hl_fleet_sheet;

/* The next path, which stays until the next call; NULL at the end.  One thread at a time calls it. */
typedef const char *hl_fleet_next(void *context);
/* Takes one sheet; false stops the run.  One thread at a time calls it, in the order given. */
typedef bool hl_fleet_take(void *context, const hl_fleet_sheet *sheet);
/* As hl_audit_json(); threads call it at the same time. */
typedef hl_code hl_fleet_print(char **out, size_t *size, const hl_audit *audit, hl_err *err);

typedef struct hl_fleet_options {
    const hl_shelf *shelf;
    const char *book;                /* wins over what the sheets name; NULL: they say */
    const hl_audit_options *judging; /* NULL: simple, every note */
    int threads;                     /* 0: one a core */
    bool careful;                    /* without the short way for plain sheets: the same results, slower */
    bool keep;                       /* hand out the audits */
    hl_fleet_print *print;           /* NULL: no text */
} hl_fleet_options;

/* HL_OK when every sheet was told, whatever it was told of them; a book is opened once and shared. */
hl_code hl_fleet_run(const hl_fleet_options *options, hl_fleet_next *next, void *next_context,
                     hl_fleet_take *take, void *take_context, hl_err *err);
/* Does this file hold many sheets?  False, too, when it can't be read. */
bool hl_fleet_is_many(const char *path);

/* What all sheets come to, step by step.  Start as {0}. */
typedef struct hl_fleet_totals {
    long n_sheets, n_judged, n_ready;
    struct hl_fleet_total *books; /* one a book, in the order of their first sheets */
    size_t n, room;
} hl_fleet_totals;
hl_code hl_fleet_totals_add(hl_fleet_totals *totals, const hl_fleet_sheet *sheet, hl_err *err);
void hl_fleet_totals_free(hl_fleet_totals *totals);

/* ---- printing into memory ---------------------------------------------------------------- */

typedef struct hl_print {
    int width;  /* columns; 0 = 80 */
    bool color; /* words carry the verdict; colour only underlines it */
} hl_print;

/* Each returns malloc'ed text in *out, *size bytes, NUL-terminated; give it to hl_free(). */
hl_code hl_audit_text(char **out, size_t *size, const hl_audit *audit, const hl_print *print, hl_err *err);
/* What was learned and is used, as lines to keep: a fact line for the sheet (`# capstan_pitch: 1.12`)
 * where one fact says it all, else an adjuster line for a shop's book.  Empty when nothing is used. */
hl_code hl_learned_text(char **out, size_t *size, const hl_audit *audit, hl_err *err);
hl_code hl_audit_json(char **out, size_t *size, const hl_audit *audit, hl_err *err);
/* The findings as a table for spreadsheets (RFC 4180), passes too; the columns are described in
 * csv_audit.c.  `heads`: with the row of column heads; without an audit (NULL) that row alone. */
hl_code hl_audit_csv(char **out, size_t *size, const hl_audit *audit, bool heads, hl_err *err);
/* "hall-7.csv: not ready: 14 readings out in 5 steps, 2 not measured." and a newline. */
hl_code hl_fleet_line(char **out, size_t *size, const hl_fleet_sheet *sheet, hl_err *err);
/* The steps in which something is not right, the first cures, how many sheets are ready. */
hl_code hl_fleet_totals_text(char **out, size_t *size, const hl_fleet_totals *totals, hl_err *err);
/* JSON as hl_audit_json() prints it, made one line in place; returns its size. */
size_t hl_json_one_line(char *text, size_t size);
/* "All 4 sheets: 0 of 80 out: at 95 % at most 13 of 352 are out." and a newline. */
hl_code hl_samples_text(char **out, size_t *size, const hl_samples *samples, const hl_print *print,
                        hl_err *err);
/* The work list, the parts list and what should be read afterwards. */
hl_code hl_plan_text(char **out, size_t *size, const hl_plan *plan, const hl_print *print, hl_err *err);
hl_code hl_plan_json(char **out, size_t *size, const hl_plan *plan, hl_err *err);
/* The object that stands in for the plan of a sheet that can't be planned. */
hl_code hl_plan_error_json(char **out, size_t *size, const char *sheet, const hl_err *error, hl_err *err);
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
/* The facts of a blank tidy sheet, as lines for hl_journal_create(). */
hl_code hl_sheet_blank_facts(char **out, size_t *size, const hl_book *book, hl_err *err);
/* A sheet that was read without a bad row, written anew: the same readings, as they were typed, with
 * its facts, remarks, separator and decimal mark.  A tidy one keeps every row; a wide one the latest
 * reading of each note and step, and *lost says what it has no place for, a sentence a line ("" when
 * nothing; give it to hl_free()).  HL_E_SHEET: the first bad row, or a line too long to be written. */
hl_code hl_sheet_as_tidy(char **out, size_t *size, const hl_sheet *sheet, hl_err *err);
hl_code hl_sheet_as_wide(char **out, size_t *size, const hl_sheet *sheet, char **lost, hl_err *err);
/* One note's readings (0: the instrument's), pass beside pass, of one step or of all (-1), and the
 * adjustments between. */
hl_code hl_history_text(char **out, size_t *size, const hl_sheet *sheet, int note, int step,
                        const hl_print *print, hl_err *err);
/* One finding for the bench: `before` ("Saved. C5"), the reading and its verdict, then what to do and
 * what follows from it.  Short lines, the act first. */
hl_code hl_finding_text(char **out, size_t *size, const hl_audit *audit, const hl_finding *finding,
                        const char *before, const hl_print *print, hl_err *err);
/* Phrases of one line, without a line end: "49.0 mm: fail, high"; "44.0-48.0 mm", or the words of a
 * judged step; the adjustment as a tidy sheet's reading ("raise 1/4 turn"). */
hl_code hl_reading_text(char **out, size_t *size, const hl_audit *audit, const hl_finding *finding,
                        hl_err *err);
/* An amount as finely as the step is read: "46.0 mm". */
hl_code hl_amount_text(char **out, size_t *size, const hl_audit *audit, int step, hl_amount value,
                       hl_err *err);
hl_code hl_target_text(char **out, size_t *size, const hl_audit *audit, int step, int note, hl_err *err);
hl_code hl_adjustment_text(char **out, size_t *size, const hl_book *book, const hl_correction *correction,
                           hl_err *err);
/* Any text as a paragraph of the page's width, safe for a terminal; lines after the first stand
 * `hang` columns in. */
hl_code hl_paragraph_text(char **out, size_t *size, const char *text, int first, int hang,
                          const hl_print *print, hl_err *err);
/* The finished-job record as one HTML file: no script, nothing fetched, readable in grey and printed.
 * The same audit and options give the same bytes. */
typedef struct hl_report {
    const char *made; /* the day it is made, "2026-11-20"; NULL: not said */
    bool owner;       /* one page in plain words for the owner instead */
} hl_report;
/* `asked` may be NULL. */
hl_code hl_report_html(char **out, size_t *size, const hl_audit *audit, const hl_report *asked, hl_err *err);
/* A blank form of the book for the bench, to print: a page a stage, with targets and room to write. */
hl_code hl_form_html(char **out, size_t *size, const hl_book *book, hl_err *err);
/* "file:line:column: what; todo" and a newline, safe for a terminal. */
hl_code hl_err_text(char **out, size_t *size, const hl_err *err);
void hl_free(char *text);

#ifdef __cplusplus
}
#endif
#endif
