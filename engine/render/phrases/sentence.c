/* sentence.c - makes phrases of amounts, targets and corrections (layer: render/phrases). */
#include "sentence.h"

#include "ascii.h"
#include "quantity.h"
#include "wrap.h"

#define HUNDREDTH (HL_ONE / 100)
#define THOU      INT64_C(25400) /* a thousandth of an inch */

/* A hand turns sixteenths; what lies between them is a figure to start from. */
static void add_turns(hl_text *out, hl_amount value)
{
    const hl_amount sixteenth = HL_ONE / 16;
    if (value % sixteenth != 0) {
        hl__text_exact(out, hl__round_to(value, HUNDREDTH));
        return;
    }
    hl_amount up = (value < 0 ? -value : value) / sixteenth, down = 16;
    const hl_amount whole = up / 16;
    up %= 16;
    if (value < 0)
        hl__text_char(out, '-');
    for (; up > 0 && up % 2 == 0; up /= 2)
        down /= 2;
    if (whole > 0 || up == 0)
        hl__text_printf(out, "%ld", (long)whole);
    if (up > 0)
        hl__text_printf(out, "%s%ld/%ld", whole > 0 ? " " : "", (long)up, (long)down);
}

static bool has_hundredths(hl_unit unit)
{
    return unit == HL_MM || unit == HL_G || unit == HL_DEGREE;
}

/* A reading finer than the step's resolution keeps its digits, as far as a gauge shows any: what was
 * typed in inches has six in mm, and nobody reads those. */
static void add_number(hl_text *out, hl_amount value, hl_unit unit, hl_amount resolution)
{
    if (unit == HL_TURN) {
        add_turns(out, value);
        return;
    }
    if (unit == HL_NOTCH || unit == HL_NO_UNIT) {
        hl__text_exact(out, value);
        return;
    }
    if (has_hundredths(unit) && (resolution <= 0 || value % resolution != 0))
        value = hl__round_to(value, HUNDREDTH);
    const bool exact = resolution <= 0 || value % resolution != 0;
    hl__text_amount(out, value, unit, exact ? 0 : resolution, false);
}

static void add_unit(hl_text *out, hl_amount value, hl_unit unit)
{
    if (unit == HL_NO_UNIT || unit == HL_RATIO)
        return;
    hl__text_char(out, HL_GLUE);
    hl__text_add(out, hl_unit_name(unit));
    if ((unit == HL_TURN || unit == HL_NOTCH) && (value > HL_ONE || value < -HL_ONE))
        hl__text_char(out, 's');
}

void hl__say_amount(hl_text *out, hl_amount value, hl_unit unit, hl_amount resolution)
{
    add_number(out, value, unit, resolution);
    add_unit(out, value, unit);
}

/* "-0.2--0.1" is no range that anybody reads; nor is "1 1/4-1 1/2". */
static const char *choose_dash(hl_amount low, hl_unit unit)
{
    return low < 0 || unit == HL_TURN ? " to " : "-";
}

void hl__say_span(hl_text *out, hl_amount low, hl_amount high, hl_unit unit, hl_amount resolution)
{
    add_number(out, low, unit, resolution);
    if (low != high) {
        hl__text_add(out, choose_dash(low, unit));
        add_number(out, high, unit, resolution);
    }
    add_unit(out, high, unit);
}

void hl__say_exact_span(hl_text *out, hl_amount low, hl_amount high, hl_unit unit)
{
    hl__text_amount(out, low, unit, 0, false);
    if (low != high) {
        hl__text_add(out, choose_dash(low, unit));
        hl__text_amount(out, high, unit, 0, false);
    }
    add_unit(out, high, unit);
}

void hl__say_target(hl_text *out, const hl_target *target, hl_unit unit, hl_amount resolution)
{
    if (target->has_low && target->has_high) {
        hl__say_span(out, target->low, target->high, unit, resolution);
    } else if (target->has_low) {
        hl__text_add(out, "at least ");
        hl__say_amount(out, target->low, unit, resolution);
    } else if (target->has_high) {
        hl__text_add(out, "at most ");
        hl__say_amount(out, target->high, unit, resolution);
    } else {
        hl__text_add(out, "any value");
    }
}

void hl__say_capital(hl_text *out, const char *sentence)
{
    if (*sentence != '\0') {
        hl__text_char(out, hl__upper(*sentence));
        hl__text_add(out, sentence + 1);
    }
}

void hl__say_instruction(hl_text *out, const char *todo)
{
    if (!todo[0])
        return;
    hl_text sentence = {0};
    hl__text_safe(&sentence, todo);
    hl__say_capital(out, sentence.data ? sentence.data : "");
    const char last = sentence.size > 0 ? sentence.data[sentence.size - 1] : '.';
    hl__text_add(out, last == '.' || last == '!' || last == '?' ? " " : ". ");
    out->failed |= sentence.failed;
    hl__text_free(&sentence);
}

static void add_word(hl_text *out, const char *word)
{
    if (out->size > 0)
        hl__text_char(out, ' ');
    hl__text_safe(out, word);
}

/* ---- pieces from the box --------------------------------------------------------------------- */

static bool has_pieces(const hl_correction *correction)
{
    return correction && correction->has_amount && correction->pieces[0] != 0;
}

static bool is_thou(hl_amount size, hl_unit unit)
{
    return (unit == HL_MM || unit == HL_IN) && size % THOU == 0;
}

/* ".005", as the box says it; what is no whole thousandth goes by mm. */
static void add_size(hl_text *out, hl_amount size, hl_unit unit)
{
    if (!is_thou(size, unit)) {
        add_number(out, size, unit, 0);
        return;
    }
    const long thous = (long)(size / THOU);
    if (thous >= 1000)
        hl__text_printf(out, "%ld", thous / 1000);
    hl__text_printf(out, ".%03ld", thous % 1000);
}

static void add_size_unit(hl_text *out, hl_amount size, hl_unit unit)
{
    hl__text_char(out, HL_GLUE);
    hl__text_add(out, is_thou(size, unit) ? "in" : hl_unit_name(unit));
}

void hl__say_size(hl_text *out, hl_amount size, hl_unit unit)
{
    add_size(out, size, unit);
    add_size_unit(out, size, unit);
}

/* ".015 + .005 in", "0.3 + 0.1 mm", ".005 in + 0.04 mm". */
static void add_pieces(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    const hl_amount *pieces = correction->pieces;
    for (int i = 0; i < HL_PIECES && pieces[i] != 0; i++) {
        if (i > 0)
            hl__text_printf(out, "%c+%c", HL_GLUE, HL_GLUE);
        add_size(out, pieces[i], adjuster->unit);
        const bool last = i + 1 == HL_PIECES || pieces[i + 1] == 0;
        if (last || is_thou(pieces[i], adjuster->unit) != is_thou(pieces[i + 1], adjuster->unit))
            add_size_unit(out, pieces[i], adjuster->unit);
    }
}

/* Said aloud, 8, 11 and 18 begin with a vowel; ".008" begins with its point. */
static const char *choose_article(const char *number)
{
    const bool teens =
        number[0] == '1' && (number[1] == '1' || number[1] == '8') && !(number[2] >= '0' && number[2] <= '9');
    return number[0] == '8' || teens ? "an " : "a ";
}

/* The sum in mm, where the pieces don't say it themselves. */
static void add_sum(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    const bool thou = is_thou(correction->pieces[0], adjuster->unit);
    if (!thou && correction->pieces[1] == 0)
        return;
    hl__text_add(out, " (");
    hl__say_amount(out, hl__round_to(correction->amount, HUNDREDTH),
                   adjuster->unit == HL_IN ? HL_MM : adjuster->unit, 0);
    hl__text_char(out, ')');
}

/* "a .005 in balance punching (0.13 mm)", ".015 + .005 in of front punching (0.51 mm)". */
static void add_laid_on(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    hl_text pieces = {0};
    add_pieces(&pieces, adjuster, correction);
    hl__text_char(out, ' ');
    if (correction->pieces[1] == 0)
        hl__text_add(out, choose_article(pieces.data ? pieces.data : ""));
    hl__text_add(out, pieces.data ? pieces.data : "");
    if (correction->pieces[1] != 0)
        hl__text_add(out, " of");
    add_word(out, adjuster->title);
    add_sum(out, adjuster, correction);
    out->failed |= pieces.failed;
    hl__text_free(&pieces);
}

/* ---- the act ----------------------------------------------------------------------------------- */

static void add_how_much(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    hl__text_char(out, ' ');
    if (adjuster->unit == HL_NOTCH && correction->amount == HL_ONE) {
        hl__text_add(out, "a step");
        return;
    }
    if (hl__is_about(adjuster, correction))
        hl__text_add(out, "about ");
    hl__say_amount(out, correction->amount, adjuster->unit, 0);
}

bool hl__is_about(const hl_adjuster *adjuster, const hl_correction *correction)
{
    return correction->has_amount && correction->assumed && !correction->learned && !has_pieces(correction) &&
           adjuster->unit != HL_NOTCH;
}

/* A thing laid on, or a screw that is its own verb: "raise the capstan 1/4 turn". */
static void add_plain_act(hl_text *out, const hl_adjuster *adjuster, const char *way,
                          const hl_correction *correction)
{
    const bool amount = correction && correction->has_amount;
    const bool laid_on = adjuster->n_sizes > 0 || adjuster->unit == HL_G;
    add_word(out, way);
    if (laid_on && has_pieces(correction)) {
        add_laid_on(out, adjuster, correction);
        return;
    }
    if (laid_on && amount) {
        add_how_much(out, adjuster, correction);
        hl__text_add(out, " of");
    } else if (!laid_on) {
        hl__text_add(out, " the");
    }
    add_word(out, adjuster->title);
    if (!laid_on && amount)
        add_how_much(out, adjuster, correction);
}

/* "turn the drop screw 3/8 turn up". */
static void add_act_with_verb(hl_text *out, const hl_adjuster *adjuster, const char *way,
                              const hl_correction *correction)
{
    add_word(out, adjuster->verb);
    hl__text_add(out, " the");
    add_word(out, adjuster->title);
    if (correction && correction->has_amount)
        add_how_much(out, adjuster, correction);
    add_word(out, way);
    if (has_pieces(correction)) {
        hl__text_add(out, " (");
        add_pieces(out, adjuster, correction);
        hl__text_char(out, ')');
    }
}

static void say_act(hl_text *out, const hl_adjuster *adjuster, bool more, const hl_correction *correction)
{
    const char *way = more ? adjuster->more : adjuster->less;
    hl_text phrase = {0};
    if (adjuster->verb[0] != '\0')
        add_act_with_verb(&phrase, adjuster, way, correction);
    else
        add_plain_act(&phrase, adjuster, way, correction);
    hl__text_add(out, phrase.data ? phrase.data : "");
    out->failed |= phrase.failed;
    hl__text_free(&phrase);
}

void hl__say_act(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    say_act(out, adjuster, correction->more, correction);
}

void hl__say_way(hl_text *out, const hl_adjuster *adjuster, bool more)
{
    say_act(out, adjuster, more, NULL);
}

void hl__say_count(hl_text *out, int n, const char *one, const char *many)
{
    hl__text_printf(out, "%d %s", n, n == 1 ? one : many);
}
