/* terminal.h - lines typed by a person, a gauge or a script, and signals that end it (layer: cli/walk).
 *
 * The terminal stays in its own line mode, so that its editing works and screen readers follow; only
 * TAB is made to end a line too, because some gauges send it.  terminal_close() puts that back. */
#ifndef HL_TERMINAL_H
#define HL_TERMINAL_H

#include <signal.h>
#include <stdbool.h>
#include <stddef.h>
#include <termios.h>

#define LINE_MOST        400 /* bytes of a line */
#define TERMINAL_SIGNALS 4   /* that end it: from a person, a program, a closed window */

typedef enum heard {
    HEARD_LINE,
    HEARD_LONG,   /* a line of more than LINE_MOST bytes; it was passed over */
    HEARD_CUT,    /* the input ended inside a line, which may be half a number */
    HEARD_END,    /* no more input */
    HEARD_SIGNAL, /* one of those that end it: see terminal_signal() */
} heard;

typedef struct terminal {
    bool typed; /* a person's terminal is at the other end, so prompts make sense */
    bool shown; /* standard output is a terminal */
    bool changed, after_return, tabbed;
    int most; /* columns at most */
    struct termios before;
    sigset_t outside; /* signals as they were; ours come only while we wait */
    struct sigaction old[TERMINAL_SIGNALS];
    char bytes[4096];
    size_t at, n;
    char line[LINE_MOST + 1];
    size_t size;
    bool too_long;
} terminal;

void terminal_open(terminal *to);
void terminal_close(terminal *from);
/* The next line, without its end, in from->line.  Ends are CR, LF, CRLF or TAB. */
heard terminal_read(terminal *from);
/* Columns of a line of print, 20 ... 100. */
int terminal_width(const terminal *of);
/* The signal that came, or 0. */
int terminal_signal(void);

#endif
