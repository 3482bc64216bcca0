/* walk.h - the walk: what its files share (layer: cli/walk).
 *
 * The sheet on disk is the truth.  Every entry is appended, then the sheet is read and audited again;
 * what is here besides is only where the walk is, and what this session wrote (for undo). */
#ifndef HL_WALK_H
#define HL_WALK_H

#include "hammerline.h"
#include "options.h"
#include "output.h"
#include "rule_paths.h"
#include "terminal.h"
#include "walk_entry.h"

typedef struct place {
    int step, note; /* note 0: the instrument; step -1: nowhere */
} place;

/* A row that this session appended. */
typedef struct kept_row {
    const char *id; /* of the step or adjuster */
    place at;       /* where it was typed; for an adjustment the step it was advised for */
    int entry;      /* rows of one entry share a number */
    int row_note;   /* 0: the instrument */
    int line;       /* in the sheet */
    long order;     /* of its entry in a sheet with marks, else 0; and which row of it */
    int row;
    bool adjustment;
    char *text, *method, *remark;
} kept_row;

/* A row on its way to the sheet. */
typedef struct draft_row {
    hl_journal_row row; /* time and reader are filled in when it is saved */
    kept_row as;        /* id NULL: not remembered for undo */
} draft_row;

/* One stop of the second pass, in the order of tools. */
typedef struct stop {
    place at;
    int adjuster; /* -1: nothing to turn, only to read */
    int rank;     /* what is done at one visit is together */
} stop;

/* What a reading should come to after the work that is in the sheet below the last one. */
typedef struct expectation {
    int adjuster; /* that was worked on; -1: nothing is expected */
    bool known;   /* else the last reading was a gauge's, without a number */
    hl_amount before, after;
} expectation;

typedef struct walk {
    const request *asked;
    bookshelf shelf;
    hl_book *book;
    hl_journal *journal;
    hl_sheet *sheet;
    hl_audit *audit;
    const char *path;
    terminal terminal;
    hl_print print;
    int keys;
    const hl_finding **cells; /* [n_steps * (keys + 1)]: the finding, or NULL */
    unsigned char *verdicts;  /* the same before the last entry; HL_VERDICTS = none */
    place *order;             /* all places in the book's order */
    size_t n_order;
    stop *stops; /* the second pass */
    size_t n_stops;
    unsigned char *opened; /* [n_steps]: optional, and asked for by name */
    unsigned char *shown;  /* [n_steps]: how to measure was said, and its caution */
    unsigned char *warned; /* [n_stages] */
    bool again;            /* second pass */
    place here;            /* step -1: all is read */
    place spoken;          /* the last place that was announced */
    stop group;            /* and the last group */
    bool stay;             /* gone to by name: stay although it is read */
    int linger;            /* the step that a range finished: its exceptions come next; -1: none */
    place focus;           /* what was looked at or read last: done is about it; step -1: nothing */
    place last;            /* the last reading of this session; step -1: none */
    bool moved;            /* gone elsewhere since: what is said now is about the note shown */
    place unmoved;         /* where work was last found to have changed nothing, ... */
    int n_unmoved;         /* ... and how many times running */
    int pass_entry;        /* entries up to this one are of an older pass */
    char with[128];        /* gauge or method */
    int with_step;
    char named[64]; /* the notes that the line in hand names, as typed; "" when none */
    kept_row *kept;
    size_t n_kept, room_kept;
    int entry;
    int n_saved;
    bool torn_told, said_all, linger_said;
    bool over; /* the walk is to end ... */
    int code;  /* ... with this exit code */
} walk;

/* ---- walk_sheet.c: the files ---- */
int walk_open(walk *w);
void walk_close(walk *w);
/* Read and audit the sheet as it is on disk.  False: the walk is over. */
bool walk_reload(walk *w);
/* Remember the verdicts of now, to say what an entry changed. */
void walk_keep_verdicts(walk *w);
/* Save rows as one entry, remember them, and read the sheet again.  False, after a word: the walk is over
 * (their text was shown), or somebody else changed meanwhile what these rows are about, and nothing was
 * saved. */
bool walk_save(walk *w, const draft_row *rows, size_t n, bool range);
bool walk_save_row(walk *w, const hl_journal_row *row, const kept_row *as);
/* The reading that withdraws this row. */
void walk_void(char out[32], const kept_row *row);
void walk_forget(walk *w, size_t n_left);
/* False after a complaint when the reader would refuse the row. */
bool walk_check(walk *w, const hl_journal_row *row);
const char *walk_time(char out[32]);
void walk_no_memory(walk *w);

/* ---- walk_order.c: where to go ---- */
bool walk_make_order(walk *w);
const hl_finding *walk_cell(const walk *w, place at);
const char *walk_note_name(const walk *w, int note); /* "" for the instrument */
bool walk_is_open(const walk *w, place at);          /* to be read, in the book's order */
/* The first open place after `at`, else the first of all; step -1: none. */
place walk_next_open(const walk *w, place at);
place walk_neighbour(const walk *w, place at, int way);
int walk_count_open(const walk *w, place from, place to);
/* The first open place of a step, else its first; step -1: it has none. */
place walk_begin_step(const walk *w, int step);
/* A range has finished the step, and the walk waits for exceptions or `next`. */
bool walk_lingers(const walk *w);
/* Moves on when what is here is read. */
void walk_settle(walk *w);
bool walk_same_place(place a, place b);

/* ---- walk_stops.c: the second pass ---- */
bool walk_make_stops(walk *w);
place walk_next_stop(const walk *w, place after);

/* ---- walk_say.c: words on the screen ---- */
void walk_say(const walk *w, int first, int hang, const char *format, ...) SAY_PRINTF(4, 5);
void walk_say_error(const walk *w, const hl_err *err);
/* The same of a row that was typed: what to write instead begins with w->named. */
void walk_say_refusal(const walk *w, const hl_err *err, const char *reading);
void walk_say_finding(const walk *w, const hl_finding *finding, const char *before);
void walk_reading(const walk *w, char *out, size_t room, const hl_finding *finding);
void walk_target(const walk *w, char *out, size_t room, place at);
void walk_announce(walk *w);
void walk_prompt(walk *w);
void walk_say_end(walk *w);

/* ---- walk_read.c: readings ---- */
void walk_take_reading(walk *w, const entry *typed);
void walk_take_skip(walk *w, const entry *typed);
/* What else changed by the last entry; `done` is where it was made. */
void walk_say_changes(walk *w, const place *made, size_t n);
/* The notes a line is about, at `step`, in the walk's order; malloc'ed, NULL after a complaint. */
place *walk_select(walk *w, const entry *typed, size_t *n);

/* ---- walk_expect.c: what the work on record should have made of a reading ---- */
/* To be asked before the new reading is appended. */
expectation walk_expect(const walk *w, place at);
/* After it: true when it is the old reading, as far as the gauge can tell.  Then all there is to say was
 * said.  `presumed`: the audit presumes work that nobody wrote down. */
bool walk_says_unmoved(walk *w, place at, const expectation *e, bool presumed);
/* "46.0 mm" */
void walk_amount(const walk *w, int step, hl_amount value, char *out, size_t room);

/* ---- walk_turn.c: adjustments ---- */
void walk_take_done(walk *w, const entry *typed);
void walk_take_between(walk *w, const entry *typed);

/* ---- walk_words.c: remarks, queries, undo ---- */
void walk_take_undo(walk *w);
void walk_take_withdraw(walk *w, const entry *typed);
void walk_take_remark(walk *w, const entry *typed);
void walk_take_query(walk *w, const entry *typed, bool close);
void walk_take_pass(walk *w, const entry *typed);
void walk_take_with(walk *w, const entry *typed);

/* ---- walk_go.c, walk_look.c: going about, and looking ---- */
void walk_take_go(walk *w, const entry *typed);
void walk_take_note(walk *w, const entry *typed);
void walk_take_next(walk *w, int way);
void walk_take_again(walk *w, bool on);
void walk_show_how(walk *w);
void walk_show_near(walk *w);
void walk_show_list(walk *w);
void walk_show_help(walk *w, const entry *typed);
/* A name as ids are written: lower case, blanks and '-' as '_'. */
void walk_fold(char *out, size_t room, const char *text);

/* ---- walk_new.c ---- */
/* Make the sheet of `walk --new BOOK SHEET`. */
int walk_make_sheet(walk *w, const char *book);

#endif
