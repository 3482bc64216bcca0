/* sheet_book.h - a sheet as the command line names it, and the book that it is judged by (layer:
 * cli/commands). */
#ifndef HL_SHEET_BOOK_H
#define HL_SHEET_BOOK_H

#include "hammerline.h"
#include "options.h"

/* The sheet at a path, or standard input for "-".  HL_E_SHEET, too, for a file of many instruments. */
hl_code open_named_sheet(hl_sheet **out, const char *name, hl_err *err);
/* --book wins over what the sheet names.  HL_E_SHEET when neither names one, or when the sheet names one
 * that is not there. */
hl_code open_sheet_book(hl_book **out, const request *asked, const hl_sheet *sheet, const hl_shelf *shelf,
                        hl_err *err);
/* False, and `err` says so, for a file of many instruments. */
bool is_one_piano(const char *path, hl_err *err);
/* A step by its id; a note by its name or number, 0 for "piano".  -1 after a complaint. */
int find_named_step(const hl_book *book, const char *id);
int find_named_note(const hl_sheet *sheet, const char *word);

#endif
