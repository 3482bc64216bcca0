/* gauge_reading.h - what one reading of a step is good to (layer: table). */
#ifndef HL_GAUGE_READING_H
#define HL_GAUGE_READING_H

#include "hammerline/audit.h"
#include "sheet.h"

/* What one reading of a measured step is good to: as the sheet states it ("gauge STEP"), else the
 * book's gauge, else the step's resolution.  0, HL_GAUGE_NONE: nobody says. */
hl_amount hl__gauge_reading(const hl_sheet *sheet, const hl_book *book, int step, hl_gauge_from *from);
#endif
