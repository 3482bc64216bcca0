/* technician.c - three ways to bring the simulated piano to where the audit says "ready". */
#include "bench.h"

#define TRIES 3 /* at one step before going on to the next */

static bool is_ready(const bench *at)
{
    return hl_audit_ready(at->audit);
}

static outcome finish(const bench *at, int passes)
{
    return (outcome){is_ready(at), passes, at->rounds, at->adjustments, at->readings};
}

/* Work that was done since a reading was taken makes the reading old: it is taken anew on arrival. */
static void read_step(bench *at, int step)
{
    int what = find_quantity(at, step);
    for (int note = 1; what >= 0 && note <= KEYS; note++)
        if (at->dirty[what][note])
            read_cell(at, what, note);
}

static void read_inputs(bench *at, int step)
{
    const hl_step *s = &at->book->steps[step];
    read_step(at, step);
    for (int i = 0; s->formula && i < s->formula->n_vars; i++)
        if (s->formula->vars[i].kind == HL_VAR_STEP)
            read_step(at, s->formula->vars[i].index);
}

/* The audit's first correction at every note where this step fails; true when there was one. */
static bool correct_step(bench *at, int step)
{
    long before = at->adjustments;
    for (size_t i = at->audit->findings.first[step]; i < at->audit->findings.first[step + 1]; i++) {
        const hl_finding *f = &at->audit->findings.items[i];
        if (f->note > 0 && f->n_corrections > 0)
            do_correction(at, f->note, &f->corrections[0]);
    }
    at->rounds += at->adjustments > before;
    return at->adjustments > before;
}

/* One step after another, in the book's order: correct, read that step again, and not go on before it
 * passes or has been tried three times.  At the end what was disturbed is read, and if need be all of
 * it begins anew. */
outcome work_step_by_step(bench *at)
{
    int passes = 0;
    judge_bench(at);
    while (!is_ready(at) && passes < PASSES_MOST) {
        passes++;
        distrust(at);
        for (int step = 0; step < at->book->n_steps; step++) {
            if (at->book->steps[step].kind == HL_JUDGED || at->book->steps[step].n_fixes == 0)
                continue;
            for (int i = 0; i < TRIES; i++) {
                read_inputs(at, step);
                judge_bench(at);
                if (!correct_step(at, step))
                    break;
            }
        }
        read_dirty(at);
        judge_bench(at);
    }
    return finish(at, passes);
}

/* Is this screw or paper of the note already spoken for by an earlier step? */
static bool was_moved(bool moved[KEYS + 1][TOOLS], const bench *at, int note, int adjuster)
{
    for (int t = 0; t < TOOLS; t++)
        if (at->tools[t] == adjuster) {
            bool before = moved[note][t];
            moved[note][t] = true;
            return before;
        }
    return true;
}

/* The first correction of everything that one audit finds, each screw of a note once; then all that
 * moved is read again. */
outcome work_all_at_once(bench *at)
{
    int passes = 0;
    judge_bench(at);
    while (!is_ready(at) && passes < PASSES_MOST) {
        bool moved[KEYS + 1][TOOLS] = {{false}};
        passes++;
        at->rounds++;
        distrust(at);
        for (size_t i = 0; i < at->audit->findings.n; i++) {
            const hl_finding *f = &at->audit->findings.items[i];
            if (f->note > 0 && f->n_corrections > 0 &&
                !was_moved(moved, at, f->note, f->corrections[0].adjuster))
                do_correction(at, f->note, &f->corrections[0]);
        }
        read_dirty(at);
        judge_bench(at);
    }
    return finish(at, passes);
}

outcome work_by_plan(bench *at)
{
    int passes = 0;
    judge_bench(at);
    while (!is_ready(at) && passes < PASSES_MOST) {
        hl_plan *plan = NULL;
        hl_err err = {0};
        int n = 0;
        passes++;
        at->rounds++;
        distrust(at);
        need(hl_plan_run(&plan, at->audit, NULL, &err) == HL_OK, err.what);
        const hl_plan_note *notes = hl_plan_notes(plan, &n);
        for (int i = 0; i < n; i++)
            for (int k = 0; k < notes[i].n_adjustments; k++)
                do_correction(at, notes[i].note, &notes[i].adjustments[k]);
        for (int i = 0; i < n; i++)
            for (int k = 0; k < notes[i].n_again; k++) {
                int what = find_quantity(at, notes[i].again[k]);
                if (what >= 0)
                    at->dirty[what][notes[i].note] = true;
            }
        hl_plan_free(plan);
        read_dirty(at);
        judge_bench(at);
    }
    return finish(at, passes);
}
