/* plan.h - the moves that put a whole sheet right, note by note (layer: advise/plan).
 *
 * The plan owns an arena and all that it hands out; the audit (with its book and sheet) is borrowed.
 *   plan.c          options, rounds over the compass
 *   plan_look.c     accessors
 *   plan_table.c    how the steps would stand, before and after the moves
 *   plan_line.c     targets on the line between samples
 *   plan_problem.c  one note as the solver wants it
 *   plan_attempt.c  one question put to the solver
 *   plan_note.c     one note solved, and what becomes of it
 *   plan_why.c      why a reading stays outside
 *   plan_rest.c     what is carried along, and the parts */
#ifndef HL_PLAN_H
#define HL_PLAN_H

#include "audit.h"
#include "findings.h"
#include "hammerline/plan.h"
#include "solve.h"

struct hl_plan {
    hl_arena arena;
    const hl_audit *audit;
    bool inspect_only, idle, reversible;
    bool *left_out; /* [n_adjusters]: not today */
    hl_plan_note *notes;
    int n_notes;
    hl_chore *chores;
    int n_chores;
    hl_part *parts;
    int n_parts;
    hl_on_line *lines;
    int n_lines;
};

/* The moves that an adjuster can make, worked out once. */
typedef struct hl_plan_moves {
    const hl_solve_move *list; /* NULL: by feel, or none */
    int n;
} hl_plan_moves;

typedef struct hl_planner {
    hl_plan *plan;
    const hl_audit *audit;
    const hl_book *book;
    const hl_sheet *sheet;
    hl_table table;       /* as it will stand: each note's moves are laid over it */
    hl_table settled;     /* the same before any move of this plan */
    hl_plan_moves *moves; /* [n_adjusters] */
    hl_target *lines;     /* [n_steps][keys + 1]: has_low where a line sets the target; or NULL */
    hl_plan_note *notes;  /* [keys + 1] */
    bool alone;           /* first round: each note for itself, as its neighbours may yet move */
    hl_arena scratch;     /* of the note in hand */
} hl_planner;

/* ---- plan_table.c ---- */
/* A copy of the audit's table in which what is stale stands at its expected value.  False = no memory. */
bool hl__plan_settle(hl_planner *planner);
/* Judge all numbers of the table anew, evenness and float too. */
void hl__plan_rejudge(hl_planner *planner);
/* Bring a note back to where it stands before any move. */
void hl__plan_restore(hl_planner *planner, int note);
/* Lay a predicted reading over the table; the derived ones follow by hl__plan_derive(). */
void hl__plan_lay(hl_planner *planner, int step, int note, hl_amount predicted);
void hl__plan_derive(hl_planner *planner, int note);

/* ---- plan_line.c ---- */
/* The targets that lie on the line between samples of the step.  HL_E_SHEET when none does. */
hl_code hl__plan_line(hl_planner *planner, int step, hl_err *err);
/* NULL where no line sets the target. */
const hl_target *hl__plan_on_line(const hl_planner *planner, int step, int note);
bool hl__plan_list_lines(hl_planner *planner);

/* ---- plan_problem.c ---- */

typedef struct hl_plan_row {
    int step;
    hl_amount reading;
    hl_target plain;  /* the book's target alone, floated where it passes so now */
    hl_target near;   /* its neighbours' band, or the line's; no limits where neither is asked */
    hl_target limits; /* both together; the aim is as near the book's as its neighbours let it */
    bool fails;
    bool guard;    /* passes by a gauge: no number, and it must not be moved out of its target */
    bool informed; /* nothing cures it: foretold, never steered by */
    bool active;   /* takes part in the attempt in hand */
} hl_plan_row;

typedef struct hl_problem {
    int note;
    hl_plan_row *rows; /* [n_steps]: the readings that can be reckoned with */
    int n_rows;
    hl_waiting *waiting; /* [n_steps] */
    int n_waiting;
    hl_effect **effects; /* [n_adjusters][n_steps] */
    bool *usable;        /* [n_adjusters] */
    bool *deferred;      /* [n_steps]: to be read again before it can be cured */
} hl_problem;

/* What of the note can be reckoned with.  False = no memory. */
bool hl__problem_start(hl_problem *problem, hl_planner *planner, int note);
bool hl__problem_fails(const hl_problem *problem);
hl_plan_row *hl__problem_row(const hl_problem *problem, int step);
/* The row's limits, or, when it is the book's floating step and `floats`, as far as that may go. */
hl_target hl__problem_limits(const hl_planner *planner, const hl_problem *problem, const hl_plan_row *row,
                             bool floats);

/* How far a computed value may lie out and still be rounded to its limit. */
hl_amount hl__problem_rounding(const hl_step *step);

/* Which ways out are tried. */
typedef struct hl_ways_out {
    bool all_movers; /* whatever moves a failing reading, not only what the book names for it */
    bool floats;     /* the book's floating step may give way */
    bool by_model;   /* as if the note had the ratio that its facts say: for the reason why */
} hl_ways_out;

typedef struct hl_attempt {
    hl_ways_out ways;
    hl_solve_code code;
    hl_solution found;
    int steps[HL_SOLVE_STEPS]; /* row -> step */
    int n_steps;
    int adjusters[HL_SOLVE_ADJUSTERS]; /* column -> adjuster */
    hl_solve_adjuster columns[HL_SOLVE_ADJUSTERS];
    int n_adjusters;
} hl_attempt;

/* False = no memory. */
/* ---- plan_attempt.c ---- */
bool hl__problem_solve(hl_attempt *out, hl_problem *problem, hl_planner *planner, hl_ways_out ways);

/* ---- plan_note.c ---- */
/* Solve the note from where it stands, against its neighbours as they will stand.  *changed: its
 * moves are others than before.  False = no memory. */
bool hl__plan_note(hl_planner *planner, int note, bool *changed);
/* The steps' working order: the first step that the adjuster is a way out for. */
int hl__plan_rank(const hl_book *book, int adjuster);

/* ---- plan_why.c ---- */
/* Fill note->unmet from the attempt and from what the table then says.  False = no memory. */
bool hl__plan_explain(hl_planner *planner, hl_problem *problem, const hl_attempt *attempt,
                      hl_plan_note *note);
/* What fails in the end and was not told yet: neighbours that would not settle. */
bool hl__plan_explain_rest(hl_planner *planner, hl_plan_note *note);

/* ---- plan_rest.c ---- */
bool hl__plan_carry(hl_planner *planner);
bool hl__plan_count_parts(hl_planner *planner);

#endif
