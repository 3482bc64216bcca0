/* fast_plan.h - what all plain sheets with one head have in common, laid out flat (layer: fleet).
 *
 * Targets, scopes and what is asked for depend on the book and on the facts above the header only.  A
 * thread works them out once, from the careful layers' own table, and uses them for every sheet whose
 * head says the same. */
#ifndef HL_FAST_PLAN_H
#define HL_FAST_PLAN_H

#include "audit.h"
#include "effects_cache.h"
#include "fast_rows.h"
#include "hammerline/fleet.h"

#define HL_FAST_DERIVED 32
#define HL_FAST_FAR     1e6 /* base units: beyond, a computed value is none (hl__amount_from) */

/* Where the double of a step's value is to be found. */
typedef enum hl_fast_sort {
    HL_FAST_READING, /* nowhere: made of the reading */
    HL_FAST_EXACT,   /* it stands among those for formulas */
    HL_FAST_JUDGED,  /* it has none */
} hl_fast_sort;

typedef struct hl_fast_plan {
    hl_arena arena;
    const hl_book *book;
    char *key; /* the head's bytes, without what is only kept for the record */
    size_t key_size;
    bool plain; /* else every sheet with this head is for the careful way */
    hl_sheet *head;
    hl_fast_form form;
    int keys;
    hl_amount *low, *high, *aim; /* no limit: the ends of the range */
    unsigned char *applies, *asked;
    unsigned char *states;        /* of a sheet without readings */
    int (*counts)[HL_VERDICTS];   /* [n_steps]: of such a sheet */
    bool *by_section;             /* [n_steps]: asked for once a section, which only the careful way counts */
    unsigned char *sorts;         /* [n_steps]: hl_fast_sort */
    bool *in_formula;             /* [n_steps]: its numbers are wanted as doubles */
    int derived[HL_FAST_DERIVED]; /* in the order in which they can be computed */
    int n_derived;
    double *least, *most; /* of a derived step: what is rounded to its limits */
    double *facts;        /* [n_facts][HL_FLAT_NOTES] */
    /* The other notes of a note's colour, the nearest first, 0 at the end; [1]: of its section too. */
    unsigned char *near[2];
    int model;       /* of the floating step, or -1 */
    bool *simple;    /* [n_steps]: wherever it can be read, its reading is judged */
    bool *all_asked; /* [n_steps]: of a simple one: it is asked for wherever it can be read, else nowhere */
    int *whole_fix, n_whole_fix; /* steps of notes that have what moves all notes among their ways out */
    bool *apart;                 /* [n_steps]: of the sheet in hand, as in hl_table */
    bool *masked;                /* [n_steps]: there is a step that can make its readings mean nothing */
    bool *ever;                  /* [n_steps]: had a reading on one of the sheets so far, or is derived */
    int *filled, n_filled;       /* those read at notes, ascending */
    const hl_known *known;
    hl_table table; /* standings at notes where something failed; of steps never read as at the start */
    bool has_table;
} hl_fast_plan;

/* A plan for the head `top`; false only for want of memory.  `book`: NULL when none can be opened. */
bool hl__fast_plan(hl_fast_plan *out, const hl_book *book, const char *top, size_t size);
void hl__fast_plan_free(hl_fast_plan *plan);

#endif
