/* notes.c - folds notes into ranges (layer: render/phrases). */
#include "notes.h"

typedef enum { ALL_KEYS, NATURALS_ONLY, SHARPS_ONLY } colour;

static bool is_of(hl_compass compass, int note, colour which)
{
    const bool sharp = hl_pitch_is_sharp(hl_note_pitch(compass, note));
    return which == ALL_KEYS || sharp == (which == SHARPS_ONLY);
}

/* The next key up that counts as a neighbour; 0 above the last. */
static int next_key(hl_compass compass, int note, colour which)
{
    for (int next = note + 1; next <= compass.keys; next++)
        if (is_of(compass, next, which))
            return next;
    return 0;
}

/* Last index of the run that starts at `i`, passing over notes of the other colour. */
static int end_of_run(hl_compass compass, const int *notes, int n, int i, colour which, int *length)
{
    int last = i;
    *length = 1;
    for (int j = i + 1; j < n; j++) {
        if (!is_of(compass, notes[j], which))
            continue;
        if (notes[j] != next_key(compass, notes[last], which))
            break;
        last = j;
        ++*length;
    }
    return last;
}

/* Adds the runs of one colour and returns how many names they take; `out` may be NULL to count.
 * Two neighbours are named singly: "C4 C#4" reads quicker than a range of two. */
static int fold(hl_text *out, hl_compass compass, const int *notes, int n, colour which)
{
    int names = 0;
    for (int i = 0; i < n; i++) {
        if (!is_of(compass, notes[i], which))
            continue;
        int length = 0;
        const int last = end_of_run(compass, notes, n, i, which, &length);
        const bool range = length > 2;
        if (out) {
            if (names > 0)
                hl__text_char(out, ' ');
            hl__text_add(out, hl_pitch_name(hl_note_pitch(compass, notes[i])));
            if (range) {
                hl__text_char(out, '-');
                hl__text_add(out, hl_pitch_name(hl_note_pitch(compass, notes[last])));
            }
        }
        names++;
        if (range)
            i = last;
    }
    return names;
}

void hl__notes_fold(hl_text *out, hl_compass compass, hl_scope scope, const int *notes, int n)
{
    if (n == 1 && notes[0] == 0) {
        hl__text_add(out, "the instrument");
        return;
    }
    if (scope == HL_NATURALS || scope == HL_SHARPS) {
        fold(out, compass, notes, n, scope == HL_NATURALS ? NATURALS_ONLY : SHARPS_ONLY);
        return;
    }
    const int naturals = fold(NULL, compass, notes, n, NATURALS_ONLY);
    const int sharps = fold(NULL, compass, notes, n, SHARPS_ONLY);
    if (naturals + sharps >= fold(NULL, compass, notes, n, ALL_KEYS)) {
        fold(out, compass, notes, n, ALL_KEYS);
        return;
    }
    if (naturals > 0) {
        hl__text_add(out, "naturals ");
        fold(out, compass, notes, n, NATURALS_ONLY);
    }
    if (sharps > 0) {
        hl__text_add(out, naturals > 0 ? ", sharps " : "sharps ");
        fold(out, compass, notes, n, SHARPS_ONLY);
    }
}
