/* row_text.c - the texts of rows, kept one after another (layer: sheet/rows). */
#include "rows.h"

#include <stdlib.h>
#include <string.h>

bool hl__rows_text(hl_rows *rows, int head, const char *text, size_t size, uint32_t *out)
{
    hl_sheet *sheet = rows->sheet;
    *out = 0;
    if (size == 0) {
        return true;
    }
    if (size == rows->last_size[head] && memcmp(sheet->texts + rows->last[head], text, size) == 0) {
        *out = rows->last[head];
        return true;
    }
    const size_t wanted = sheet->n_texts + size + 2;
    if (wanted > sheet->room_texts) {
        char *texts = realloc(sheet->texts, 2 * wanted);
        if (texts == NULL) {
            return false;
        }
        sheet->texts = texts;
        sheet->room_texts = 2 * wanted;
    }
    sheet->n_texts += sheet->n_texts == 0; /* place 0 is the empty text */
    *out = (uint32_t)sheet->n_texts;
    memcpy(sheet->texts + sheet->n_texts, text, size);
    sheet->texts[sheet->n_texts + size] = '\0';
    sheet->n_texts += size + 1;
    rows->last[head] = *out;
    rows->last_size[head] = size;
    return true;
}
