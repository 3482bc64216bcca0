/* groups.h - the findings of one step, put together so that one line can say several (layer: render/text).
 *
 * A step's findings make a block; the block gives out groups, each the findings that one line can say.
 * group_act.c, group_reason.c and group_after.c write the parts of that line. */
#ifndef HL_GROUPS_H
#define HL_GROUPS_H

#include "page.h"

/* Findings of one step that one line tells of, ascending notes. */
typedef struct hl_group {
    const hl_finding **members; /* at least one */
    int n;
} hl_group;

/* The notes of some findings of one step, folded. */
void hl__page_notes(const hl_page *page, hl_text *out, const hl_finding *const *members, int n);

/* The parts of a group's line: what to do, why, and what follows from it. */
const hl_step *hl__group_step(const hl_page *page, const hl_group *of);
void hl__group_act(const hl_page *page, hl_text *out, const hl_group *of);
void hl__group_reason(const hl_page *page, hl_text *out, const hl_group *of);
void hl__group_after(const hl_page *page, hl_text *out, const hl_group *of);

/* The failing step that makes the group's readings mean nothing as long as it fails, or NULL. */
const hl_step *hl__group_mask(const hl_page *page, const hl_group *of);

/* ---- what was done since a reading (works_since.c) --------------------------------------------- */

#define HL_WORKS 4 /* adjusters named; the rest are "and more" */

typedef struct hl_work {
    int adjuster;
    hl_amount amount; /* all of it together, + = `more` */
    bool no_amount;   /* some of it has none */
    int way;          /* 1 more, -1 less, 0 not said */
} hl_work;

typedef struct hl_works {
    hl_work items[HL_WORKS];
    int n;
    bool more;
    bool known; /* all of it moves the reading by an amount that is known */
} hl_works;

void hl__works_since(hl_works *works, const hl_audit *audit, const hl_finding *finding);
/* Is row `at` of the sheet work that moved what the reading of this step, or of what it is computed from,
 * rests on? */
bool hl__work_overtakes(const hl_audit *audit, size_t at, int step, int note);
bool hl__works_same(const hl_works *a, const hl_works *b);
/* "work on the capstan (raise 1/4 turn)". */
void hl__say_works(hl_text *out, const hl_book *book, const hl_works *works);

/* ---- the findings of one step while they are printed (groups.c) ------------------------------------ */

typedef struct hl_block {
    const hl_finding *findings;
    size_t n;
    bool *said;              /* [n] */
    hl_works *works;         /* [n]: what was done since, of stale ones */
    const hl_finding **room; /* [n] */
    int n_strange;           /* pass, but don't fit their model */
    bool work;               /* one of them has a correction */
} hl_block;

/* False: no memory.  Free it in any case. */
bool hl__block_start(hl_block *in, const hl_audit *audit, int step);
void hl__block_free(hl_block *in);
/* Is it a finding of this verdict, and is there something to say of it? */
bool hl__is_worth_saying(const hl_finding *finding, hl_verdict verdict);
/* The next findings of this verdict that one line can say, from the lowest note up; they count as
 * said then, and stay in *group until the next call. */
bool hl__block_next(hl_block *in, hl_verdict verdict, hl_group *group);
/* "Key dip: 3 out, 1 to read again"; then hl__say_part() may add ", 2 not measured". */
void hl__say_headline(hl_text *out, const hl_audit *audit, int step, const hl_block *in);
void hl__say_part(hl_text *out, int n, const char *words);

/* ---- what there is to say --------------------------------------------------------------------- */

bool hl__tally_clean(const hl_tally *tally);
/* Is there anything to say of the step?  Readings that pass but don't fit their model are named too. */
bool hl__step_silent(const hl_audit *audit, int step);
/* Queries of the sheet that nobody closed; they count as fails of the total. */
int hl__count_queries(const hl_audit *audit);

/* Findings that one line can say: same verdict, same fault, same correction. */
bool hl__findings_alike(const hl_finding *a, const hl_finding *b);
/* The same numbers in the same order? */
bool hl__same_ints(const int *a, int n_a, const int *b, int n_b);
/* Least and most of what `take` takes of the members. */
void hl__group_span(const hl_group *of, hl_amount (*take)(const hl_finding *), hl_amount *low,
                    hl_amount *high);
/* "Key dip, Hammer blow and Let-off". */
void hl__say_titles(hl_text *out, const hl_book *book, const int *steps, int n);
/* The same of the steps that a step's formula reads. */
void hl__say_inputs(hl_text *out, const hl_book *book, const hl_step *step);

#endif
