/* infer_facts.h - an assumed figure that this piano's readings contradict (layer: state). */
#ifndef HL_INFER_FACTS_H
#define HL_INFER_FACTS_H

#include "hammerline/audit.h"
#include "table.h"

/* List what the readings imply of assumed facts, and reckon the models of the notes in question anew
 * with it, so that no note is told of for what is the fact's fault.  After hl__compare_models().
 * False = no memory. */
bool hl__infer_facts(hl_table *table, hl_implied **out, size_t *n);

/* To three digits: nobody turns or reads finer. */
double hl__three_digits(double value);

#endif
