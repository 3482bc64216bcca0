/* levers.h - a grand action from the coordinates of its parts, solved contact by contact with the GNU
 * Scientific Library.  It knows nothing of the rules or the engine: tests hold both to it.
 *
 * mm and radians; x away from the player, y up, anticlockwise positive; key down is positive.  The lengths
 * are an example that closes the loop, chosen round, and no maker's action. */
#ifndef LEVERS_H
#define LEVERS_H

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <stdbool.h>

typedef struct spot {
    double x, y;
} spot;

typedef struct levers {
    double front, capstan;                /* arms of the key from its balance pin */
    double capstan_height, dome;          /* top of the capstan above the pivot line; radius of its dome */
    double button, drop_screw;            /* heights above the keybed */
    double dip;                           /* at the front */
    double edge;                          /* from the rest contact to the jack's hammer-side edge */
    double string;                        /* height */
    spot pivot, whippen, heel, jack, toe; /* the last three in the whippen's frame */
    spot jack_top, face;                  /* face: the normal of the jack's face */
    spot lever, nose;                     /* the repetition lever's centre, and its end over the screw */
    spot hammer, knuckle, strike;         /* the last two in the hammer's frame */
    double knuckle_radius, edge_at;
    double over; /* how far the lever's face lies over the jack's */
} levers;

static inline spot turned(double by, spot p)
{
    return (spot){cos(by) * p.x - sin(by) * p.y, sin(by) * p.x + cos(by) * p.y};
}
static inline spot sum(spot a, spot b)
{
    return (spot){a.x + b.x, a.y + b.y};
}
static inline spot less(spot a, spot b)
{
    return (spot){a.x - b.x, a.y - b.y};
}
static inline double along(spot a, spot b)
{
    return a.x * b.x + a.y * b.y;
}

/* What one contact asks: how far its two sides are apart when its body has turned by an angle. */
typedef struct contact {
    const levers *of;
    spot at, normal;
    double key, whippen;
    double (*gap)(const struct contact *c, double angle);
} contact;

static double gap_of(double angle, void *context)
{
    const contact *c = context;
    return c->gap(c, angle);
}

/* Brent's method between two angles; NaN when the contact does not close there. */
static inline double close_contact(contact c, double low, double high)
{
    gsl_function f = {gap_of, &c};
    if (gap_of(low, &c) * gap_of(high, &c) > 0)
        return NAN;
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    gsl_root_fsolver_set(solver, &f, low, high);
    double root = low;
    for (int i = 0; i < 100; i++) {
        gsl_root_fsolver_iterate(solver);
        root = gsl_root_fsolver_root(solver);
        if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver), 1e-13,
                                   0) == GSL_SUCCESS)
            break;
    }
    gsl_root_fsolver_free(solver);
    return root;
}

/* ---- the contacts ------------------------------------------------------------------------------ */

static double dome_on_heel(const contact *c, double whippen)
{
    const levers *l = c->of;
    const spot dome = sum(l->pivot, turned(c->key, (spot){l->capstan, l->capstan_height - l->dome}));
    return turned(-whippen, less(dome, l->whippen)).y - (l->heel.y - l->dome);
}

static double toe_on_button(const contact *c, double turn)
{
    const levers *l = c->of;
    const spot centre = sum(l->whippen, turned(c->whippen, l->jack));
    return sum(centre, turned(c->whippen + turn, less(l->toe, l->jack))).y - l->button;
}

static double nose_on_screw(const contact *c, double turn)
{
    const levers *l = c->of;
    const spot centre = sum(l->whippen, turned(c->whippen, l->lever));
    return sum(centre, turned(c->whippen + turn, less(l->nose, l->lever))).y - l->drop_screw;
}

static double knuckle_on_face(const contact *c, double hammer)
{
    const levers *l = c->of;
    return along(c->normal, less(sum(l->hammer, turned(hammer, l->knuckle)), c->at)) - l->knuckle_radius;
}

static double knuckle_on_corner(const contact *c, double hammer)
{
    const levers *l = c->of;
    const spot from = less(sum(l->hammer, turned(hammer, l->knuckle)), c->at);
    return hypot(from.x, from.y) - l->knuckle_radius;
}

/* ---- a slow press ------------------------------------------------------------------------------ */

typedef struct press {
    double on_jack, on_lever; /* heights of the hammer above the keybed, as each would hold it */
    double slid;              /* along the jack's face */
} press;

static inline double height_of(const levers *l, double hammer)
{
    return l->hammer.y + l->strike.x * sin(hammer) + l->strike.y * cos(hammer);
}

static inline press press_key(const levers *l, double down)
{
    const double key = asin(down / l->front);
    contact c = {.of = l, .key = key, .gap = dome_on_heel};
    const double whippen = close_contact(c, -.2, .2);
    c = (contact){.of = l, .whippen = whippen, .gap = toe_on_button};
    const double jack = toe_on_button(&c, 0) > 0 ? close_contact(c, 0, .4) : 0;
    const spot centre = sum(l->whippen, turned(whippen, l->jack));
    const spot normal = turned(whippen + jack, l->face);
    const spot top = sum(centre, turned(whippen + jack, less(l->jack_top, l->jack)));
    c = (contact){.of = l, .at = top, .normal = normal, .gap = knuckle_on_face};
    double hammer = close_contact(c, -.5, .5);
    press out = {
        .slid = along((spot){normal.y, -normal.x}, less(sum(l->hammer, turned(hammer, l->knuckle)), top))};
    if (out.slid > l->edge_at) {
        const spot corner = {top.x + normal.y * l->edge_at, top.y - normal.x * l->edge_at};
        c = (contact){.of = l, .at = corner, .gap = knuckle_on_corner};
        hammer = close_contact(c, hammer - .12, hammer + 1e-4);
    }
    out.on_jack = height_of(l, hammer);
    c = (contact){.of = l, .whippen = whippen, .gap = nose_on_screw};
    const double lever = nose_on_screw(&c, 0) > 0 ? close_contact(c, 0, .3) : 0;
    const spot from =
        less((spot){l->jack_top.x + l->over * l->face.x, l->jack_top.y + l->over * l->face.y}, l->lever);
    c = (contact){.of = l,
                  .at = sum(sum(l->whippen, turned(whippen, l->lever)), turned(whippen + lever, from)),
                  .normal = turned(whippen + lever, l->face),
                  .gap = knuckle_on_face};
    out.on_lever = height_of(l, close_contact(c, -.5, .5));
    return out;
}

/* What a technician reads of this action. */
typedef struct regulation {
    double blow, let_off, drop, aftertouch, travel; /* travel: of the key, to let-off */
    double ratio;                                   /* on average, to let-off */
} regulation;

static inline regulation regulate(const levers *l)
{
    const press rest = press_key(l, 0);
    const double from = fmax(rest.on_jack, rest.on_lever), step = .002;
    double highest = from, at = 0, fallen = NAN;
    for (double down = 5; down < 14 && isnan(fallen); down += step) {
        const press now = press_key(l, down);
        if (now.on_jack > highest) {
            highest = now.on_jack;
            at = down;
        } else if (now.on_jack <= now.on_lever && at > 0) {
            fallen = highest - now.on_lever;
        }
    }
    regulation out = {l->string - from, l->string - highest, fallen, l->dip - at, at, 0};
    out.ratio = (out.blow - out.let_off) / at;
    return out;
}

/* The example: blow 46, let-off 1.6, drop 1.6, dip 10. */
static inline levers example_levers(void)
{
    const double size = hypot(9.5, 42);
    levers l = {.front = 254,
                .capstan = 127,
                .capstan_height = 36.724,
                .dome = 4,
                .button = 90.486,
                .drop_screw = 135.145,
                .dip = 10,
                .edge = 3,
                .string = 193,
                .pivot = {0, 40},
                .whippen = {193, 100},
                .heel = {-66, -21},
                .jack = {-98, -14},
                .toe = {-122, -12},
                .jack_top = {-88.5, 28},
                .face = {9.5 / size, 42 / size},
                .lever = {-48, 8},
                .hammer = {90, 145},
                .knuckle = {17, -9.5},
                .strike = {130, 48},
                .knuckle_radius = 5,
                .edge_at = 1e9,
                .over = .2};
    const double x = l.jack_top.x + l.over * l.face.x, y = l.jack_top.y + l.over * l.face.y;
    l.nose = (spot){-109, y - (-109 - x) * l.face.x / l.face.y};
    l.edge_at = press_key(&l, 0).slid + l.edge;
    return l;
}

/* The capstan's height that gives the blow again, for a key with other arms. */
static inline void set_blow(levers *l, double blow)
{
    double low = l->capstan_height - 4, high = l->capstan_height + 4;
    for (int i = 0; i < 60; i++) {
        l->capstan_height = (low + high) / 2;
        const press rest = press_key(l, 0);
        if (!(l->string - fmax(rest.on_jack, rest.on_lever) <= blow)) /* nor where nothing closes */
            low = l->capstan_height;
        else
            high = l->capstan_height;
    }
}

#endif
