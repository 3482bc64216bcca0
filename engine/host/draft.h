/* draft.h - a book while its entries are laid over each other (layer: host).
 *
 * The lists are malloc'ed and freed by hl__draft_free(); what they point at is the arena's. */
#ifndef HL_DRAFT_H
#define HL_DRAFT_H

#include "entry.h"
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
    const hl_entry *skip; /* a step that the book leaves out */
} hl_draft_item;

typedef struct hl_draft_list {
    hl_draft_item **items;
    size_t n, room;
} hl_draft_list;

typedef enum hl_part { HL_P_STAGE, HL_P_STEP, HL_P_ADJUSTER, HL_P_FACT, HL_P_DIAGNOSIS, HL_PARTS } hl_part;

typedef struct hl_draft {
    hl_arena *arena;
    hl_loader *loader;
    hl_draft_list parts[HL_PARTS];
    const hl_entry **acknowledged;
    size_t n_acknowledged, room_acknowledged;
    const hl_entry *floats;
    hl_value book[BOOK_FIELDS]; /* of the outermost book; what it leaves out, of the last one used */
    hl_origin book_origin;
    int entries;
} hl_draft;

/* Load the file and splice the book that it returns, and all that it uses, into the draft. */
hl_code hl__draft_add(hl_draft *draft, hl_rule_file *file, hl_err *err);
void hl__draft_free(hl_draft *draft);
hl_draft_item *hl__draft_find(const hl_draft *draft, hl_part part, const char *id);
/* The nearest id in a part, or NULL. */
const char *hl__draft_nearest(const hl_draft *draft, hl_part part, const char *id);

/* draft_lay.c: one entry over what is there. */
hl_code hl__draft_step(hl_draft *draft, const hl_entry *step, hl_err *err);
hl_code hl__draft_change(hl_draft *draft, const hl_entry *change, hl_err *err);
hl_code hl__draft_lay(hl_draft *draft, hl_part part, const hl_entry *entry, hl_err *err);

/* The unit that a value names; HL_NO_UNIT for none. */
hl_unit hl__value_unit(const hl_value *value);

#endif
