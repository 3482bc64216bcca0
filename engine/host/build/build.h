/* build.h - from a draft to the flattened book (layer: host/build).
 *
 * Everything made is the book's arena's.  The parts are built in the order in which they need each
 * other; an item has the same index in the draft and in the book. */
#ifndef HL_BUILD_H
#define HL_BUILD_H

#include "book.h"
#include "draft.h"
#include "hammerline/book.h"

typedef struct hl_builder {
    hl_book *book;
    const hl_draft *draft;
    hl_err *err;
} hl_builder;

/* An error of one item: kept while errors are, so that the next one is built too. */
hl_code hl__build_keep(hl_builder *b, hl_code code);
/* The whole of it. */
hl_code hl__build(hl_book *book, const hl_draft *draft, hl_err *err);

hl_code hl__build_head(hl_builder *b); /* title, compass */
hl_code hl__build_stages(hl_builder *b);
hl_code hl__build_facts(hl_builder *b);
hl_code hl__build_steps(hl_builder *b); /* without what refers to others */
hl_code hl__build_targets(hl_builder *b);
hl_code hl__build_adjusters(hl_builder *b);  /* without moves */
hl_code hl__build_references(hl_builder *b); /* fixes, masks, ways out of faults */
hl_code hl__build_formulas(hl_builder *b);   /* of steps; refuses circles */
hl_code hl__build_moves(hl_builder *b);
hl_code hl__build_diagnoses(hl_builder *b);
hl_code hl__build_choices(hl_builder *b);
hl_code hl__build_sources(hl_builder *b);
hl_code hl__build_renamed(hl_builder *b);   /* before the formulas, which may use old names */
hl_code hl__build_old_names(hl_builder *b); /* after them */
hl_code hl__build_float(hl_builder *b);
hl_code hl__build_acknowledged(hl_builder *b);
hl_code hl__build_files(hl_builder *b);

/* Fail at a place: "what; did you mean 'nearest'?", or otherwise. */
hl_code hl__build_fail(hl_builder *b, hl_origin at, const char *todo, const char *what, ...) HL_PRINTF(4, 5);
hl_code hl__build_unknown(hl_builder *b, hl_origin at, hl_draft_part part, const char *in, const char *id);
/* Index of a step or adjuster, or an error at the place. */
hl_code hl__build_index(hl_builder *b, hl_draft_part part, const hl_value *name, const char *in, int *out);
/* A number or a text with a unit as an amount; `unit` is what a bare number means. */
hl_code hl__build_amount(hl_builder *b, const hl_value *value, hl_unit unit, hl_amount *out);
/* The same; must be above zero. */
hl_code hl__build_size(hl_builder *b, const hl_value *value, hl_unit unit, const char *name, hl_amount *out);
/* A text, or "". */
const char *hl__build_text(const hl_value *value);
/* A formula over steps and facts, or over facts only. */
hl_code hl__build_formula(hl_builder *b, const char *text, hl_origin at, bool facts_only, hl_formula **out);
hl_code hl__build_changes(hl_builder *b, const hl_draft_item *item, const hl_change **out, int *n);

#endif
