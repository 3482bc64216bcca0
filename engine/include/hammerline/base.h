/* hammerline/base.h - errors, amounts, units, notes, memory: what every other topic uses.
 *
 * Conventions, once for all functions:
 * - A function that can fail returns an hl_code, fills `err` (never NULL) and leaves `*out` NULL.
 * - `T **out`: the result is yours; give it to the matching hl_..._free() (NULL is fine there).
 * - `const T *` returned: borrowed, lives as long as the object it came from.
 * - Nothing here prints, exits, or keeps state between calls.  A book is immutable once opened
 *   and may be shared by threads; a sheet or an audit belongs to one thread at a time.
 * - Numbers that are compared are hl_amount: whole millionths of the base unit, so a reading on
 *   a limit passes in millimetres and in inches alike.  Formulas run in double.
 * - Every text that a function returns is UTF-8 and ends with a NUL byte.
 */
#ifndef HAMMERLINE_BASE_H
#define HAMMERLINE_BASE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- version ----------------------------------------------------------------------------- */

#define HL_VERSION_MAJOR 0
#define HL_VERSION_MINOR 1
#define HL_VERSION_PATCH 0
#define HL_VERSION       "0.1.0"
/* One number to compare with: 0.1.0 is 100. */
#define HL_VERSION_NUMBER (HL_VERSION_MAJOR * 10000 + HL_VERSION_MINOR * 100 + HL_VERSION_PATCH)

#define HL_RULE_API 1 /* what `api = 1` in a book means */
#define HL_SCHEMA   2 /* what `schema` in JSON means */

/* The version of the library that runs, "0.1.0", which may be newer than the header it was built with;
 * static. */
const char *hl_version(void);
/* The same as a number, as HL_VERSION_NUMBER. */
int hl_version_number(void);

/* ---- errors ------------------------------------------------------------------------------ */

typedef enum hl_code {
    HL_OK = 0,
    HL_E_USAGE = 2,  /* the caller asked for nonsense */
    HL_E_SHEET = 3,  /* a sheet can't be read, or has a bad row */
    HL_E_RULE = 4,   /* a rule file is wrong, or went over a limit */
    HL_E_SAVE = 5,   /* could not write */
    HL_E_MEMORY = 6, /* the machine has no memory left */
} hl_code;

/* What went wrong, for a person.  Plain memory: filling one never fails, none needs freeing. */
typedef struct hl_err {
    hl_code code;
    int line, column; /* from 1; 0 when there is none */
    char file[256];
    char what[320]; /* what is wrong, one sentence without a full stop */
    char todo[320]; /* what to do about it; may be empty */
} hl_err;

/* ---- amounts and units ------------------------------------------------------------------- */

typedef int64_t hl_amount; /* nanometres, micrograms, millionths of a turn, degree, ratio, step */
#define HL_ONE INT64_C(1000000)

typedef enum hl_unit {
    HL_NO_UNIT = 0,
    HL_MM,
    HL_IN, /* shown in inches, held in nanometres: 1 in = 25.4 mm exactly */
    HL_G,
    HL_TURN,
    HL_DEGREE,
    HL_RATIO, /* a plain number */
    HL_NOTCH, /* one small step by hand, of a spring: has no size ("step" in rule files) */
} hl_unit;

/* The unit's short name as written in sheets and rules: "mm", "in", "g", "turn", "deg",
 * "ratio", "step"; "" for HL_NO_UNIT.  Static. */
const char *hl_unit_name(hl_unit unit);

/* ---- notes ------------------------------------------------------------------------------- */

#define HL_PITCHES 108 /* C0 (pitch 0) to B8 (pitch 107), semitones */
#define HL_A0      9

typedef struct hl_compass {
    int lowest; /* pitch of the lowest key; A0 = 9 */
    int keys;   /* how many keys; 88 on a modern piano */
} hl_compass;

/* Pitch of note 1 ... keys. */
int hl_note_pitch(hl_compass compass, int note);
/* "A0", "C#4"; static.  Sharps are spelt with #. */
const char *hl_pitch_name(int pitch);
bool hl_pitch_is_sharp(int pitch);
/* Note number of a name ("C#4", "Db4", "c#4") or a number ("40") in this compass; 0 if it is
 * neither, or outside. */
int hl_note_parse(hl_compass compass, const char *text);

/* ---- names ------------------------------------------------------------------------------- */

/* Which of n names was probably meant by a misspelt one; NULL when none is near.  Case, '_', '-' and ' ' are
 * the same letter here; one swap of neighbours counts one.  Near: at most a third of the longer name is
 * different, at least one letter. */
const char *hl_nearest_name(const char *asked, const char *const *names, int n);

/* ---- memory ------------------------------------------------------------------------------ */

/* Frees a text that a function gave away in `char **out`.  NULL is fine. */
void hl_free(char *text);

#ifdef __cplusplus
}
#endif

#endif
