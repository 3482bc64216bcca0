/* sheet_names.c - names of before in a sheet: read as the new ones, and noted once (layer: sheet/head). */
#include "errors.h"
#include "sheet_parts.h"

#include <string.h>

static void note_old(hl_sheet *sheet, const char *id, int line)
{
    for (int i = 0; i < sheet->book->n_renamed; i++) {
        const hl_renamed *name = &sheet->book->renamed[i];
        if (strcmp(name->was, id) != 0) {
            continue;
        }
        if (sheet->old_name == NULL) {
            sheet->old_name = name;
            sheet->old_line = line;
        }
        sheet->more_old = sheet->more_old || sheet->old_name != name;
    }
}

int hl__sheet_find_step(hl_sheet *sheet, const char *id, int line)
{
    const int step = hl_book_find_step(sheet->book, id);
    if (step >= 0 && strcmp(sheet->book->steps[step].id, id) != 0) {
        note_old(sheet, id, line);
    }
    return step;
}

int hl__sheet_find_adjuster(hl_sheet *sheet, const char *id, int line)
{
    const int adjuster = hl_book_find_adjuster(sheet->book, id);
    if (adjuster >= 0 && strcmp(sheet->book->adjusters[adjuster].id, id) != 0) {
        note_old(sheet, id, line);
    }
    return adjuster;
}

bool hl__sheet_rename_fact(hl_sheet *sheet, hl_stated_fact *fact)
{
    static const char head[] = "gauge_";
    const size_t size = strncmp(fact->id, head, sizeof head - 1) == 0 ? sizeof head - 1 : 0;
    const char *was = fact->id + size, *is = hl__book_new_name(sheet->book, was);
    const bool found = is != NULL && (size > 0 ? hl_book_find_step(sheet->book, is) >= 0
                                               : hl__book_find_fact(sheet->book, is) >= 0);
    if (!found) {
        return true;
    }
    char *id = hl__arena_array(&sheet->arena, size + strlen(is) + 1, 1);
    if (id == NULL) {
        return false;
    }
    memcpy(id, fact->id, size);
    memcpy(id + size, is, strlen(is));
    note_old(sheet, was, fact->line);
    fact->id = id;
    fact->renamed = true;
    return true;
}

bool hl_sheet_notice(const hl_sheet *sheet, hl_err *notice)
{
    if (sheet->old_name == NULL) {
        return false;
    }
    hl__fail(notice, HL_E_SHEET, "%s is called %s now%s", sheet->old_name->was, sheet->old_name->is,
             sheet->more_old ? ", and other names in this sheet have changed too" : "");
    hl__todo(notice, "it is read as before; 'hammerline sheet convert' writes the new names");
    hl__at(notice, sheet->name, sheet->old_line, 0);
    return true;
}
