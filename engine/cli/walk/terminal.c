/* terminal.c - waits for lines; signals that end it are let in only while it waits, so that no row is
 * left between its write and its "saved" (layer: cli/walk). */
#include "terminal.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/select.h>
#include <unistd.h>

#define NARROWEST 20
#define WIDEST    100

static const int signals[TERMINAL_SIGNALS] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT};

static volatile sig_atomic_t came; /* the one thing that a signal handler may write */

static void note_signal(int number)
{
    came = number;
}

int terminal_signal(void)
{
    return (int)came;
}

static void catch_signal(int number, struct sigaction *old)
{
    struct sigaction now;
    memset(&now, 0, sizeof now);
    now.sa_handler = note_signal;
    sigemptyset(&now.sa_mask);
    sigaction(number, NULL, old);
    if (old->sa_handler != SIG_IGN) /* in the background of a script a person's ^C is not meant for us */
        sigaction(number, &now, NULL);
}

/* A second character that ends a line, beside the line end. */
static void let_tab_end(terminal *to)
{
    struct termios now;
    if (!to->typed || tcgetattr(STDIN_FILENO, &now) != 0)
        return;
    if (!to->changed) {
        to->before = now;
        if (now.c_cc[VEOL] == '\t') /* a walk that was killed left it so */
            to->before.c_cc[VEOL] = _POSIX_VDISABLE;
    }
    if (now.c_cc[VEOL] == '\t') {
        to->changed = true;
        return;
    }
    now.c_cc[VEOL] = '\t';
    to->changed = tcsetattr(STDIN_FILENO, TCSANOW, &now) == 0 || to->changed;
}

void terminal_open(terminal *to)
{
    sigset_t ours;
    memset(to, 0, sizeof *to);
    came = 0;
    to->typed = isatty(STDIN_FILENO) == 1;
    to->shown = isatty(STDOUT_FILENO) == 1;
    sigemptyset(&ours);
    for (int i = 0; i < TERMINAL_SIGNALS; i++)
        sigaddset(&ours, signals[i]);
    sigprocmask(SIG_BLOCK, &ours, &to->outside);
    for (int i = 0; i < TERMINAL_SIGNALS; i++)
        catch_signal(signals[i], &to->old[i]);
    let_tab_end(to);
}

void terminal_close(terminal *from)
{
    if (from->changed)
        tcsetattr(STDIN_FILENO, TCSANOW, &from->before);
    from->changed = false;
    for (int i = 0; i < TERMINAL_SIGNALS; i++)
        sigaction(signals[i], &from->old[i], NULL);
    sigprocmask(SIG_SETMASK, &from->outside, NULL);
}

int terminal_width(const terminal *of)
{
    struct winsize size;
    const char *columns = getenv("COLUMNS");
    int width = 80;
    if (of->shown && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
        width = size.ws_col;
    else if (columns && columns[0] >= '1' && columns[0] <= '9' && strlen(columns) < 5)
        width = (int)strtol(columns, NULL, 10);
    return width < NARROWEST ? NARROWEST : width > WIDEST ? WIDEST : width;
}

/* More bytes; HEARD_LINE means that there are some. */
static heard fetch(terminal *from)
{
    let_tab_end(from); /* the shell may have put it back while we were stopped */
    for (;;) {
        fd_set wanted;
        FD_ZERO(&wanted);
        FD_SET(STDIN_FILENO, &wanted);
        const int ready = pselect(STDIN_FILENO + 1, &wanted, NULL, NULL, NULL, &from->outside);
        if (came)
            return HEARD_SIGNAL;
        if (ready < 0 && errno == EINTR)
            continue;
        const ssize_t n = ready < 0 ? -1 : read(STDIN_FILENO, from->bytes, sizeof from->bytes);
        if (n < 0 && (errno == EINTR || errno == EAGAIN))
            continue;
        if (n <= 0) /* a terminal that was closed gives an error: that is an end too */
            return HEARD_END;
        from->at = 0;
        from->n = (size_t)n;
        return HEARD_LINE;
    }
}

static void keep(terminal *in, char byte)
{
    if (in->size < LINE_MOST)
        in->line[in->size++] = byte;
    else
        in->too_long = true;
}

static heard end_line(terminal *in, char byte)
{
    in->tabbed = byte == '\t';
    in->after_return = byte == '\r';
    in->line[in->size] = '\0';
    /* A NUL would hide what is behind it. */
    if (strlen(in->line) != in->size)
        in->line[0] = '\1';
    return in->too_long ? HEARD_LONG : HEARD_LINE;
}

/* A signal waits at the door: it goes before what was typed and not yet taken. */
static bool is_knocking(void)
{
    sigset_t waiting;
    bool any = false;
    if (sigpending(&waiting) != 0)
        return false;
    for (int i = 0; i < TERMINAL_SIGNALS; i++)
        any = any || sigismember(&waiting, signals[i]) == 1;
    return any;
}

heard terminal_read(terminal *from)
{
    from->size = 0;
    from->too_long = false;
    from->tabbed = false;
    if (is_knocking())
        from->at = from->n = 0;
    for (;;) {
        if (from->at == from->n) {
            const heard got = fetch(from);
            if (got == HEARD_END && from->size > 0) {
                from->line[from->size] = '\0';
                return HEARD_CUT;
            }
            if (got != HEARD_LINE)
                return got;
        }
        const char byte = from->bytes[from->at++];
        if (byte == '\n' && from->after_return && from->size == 0) {
            from->after_return = false;
            continue;
        }
        from->after_return = false;
        if (byte == '\n' || byte == '\r' || byte == '\t')
            return end_line(from, byte);
        keep(from, byte);
    }
}
