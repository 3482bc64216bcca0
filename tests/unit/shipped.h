/* shipped.h - the books as they are shipped, for tests that hold them to outside numbers. */
#ifndef SHIPPED_H
#define SHIPPED_H

#include "judged.h"

/* Never NULL: a book that does not open fails the test with the loader's words. */
static inline hl_book *open_shipped(const char *id)
{
    static const char *const folders[] = {RULES_FOLDER};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    hl_book *book = NULL;
    hl_err err = {0};
    if (hl_book_open(&book, id, &shelf, &err) != HL_OK)
        fail_msg("%s:%d: %s; %s", err.file, err.line, err.what, err.todo);
    return book;
}

/* Was this diagnosis told of the note ("" = the instrument)? */
static inline const hl_diagnosed *told(const judged *j, const char *id, const char *note)
{
    int at = *note ? hl_note_parse(hl_sheet_compass(j->sheet), note) : 0;
    size_t n = 0;
    const hl_diagnosed *list = hl_audit_diagnoses(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (list[i].note == at && strcmp(hl_book_diagnosis(j->book, list[i].diagnosis)->id, id) == 0)
            return &list[i];
    return NULL;
}

static inline size_t count_told(const judged *j)
{
    size_t n = 0;
    hl_audit_diagnoses(j->audit, &n);
    return n;
}

#endif
