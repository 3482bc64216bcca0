/* action.h - a made-up grand action of 88 notes with the geometry of levers, not of formulas.
 *
 * The key turns about its balance pin and rests on its back rail; the capstan lifts a whippen that
 * turns about its flange; jack and knuckle turn the shank.  Hammer travel for key travel therefore
 * changes along the stroke by about a fifth, where the trade's formulas have one ratio.  Papers and
 * screws do what the levers make of them.  Everything here is invented; nothing is measured. */
#ifndef SIMULATE_ACTION_H
#define SIMULATE_ACTION_H

#include <stdbool.h>
#include <stdint.h>

#define KEYS 88

typedef enum tool { BALANCE, FRONT, CAPSTAN, BUTTON, DROP_SCREW, CHECK, TOOLS } tool;
typedef enum quantity {
    KEY_LEVEL,
    SHARP_HEIGHT,
    KEY_DIP,
    BLOW,
    LET_OFF,
    DROP,
    AFTERTOUCH,
    CHECKING,
    QUANTITIES
} quantity;

/* The arms of one colour of key, and its whippen. */
typedef struct lever_set {
    double front, pin, back, capstan; /* from the balance pin, mm */
    double jack;                      /* whippen flange to the jack's tender, mm */
    double rest;                      /* capstan height that gives the blow its aim */
    double dip;                       /* front pin clearance that gives the dip its aim */
} lever_set;

typedef struct action {
    lever_set levers[2];         /* naturals, sharps */
    double per_unit[TOOLS];      /* what the screws really do, against the book */
    double set[KEYS + 1][TOOLS]; /* how each stands; 0 = as it should */
} action;

/* A random stream of its own, the same on every machine. */
typedef struct dice {
    uint64_t state;
} dice;
double roll(dice *from);        /* 0 ... 1 */
double roll_normal(dice *from); /* mean 0, deviation 1 */

bool is_sharp(int note);
/* What the book's aims are for: blow, let-off at the note, dip of the colour. */
typedef struct aims {
    double blow, drop, checking, sharp_height;
    double dip[2];
    double let_off[KEYS + 1];
} aims;

/* A piano with faults at every note, and effects up to `off` (0.15) beside the book's. */
void make_action(action *out, const aims *aim, uint64_t seed, double off);
/* Turn, add or bend: `amount` in the book's unit, + = more. */
void adjust(action *of, int note, tool which, double amount);
/* The true value; NaN where it has none (key level of a sharp). */
double measure(const action *of, const aims *aim, int note, quantity what);

#endif
