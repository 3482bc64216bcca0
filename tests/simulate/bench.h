/* bench.h - the simulated piano on the bench: what is read off it, and what is done to it. */
#ifndef SIMULATE_BENCH_H
#define SIMULATE_BENCH_H

#include "action.h"
#include "audit.h"
#include "plan.h"

typedef struct bench {
    const hl_book *book;
    action piano;
    aims aim;
    dice noise;
    double noise_share;
    int steps[QUANTITIES];                /* their places in the book */
    int tools[TOOLS];                     /* likewise */
    hl_amount read[QUANTITIES][KEYS + 1]; /* the reading that counts */
    bool dirty[QUANTITIES][KEYS + 1];     /* work since has moved it */
    long rounds, adjustments, readings;   /* readings: after the first round */
    hl_sheet *sheet;
    hl_audit *audit;
} bench;

/* Ends the program with a message when something of ours fails. */
void need(bool good, const char *what);

typedef struct conditions {
    uint64_t seed;
    double off;   /* effects beside the book's, at most: 0.15 */
    double noise; /* of the gauges, as a share of what the book states */
} conditions;

void open_bench(bench *out, const hl_book *book, const conditions *under, uint64_t piano);
void close_bench(bench *from);
/* Read a cell, or every cell that work has moved, with the gauge's noise. */
void read_cell(bench *at, int what, int note);
void read_dirty(bench *at);
/* Write a sheet of what stands now, and judge it. */
void judge_bench(bench *at);
/* Do it, count it, and know what to read again: whatever the book says that it moves. */
void do_correction(bench *at, int note, const hl_correction *correction);
/* The quantity that a step of the book is, or -1. */
int find_quantity(const bench *at, int step);
/* A derived reading that nothing cures is first read again: what it is derived from. */
void distrust(bench *at);

typedef struct outcome {
    bool ready;
    int passes;
    long rounds; /* turns from reading to working */
    long adjustments, readings;
} outcome;

#define PASSES_MOST 20

/* Three ways to work; each leaves the bench as it ends. */
outcome work_step_by_step(bench *at);
outcome work_all_at_once(bench *at);
outcome work_by_plan(bench *at);

#endif
