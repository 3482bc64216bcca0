/* csv_cells.h - writes the cells of a table for spreadsheets (layer: render/data). */
#ifndef HL_CSV_CELLS_H
#define HL_CSV_CELLS_H

#include "hammerline/print.h"
#include "text.h"

typedef struct hl_cells {
    hl_text *out;
    bool some; /* this row has a cell already */
} hl_cells;    /* start as {.out = &text} */

/* Any text: shown safely, guarded against being taken for a formula, quoted where it must be. */
void hl__cell_text(hl_cells *cells, const char *text);
/* Numbers; an empty cell when there is none. */
void hl__cell_number(hl_cells *cells, bool has, int value);
void hl__cell_amount(hl_cells *cells, bool has, hl_amount value, hl_unit unit);
void hl__cells_end(hl_cells *cells);

#endif
