/* time_runs.c - runs commands in turns and prints what each took, beside the first.
 *
 *   time_runs ROUNDS NAME COMMAND [NAME COMMAND ...]
 *
 * In turns (A B C A B C ...), because a machine has slow phases that last longer than one command: only
 * what was measured side by side may be compared.  Each column is a median; commands are run by the
 * shell, their output thrown away. */
#define _DEFAULT_SOURCE /* wait4: memory of one child, not of the largest so far */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define ROUNDS_MOST   100
#define COMMANDS_MOST 16

typedef struct runs {
    const char *name, *command;
    double wall[ROUNDS_MOST], cpu[ROUNDS_MOST]; /* milliseconds */
    long peak;                                  /* KiB, the largest */
    int code;
} runs;

static double read_clock(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static double in_ms(struct timeval t)
{
    return (double)t.tv_sec * 1e3 + (double)t.tv_usec / 1e3;
}

static void run_once(runs *r, int round)
{
    struct rusage used = {0};
    int status = 0;
    const double began = read_clock();
    const pid_t child = fork();
    if (child == 0) {
        const int null = open("/dev/null", O_WRONLY);
        dup2(null, STDOUT_FILENO);
        dup2(null, STDERR_FILENO);
        execl("/bin/sh", "sh", "-c", r->command, (char *)NULL);
        _exit(127);
    }
    wait4(child, &status, 0, &used);
    r->wall[round] = read_clock() - began;
    r->cpu[round] = in_ms(used.ru_utime) + in_ms(used.ru_stime);
    r->peak = used.ru_maxrss > r->peak ? used.ru_maxrss : r->peak;
    r->code = WIFEXITED(status) ? WEXITSTATUS(status) : 255;
}

static int compare(const void *a, const void *b)
{
    const double left = *(const double *)a, right = *(const double *)b;
    return (left > right) - (left < right);
}

static double find_median(double *values, int n)
{
    qsort(values, (size_t)n, sizeof *values, compare);
    return n % 2 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

int main(int argc, char **argv)
{
    static runs all[COMMANDS_MOST];
    const int rounds = argc > 1 ? atoi(argv[1]) : 0;
    const int n = (argc - 2) / 2;
    if (rounds < 1 || rounds > ROUNDS_MOST || n < 1 || n > COMMANDS_MOST || argc != 2 + 2 * n) {
        fputs("usage: time_runs ROUNDS NAME COMMAND [NAME COMMAND ...]\n", stderr);
        return 2;
    }
    for (int i = 0; i < n; i++)
        all[i] = (runs){.name = argv[2 + 2 * i], .command = argv[3 + 2 * i]};
    for (int round = 0; round < rounds; round++)
        for (int i = 0; i < n; i++)
            run_once(&all[i], round);
    printf("  %-28s %10s %10s %10s %9s %9s\n", "", "wall ms", "cpu ms", "peak KiB", "x wall", "x cpu");
    double wall = 0, cpu = 0;
    for (int i = 0; i < n; i++) {
        const double w = find_median(all[i].wall, rounds), c = find_median(all[i].cpu, rounds);
        wall = i == 0 ? w : wall;
        cpu = i == 0 ? c : cpu;
        printf("  %-28s %10.1f %10.1f %10ld %9.2f %9.2f%s\n", all[i].name, w, c, all[i].peak, w / wall,
               c / cpu, all[i].code > 1 ? "  (failed)" : "");
    }
    return 0;
}
