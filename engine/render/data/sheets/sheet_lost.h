/* sheet_lost.h - a sheet on its way to be a wide one, and what such a one can't hold (layer: render/data). */
#ifndef HL_SHEET_LOST_H
#define HL_SHEET_LOST_H

#include "hammerline/print.h"
#include "quantity.h"
#include "sheet_out.h"

typedef struct hl_widening {
    const hl_sheet *sheet;
    bool *shown;           /* [n_steps]: has a column */
    hl_unit *units;        /* [n_steps]: its unit */
    const char **readings; /* [n_events]: for a column of the step's own unit */
    bool remarks;          /* there is a column for them */
} hl_widening;

/* The event whose reading is in the cell, or -1.  A go/no-go reading by a gauge that is not the
 * step's is left out: without the gauge's name it would pass for one that is. */
long hl__widening_event(const hl_widening *of, int step, int note);
/* The remark of a note's row: the one that all its readings share, else each with its step. */
void hl__widening_remark(hl_text *out, const hl_widening *of, int note);
/* A sentence a line of what is not in the wide sheet; nothing when it holds all. */
void hl__widening_lost(hl_text *out, const hl_widening *of, const hl_written *written);

#endif
