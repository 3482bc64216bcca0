/* plan_page.c - headings and boxes to tick of the printed plan (layer: render/text). */
#include "plan_page.h"

#include "sentence.h"
#include "wrap.h"

void hl__plan_heading(hl_plan_page *at, const char *title)
{
    hl_text line = {0}, safe = {0};
    hl__text_char(at->page.out, '\n');
    hl__text_safe(&safe, title);
    hl__text_add(&line, "== ");
    hl__say_capital(&line, safe.data ? safe.data : "");
    hl__text_add(&line, " ==");
    at->page.out->failed |= safe.failed;
    hl__text_free(&safe);
    hl__page_add(&at->page, &line, HL_INK_BOLD, 0, 3);
}

void hl__plan_boxes(hl_plan_page *at, const int *notes, int n)
{
    const hl_compass compass = at->page.audit->sheet->compass;
    hl_text line = {0};
    for (int i = 0; i < n; i++) {
        if (i > 0)
            hl__text_add(&line, "  ");
        hl__text_printf(&line, "[%c]%c", HL_GLUE, HL_GLUE);
        if (notes[i] > 0)
            hl__text_printf(&line, "%d%c%s", notes[i], HL_GLUE,
                            hl_pitch_name(hl_note_pitch(compass, notes[i])));
        else
            hl__text_add(&line, "the instrument");
    }
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 6, 6);
}
