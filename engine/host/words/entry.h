/* entry.h - what a rule file said, as plain C: values, targets, entries (layer: host/words).
 *
 * Words copy their arguments into these, in the book's arena, at once; a rule file holds an entry
 * only as an opaque pointer that it can neither read nor make. */
#ifndef HL_ENTRY_H
#define HL_ENTRY_H

#include "arena.h"
#include "fields.h"
#include "hammerline/book.h"

#define HL_MOST_ITEMS 4096 /* in one list of a rule file */

typedef struct hl_entry hl_entry;

typedef enum hl_value_kind {
    HL_IS_NOTHING,
    HL_IS_TEXT,
    HL_IS_NUMBER,
    HL_IS_BOOLEAN,
    HL_IS_TABLE,
    HL_IS_ENTRY,
    HL_IS_OTHER, /* a function where none is wanted */
} hl_value_kind;

typedef struct hl_value hl_value;
struct hl_value {
    hl_value_kind kind;
    hl_origin origin;
    const char *key; /* in a table: its name, or NULL for an item of the list part */
    const char *text;
    double number;
    bool flag;
    hl_unit unit;    /* what a number without a unit meant when it was laid into a step */
    hl_value *items; /* a table: n_list items, then named ones in order of name */
    int n_list, n_items;
    hl_entry *entry;
    const hl_entry *by;    /* the by_choice that it was chosen from, or NULL */
    const hl_value *under; /* of an adjuster's moves: what an earlier entry said of the same step, or NULL */
};

/* A row of zones and graded, a colour, or a pitch of a function. */
typedef struct hl_anchor {
    int from, to;     /* pitches */
    hl_entry *target; /* NULL: the function gave nothing there */
} hl_anchor;

struct hl_entry {
    hl_rule_word word;
    hl_origin origin;
    hl_value *values; /* by place of field; for range and its like, the arguments */
    int n_values;
    hl_entry **items; /* book: entries; tests: cases */
    int n_items;
    hl_anchor *anchors;
    int n_anchors;
    int function;   /* HL_W_FUNCTION: its place in Lua's registry */
    bool bad;       /* an error of it was kept: not to be looked into */
    bool placed;    /* is in a book, or is what the file returned */
    hl_entry *next; /* of the same file */
};

/* "nothing", "a text", "a number", ... */
const char *hl__value_kind_name(const hl_value *value);
bool hl__is_simple_target(const hl_entry *entry); /* range, at_least, at_most, about */
bool hl__is_target(const hl_entry *entry);
bool hl__is_book_item(const hl_entry *entry); /* use, change, adjuster ... */

/* Take a table apart by the word's fields: checks names, types and what is required, and makes the
 * entry.  HL_E_RULE with the place of the field, or of the table for what it lacks, or HL_E_MEMORY.  With
 * `all` each field that is wrong is added to it, and the entry is made all the same, `bad`; NULL: the first
 * one ends. */
hl_code hl__entry_take(hl_entry **out, hl_arena *arena, hl_rule_word word, const hl_value *table,
                       hl_complaints *all, hl_err *err);
/* Check one value against its field; nested tables become entries. */
hl_code hl__value_check(hl_arena *arena, hl_rule_word word, const hl_field *field, hl_value *value,
                        hl_err *err);

/* "change" may leave out what "step" must have; adjuster, fact and stage are laid over.  Whether
 * the fields of a step go with its kind: checked when it is made and after each change. */
hl_code hl__step_check(const hl_value *values, hl_origin origin, hl_complaints *all, hl_err *err);
/* An error of a part: kept in `all`, so that the other parts are looked at too (HL_OK); or passed on when
 * there is no `all`, or it is no error of the rules. */
hl_code hl__keep_error(hl_complaints *all, hl_code code, hl_err *err);

/* Shared wording: add "did you mean 'x'?" when something is near enough. */
hl_code hl__did_you_mean(hl_err *err, const char *nearest, const char *otherwise);

#endif
