/* notes.h - many notes in few words: "C3-F3 A4" (layer: render/phrases). */
#ifndef HL_NOTES_H
#define HL_NOTES_H

#include "hammerline/print.h"
#include "text.h"

/* Adds the notes (ascending numbers of the compass) folded into ranges.  Where a step concerns one
 * colour only, the next key of that colour is the neighbour.  Elsewhere a list that is shorter by
 * colours says so: "naturals C3-C5, sharps F#4".  A single note 0 adds "the instrument". */
void hl__notes_fold(hl_text *out, hl_compass compass, hl_scope scope, const int *notes, int n);

#endif
