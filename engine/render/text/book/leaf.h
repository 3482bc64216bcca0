/* leaf.h - what the printers of a book share (layer: render/text).
 *
 * A leaf is a page without an audit: text_book.c prints a whole book, text_rule.c one step or one
 * adjuster, text_diff.c two books.  Every word from a rule file passes through hl__text_safe. */
#ifndef HL_LEAF_H
#define HL_LEAF_H

#include "book.h"
#include "hammerline/print.h"
#include "text.h"

typedef struct hl_leaf {
    hl_text *out;
    const hl_book *book;
    int width;
} hl_leaf;

/* `print` may be NULL. */
hl_leaf hl__leaf_start(hl_text *out, const hl_book *book, const hl_print *print);
/* Wraps the paragraph onto the leaf and empties it for the next one. */
void hl__leaf_add(hl_leaf *leaf, hl_text *paragraph, int first, int hang);
/* Fills the paragraph up to a column, with blanks that stay as they are. */
void hl__leaf_column(hl_text *paragraph, int column);
/* "[grand/drop.lua:3]" behind a blank. */
void hl__say_place(hl_text *out, hl_origin origin);

/* "every note", "samples, naturals", "if you like", "computed, every note". */
void hl__say_asked(hl_text *out, const hl_step *step);
/* The targets along the compass, by colour where colours differ, a few notes where they are graded. */
void hl__say_targets(hl_text *out, const hl_book *book, const hl_step *step);
/* The aim left aside. */
bool hl__same_limits(const hl_target *a, const hl_target *b);
/* "# travel_ratio: 5, sharps 5.1", with its unit; "not stated" when it has no value. */
void hl__say_fact(hl_text *out, const hl_fact *fact);

/* text_choices.c: the schools of a book, each with its options; those that two books take differently. */
void hl__leaf_choices(hl_leaf *leaf);
void hl__leaf_choices_differ(hl_leaf *leaf, const hl_book *a, const hl_book *b);

#endif
