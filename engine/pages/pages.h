/* pages.h - makes the manual pages and completions while the engine is built (layer: pages).
 *
 * A program of its own, run by CMake and not installed.  What it tells comes from the command line's
 * option table and from docs/, so that neither can say something else than the program does.  It ends
 * at the first thing that goes wrong, with a message for the builder; hence nothing here returns an
 * error. */
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
    const char *date; /* year-month-day, as the pages show it */
} job;

_Noreturn void give_up(const char *what, const char *which);
FILE *begin_file(const job *of, const char *name);
void end_file(FILE *file, const char *name);
/* A document's text; the caller frees it. */
char *read_document(const job *of, const char *name);

/* ---- roff.c: one manual page -------------------------------------------------------------- */

typedef struct roff {
    FILE *out;
    char *held; /* words of a paragraph, escaped; broken into lines at its end */
    size_t size, room;
    bool fresh; /* nothing has come since the last heading */
} roff;

void begin_page(roff *page, const job *of, const char *name, int section);
void end_page(roff *page);
/* A request by itself: ".TP". */
void put_request(roff *page, const char *what);
/* A new paragraph, unless a heading has just begun one. */
void put_paragraph(roff *page);
/* A request and a title: ".SH" "FILES". */
void put_heading(roff *page, const char *what, const char *text);
/* Text with `code`, *stress* and [links](...), as in our documents; held until end_words(). */
void add_words(roff *page, const char *text, size_t size);
/* Text as the program's help has it, without such marks. */
void add_plain(roff *page, const char *text, size_t size);
/* What is typed, exactly: bold or italic ('B', 'I') or plain ('R'). */
void add_literal(roff *page, char font, const char *text, size_t size);
/* Another page, hammerline-audit(1), and what follows it. */
void add_reference(roff *page, const char *name, int section, const char *then);
void end_words(roff *page);
/* A line of an example; between begin_example() and end_example(). */
void put_example_line(roff *page, const char *line, size_t size);
void begin_example(roff *page);
void end_example(roff *page);

/* ---- markdown.c --------------------------------------------------------------------------- */

/* The document from `from` to the first line that starts with `until`, or the end (NULL); returns
 * where it stopped. */
const char *put_document(roff *page, const char *from, const char *until);

/* ---- one file each ------------------------------------------------------------------------ */

void write_program_page(const job *of);                  /* man_program.c: hammerline(1) */
void write_command_page(const job *of, const command *); /* man_command.c: hammerline-audit(1) ... */
void write_document_page(const job *of, const char *name, const char *document, const char *about);
void put_name(roff *page, const char *name, const char *about);
/* All pages but the one it stands in: "hammerline-audit", or "hammerline-sheet(5)". */
void put_see_also(roff *page, const char *but);
void put_options(roff *page, const option_row *rows);
void put_exit_codes(roff *page);
void write_bash(const job *of);
void write_zsh(const job *of);
void write_fish(const job *of);

/* ---- words.c: what can stand after a command or an option --------------------------------- */

typedef enum value_kind { VALUE_FREE, VALUE_WORDS, VALUE_FILE, VALUE_FOLDER, VALUE_BOOK } value_kind;

/* What an option's value is, by the name that the table gives it; `words` for VALUE_WORDS. */
value_kind kind_of_value(const char *value, const char **words);
/* Is it like "rules list|show|check": a first word that is one of a few? */
bool has_forms(const command *of);
/* The i-th of these, false when there is none. */
bool nth_form(const command *of, int i, char *out, size_t room);
/* The next line of a command's help that begins with this form, "show BOOK STEP [--note NOTE]", and its
 * length without what it says of it; NULL when there is none. */
const char *next_form_line(const char *from, const char *form, size_t *size);
/* What the words after it are: files, or books. */
value_kind kind_of_words(const command *of, const char *form);

#endif
