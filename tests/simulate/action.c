/* action.c - the geometry behind the simulated piano. */
#include "action.h"

#include <math.h>

/* Shank: length to the hammer, the hammer's height on it, and where the knuckle bears (mm). */
#define SHANK   130.0
#define MOULD   50.0
#define KNUCKLE 17.0
#define UNDER   3.0
/* Whippen: flange to the capstan's cushion, and how it leans at rest. */
#define WHIPPEN 62.0
#define LEAN    0.08
#define STRING  0.12 /* shank angle at the string, radians */

/* ---- dice -------------------------------------------------------------------------------- */

double roll(dice *from)
{
    uint64_t z = (from->state += UINT64_C(0x9E3779B97F4A7C15)); /* splitmix64 */
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    z ^= z >> 31;
    return (double)(z >> 11) / 9007199254740992.0;
}

double roll_normal(dice *from)
{
    double sum = 0;
    for (int i = 0; i < 12; i++)
        sum += roll(from);
    return sum - 6;
}

bool is_sharp(int note)
{
    static const bool sharps[12] = {false, true,  false, false, true,  false,
                                    true,  false, false, true,  false, true}; /* from A */
    return sharps[(note - 1) % 12];
}

/* ---- levers ------------------------------------------------------------------------------ */

static double hammer_height(double shank)
{
    return SHANK * sin(shank) + MOULD * cos(shank);
}

static double knuckle_height(double shank)
{
    return KNUCKLE * sin(shank) - UNDER * cos(shank);
}

/* The shank's angle for a knuckle height, by Newton's method. */
static double find_shank(double height)
{
    double shank = 0;
    for (int i = 0; i < 30; i++)
        shank -= (knuckle_height(shank) - height) / (KNUCKLE * cos(shank) + UNDER * sin(shank));
    return shank;
}

/* How high the hammer stands when the capstan stands at `capstan` (0 = level whippen). */
static double lift_hammer(const lever_set *levers, double capstan)
{
    double whippen = asin(capstan / WHIPPEN);
    double tender = levers->jack * (sin(whippen + LEAN) - sin(LEAN));
    return hammer_height(find_shank(tender));
}

/* The capstan's height for a hammer height; lift_hammer() only rises. */
static double find_capstan(const lever_set *levers, double hammer)
{
    double low = -20, high = 20;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (lift_hammer(levers, middle) < hammer)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

static double string_height(void)
{
    return hammer_height(STRING);
}

/* The jack's arm that gives the wanted ratio from rest to let-off. */
static void set_ratio(lever_set *levers, double blow, double let_off, double ratio)
{
    double low = 40, high = 140, want = (blow - let_off) / ratio * levers->capstan / levers->front;
    for (int i = 0; i < 60; i++) {
        levers->jack = (low + high) / 2;
        double lift =
            find_capstan(levers, string_height() - let_off) - find_capstan(levers, string_height() - blow);
        if (lift > want)
            low = levers->jack;
        else
            high = levers->jack;
    }
    levers->rest = find_capstan(levers, string_height() - blow);
}

static double vary(dice *from, double off)
{
    return 1 + off * (2 * roll(from) - 1);
}

/* ---- the piano --------------------------------------------------------------------------- */

/* How far things are out, in the adjusters' own units: a neglected piano, not a wreck. */
static const double faults[TOOLS] = {
    [BALANCE] = 0.04, [FRONT] = 0.25, [CAPSTAN] = 0.12, [BUTTON] = 0.1, [DROP_SCREW] = 0.12, [CHECK] = 1,
};

void make_action(action *out, const aims *aim, uint64_t seed, double off)
{
    static const lever_set book[2] = {{.front = 254, .pin = 234, .back = 220, .capstan = 127},
                                      {.front = 221, .pin = 201, .back = 203, .capstan = 110}};
    static const double ratios[2] = {5, 5};
    dice from = {seed};
    for (int colour = 0; colour < 2; colour++) {
        lever_set *levers = &out->levers[colour];
        *levers = book[colour];
        levers->front *= vary(&from, off / 4);
        levers->pin = levers->front - 20;
        levers->back *= vary(&from, off / 4);
        levers->capstan = levers->front * book[colour].capstan / book[colour].front;
        set_ratio(levers, aim->blow, aim->let_off[KEYS / 2], ratios[colour] * vary(&from, off / 4));
        levers->dip = aim->dip[colour] * levers->pin / levers->front;
    }
    for (int t = 0; t < TOOLS; t++)
        out->per_unit[t] = t == BALANCE || t == FRONT ? 1 : vary(&from, off);
    for (int note = 1; note <= KEYS; note++)
        for (int t = 0; t < TOOLS; t++)
            out->set[note][t] = faults[t] * roll_normal(&from);
}

void adjust(action *of, int note, tool which, double amount)
{
    of->set[note][which] += amount;
}

/* ---- reading it -------------------------------------------------------------------------- */

static double true_dip(const lever_set *levers, const double *set)
{
    double at_pin = levers->dip + set[BALANCE] * (1 + levers->pin / levers->back) - set[FRONT];
    return at_pin * levers->front / levers->pin;
}

static double true_rest(const action *of, const lever_set *levers, const double *set)
{
    return levers->rest + set[CAPSTAN] * of->per_unit[CAPSTAN] +
           set[BALANCE] * (1 - levers->capstan / levers->back);
}

static double true_let_off(const action *of, const aims *aim, int note)
{
    return aim->let_off[note] + 5 * of->per_unit[BUTTON] * of->set[note][BUTTON];
}

/* Key travel that is left when the jack has escaped. */
static double true_aftertouch(const action *of, const aims *aim, int note)
{
    const lever_set *levers = &of->levers[is_sharp(note)];
    const double *set = of->set[note];
    double lift =
        find_capstan(levers, string_height() - true_let_off(of, aim, note)) - true_rest(of, levers, set);
    return true_dip(levers, set) - lift * levers->front / levers->capstan;
}

double measure(const action *of, const aims *aim, int note, quantity what)
{
    const bool sharp = is_sharp(note);
    const lever_set *levers = &of->levers[sharp];
    const double *set = of->set[note];
    const double risen = set[BALANCE] * (1 + levers->front / levers->back);
    switch (what) {
    case KEY_LEVEL:
        return sharp ? NAN : risen;
    case SHARP_HEIGHT:
        return sharp ? aim->sharp_height + risen : NAN;
    case KEY_DIP:
        return true_dip(levers, set);
    case BLOW:
        return string_height() - lift_hammer(levers, true_rest(of, levers, set));
    case LET_OFF:
        return true_let_off(of, aim, note);
    case DROP:
        return aim->drop + 4 * of->per_unit[DROP_SCREW] * set[DROP_SCREW] -
               0.7 * 5 * of->per_unit[BUTTON] * set[BUTTON];
    case AFTERTOUCH:
        return true_aftertouch(of, aim, note);
    case CHECKING: /* a shallow key lifts its check less, and the hammer is caught lower */
        return aim->checking - of->per_unit[CHECK] * set[CHECK] +
               1.2 * (levers->dip * levers->front / levers->pin - true_dip(levers, set));
    case QUANTITIES:
        break;
    }
    return NAN;
}
