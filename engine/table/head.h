/* head.h - what all sheets with the same facts have in common, laid out flat (layer: table).
 *
 * What is asked for, what applies, the limits of what is computed and each note's neighbours depend on the
 * book and on what is written above the header only.  They are found once and used for every sheet whose
 * head says the same: one sheet, or all of a fleet. */
#ifndef HL_HEAD_H
#define HL_HEAD_H

#include "arena.h"
#include "book.h"
#include "hammerline/audit.h"
#include "sheet.h"

#define HL_EXACT_FAR 1e6 /* base units: beyond, a computed value is none (hl__amount_from) */

/* Where a step's value in base units is found. */
typedef enum hl_value_source {
    HL_FROM_EXACT,   /* the table's `exact`: it is computed, or is in a formula */
    HL_FROM_READING, /* the reading */
    HL_FROM_NOTHING, /* a judged step has none */
} hl_value_source;

typedef struct hl_head {
    const hl_book *book;
    const hl_sheet *sheet; /* whose facts hold; its rows are not looked at */
    int keys;
    unsigned char *states;      /* place: of a sheet without readings (sections apart) */
    unsigned char *asked;       /* place: there must be a reading here */
    int (*counts)[HL_VERDICTS]; /* [n_steps]: of such a sheet */
    bool *by_section;           /* [n_steps]: asked for once a section, and not at notes of its own */
    bool *simple;               /* [n_steps]: wherever it can be read, its reading is judged, and it is asked
                                   for at all those places or at none */
    bool *all_asked;            /* [n_steps]: of a simple one: at all */
    bool *in_formula;           /* [n_steps]: its numbers are wanted in base units */
    unsigned char *sources;     /* [n_steps]: hl_value_source */
    int *note_masks;        /* [n_steps]: 0 of a step asked once, which speaks from note 0; else all ones */
    bool *by_column;        /* [n_steps]: derived, and its formula can be computed for all notes at once */
    double *least, *most;   /* place, derived: what is rounded to its limits */
    bool *assumed;          /* place, derived: an assumed fact takes part */
    double *facts;          /* [n_facts][HL_NOTES] */
    unsigned char *near[4]; /* hl__head_near(); NULL where no step asks */
    bool *small;       /* [n_steps]: in millimetres, and less than a tenth may pass: inches may hide there */
    int model;         /* the step whose model ties the floating step, or -1 */
    int *once, n_once; /* steps asked once: they speak from note 0 */
    int *maskers, n_maskers; /* steps that can make others' readings mean nothing */
    bool *masked;            /* [n_steps]: there is a step that can make its readings mean nothing */
    int section_ends[HL_BREAKS_MOST + 1], n_sections; /* last note of each */
    const struct hl_effects_cache
        *effects; /* effects_cache.h; NULL: each effect is computed when asked for */
} hl_head;

/* The head of a sheet whose facts were read.  `sampled`: [keys + 1], 1 = drawn; only these notes are asked
 * for; NULL: all.  NULL for want of memory. */
hl_head *hl__head_new(hl_arena *arena, const hl_sheet *sheet, const unsigned char *sampled);
/* The neighbours of a note for a step: other notes, the nearest first, the lower of two first, 0 at the end.
 * Of its colour, unless the step compares across colours; of its section, when the step stops at breaks. */
const unsigned char *hl__head_near(const hl_head *head, const hl_step *step, int note);

#endif
