/* draft.h - a book while its entries are laid over each other (layer: host/build).
 *
 * The lists are malloc'ed and freed by hl__draft_free(); what they point at is the arena's. */
#ifndef HL_DRAFT_H
#define HL_DRAFT_H

#include "book.h"
#include "entry.h"
#include "hammerline/book.h"
#include "load.h"
#include "quantity.h"

/* What was laid over an item, oldest first. */
typedef struct hl_history {
    hl_change change;
    struct hl_history *next;
} hl_history;

typedef struct hl_draft_item {
    const char *id;
    hl_origin origin; /* where it was made */
    hl_origin latest; /* where it was changed last */
    hl_value *values; /* by place of field; `unit` of each says what a bare number means */
    hl_history *first, **end;
    int n_changes;
    const hl_entry *skip;   /* a step that the book leaves out */
    const hl_entry *chosen; /* a choice: the `choose` that counts */
    int uses;               /* a choice: fields of steps that go by it */
} hl_draft_item;

typedef struct hl_draft_list {
    hl_draft_item **items;
    size_t n, room;
} hl_draft_list;

typedef enum hl_draft_part {
    HL_P_STAGE,
    HL_P_STEP,
    HL_P_ADJUSTER,
    HL_P_FACT,
    HL_P_DIAGNOSIS,
    HL_P_CHOICE,
    HL_P_SOURCE,
    HL_PARTS
} hl_draft_part;

/* Names of before that rule files still use: the first one of each file. */
typedef struct hl_old_names {
    hl_old_name *items;
    size_t n, room;
} hl_old_names;

typedef struct hl_draft {
    hl_arena *arena;
    hl_loader *loader;
    hl_draft_list parts[HL_PARTS];
    const hl_entry **acknowledged;
    size_t n_acknowledged, room_acknowledged;
    const hl_entry *floats;
    hl_twice *twice;
    size_t n_twice, room_twice;
    hl_renamed *renamed;
    size_t n_renamed, room_renamed;
    hl_old_names *old_names;    /* the caller's; formulas add to it while the book is built */
    hl_value book[BOOK_FIELDS]; /* of the outermost book; what it leaves out, of the last one used */
    hl_origin book_origin;
    int entries;
    /* When errors are kept (loader->box.all): what could not be taken, so that errors which only follow from
     * that are not reported. */
    bool lost; /* a whole file */
    const char *bad_ids[HL_BOOK_ERRORS_MOST + 1];
    int n_bad_ids;
} hl_draft;

/* Load the file and splice the book that it returns, and all that it uses, into the draft. */
hl_code hl__draft_add(hl_draft *draft, hl_rule_file *file, hl_err *err);
void hl__draft_free(hl_draft *draft);
/* Was the item with this id perhaps in what could not be taken? */
bool hl__draft_may_be_lost(const hl_draft *draft, const char *id);
hl_draft_item *hl__draft_find(const hl_draft *draft, hl_draft_part part, const char *id);
/* The nearest id in a part, or NULL. */
const char *hl__draft_nearest(const hl_draft *draft, hl_draft_part part, const char *id);

/* draft_lay.c: one entry over what is there. */
hl_code hl__draft_step(hl_draft *draft, const hl_entry *step, hl_err *err);
hl_code hl__draft_change(hl_draft *draft, const hl_entry *change, hl_err *err);
/* Leaves a line of the step's history under the field "skip". */
hl_code hl__draft_note_skip(hl_draft *draft, hl_draft_item *step, const hl_entry *skip, hl_err *err);
hl_code hl__draft_lay(hl_draft *draft, hl_draft_part part, const hl_entry *entry, hl_err *err);
hl_code hl__draft_float(hl_draft *draft, const hl_entry *floats, hl_err *err);

/* Add an item, and a line to the history of one. */
hl_code hl__draft_item(hl_draft_item **out, hl_draft *draft, hl_draft_part part, const hl_entry *entry,
                       hl_err *err);
hl_code hl__draft_note(hl_draft *draft, hl_draft_item *item, const char *field, const hl_entry *by,
                       const hl_value *why, hl_err *err);

/* rename.c: names of before.  An entry of the table, which is applied to all that was laid; then every entry
 * before it is laid; the name of a file whose own is of before, or NULL. */
hl_code hl__draft_renamed(hl_draft *draft, const hl_entry *entry, hl_err *err);
hl_code hl__rename_entry(hl_draft *draft, hl_entry *entry, hl_err *err);
const char *hl__rename_file(const hl_draft *draft, const char *use, hl_err *err);
hl_code hl__old_name_note(hl_old_names *names, const char *was, const char *is, hl_origin at, hl_err *err);

/* draft_choice.c: schools. */
hl_code hl__draft_choice(hl_draft *draft, const hl_entry *choice, hl_err *err);
hl_code hl__draft_choose(hl_draft *draft, const hl_entry *choose, hl_err *err);
/* After all entries: every by_choice of a step becomes the value of the option that was chosen. */
hl_code hl__draft_resolve(hl_draft *draft, hl_err *err);
/* Place of an option in a choice's list, or -1. */
int hl__draft_option(const hl_draft_item *choice, const char *name);

/* The unit that a value names; HL_NO_UNIT for none. */
hl_unit hl__value_unit(const hl_value *value);

#endif
