/* fast_rows.h - the rows of a plain sheet, straight into flat arrays (layer: sheet).
 *
 * Why a second reader: a fleet is read at the speed of its bytes or not at all, and the careful one
 * makes a record with its place and texts of every reading.  This one makes nothing: digits become
 * whole numbers in place.  It knows only what plain sheets hold - numbers with a point and no unit, `ok`
 * and fault words in full, notes, known steps, each read once.  At the first byte that is anything else
 * it gives up, and the sheet is read by the careful reader, which is its oracle (tests/unit/test_fast.c). */
#ifndef HL_FAST_ROWS_H
#define HL_FAST_ROWS_H

#include "hammerline/sheet.h"
#include "sheet_parts.h"

/* Places a step has in the arrays: notes 0 ... HL_PITCHES, and some more.  A multiple of 8, and no power of
 * two: the cells of a row lie so far apart, and would fall into the same few lines of the cache. */
#define HL_FLAT_NOTES 112

/* How a step stands at a note.  The reader puts PASS, LOW, HIGH and WORD, by the limits alone. */
typedef enum hl_fast_state {
    HL_FAST_SILENT, /* no finding */
    HL_FAST_PASS,
    HL_FAST_FLOATED,
    HL_FAST_LOW,
    HL_FAST_HIGH,
    HL_FAST_WORD,
    HL_FAST_UNEVEN,
    HL_FAST_MISSING,
    HL_FAST_NOT_APPLICABLE,
} hl_fast_state;

/* Whether there is a reading at a place. */
enum { HL_FLAT_FREE, HL_FLAT_READ, HL_FLAT_CLOSED /* the step is not read at this note */ };

/* The readings of one sheet; place = step * HL_FLAT_NOTES + note. */
typedef struct hl_flat {
    hl_amount *values; /* judged: -1 = ok, else the word's index */
    unsigned char *read;
    unsigned char *rows;         /* [HL_FLAT_NOTES], wide: 1 = the note has its row */
    const hl_amount *low, *high; /* limits, the ends of the range where there are none */
    unsigned char *states;       /* hl_fast_state; before reading: of a sheet without readings */
    int *reads, *outs;           /* [n_steps]: readings; those that are LOW, HIGH or WORD */
} hl_flat;

/* A cell of a row, laid out for the loop that reads it. */
typedef enum hl_fast_kind {
    HL_FAST_NUMBER, /* wide: a reading in millionths of its unit; tidy: any reading */
    HL_FAST_UNIT,   /* wide: in another unit */
    HL_FAST_WORDS,  /* wide: of a judged step */
    HL_FAST_NOTE,
    HL_FAST_STEP,
    HL_FAST_SHEET,
    HL_FAST_TEXT,
    HL_FAST_NOTHING,
} hl_fast_kind;
typedef struct hl_fast_cell {
    hl_fast_kind kind;
    int step, row; /* row: its first place */
} hl_fast_cell;

/* A word to compare with: its first 16 bytes at once, others one by one. */
typedef struct hl_fast_key {
    uint64_t bits[2], mask[2];
    const char *text;
    size_t size;
} hl_fast_key;
void hl__fast_key(hl_fast_key *out, const char *text);

/* How a file's rows are to be read; settled by its header and its book. */
typedef struct hl_fast_form {
    const hl_book *book;
    hl_compass compass;
    char separator;
    bool tidy, many; /* many: the first cell of each row names its sheet */
    bool straight;   /* tidy: (sheet,) note, step, reading and no more */
    bool *is_number; /* [n_steps]: measured, in the unit that amounts are held in */
    hl_fast_cell *cells;
    int n_cells;
    unsigned char *blank;             /* hl_flat.read of a sheet without readings */
    int64_t *scales;                  /* [n_steps]: millionths of the base unit in one unit */
    hl_unit *units;                   /* [n_steps]: that unit */
    hl_fast_key names[HL_FLAT_NOTES]; /* of the notes; size 0: no such note */
    hl_fast_key *ids;                 /* [n_steps] */
    int (*follows)[2];                /* [n_steps]: the steps that came after it last (guesses, checked) */
} hl_fast_form;

/* From the header row of a sheet whose head has been read; memory from the arena.  False: its rows are
 * for the careful reader. */
bool hl__fast_form(hl_fast_form *out, hl_arena *arena, hl_sheet *head);
/* Reads rows from *at on, up to `end`, or, when `part` names the sheet in a file of many (else NULL), up to
 * the first row of another sheet; *at is left there.  The rows end with a line end, and HL_FAST_SPARE
 * bytes behind them may be looked at.  False at the first thing that is not plain. */
#define HL_FAST_SPARE 16
bool hl__fast_wide(const hl_fast_form *form, hl_flat *out, const char **at, const char *end,
                   const char *part);
bool hl__fast_tidy(const hl_fast_form *form, hl_flat *out, const char **at, const char *end,
                   const char *part);

#endif
