/* subject.h - what was judged: the file, the piano, who read it, in which passes (layer: render/data).
 *
 * Every format carries these, each in its own writing. */
#ifndef HL_SUBJECT_H
#define HL_SUBJECT_H

#include "audit.h"
#include "json.h"

#define HL_NOT_JUDGED "not judged" /* a sheet of which no reading could be judged */

/* The sheet's own name: in a file of many what its rows say, else the file's name without folders. */
const char *hl__subject_sheet(const hl_sheet *sheet);
/* The same of a sheet that could not be opened, by its title: *path_size bytes of it are the path. */
const char *hl__subject_title(const char *title, const char *path, size_t *path_size);
/* Everybody that read, each once, with `between` between the names. */
void hl__subject_persons(hl_text *out, const hl_sheet *sheet, const char *between);
/* The names of the passes, in their order. */
void hl__subject_passes(hl_text *out, const hl_sheet *sheet, const char *between);
/* "C4 to C5, 13 keys" */
void hl__subject_compass(hl_text *out, hl_compass compass);
/* "ready", "not ready": in one word for every format. */
const char *hl__subject_answer(const hl_audit *audit);
/* The members that begin every object: schema, engine, path, sheet, piano, date, persons, passes, compass,
 * book.  For a sheet that was not judged `audit` is NULL, and title and path say which it is. */
void hl__json_subject(hl_json *json, const hl_audit *audit, const char *title, const char *path);

#endif
