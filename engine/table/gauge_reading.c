/* gauge_reading.c - what one reading of a step is good to (layer: table). */
#include "gauge_reading.h"

hl_amount hl__gauge_reading(const hl_sheet *sheet, const hl_book *book, int step, hl_gauge_from *from)
{
    const hl_step *s = &book->steps[step];
    if (sheet->gauges && sheet->gauges[step] > 0) {
        *from = HL_GAUGE_SHEET;
        return sheet->gauges[step];
    }
    *from = s->gauge > 0 ? HL_GAUGE_BOOK : s->resolution > 0 ? HL_GAUGE_RESOLUTION : HL_GAUGE_NONE;
    return s->gauge > 0 ? s->gauge : s->resolution > 0 ? s->resolution : 0;
}
