/* infer_facts.c - an assumed figure that this piano's readings contradict (layer: state).
 *
 * One reading beside its model tells of a slip.  When most lie to the same side, it is the figure in
 * the model that nobody stated.  Each note is solved for it; the median over the notes is what they
 * imply, since some slips among them don't move it. */
#include "infer_facts.h"

#include "model_compare.h"

#include <math.h>
#include <stdlib.h>

#define ROUNDS       80   /* halving or doubling reaches anything in fewer */
#define CLOSE        1e-9 /* share of the value: there */
#define LEAST_SOLVED 3    /* notes of a colour: as many as teach an adjuster */
#define FARTHEST     3.0  /* times the assumed value, or that part of it: beyond that it is a slip */

#define BOTH 0 /* colours of notes: as of hl_implied */

typedef struct counts {
    int compared, differ, high, low;
} counts;

/* One fact taken otherwise, and what comes of it. */
typedef struct trial {
    int fact;
    bool split, told[2];      /* by colour; naturals, or all, and sharps */
    hl_supposed supposed;     /* NaN where it stays as it is */
    counts before[2], now[2]; /* by colour; all in the first when not split */
    int cured;                /* notes that differ before and agree now */
    int agree;
    bool good;
} trial;

typedef struct implying {
    hl_table *table;
    int step, colour; /* of the notes looked at */
    double *solved;   /* [keys + 1] */
    hl_implied *list;
    size_t n, room;
} implying;

static bool takes_part(const implying *in, int note)
{
    if (!hl__table_holds(in->table, in->step, note))
        return false;
    return in->colour == BOTH || hl__compare_colour(in->table, note) == in->colour - 1;
}

static void count_note(counts *c, int side)
{
    c->compared++;
    c->differ += side != 0;
    c->high += side > 0;
    c->low += side < 0;
}

static bool compare(const implying *in, int note, const hl_supposed *supposed, hl_compared *out)
{
    hl__table_values(in->table, note, in->table->note_values);
    return hl__compare_at(in->table, in->step, note, supposed, out);
}

static counts count_all(const implying *in)
{
    counts all = {0};
    for (int note = 0; note <= in->table->keys; note++) {
        if (!takes_part(in, note))
            continue;
        const int place = hl__place(in->step, note);
        const hl_modelled *modelled = &in->table->modelled[place];
        if (modelled->has_model)
            count_note(&all, !modelled->differs ? 0 : in->table->values[place] > modelled->model ? 1 : -1);
    }
    return all;
}

/* Half of what can be compared, a handful at least, and all to one side of the model. */
static bool is_one_sided(const counts *c)
{
    int most = c->high > c->low ? c->high : c->low;
    return most >= HL_IMPLIED_LEAST && 2 * most >= c->compared;
}

/* ---- what one note asks for ------------------------------------------------------------------- */

/* The variable's value that makes the formula come to `wanted`, by Newton's way, no step of which may
 * more than double or halve it: it keeps its sign.  NaN: none was found. */
static double solve(const hl_formula *formula, double *vars, int at, double wanted)
{
    double slopes[HL_FORMULA_VARS];
    for (int round = 0; round < ROUNDS; round++) {
        double value = hl__formula_slopes(formula, vars, slopes), x = vars[at];
        double next = x + (wanted - value) / slopes[at];
        if (!isfinite(value) || !isfinite(next))
            return NAN;
        if (x != 0 && (next / x > 2 || next / x < 0.5))
            next = next / x > 2 ? 2 * x : x / 2;
        vars[at] = next;
        if (fabs(next - x) <= CLOSE * fabs(next))
            return next;
    }
    return NAN;
}

static int order(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

/* Over the notes of a colour, or of both (-1), where the fact is assumed; NaN: too few. */
static double find_median(const implying *in, int var, int colour)
{
    const hl_table *table = in->table;
    const hl_formula *formula = table->book->steps[in->step].formula;
    int n = 0;
    for (int note = 0; note <= table->keys; note++) {
        double vars[HL_FORMULA_VARS];
        bool assumed = false;
        hl_compared compared;
        int here = hl__compare_colour(table, note);
        if (!takes_part(in, note) || (colour >= 0 && here != colour) || !compare(in, note, NULL, &compared) ||
            !table->sheet->assumed[formula->vars[var].index][here])
            continue;
        hl__compare_vars(table, formula, note, NULL, vars, &assumed);
        double read = (double)hl__table_at(table, in->step, note).value / (double)HL_ONE;
        double x = solve(formula, vars, var, read);
        if (isfinite(x))
            in->solved[n++] = x;
    }
    if (n < LEAST_SOLVED)
        return NAN;
    qsort(in->solved, (size_t)n, sizeof *in->solved, order);
    return (in->solved[(n - 1) / 2] + in->solved[n / 2]) / 2;
}

double hl__three_digits(double value)
{
    if (value == 0 || !isfinite(value))
        return value;
    double grain = pow(10, floor(log10(fabs(value))) - 2);
    return round(value / grain) * grain;
}

/* A length below nothing or a ratio that no action has is no explanation. */
static double find_implied(const implying *in, int var, int colour, double assumed)
{
    double implied = hl__three_digits(find_median(in, var, colour));
    if (assumed >= 0 && implied < 0)
        return NAN;
    if (assumed != 0 && (implied / assumed > FARTHEST || implied / assumed < 1 / FARTHEST))
        return NAN;
    return implied;
}

/* ---- what another value would do -------------------------------------------------------------- */

static void count_trial(const implying *in, trial *t)
{
    t->before[0] = t->before[1] = t->now[0] = t->now[1] = (counts){0};
    t->cured = t->agree = 0;
    for (int note = 0; note <= in->table->keys; note++) {
        hl_compared before, now;
        if (!takes_part(in, note) || !compare(in, note, NULL, &before) ||
            !compare(in, note, &t->supposed, &now))
            continue;
        int part = t->split ? hl__compare_colour(in->table, note) : 0;
        count_note(&t->before[part], before.side);
        count_note(&t->now[part], now.side);
        t->cured += before.side != 0 && now.side == 0;
        t->agree += now.side == 0;
    }
}

/* A colour that agrees no better than before stays as it is. */
static void drop_useless(const implying *in, trial *t)
{
    for (int i = 0; i < 2; i++) {
        t->told[i] =
            (t->split || i == 0) && !isnan(t->supposed.value[i]) && t->now[i].differ < t->before[i].differ;
        if (t->split && !t->told[i])
            t->supposed.value[i] = NAN;
    }
    count_trial(in, t);
}

static trial try_fact(const implying *in, int var, const counts *all)
{
    const hl_sheet *sheet = in->table->sheet;
    const int fact = in->table->book->steps[in->step].formula->vars[var].index;
    const bool *assumed = sheet->assumed[fact];
    const double *values = sheet->values[fact];
    trial t = {.fact = fact, .split = values[0] != values[1] || assumed[0] != assumed[1]};
    t.supposed = (hl_supposed){fact, {NAN, NAN}};
    if ((!assumed[0] && !assumed[1]) || (!t.split && in->colour != BOTH))
        return t;
    for (int i = 0; i < 2; i++)
        if (assumed[i])
            t.supposed.value[i] = find_implied(in, var, t.split ? i : -1, values[i]);
    count_trial(in, &t);
    drop_useless(in, &t);
    t.good = (t.told[0] || t.told[1]) && 2 * t.cured > all->differ && t.agree > all->compared - all->differ;
    return t;
}

/* ---- telling it ------------------------------------------------------------------------------- */

/* The notes' models are reckoned with it from here on. */
static void apply(const implying *in, const trial *t)
{
    for (int note = 0; note <= in->table->keys; note++) {
        hl_compared compared;
        if (!takes_part(in, note) || !compare(in, note, &t->supposed, &compared))
            continue;
        in->table->modelled[hl__place(in->step, note)] = (hl_modelled){.has_model = true,
                                                                       .model = compared.model,
                                                                       .assumed = compared.assumed,
                                                                       .differs = compared.side != 0};
    }
}

static bool make_room(implying *in)
{
    if (in->n < in->room)
        return true;
    hl_implied *list = hl__arena_array(in->table->arena, 2 * in->room + 8, sizeof *list);
    if (!list)
        return false;
    for (size_t i = 0; i < in->n; i++)
        list[i] = in->list[i];
    in->list = list;
    in->room = 2 * in->room + 8;
    return true;
}

static bool tell(implying *in, const trial *t, bool instead)
{
    for (int i = 0; i < 2; i++) {
        if (!t->told[i])
            continue;
        if (!make_room(in))
            return false;
        in->list[in->n++] = (hl_implied){.step = in->step,
                                         .fact = t->fact,
                                         .colour = t->split ? i + 1 : 0,
                                         .above = t->before[i].high > t->before[i].low,
                                         .instead = instead,
                                         .assumed = in->table->sheet->values[t->fact][i],
                                         .implied = t->supposed.value[i],
                                         .compared = t->before[i].compared,
                                         .differ = t->before[i].differ,
                                         .agree = t->now[i].compared - t->now[i].differ};
    }
    return true;
}

/* The fact that makes most notes agree, the formula's first among equals, then those that would do
 * instead.  *told: there is one.  False = no memory. */
static bool imply_colour(implying *in, bool *told)
{
    const hl_formula *formula = in->table->book->steps[in->step].formula;
    const counts all = count_all(in);
    trial trials[HL_FORMULA_VARS];
    int best = -1;
    *told = false;
    if (!is_one_sided(&all))
        return true;
    for (int i = 0; i < formula->n_vars; i++) {
        trials[i] = (trial){.good = false};
        if (formula->vars[i].kind == HL_VAR_FACT)
            trials[i] = try_fact(in, i, &all);
        if (trials[i].good && (best < 0 || trials[i].agree > trials[best].agree))
            best = i;
    }
    if (best < 0)
        return true;
    *told = true;
    bool ok = tell(in, &trials[best], false);
    for (int i = 0; ok && i < formula->n_vars; i++)
        if (i != best && trials[i].good)
            ok = tell(in, &trials[i], true);
    apply(in, &trials[best]);
    return ok;
}

/* All notes together; when that says nothing, each colour by itself. */
static bool imply_step(implying *in, int step)
{
    bool told = false, ok = true;
    in->step = step;
    for (in->colour = BOTH; ok && in->colour <= 2; in->colour++) {
        ok = imply_colour(in, &told);
        if (told && in->colour == BOTH)
            break;
    }
    return ok;
}

bool hl__infer_facts(hl_table *table, hl_implied **out, size_t *n)
{
    implying in = {.table = table, .solved = calloc((size_t)table->keys + 1, sizeof *in.solved)};
    bool ok = in.solved != NULL;
    for (int i = 0; ok && i < table->book->n_steps; i++)
        if (hl__compare_has_model(&table->book->steps[i]) && table->book->steps[i].scope != HL_ONCE)
            ok = imply_step(&in, i);
    free(in.solved);
    *out = in.list;
    *n = in.n;
    return ok;
}
