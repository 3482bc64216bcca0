/* diff.h - two books compared, for the files of this folder (layer: render/text).
 *
 * Book a is the old one, b the new one; a line names where b says so. */
#ifndef HL_DIFF_H
#define HL_DIFF_H

#include "leaf.h"

#define HL_DIFF_HANG 4 /* columns that the second line of a difference is set in */

typedef struct hl_diff {
    hl_leaf leaf;
    const hl_book *a, *b;
} hl_diff;

/* What a field belongs to: how a line names it, and where b says it. */
typedef struct hl_diff_thing {
    const char *word, *id; /* word "": a step or an adjuster, which are known by their ids */
    const hl_change *changes;
    int n_changes;
    hl_origin origin;
} hl_diff_thing;

/* ---- diff_line.c: one line.  A failed allocation is marked in the page. ---- */

/* Print the line with the place that says so, and empty it. */
void hl__diff_add(hl_diff *of, hl_text *line, hl_origin where);
/* ": why", when a reason is given. */
void hl__diff_why(hl_text *line, const char *why);
/* "stage bench: " */
void hl__diff_start(hl_text *line, const hl_diff_thing *of);
/* The change that last set a field; NULL when the first entry's word holds. */
const hl_change *hl__diff_change(const hl_diff_thing *of, const char *field);
/* End a line about a field with the reason and the place of its change. */
void hl__diff_finish(hl_diff *of, hl_text *line, const hl_diff_thing *it, const char *field);
/* Compare one field; prints nothing when both say the same. */
void hl__diff_text(hl_diff *of, const hl_diff_thing *it, const char *field, const char *old, const char *new);
void hl__diff_flag(hl_diff *of, const hl_diff_thing *it, const char *field, bool old, bool new);
void hl__diff_amount(hl_diff *of, const hl_diff_thing *it, const char *field, hl_amount old, hl_unit old_unit,
                     hl_amount new, hl_unit new_unit);
/* The same of two texts that were put together for this; empties them. */
void hl__diff_made(hl_diff *of, const hl_diff_thing *it, const char *field, hl_text *old, hl_text *new);
/* What only b has ("new step"), and what only a has. */
void hl__diff_new(hl_diff *of, const hl_diff_thing *it, const char *what, hl_origin where);
void hl__diff_gone(hl_diff *of, const hl_diff_thing *it);
/* "a, b" of the ids of a list. */
void hl__diff_listed(hl_text *out, const char *id);

/* ---- diff_steps.c ---- */

hl_diff_thing hl__diff_step(const hl_step *step);
void hl__diff_steps(hl_diff *of);

/* ---- diff_adjusters.c ---- */

/* Which step gives way, and by how much. */
void hl__diff_floats(hl_diff *of);
void hl__diff_facts(hl_diff *of);
void hl__diff_adjusters(hl_diff *of);
/* Moves that a book lets spoil a step: those that are gone, or those that are new or have another reason. */
void hl__diff_acknowledged(hl_diff *of, bool gone);

#endif
