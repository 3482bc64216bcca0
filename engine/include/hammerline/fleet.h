/* hammerline/fleet.h - many sheets at once. */
#ifndef HAMMERLINE_FLEET_H
#define HAMMERLINE_FLEET_H

#include "audit.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- fleets ------------------------------------------------------------------------------ */

/* Thousands of sheets, each judged whole, told one by one in the order given.  The order and every
 * byte are the same for any number of threads; memory is bounded by a few sheets a thread.
 *
 * A file whose header has a column `sheet` holds many sheets: the rows of one stand together and
 * name it there; facts above the header hold for all of them.  Such a file is read in pieces, so
 * it may be larger than any one sheet. */

/* One sheet of a fleet.  Everything in it ends with the call that brings it. */
typedef struct hl_fleet_sheet {
    const char *title;   /* its path; in a file of many, "path: name" */
    const hl_book *book; /* NULL when none could be opened */
    bool judged;         /* else `errors` says why it could not be */
    bool ready;
    bool again; /* its rows don't stand together: a part of it was told before, which is void now, */
    bool was_judged, was_ready; /* and said this */
    bool has_work;              /* something of the book applies to it: else there is nothing to judge */
    hl_code code;               /* HL_OK; HL_E_SHEET too when it was judged but has bad rows */
    const int (*counts)[HL_VERDICTS]; /* [n_steps] */
    int total[HL_VERDICTS];           /* an open query counts as a fail here, and in no step */
    const int *cures;                 /* [n_adjusters]: failing readings that it is the first cure of */
    const hl_err *errors;
    int n_errors;
    size_t unlisted;       /* bad rows that found no place in `errors` */
    const hl_audit *audit; /* NULL unless options->keep */
    const char *text;      /* what options->print made of the audit; NULL without it */
    size_t size;
} hl_fleet_sheet;

/* The next path, which stays until the next call; NULL at the end.  One thread at a time calls it. */
typedef const char *hl_fleet_next(void *context);
/* Takes one sheet; false stops the run.  One thread at a time calls it, in the order given. */
typedef bool hl_fleet_take(void *context, const hl_fleet_sheet *sheet);
/* As hl_audit_json(); threads call it at the same time. */
typedef hl_code hl_fleet_print(char **out, size_t *size, const hl_audit *audit, hl_err *err);

typedef struct hl_fleet_options {
    const hl_shelf *shelf;
    const char *book;                /* wins over what the sheets name; NULL: they say */
    const hl_audit_options *judging; /* NULL: simple, every note */
    int threads;                     /* 0: one a core */
    bool keep;                       /* hand out the audits */
    hl_fleet_print *print;           /* NULL: no text */
} hl_fleet_options;

/* HL_OK when every sheet was told, whatever it was told of them; a book is opened once and shared. */
hl_code hl_fleet_run(const hl_fleet_options *options, hl_fleet_next *next, void *next_context,
                     hl_fleet_take *take, void *take_context, hl_err *err);
/* Does this file hold many sheets?  False, too, when it can't be read. */
bool hl_fleet_is_many(const char *path);

/* What all sheets come to, step by step.  Start as {0}. */
typedef struct hl_fleet_totals {
    long n_sheets, n_judged, n_ready;
    struct hl_fleet_total *books; /* one a book, in the order of their first sheets */
    size_t n, room;
} hl_fleet_totals;
hl_code hl_fleet_totals_add(hl_fleet_totals *totals, const hl_fleet_sheet *sheet, hl_err *err);
void hl_fleet_totals_free(hl_fleet_totals *totals);

#ifdef __cplusplus
}
#endif

#endif
