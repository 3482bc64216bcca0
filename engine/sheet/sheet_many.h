/* sheet_many.h - files that hold many sheets, a run of rows each (layer: sheet). */
#ifndef HL_SHEET_MANY_H
#define HL_SHEET_MANY_H

#include "csv.h"
#include "hammerline/sheet.h"
#include "sheet.h"

/* How the rows of a file say which sheet they belong to. */
typedef struct hl_many {
    char separator;
    int column;     /* place of the cell `sheet` in a row; -1: the file is one sheet */
    size_t rows_at; /* where the rows begin, in bytes */
    int line;       /* and in lines */
} hl_many;

/* A name as it stands in a cell, quotes undone. */
typedef struct hl_part_name {
    char text[HL_CELL_MOST + 1];
    size_t size;
} hl_part_name;

/* What the header of an opened sheet says.  False: no memory. */
bool hl__many_look(hl_many *out, const hl_sheet *sheet);
/* The name in a row; empty for a blank row, a remark, or a row that names none. */
void hl__many_name(hl_part_name *out, const hl_many *many, const char *row, size_t size);
/* Length of the row at `at`, its line end included. */
size_t hl__many_row(const char *at, const char *end);
/* The size of the first run of rows of one name, from `at` to `end`; *name is that name ("" when
 * nothing but blank rows and remarks stands there). */
size_t hl__many_run(hl_part_name *name, const hl_many *many, const char *at, const char *end);
/* Where the last run begins, when `end` is the end of a row. */
const char *hl__many_last_run(const hl_many *many, const char *at, const char *end);

/* How many line feeds there are. */
int hl__many_lines(const char *at, size_t size);

#endif
