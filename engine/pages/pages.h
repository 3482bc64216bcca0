/* pages.h - writes the manual pages as Markdown, and the completions, while the engine is built (layer:
 * pages).
 *
 * A program of its own, run by CMake and not installed.  What it writes comes from the command line's
 * option table and from docs/, so that neither can say something else than the program does.  cmark makes
 * manual pages of the Markdown (engine/cmake/man_page.cmake).  It ends at the first thing that goes wrong,
 * with a message for the builder; hence nothing here returns an error. */
#ifndef HL_PAGES_H
#define HL_PAGES_H

#include "options.h"

#include <stddef.h>
#include <stdio.h>

/* ---- make_pages.c ------------------------------------------------------------------------- */

/* What all pages share. */
typedef struct job {
    const char *docs; /* folder of the documents */
    const char *out;  /* folder to write into */
} job;

_Noreturn void give_up(const char *what, const char *which);
FILE *begin_file(const job *of, const char *name);
void end_file(FILE *file, const char *name);
/* A document's text; the caller frees it. */
char *read_document(const job *of, const char *name);

/* ---- document.c --------------------------------------------------------------------------- */

/* The document from `from` to the first line that starts with `until`, or the end (NULL), as cmark's
 * plain Markdown: its own title left out, headings a level higher, a table as a list, and of a link its
 * words.  Returns where it stopped. */
const char *put_document(FILE *out, const char *from, const char *until);
/* Text in which no character has a meaning of its own. */
void put_plain(FILE *out, const char *text);

/* ---- one file each ------------------------------------------------------------------------ */

/* man_pages.c: hammerline(1), hammerline-audit(1) ..., hammerline-sheet(5), hammerline-rules(5). */
void write_man_pages(const job *of);
void write_bash(const job *of);
void write_zsh(const job *of);
void write_fish(const job *of);

/* ---- words.c: what can follow a command or an option --------------------------------------- */

typedef enum value_kind { VALUE_FREE, VALUE_WORDS, VALUE_FILE, VALUE_FOLDER, VALUE_BOOK } value_kind;

#define OPTIONS_ROOM 128

/* What an option's value is. */
value_kind kind_of_value(const option_row *row);
/* The words that it takes, a blank between; for VALUE_WORDS. */
void put_value_words(FILE *out, const option_row *row);
/* What the operands of a form are. */
value_kind kind_of_operands(const command_form *of);
/* Every option of every form, each once; returns how many. */
int list_options(const option_row *out[OPTIONS_ROOM]);

#endif
