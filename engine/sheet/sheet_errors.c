/* sheet_errors.c - what is wrong with a sheet: its bad rows, in the file's order (layer: sheet). */
#include "errors.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

hl_shown hl__sheet_show(const char *text)
{
    hl_shown shown;
    size_t most = sizeof shown.text - 4, n = strlen(text);
    bool cut = n > most;
    if (cut) {
        n = most;
        while (n > 0 && ((unsigned char)text[n] & 0xC0u) == 0x80u) {
            n--;
        }
    }
    memcpy(shown.text, text, n);
    memcpy(shown.text + n, "...", 4);
    if (!cut) {
        shown.text[n] = '\0';
    }
    return shown;
}

hl_code hl__sheet_complain(hl_sheet *sheet, const hl_err *bad, hl_err *err)
{
    if (sheet->n_errors == HL_ERRORS_MOST) {
        sheet->unlisted++;
        return HL_OK;
    }
    void *items = sheet->errors;
    if (!hl__grow(&items, sheet->n_errors, &sheet->room_errors, sizeof *bad)) {
        return hl__no_memory(err);
    }
    sheet->errors = items;
    sheet->errors[sheet->n_errors++] = *bad;
    return HL_OK;
}

static int compare_places(const void *a, const void *b)
{
    const hl_err *left = a, *right = b;
    if (left->line != right->line) {
        return left->line < right->line ? -1 : 1;
    }
    return (left->column > right->column) - (left->column < right->column);
}

hl_code hl__sheet_close_errors(hl_sheet *sheet, hl_err *err)
{
    if (sheet->n_errors == 0) {
        return HL_OK;
    }
    qsort(sheet->errors, sheet->n_errors, sizeof *sheet->errors, compare_places);
    if (sheet->unlisted > 0) {
        void *items = sheet->errors;
        if (!hl__grow(&items, sheet->n_errors, &sheet->room_errors, sizeof *err)) {
            return hl__no_memory(err);
        }
        sheet->errors = items;
        hl_err *last = &sheet->errors[sheet->n_errors++];
        hl__fail(last, HL_E_SHEET, "and %zu more bad rows", sheet->unlisted);
        hl__todo(last, "mend those above first");
        hl__at(last, sheet->name, 0, 0);
    }
    *err = sheet->errors[0];
    return err->code;
}
