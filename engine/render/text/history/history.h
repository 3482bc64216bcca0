/* history.h - one note's readings, pass beside pass: what the parts of that page share (layer: render/text).
 */
#ifndef HL_HISTORY_H
#define HL_HISTORY_H

#include "hammerline/print.h"
#include "sheet.h"
#include "text.h"

/* What a pass has of one step: its last reading, and how many there are. */
typedef struct hl_history_cell {
    long last; /* event, or -1 */
    int count;
} hl_history_cell;

typedef struct hl_history {
    hl_arena arena;
    const hl_sheet *sheet;
    int note, step; /* step -1: all that were read */
    int width;
    int *passes, n_passes; /* those that have a reading here */
    int *steps, n_steps;
    hl_history_cell *cells; /* [n_steps * n_passes] */
    bool several, others;   /* a pass has several readings; other methods were met */
    bool failed;
} hl_history;

/* Finds the passes and the steps that were read; false: no memory. */
bool hl__history_collect(hl_history *of);
const hl_history_cell *hl__history_cell(const hl_history *of, int row, int column);
/* Does the adjustment move the step, itself or through what it is computed from? */
bool hl__history_moves(const hl_book *book, int adjuster, int step);
/* Is the event an adjustment that counts, of this note or of the whole piano? */
bool hl__history_is_work(const hl_history *of, const hl_event *event);

/* history_table.c: the passes, with date and climate, and the readings below them. */
void hl__history_table(hl_text *out, hl_history *of);
/* The name of a pass for people. */
void hl__history_pass(hl_text *out, const hl_sheet *sheet, int pass);

#endif
