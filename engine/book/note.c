/* note.c - note numbers, pitches and their names (layer: book).
 *
 * A pitch counts semitones from C0; a note counts keys from the lowest of its compass.  Names are
 * scientific pitch: the octave number changes at C and belongs to the letter, so Cb4 is B3. */
#include "ascii.h"
#include "hammerline/book.h"
#include "text.h"

#include <string.h>

#define OCTAVE(n)                                                                                            \
    "C" #n, "C#" #n, "D" #n, "D#" #n, "E" #n, "F" #n, "F#" #n, "G" #n, "G#" #n, "A" #n, "A#" #n, "B" #n

static const char *const NAMES[HL_PITCHES] = {
    OCTAVE(0), OCTAVE(1), OCTAVE(2), OCTAVE(3), OCTAVE(4), OCTAVE(5), OCTAVE(6), OCTAVE(7), OCTAVE(8),
};

int hl_note_pitch(hl_compass compass, int note)
{
    return compass.lowest + note - 1;
}

const char *hl_pitch_name(int pitch)
{
    return pitch >= 0 && pitch < HL_PITCHES ? NAMES[pitch] : "?";
}

bool hl_pitch_is_sharp(int pitch)
{
    return pitch >= 0 && pitch < HL_PITCHES && NAMES[pitch][1] == '#';
}

static int read_number(const char *s, size_t size)
{
    int number = 0;
    for (size_t i = 0; i < size; i++) {
        if (!hl__is_digit(s[i]) || i > 5) {
            return 0;
        }
        number = number * 10 + (s[i] - '0');
    }
    return number;
}

/* Pitch of a name, or -1. */
static int read_name(const char *s, size_t size)
{
    static const int above_c[] = {9, 11, 0, 2, 4, 5, 7}; /* A ... G */
    char letter = hl__upper(s[0]);
    if (letter < 'A' || letter > 'G') {
        return -1;
    }
    size_t at = 1;
    int shift = 0;
    if (size - at >= 1 && (s[at] == '#' || s[at] == 'b' || s[at] == 'B')) {
        shift = s[at] == '#' ? 1 : -1;
        at++;
    } else if (size - at >= 3 && memcmp(s + at, "\xE2\x99\xAF", 3) == 0) { /* sharp sign */
        shift = 1;
        at += 3;
    } else if (size - at >= 3 && memcmp(s + at, "\xE2\x99\xAD", 3) == 0) { /* flat sign */
        shift = -1;
        at += 3;
    }
    if (size - at != 1 || s[at] < '0' || s[at] > '8') {
        return -1;
    }
    int pitch = (s[at] - '0') * 12 + above_c[letter - 'A'] + shift;
    return pitch >= 0 && pitch < HL_PITCHES ? pitch : -1;
}

int hl_note_parse(hl_compass compass, const char *text)
{
    size_t left = strlen(text);
    size_t blanks = hl__text_blanks(text, left);
    const char *s = text + blanks;
    left -= blanks;
    size_t size = 0; /* the name has no blanks in it; only blanks may follow */
    while (size < left && hl__text_blanks(s + size, left - size) == 0) {
        size++;
    }
    if (size == 0 || size + hl__text_blanks(s + size, left - size) != left) {
        return 0;
    }
    int note = 0;
    if (hl__is_digit(s[0])) {
        note = read_number(s, size);
    } else {
        int pitch = read_name(s, size);
        note = pitch < 0 ? 0 : pitch - compass.lowest + 1;
    }
    return note >= 1 && note <= compass.keys ? note : 0;
}
