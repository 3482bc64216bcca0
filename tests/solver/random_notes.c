/* random_notes.c - a thousand random notes for two solvers: ours here, GLPK by tests/solver/check_glpk.sh.
 *
 * usage: random_notes FOLDER FIRST COUNT WIDE
 * Solves notes FIRST ... and writes for each FOLDER/N.lp (fewest adjusters, then closest to aim, with
 * the violation held at our least) and, when we say that not all limits can be met, FOLDER/N.v.lp (the
 * least violation).  Prints a line a note: number, hard, kept and other violation, adjusters touched,
 * closeness (thousandths), relaxations, microseconds, met, proven.
 *
 * Readings, limits and what a smallest move does are whole hundredths of a millimetre, far coarser than
 * GLPK's tolerances, so that a limit that is met there is met here.  All numbers are invented.  Lengths
 * in the files are in hundredths. */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "solve.h"

#define HUNDREDTH   INT64_C(10000)
#define COUNT_COSTS 1000 /* one more adjuster outweighs any gain in closeness */

typedef struct random_note {
    hl_solve_step steps[HL_SOLVE_STEPS];
    double by[HL_SOLVE_ADJUSTERS][HL_SOLVE_STEPS]; /* hundredths per smallest move, in step units */
    hl_solve_adjuster adjusters[HL_SOLVE_ADJUSTERS];
    hl_solve_note note;
} random_note;

static uint64_t draw(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed >> 11;
}

static int64_t between(uint64_t *seed, int64_t low, int64_t high)
{
    return low + (int64_t)(draw(seed) % (uint64_t)(high - low + 1));
}

/* A note that was right, knocked out by moves of some adjusters; at times beyond cure. */
static void knock_out(random_note *r, uint64_t *seed)
{
    int64_t spoilt = between(seed, 1, r->note.n_adjusters);
    for (int64_t i = 0; i < spoilt; i++) {
        int a = (int)between(seed, 0, r->note.n_adjusters - 1);
        int64_t move = between(seed, -6, 6);
        for (int s = 0; s < r->note.n_steps; s++)
            r->steps[s].reading += HL_ONE / 8 * move * (int64_t)(r->by[a][s] * 8) / 8;
    }
    for (int s = 0; s < r->note.n_steps; s++) {
        hl_solve_step *step = &r->steps[s];
        step->reading = step->reading / HUNDREDTH * HUNDREDTH;
        if (between(seed, 0, 2) == 0)
            step->keep = step->reading >= step->low && step->reading <= step->high;
    }
    if (between(seed, 0, 5) == 0)
        r->steps[between(seed, 0, r->note.n_steps - 1)].reading += HUNDREDTH * between(seed, -900, 900);
}

static void draw_step(hl_solve_step *step, uint64_t *seed)
{
    int64_t half = between(seed, 10, 60);
    *step = (hl_solve_step){.low = HUNDREDTH * (1000 - half),
                            .aim = HUNDREDTH * 1000,
                            .high = HUNDREDTH * (1000 + half),
                            .has_low = true,
                            .has_high = true,
                            .has_aim = true,
                            .half = HUNDREDTH * half};
    step->reading = step->aim + HUNDREDTH * between(seed, -half / 2, half / 2);
}

/* The first adjuster moves all steps, so that the note does not fall apart (and rounds as one). */
static bool draw_note(random_note *r, uint64_t *seed, bool wide, hl_arena *arena)
{
    static const hl_amount papers[] = {HL_ONE / 4, HL_ONE / 2, HL_ONE * 5 / 4};
    memset(r, 0, sizeof *r);
    int n_steps = (int)(wide ? 16 : between(seed, 5, 9)),
        n_adjusters = (int)(wide ? 10 : between(seed, 4, 7));
    r->note = (hl_solve_note){r->steps, n_steps, r->adjusters, n_adjusters, 0};
    for (int s = 0; s < n_steps; s++)
        draw_step(&r->steps[s], seed);
    for (int a = 0; a < n_adjusters; a++) {
        hl_solve_adjuster *adjuster = &r->adjusters[a];
        for (int s = 0; s < n_steps; s++) {
            if (a == 0 || between(seed, 0, 9) < 4) /* an eighth does 0.02 to 1.2 mm */
                r->by[a][s] = (double)(between(seed, 2, 120) * (between(seed, 0, 1) ? 1 : -1)) * 0.08;
        }
        adjuster->by = r->by[a];
        adjuster->moves = between(seed, 0, 3) == 0
                              ? hl__moves_by_sizes(arena, papers, 3, HL_PIECES, HL_ONE * 3 / 2, HL_WAYS_BOTH,
                                                   &adjuster->n_moves)
                              : hl__moves_by_finest(arena, HL_ONE / 8, HL_ONE / 8 * between(seed, 6, 16),
                                                    HL_WAYS_BOTH, &adjuster->n_moves);
        if (!adjuster->moves)
            return false;
    }
    knock_out(r, seed);
    return true;
}

static int64_t shift_of(const random_note *r, int a, int j, int s)
{
    double shift = r->by[a][s] * (double)r->adjusters[a].moves[j].amount / (double)HUNDREDTH;
    return (int64_t)(shift < 0 ? shift - 0.5 : shift + 0.5);
}

/* Each step's own lines: what it reads, how far from aim, how far outside. */
static void write_step(FILE *file, const random_note *r, int s)
{
    const hl_solve_step *step = &r->steps[s];
    fprintf(file, " r%d: p%d", s, s);
    for (int a = 0; a < r->note.n_adjusters; a++) {
        for (int j = 0; j < r->adjusters[a].n_moves; j++) {
            int64_t shift = shift_of(r, a, j, s);
            if (shift)
                fprintf(file, " %c %" PRId64 " b%d_%d\n", shift > 0 ? '-' : '+', shift > 0 ? shift : -shift,
                        a, j);
        }
    }
    fprintf(file, " = %" PRId64 "\n", step->reading / HUNDREDTH);
    fprintf(file, " a%d: d%d - p%d >= %" PRId64 "\n", s, s, s, -step->aim / HUNDREDTH);
    fprintf(file, " z%d: d%d + p%d >= %" PRId64 "\n", s, s, s, step->aim / HUNDREDTH);
    fprintf(file, " l%d: v%d + p%d >= %" PRId64 "\n", s, s, s, step->low / HUNDREDTH);
    fprintf(file, " h%d: v%d - p%d >= %" PRId64 "\n", s, s, s, -step->high / HUNDREDTH);
}

/* A sum over steps of name / half width; tier -1 = all. */
static void write_sum(FILE *file, const random_note *r, char name, int tier, double times)
{
    for (int s = 0; s < r->note.n_steps; s++) {
        double share = times * (double)HUNDREDTH / (double)r->steps[s].half;
        if (tier < 0 || tier == (r->steps[s].keep ? 1 : 2))
            fprintf(file, " + %.12f %c%d\n", share, name, s);
    }
}

static void write_body(FILE *file, const random_note *r)
{
    for (int s = 0; s < r->note.n_steps; s++)
        write_step(file, r, s);
    for (int a = 0; a < r->note.n_adjusters; a++) {
        fprintf(file, " one%d:", a);
        for (int j = 0; j < r->adjusters[a].n_moves; j++)
            fprintf(file, " + b%d_%d\n", a, j);
        fprintf(file, " = 1\n");
    }
}

static void write_tail(FILE *file, const random_note *r)
{
    fprintf(file, "Bounds\n");
    for (int s = 0; s < r->note.n_steps; s++)
        fprintf(file, " p%d free\n", s);
    fprintf(file, "Binary\n");
    for (int a = 0; a < r->note.n_adjusters; a++) {
        for (int j = 0; j < r->adjusters[a].n_moves; j++)
            fprintf(file, " b%d_%d\n", a, j);
    }
    fprintf(file, "End\n");
}

static void write_choice(FILE *file, const random_note *r, const hl_solution *found)
{
    fprintf(file, "Minimize\n cost:");
    write_sum(file, r, 'd', -1, 1);
    for (int a = 0; a < r->note.n_adjusters; a++) {
        for (int j = 0; j < r->adjusters[a].n_moves; j++) {
            if (r->adjusters[a].moves[j].amount)
                fprintf(file, " + %d b%d_%d\n", COUNT_COSTS, a, j);
        }
    }
    fprintf(file, "\nSubject To\n");
    write_body(file, r);
    for (int tier = 1; tier < 3; tier++) {
        fprintf(file, " tier%d:", tier);
        write_sum(file, r, 'v', tier, 1);
        fprintf(file, " + 0 p0 <= %.12f\n", (double)found->violation[tier] / 1000);
    }
    write_tail(file, r);
}

/* Kept steps first: each half width of theirs outweighs all others. */
static void write_violation(FILE *file, const random_note *r)
{
    fprintf(file, "Minimize\n cost:");
    write_sum(file, r, 'v', 2, 1);
    write_sum(file, r, 'v', 1, COUNT_COSTS);
    fprintf(file, "\nSubject To\n");
    write_body(file, r);
    write_tail(file, r);
}

static bool write_files(const random_note *r, const hl_solution *found, const char *folder, int n)
{
    char path[512];
    for (int which = 0; which < 2; which++) {
        if (which == 1 && found->met)
            continue;
        snprintf(path, sizeof path, "%s/%d.%slp", folder, n, which ? "v." : "");
        FILE *file = fopen(path, "w");
        if (!file)
            return false;
        if (which)
            write_violation(file, r);
        else
            write_choice(file, r, found);
        if (fclose(file))
            return false;
    }
    return true;
}

static int64_t microseconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static bool do_note(int n, const char *folder, bool wide)
{
    hl_arena arena = {0};
    random_note r;
    hl_solution found;
    int step, adjuster;
    uint64_t seed = UINT64_C(0x9e3779b97f4a7c15) * (uint64_t)(n + 1);
    for (int i = 0; i < 8; i++)
        draw(&seed);
    bool done = draw_note(&r, &seed, wide, &arena);
    int64_t start = microseconds();
    done = done && hl__solve(&found, &r.note, &arena, &step, &adjuster) == HL_SOLVE_OK;
    int64_t took = microseconds() - start;
    if (done) {
        printf("%d %" PRId64 " %" PRId64 " %" PRId64 " %d %" PRId64 " %ld %" PRId64 " %d %d\n", n,
               found.violation[0], found.violation[1], found.violation[2], found.touched, found.closeness,
               found.nodes, took, found.met, found.proven);
        done = strcmp(folder, "-") == 0 || write_files(&r, &found, folder, n);
    }
    hl__arena_free(&arena);
    return done;
}

int main(int n_words, char **words)
{
    if (n_words != 5) {
        fprintf(stderr, "usage: random_notes FOLDER FIRST COUNT WIDE (FOLDER - writes no files)\n");
        return 2;
    }
    int first = (int)strtol(words[2], NULL, 10), count = (int)strtol(words[3], NULL, 10);
    for (int n = first; n < first + count; n++) {
        if (!do_note(n, words[1], strcmp(words[4], "1") == 0)) {
            fprintf(stderr, "note %d could not be drawn, solved or written\n", n);
            return 1;
        }
    }
    return 0;
}
