/* page_learned.c - what this piano taught about its adjusters, to read and to keep (layer: render/text).
 *
 * To keep: where one fact of the book is behind an adjuster and nothing else, the fact is
 * solved for and goes into the sheet.  Otherwise the move itself is restated for a shop's book, as
 * the book's formula times what was learned, so that every key keeps its own geometry. */
#include "page.h"

#include "infer_facts.h"
#include "number.h"
#include "quantity.h"
#include "sentence.h"
#include "wrap.h"

#include <math.h>

/* Moves of one screw that rest on one fact must agree on it. */
#define AGREE 0.05

/* ---- which fact ---------------------------------------------------------------------------- */

static int find_var(const hl_formula *formula, int fact)
{
    for (int i = 0; formula && i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_FACT && formula->vars[i].index == fact)
            return i;
    return -1;
}

/* Does the fact speak for this adjuster alone?  Another formula would be changed with it. */
static bool is_own(const hl_book *book, int adjuster, int fact)
{
    for (int i = 0; i < book->n_steps; i++)
        if (find_var(book->steps[i].formula, fact) >= 0)
            return false;
    for (int i = 0; i < book->n_diagnoses; i++)
        if (find_var(book->diagnoses[i].when, fact) >= 0)
            return false;
    for (int i = 0; i < book->n_adjusters; i++)
        for (int k = 0; i != adjuster && k < book->adjusters[i].n_moves; k++)
            if (find_var(book->adjusters[i].moves[k].formula, fact) >= 0)
                return false;
    return true;
}

/* Does the move grow in step with the fact?  Twice the fact is then twice the move. */
static bool is_proportional(const hl_audit *audit, const hl_formula *formula, int var, int note)
{
    double vars[HL_FORMULA_VARS], slopes[HL_FORMULA_VARS];
    bool assumed = false;
    for (int i = 0; i < formula->n_vars; i++)
        vars[i] = hl__sheet_value(audit->sheet, formula->vars[i].index, note, &assumed);
    double value = hl__formula_slopes(formula, vars, slopes);
    double grown = slopes[var] * vars[var];
    vars[var] *= 2;
    double twice = hl__formula_value(formula, vars);
    return fabs(grown - value) <= 1e-9 * fabs(value) && fabs(twice - 2 * value) <= 1e-9 * fabs(value);
}

static const hl_formula *find_formula(const hl_book *book, const hl_learned *learned)
{
    const hl_adjuster *adjuster = &book->adjusters[learned->adjuster];
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == learned->step && adjuster->moves[i].kind == HL_MOVE_BY)
            return adjuster->moves[i].formula;
    return NULL;
}

/* The one fact that says what was learned, or -1 when none does, or more than one. */
static int find_fact(const hl_audit *audit, const hl_learned *learned)
{
    const hl_formula *formula = find_formula(audit->book, learned);
    int found = -1;
    for (int i = 0; formula && i < formula->n_vars; i++) {
        if (formula->vars[i].kind != HL_VAR_FACT ||
            !is_own(audit->book, learned->adjuster, formula->vars[i].index) ||
            !is_proportional(audit, formula, i, learned->note))
            continue;
        if (found >= 0)
            return -1;
        found = formula->vars[i].index;
    }
    return found;
}

/* What all used moves of the adjuster that rest on the fact say of it together; false when they
 * don't agree. */
static bool pool_factor(const hl_audit *audit, int adjuster, int fact, double *factor)
{
    double sum = 0, weight = 0, low = 0, high = 0;
    for (size_t i = 0; i < audit->found.n_learned; i++) {
        const hl_learned *learned = &audit->found.learned[i];
        if (!learned->used || learned->adjuster != adjuster ||
            find_var(find_formula(audit->book, learned), fact) < 0)
            continue;
        low = weight == 0 || learned->factor < low ? learned->factor : low;
        high = weight == 0 || learned->factor > high ? learned->factor : high;
        sum += learned->n * learned->factor;
        weight += learned->n;
    }
    *factor = weight > 0 ? sum / weight : 1;
    return weight > 0 && high - low <= AGREE * *factor;
}

/* ---- lines to keep ------------------------------------------------------------------------- */

static void add_fact_line(hl_text *out, const hl_fact *fact, const char *colour, double value)
{
    hl__text_add(out, "# ");
    hl__text_safe(out, fact->id);
    hl__text_add(out, colour);
    hl__text_add(out, ": ");
    hl__text_double(out, hl__three_digits(value));
    hl__text_char(out, '\n');
}

static void add_fact(hl_text *out, const hl_audit *audit, int index, double factor)
{
    const hl_fact *fact = &audit->book->facts[index];
    const double *values = audit->sheet->values[index];
    if (values[0] == values[1]) {
        add_fact_line(out, fact, "", values[0] * factor);
        return;
    }
    if (!isnan(values[0]))
        add_fact_line(out, fact, " naturals", values[0] * factor);
    if (!isnan(values[1]))
        add_fact_line(out, fact, " sharps", values[1] * factor);
}

/* A bare number is in the step's unit, and formulas in base units. */
static void add_move(hl_text *out, const hl_step *step, const hl_formula *formula, double factor)
{
    hl__text_safe(out, step->id);
    hl__text_add(out, " = ");
    if (formula->n_vars == 0) {
        double base = (double)hl__unit_scale(step->unit) / (double)HL_ONE;
        hl__text_double(out, hl__three_digits(hl__formula_value(formula, NULL) * factor / base));
        return;
    }
    hl__text_char(out, '"');
    hl__text_double(out, hl__three_digits(factor));
    hl__text_add(out, " * (");
    hl__text_safe(out, formula->text);
    hl__text_add(out, ")\"");
}

/* Does a fact line say it? */
static bool is_by_fact(const hl_audit *audit, const hl_learned *learned, int *fact, double *factor)
{
    *fact = find_fact(audit, learned);
    return *fact >= 0 && pool_factor(audit, learned->adjuster, *fact, factor);
}

static void add_facts(hl_text *out, const hl_audit *audit, size_t from, size_t to)
{
    int said = -1, fact;
    double factor;
    for (size_t i = from; i < to; i++) {
        if (!audit->found.learned[i].used || !is_by_fact(audit, &audit->found.learned[i], &fact, &factor) ||
            fact == said)
            continue;
        add_fact(out, audit, fact, factor);
        said = fact;
    }
}

static void add_adjuster(hl_text *out, const hl_audit *audit, size_t from, size_t to)
{
    int n = 0, fact;
    double factor;
    for (size_t i = from; i < to; i++) {
        const hl_learned *learned = &audit->found.learned[i];
        if (!learned->used || is_by_fact(audit, learned, &fact, &factor))
            continue;
        if (n == 0) {
            hl__text_add(out, "adjuster { \"");
            hl__text_safe(out, audit->book->adjusters[learned->adjuster].id);
            hl__text_add(out, "\", moves = { ");
        } else {
            hl__text_add(out, ", ");
        }
        add_move(out, &audit->book->steps[learned->step], find_formula(audit->book, learned),
                 learned->factor);
        n = learned->n > n ? learned->n : n;
    }
    if (n > 0)
        hl__text_printf(out, " }, why = \"learned from %d adjustments\" },\n", n);
}

/* One adjuster after the other; the list has each one's moves together. */
hl_code hl_learned_text(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    hl_text text = {0};
    size_t to = 0;
    *out = NULL;
    for (size_t from = 0; from < audit->found.n_learned; from = to) {
        while (to < audit->found.n_learned &&
               audit->found.learned[to].adjuster == audit->found.learned[from].adjuster)
            to++;
        add_facts(&text, audit, from, to);
        add_adjuster(&text, audit, from, to);
    }
    return hl__text_take(&text, out, size, err);
}

/* ---- lines to read ------------------------------------------------------------------------- */

static hl_unit find_base(hl_unit unit)
{
    return unit == HL_IN ? HL_MM : unit; /* effects are of base units */
}

static void add_effect(hl_text *out, const hl_step *step, hl_amount effect)
{
    hl__say_amount(out, effect < 0 ? -effect : effect, step->unit, 0);
}

static void add_used(hl_text *out, const hl_book *book, const hl_learned *learned)
{
    const hl_adjuster *adjuster = &book->adjusters[learned->adjuster];
    const hl_step *step = &book->steps[learned->step];
    hl__text_add(out, ": ");
    hl__say_amount(out, HL_ONE, find_base(adjuster->unit), 0);
    hl__text_add(out, " moves ");
    hl__text_safe(out, step->title);
    hl__text_char(out, ' ');
    add_effect(out, step, learned->effect);
    hl__text_printf(out, " here (%d adjustments); the book assumed ", learned->n);
    add_effect(out, step, learned->assumed);
    hl__text_char(out, '.');
}

static void add_unused(hl_text *out, const hl_book *book, const hl_learned *learned)
{
    static const char *const whys[] = {
        [HL_LEARNED_USED] = "",
        [HL_LEARNED_FEW] = "it takes three adjustments that were read before and after",
        [HL_LEARNED_SPREAD] = "the adjustments don't agree with one another",
        [HL_LEARNED_NOISE] = "the gauge can't tell it from the book's figure yet",
        [HL_LEARNED_WAY] = "the readings went the other way: look for a way or a sign written wrong",
        [HL_LEARNED_FAR] = "what was read lies too far from the book's figure: look for a slip",
    };
    hl__text_add(out, ", ");
    hl__text_safe(out, book->steps[learned->step].title);
    hl__text_add(out, ": the book's figure (");
    add_effect(out, &book->steps[learned->step], learned->assumed);
    hl__text_add(out, " for ");
    hl__say_amount(out, HL_ONE, find_base(book->adjusters[learned->adjuster].unit), 0);
    hl__text_printf(out, ") stays after %d adjustments: %s.", learned->n, whys[learned->why]);
}

/* One or two adjustments are no news. */
static bool is_told(const hl_learned *learned)
{
    return learned->used || learned->why != HL_LEARNED_FEW;
}

void hl__page_learned(hl_page *page)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    bool any = false;
    for (size_t i = 0; i < audit->found.n_learned; i++) {
        const hl_learned *learned = &audit->found.learned[i];
        if (!is_told(learned))
            continue;
        if (!any) {
            hl__text_char(page->out, '\n');
            hl__text_add(&line, "Learned on this piano:");
            hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
        }
        any = true;
        hl__text_safe(&line, audit->book->adjusters[learned->adjuster].title);
        if (learned->used)
            add_used(&line, audit->book, learned);
        else
            add_unused(&line, audit->book, learned);
        hl__page_add(page, &line, HL_INK_PLAIN, 2, 4);
    }
}
