/* output.h - results on standard output, complaints on standard error, and neither lost in silence
 * (layer: cli).
 *
 * Both may go to one place.  Whatever is written to standard error flushes standard output first, so that
 * no line of the one is cut in two by the other. */
#ifndef HL_OUTPUT_H
#define HL_OUTPUT_H

#include "hammerline.h"
#include "options.h"

#include <stdarg.h>

#if defined(__GNUC__)
#define SAY_PRINTF(f, a) __attribute__((format(printf, f, a)))
#else
#define SAY_PRINTF(f, a)
#endif

/* One line on stderr, "hammerline: ...".  Control characters in it are made visible. */
void complain(const char *format, ...) SAY_PRINTF(1, 2);
/* Names of before in a sheet that was read (or NULL), and in the files of its book: one notice a file, on
 * standard error. */
void say_notices(const hl_sheet *sheet, const hl_book *book);
/* An error of the engine, one line on stderr, and its exit code. */
int report(const hl_err *err);
int exit_code_of(hl_code code);
/* The machine has no memory left. */
int report_no_memory(void);

/* A line of news on stderr, as it is: "saved". */
void note(const char *line);
/* To standard output; a failure is remembered for finish_output(). */
void say(const char *format, ...) SAY_PRINTF(1, 2);
void say_text(const char *text, size_t size);
/* Is the result to be coloured?  "auto": on a terminal, unless NO_COLOR or TERM=dumb says otherwise. */
bool choose_color(color_choice choice);
/* Flush; returns the worse of `code` and what became of the output.  A closed pipe is no news. */
int finish_output(int code);
/* Sends off what was said so far; false when it did not arrive. */
bool flush_output(void);
/* Did it not arrive because whoever read it has closed the pipe? */
bool is_reader_gone(void);

#endif
