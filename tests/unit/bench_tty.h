/* bench_tty.h - a walk at the other end of a pseudo terminal, for tests that type. */
#ifndef BENCH_TTY_H
#define BENCH_TTY_H

#include <fcntl.h>
#include <poll.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#define PATIENCE 60 /* seconds without an answer; the sanitizers are slow */

typedef struct bench {
    pid_t walk;
    int master;
    int slave; /* kept open: so what was typed is not lost between two walks, and modes can be seen */
    char *heard;
    size_t size, room;
    size_t from; /* what was waited for already */
} bench;

static inline void sit_down(bench *b)
{
    memset(b, 0, sizeof *b);
    b->master = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(b->master >= 0);
    assert_int_equal(grantpt(b->master), 0);
    assert_int_equal(unlockpt(b->master), 0);
    b->slave = open(ptsname(b->master), O_RDWR | O_NOCTTY);
    assert_true(b->slave >= 0);
}

static inline void start_walk(bench *b, char *const *arguments)
{
    const char *name = ptsname(b->master);
    b->walk = fork();
    assert_true(b->walk >= 0);
    if (b->walk > 0)
        return;
    setsid();
    const int tty = open(name, O_RDWR); /* the first one becomes the controlling terminal: ^C works */
    if (tty < 0 || dup2(tty, 0) < 0 || dup2(tty, 1) < 0 || dup2(tty, 2) < 0)
        _exit(99);
    close(tty);
    setenv("TERM", "dumb", 1);
    execv(arguments[0], arguments);
    _exit(99);
}

/* Takes what is there; false when nothing came for `wait` milliseconds. */
static inline bool listen_a_while(bench *b, int wait)
{
    struct pollfd ready = {.fd = b->master, .events = POLLIN};
    if (poll(&ready, 1, wait) <= 0 || !(ready.revents & POLLIN))
        return false;
    if (b->room - b->size < 4097) {
        b->room += 1 << 20;
        b->heard = realloc(b->heard, b->room);
        assert_non_null(b->heard);
    }
    const ssize_t n = read(b->master, b->heard + b->size, 4096);
    if (n <= 0)
        return false;
    b->size += (size_t)n;
    b->heard[b->size] = '\0';
    return true;
}

static inline void type_text(bench *b, const char *text)
{
    size_t size = strlen(text);
    while (size > 0) {
        const ssize_t n = write(b->master, text, size);
        assert_true(n > 0);
        text += n;
        size -= (size_t)n;
        while (listen_a_while(b, 0))
            ;
    }
}

/* Waits until `words` were said `times` after what was waited for before; fails with the last words. */
static inline void hear(bench *b, const char *words, int times)
{
    const time_t start = time(NULL);
    for (;;) {
        while (times > 0) {
            const char *at = b->heard ? strstr(b->heard + b->from, words) : NULL;
            if (!at)
                break;
            b->from = (size_t)(at - b->heard) + strlen(words);
            times--;
        }
        if (times == 0)
            return;
        if (!listen_a_while(b, 1000) && time(NULL) - start > PATIENCE)
            fail_msg("waited for %d more of \"%s\" after:\n%s", times, words,
                     b->heard ? b->heard + (b->size > 1500 ? b->size - 1500 : 0) : "");
    }
}

/* The walk's end: its exit code, or 1000 and the signal that killed it. */
static inline int wait_for_end(bench *b)
{
    int status = 0;
    const time_t start = time(NULL);
    while (waitpid(b->walk, &status, WNOHANG) == 0) {
        listen_a_while(b, 50);
        if (time(NULL) - start > PATIENCE) {
            kill(b->walk, SIGKILL);
            fail_msg("the walk did not end");
        }
    }
    while (listen_a_while(b, 0))
        ;
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
}

static inline void get_up(bench *b)
{
    close(b->master);
    close(b->slave);
    free(b->heard);
}

#endif
