/* form.h - how the rows of a sheet are read: what its header says, held against the book (layer: sheet/head).
 *
 * Sheets with the same facts and the same header share a form. */
#ifndef HL_FORM_H
#define HL_FORM_H

#include "csv.h"
#include "quantity.h"
#include "sheet.h"

/* The columns of a tidy sheet, in the order of its heads; SHEET only in a file of many, ENTRY only where the
 * program saved rows with marks (journal/entry_mark.h). */
enum {
    HL_HEAD_NOTE,
    HL_HEAD_STEP,
    HL_HEAD_READING,
    HL_HEAD_TIME,
    HL_HEAD_BY,
    HL_HEAD_METHOD,
    HL_HEAD_REMARK,
    HL_HEAD_SHEET,
    HL_HEAD_ENTRY,
    HL_HEADS
};

typedef enum hl_column_kind {
    HL_COLUMN_BAD,      /* its head has been reported */
    HL_COLUMN_NAMELESS, /* stays empty */
    HL_COLUMN_SHEET,
    HL_COLUMN_NOTE,
    HL_COLUMN_READING, /* wide: of `step` in `unit`; tidy: of the row's step */
    HL_COLUMN_STEP,
    HL_COLUMN_TEXT,
    HL_COLUMN_MARK, /* looked at before the rows are read (sheet_entries.c) */
} hl_column_kind;

/* A cell of a row, laid out for the loops that read one. */
typedef struct hl_column {
    hl_column_kind kind;
    int step;
    int first;   /* the step's first place */
    bool number; /* a measured step in a unit that amounts are held in */
    int head;    /* tidy: which head it is; wide: HL_HEAD_REMARK for a text */
    hl_unit unit;
} hl_column;

/* A word to compare with: its first 16 bytes at once, others one by one. */
typedef struct hl_key {
    uint64_t bits[2], mask[2];
    const char *text;
    size_t size;
} hl_key;
void hl__key_make(hl_key *out, const char *text);

typedef struct hl_form {
    const hl_book *book;
    hl_compass compass;
    char separator;
    bool tidy;
    bool usual;    /* usual rows are read in place (quick.h); else each goes the general way */
    bool many;     /* the first cell of each row names its sheet */
    bool straight; /* tidy: (sheet,) note, step, reading and no more */
    hl_column *columns;
    int n_columns;
    int at[HL_HEADS];          /* the column of each head, -1 = none; wide: NOTE, REMARK, SHEET */
    int *column_of;            /* [n_steps]: wide: the step's column, else -1 */
    unsigned char *closed;     /* place: HL_STATE_CLOSED where the step is never read, else UNREAD */
    const hl_target **targets; /* place: the step's target there; NULL when it has none */
    hl_amount *aim;            /* place: the target's; 0 when it has none */
    hl_amount *low, *high;     /* place: its limits; no limit: the ends of the range */
    int64_t *scales;           /* [n_steps]: millionths of the base unit in one unit */
    hl_unit *units;            /* [n_steps]: the unit of its column */
    bool *is_number;           /* [n_steps]: measured, in a unit that amounts are held in */
    bool *clear_words;         /* [n_steps]: a word in full can't be taken for another */
    hl_key names[HL_NOTES];    /* of the notes; size 0: no such note */
    hl_key *ids;               /* [n_steps] */
    int (*follows)[2];         /* [n_steps]: the steps that came after it last: guesses, always checked */
} hl_form;

/* The form of a sheet whose facts have been read, without columns yet; memory is the sheet's arena.  Fails
 * only for want of memory. */
hl_code hl__form_make(hl_sheet *sheet, hl_err *err);
/* Its columns, from the header row of n cells; what is wrong with it is among the sheet's errors.  *none:
 * there are no columns to read rows by.  Fails only for want of memory. */
hl_code hl__form_heads(hl_sheet *sheet, hl_csv *csv, int n, bool *none, hl_err *err);

#endif
