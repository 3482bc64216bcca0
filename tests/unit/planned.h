/* planned.h - a finished piano of a book, faults typed into it, and the plan made of it. */
#ifndef PLANNED_H
#define PLANNED_H

#include "hammerline.h"
#include "judged.h"

typedef struct planned {
    judged j;
    hl_plan *plan;
} planned;

static inline planned plan_judged(judged j, const hl_plan_options *options)
{
    planned p = {.j = j};
    hl_err err = {0};
    if (hl_plan_run(&p.plan, p.j.audit, options, &err) != HL_OK)
        fail_msg("%s; %s", err.what, err.todo);
    return p;
}

/* Takes the book over. */
static inline planned plan_finished(hl_book *book, const char *more, const hl_plan_options *options)
{
    return plan_judged(judge_finished(book, more), options);
}

static inline void put_plan_away(planned *p)
{
    hl_plan_free(p->plan);
    put_away(&p->j);
}

/* NULL when the plan has nothing to say of the note. */
static inline const hl_plan_note *note_of(const planned *p, const char *name)
{
    int n = 0, note = hl_note_parse(hl_sheet_compass(p->j.sheet), name);
    const hl_plan_note *notes = hl_plan_notes(p->plan, &n);
    for (int i = 0; i < n; i++)
        if (notes[i].note == note)
            return &notes[i];
    return NULL;
}

/* Signed amount that the adjuster is moved by; 0 when it is left alone. */
static inline hl_amount moved(const planned *p, const char *note, const char *adjuster)
{
    const hl_plan_note *of = note_of(p, note);
    int a = small_adjuster(p->j.book, adjuster);
    for (int i = 0; of && i < of->n_adjustments; i++)
        if (of->adjustments[i].adjuster == a)
            return of->adjustments[i].more ? of->adjustments[i].amount : -of->adjustments[i].amount;
    return 0;
}

static inline int count_moved(const planned *p, const char *note)
{
    const hl_plan_note *of = note_of(p, note);
    return of ? of->n_adjustments : 0;
}

static inline hl_amount known(const planned *p, const char *note, const char *step)
{
    const hl_plan_note *of = note_of(p, note);
    int s = small_step(p->j.book, step);
    for (int i = 0; of && i < of->n_foreseen; i++)
        if (of->foreseen[i].step == s)
            return of->foreseen[i].after;
    fail_msg("nothing is known of %s at %s", step, note);
    return 0;
}

static inline const hl_unmet_reading *unmet(const planned *p, const char *note, const char *step)
{
    const hl_plan_note *of = note_of(p, note);
    int s = small_step(p->j.book, step);
    for (int i = 0; of && i < of->n_unmet; i++)
        if (of->unmet[i].step == s)
            return &of->unmet[i];
    return NULL;
}

static inline const hl_waiting *waits(const planned *p, const char *note, const char *step)
{
    const hl_plan_note *of = note_of(p, note);
    int s = small_step(p->j.book, step);
    for (int i = 0; of && i < of->n_waiting; i++)
        if (of->waiting[i].step == s)
            return &of->waiting[i];
    return NULL;
}

static inline bool reads_again(const planned *p, const char *note, const char *step)
{
    const hl_plan_note *of = note_of(p, note);
    return of && lists(&p->j, of->again, of->n_again, step);
}

#endif
